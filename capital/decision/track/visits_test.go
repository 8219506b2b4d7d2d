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

// Source of the examples below: common practice, no source; sums stand beside them.

// withTops is a visit with so many tops aboard.
func withTops(jobs float64, line logbook.Entry) logbook.Entry {
	line.Job, line.Jobs = "top", jobs
	return line
}

func visitsTo(t *testing.T, s *model.Study, log ...logbook.Entry) track.Visits {
	t.Helper()
	r := taken(t, s, log)
	require.Len(t, r.Visits, 1)
	return r.Visits[0]
}

// Two hours: 300 at 150 an hour, 80 for the operator, 105 after hours, 75 for the resin, 12
// for knives and belts, 20 for the forklift and a tenth of the 592 as tax are 651.20. At 165
// an hour it is 330, 115.50 and 82.50, with the 112 and the tax 704.
func TestAnInvoiceIsPricedLineByLineAndItsRateWorkedBack(t *testing.T) {
	s := studygen.Round()
	tariff := &s.Shops[0].Tariff
	tariff.OperatorRate, tariff.AfterHours, tariff.ResinSupplement, tariff.HandlingCharge, tariff.SalesTax = 40, 0.35, 0.25, 20, 0.10
	for m := range s.Shops[0].Machines {
		s.Shops[0].Machines[m].SurchargePerHour = 6
	}
	s.Materials[0].Resin, s.JobTypes[0].AfterHours = true, true
	v := visitsTo(t, s, withTops(1, visited(0, 120, 704)))
	assert.Equal(t, "mill", v.Shop)
	assert.Equal(t, 1, v.Lines)
	assert.Equal(t, 1, v.Compared)
	assert.InDelta(t, 651.20, v.Priced, 1e-9)
	assert.InDelta(t, 704, v.Paid, 0)
	assert.InDelta(t, 704/651.20, v.Ratio.Value, 1e-12)
	assert.False(t, v.Ratio.Known, "one invoice tells no scatter")
	require.Len(t, v.Days, 1)
	assert.Equal(t, on(0), v.Days[0].Date)
	assert.InDelta(t, 165, v.Days[0].Rate, 1e-9)
	assert.True(t, v.Hourly)
	assert.InDelta(t, 150, v.Study, 0)
	assert.Equal(t, 1, v.Since)
	assert.InDelta(t, 165, v.Now.Value, 1e-9)
}

// An hour by the planer's own clock is 90, and what was paid 99.
func TestWhereEachMachineHasItsClockARateIsAShareOfTheStudys(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Tariff.Basis = model.PerMachine
	only(&s.JobTypes[0], "plane")
	v := visitsTo(t, s, withTops(1, visited(0, 60, 99)))
	assert.False(t, v.Hourly)
	assert.InDelta(t, 1, v.Study, 0)
	assert.InDelta(t, 90, v.Priced, 1e-9)
	require.Len(t, v.Days, 1)
	assert.InDelta(t, 1.1, v.Days[0].Rate, 1e-12)
}

// Sweeping takes 10 min, on the one clock once and on a machine's own clock where it was
// used. What is on the clock holds it already.
func TestSweepingIsOnTheClockOfEveryMachineInUse(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Cleaning = quantity.Minutes(10)
	assert.InDelta(t, 150, visitsTo(t, s, withTops(1, visited(0, 60, 150))).Priced, 1e-9, "the hour on the clock")
	assert.InDelta(t, 187.50, visitsTo(t, s, visited(0, 61, 150)).Priced, 1e-9, "one minute over the hour is a quarter more")

	s.Shops[0].Tariff.Basis = model.PerMachine
	only(&s.JobTypes[0], "plane")
	assert.InDelta(t, 90, visitsTo(t, s, withTops(1, visited(0, 60, 90))).Priced, 1e-9, "the planer's alone")
	assert.InDelta(t, 112.50, visitsTo(t, s, withTops(1, visited(0, 61, 90))).Priced, 1e-9)
}

// A visit of 5 min where sweeping alone is 40: the shop charges it all the same, as three
// quarters of an hour.
func TestAVisitShorterThanTheSweepingIsChargedTheSweeping(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Cleaning = quantity.Minutes(40)
	assert.InDelta(t, 112.50, visitsTo(t, s, withTops(1, visited(0, 5, 100))).Priced, 1e-9)
}

