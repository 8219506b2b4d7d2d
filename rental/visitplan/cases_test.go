package visitplan_test

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/rental/visitplan"
)

// consecutiveBy tells whether each group is a run in some order of the jobs by
// the key: jobs of one key may stand in any order among themselves.
func consecutiveBy(list []errand, key func(errand) int) func(groups [][]int) bool {
	orders := ordersBy(list, key)
	return func(groups [][]int) bool {
		return slices.ContainsFunc(orders, func(place []int) bool {
			return !slices.ContainsFunc(groups, func(group []int) bool {
				first, last := len(list), -1
				for _, i := range group {
					first, last = min(first, place[i]), max(last, place[i])
				}
				return last-first+1 != len(group)
			})
		})
	}
}

// ordersBy lists the places of the jobs in every order that the key allows.
func ordersBy(list []errand, key func(errand) int) [][]int {
	var orders [][]int
	var add func(order []int)
	add = func(order []int) {
		if len(order) == len(list) {
			place := make([]int, len(list))
			for at, i := range order {
				place[i] = at
			}
			orders = append(orders, place)
			return
		}
		for i := range list {
			sooner := slices.ContainsFunc(indexesOf(list), func(k int) bool { return !slices.Contains(order, k) && key(list[k]) < key(list[i]) })
			if !slices.Contains(order, i) && !sooner {
				add(append(slices.Clone(order), i))
			}
		}
	}
	add(nil)
	return orders
}

func indexesOf(list []errand) []int {
	all := make([]int, len(list))
	for i := range all {
		all[i] = i
	}
	return all
}

func byDue(e errand) int   { return e.due }
func byReady(e errand) int { return e.ready }

// The smallest problems in which neighbours by due date are not the best groups.
func TestCounterExamplesToConsecutiveGroups(t *testing.T) {
	minimum := func(p int) float64 { return 22 + math.Max(60, float64(p)) }
	rounding := func(p int) float64 { return 22 + 14*math.Ceil(float64(p)/30) }
	linear := func(p int) float64 { return 22 + float64(p) }
	one, half := func(r, d int) errand { return errand{r, d, 40, 0} }, func(r, d int) errand { return errand{r, d, 60, 50} }
	for _, c := range []struct {
		name              string
		jobs              []errand
		cost              func(int) float64
		capacity          float64
		best, consecutive float64 // by due date
		ready             float64 // consecutive by readiness
	}{
		{"a: blocks, any windows", []errand{{0, 1, 70, 0}, {3, 4, 60, 0}, {1, 6, 10, 0}}, blocks(14, 22), 0, 114, 128, 114},
		{"b: blocks, both orders fail", []errand{{0, 4, 30, 0}, {2, 5, 70, 0}, {5, 5, 10, 0}, {3, 6, 60, 0}}, blocks(14, 22), 0, 128, 142, 142},
		{"c: blocks, agreeable windows", []errand{{0, 1, 40, 0}, {0, 2, 30, 0}, {0, 4, 50, 0}, {2, 6, 20, 0}}, blocks(14, 22), 0, 114, 128, 114},
		{"c: the same with dear travel", []errand{{0, 1, 40, 0}, {0, 2, 30, 0}, {0, 4, 50, 0}, {2, 6, 20, 0}}, blocks(14, 200), 0, 470, 484, 470},
		{"d: minimum only, agreeable", []errand{{1, 2, 40, 0}, {1, 3, 60, 0}, {2, 4, 30, 0}, {3, 5, 10, 0}}, minimum, 0, 184, 204, 204},
		{"e: rounding only, agreeable", []errand{{0, 3, 40, 0}, {1, 4, 40, 0}, {3, 5, 20, 0}, {4, 6, 50, 0}}, rounding, 0, 114, 128, 128},
		{"f: equal minutes, blocks", []errand{one(3, 3), one(4, 5), one(1, 6), one(2, 6), one(4, 6)}, blocks(14, 22), 0, 142, 156, 142},
		{"g: concave, any windows", []errand{{3, 4, 70, 0}, {5, 5, 40, 0}, {3, 6, 40, 0}}, concave(22), 0, 169, 179, 169},
		{"h: capacity, equal loads, linear", []errand{half(1, 1), half(2, 2), half(1, 4), half(2, 5)}, linear, 100, 284, 306, 284},
		{"i: capacity, mixed loads, linear, agreeable", []errand{{0, 4, 60, 50}, {3, 5, 60, 60}, {3, 6, 60, 50}}, linear, 100, 224, 246, 224},
	} {
		t.Run(c.name, func(t *testing.T) {
			problem := problemOf(c.jobs, c.capacity, c.cost, visitplan.Floor{}, 0)
			assert.Equal(t, c.best, solved(t, problem).Cost)
			assert.Equal(t, c.best, cheapestOf(problem, nil))
			assert.Equal(t, c.consecutive, cheapestOf(problem, consecutiveBy(c.jobs, byDue)), "consecutive by due date")
			assert.Equal(t, c.ready, cheapestOf(problem, consecutiveBy(c.jobs, byReady)), "consecutive by readiness")
		})
	}
}

