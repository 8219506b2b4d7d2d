package spend_test

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/futures"
	"shopstint/capital/decision/spend"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// datedIn gives so many jobs of the first type a date in a month of a year, "2026-03".
func datedIn(s *model.Study, month string, jobs quantity.Count) {
	s.DatedJobs = append(s.DatedJobs, model.DatedJob{
		JobType: s.JobTypes[0].Key, Ready: quantity.Date(month + "-10"), Due: quantity.Date(month + "-20"), Count: jobs,
	})
}

// rentedBy are the shares of a year's invoices by month, with nothing owned.
func rentedBy(t *testing.T, s *model.Study, year int) (list [12]float64, dated int) {
	t.Helper()
	got := spent(s, spend.Always(s, []bool{false, false}), spend.Options{ByMonth: year})
	require.Positive(t, got.Years[year].Cash[spend.Rental])
	for m := range list {
		list[m] = got.Months[m].Cash[spend.Rental] / got.Years[year].Cash[spend.Rental]
	}
	return list, got.Dated
}

// evenWith is so much in each month, and more in one.
func evenWith(each float64, month int, more float64) (list [12]float64) {
	for m := range list {
		list[m] = each
	}
	list[month] += more
	return list
}

// 24 jobs a year, one visit each.
func TestJobsWithDatesComeInTheirMonthsAndTheRestEvenly(t *testing.T) {
	one := func(ready, due quantity.Date) func(*model.Study) {
		return func(s *model.Study) {
			s.DatedJobs = []model.DatedJob{{JobType: "top", Ready: ready, Due: due}}
		}
	}
	none := evenWith(1.0/12, 0, 0)
	// 23 without a date are 23/12 a month.
	at := func(month int) [12]float64 { return evenWith(23.0/12/24, month, 1.0/24) }
	for _, row := range []struct {
		name   string
		change func(*model.Study)
		year   int
		want   [12]float64
		dated  int
	}{
		{"no dates", func(*model.Study) {}, 0, none, 0},
		// 12 without a date are one a month.
		{"twelve in March", func(s *model.Study) { datedIn(s, "2026-03", 12) }, 0, evenWith(1.0/24, 2, 12.0/24), 12},
		{"in two lots", func(s *model.Study) { datedIn(s, "2026-03", 4); datedIn(s, "2026-03", 8) }, 0, evenWith(1.0/24, 2, 12.0/24), 12},
		{"all in July", func(s *model.Study) { datedIn(s, "2026-07", 24) }, 0, evenWith(0, 6, 1), 24},
		{"more than all in July", func(s *model.Study) { datedIn(s, "2026-07", 30) }, 0, evenWith(0, 6, 1), 30},
		{"one", one("2026-05-01", "2026-05-01"), 0, at(4), 1},
		{"halfway is in June", one("2026-05-20", "2026-06-20"), 0, at(5), 1},
		{"halfway is in May", one("2026-05-01", "2026-06-20"), 0, at(4), 1},
		{"halfway is the last of January", one("2026-01-31", "2026-02-01"), 0, at(0), 1},
		{"the first day", one("2026-01-01", "2026-01-01"), 0, at(0), 1},
		{"the day before", one("2025-12-31", "2025-12-31"), 0, none, 0},
		{"the last day", one("2028-12-31", "2028-12-31"), 2, at(11), 1},
		{"the day after", one("2029-01-01", "2029-01-01"), 2, none, 0},
		{"another year", func(s *model.Study) { datedIn(s, "2027-03", 12) }, 0, none, 0},
		{"another kind", func(s *model.Study) {
			s.DatedJobs = []model.DatedJob{{JobType: "chair", Ready: "2026-03-01", Due: "2026-03-01"}}
		}, 0, none, 0},
		{"twice as many a year later", func(s *model.Study) { s.JobTypes[0].Growth = 1; datedIn(s, "2027-03", 24) }, 1, evenWith(1.0/24, 2, 12.0/24), 24},
	} {
		s := studygen.Round()
		s.JobTypes[0].PerYear = 24
		row.change(s)
		got, dated := rentedBy(t, s, row.year)
		assert.InDeltaSlice(t, row.want[:], got[:], 1e-9, row.name)
		assert.Equal(t, row.dated, dated, row.name)
	}
}

