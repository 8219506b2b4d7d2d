package track_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track"
	"shopstint/capital/decision/track/evidence"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/wear/life"
)

// Source of the examples below: common practice, no source; sums stand beside them.

// over brings lines about the blade to something else that wears, in another measure
// where it has one: metres as square metres, or as hours.
func over(subject string, measure logbook.Fields, log ...logbook.Entry) []logbook.Entry {
	for i := range log {
		log[i].Subject = subject
		if !log[i].Given.Has(logbook.HasLength) {
			continue
		}
		run := float64(log[i].Length)
		log[i].Length, log[i].Given = 0, measure
		switch measure {
		case logbook.HasLength:
			log[i].Length = quantity.Distance(run)
		case logbook.HasArea:
			log[i].Area = quantity.Area(run)
		case logbook.HasHours:
			log[i].Hours = quantity.Hours(run)
		}
	}
	return log
}

func observed(run float64, ended bool) life.Observation {
	return life.Observation{Run: run, Ended: ended, Count: 1}
}

// What the formulas of lives make of these is held where they are; here, that they are
// given the lives as they were.
func TestWhatIsSaidOfLivesIsWhatTheFormulasMakeOfThem(t *testing.T) {
	blade := worn(t, taken(t, studygen.Round(), []logbook.Entry{
		buy(0, "1", 80), use(1, "1", 260), end(2, "1", logbook.Dull),
		buy(3, "2", 80), use(4, "2", 300), end(5, "2", logbook.Spent),
		buy(6, "3", 80), use(7, "3", 340), end(8, "3", logbook.Dull),
		buy(9, "4", 80), use(10, "4", 120), end(11, "4", logbook.Damage),
		buy(12, "5", 80), use(13, "5", 200), end(14, "5", logbook.Lost),
		buy(15, "6", 80), use(16, "6", 0.5),
		use(17, "old", 0.5),
	}), "edges.blade")
	all := []life.Observation{observed(260, true), observed(300, true), observed(340, true), observed(120, true), observed(200, false), observed(0.5, false)}
	dull := []life.Observation{all[0], all[1], all[2], observed(120, false), all[4], all[5]}

	assert.InDelta(t, 4, blade.Ended, 0)
	assert.InDelta(t, 1, blade.Damaged, 0)
	assert.InDelta(t, 2, blade.Going, 0, "the lost one, and the one in use from the beginning")
	assert.InDelta(t, 1, blade.LeftOut, 0, "what was in use before the logbook")
	assert.Equal(t, life.Curve(all, 0.9), blade.Curve)
	median, _ := life.Median(blade.Curve)
	assert.InDelta(t, median, blade.Median, 0)

	fit, err := life.Fit(all)
	require.NoError(t, err)
	assert.Equal(t, fit, *blade.Weibull)
	assert.Equal(t, said(fit.Mean(), fit.MeanInterval(0.9)), blade.Mean)
	assert.Equal(t, said(fit.Shape, fit.ShapeInterval(0.9)), blade.Shape)
	sudden, err := life.FitExponential(all)
	require.NoError(t, err)
	assert.Equal(t, sudden, blade.Sudden)
	assert.Equal(t, said(sudden.Mean, sudden.Interval(0.9)), blade.SuddenMean)
	until, err := life.Fit(dull)
	require.NoError(t, err)
	assert.Equal(t, said(until.Mean(), until.MeanInterval(0.9)), blade.Dull)

	// The study's 200 m without a range is from half to twice as far; lives until dull
	// scatter by a quarter to a half of their mean.
	belief := life.Combine(dull, life.Prior{MeanLow: 100, MeanHigh: 400, VariationLow: 0.25, VariationHigh: 0.5}, 0.9)
	assert.Equal(t, belief, *blade.Belief)
	assert.InDelta(t, belief.Median, blade.Lasts.Value, 0)
	assert.InDelta(t, belief.Low, blade.Lasts.Low, 0)
	assert.InDelta(t, belief.High, blade.Lasts.High, 0)
	assert.True(t, blade.Lasts.Known)

	share := evidence.Proportion(1, 4, 0.9)
	assert.InDelta(t, 0.25, blade.ByDamage.Value, 1e-12)
	assert.InDelta(t, share.Low, blade.ByDamage.Low, 0)
	assert.InDelta(t, share.High, blade.ByDamage.High, 0)
}

// said is a figure with one interval, as the report has it.
func said(value float64, interval life.Interval) track.Estimate {
	return track.Estimate{Value: value, Low: interval.Low, High: interval.High, Known: true}
}

