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

// visited is a visit that took so many minutes on the shop's clock and cost so much.
func visited(day int, minutes, amount float64) logbook.Entry {
	return logbook.Entry{
		Date: on(day), Kind: logbook.Visit, Subject: "mill", Jobs: 1,
		Minutes: quantity.Minutes(minutes), Amount: quantity.Money(amount), Given: logbook.HasMinutes | logbook.HasAmount,
	}
}

func done(day int) logbook.Entry {
	return logbook.Entry{Date: on(day), Kind: logbook.Done, Job: "top", Jobs: 1}
}

func knives(entry logbook.Entry) logbook.Entry {
	entry.Subject = "knives"
	return entry
}

func TestALogbookCoversItsFirstDayAndItsLast(t *testing.T) {
	r := taken(t, studygen.Round(), []logbook.Entry{done(0), done(365)})
	assert.InDelta(t, 366/365.25, r.Years, 1e-12)
	assert.Equal(t, on(0), r.First)
	assert.Equal(t, on(365), r.Last)
	one := taken(t, studygen.Round(), []logbook.Entry{done(7)})
	assert.InDelta(t, 1/365.25, one.Years, 1e-12)
}

func TestALifeWithoutARangeIsTakenFromAHalfToTwiceOfIt(t *testing.T) {
	blade := worn(t, taken(t, studygen.Round(), []logbook.Entry{buy(0, "1", 80), use(1, "1", 150)}), "edges.blade")
	assert.True(t, blade.Assumed)
	assert.InDelta(t, 100, blade.StudyLow, 1e-9, "200 m in the study")
	assert.InDelta(t, 400, blade.StudyHigh, 1e-9)
}

func TestAnEdgeThatIsReplacedCostsWhatItsSharpeningsHaveLeft(t *testing.T) {
	sharpen := logbook.Entry{Date: on(2), Kind: logbook.Sharpen, Subject: "knives", Item: "a", Jobs: 1, Amount: 90, Given: logbook.HasAmount, Reason: logbook.Dull}
	w := worn(t, taken(t, studygen.Round(), []logbook.Entry{
		knives(buy(0, "a", 160)), knives(use(1, "a", 3000)), sharpen, knives(use(3, "a", 500)), knives(end(4, "a", logbook.Damage)),
	}), "edges.knives")
	assert.InDelta(t, 90+40+120, w.Paid, 1e-9, "a quarter of 160 with the sharpening, the other three quarters with the end")
}

func TestAnEdgeInUseCostsItsPartOfTheNextSharpening(t *testing.T) {
	w := worn(t, taken(t, studygen.Round(), []logbook.Entry{knives(buy(0, "a", 160)), knives(use(1, "a", 1000))}), "edges.knives")
	assert.InDelta(t, 1000/w.Belief.Mean*(160.0/4+60+20), w.Paid, 1e-9, "a quarter of the price, and 60 with 20 for the errand")
}

func TestAShopWhoseTimeIsFreeHasNoRateToCompare(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Tariff.HourlyRate, s.Shops[0].Tariff.HandlingCharge = 0, 20
	r := taken(t, s, []logbook.Entry{visited(0, 65, 25), visited(7, 65, 25), visited(14, 65, 25), visited(21, 65, 25), visited(28, 65, 25)})
	require.Len(t, r.Visits, 1)
	assert.Empty(t, r.Visits[0].Days)
	assert.Empty(t, r.Suggestions)
}

// 65 min are 75 paid: 187.50 at 150 an hour.
func TestASupplementThatNoJobPaysDoesNotHideTheVisitsWithoutAJob(t *testing.T) {
	for _, supplements := range []model.Tariff{{}, {ResinSupplement: 0.25}, {AfterHours: 0.35}} {
		s := studygen.Round()
		s.Shops[0].Tariff.ResinSupplement, s.Shops[0].Tariff.AfterHours = supplements.ResinSupplement, supplements.AfterHours
		r := taken(t, s, []logbook.Entry{visited(0, 65, 187.50)})
		require.Len(t, r.Visits, 1)
		assert.Equal(t, 1, r.Visits[0].Compared)
		assert.InDelta(t, 187.50, r.Visits[0].Priced, 1e-9)
		assert.Empty(t, r.LeftOut)

		s.Materials[0].Resin, s.JobTypes[0].AfterHours = true, true
		hidden := supplements.ResinSupplement > 0 || supplements.AfterHours > 0
		r = taken(t, s, []logbook.Entry{visited(0, 65, 187.50)})
		assert.Equal(t, hidden, r.Visits[0].Compared == 0, "which jobs rode along decides the price")
	}
}