// whole is the round study with something in every category: half of the year's 24 jobs
// come in March.
func whole() *model.Study {
	s := studygen.Round()
	s.JobTypes[0].PerYear = 24
	datedIn(s, "2026-03", 12)
	s.Studio.TaxRate = 0.25
	planer := &s.Machines[0]
	planer.YearlyOther, planer.Insurance = 120, 0.01
	planer.Motor, planer.MeanLoad = quantity.Kilowatts(4), 0.5
	planer.CarePerMonth, planer.TrainingTime = quantity.Hours(1), quantity.Hours(10)
	planer.CareShare, planer.LearningShare = 0.1, 0.2
	planer.FloorShare, planer.FootprintLength, planer.FootprintWidth = 1, 2, 1
	planer.HoursSold, planer.SoldRate = quantity.Hours(50), 20
	planer.Loan = model.Loan{Share: 0.45, Months: 18}
	planer.Wiring, planer.FixturesResale = 720, 0.5
	s.Machines[1].TrainingTime = quantity.Hours(5)
	return s
}

// What follows the work comes by its hours, 13 of 24 parts in March; what a year begins
// with in January, what ends it in December.
func TestEachCategoryFallsOnItsMonths(t *testing.T) {
	hours, even, first, last := evenWith(1.0/24, 2, 12.0/24), evenWith(1.0/12, 0, 0), evenWith(0, 0, 1), evenWith(0, 11, 1)
	got := spent(whole(), [][]bool{{true, true}, {false, false}, {false, false}}, spend.Options{})
	cash := map[spend.Category][12]float64{
		spend.Purchase: first, spend.Borrowed: first, spend.Resale: last, spend.Upkeep: even, spend.Insurance: even,
		spend.Edges: hours, spend.Abrasives: hours, spend.Energy: hours, spend.Floor: even, spend.Sold: even, spend.Tax: last,
	}
	cost := map[spend.Category][12]float64{
		spend.Recovery: even, spend.Upkeep: even, spend.Insurance: even, spend.Edges: hours, spend.Abrasives: hours,
		spend.Energy: hours, spend.Floor: even, spend.Sold: even, spend.Tax: even,
	}
	for category, shape := range cash {
		assertFalls(t, got.Years[0].Cash[category], shape, func(m int) float64 { return got.Months[m].Cash[category] }, int(category))
	}
	for category, shape := range cost {
		assertFalls(t, got.Years[0].Cost[category], shape, func(m int) float64 { return got.Months[m].Cost[category] }, int(category))
	}
}

func assertFalls(t *testing.T, year float64, shape [12]float64, of func(m int) float64, category int) {
	t.Helper()
	require.NotZero(t, year, "category %d", category)
	for m, share := range shape {
		assert.InDelta(t, year*share, of(m), 1e-9, "category %d month %d", category, m)
	}
}

// Own time is worth something and is never paid: neither are its hours in the cash, nor
// do they lower a tax that is.
func TestTheValueOfAnOwnHourMovesNoCash(t *testing.T) {
	for _, owned := range [][][]bool{
		{{true, true}, {true, true}, {true, true}}, {{false, false}, {true, false}, {true, true}}, {{false, false}, {false, false}, {false, false}},
	} {
		dear, free := whole(), whole()
		free.Studio.LabourRate = 0
		was, is := spent(dear, owned, spend.Options{ByMonth: 1}), spent(free, owned, spend.Options{ByMonth: 1})
		for y := range was.Years {
			assert.InDeltaSlice(t, is.Years[y].Cash[:], was.Years[y].Cash[:], 1e-9, "year %d", y)
			assert.Positive(t, was.Years[y].Cost[spend.OwnTime])
			assert.InDelta(t, 0, is.Years[y].Cost[spend.OwnTime], 1e-9)
		}
		for m := range was.Months {
			assert.InDeltaSlice(t, is.Months[m].Cash[:], was.Months[m].Cash[:], 1e-9, "month %d", m)
		}
	}
}