// Lives that end alike are fitted by wear, and lives that end early as often as late by
// chance.
func TestTheFitThatSuitsTheLivesIsPreferred(t *testing.T) {
	fits := func(runs ...float64) track.Fit {
		var log []logbook.Entry
		for i, run := range runs {
			log = append(log, buy(3*i, "1", 80), use(3*i+1, "1", run), end(3*i+2, "1", logbook.Dull))
		}
		return worn(t, taken(t, studygen.Round(), log), "edges.blade").Fits
	}
	assert.Equal(t, track.Wearing, fits(190, 200, 205, 210, 195, 202))
	assert.Equal(t, track.Sudden, fits(10, 40, 80, 150, 300, 700))
	assert.Equal(t, track.Sudden, fits(190, 200), "two have no shape")
	assert.Equal(t, track.NoFit, worn(t, taken(t, studygen.Round(), []logbook.Entry{buy(0, "1", 80), use(1, "1", 190)}), "edges.blade").Fits)
}

// The thousandth life is kept as it was: 120 m. After it ln 150 = 5.0106 is kept as
// 5.011, and ln 90 = 4.4998 as 4.5.
func TestBeyondAThousandLivesTheyAreKeptToAThousandth(t *testing.T) {
	var log []logbook.Entry
	for life := range 1004 {
		run, reason := 100.0, logbook.Dull
		switch life {
		case 999:
			run = 120
		case 1000, 1001:
			run = 150
		case 1002:
			run, reason = 150, logbook.Lost
		case 1003:
			run = 90
		}
		line := end(0, "1", reason)
		line.Length, line.Given = quantity.Distance(run), logbook.HasLength
		log = append(log, line)
	}
	blade := worn(t, taken(t, studygen.Round(), log), "edges.blade")
	assert.InDelta(t, 1003, blade.Ended, 0)
	assert.InDelta(t, 1, blade.Going, 0)
	type step struct{ run, atRisk, ended float64 }
	var steps []step
	for _, one := range blade.Curve {
		steps = append(steps, step{math.Round(1e6*one.Run) / 1e6, one.AtRisk, one.Ended})
	}
	assert.Equal(t, []step{{90.017131, 1004, 1}, {100, 1003, 999}, {120, 4, 1}, {150.054716, 3, 2}}, steps)
}

func TestARangeIsBelievedWhereItHasTwoEndsAboveNothing(t *testing.T) {
	for origin, believed := range map[model.Origin]bool{
		{HasRange: true, Low: 150, High: 260}: true,
		{HasRange: true, Low: 0, High: 260}:   false, {HasRange: true, Low: 260, High: 260}: false,
		{HasRange: false, Low: 150, High: 260}:                                         false,
		{HasRange: true, Low: 150, High: 260, Source: track.SourceMark + "2026-01-04"}: false,
	} {
		s := studygen.Round()
		s.Origins["edges.blade.life"] = origin
		blade := worn(t, taken(t, s, []logbook.Entry{buy(0, "1", 80), use(1, "1", 60)}), "edges.blade")
		low, high := 100.0, 400.0
		if believed {
			low, high = 150, 260
		}
		assert.InDelta(t, low, blade.StudyLow, 0, "%v", origin)
		assert.InDelta(t, high, blade.StudyHigh, 0, "%v", origin)
		assert.Equal(t, !believed, blade.Assumed, "%v", origin)
	}
}

func TestALifeOfOneSquareMetreInTheStudyIsALife(t *testing.T) {
	s := studygen.Round()
	s.Abrasives[model.Index(s.Abrasives, "disc80")].Life = 1
	disc := worn(t, taken(t, s, over("disc80", logbook.HasArea, buy(0, "1", 0.60), use(1, "1", 0.5))), "abrasives.disc80")
	assert.InDelta(t, 1, disc.Study, 0)
	assert.NotNil(t, disc.Belief)
	assert.InDelta(t, 0.60, disc.StudyCost, 1e-12, "a disc for 0.60 lasts a square metre")
}

// Two new blades ended after 10 h and a third runs for 100 h: 120 h and two ends say that
// a life is 60 h, so that the third is used up. Bought lives by the hour have no life in
// the study to hold them against.
func TestByTheHourTheLivesSeenAreAllThatIsKnown(t *testing.T) {
	for _, subject := range []string{"blade", "disc80"} {
		r := taken(t, studygen.Round(), over(subject, logbook.HasHours,
			buy(0, "1", 80), use(1, "1", 10), end(2, "1", logbook.Dull),
			buy(3, "2", 80), use(4, "2", 10), end(5, "2", logbook.Dull),
			buy(6, "3", 80), use(7, "3", 100)))
		require.Len(t, r.Wear, 1)
		w := r.Wear[0]
		assert.Equal(t, track.ByHours, w.Measure)
		assert.InDelta(t, 60*3600, w.SuddenMean.Value, 1e-9)
		assert.InDelta(t, 3*80, w.Paid, 1e-9)
		assert.InDelta(t, 240.0/120/3600, w.Cost.Value, 1e-12)
		assert.Nil(t, w.Belief)
		assert.Zero(t, w.Lasts)
		assert.Zero(t, w.Study)
		assert.Zero(t, w.StudyCost)
		assert.False(t, w.Assumed)
	}
}