func TestTheBestGroupsOfTheExampleAreNotNeighbours(t *testing.T) {
	plan := solved(t, problemOf([]errand{{0, 1, 40, 0}, {0, 2, 30, 0}, {0, 4, 50, 0}, {2, 6, 20, 0}}, 0, blocks(14, 22), visitplan.Floor{Visit: 22, Unit: 14, Whole: true}, 30))
	var groups [][]int
	for _, visit := range plan.Visits {
		groups = append(groups, visit.Jobs)
	}
	assert.Equal(t, [][]int{{0, 2}, {1, 3}}, groups)
	assert.Equal(t, visitplan.Searched, plan.Method)
}

// Each proven case is taken where it holds, and not where a condition fails;
// that the plans are best is for the test of all groupings.
func TestTheDynamicProgrammeIsTakenInTheProvenCases(t *testing.T) {
	agreeing := []errand{{0, 5, 40, 0}, {1, 6, 30, 0}, {4, 9, 50, 0}, {8, 11, 20, 0}}
	crossing := []errand{{0, 9, 40, 0}, {3, 6, 30, 0}, {4, 9, 50, 0}, {8, 11, 20, 0}}
	window := []errand{{0, 9, 40, 0}, {3, 6, 30, 0}, {4, 9, 50, 0}}
	same := func(list []errand, load int) []errand {
		list = slices.Clone(list)
		for i := range list {
			list[i].minutes, list[i].load = 40, load
		}
		return list
	}
	for _, c := range []struct {
		name     string
		jobs     []errand
		capacity float64
		shape    visitplan.Shape
		want     visitplan.Case // 0 for none
	}{
		{"linear, any windows", crossing, 0, visitplan.Linear, visitplan.LinearCost},
		{"linear with capacity", crossing, 100, visitplan.Linear, 0},
		{"equal jobs, agreeable", same(agreeing, 30), 100, visitplan.General, visitplan.OneKind},
		{"equal jobs, crossing", same(crossing, 30), 100, visitplan.General, 0},
		{"concave, agreeable", agreeing, 0, visitplan.Concave, visitplan.ConcaveCost},
		{"concave, crossing", crossing, 0, visitplan.Concave, 0},
		{"one window, subadditive", window, 0, visitplan.Subadditive, visitplan.OneWindow},
		{"one window, capacity", window, 100, visitplan.Subadditive, 0},
		{"any cost", agreeing, 0, visitplan.General, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			cost := blocks(14, 22)
			switch c.shape {
			case visitplan.Concave:
				cost = concave(22)
			case visitplan.Linear:
				cost = func(p int) float64 { return 22 + float64(p) }
			}
			problem := problemOf(c.jobs, c.capacity, cost, visitplan.Floor{Visit: 22}, 0)
			problem.Shape = c.shape
			plan := solved(t, problem)
			assert.Equal(t, c.want, plan.Proof)
			assert.Equal(t, c.want > 0, plan.Method == visitplan.Consecutive)
			assert.InDelta(t, cheapestOf(problem, nil), plan.Cost, 1e-9)
		})
	}
}

func TestGroupingIsComparedWithVisitsAloneAndOnDueDates(t *testing.T) {
	list := []errand{{0, 4, 40, 60}, {1, 4, 30, 30}, {4, 6, 50, 40}, {2, 6, 20, 70}, {3, 6, 60, 20}}
	problem := problemOf(list, 100, blocks(14, 22), visitplan.Floor{}, 0)
	assert.Equal(t, 5*50.0, visitplan.Alone(problem))
	cost, visits := visitplan.ByDueDate(problem)
	assert.Equal(t, 3, visits) // 40 and 30 min; 20 and 60 min; and 50 min, for which the load of 70 leaves no room
	assert.Equal(t, (22+3*14.0)+(22+3*14.0)+(22+2*14.0), cost)
	empty, none := visitplan.ByDueDate(&visitplan.Problem{Price: problem.Price})
	assert.Zero(t, empty)
	assert.Zero(t, none)
}

func TestNoJobsAreAnEmptyPlan(t *testing.T) {
	plan, err := visitplan.Solve(&visitplan.Problem{Price: anyPrice{}}, visitplan.Usual())
	require.NoError(t, err)
	assert.Empty(t, plan.Visits)
	assert.Zero(t, plan.Cost)
	assert.Zero(t, plan.Gap())
}