// A planer of 4,000 with 720 of wiring, half of which comes back. At 10 % its price less
// 2,268 after three years is 4000 × 0.402115 − 2268 × 0.302115 = 923.26 a year, and
// the wiring 720 × 0.402115 − 360 × 0.302115 = 180.76: the formulas of capital
// recovery and of the sinking fund.
func TestAPurchaseIsSpreadOverTheYearsInWhichItServes(t *testing.T) {
	recovery := func(years int) float64 { return 0.10 / (1 - math.Pow(1.10, -float64(years))) }
	sinking := func(years int) float64 { return 0.10 / (math.Pow(1.10, float64(years)) - 1) }
	machine := func(years int) float64 {
		return 4000*recovery(years) - 4000*0.7*math.Pow(0.9, float64(years-1))*sinking(years)
	}
	wiring := func(years int) float64 { return 720*recovery(years) - 360*sinking(years) }
	has, none := []bool{true, false}, []bool{false, false}
	for _, row := range []struct {
		name  string
		kept  quantity.Years
		owned [][]bool
		want  []float64
	}{
		{"three years", 3, [][]bool{has, has, has}, []float64{machine(3) + wiring(3), machine(3) + wiring(3), machine(3) + wiring(3)}},
		{"from the second year", 3, [][]bool{none, has, has}, []float64{0, machine(2) + wiring(2), machine(2) + wiring(2)}},
		{"the second year alone", 3, [][]bool{none, has, none}, []float64{0, machine(1) + wiring(1), 0}},
		{"replaced after two", 2, [][]bool{has, has, has}, []float64{machine(2) + wiring(3), machine(2) + wiring(3), machine(1) + wiring(3)}},
	} {
		s := studygen.Round()
		s.Machines[0].YearsKept, s.Machines[0].Wiring, s.Machines[0].FixturesResale = row.kept, 720, 0.5
		got := spent(s, row.owned, spend.Options{})
		require.Len(t, got.Years, len(row.want))
		assert.InDelta(t, got.Course.Present, got.Present(), 1e-9, row.name)
		for y, want := range row.want {
			assert.InDelta(t, want, got.Years[y].Cost[spend.Recovery], 1e-9, "%s, year %d", row.name, y)
		}
	}
	assert.InDelta(t, 923.26+180.76, machine(3)+wiring(3), 0.01)
}

// 1,200 for a collector that two machines share, a fifth of which comes back, on 10 m²
// at 6 a year: by the same formulas 1200 × 0.402115 − 240 × 0.302115 = 410.03.
func TestASharedFixtureIsEnteredAsItIsPaidAndAsItServes(t *testing.T) {
	owned := spend.Always(studygen.Round(), []bool{true, true})
	bare := spent(floored(false), owned, spend.Options{})
	got := spent(floored(true), owned, spend.Options{})
	for y, want := range []struct{ bought, back, tax float64 }{{1200, 0, -15}, {0, 0, -15}, {0, -240, -15 - 240}} {
		more := func(category spend.Category) float64 {
			return got.Years[y].Cash[category] - bare.Years[y].Cash[category]
		}
		assert.InDelta(t, want.bought, more(spend.Purchase), 1e-9, "year %d", y)
		assert.InDelta(t, want.back, more(spend.Resale), 1e-9, "year %d", y)
		assert.InDelta(t, 60, more(spend.Floor), 1e-9, "year %d", y)
		assert.InDelta(t, want.tax, more(spend.Tax), 1e-9, "year %d: a quarter of the floor, and of the loss when it is sold", y)
		assert.InDelta(t, 410.03, got.Years[y].Cost[spend.Recovery]-bare.Years[y].Cost[spend.Recovery], 0.01, "year %d", y)
		assert.InDelta(t, 60, got.Years[y].Cost[spend.Floor]-bare.Years[y].Cost[spend.Floor], 1e-9, "year %d", y)
	}
}

func floored(shared bool) *model.Study {
	s := studygen.Round()
	s.Studio.FloorCost, s.Studio.TaxRate = 6, 0.25
	s.Fixtures = []model.Fixture{{Key: "collector", Price: 1200, Resale: 0.2, Area: 10}}
	for m := range s.Machines {
		if shared {
			s.Machines[m].Fixtures = []string{"collector"}
		}
	}
	return s
}

// A membership of 50 a month and an induction of 90 are no matter of the jobs' months.
func TestAMembershipIsPaidEvenlyAndAnInductionInJanuary(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].PerYear = 24
	datedIn(s, "2026-03", 24)
	s.Shops[0].Machines[0].Inducted, s.Shops[0].Tariff.InductionFee, s.Shops[0].Tariff.InductionTime = false, 90, quantity.Hours(2)
	s.Shops[0].Tariff.MembershipFee, s.Shops[0].Tariff.MemberDiscount = 50, 0.5
	none := spend.Always(s, []bool{false, false})
	got := spent(s, none, spend.Options{})
	for m := range got.Months {
		want := 50.0
		switch m {
		case 0:
			want += 90
		case 2:
			want = got.Years[0].Cash[spend.Rental] - 11*50 - 90
		}
		assert.InDelta(t, want, got.Months[m].Cash[spend.Rental], 1e-9, "month %d", m)
		if m == 0 {
			assert.InDelta(t, 120, got.Months[m].Cost[spend.OwnTime], 1e-9, "two hours at 60")
		}
	}
	later := spent(s, none, spend.Options{ByMonth: 1})
	assert.InDelta(t, later.Months[1].Cash[spend.Rental], later.Months[0].Cash[spend.Rental], 1e-9, "no induction in the second year")
}