func TestALifeIsComparedInTheMeasureOfTheStudysOwn(t *testing.T) {
	for _, one := range []struct {
		subject string
		measure logbook.Fields
		study   float64
	}{
		{"blade", logbook.HasLength, 200}, {"blade", logbook.HasArea, 0}, {"blade", logbook.HasHours, 0},
		{"disc80", logbook.HasLength, 0}, {"disc80", logbook.HasArea, 1.2}, {"disc80", logbook.HasHours, 0},
	} {
		r := taken(t, studygen.Round(), over(one.subject, one.measure, buy(0, "1", 80), use(1, "1", 1)))
		require.Len(t, r.Wear, 1)
		assert.InDelta(t, one.study, r.Wear[0].Study, 0, "%s %d", one.subject, one.measure)
		assert.Equal(t, one.subject == "blade", r.Wear[0].Edge)
	}
}

func TestWhatWasBoughtAndNeverRanHasNoCostForItsRun(t *testing.T) {
	for subject, study := range map[string]float64{"blade": 200, "disc80": 1.2} {
		r := taken(t, studygen.Round(), over(subject, 0, buy(0, "1", 80)))
		require.Len(t, r.Wear, 1)
		w := r.Wear[0]
		assert.Zero(t, w.Run)
		assert.Zero(t, w.Paid)
		assert.Zero(t, w.Cost)
		assert.Zero(t, w.StudyCost)
		assert.Zero(t, w.ByDamage)
		assert.Equal(t, track.NoMeasure, w.Measure)
		assert.InDelta(t, study, w.Study, 0)
		assert.InDelta(t, 80, w.Price.Value, 0)
	}
}

func TestARunOfLessThanAMetreHasItsCost(t *testing.T) {
	line := end(1, "1", logbook.Damage)
	line.Length, line.Given = 0.5, logbook.HasLength
	blade := worn(t, taken(t, studygen.Round(), []logbook.Entry{buy(0, "1", 80), line}), "edges.blade")
	assert.InDelta(t, 160, blade.Cost.Value, 1e-9, "80 for half a metre")
	assert.InDelta(t, 1, blade.ByDamage.Value, 0, "the one life that ended")
}

// Of lives of which damage ends a fifth, a share of 0.2/-ln 0.8 = 0.8963 is run on the
// mean.
func TestDamageShortensTheLifeThatAnEdgeInUseIsSpreadOver(t *testing.T) {
	s := studygen.Round()
	s.Edges[model.Index(s.Edges, "blade")].SuddenShare = 0.2
	blade := worn(t, taken(t, s, []logbook.Entry{buy(0, "1", 80), use(1, "1", 50)}), "edges.blade")
	assert.InDelta(t, 0.2, blade.StudyDamage, 0)
	assert.InDelta(t, 80*50/(blade.Belief.Mean*0.2/-math.Log(0.8)), blade.Paid, 1e-9)
}

func TestTheNextSharpeningCostsWhatOnesBeforeDid(t *testing.T) {
	knives := worn(t, taken(t, studygen.Round(), sharpened(1, 1000)), "edges.knives")
	assert.InDelta(t, 90+40+1000/knives.Belief.Mean*(90+40), knives.Paid, 1e-9, "a sharpening for 90 and a fourth of 160, for what is in use in part")
}

// Lives for 130, 170 and 130 over 3,000 m each, and 1,000 m in hand: the scatter of the
// ended ones is set around what all of it cost.
func TestACostIsAsFarOffAsThatOfTheLivesThatEnded(t *testing.T) {
	log := sharpened(3, 1000)
	log[4].Amount = 130
	knives := worn(t, taken(t, studygen.Round(), log), "edges.knives")
	var ended evidence.Ratio
	for _, cost := range []float64{90 + 40, 130 + 40, 90 + 40} {
		ended.Add(3000, cost)
	}
	interval, ok := ended.Interval(0.9)
	require.True(t, ok)
	require.True(t, knives.Cost.Known)
	assert.InDelta(t, 1, knives.Cost.Low/knives.Cost.Value/(interval.Low/ended.Value()), 1e-9)
	assert.InDelta(t, 1, knives.Cost.High/knives.Cost.Value/(interval.High/ended.Value()), 1e-9)
	assert.Greater(t, math.Abs(knives.Cost.Value/ended.Value()-1), 0.001, "what is in hand costs otherwise")
}