func TestASurchargeOfOneMachineHidesTheVisitsWithoutAJob(t *testing.T) {
	for name, change := range map[string]func(*model.HiredMachine){
		"by area": func(m *model.HiredMachine) { m.SurchargePerArea = 0.5 }, "by the hour": func(m *model.HiredMachine) { m.SurchargePerHour = 0.5 },
	} {
		s := studygen.Round()
		change(&s.Shops[0].Machines[1])
		r := taken(t, s, []logbook.Entry{visited(0, 65, 187.50)})
		assert.Zero(t, r.Visits[0].Compared, name)
		require.Len(t, r.LeftOut, 1, name)
		assert.Contains(t, r.LeftOut[0].Why, "does not name the one job type aboard", name)
	}
}

func TestARateIsSuggestedFromFourDaysOfOneClockOnly(t *testing.T) {
	suggested := func(basis string, days int, paid float64) bool {
		s := studygen.Round()
		s.Shops[0].Tariff.Basis = basis
		var log []logbook.Entry
		for day := range days {
			log = append(log, visited(7*day, 65, paid))
		}
		found, ok := suggestion(taken(t, s, log), "shops.mill.tariff.hourly_rate")
		if ok {
			assert.InDelta(t, 150*paid/187.50, found.New, 1e-9)
		}
		return ok
	}
	assert.True(t, suggested(model.WholeShop, 4, 200))
	assert.False(t, suggested(model.WholeShop, 3, 200))
	assert.False(t, suggested(model.WholeShop, 4, 187.50), "as in the study")
	assert.False(t, suggested(model.PerMachine, 12, 200), "there each machine has a rate of its own")
}

// cuts are so many cuts of the top that take so many times the 45.6 min reckoned, ten
// per cent off by turns.
func cuts(lines int, factor float64) []logbook.Entry {
	var log []logbook.Entry
	for day := range lines {
		log = append(log, logbook.Entry{
			Date: on(day), Kind: logbook.Work, Subject: "saw", Job: "top", Operation: "cut", Jobs: 1,
			Minutes: quantity.Minutes(45.6 * factor * (1 + 0.1*float64(1-2*(day%2)))), Given: logbook.HasMinutes,
		})
	}
	return log
}

func TestASlowerCutIsASlowerFeedAndMoreHandlingOfSuchPieces(t *testing.T) {
	for _, heavyOver := range []quantity.Mass{1000, 1} {
		s := studygen.Round()
		s.Studio.HeavyOver = heavyOver
		r := taken(t, s, cuts(24, 1.5))
		saw := s.Tools[model.Index(s.Tools, "saw")]
		moved, still := "tools.saw.handling_per_pass", "tools.saw.handling_heavy"
		if heavyOver == 1 {
			moved, still = still, moved
		}
		feed, ok := suggestion(r, "tools.saw.feed")
		require.True(t, ok)
		handling, ok := suggestion(r, moved)
		require.True(t, ok)
		_, ok = suggestion(r, still)
		assert.False(t, ok)
		assert.InDelta(t, float64(saw.Feed)/1.5, feed.New, 1e-9)
		assert.InDelta(t, 480*1.5, handling.New, 1e-9)
		for _, found := range []track.Suggestion{feed, handling} {
			assert.Less(t, found.Low, found.New)
			assert.Greater(t, found.High, found.New)
			assert.Greater(t, found.Low, 0.9*found.New)
			assert.Less(t, found.High, 1.1*found.New)
			assert.Equal(t, 24, found.Count)
		}
	}
}

func TestFiveLinesOfWorkAreEnoughAndFourAreNot(t *testing.T) {
	_, ok := suggestion(taken(t, studygen.Round(), cuts(5, 2)), "tools.saw.feed")
	assert.True(t, ok)
	_, ok = suggestion(taken(t, studygen.Round(), cuts(4, 2)), "tools.saw.feed")
	assert.False(t, ok)
}

func TestMeasuredMinutesAreComparedAndSuggestedAsSuch(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].Operations[2].Measured = quantity.Minutes(38)
	r := taken(t, s, cuts(12, 1.5))
	assert.InDelta(t, 12*38, machine(t, r, "tools.saw").All.Predicted.Minutes(), 1e-9)
	found, ok := suggestion(r, "job_types.top.operations.cut.measured")
	require.True(t, ok)
	assert.InDelta(t, 1.5*45.6, found.New/60, 1e-9)
	_, ok = suggestion(r, "tools.saw.feed")
	assert.False(t, ok, "measured minutes say nothing of the feed")
	assert.Zero(t, machine(t, r, "tools.saw").Reckoned.Lines)
}