func TestARateHasItsOwnTimeApart(t *testing.T) {
	s := measured(20, 0)
	s.Machines[0].UpkeepShare = 0.04
	owned := [][]bool{{true, false}, {true, false}, {true, false}}
	was := spent(s, owned, spend.Options{}).Rates[0]
	s.Machines[0].TrainingTime = quantity.Hours(10)
	is := spent(s, owned, spend.Options{}).Rates[0]
	assert.InDelta(t, was.Time+10*60.0/60, is.Time, 1e-9, "ten hours at 60 over 60 hours")
	assert.InDelta(t, was.Owning, is.Owning, 1e-9)
	assert.InDelta(t, 4000.0/60, was.Owning, 1e-9)
	assert.InDelta(t, 160.0/20, was.Running, 1e-9, "the upkeep")
	assert.Positive(t, was.Time)
	s.Machines[0].Rigging = 60
	moved := spent(s, owned, spend.Options{}).Rates[0]
	assert.InDelta(t, was.Owning+1, moved.Owning, 1e-9, "60 for moving in over 60 hours")
	assert.InDelta(t, (4000+60)/3.0+20*moved.Running, moved.PerYear, 1e-9)
	assert.InDelta(t, moved.Owning+moved.Running, moved.Without(), 1e-9)
	assert.InDelta(t, moved.Owning+moved.Running+moved.Time, moved.With(), 1e-9)
}

// Half of the jobs come in March, with their hours at the machine: 20 hours a year of an
// own hour at 60. An hour of care each month is 60 in any of them.
func TestOwnTimeFollowsTheHoursAndCareByTheMonthDoesNot(t *testing.T) {
	months := func(change func(*model.Machine)) (list [12]float64) {
		s := measured(20, 0)
		datedIn(s, "2026-03", 10)
		change(&s.Machines[0])
		got := spent(s, spend.Always(s, []bool{true, false}), spend.Options{})
		for m := range list {
			list[m] = got.Months[m].Cost[spend.OwnTime]
		}
		return list
	}
	bare := months(func(*model.Machine) {})
	for _, row := range []struct {
		name   string
		change func(*model.Machine)
		want   [12]float64
	}{
		{"care by the month", func(m *model.Machine) { m.CarePerMonth = quantity.Hours(1) }, evenWith(60, 0, 0)},
		{"care by the hour", func(m *model.Machine) { m.CareShare = 0.1 }, evenWith(5, 2, 60)},                 // 2 hours
		{"learning in the first year", func(m *model.Machine) { m.LearningShare = 0.2 }, evenWith(20, 2, 240)}, // 8 hours: two people lift 75.6 kg
	} {
		for m, more := range months(row.change) {
			assert.InDelta(t, row.want[m], more-bare[m], 1e-9, "%s, month %d", row.name, m)
		}
	}
}

// One hour a year at 4 kW and half of it drawn, at 0.20: 0.40, in the month of the job.
func TestTheEnergyOfASingleHourFallsOnItsMonth(t *testing.T) {
	s := measured(1, 0)
	s.Studio.EnergyPrice = 0.2
	s.Machines[0].Motor, s.Machines[0].MeanLoad = quantity.Kilowatts(4), 0.5
	datedIn(s, "2026-03", 1)
	got := spent(s, spend.Always(s, []bool{true, false}), spend.Options{})
	for m := range got.Months {
		assert.InDelta(t, evenWith(0, 2, 0.4)[m], got.Months[m].Cash[spend.Energy], 1e-9, "month %d", m)
	}
	idle := spent(s, [][]bool{{false, false}, {false, false}, {true, false}}, spend.Options{ByMonth: 2})
	for m := range idle.Months {
		assert.InDelta(t, 0.4/12, idle.Months[m].Cash[spend.Energy], 1e-9, "no dates in the third year")
	}
}

