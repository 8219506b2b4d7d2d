package visitplan_test

import (
	"fmt"
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/rental/visitplan"
)

// crowded is trips with every due date so many days later: more jobs may ride along.
func crowded(n int, seed uint64, later int) *visitplan.Problem {
	list := errands(n, seed, true)
	for i := range list {
		list[i].due += later
	}
	return problemOf(list, 100, blocks(1400, 2200), visitplan.Floor{Visit: 2200, Unit: 1400, Whole: true}, 30)
}

// falling is trips at a price by which a further job may make a visit cheaper.
func falling(n int, seed uint64) *visitplan.Problem {
	cost := func(minutes int) float64 { return 2200 + 14*math.Abs(float64(minutes%100)-50) + 10*float64(minutes) }
	problem := problemOf(errands(n, seed, true), 100, cost, visitplan.Floor{Visit: 2200, Unit: 10}, 1)
	problem.Monotone = false
	return problem
}

// What the sweep looks at is counted and does not hang on the machine. Whoever changes
// how it goes sees here what that costs or saves, and writes the new figures.
func TestTheSweepLooksAtAsManyGroupsAsItDid(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("a processor that fuses products into sums breaks ties elsewhere")
	}
	type counts [3]int // groups looked at, cents of the plan and of its bound
	once, narrow := visitplan.Limits{Widths: []int{2}, Nodes: 1e6}, visitplan.Limits{Widths: []int{6, 25}, Nodes: 20000}
	for i, row := range []struct {
		problem *visitplan.Problem
		limits  visitplan.Limits
		took    counts
	}{
		{trips(10, 1, true, 2200), visitplan.Usual(), counts{46, 42400, 42400}},
		{trips(20, 2, true, 2200), visitplan.Usual(), counts{11, 76200, 76200}},
		{trips(20, 3, false, 2200), visitplan.Usual(), counts{183, 80400, 80400}},
		{trips(50, 4, true, 2200), visitplan.Usual(), counts{1153, 189200, 189200}},
		{trips(50, 5, false, 20000), visitplan.Usual(), counts{332, 472600, 472600}},
		{trips(50, 6, true, 20000), visitplan.Usual(), counts{420, 515400, 515400}},
		{trips(120, 7, true, 2200), visitplan.Usual(), counts{945508, 429400, 429400}},
		{trips(300, 8, false, 2200), visitplan.Usual(), counts{175271, 1016000, 1016000}},
		{trips(200, 9, true, 2200), narrow, counts{50366, 721400, 716400}},
		{crowded(20, 9, 60), once, counts{2478, 71200, 71200}},
		{crowded(24, 10, 60), visitplan.Usual(), counts{7145, 93600, 93600}},
		{crowded(150, 11, 200), narrow, counts{119038, 539400, 539400}},
		{falling(40, 12), visitplan.Usual(), counts{499, 58600, 58600}},
		{falling(150, 13), narrow, counts{39096, 180820, 172360}},
	} {
		plan, err := visitplan.Solve(row.problem, row.limits)
		require.NoError(t, err)
		assert.Equal(t, plan.Method == visitplan.Consecutive, plan.Proof != 0)
		cents := func(cost float64) int { return int(math.Round(cost)) }
		assert.Equal(t, row.took, counts{plan.Nodes, cents(plan.Cost), cents(plan.Bound)}, fmt.Sprintf("problem %d", i+1))
	}
}
