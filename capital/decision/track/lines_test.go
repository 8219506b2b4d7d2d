package track_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// Source of the examples below: common practice, no source.

func TestALineOfNoJobsHasNoMinutesToCompareWith(t *testing.T) {
	line := logbook.Entry{Date: on(0), Kind: logbook.Work, Subject: "saw", Job: "top", Operation: "cut", Minutes: quantity.Minutes(5), Given: logbook.HasMinutes}
	r := taken(t, studygen.Round(), []logbook.Entry{line})
	assert.Equal(t, []track.LeftOut{{Lines: 1, Why: "the study reckons no minutes for the work"}}, r.LeftOut)
	assert.Empty(t, r.Machines)
}

func TestWhatElseWasBoughtHasNoPartAndWhatElseWoreIsTold(t *testing.T) {
	glue, chisel := buy(0, "", 12), use(1, "", 3)
	glue.Subject, chisel.Subject = "glue", "chisel"
	assert.Empty(t, taken(t, studygen.Round(), []logbook.Entry{glue}).LeftOut)
	left := taken(t, studygen.Round(), []logbook.Entry{chisel}).LeftOut
	require.Len(t, left, 1)
	assert.Equal(t, 1, left[0].Lines)
}

func TestALifeInHandThatBeganBeforeTheLogbookIsLeftOut(t *testing.T) {
	blade := worn(t, taken(t, studygen.Round(), []logbook.Entry{use(1, "old", 60)}), "edges.blade")
	assert.InDelta(t, 1, blade.LeftOut, 0)
	assert.Zero(t, blade.Going)
}

func TestTheRangeOfALifeIsBelievedAsItIsGiven(t *testing.T) {
	s := studygen.Round()
	s.Origins["abrasives.disc80.life"] = model.Origin{HasRange: true, Low: 0.8, High: 2}
	line := logbook.Entry{Date: on(0), Kind: logbook.Use, Subject: "disc80", Jobs: 1, Area: 1, Given: logbook.HasArea}
	disc := worn(t, taken(t, s, []logbook.Entry{line}), "abrasives.disc80")
	assert.False(t, disc.Assumed)
	assert.InDelta(t, 0.8, disc.StudyLow, 0)
	assert.InDelta(t, 2, disc.StudyHigh, 0)
}

func TestASourceThatIsCutOffIsNoLogbookThatCountsTwice(t *testing.T) {
	for source, counted := range map[string]bool{
		track.SourceMark: false, track.SourceMark + "2026": false, "two quotes of 2026-01-01": false,
		track.SourceMark + "2025-12-31": false, track.SourceMark + "2026-01-02": true, track.SourceMark + "2026-01-04, 12 lines": true,
	} {
		s := studygen.Round()
		s.Origins["edges.blade.life"] = model.Origin{HasRange: true, Low: 150, High: 260, Source: source}
		blade := worn(t, taken(t, s, []logbook.Entry{use(1, "1", 60), use(3, "1", 60)}), "edges.blade")
		assert.Equal(t, counted, blade.FromLog, source)
	}
}

// sharpened is the knives of the study in use for so many lives, each sharpened for 90,
// and then for some metres.
func sharpened(lives int, metres float64) []logbook.Entry {
	log := []logbook.Entry{buy(0, "a", 160)}
	for life := range lives {
		log = append(log, use(2*life+1, "a", 3000),
			logbook.Entry{Date: on(2*life + 2), Kind: logbook.Sharpen, Item: "a", Jobs: 1, Amount: 90, Given: logbook.HasAmount, Reason: logbook.Dull})
	}
	log = append(log, use(2*lives+1, "a", metres))
	for i := range log {
		log[i].Subject = "knives"
	}
	return log
}

