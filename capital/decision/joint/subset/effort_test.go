package subset

import (
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
