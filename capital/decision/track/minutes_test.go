package track_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track"
	"shopstint/capital/decision/track/evidence"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// Source of the examples below: common practice, no source; sums stand beside them.

// timed is a line of work on so many jobs.
func timed(day int, subject, job, operation string, jobs, minutes float64) logbook.Entry {
	return logbook.Entry{
		Date: on(day), Kind: logbook.Work, Subject: subject, Job: job, Operation: operation, Jobs: jobs,
		Minutes: quantity.Minutes(minutes), Given: logbook.HasMinutes,
	}
}

// The top is 2.4 m by 0.9 m, 2.16 m² a face, and heavy: 1.5 min of handling a pass.
func TestMinutesReckonedForALineOfWork(t *testing.T) {
	for _, one := range []struct {
		subject, job, operation string
		minutes                 float64 // of two jobs
		path                    string
	}{
		{"planer", "top", "plane", 2 * (8*(2.4/6+1.5) + 1), "shops.mill.machines.planer"}, // 3 passes and a finish pass on both faces, turned once
		{"planer_own", "top", "plane", 2 * (8*(2.4/6+1.5) + 1), "machines.planer_own"},
		{"sled", "top", "plane", 2 * (2*25*2.16 + 10), "tools.sled"},
		{"belt", "top", "sand/80", 2 * (4*(2.4/5+1.5) + 1), "shops.mill.machines.belt"}, // 0.6 mm in two passes a face
		{"belt", "top", "sand/120", 2 * (2*(2.4/5+1.5) + 1), "shops.mill.machines.belt"},
		{"belt", "top", "sand", 2 * (10*(2.4/5+1.5) + 4), "shops.mill.machines.belt"},
		{"belt_own", "top", "sand", 2 * (10*(2.4/5+1.5) + 4), "machines.belt_own"},
		{"disc", "top", "sand", 2 * 4 * (2*10*2.16 + 3), "tools.disc"},
		{"disc", "top", "sand/180", 2 * (2*10*2.16 + 3), "tools.disc"},
		{"saw", "top", "cut", 2 * 3 * (3*2.4 + 8), "tools.saw"},
		{"belt", "", "setup", 8, "shops.mill.machines.belt"},
		{"belt", "top", "setup", 8 + 4*6, "shops.mill.machines.belt"}, // and four grits changed
		{"disc", "top", "setup", 3 + 4*0.5, "tools.disc"},
		{"saw", "top", "setup", 5, "tools.saw"},
		{"planer_own", "", "setup", 10, "machines.planer_own"},
	} {
		name := fmt.Sprint(one.subject, " ", one.job, " ", one.operation)
		r := taken(t, studygen.Round(), []logbook.Entry{timed(0, one.subject, one.job, one.operation, 2, 30)})
		require.Len(t, r.Machines, 1, name)
		m := r.Machines[0]
		assert.Equal(t, one.path, m.Path, name)
		require.Len(t, m.Operations, 1, name)
		assert.Equal(t, one.operation, m.Operations[0].Key, name)
		assert.Equal(t, 1, m.Operations[0].Lines, name)
		assert.InDelta(t, one.minutes, m.Operations[0].Predicted.Minutes(), 1e-9, name)
		assert.InDelta(t, 30, m.Operations[0].Actual.Minutes(), 1e-9, name)
		assert.InDelta(t, 30/one.minutes, m.Operations[0].Ratio.Value, 1e-9, name)
		if one.operation == track.Setup {
			assert.Zero(t, m.All.Lines, name)
			assert.Equal(t, one.job == "", m.PlainSetup, name)
			assert.False(t, m.Heavy, name)
		} else {
			assert.InDelta(t, one.minutes, m.All.Predicted.Minutes(), 1e-9, name)
			assert.InDelta(t, one.minutes, m.Reckoned.Predicted.Minutes(), 1e-9, name)
			assert.True(t, m.Heavy, name)
			assert.True(t, m.PlainSetup, name)
		}
		assert.False(t, m.Light, name)
		assert.Equal(t, track.TooFew, m.Bias, name)
		assert.Nil(t, m.Factors, name)
	}
}