// Four lives of sharpened knives use their price up; a fifth has cost the sharpening
// alone, and a sixth in hand nothing.
func TestAPriceIsUsedUpOnce(t *testing.T) {
	assert.InDelta(t, 5*90+160, worn(t, taken(t, studygen.Round(), sharpened(5, 0)), "edges.knives").Paid, 1e-9)
	assert.InDelta(t, 5*90+160, worn(t, taken(t, studygen.Round(), sharpened(5, 2000)), "edges.knives").Paid, 1e-9)
}

func TestASharpeningWithoutItsPriceCostsTheStudys(t *testing.T) {
	log := sharpened(2, 0)
	for i := range log {
		if log[i].Kind == logbook.Sharpen {
			log[i].Given, log[i].Amount = 0, 0
		}
	}
	knives := worn(t, taken(t, studygen.Round(), log), "edges.knives")
	assert.InDelta(t, 2*(60+20+160.0/4), knives.Paid, 1e-9, "the sharpening, its errand and a fourth of the price")
	assert.False(t, knives.Sharpening.Known)
}

func TestALifeThatBeginsWithASharpeningIsKnownWhole(t *testing.T) {
	log := sharpened(2, 0)[1:] // bought before the logbook
	knives := worn(t, taken(t, studygen.Round(), log), "edges.knives")
	assert.InDelta(t, 1, knives.LeftOut, 0)
	assert.InDelta(t, 1, knives.Ended, 0)
}

func TestWhatALifeCostsIsKnownAsSurelyAsTheLivesThatEnded(t *testing.T) {
	log := sharpened(4, 1000)
	log[2].Amount = 130
	knives := worn(t, taken(t, studygen.Round(), log), "edges.knives")
	require.True(t, knives.Cost.Known)
	assert.Less(t, knives.Cost.Low, knives.Cost.Value)
	assert.Less(t, knives.Cost.Value, knives.Cost.High)
}

// The belts are the shop's, so that all work that could run on them counts: it is all in
// one wood, on which a belt lasts half as long.
func TestARunOnABeltWithoutAJobCountsByTheStudysSanding(t *testing.T) {
	s := studygen.Round()
	s.Materials[0].AbrasiveLife = 0.5
	for _, belt := range []string{"belt80", "belt120", "belt180"} {
		line := func(kind logbook.Kind) logbook.Entry {
			return logbook.Entry{Date: on(0), Kind: kind, Subject: belt, Jobs: 1, Area: 300, Given: logbook.HasArea}
		}
		worn := worn(t, taken(t, s, []logbook.Entry{line(logbook.Replace)}), "abrasives."+belt)
		require.Len(t, worn.Curve, 1)
		assert.InDelta(t, 600, worn.Curve[0].Run, 1e-9, belt)
	}
}

func TestSlowCutsMoveNoSetUp(t *testing.T) {
	log := cuts(8, 1.5)
	for day := range 8 {
		log = append(log, logbook.Entry{Date: on(day), Kind: logbook.Work, Subject: "saw", Operation: logbook.Setup, Jobs: 1, Minutes: quantity.Minutes(4.9 + 0.2*float64(day%2)), Given: logbook.HasMinutes})
	}
	r := taken(t, studygen.Round(), log)
	_, ok := suggestion(r, "tools.saw.setup")
	assert.False(t, ok)
	_, ok = suggestion(r, "tools.saw.feed")
	assert.True(t, ok)
}

func TestALineBehindALaterDateIsCounted(t *testing.T) {
	left := taken(t, studygen.Round(), []logbook.Entry{done(5), done(4), done(3), done(5), done(6)}).LeftOut
	require.Len(t, left, 1)
	assert.Equal(t, track.LeftOut{Lines: 2, Why: "stand behind a later date; lives are taken in the order of the lines"}, left[0])
	assert.Empty(t, taken(t, studygen.Round(), []logbook.Entry{done(3)}).LeftOut)
}

func TestAJobThatWasOnlyDoneAgainIsListed(t *testing.T) {
	r := taken(t, studygen.Round(), []logbook.Entry{{Date: on(0), Kind: logbook.Rework, Job: "top", Jobs: 1}})
	require.Len(t, r.Jobs, 1)
	assert.InDelta(t, 1, r.Jobs[0].Again, 0)
	assert.False(t, r.Jobs[0].Share.Known)
}

