package budget_test

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/budget"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

func load(t *testing.T, text string) *model.Study {
	t.Helper()
	s, _, problems := study.Load("study.yaml", []byte(text))
	require.Empty(t, problems)
	return s
}

func of(t *testing.T, s *model.Study, job int, options budget.Options) *budget.Result {
	t.Helper()
	result, err := budget.Of(context.Background(), s, job, options)
	require.NoError(t, err)
	return result
}

// The shop lets its room at 80 an hour, half an hour at least and then by the
// quarter. The drive is half an hour each way, the distance 20 km at 0.50; an own
// hour is worth 60. One piece of 35 minutes for each job, four in ten come back.
const small = `
currency: EUR
units: metric
studio: {people: 1, labour_rate: 60 per h, lift_limit: 60 kg, vehicle: {cost: 0.50 per km, payload: 900 kg}}
shops:
  mill:
    distance: 20 km
    drive_time: 30 min
    tolls: 0
    waiting: 0 min
    cleaning: 0 min
    tariff: {hourly_rate: 80 per h, minimum_block: 30 min, increment: 15 min, day_price: 0, half_day_price: 0, damage_allowance: 0, handling_charge: 0, sales_tax: 0 %, membership_fee: 0 per month}
    machines:
      press: {class: other, setup: 0 min}
machines:
  own_press: {class: other, price: 4000}
job_types:
  panel:
    per_year: 10
    jobs_per_visit: 2
    loading_time: 12 min
    rework_chance: 40 %
    rework_visits: 1
    operations:
      press: {class: other, measured: 35 min, repeat: yes}
`

func TestABudgetIsWhatOneWouldReckonByHand(t *testing.T) {
	s := load(t, small)
	s.Origins = nil // no ranges: only the rework is left to chance
	result := of(t, s, 0, budget.Options{Seed: 1})
	// Alone: 35 min are billed and 45 paid, 60.00; 40 km are 20.00; own time is 60 min
	// of driving, 12 of loading and 35 at the machine, 107 min or 107.00. A rework
	// costs the same again.
	visit := [budget.Lines]float64{budget.Billed: 35.0 / 60, budget.Paid: 0.75, budget.OwnHours: 107.0 / 60, budget.Invoice: 60, budget.Travel: 20, budget.OwnTime: 107, budget.Total: 187}
	// Two aboard: 70 min are billed and 75 paid, 100.00; 20.00; 60 + 24 + 70 = 154 min.
	half := [budget.Lines]float64{budget.Billed: 35.0 / 60, budget.Paid: 0.625, budget.OwnHours: 77.0 / 60, budget.Invoice: 50, budget.Travel: 10, budget.OwnTime: 77, budget.Total: 137}
	require.NotNil(t, result.Shared)
	assert.Equal(t, 2, result.Aboard)
	for line := range budget.Lines {
		for _, row := range []struct {
			name string
			got  budget.Figure
			once float64
		}{{"alone", result.Alone.Lines[line], visit[line]}, {"shared", result.Shared.Lines[line], half[line]}} {
			assert.InDelta(t, row.once+0.4*visit[line], row.got.Expected.Value, 4*row.got.Expected.Error+1e-9, "%s, line %d", row.name, line)
			assert.InDelta(t, row.once+visit[line], row.got.Enough80.Value, 1e-9, "%s, line %d: more than two in ten come back", row.name, line)
			assert.InDelta(t, row.once+visit[line], row.got.Enough95.Value, 1e-9, "%s, line %d", row.name, line)
		}
	}
	s.JobTypes[0].ReworkChance = 0.1
	result = of(t, s, 0, budget.Options{Seed: 1, Aboard: 1})
	assert.Nil(t, result.Shared)
	assert.InDelta(t, 187, result.Alone.Lines[budget.Total].Enough80.Value, 1e-9, "nine in ten do not come back")
	assert.InDelta(t, 374, result.Alone.Lines[budget.Total].Enough95.Value, 1e-9)
}