// A set-up of 4 min of the step's own is for each job, or for the visit.
func TestASetUpOfAStepIsPartOfTheSetUpOfItsJob(t *testing.T) {
	for per, minutes := range map[string]float64{model.PerJob: 10 + 2*4, model.PerVisit: 10 + 4} {
		s := studygen.Round()
		s.JobTypes[0].Operations[0].Setup, s.JobTypes[0].Operations[0].SetupPer = quantity.Minutes(4), per
		r := taken(t, s, []logbook.Entry{timed(0, "planer", "top", "setup", 2, 20)})
		assert.InDelta(t, minutes, machine(t, r, "shops.mill.machines.planer").Operations[0].Predicted.Minutes(), 1e-9, per)
	}
}

func TestMachinesAndTheirOperationsAreInTheOrderOfTheirKeys(t *testing.T) {
	r := taken(t, studygen.Round(), []logbook.Entry{
		timed(0, "saw", "top", "cut", 1, 50), timed(0, "planer", "top", "plane", 1, 17), timed(0, "belt", "top", "sand/80", 1, 9), timed(0, "belt", "top", "sand/120", 1, 5),
		timed(0, "belt", "top", "setup", 1, 30), timed(0, "planer_own", "top", "plane", 1, 17), timed(0, "belt", "top", "sand/120", 1, 5),
	})
	var paths, keys []string
	for _, m := range r.Machines {
		paths = append(paths, m.Path)
	}
	belt := machine(t, r, "shops.mill.machines.belt")
	for _, one := range belt.Operations {
		keys = append(keys, one.Key)
	}
	assert.Equal(t, []string{"machines.planer_own", "shops.mill.machines.belt", "shops.mill.machines.planer", "tools.saw"}, paths)
	assert.Equal(t, []string{"sand/120", "sand/80", "setup"}, keys)
	assert.Equal(t, 2, belt.Operations[0].Lines)
	assert.Equal(t, 3, belt.All.Lines)
	assert.InDelta(t, 19, belt.All.Actual.Minutes(), 1e-9)
}

// The second shop has the same machines; a job's line is about the one that it goes to, and
// a line without a job about the first.
func TestAMachineIsThatOfTheShopThatTheJobGoesTo(t *testing.T) {
	s := twoShops()
	s.JobTypes[0].Shop = "attic"
	r := taken(t, s, []logbook.Entry{timed(0, "planer", "top", "plane", 1, 20), timed(0, "planer", "", "setup", 1, 12)})
	require.Len(t, r.Machines, 2)
	assert.Equal(t, "shops.attic.machines.planer", r.Machines[0].Path)
	assert.Equal(t, "shops.mill.machines.planer", r.Machines[1].Path)
}

func TestWorkThatTheStudyDoesNotHaveThereIsLeftOut(t *testing.T) {
	const why = "the study has no such work on that machine, so that there are no minutes to compare with"
	for _, line := range []logbook.Entry{
		timed(0, "planer", "top", "sand", 1, 20), timed(0, "saw", "top", "plane", 1, 20), timed(0, "belt", "top", "sand/60", 1, 20),
		timed(0, "planer", "top", "plane/80", 1, 20), timed(0, "planer", "", "plane", 1, 20), timed(0, "nothing", "", "setup", 1, 20),
	} {
		r := taken(t, studygen.Round(), []logbook.Entry{line, line})
		assert.Equal(t, []track.LeftOut{{Lines: 2, Why: why}}, r.LeftOut, "%s %s", line.Subject, line.Operation)
		assert.Empty(t, r.Machines)
	}
}

// sawn is a study with a second job of longer cuts, and lines of both that take so many
// times the cutting and so many times the handling, off by a share of noise by turns. Of the
// top 21.6 min are cutting and 24 handling, of the other, with cuts of 9.6 m, 86.4 and 24.
func sawn(lines int, cutting, handling, share float64) (*model.Study, []logbook.Entry) {
	s := mixed(60, func(kind *model.JobType) { only(kind, "cut"); kind.Operations[0].CutLength = 9.6 })
	var log []logbook.Entry
	for i := range lines {
		noise := 1 + share*float64(1-2*(i/2%2))
		log = append(log, timed(i, "saw", []string{"top", "other"}[i%2], "cut", 1, ([]float64{21.6, 86.4}[i%2]*cutting+24*handling)*noise))
	}
	return s, log
}