// Two that wore out after 500 m, and damage at 450 m, say that the 200 m of the study are
// too few; but two ends are too few to go by, and damage is none.
func TestALifeIsSuggestedFromThreeThatWoreOut(t *testing.T) {
	suggested := func(dull int) bool {
		var log []logbook.Entry
		for life := range dull + 3 {
			run, reason := 500.0, logbook.Dull
			if life >= dull {
				run, reason = 450, logbook.Damage
			}
			log = append(log, buy(3*life, "1", 80), use(3*life+1, "1", run), end(3*life+2, "1", reason))
		}
		_, ok := suggestion(taken(t, studygen.Round(), log), "edges.blade.life")
		return ok
	}
	assert.False(t, suggested(2))
	assert.True(t, suggested(3))
}

func TestARateThatHasSteppedIsSuggestedThoughADayWasAtTheStudys(t *testing.T) {
	before := []float64{1.4, 1.41, 1.39, 1.4, 1.42, 1.38, 1.4, 1.41, 1.39, 1.4}
	after := []float64{1, 1.06, 1.07, 1.05, 1.08, 1.06, 1.07, 1.05, 1.06, 1.07}
	const rate = "shops.mill.tariff.hourly_rate"
	_, ok := suggestion(taken(t, studygen.Round(), invoices(after...)), rate)
	assert.False(t, ok, "without a step the study's rate is one of the days'")
	for _, edge := range [][]float64{{0.9, 0.9, 0.9, 0.9, 1}, {1.1, 1.1, 1.1, 1.1, 1}} {
		_, ok := suggestion(taken(t, studygen.Round(), invoices(edge...)), rate)
		assert.False(t, ok, "the last of the days' is one of them too")
	}
	found, ok := suggestion(taken(t, studygen.Round(), invoices(append(before, after...)...)), rate)
	require.True(t, ok)
	assert.InDelta(t, 150*1.06, found.New, 1e-9)
	assert.Equal(t, 10, found.Count)
}

func TestASuggestedFigureMovesItsRangeByTheSameFactors(t *testing.T) {
	var log []logbook.Entry
	for day := range 8 {
		log = append(log, logbook.Entry{Date: on(day), Kind: logbook.Work, Subject: "saw", Operation: logbook.Setup, Jobs: 1, Minutes: quantity.Minutes(8 + float64(day%4)), Given: logbook.HasMinutes})
	}
	r := taken(t, studygen.Round(), log)
	found, ok := suggestion(r, "tools.saw.setup")
	require.True(t, ok)
	ratio := machine(t, r, "tools.saw").Operations[0].Ratio
	assert.InDelta(t, 300*ratio.Low, found.Low, 0.5, "5 min in the study")
	assert.InDelta(t, 300*ratio.High, found.High, 0.5)
	assert.Less(t, found.Low, found.New)
	assert.Less(t, found.New, found.High)
}

// One line in the middle of each month of two years, where only the last is twice as long.
func TestTheLastMonthOfAYearIsPartOfIt(t *testing.T) {
	s, months := studygen.Round(), 24
	var log []logbook.Entry
	for month := range months {
		line := logbook.Entry{
			Date: quantity.DateOf(quantity.Date("2026-01-15").Day() + int(30.4375*float64(month))), Kind: logbook.Work, Subject: "saw", Job: "top", Operation: "cut",
			Jobs: 1, Minutes: quantity.Minutes(45.6), Given: logbook.HasMinutes,
		}
		if month == months-1 {
			line.Minutes *= 2
		}
		log = append(log, line)
	}
	found := drifts(taken(t, s, append(log, done(0), done(729))), "tools.saw")[track.DriftMinutes]
	assert.InDelta(t, 13.0/12, found.Now, 1e-9)
	assert.InDelta(t, 1, found.Before, 1e-9)
}

