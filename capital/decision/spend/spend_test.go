package spend_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/futures"
	"shopstint/capital/decision/joint"
	"shopstint/capital/decision/spend"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

func demoStudy(t *testing.T) *model.Study {
	t.Helper()
	s, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	return s
}

// some owns machines by the seed.
func some(s *model.Study, seed int) []bool {
	owned := make([]bool, len(s.Machines))
	for m := range owned {
		owned[m] = (seed+m)%3 != 0
	}
	return owned
}

// A second way to every year: the tables of Evaluate, line by line. Money that a
// year begins with stands in the column before.
func TestTheCategoriesOfEveryYearAreTheEvaluatorsLines(t *testing.T) {
	fixtures, loans := 0, 0
	for seed, s := range studygen.Studies(120) {
		plan, owned := work.New(s), some(s, seed)
		got := spend.Of(s, plan, spend.Always(s, owned), spend.Options{})
		want := alternative.Evaluate(s, plan, owned)
		rented := want.Rent.Years(s)
		for y := range got.Years {
			line := func(t int, list ...capital.Line) float64 {
				sum := 0.0
				for i := range want.Owner {
					for _, one := range list {
						sum += want.Owner[i].Table[one][t]
					}
				}
				return sum
			}
			cash, cost, year := &got.Years[y].Cash, &got.Years[y].Cost, &rented[y]
			about := func(want, got float64, name string) {
				t.Helper()
				assert.InDelta(t, want, got, studygen.Dust(want)+1e-6, "seed %d year %d: %s", seed, y, name)
			}
			learned := 0.0
			if y == 0 {
				for m, has := range owned {
					if has {
						learned += s.Machines[m].TrainingTime.Hours() * float64(s.Studio.LabourRate)
					}
				}
			}
			about(line(y, capital.Price, capital.SalesTax, capital.Moving, capital.Fixtures, capital.Start)-learned, cash[spend.Purchase], "purchase")
			about(line(y, capital.Borrowed), cash[spend.Borrowed], "borrowed")
			about(line(y+1, capital.Interest, capital.Principal), cash[spend.Repaid], "repaid")
			about(line(y+1, capital.Resale, capital.RiggingOut, capital.FixturesBack), cash[spend.Resale], "resale")
			about(line(y+1, capital.Upkeep), cash[spend.Upkeep], "upkeep")
			about(line(y+1, capital.Insurance, capital.Other), cash[spend.Insurance], "insurance")
			about(line(y+1, capital.Energy, capital.Demand), cash[spend.Energy], "energy")
			about(line(y+1, capital.Floor), cash[spend.Floor], "floor")
			about(line(y+1, capital.Sold), cash[spend.Sold], "sold")
			about(line(y+1, capital.Wear)+year.BenchWear, cash[spend.Edges]+cash[spend.Abrasives], "wear")
			about(year.Shop+year.Fee+year.Travel+year.Labour+year.BenchLabour+year.Induction+line(y+1, capital.OwnTime, capital.Care, capital.Routine, capital.Learning),
				cost[spend.Rental]+cost[spend.Travel]+cost[spend.Helpers]+cost[spend.OwnTime], "visits and time")
			about(line(y+1, capital.Tax)-float64(s.Studio.TaxRate)*year.Sum(), cost[spend.Tax], "tax")
			about(cost[spend.Tax]+float64(s.Studio.TaxRate)*(cost[spend.OwnTime]+learned), cash[spend.Tax], "tax in cash")
			assert.Zero(t, cash[spend.OwnTime])
			assert.Zero(t, cash[spend.Recovery])
			if cash[spend.Repaid] > 0 {
				loans++
			}
		}
		fixtures += len(got.Course.Fixtures)
	}
	assert.Positive(t, loans)
	assert.Positive(t, fixtures)
}

// Cost and cash part in time and in own time, and in nothing else.
func TestWhatItCostsIsWorthWhatTheEvaluatorSays(t *testing.T) {
	for seed, s := range studygen.Studies(120) {
		plan := work.New(s)
		owned := spend.Always(s, some(s, seed))
		for y := range owned { // from the second half on everything
			if y >= (len(owned)+1)/2 {
				owned[y] = some(s, 1)
			}
		}
		got := spend.Of(s, plan, owned, spend.Options{})
		want := alternative.EvaluateCourse(s, plan, owned).Present
		assert.InDelta(t, want, got.Present(), studygen.Dust(want), "seed %d", seed)
		assert.InDelta(t, want, cashAndTime(s, &got), studygen.Dust(want), "seed %d: cash", seed)
	}
}

// cashAndTime is the present worth of the cash, with own time after tax put back: what
// begins a year is paid on its first day, all else on its last.
func cashAndTime(s *model.Study, got *spend.Spend) float64 {
	flows := make([]float64, len(got.Years)+1)
	for y := range got.Years {
		year := &got.Years[y]
		begins := year.Cash[spend.Purchase] + year.Cash[spend.Borrowed]
		flows[y] += begins
		flows[y+1] += year.CashSum() - begins + year.Cost[spend.OwnTime]*(1-float64(s.Studio.TaxRate))
	}
	for i := range got.Course.Stays {
		stay := &got.Course.Stays[i]
		learned := s.Machines[stay.Machine].TrainingTime.Hours() * float64(s.Studio.LabourRate) * pow(1+float64(s.Growth.Labour), stay.From)
		flows[stay.From] += learned
		flows[stay.From+1] -= learned * float64(s.Studio.TaxRate)
	}
	return timevalue.PresentValue(float64(s.Studio.DiscountRate), flows)
}