func TestAMachineGoesByItsNameAndWithoutOneByItsKey(t *testing.T) {
	s := studygen.Round()
	s.Tools[0].Name = "track saw"
	assert.Equal(t, "track saw", machine(t, taken(t, s, cuts(1, 1)), "tools.saw").Name)
	s.Tools[0].Name = ""
	assert.Equal(t, "saw", machine(t, taken(t, s, cuts(1, 1)), "tools.saw").Name)
}

func TestJobsAreCountedByTheYearAndReworkByTheJob(t *testing.T) {
	again := func(day int, minutes float64) logbook.Entry {
		return logbook.Entry{Date: on(day), Kind: logbook.Rework, Job: "top", Jobs: 1, Minutes: quantity.Minutes(minutes), Given: logbook.HasMinutes}
	}
	log := []logbook.Entry{again(10, 60), again(20, 90), again(30, 150)}
	for day := range 100 {
		if day%2 == 1 {
			log = append(log, done(day))
		}
	}
	log = append(log, logbook.Entry{Date: on(0), Kind: logbook.Done, Job: "top", Jobs: 10})
	r := taken(t, studygen.Round(), log)
	require.Len(t, r.Jobs, 1)
	jobs := r.Jobs[0]
	assert.InDelta(t, 60/(100/365.25), jobs.PerYear.Value, 1e-9, "50 and 10 in 100 days")
	assert.InDelta(t, 3.0/60, jobs.Share.Value, 1e-12)
	assert.InDelta(t, 100, jobs.Waiting.Value, 1e-9, "the mean of 60, 90 and 150 min")
	assert.Equal(t, 3, jobs.Waits)

	twice := taken(t, studygen.Round(), []logbook.Entry{done(0), again(1, 60), again(2, 60)})
	assert.InDelta(t, 1, twice.Jobs[0].Share.Value, 0, "a share is no more than all")
}

func TestJobsAYearAreSuggestedFromElevenMonthsOn(t *testing.T) {
	for _, days := range []int{329, 330} {
		var log []logbook.Entry
		for day := range days {
			log = append(log, done(day))
		}
		found, ok := suggestion(taken(t, studygen.Round(), log), "job_types.top.per_year")
		assert.Equal(t, days == 330, ok)
		if ok {
			assert.InDelta(t, 365.25, found.New, 1)
		}
	}
}

func TestAVisitWithoutItsMinutesOrItsInvoiceIsNotPriced(t *testing.T) {
	noMinutes, noAmount, noTime := visited(0, 65, 187.50), visited(1, 65, 187.50), visited(2, 0, 187.50)
	noMinutes.Given, noAmount.Given = logbook.HasAmount, logbook.HasMinutes
	r := taken(t, studygen.Round(), []logbook.Entry{noMinutes, noAmount, noTime})
	require.Len(t, r.Visits, 1)
	assert.Equal(t, 3, r.Visits[0].Lines)
	assert.Zero(t, r.Visits[0].Compared)
	assert.Equal(t, track.Estimate{}, r.Visits[0].Ratio)
	assert.Equal(t, 3, r.LeftOut[0].Lines)
}

func TestAnEdgeCostsWhatWasPaidForItElseTheMeanElseTheStudys(t *testing.T) {
	whole := end(3, "3", logbook.Dull)
	whole.Length, whole.Given = 210, logbook.HasLength
	paid := func(log ...logbook.Entry) float64 {
		return worn(t, taken(t, studygen.Round(), log), "edges.blade").Paid
	}
	assert.InDelta(t, 80, paid(whole), 1e-9, "in the study")
	assert.InDelta(t, 70, paid(buy(0, "1", 100), buy(1, "2", 40), whole), 1e-9, "the mean of 100 and 40")
	whole.Item = "1"
	assert.InDelta(t, 100, paid(buy(0, "1", 100), buy(1, "2", 40), whole), 1e-9, "its own")
}

func TestLivesThatCostNothingHaveNoCostToBeSureOf(t *testing.T) {
	var log []logbook.Entry
	for life := range 5 {
		log = append(log, buy(3*life, "1", 0), use(3*life+1, "1", 150+10*float64(life)), end(3*life+2, "1", logbook.Dull))
	}
	w := worn(t, taken(t, studygen.Round(), log), "edges.blade")
	assert.Zero(t, w.Cost.Value)
	assert.False(t, w.Cost.Known)
}

// drifts are the comparisons of one path, by what they are about.
func drifts(r *track.Result, path string) map[track.DriftOf]track.Drift {
	found := map[track.DriftOf]track.Drift{}
	for _, one := range r.Drift {
		if one.Path == path {
			found[one.What] = one
		}
	}
	return found
}

