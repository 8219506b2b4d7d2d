package visitplan_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/rental/visitplan"
)

// The first pass grows its visits for each state; those after it take them from lists.
func TestListedVisitsFindWhatGrownOnesFind(t *testing.T) {
	const wide = 1_000_000
	for _, n := range []int{20, 50} {
		for seed := range uint64(20) {
			for _, loads := range []bool{true, false} {
				problem, name := trips(n, seed+100, loads, 2200), fmt.Sprintf("%d jobs, seed %d, loads %t", n, seed+100, loads)
				grown, err := visitplan.Solve(problem, visitplan.Limits{Widths: []int{wide}, Nodes: 60_000_000})
				require.NoError(t, err)
				listed, err := visitplan.Solve(problem, visitplan.Limits{Widths: []int{1, wide}, Nodes: 60_000_000})
				require.NoError(t, err)
				assert.Zero(t, grown.Gap(), name)
				assert.Zero(t, listed.Gap(), name)
				assert.InEpsilon(t, grown.Cost, listed.Cost, 1e-9, name)
			}
		}
	}
}

// A pass that has had its nodes still ends with a plan, and with a bound below the best one.
func TestAPassThatEndsAtItsNodesBringsAPlan(t *testing.T) {
	for seed := range uint64(5) {
		problem := trips(50, seed+1, true, 2200)
		best := solved(t, problem)
		for _, nodes := range []int{0, 100, 2000} {
			plan, err := visitplan.Solve(problem, visitplan.Limits{Widths: []int{6, 60}, Nodes: nodes})
			require.NoError(t, err)
			assert.GreaterOrEqual(t, plan.Cost, best.Cost)
			assert.LessOrEqual(t, plan.Bound, best.Cost)
			done := 0
			for _, visit := range plan.Visits {
				done += len(visit.Jobs)
			}
			assert.Equal(t, 50, done)
		}
	}
}
