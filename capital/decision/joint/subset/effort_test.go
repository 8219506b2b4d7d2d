package subset

import (
	"fmt"
	"math"
	"runtime"
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The times of the benchmarks hang on how few branches the bound leaves open: with
// limits fewer than three hundred for the five cheapest of twenty-four machines, and
// without them hardly any.
func TestAProofForTwentyFourMachinesTakesFewBranches(t *testing.T) {
	const seeds = 20
	for _, most := range []struct {
		limited bool
		looked  int
	}{{true, 280}, {false, 18}} {
		looked := 0
		for seed := range uint64(seeds) {
			p := instance(24, 20, seed+1, most.limited)
			answer := Cheapest(p, 5, 1<<20)
			require.True(t, answer.Proven)
			for _, set := range answer.Sets {
				assert.True(t, p.Allows(set.Items))
				assert.InDelta(t, p.Cost(set.Items), set.Cost, 1e-9)
			}
			looked += answer.Looked
		}
		t.Logf("limited %t: %d of twenty", most.limited, looked)
		assert.Less(t, looked, most.looked*seeds)
	}
}

func TestEveryPowerOfThreeIsThriceTheOneBefore(t *testing.T) {
	assert.Equal(t, 1, threes[0])
	for i := 1; i < len(threes); i++ {
		assert.Equal(t, 3*threes[i-1], threes[i])
	}
	assert.GreaterOrEqual(t, len(threes), widest)
}

// ruled is an instance whose first machines share two things that are paid once and
// take room, two that exclude each other, two of which one needs the other, and
// draws of which no two may be too much.
func ruled(machines int, seed uint64, peak float64) *Problem {
	p, d := instance(machines, 20, seed, true), &dice{seed + 3000}
	for _, shared := range []uint64{0b1011, 0b111100} {
		p.Terms = append(p.Terms, Term{[]uint64{shared}, []float64{0, float64(20000 + d.below(90000))}})
		p.Limits[1].When, p.Limits[1].Weight = append(p.Limits[1].When, shared), append(p.Limits[1].Weight, float64(5+d.below(40)))
	}
	p.Excludes, p.Needs = [][2]int{{1, 2}, {4, 7}}, [][2]int{{3, 5}, {8, 0}}
	p.Peak = Peak{AtOnce: 2, Most: peak}
	for range machines {
		p.Peak.Draw = append(p.Peak.Draw, float64(d.below(30)))
	}
	return p
}

// What the searches look at is counted and does not hang on the machine. Whoever
// changes how they go sees here what that costs or saves, and writes the new figures.
func TestTheSearchesLookAtAsManyBranchesAsTheyDid(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("a processor that fuses products into sums breaks ties elsewhere")
	}
	type counts [4]int // branches for the one and for the nine cheapest, and cents of the first and the last of them
	for i, row := range []struct {
		p    *Problem
		took counts
	}{
		{instance(16, 20, 1, true), counts{6, 47, 1562619, 1670281}},
		{instance(24, 20, 2, true), counts{24, 75, 2227240, 2270890}},
		{instance(24, 20, 3, false), counts{4, 39, 2581203, 2652265}},
		{instance(40, 60, 4, true), counts{316, 1426, 11054645, 11178579}},
		{ruled(14, 5, 40), counts{11, 52, 1743309, 1858768}},
		{ruled(20, 6, 35), counts{158, 332, 2409250, 2449986}},
		{ruled(24, 7, 45), counts{803, 1757, 3513071, 3578067}},
		{ruled(24, 8, 30), counts{91, 216, 3189049, 3278331}},
	} {
		one, nine := branched(row.p, 1, 1<<20), branched(row.p, 9, 1<<20)
		require.True(t, one.Proven && nine.Proven)
		took := counts{one.Looked, nine.Looked, int(math.Round(one.Sets[0].Cost)), int(math.Round(nine.Sets[8].Cost))}
		assert.Equal(t, row.took, took, fmt.Sprintf("problem %d", i+1))
	}
}

// The next step of a limit is found in a few branches too: so many suffice, one fewer not.
func TestTheNextStepsOfALimitTakeAsManyBranchesAsTheyDid(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("a processor that fuses products into sums breaks ties elsewhere")
	}
	type counts [3]int // branches for the price, for the floor and for the peak
	for i, row := range []struct {
		p    *Problem
		took counts
	}{
		{ruled(16, 1, 30), counts{6, 9, 16}},
		{ruled(20, 2, 35), counts{40, 63, 76}},
		{ruled(24, 3, 40), counts{2827, 2497, 2093}},
	} {
		cost := branched(row.p, 1, 1<<20).Sets[0].Cost
		var took counts
		for k, limit := range []int{0, 1, ThePeak} {
			took[k] = sort.Search(1<<15, func(most int) bool { return branchedStep(row.p, limit, cost-dust(cost), most).Proven })
		}
		assert.Equal(t, row.took, took, fmt.Sprintf("problem %d", i+1))
	}
}