// A top passes the belt 2 + 1 + 1 + 1 times on both faces of 2.16 m²: 21.6 m².
func TestASurchargeByTheAreaIsForAllTheTopsAboard(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Machines[1].SurchargePerArea = 0.5
	for jobs, tops := range map[float64]float64{1: 1, 3: 3, 2.6: 3, 0.4: 1} {
		assert.InDelta(t, 300+tops*10.80, visitsTo(t, s, withTops(jobs, visited(0, 120, 300))).Priced, 1e-9, "%g", jobs)
	}
}

func TestATripWithoutItsJobIsPricedWhateverMachinesTheShopHas(t *testing.T) {
	for machines := 1; machines <= 3; machines++ {
		s := studygen.Round()
		shop := &s.Shops[0]
		third := shop.Machines[1]
		third.Key = "third"
		shop.Machines = append(shop.Machines, third)[:machines]
		assert.InDelta(t, 187.50, visitsTo(t, s, visited(0, 65, 187.50)).Priced, 1e-9, "%d machines", machines)
	}
}

// 240 min by the block are 600; the half day is 400 and says nothing of the hour.
func TestAHalfDayIsPricedAndTellsNoRate(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Tariff.HalfDayPrice = 400
	v := visitsTo(t, s, withTops(1, visited(0, 240, 440)), withTops(1, visited(1, 60, 150)))
	assert.Equal(t, 2, v.Compared)
	assert.InDelta(t, 550, v.Priced, 1e-9)
	require.Len(t, v.Days, 1)
	assert.Equal(t, on(1), v.Days[0].Date)
}

func TestAnInvoiceOfTheForkliftAloneTellsNoRate(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Tariff.HandlingCharge = 20
	for paid, days := range map[float64]int{19: 0, 20: 0, 20.50: 1} {
		v := visitsTo(t, s, withTops(1, visited(0, 60, paid)))
		assert.Len(t, v.Days, days, "%g", paid)
		assert.InDelta(t, 170, v.Priced, 1e-9)
	}
	s.Shops[0].Tariff.HourlyRate = 1
	v := visitsTo(t, s, withTops(1, visited(0, 30, 20.60)))
	require.Len(t, v.Days, 1)
	assert.InDelta(t, 1.20, v.Days[0].Rate, 1e-9, "0.60 for half an hour")
}

func TestVisitsOfOneDayTellItsRateTogether(t *testing.T) {
	v := visitsTo(t, studygen.Round(), withTops(1, visited(0, 60, 150)), withTops(1, visited(0, 60, 180)), withTops(1, visited(3, 60, 150)))
	require.Len(t, v.Days, 2)
	assert.InDelta(t, 165, v.Days[0].Rate, 1e-9)
	assert.InDelta(t, 150, v.Days[1].Rate, 1e-9)
	assert.Equal(t, on(3), v.Days[1].Date)
	assert.InDelta(t, 157.50, v.Now.Value, 1e-9)
	assert.False(t, v.Now.Known)
}

// Of 21 days, at 100 to 120 % in any order, the middle nine tenths are 101 to 119 %.
func TestTheRateNowHoldsTheMiddleNineTenthsOfTheDays(t *testing.T) {
	var factors []float64
	for day := range 21 {
		factors = append(factors, 1+float64(day*8%21)/100)
	}
	v := visitsTo(t, studygen.Round(), invoices(factors...)...)
	assert.Empty(t, v.Steps)
	assert.Equal(t, 21, v.Since)
	assert.InDelta(t, 165, v.Now.Value, 1e-9)
	assert.InDelta(t, 151.50, v.Now.Low, 1e-9)
	assert.InDelta(t, 178.50, v.Now.High, 1e-9)
	assert.True(t, v.Now.Known)
}

// stepped is so many days at one rate and as many at another.
func stepped(days int, factor float64) []logbook.Entry {
	factors := make([]float64, 2*days)
	for i := range factors {
		factors[i] = 1
		if i >= days {
			factors[i] = factor
		}
	}
	return invoices(factors...)
}