func TestAProblemThatIsWrongInItselfIsRefused(t *testing.T) {
	turned := problemOf([]errand{{1, 2, 40, 0}, {4, 3, 40, 0}}, 0, blocks(14, 22), visitplan.Floor{}, 0)
	_, err := visitplan.Solve(turned, visitplan.Usual())
	assert.ErrorIs(t, err, visitplan.ErrWindow)
	assert.ErrorContains(t, err, "job 2 is ready on day 4 and due on day 3")
	for _, cost := range []float64{math.NaN(), math.Inf(1), -1} {
		_, err = visitplan.Solve(problemOf([]errand{{1, 3, 40, 0}}, 0, func(int) float64 { return cost }, visitplan.Floor{}, 0), visitplan.Usual())
		assert.ErrorIs(t, err, visitplan.ErrPrice)
		assert.ErrorContains(t, err, fmt.Sprintf("job 1 alone costs %v", cost))
	}
	below := problemOf([]errand{{1, 3, 40, 0}, {1, 3, 70, 0}, {2, 6, 10, 0}}, 0, blocks(14, 22), visitplan.Floor{Visit: 60}, 0)
	_, err = visitplan.Solve(below, visitplan.Usual())
	assert.True(t, errors.Is(err, visitplan.ErrPrice), "%v", err)
}

// Same problem, jobs named in another order: the same cost and the same groups.
func TestThePlanDoesNotHangOnTheOrderOfTheJobs(t *testing.T) {
	for seed := range uint64(20) {
		list := errands(30, seed, true)
		turned := slices.Clone(list)
		slices.SortFunc(turned, func(a, b errand) int { return cmp.Compare(a.minutes, b.minutes) })
		floor := visitplan.Floor{Visit: 2200, Unit: 1400, Whole: true}
		first, second := solved(t, problemOf(list, 100, blocks(1400, 2200), floor, 30)), solved(t, problemOf(turned, 100, blocks(1400, 2200), floor, 30))
		assert.Equal(t, first.Cost, second.Cost)
		again := solved(t, problemOf(list, 100, blocks(1400, 2200), floor, 30))
		assert.Equal(t, first, again)
	}
}

// Loads as parts of a capacity of one, and capacities below it: two halves fit, two of three
// fifths do not, and what is heavier than any visit may be goes alone.
func TestACapacityMayBeOneOrLess(t *testing.T) {
	linear := func(p int) float64 { return 22 + float64(p) }
	for _, capacity := range []float64{1, 0.5, 0.01} {
		for load, want := range map[float64]float64{0.5: 22 + 80, 0.6: 44 + 80, 1.5: 44 + 80} {
			problem := problemOf([]errand{{0, 4, 40, 0}, {0, 5, 40, 0}}, capacity, linear, visitplan.Floor{Visit: 22, Unit: 1}, 1)
			for i := range problem.Jobs {
				problem.Jobs[i].Load = load * capacity
			}
			assert.InDelta(t, want, solved(t, problem).Cost, 1e-9, "%v of %v", load, capacity)
			problem.Jobs[1].Kind, problem.Jobs[1].Ready = 0, 0
			problem.Jobs[0].Due, problem.Jobs[1].Due = 5, 4 // a search, no proven case
			problem.Jobs = append(problem.Jobs, visitplan.Job{Ready: 9, Due: 12, Units: 40}, visitplan.Job{Ready: 10, Due: 11, Units: 40})
			assert.InDelta(t, cheapestOf(problem, nil), solved(t, problem).Cost, 1e-9, "%v of %v", load, capacity)
		}
	}
}

func TestJobsThatCostNothingAreAPlanThatCostsNothing(t *testing.T) {
	free := problemOf([]errand{{0, 4, 40, 0}, {3, 5, 60, 0}}, 0, func(int) float64 { return 0 }, visitplan.Floor{}, 0)
	plan := solved(t, free)
	assert.Zero(t, plan.Cost)
	assert.Zero(t, plan.Gap())
	assert.Equal(t, visitplan.Searched, plan.Method, "nothing is below nothing")
}

func TestAGapIsWhatIsOpenAsAPartOfTheCost(t *testing.T) {
	for _, row := range []struct{ cost, bound, gap float64 }{{100, 75, 0.25}, {100, 100, 0}, {100, 101, 0}, {0, -3, 0}, {1, 0.5, 0.5}} {
		plan := visitplan.Plan{Cost: row.cost, Bound: row.bound}
		assert.InDelta(t, row.gap, plan.Gap(), 1e-12, "%v above %v", row.cost, row.bound)
	}
}

// Jobs of one kind can change places: who is ready and due earlier goes first, and the other
// order is not looked at.
func TestOfJobsOfOneKindOnlyOneOrderIsLookedAt(t *testing.T) {
	list := []errand{}
	for i := range 9 {
		list = append(list, errand{i, 20 + i, 40, 0})
	}
	list = append(list, errand{2, 22, 50, 0})
	plan := solved(t, problemOf(list, 0, blocks(14, 22), visitplan.Floor{}, 0))
	assert.Less(t, plan.Nodes, 300, "222; where those that follow each other are not told 371, and 15839 without it")
}