func TestWhatIsOffIsToldFromJobsOfOtherShares(t *testing.T) {
	for bias, off := range map[track.Bias][2]float64{
		track.AsReckoned: {1, 1}, track.InCutting: {1.3, 1}, track.InHandling: {1, 1.3}, track.Alike: {0.8, 0.8}, track.InBoth: {1.5, 0.7},
	} {
		s, log := sawn(24, off[0], off[1], 0.02)
		r := taken(t, s, log)
		m := machine(t, r, "tools.saw")
		require.Equal(t, bias, m.Bias, "%v", off)
		var parts evidence.Parts
		for i, line := range log {
			parts.Add([]float64{21.6, 86.4}[i%2]*60, 24*60, float64(line.Minutes))
		}
		factors, ok := parts.Fit(0.9)
		require.True(t, ok)
		assert.InDelta(t, factors.A, m.Factors.A, 1e-9)
		assert.InDelta(t, factors.B, m.Factors.B, 1e-9)

		feed, feeds := suggestion(r, "tools.saw.feed")
		handling, handled := suggestion(r, "tools.saw.handling_per_pass")
		heavy, heavies := suggestion(r, "tools.saw.handling_heavy")
		assert.Equal(t, off[0] != 1, feeds, "%v", off)
		assert.Equal(t, off[1] != 1, heavies, "%v", off)
		assert.False(t, handled, "all pieces are heavy")
		assert.Zero(t, handling)
		var cut, moved evidence.Interval
		ofCut, ofMoved := track.OfCutting, track.OfHandling
		switch bias {
		case track.InCutting:
			cut = factors.OfOnlyA
		case track.InHandling:
			moved = factors.OfOnlyB
		case track.Alike:
			cut, moved, ofCut, ofMoved = factors.OfAlike, factors.OfAlike, track.OfMinutes, track.OfMinutes
		case track.InBoth:
			cut, moved = factors.OfA, factors.OfB
		}
		old := float64(s.Tools[model.Index(s.Tools, "saw")].Feed)
		if feeds {
			assert.InDelta(t, 1/off[0], feed.New/old, 0.01, "%v", off)
			assert.InDelta(t, min(1/cut.High, 0.99*feed.New/old), feed.Low/old, 1e-9, "%v", off)
			assert.InDelta(t, max(1/cut.Low, 1.01*feed.New/old), feed.High/old, 1e-9, "%v", off)
			assert.Equal(t, ofCut, feed.Ground)
			assert.Equal(t, 24, feed.Count)
		}
		if heavies {
			assert.InDelta(t, off[1], heavy.New/480, 0.02, "%v", off)
			assert.InDelta(t, min(moved.Low, 0.99*heavy.New/480), heavy.Low/480, 1e-9, "%v", off)
			assert.InDelta(t, max(moved.High, 1.01*heavy.New/480), heavy.High/480, 1e-9, "%v", off)
			assert.Equal(t, ofMoved, heavy.Ground)
			assert.Equal(t, 24, heavy.Count)
		}
	}
}

// Two lines have no interval, three of so different ratios too wide a one. Nine lines of two
// jobs are too few to tell cutting from handling, ten are not.
func TestTenLinesTellCuttingFromHandling(t *testing.T) {
	for lines, bias := range map[int]track.Bias{2: track.TooFew, 3: track.AsReckoned, 9: track.Unsplit, 10: track.InCutting} {
		s, log := sawn(lines, 3, 1, 0.02)
		assert.Equal(t, bias, machine(t, taken(t, s, log), "tools.saw").Bias, "%d lines", lines)
	}
	s, log := sawn(9, 1, 1, 0.02)
	assert.Equal(t, track.AsReckoned, machine(t, taken(t, s, log), "tools.saw").Bias)
}

func TestAFasterCutIsAFasterFeedAndLessHandling(t *testing.T) {
	r := taken(t, studygen.Round(), cuts(24, 0.5))
	feed, ok := suggestion(r, "tools.saw.feed")
	require.True(t, ok)
	assert.InDelta(t, 2.0/60, feed.New, 1e-9)
	heavy, ok := suggestion(r, "tools.saw.handling_heavy")
	require.True(t, ok)
	assert.InDelta(t, 240, heavy.New, 1e-9)
	_, ok = suggestion(r, "tools.saw.turning")
	assert.False(t, ok)
}