func TestABrokenNumberOfReworkVisitsIsTheMeanOfWholeOnes(t *testing.T) {
	s := load(t, small)
	s.Origins = nil
	s.JobTypes[0].ReworkChance, s.JobTypes[0].ReworkVisits = 1, 1.25
	got := of(t, s, 0, budget.Options{Seed: 3, Aboard: 1}).Alone.Lines[budget.Invoice]
	assert.InDelta(t, 60+1.25*60, got.Expected.Value, 4*got.Expected.Error)
	assert.InDelta(t, 180, got.Enough80.Value, 1e-9, "a quarter needs two")
}

func TestABudgetWithoutChanceIsTheVisitOfTheEngine(t *testing.T) {
	for seed, s := range studygen.Studies(25) {
		s.Origins, s.Correlations = nil, nil
		s.JobTypes[0].ReworkChance = 0
		result := of(t, s, 0, budget.Options{})
		twin := s.Clone()
		twin.JobTypes[0].PerYear, twin.JobTypes[0].JobsPerVisit = 1, 1
		plan, none := work.New(s), make([]bool, len(s.Machines))
		rented := alternative.RentOf(s, plan, none)
		rent := alternative.JobRentOf(twin, plan, none, 0, rented.Members[work.ShopOf(s, 0)])
		want := rent.Visits[0].Total + rent.Bench.Labour + rent.Bench.Wear
		total := result.Alone.Lines[budget.Total]
		assert.InDelta(t, want, total.Expected.Value, 1e-9*math.Max(1, want), "seed %d", seed)
		assert.InDelta(t, want, total.Enough95.Value, 1e-9*math.Max(1, want), "seed %d", seed)
		assert.True(t, result.Met && result.Inputs == 0)
	}
}

// Three jobs of one type aboard: a job costs a third of what all three do.
func TestAJobThatRidesWithOthersCostsItsPartOfThem(t *testing.T) {
	bench := 0
	for seed, s := range studygen.Studies(25) {
		s.Origins, s.Correlations = nil, nil
		s.JobTypes[0].ReworkChance = 0
		result := of(t, s, 0, budget.Options{Aboard: 3})
		twin := s.Clone()
		twin.JobTypes[0].PerYear, twin.JobTypes[0].JobsPerVisit = 3, 3
		plan, none := work.New(s), make([]bool, len(s.Machines))
		rented := alternative.RentOf(s, plan, none)
		rent := alternative.JobRentOf(twin, plan, none, 0, rented.Members[work.ShopOf(s, 0)])
		visit := &rent.Visits[2]
		want := map[budget.Line]float64{
			budget.OwnHours: visit.OwnTime.Hours() + rent.Bench.Hours, budget.OwnTime: visit.OwnCost + rent.Bench.Labour, budget.Wear: rent.Bench.Wear,
			budget.Invoice: visit.Shop, budget.Travel: visit.Travel, budget.Helpers: visit.HelperCost, budget.Total: visit.Total + rent.Bench.Labour + rent.Bench.Wear,
		}
		for line, all := range want {
			assert.InDelta(t, all/3, result.Shared.Lines[line].Expected.Value, 1e-9*math.Max(1, all), "seed %d line %d", seed, line)
		}
		if rent.Bench.Hours > 0 && rent.Bench.Wear > 0 {
			bench++
		}
	}
	assert.Positive(t, bench)
}

func TestTheFiguresOfABudgetFitEachOther(t *testing.T) {
	for seed, s := range studygen.Studies(12) {
		result := of(t, s, 0, budget.Options{Seed: uint64(seed), Aboard: 3})
		for _, one := range []*budget.Case{&result.Alone, result.Shared} {
			sum := 0.0
			for line, figure := range one.Lines {
				assert.LessOrEqual(t, figure.Enough80.Value, figure.Enough95.Value)
				if line := budget.Line(line); !line.IsHours() && line != budget.Total {
					sum += figure.Expected.Value
				}
			}
			assert.InEpsilon(t, 1+one.Lines[budget.Total].Expected.Value, 1+sum, 1e-9, "seed %d: the money adds up", seed)
			assert.GreaterOrEqual(t, one.Lines[budget.Paid].Expected.Value, one.Lines[budget.Billed].Expected.Value-1e-9)
		}
		assert.Equal(t, result, of(t, s, 0, budget.Options{Seed: uint64(seed), Aboard: 3}), "one seed, one budget")
	}
}

