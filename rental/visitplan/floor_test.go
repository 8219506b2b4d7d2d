package visitplan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"shopstint/rental/visitplan"
)

// byJob says a floor by unit as money of each job.
func byJob(problem *visitplan.Problem) *visitplan.Problem {
	said := *problem
	said.Jobs = nil
	for _, job := range problem.Jobs {
		job.Linear, job.Units = job.Units*problem.Floor.Unit, 0
		said.Jobs = append(said.Jobs, job)
	}
	said.Floor.Unit, said.Floor.Whole = 0, false
	return &said
}

func TestAFloorSaidByJobProvesWhatItProvesSaidByUnit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		capacity := rapid.SampledFrom([]float64{0, 100}).Draw(t, "capacity")
		byUnit := problemOf(drawErrands(t, 8), capacity, blocks(14, 22), visitplan.Floor{Visit: 22, Unit: 14}, 30)
		one, other := solved(t, byUnit), solved(t, byJob(byUnit))
		assert.InDelta(t, one.Cost, other.Cost, 1e-9)
		assert.InDelta(t, one.Bound, other.Bound, 1e-6)

		none := visitplan.Limits{}
		unsearched, err := visitplan.Solve(byUnit, none)
		assert.NoError(t, err)
		said, err := visitplan.Solve(byJob(byUnit), none)
		assert.NoError(t, err)
		assert.InDelta(t, unsearched.Bound, said.Bound, 1e-9, "before any search")
	})
}

// The time that DEVELOPERS.md promises for fifty jobs hangs on how few groups the
// bound leaves open: about two thousand in the mean.
func TestAProofForFiftyJobsTakesAboutTwoThousandGroups(t *testing.T) {
	const seeds = 10
	for _, most := range []struct {
		loads            bool
		nodes, saidByJob int
	}{{true, 2000, 2700}, {false, 2200, 2700}} {
		nodes, byJobs := 0, 0
		for seed := range uint64(seeds) {
			problem := trips(50, seed+1, most.loads, 2200)
			plan := solved(t, problem)
			assert.Equal(t, plan.Cost, plan.Bound)
			nodes += plan.Nodes
			problem.Floor.Whole = false
			plan = solved(t, byJob(problem))
			assert.Equal(t, plan.Cost, plan.Bound)
			byJobs += plan.Nodes
		}
		t.Logf("loads %t: %d groups, %d with the floor by job", most.loads, nodes/seeds, byJobs/seeds)
		assert.Less(t, nodes, most.nodes*seeds)
		assert.Less(t, byJobs, most.saidByJob*seeds)
	}
}

// That a further job makes no visit cheaper lets states be compared; it changes how
// much is looked at, and not what is found: here in one wide pass, so that no narrow
// one finds the plan before.
func TestWhatMonotonePricesLeaveOutIsNeverTheBest(t *testing.T) {
	wide := visitplan.Limits{Widths: []int{1_000_000}, Nodes: 60_000_000}
	for seed := range uint64(4) {
		for _, loads := range []bool{true, false} {
			problem := trips(70, seed+1, loads, 2200)
			compared, err := visitplan.Solve(problem, wide)
			assert.NoError(t, err)
			problem.Monotone = false
			all := solved(t, problem)
			assert.Zero(t, compared.Gap())
			assert.Zero(t, all.Gap())
			assert.InEpsilon(t, all.Cost, compared.Cost, 1e-9)
			t.Logf("loads %t: %d and %d groups", loads, compared.Nodes, all.Nodes)
		}
	}
}