// A machine that is moved over the face has no feed: its time by area is off, and turning.
func TestAToolThatGoesOverTheFaceIsOffByTheArea(t *testing.T) {
	for subject, operation := range map[string]string{"sled": "plane", "disc": "sand"} {
		var log []logbook.Entry
		predicted := map[string]float64{"sled": 118, "disc": 4 * 46.2}[subject]
		for day := range 8 {
			log = append(log, timed(day, subject, "top", operation, 1, predicted*(1.5+0.01*float64(day%2))))
		}
		r := taken(t, studygen.Round(), log)
		area, ok := suggestion(r, "tools."+subject+".area_time")
		require.True(t, ok, subject)
		assert.InDelta(t, 1.505*map[string]float64{"sled": 25 * 60, "disc": 10 * 60}[subject], area.New, 1e-6)
		turning, ok := suggestion(r, "tools."+subject+".turning")
		require.True(t, ok, subject)
		assert.InDelta(t, 1.505*map[string]float64{"sled": 600, "disc": 180}[subject], turning.New, 1e-6)
		for _, none := range []string{".feed", ".handling_per_pass", ".handling_heavy"} {
			_, ok := suggestion(r, "tools."+subject+none)
			assert.False(t, ok, "%s has no %s", subject, none)
		}
	}
}

// Two operations of one machine are measured apart: 8 lines of 60 min where the study has
// 40, and 8 as they should be.
func TestMeasuredMinutesAreSuggestedForTheirOwnStep(t *testing.T) {
	s := studygen.Round()
	second := s.JobTypes[0].Operations[2]
	second.Key = "trim"
	s.JobTypes[0].Operations = append(s.JobTypes[0].Operations, second)
	s.JobTypes[0].Operations[2].Measured, s.JobTypes[0].Operations[4].Measured = quantity.Minutes(40), quantity.Minutes(30)
	measured := func(lines int) *track.Result {
		var log []logbook.Entry
		for day := range lines {
			log = append(log, timed(day, "saw", "top", "cut", 1, 59+2*float64(day%2)), timed(day, "saw", "top", "trim", 2, 60))
		}
		return taken(t, s, log)
	}
	r := measured(8)
	found, ok := suggestion(r, "job_types.top.operations.cut.measured")
	require.True(t, ok)
	assert.InDelta(t, 60*60, found.New, 1e-9)
	assert.InDelta(t, 1.5, found.Seen.Value, 1e-12)
	assert.Equal(t, 8, found.Count)
	assert.Equal(t, track.OfMinutes, found.Ground)
	_, ok = suggestion(r, "job_types.top.operations.trim.measured")
	assert.False(t, ok)
	_, ok = suggestion(measured(5), "job_types.top.operations.cut.measured")
	assert.True(t, ok)
	_, ok = suggestion(measured(4), "job_types.top.operations.cut.measured")
	assert.False(t, ok, "four lines are too few")
}

func TestASetUpIsSuggestedFromFiveLinesThatNameNoJob(t *testing.T) {
	suggested := func(lines int, job string, minutes float64) bool {
		var log []logbook.Entry
		for day := range lines {
			log = append(log, timed(day, "saw", job, logbook.Setup, 1, minutes+0.1*float64(day%2)))
		}
		_, ok := suggestion(taken(t, studygen.Round(), log), "tools.saw.setup")
		return ok
	}
	assert.True(t, suggested(5, "", 9))
	assert.False(t, suggested(4, "", 9))
	assert.False(t, suggested(8, "top", 9), "grits may have been changed in them")
	assert.False(t, suggested(8, "", 4.95), "as in the study")
}