func TestAnOwnedMachinesCostOfAJobIsThatOfTheSingleDecision(t *testing.T) {
	s, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	plan := work.New(s)
	rented := alternative.RentOf(s, plan, make([]bool, len(s.Machines)))
	listed := 0
	for job := range s.JobTypes {
		owned := of(t, s, job, budget.Options{}).Owned
		for m := range s.Machines {
			want := single.Decide(s, plan, &rented, m)
			for _, use := range want.Owner.Uses {
				if use.Job != job || use.PerJob == 0 {
					continue
				}
				require.NotEmpty(t, owned, "a candidate that does some work of the job is listed")
				one := owned[0]
				owned = owned[1:]
				listed++
				assert.Equal(t, m, one.Machine)
				assert.Equal(t, want.PerHour, one.PerHour)
				assert.Equal(t, want.PerJob, one.PerJob)
				assert.InDelta(t, use.PerJob.Hours(), one.Hours, 1e-12)
				assert.InDelta(t, one.PerHour*one.Hours, one.Cost, 1e-9)
			}
		}
		assert.Empty(t, owned, "and no other")
	}
	assert.Positive(t, listed)
}

// A budget is met when the three figures of its total are known to one in a hundred,
// alone and shared.
func TestABudgetIsMetOnlyWhenBothOfItsCasesAre(t *testing.T) {
	both := map[bool]int{}
	for seed, s := range studygen.Studies(12) {
		result := of(t, s, 0, budget.Options{Seed: uint64(seed), Aboard: 2})
		met := true
		for _, one := range []*budget.Case{&result.Alone, result.Shared} {
			total := one.Lines[budget.Total]
			for _, figure := range []chance.Estimate{total.Expected, total.Enough80, total.Enough95} {
				met = met && figure.Error <= 0.01*figure.Value
			}
		}
		assert.Equal(t, met, result.Met, "seed %d", seed)
		both[met]++
	}
	assert.Positive(t, both[true])
}

func TestAnInterruptedBudgetSaysSo(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := budget.Of(ctx, load(t, small), 0, budget.Options{})
	assert.ErrorIs(t, err, context.Canceled)
	s := load(t, small)
	s.Origins["studio.labour_rate"] = model.Origin{HasRange: true, Low: 90, High: 100, Shape: model.ShapeNormal}
	_, err = budget.Of(context.Background(), s, 0, budget.Options{})
	var wrong *chance.InputError
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "studio.labour_rate", wrong.Path)
}

// A piece takes 10 minutes and the cleaning 2 to 12, at a shop that is paid from half an
// hour on; own time and the way cost nothing. Alone it is half an hour, 40.00, whatever
// is cleaned. Two pieces take over half an hour in one case of five: 20.00 or 30.00 for
// one, and which of both is enough in 80 of 100 cases no number of draws can tell.
func TestABudgetIsNotMetWhereOnlyItsSharedCaseIsUnsure(t *testing.T) {
	s := load(t, small)
	s.Studio.LabourRate, s.Studio.Vehicle.Cost, s.JobTypes[0].ReworkChance = 0, 0, 0
	s.JobTypes[0].Operations[0].Measured, s.Shops[0].Cleaning = quantity.Minutes(10), quantity.Minutes(5)
	s.Origins = map[string]model.Origin{"shops.mill.cleaning": {HasRange: true, Low: 2 * 60, High: 12 * 60, Shape: model.ShapeUniform}}
	result := of(t, s, 0, budget.Options{Seed: 1, Aboard: 2})
	alone, shared := result.Alone.Lines[budget.Total], result.Shared.Lines[budget.Total]
	assert.InDelta(t, 40, alone.Enough80.Value, 1e-9)
	assert.InDelta(t, 40, alone.Enough95.Value, 1e-9)
	assert.InDelta(t, 22, shared.Expected.Value, 0.1)
	assert.InDelta(t, 30, shared.Enough95.Value, 1e-9)
	assert.Greater(t, shared.Enough80.Error, 0.01*shared.Enough80.Value)
	assert.False(t, result.Met)
	assert.Equal(t, 64*64, result.Drawn, "as many as may be")
	assert.Nil(t, of(t, s, 0, budget.Options{Seed: 1, Aboard: 1}).Shared)
	assert.True(t, of(t, s, 0, budget.Options{Seed: 1, Aboard: 1}).Met)
}
