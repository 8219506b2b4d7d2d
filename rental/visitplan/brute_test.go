package visitplan_test

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/rental/visitplan"
)

// priceOf is the cost of one group, +Inf where it cannot be.
func priceOf(problem *visitplan.Problem, group []int) float64 {
	ready, due, load, contents := math.MinInt, math.MaxInt, 0.0, uint64(0)
	for _, i := range group {
		job := &problem.Jobs[i]
		ready, due, load = max(ready, job.Ready), min(due, job.Due), load+job.Load
		contents = problem.Price.Add(contents, job.Kind)
	}
	if ready > due || problem.Capacity > 0 && len(group) > 1 && load > problem.Capacity {
		return math.Inf(1)
	}
	return problem.Price.Of(contents)
}

// everyPartition calls look with every way to part the numbers below n.
func everyPartition(n int, look func(groups [][]int)) {
	var part func(i int, groups [][]int)
	part = func(i int, groups [][]int) {
		if i == n {
			look(groups)
			return
		}
		for g := range groups {
			groups[g] = append(groups[g], i)
			part(i+1, groups)
			groups[g] = groups[g][:len(groups[g])-1]
		}
		part(i+1, append(slices.Clone(groups), []int{i}))
	}
	part(0, nil)
}

// cheapestOf looks through every grouping that allowed lets through.
func cheapestOf(problem *visitplan.Problem, allowed func(groups [][]int) bool) float64 {
	least := math.Inf(1)
	everyPartition(len(problem.Jobs), func(groups [][]int) {
		if allowed != nil && !allowed(groups) {
			return
		}
		total := 0.0
		for _, group := range groups {
			total += priceOf(problem, group)
		}
		least = min(least, total)
	})
	return least
}

// holds checks that a plan does every job once, within its window and limits,
// and costs what it says.
func holds(t require.TestingT, problem *visitplan.Problem, plan *visitplan.Plan) {
	seen, total := make([]bool, len(problem.Jobs)), 0.0
	for i, visit := range plan.Visits {
		if i > 0 {
			before := plan.Visits[i-1]
			require.Negative(t, cmp.Or(cmp.Compare(before.First, visit.First), cmp.Compare(before.Jobs[0], visit.Jobs[0])), "by first day, then by first job")
		}
		require.True(t, slices.IsSorted(visit.Jobs))
		for _, i := range visit.Jobs {
			require.False(t, seen[i], "job %d is visited twice", i)
			seen[i] = true
			require.LessOrEqual(t, problem.Jobs[i].Ready, visit.First)
			require.GreaterOrEqual(t, problem.Jobs[i].Due, visit.Last)
		}
		require.LessOrEqual(t, visit.First, visit.Last)
		require.InDelta(t, priceOf(problem, visit.Jobs), visit.Cost, 1e-9)
		total += visit.Cost
	}
	require.NotContains(t, seen, false)
	require.InDelta(t, total, plan.Cost, 1e-9*math.Max(1, total))
	require.LessOrEqual(t, plan.Bound, plan.Cost)
}

func solved(t require.TestingT, problem *visitplan.Problem) visitplan.Plan {
	plan, err := visitplan.Solve(problem, visitplan.Usual())
	require.NoError(t, err)
	holds(t, problem, &plan)
	return plan
}

// tariff is a way to price minutes, with what it promises.
type tariff struct {
	name  string
	cost  func(int) float64
	shape visitplan.Shape
	floor visitplan.Floor
	unit  float64 // minutes of a unit of the floor
}

func tariffs(travel float64) []tariff {
	linear := func(p int) float64 { return travel + float64(p) }
	return []tariff{
		{"blocks", blocks(14, travel), visitplan.General, visitplan.Floor{Visit: travel, Unit: 14, Whole: true}, 30},
		{"blocks without a floor", blocks(14, travel), visitplan.General, visitplan.Floor{}, 0},
		{"blocks are subadditive", blocks(14, travel), visitplan.Subadditive, visitplan.Floor{Visit: travel, Unit: 14}, 30},
		{"minimum only", func(p int) float64 { return travel + math.Max(60, float64(p)) }, visitplan.General, visitplan.Floor{Visit: travel, Unit: 1}, 1},
		{"rounding only", func(p int) float64 { return travel + 14*math.Ceil(float64(p)/30) }, visitplan.General, visitplan.Floor{Visit: travel, Unit: 14, Whole: true}, 30},
		{"linear", linear, visitplan.Linear, visitplan.Floor{Visit: travel, Unit: 1}, 1},
		{"linear and not said to be", linear, visitplan.General, visitplan.Floor{Visit: travel / 2, Unit: 0.9}, 1},
		{"concave", concave(travel), visitplan.Concave, visitplan.Floor{Visit: travel, Unit: 0.5}, 1},
		{"a shop day", func(p int) float64 {
			if p > 150 {
				return math.Inf(1)
			}
			return travel + float64(p)
		}, visitplan.General, visitplan.Floor{Visit: travel}, 0},
	}
}