// Both kinds are an hour at the planer, 20 of each in the first year. In the second the
// first kind comes twice as often and all in March: 40 hours of 60.
func TestTheHoursOfAMonthGrowWithTheKindOfJob(t *testing.T) {
	s := measured(20, 0)
	other := s.JobTypes[0]
	other.Key = "other"
	s.JobTypes = append(s.JobTypes, other)
	s.JobTypes[0].Growth = 1
	datedIn(s, "2027-03", 40)
	s.Studio.EnergyPrice, s.Machines[0].Motor = 0.2, quantity.Kilowatts(4)
	got := spent(s, spend.Always(s, []bool{true, false}), spend.Options{ByMonth: 1})
	for m := range got.Months {
		assert.InDelta(t, evenWith(20.0/12, 2, 40)[m]*2*0.2, got.Months[m].Cash[spend.Energy], 1e-9, "month %d", m)
	}
}

// Permits of 100 to 200 a year, each as likely: 90 of 100 futures lie from 105 to 195.
func TestARangeLeavesFiveOfAHundredFuturesOutOnEitherSide(t *testing.T) {
	s := measured(20, 0)
	s.Machines[0].YearlyOther = 150
	s.Origins = map[string]model.Origin{"machines.planer_own.yearly_other": {HasRange: true, Low: 100, High: 200, Shape: model.ShapeUniform}}
	got := spent(s, spend.Always(s, []bool{true, false}), spend.Options{ByMonth: 1})
	require.NoError(t, got.Draw(context.Background(), futures.Options{Seed: 7, Most: 4 * chance.PerBlock, Steady: true}))
	assert.Equal(t, 4*chance.PerBlock, got.Futures)
	assert.Equal(t, uint64(7), got.Seed)
	assert.Zero(t, spend.Usual%chance.PerBlock, "futures come in whole blocks")
	require.Len(t, got.YearRanges, 3)
	require.Len(t, got.MonthRanges, 12)
	for y := range got.Years {
		cash, cost := got.Years[y].CashSum(), got.Years[y].CostSum()
		assert.InDelta(t, 150, got.Years[y].Cash[spend.Insurance], 1e-9, "year %d", y)
		assert.InDelta(t, cash-45, got.YearRanges[y].Cash.Low, 1, "year %d", y)
		assert.InDelta(t, cash+45, got.YearRanges[y].Cash.High, 1, "year %d", y)
		assert.InDelta(t, cost-45, got.YearRanges[y].Cost.Low, 1, "year %d", y)
		assert.InDelta(t, cost+45, got.YearRanges[y].Cost.High, 1, "year %d", y)
	}
	for m := range got.Months {
		assert.InDelta(t, got.Months[m].CashSum()-45.0/12, got.MonthRanges[m].Cash.Low, 0.1, "month %d", m)
		assert.InDelta(t, got.Months[m].CostSum()+45.0/12, got.MonthRanges[m].Cost.High, 0.1, "month %d", m)
	}
}

// wearing is what a year of the round study pays for edges and for abrasives.
func wearing(t *testing.T, owned []bool, change func(*model.Study)) [2]float64 {
	t.Helper()
	s := studygen.Round()
	s.JobTypes[0].Operations = s.JobTypes[0].Operations[:2]
	change(s)
	got := spent(s, spend.Always(s, owned), spend.Options{})
	return [2]float64{got.Years[0].Cash[spend.Edges], got.Years[0].Cash[spend.Abrasives]}
}

// Knives run 19.2 m a job, 384 m a year. A set for 160 with three sharpenings at 80
// costs 400 for 16,000 m: 9.60. Belts pass 8.64 m² with the first grit and 4.32 with
// each of three others, 432 m² a year, at 80 for 800 m²: 43.20. At the bench, a disc
// for 0.60 sands 1.2 m² and passes 4.32 m² a job: 43.20; the blade cuts 21.6 m a job,
// 80 for 200 m: 172.80.
func TestEdgesAndAbrasivesAreToldApart(t *testing.T) {
	for _, row := range []struct {
		name   string
		owned  []bool
		change func(*model.Study)
		want   [2]float64
	}{
		{"neither: the shop has its own", []bool{false, false}, func(*model.Study) {}, [2]float64{0, 0}},
		{"the planer", []bool{true, false}, func(*model.Study) {}, [2]float64{9.6, 0}},
		{"the sander", []bool{false, true}, func(*model.Study) {}, [2]float64{0, 43.2}},
		{"both", []bool{true, true}, func(*model.Study) {}, [2]float64{9.6, 43.2}},
		{"a job every fifth year", []bool{true, true}, func(s *model.Study) { s.JobTypes[0].PerYear = 0.2 }, [2]float64{0.096, 0.432}},
		{"a planer without an edge", []bool{true, false}, func(s *model.Study) { s.Machines[0].Edge = "" }, [2]float64{0, 0}},
		{"at the bench", []bool{false, false}, func(s *model.Study) {
			s.JobTypes[0].Operations = []model.Operation{
				{Key: "cut", Class: model.TrackSaw, Faces: 1, CutLength: 2.4, Cuts: 3, BothSides: false, SetupPer: model.PerJob},
				{Key: "sand", Class: model.Orbital, Faces: 2, SetupPer: model.PerJob, Grits: []model.Grit{{Key: "120"}}},
			}
		}, [2]float64{172.8, 43.2}},
	} {
		got := wearing(t, row.owned, row.change)
		assert.InDeltaSlice(t, row.want[:], got[:], 1e-9, row.name)
	}
}