func TestWhatDidNotRunInOneOfTheYearsIsNotCompared(t *testing.T) {
	var log []logbook.Entry
	log = append(log, buy(0, "1", 80))
	for week := range 50 {
		log = append(log, use(7*week, "1", 50), end(7*week, "1", logbook.Dull))
	}
	assert.Empty(t, drifts(taken(t, studygen.Round(), append(log, done(729))), "edges.blade"))
	for i := range log {
		log[i].Date = quantity.DateOf(log[i].Date.Day() + 366)
	}
	assert.Empty(t, drifts(taken(t, studygen.Round(), append([]logbook.Entry{done(0)}, log...)), "edges.blade"))
}

// A sharpening takes a tenth of the life: 2,700 m of the next are 3,000 of a new one.
func TestARunAfterASharpeningCountsAsMoreOfANewOnes(t *testing.T) {
	s := studygen.Round()
	s.Edges[0].LifeLost = 0.1
	log := sharpened(2, 0)
	log[3].Length = 2700
	knives := worn(t, taken(t, s, log), "edges.knives")
	require.Len(t, knives.Curve, 1)
	assert.InDelta(t, 3000, knives.Curve[0].Run, 1e-9)
	assert.InDelta(t, 5700, knives.Run, 1e-9)
}

func TestManyDaysAreGatheredToAsManyAsAreLookedAt(t *testing.T) {
	for days, want := range map[int]int{400: 400, 401: 201, 800: 400, 801: 267} {
		factors := make([]float64, days)
		for i := range factors {
			factors[i] = 1
		}
		r := taken(t, studygen.Round(), invoices(factors...))
		require.Len(t, r.Visits, 1)
		assert.Len(t, r.Visits[0].Days, want, "%d days", days)
		assert.Equal(t, days, r.Visits[0].Compared)
	}
}

func TestAMachineIsSaidToTurnPiecesThatGoThroughFromBothFaces(t *testing.T) {
	line := func(subject, operation string) logbook.Entry {
		return logbook.Entry{Date: on(0), Kind: logbook.Work, Subject: subject, Job: "top", Operation: operation, Jobs: 1, Minutes: quantity.Minutes(60), Given: logbook.HasMinutes}
	}
	r := taken(t, studygen.Round(), []logbook.Entry{line("planer", "plane"), line("saw", "cut")})
	assert.True(t, machine(t, r, "shops.mill.machines.planer").Turned)
	assert.False(t, machine(t, r, "tools.saw").Turned)
}

func TestOneJobInEachYearIsEnoughToCompareWhatCameBack(t *testing.T) {
	log := []logbook.Entry{done(10), {Date: on(20), Kind: logbook.Rework, Job: "top", Jobs: 1}, {Date: on(729), Kind: logbook.Done, Job: "top", Jobs: 1}}
	rework, ok := drifts(taken(t, studygen.Round(), append([]logbook.Entry{{Date: on(0), Kind: logbook.Visit, Subject: "mill", Jobs: 1}}, log...)), "job_types.top")[track.DriftRework]
	require.True(t, ok)
	assert.InDelta(t, 1, rework.Before, 0)
	assert.InDelta(t, 0, rework.Now, 0)
	assert.False(t, rework.Told)
}

// What is lost has ended no life by wear.
func TestALostEdgeIsNoEndInTheYearlyComparison(t *testing.T) {
	log := []logbook.Entry{buy(0, "1", 80)}
	for week := range 104 {
		reason := logbook.Dull
		if week >= 53 {
			reason = logbook.Lost
		}
		log = append(log, use(7*week, "1", 50), end(7*week, "1", reason))
	}
	found := drifts(taken(t, studygen.Round(), append(log, done(729))), "edges.blade")[track.DriftWear]
	assert.InDelta(t, 0, found.Now, 0)
	assert.InDelta(t, 0.02, found.Before, 1e-9)
}