// concave is one a minute for an hour and half of that afterwards.
func concave(travel float64) func(int) float64 {
	return func(p int) float64 { return travel + math.Min(float64(p), 60+0.5*(float64(p)-60)) }
}

func drawErrands(t *rapid.T, most int) []errand {
	list := make([]errand, rapid.IntRange(1, most).Draw(t, "jobs"))
	minutes, loads := rapid.SampledFrom([]int{10, 20, 30, 40, 50, 70, 90}), rapid.SampledFrom([]int{0, 20, 30, 50, 60})
	for i := range list {
		ready := rapid.IntRange(0, 8).Draw(t, "ready")
		list[i] = errand{ready, ready + rapid.IntRange(0, 6).Draw(t, "days"), minutes.Draw(t, "minutes"), loads.Draw(t, "load")}
	}
	return list
}

func TestNoGroupingOfSmallProblemsIsCheaper(t *testing.T) {
	for _, travel := range []float64{0, 22, 200} {
		for _, tariff := range tariffs(travel) {
			rapid.Check(t, func(t *rapid.T) {
				capacity := rapid.SampledFrom([]float64{0, 60, 100}).Draw(t, "capacity")
				problem := problemOf(drawErrands(t, 6), capacity, tariff.cost, tariff.floor, tariff.unit)
				problem.Shape = tariff.shape
				problem.Monotone = rapid.Bool().Draw(t, "monotone")
				plan := solved(t, problem)
				assert.InDelta(t, cheapestOf(problem, nil), plan.Cost, 1e-9, tariff.name)
				assert.InDelta(t, plan.Cost, plan.Bound, 1e-6, tariff.name)
			})
		}
	}
}

func TestNoGroupingOfSevenJobsIsCheaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		capacity := rapid.SampledFrom([]float64{0, 100}).Draw(t, "capacity")
		problem := problemOf(drawErrands(t, 7), capacity, blocks(14, 22), visitplan.Floor{Visit: 22, Unit: 14, Whole: true}, 30)
		assert.InDelta(t, cheapestOf(problem, nil), solved(t, problem).Cost, 1e-9)
	})
}

// any price at all: a table by the kinds aboard.
type anyPrice map[uint64]float64

func (p anyPrice) Add(contents uint64, kind int) uint64 { return contents + 1<<(8*kind) }
func (p anyPrice) Of(contents uint64) float64 {
	if _, known := p[contents]; !known {
		h := (contents + 17) * 0x9E3779B97F4A7C15
		p[contents] = float64(20 + (h>>33)%40)
	}
	return p[contents]
}

func TestNoGroupingIsCheaperUnderAnyPriceAtAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		problem := &visitplan.Problem{Price: anyPrice{}}
		for _, e := range drawErrands(t, 6) {
			problem.Jobs = append(problem.Jobs, visitplan.Job{Ready: e.ready, Due: e.due, Kind: e.minutes % 3})
		}
		assert.InDelta(t, cheapestOf(problem, nil), solved(t, problem).Cost, 1e-9)
	})
}

// TestNarrowPassesStillBoundTheBest: a search that is cut short returns some
// plan, and a bound that the best plan keeps.
func TestNarrowPassesStillBoundTheBest(t *testing.T) {
	beams := 0
	for seed := range uint64(60) {
		problem := trips(24, seed, seed%2 == 0, 2200)
		best := solved(t, problem)
		require.Equal(t, best.Cost, best.Bound)
		for _, limits := range []visitplan.Limits{{}, {Widths: []int{1}, Nodes: 1000}, {Widths: []int{2, 4}, Nodes: 300}, {Widths: []int{1000}, Nodes: 20}} {
			plan, err := visitplan.Solve(problem, limits)
			require.NoError(t, err)
			holds(t, problem, &plan)
			assert.GreaterOrEqual(t, plan.Cost, best.Cost)
			assert.LessOrEqual(t, plan.Bound, best.Cost)
			if plan.Method == visitplan.Beam {
				beams++
				assert.Greater(t, plan.Gap(), 0.0)
			} else {
				assert.Equal(t, best.Cost, plan.Cost)
			}
		}
	}
	assert.Greater(t, beams, 20, "the limits are too wide to test anything")
}