func TestASumIsThatOfItsCategories(t *testing.T) {
	var none spend.Amounts
	assert.Equal(t, [2]float64{}, [2]float64{none.CashSum(), none.CostSum()})
	one := spend.Amounts{}
	one.Cash[0], one.Cash[spend.Categories-1], one.Cost[0], one.Cost[spend.Categories-1] = 1, 2, 4, -8
	assert.Equal(t, [2]float64{3, -4}, [2]float64{one.CashSum(), one.CostSum()})
}

func TestMachinesAreOwnedAsLongAsTheirStays(t *testing.T) {
	s := studygen.Round()
	s.Studio.Horizon = 4
	stays := []alternative.Stay{{From: 1, To: 2}, {From: 3, To: 4}, {From: 0, To: 3}}
	stays[2].Machine = 1
	assert.Equal(t, [][]bool{{false, true}, {true, true}, {false, true}, {true, false}}, spend.Along(s, stays))
	first, last := spend.Span(s)
	assert.Equal(t, []quantity.Date{"2026-01-01", "2029-12-31"}, []quantity.Date{first, last})
}

// Price 4,000 and 8 % of tax on it, 400 for moving in, 720 of wiring of which half comes
// back, 300 for a course and the first belts; 130 for moving out. Ten hours to learn it
// are nobody's invoice. It is worth 70 % after a year, 63 % after two.
func TestEveryPartOfAPurchaseIsPaidOnItsDay(t *testing.T) {
	const moved, wired, started, out, back = 4000 + 320 + 400, 720, 300, 130, 360
	has, none := []bool{true, false}, []bool{false, false}
	for _, row := range []struct {
		name           string
		kept           quantity.Years
		owned          [][]bool
		bought, resale []float64
	}{
		{"sold after two years", 3, [][]bool{has, has, none}, []float64{moved + wired + started, 0, 0}, []float64{0, out - 2520 - back, 0}},
		{"bought a year later", 3, [][]bool{none, has, none}, []float64{0, moved + wired + started, 0}, []float64{0, out - 2800 - back, 0}},
		{"replaced each year", 1, [][]bool{has, has, none}, []float64{moved + wired + started, moved, 0}, []float64{out - 2800, out - 2800 - back, 0}},
	} {
		s := studygen.Round()
		planer := &s.Machines[0]
		planer.YearsKept, planer.SalesTax, planer.Delivery, planer.Rigging, planer.RiggingOut = row.kept, 0.08, 150, 250, out
		planer.Wiring, planer.FixturesResale, planer.Training, planer.FirstAbrasives, planer.TrainingTime = wired, 0.5, 200, 100, quantity.Hours(10)
		got := spent(s, row.owned, spend.Options{})
		for y := range got.Years {
			assert.InDelta(t, row.bought[y], got.Years[y].Cash[spend.Purchase], 1e-9, "%s, year %d", row.name, y)
			assert.InDelta(t, row.resale[y], got.Years[y].Cash[spend.Resale], 1e-9, "%s, year %d", row.name, y)
		}
		var events []float64
		for _, event := range got.Events {
			events = append(events, event.Amount)
		}
		var want []float64
		for y := range row.bought {
			if row.bought[y] > 0 {
				want = append(want, row.bought[y])
			}
		}
		want = append(want, row.resale[1])
		require.Len(t, events, len(want), row.name)
		assert.InDeltaSlice(t, want, events, 1e-9, row.name)
	}
}