// mixed is the study with a second job of another wood, on which edges last half as long
// and abrasives a fifth as long, and what is done for it.
func mixed(perYear float64, operations func(kind *model.JobType)) *model.Study {
	s := studygen.Round()
	soft, other := s.Materials[0], s.JobTypes[0]
	soft.Key, soft.EdgeLife, soft.AbrasiveLife = "hard", 0.5, 0.2
	other.Key, other.Material, other.PerYear = "other", "hard", quantity.Count(perYear)
	other.Operations = append([]model.Operation{}, other.Operations...)
	operations(&other)
	s.Materials, s.JobTypes = append(s.Materials, soft), append(s.JobTypes, other)
	return s
}

// only keeps the operations of these names.
func only(kind *model.JobType, keys ...string) {
	var kept []model.Operation
	for _, key := range keys {
		kept = append(kept, kind.Operations[model.Index(kind.Operations, key)])
	}
	kind.Operations = kept
}

// lasted is what 60 run in a line without a job are in plain hardwood.
func lasted(t *testing.T, s *model.Study, subject string, measure logbook.Fields) float64 {
	t.Helper()
	r := taken(t, s, over(subject, measure, buy(0, "1", 80), use(1, "1", 60), end(2, "1", logbook.Dull)))
	require.Len(t, r.Wear, 1)
	require.Len(t, r.Wear[0].Curve, 1)
	return r.Wear[0].Curve[0].Run
}

// Of 20 tops a year in plain hardwood and 60 jobs in the other wood, three runs in four are
// in that one where they do the same.
func TestTheMixOfARunWeighsEachJobByItsNumberAndItsRun(t *testing.T) {
	same := func(kind *model.JobType) {}
	planed := func(kind *model.JobType) { only(kind, "plane") }
	cut := func(kind *model.JobType) { only(kind, "cut") }
	sanded := func(kind *model.JobType) { only(kind, "sand") }
	for _, one := range []struct {
		subject string
		measure logbook.Fields
		s       *model.Study
		plain   float64
		why     string
	}{
		{"knives", logbook.HasLength, mixed(60, same), 60 * (1 + 3/0.5) / 4, "three in four at half the life"},
		{"knives", logbook.HasLength, mixed(60, planed), 60 * (1 + 3/0.5) / 4, "planing is what runs them"},
		{"knives", logbook.HasLength, mixed(60, cut), 60, "nothing of it runs them"},
		{"knives", logbook.HasLength, mixed(60, sanded), 60, "nothing of it runs them"},
		{"blade", logbook.HasLength, mixed(60, planed), 60, "planed on the shop's knives"},
		{"belt80", logbook.HasArea, mixed(60, same), 60 * (1 + 3/0.2) / 4, "three in four at a fifth of the life"},
		{"belt80", logbook.HasArea, mixed(60, sanded), 60 * (1 + 3/0.2) / 4, "sanding is what runs them"},
		{"belt80", logbook.HasArea, mixed(60, planed), 60, "nothing of it runs them"},
		{"belt120", logbook.HasArea, mixed(60, func(kind *model.JobType) {
			only(kind, "sand")
			kind.Operations[0].Grits = kind.Operations[0].Grits[:1]
		}), 60, "it is sanded with another grit only"},
		// 3 cuts of 2.4 m in 3 steps, as 7.2 m each time, and the router's 6.6 m in 5 steps
		// of 12 mm are 21.6 m and 33 m; a cut of 3.6 m is half as much again.
		{"blade", logbook.HasLength, mixed(60, func(kind *model.JobType) {
			only(kind, "cut")
			kind.Operations[0].CutLength = 3.6
		}), 60 * (54.6 + 3*32.4/0.5) / (54.6 + 3*32.4), "by the metres"},
	} {
		assert.InDelta(t, one.plain, lasted(t, one.s, one.subject, one.measure), 1e-9, "%s: %s", one.subject, one.why)
	}
}

func TestASandersEdgeIsNotRunByItsGrits(t *testing.T) {
	s := mixed(60, func(kind *model.JobType) { only(kind, "sand") })
	for m := range s.Shops[0].Machines {
		s.Shops[0].Machines[m].Edge = "knives"
	}
	assert.InDelta(t, 60, lasted(t, s, "knives", logbook.HasLength), 1e-9, "planing alone, in the plain wood")
}

func TestAnEdgeThatNothingRunsOnCountsAsInPlainHardwood(t *testing.T) {
	s := studygen.Round()
	s.Materials[0].EdgeLife = 0.5
	s.Edges = append(s.Edges, model.Edge{Key: "spare", Price: 10, Life: 100})
	assert.InDelta(t, 60, lasted(t, s, "spare", logbook.HasLength), 0)
	assert.InDelta(t, 120, lasted(t, s, "knives", logbook.HasLength), 1e-9)
}