// Of 14 days 7 on either side come in order by chance once in 3,432, of 12 days 6 once in
// 924; with nine and seven places for it and both ways that is 0.0052 and 0.0152.
func TestAStepIsToldWhereChanceShowsItLessThanOnceInAHundred(t *testing.T) {
	v := visitsTo(t, studygen.Round(), stepped(7, 1.1)...)
	require.Len(t, v.Steps, 1)
	assert.Equal(t, on(7), v.Steps[0].Date)
	assert.InDelta(t, 150, v.Steps[0].Before, 1e-9)
	assert.InDelta(t, 165, v.Steps[0].After, 1e-9)
	assert.InDelta(t, 18.0/3432, v.Steps[0].P, 1e-9)
	assert.Equal(t, 7, v.Since)
	assert.InDelta(t, 165, v.Now.Low, 1e-9, "since the step")
	v = visitsTo(t, studygen.Round(), stepped(6, 1.1)...)
	assert.Empty(t, v.Steps)
	assert.Equal(t, 12, v.Since)
}

func TestAStepOfLessThanOneInAHundredIsNone(t *testing.T) {
	assert.Len(t, visitsTo(t, studygen.Round(), stepped(12, 1.011)...).Steps, 1)
	assert.Empty(t, visitsTo(t, studygen.Round(), stepped(12, 1.009)...).Steps)
}

// twoShops has a second shop that comes before the first by its key, with the first's rate.
func twoShops() *model.Study {
	s := studygen.Round()
	attic := s.Shops[0]
	attic.Key, attic.Name = "attic", "the attic"
	s.Shops = append(s.Shops, attic)
	return s
}

func TestEachShopHasItsOwnVisits(t *testing.T) {
	s := twoShops()
	there, job := visited(1, 60, 160), withTops(1, visited(2, 60, 160))
	there.Subject, job.Subject = "attic", "attic"
	r := taken(t, s, []logbook.Entry{visited(0, 60, 150), there, job})
	require.Len(t, r.Visits, 2)
	assert.Equal(t, "attic", r.Visits[0].Shop, "by their keys")
	assert.Equal(t, "the attic", r.Visits[0].Name)
	assert.Equal(t, "mill", r.Visits[1].Shop)
	assert.Equal(t, 2, r.Visits[0].Lines)
	assert.Equal(t, 1, r.Visits[0].Compared)
	assert.InDelta(t, 160, r.Visits[0].Paid, 0)
	assert.Equal(t, []track.LeftOut{{Lines: 1, Why: "the study sends jobs of that type to another shop, or has no work for them there"}}, r.LeftOut)
}

func TestAJobThatGoesElsewhereHidesNoVisit(t *testing.T) {
	s := twoShops()
	s.Shops[0].Tariff.AfterHours, s.Shops[1].Tariff.AfterHours = 0.35, 0.35
	s.JobTypes[0].AfterHours = true
	there := visited(1, 60, 150)
	there.Subject = "attic"
	r := taken(t, s, []logbook.Entry{visited(0, 60, 150), there})
	require.Len(t, r.Visits, 2)
	assert.Equal(t, 1, r.Visits[0].Compared, "no job pays after hours there")
	assert.Zero(t, r.Visits[1].Compared)
}

func TestAJobDoneAtTheBenchHidesNoVisit(t *testing.T) {
	s := mixed(60, func(kind *model.JobType) { only(kind, "cut"); kind.AfterHours = true })
	s.Shops[0].Tariff.AfterHours = 0.35
	assert.Equal(t, 1, visitsTo(t, s, visited(0, 60, 150)).Compared)
	bench := visited(0, 60, 150)
	bench.Job = "other"
	assert.Zero(t, visitsTo(t, s, bench).Compared, "the study has nothing for it to do there")
}

// The second job is resin-filled: a quarter more.
func TestAVisitIsPricedAsOfItsOwnJob(t *testing.T) {
	s := mixed(60, func(kind *model.JobType) {})
	s.Materials[1].Resin, s.Shops[0].Tariff.ResinSupplement = true, 0.25
	other := visited(0, 60, 150)
	other.Job = "other"
	assert.InDelta(t, 187.50, visitsTo(t, s, other).Priced, 1e-9)
	assert.InDelta(t, 150, visitsTo(t, s, withTops(1, visited(0, 60, 150))).Priced, 1e-9)
	assert.Zero(t, visitsTo(t, s, visited(0, 60, 150)).Compared)
}

func TestAVisitOfASecondHasItsMinutes(t *testing.T) {
	line := visited(0, 0, 75)
	line.Minutes = 1
	assert.InDelta(t, 75, visitsTo(t, studygen.Round(), line).Priced, 1e-9)
}