// From the first of 2026 to the last of 2027: one job a day is 365.25 a year, both years.
func TestAYearIsComparedWithTheYearBefore(t *testing.T) {
	var log []logbook.Entry
	for day := range 730 {
		log = append(log, done(day))
		if day%10 == 0 && day >= 365 || day%50 == 0 {
			log = append(log, logbook.Entry{Date: on(day), Kind: logbook.Rework, Job: "top", Jobs: 1})
		}
	}
	found := drifts(taken(t, studygen.Round(), log), "job_types.top")
	jobs, rework := found[track.DriftJobs], found[track.DriftRework]
	assert.InDelta(t, 365.25, jobs.Now, 1e-9)
	assert.InDelta(t, 365.25, jobs.Before, 1e-9)
	assert.False(t, jobs.Told)
	assert.InDelta(t, 36.0/365, rework.Now, 1e-9, "every tenth day, from day 370 to day 720")
	assert.InDelta(t, 8.0/365, rework.Before, 1e-9, "every fiftieth day from the first on")
	assert.True(t, rework.Told)
}

func TestAYearIsComparedWithNinetyDaysBeforeItAndNotWithLess(t *testing.T) {
	for _, before := range []int{89, 90} {
		var log []logbook.Entry
		for day := 365 - before; day < 730; day++ {
			log = append(log, done(day))
		}
		found := drifts(taken(t, studygen.Round(), log), "job_types.top")
		require.Equal(t, before == 90, len(found) > 0)
		if before == 90 {
			assert.InDelta(t, 365.25, found[track.DriftJobs].Now, 1e-9)
			assert.InDelta(t, 365.25, found[track.DriftJobs].Before, 1e-9)
		}
	}
}

// A blade a week in the second year where one lasted four, over the same run a week.
func TestEdgesThatWearFasterAreToldByTheirEndsForTheRun(t *testing.T) {
	log := []logbook.Entry{buy(0, "1", 80)}
	for week := range 104 {
		log = append(log, use(7*week, "1", 50))
		if week >= 53 || week%4 == 3 {
			log = append(log, end(7*week, "1", logbook.Dull))
		}
	}
	log = append(log, done(729))
	found := drifts(taken(t, studygen.Round(), log), "edges.blade")[track.DriftWear]
	assert.InDelta(t, 51.0/(51*50), found.Now, 1e-9, "weeks 53 to 103")
	assert.InDelta(t, 13.0/(53*50), found.Before, 1e-9, "every fourth of weeks 0 to 52")
	assert.True(t, found.Told)
}

func TestThreeLivesThatEndedHaveAShapeAndTwoHaveNone(t *testing.T) {
	lives := func(ends ...string) track.Wear {
		var log []logbook.Entry
		for life, reason := range ends {
			log = append(log, buy(3*life, "1", 80), use(3*life+1, "1", 150+20*float64(life)), end(3*life+2, "1", reason))
		}
		return worn(t, taken(t, studygen.Round(), log), "edges.blade")
	}
	dull, damage := logbook.Dull, logbook.Damage
	assert.Nil(t, lives(dull, dull).Weibull)
	three := lives(dull, dull, dull)
	assert.NotNil(t, three.Weibull)
	assert.False(t, three.Dull.Known, "without damage the lives until dull are all lives")
	assert.False(t, lives(dull, dull, damage).Dull.Known)
	assert.True(t, lives(dull, dull, damage, dull).Dull.Known)
}

func TestAnEdgeThatCannotBeSharpenedAgainCostsNoNextSharpening(t *testing.T) {
	log := []logbook.Entry{knives(buy(0, "a", 160))}
	for day := range 3 {
		log = append(log, knives(use(2*day+1, "a", 3000)),
			logbook.Entry{Date: on(2*day + 2), Kind: logbook.Sharpen, Subject: "knives", Item: "a", Jobs: 1, Amount: 90, Given: logbook.HasAmount, Reason: logbook.Dull})
	}
	before := worn(t, taken(t, studygen.Round(), log), "edges.knives")
	assert.InDelta(t, 3*(90+40), before.Paid, 1e-9)
	after := worn(t, taken(t, studygen.Round(), append(log, knives(use(9, "a", 1000)))), "edges.knives")
	assert.InDelta(t, before.Paid+1000/after.Belief.Mean*40, after.Paid, 1e-9, "the last quarter of the price, and no sharpening")
}

func TestAVisitWithAJobOfNoShopIsNotPriced(t *testing.T) {
	line := visited(0, 65, 187.50)
	line.Job = "none"
	r := taken(t, studygen.Round(), []logbook.Entry{line})
	assert.Zero(t, r.Visits[0].Compared)
	assert.Equal(t, track.Estimate{}, r.Visits[0].Ratio)
	assert.Zero(t, r.Visits[0].Priced)
	assert.Equal(t, 1, r.LeftOut[0].Lines)
}