func pow(x float64, n int) float64 {
	product := 1.0
	for range n {
		product *= x
	}
	return product
}

func TestTheMonthsOfAYearAddUpToIt(t *testing.T) {
	dated := 0
	for seed, s := range studygen.Studies(120) {
		owned := some(s, seed)
		for _, month := range []int{0, int(s.Studio.Horizon) - 1} {
			got := spend.Of(s, work.New(s), spend.Always(s, owned), spend.Options{Month: month})
			for category := range spend.Categories {
				cash, cost := 0.0, 0.0
				for m := range got.Months {
					cash += got.Months[m].Cash[category]
					cost += got.Months[m].Cost[category]
				}
				assert.InDelta(t, got.Years[month].Cash[category], cash, studygen.Dust(cash)+1e-6, "seed %d category %d", seed, category)
				assert.InDelta(t, got.Years[month].Cost[category], cost, studygen.Dust(cost)+1e-6, "seed %d category %d", seed, category)
			}
			dated += got.Dated
		}
	}
	assert.Positive(t, dated)
}

// The demo's dated jobs all lie from March to May of its second year.
func TestDatedJobsPutTheirVisitsIntoTheirMonths(t *testing.T) {
	s := demoStudy(t)
	for i := range s.JobTypes {
		s.JobTypes[i].PerYear, s.JobTypes[i].Growth = 0, 0
	}
	for i := range s.DatedJobs {
		s.JobTypes[model.Index(s.JobTypes, s.DatedJobs[i].JobType)].PerYear += quantity.Count(s.DatedJobs[i].Number())
	}
	none := spend.Always(s, make([]bool, len(s.Machines)))
	even, dated := spend.Of(s, work.New(s), none, spend.Options{}), spend.Of(s, work.New(s), none, spend.Options{Month: 1})
	assert.Zero(t, even.Dated)
	assert.Equal(t, 17, dated.Dated)
	for m := range 12 {
		assert.InDelta(t, even.Years[0].Cash[spend.Rental]/12, even.Months[m].Cash[spend.Rental], 1e-6)
		if m < 2 || m > 4 {
			assert.Zero(t, dated.Months[m].Cash[spend.Rental], "month %d", m)
		}
	}
	assert.Greater(t, dated.Months[3].Cash[spend.Rental], dated.Months[4].Cash[spend.Rental])
}

// More spread and dearer futures: likely lies within, low under high.
func TestTheStudyLiesWithinItsFutures(t *testing.T) {
	s := demoStudy(t)
	plan := work.New(s)
	best := joint.Decide(s, plan).Choices[0]
	got := spend.Of(s, plan, spend.Always(s, best.Owned), spend.Options{})
	start := time.Now()
	require.NoError(t, got.Draw(context.Background(), futures.Options{Seed: 1, Most: spend.Usual}))
	t.Log(time.Since(start))
	require.Equal(t, spend.Usual, got.Futures)
	for y := range got.Years {
		cash, cost := got.YearRanges[y].Cash, got.YearRanges[y].Cost
		assert.Less(t, cash.Low, got.Years[y].CashSum())
		assert.Greater(t, cash.High, got.Years[y].CashSum())
		assert.Less(t, cost.Low, cost.High)
	}
	again := spend.Of(s, plan, spend.Always(s, best.Owned), spend.Options{})
	require.NoError(t, again.Draw(context.Background(), futures.Options{Seed: 1, Most: spend.Usual}))
	assert.Equal(t, got.YearRanges, again.YearRanges)
	assert.Equal(t, got.MonthRanges, again.MonthRanges)
}

// With nothing to draw every future is the study itself.
func TestWithoutRangesAndScatterTheFuturesAreTheStudy(t *testing.T) {
	s := demoStudy(t)
	clear(s.Origins)
	plan := work.New(s)
	got := spend.Of(s, plan, spend.Always(s, some(s, 0)), spend.Options{})
	require.NoError(t, got.Draw(context.Background(), futures.Options{Most: 1, Steady: true}))
	for y := range got.Years {
		assert.InDelta(t, got.Years[y].CashSum(), got.YearRanges[y].Cash.Low, 1e-6)
		assert.InDelta(t, got.Years[y].CostSum(), got.YearRanges[y].Cost.High, 1e-6)
	}
}

func TestDrawingEndsWithItsContext(t *testing.T) {
	s := demoStudy(t)
	got := spend.Of(s, work.New(s), spend.Always(s, some(s, 0)), spend.Options{})
	ended, end := context.WithCancel(context.Background())
	end()
	assert.ErrorIs(t, got.Draw(ended, futures.Options{Most: 1}), futures.ErrInterrupted)
	assert.Nil(t, got.YearRanges)
}