// A piece of just the mass from which on pieces are heavy is handled as a light one.
func TestAPieceAtTheLimitIsLight(t *testing.T) {
	s := studygen.Round()
	s.Studio.HeavyOver = work.PieceMass(&s.JobTypes[0].Pieces[0], &s.Materials[0])
	m := machine(t, taken(t, s, []logbook.Entry{timed(0, "planer", "top", "plane", 1, 17)}), "shops.mill.machines.planer")
	assert.True(t, m.Light)
	assert.False(t, m.Heavy)
	assert.InDelta(t, 8*(2.4/6+0.5)+1, m.All.Predicted.Minutes(), 1e-9)
}

func TestMeasuredLinesAloneTellNothingOfFeedAndHandling(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].Operations[2].Measured = quantity.Minutes(38)
	m := machine(t, taken(t, s, cuts(12, 1.5)), "tools.saw")
	assert.Zero(t, m.Reckoned)
	assert.Equal(t, 12, m.All.Lines)
	assert.Equal(t, track.TooFew, m.Bias)
}

// Six in a thousand more and less are seen clearly, where lines hardly scatter, and are not
// worth a word.
func TestWhatIsOffByLessThanOneInAHundredIsAsReckoned(t *testing.T) {
	s, log := sawn(24, 1.006, 0.994, 0.0005)
	m := machine(t, taken(t, s, log), "tools.saw")
	require.NotNil(t, m.Factors)
	assert.Less(t, m.Factors.Same, 0.001)
	assert.Equal(t, track.AsReckoned, m.Bias)
}

// The second job's top is four times as long: its passes take 1.6 min in place of 0.4, and
// are handled, and turned, alike.
func TestTurningIsHandlingAndNoCutting(t *testing.T) {
	s := mixed(60, func(kind *model.JobType) {
		only(kind, "plane")
		kind.Pieces = []model.Piece{{Key: "top", Count: 1, Length: 9.6, Width: 0.9, Thickness: 0.05}}
	})
	var log []logbook.Entry
	var parts evidence.Parts
	for i := range 20 {
		cutting, minutes := []float64{8 * 0.4, 8 * 1.6}[i%2], []float64{18, 30}[i%2]+float64(i%3)
		log = append(log, timed(i, "planer", []string{"top", "other"}[i%2], "plane", 1, minutes))
		parts.Add(cutting*60, 13*60, minutes*60)
	}
	m := machine(t, taken(t, s, log), "shops.mill.machines.planer")
	factors, ok := parts.Fit(0.9)
	require.True(t, ok)
	require.NotNil(t, m.Factors)
	assert.InDelta(t, factors.A, m.Factors.A, 1e-9)
	assert.InDelta(t, factors.B, m.Factors.B, 1e-9)
}

// Half as long again as reckoned, at whoever does the work.
func TestEveryMachineIsMovedByItsOwnFigures(t *testing.T) {
	for _, one := range []struct {
		subject, operation, path string
		minutes                  float64
		paths                    []string
	}{
		{"planer", "plane", "shops.mill.machines.planer", 16.2, []string{"feed", "handling_heavy", "turning"}},
		{"planer_own", "plane", "machines.planer_own", 16.2, []string{"feed", "handling_heavy", "turning"}},
		{"belt", "sand", "shops.mill.machines.belt", 23.8, []string{"feed", "handling_heavy", "turning"}},
		{"belt_own", "sand", "machines.belt_own", 23.8, []string{"feed", "handling_heavy", "turning"}},
		{"saw", "cut", "tools.saw", 45.6, []string{"feed", "handling_heavy"}},
		{"router", "edge", "tools.router", 29.5, []string{"feed", "handling_heavy"}},
		{"sled", "plane", "tools.sled", 118, []string{"area_time", "turning"}},
		{"disc", "sand", "tools.disc", 184.8, []string{"area_time", "turning"}},
	} {
		var log []logbook.Entry
		for day := range 6 {
			log = append(log, timed(day, one.subject, "top", one.operation, 1, one.minutes*1.5), timed(day, one.subject, "", logbook.Setup, 1, 95))
		}
		var paths, want []string
		for _, found := range taken(t, studygen.Round(), log).Suggestions {
			paths = append(paths, found.Path)
			assert.Less(t, found.Low, found.New, found.Path)
			assert.Less(t, found.New, found.High, found.Path)
		}
		for _, name := range append(one.paths, "setup") {
			want = append(want, one.path+"."+name)
		}
		assert.Equal(t, want, paths)
	}
}
