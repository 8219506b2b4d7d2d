package joint

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint/subset"
	"shopstint/model"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

func evaluated(s *model.Study, plan *work.Plan, set int) alternative.Evaluation {
	return alternative.Evaluate(s, plan, members(uint64(set), len(s.Machines)))
}

func TestTheTablesAreWhatEverySetCostsAndUses(t *testing.T) {
	shared := 0
	for seed, s := range studygen.Studies(50) {
		plan := work.New(s)
		c := chooserOf(s, plan, usual)
		require.True(t, c.exact, "seed %d", seed)
		named := 0
		for m := range s.Machines {
			named += len(s.Machines[m].Fixtures)
		}
		if named > len(s.Fixtures) {
			shared++
		}
		for set := range 1 << len(s.Machines) {
			whole := evaluated(s, plan, set)
			assert.InDelta(t, whole.Present, c.cost(uint64(set)), studygen.Dust(whole.Present), "seed %d set %b", seed, set)
			cash, area := 0.0, 0.0
			for _, owner := range whole.Owner {
				cash += owner.Table[capital.Net][0]
				area += owner.Area
			}
			assert.InDelta(t, cash, c.money.Used(uint64(set)), studygen.Dust(cash), "seed %d set %b", seed, set)
			assert.InDelta(t, area, c.floor.Used(uint64(set)), 1e-9*(1+area), "seed %d set %b", seed, set)
		}
	}
	assert.Greater(t, shared, 5, "studies whose machines share a fixture")
}

// With many machines a membership is only bounded.
func TestNoSetCostsLessThanInTheCheapestChoiceOfMemberships(t *testing.T) {
	tied, proven := 0, 0
	for seed, s := range studygen.Studies(50) {
		plan := work.New(s)
		c := chooserOf(s, plan, sizes{groups: usual.groups, priced: 0})
		if c.exact {
			continue
		}
		tied++
		least := 0.0
		for set := range 1 << len(s.Machines) {
			whole := evaluated(s, plan, set).Present
			low := c.problems[0].Cost(uint64(set))
			for i := range c.problems {
				low = min(low, c.problems[i].Cost(uint64(set)))
			}
			assert.LessOrEqual(t, low, whole+studygen.Dust(whole), "seed %d set %b", seed, set)
			if c.problems[0].Allows(uint64(set)) && (set == 0 || whole < least) {
				least = whole
			}
		}
		result := c.decide()
		assert.True(t, result.GapKnown, "seed %d", seed)
		assert.InDelta(t, least, result.Choices[0].Present, studygen.Dust(least), "seed %d", seed)
		if result.Gap == 0 {
			proven++
		}
	}
	assert.Greater(t, tied, 5, "studies with a membership")
	assert.Greater(t, proven, tied/2)
}

// Coarse tables call nothing proven, and still find sets that are allowed and
// priced as they are.
func TestCoarseTablesProveNothing(t *testing.T) {
	coarse := 0
	for seed, s := range studygen.Studies(30) {
		plan := work.New(s)
		c := chooserOf(s, plan, sizes{groups: 1, priced: usual.priced})
		if !c.exact {
			coarse++
		}
		result := c.decide()
		assert.Equal(t, c.exact, result.GapKnown, "seed %d", seed)
		for _, choice := range result.Choices {
			whole := alternative.Evaluate(s, plan, choice.Owned).Present
			assert.InDelta(t, whole, choice.Present, studygen.Dust(whole), "seed %d", seed)
			set := uint64(0)
			for _, m := range choice.Machines {
				set |= 1 << m
			}
			assert.True(t, c.problems[0].Allows(set), "seed %d", seed)
		}
	}
	assert.Greater(t, coarse, 5)
}

// A state of groups is priced for a set that is in it.
func TestEachStateIsPricedForASetThatIsInIt(t *testing.T) {
	when := []uint64{0b0011, 0b0001, 0b1100, 0b0110}
	states, reached := tabulate(4, when, func(owned []bool) uint64 {
		set := uint64(0)
		for m, has := range owned {
			if has {
				set |= 1 << m
			}
		}
		return set
	})
	require.Len(t, states, 1<<len(when))
	require.Len(t, reached, 1<<len(when))
	met := map[int]bool{}
	for set := range uint64(16) {
		met[stateOf(when, set)] = true
	}
	for at := range states {
		assert.Equal(t, met[at], reached[at], "%04b", at)
		if reached[at] {
			assert.Equal(t, at, stateOf(when, states[at]), "%04b", at)
		}
	}
	priced := term(when, states, reached, func(set *uint64) float64 { return float64(*set) })
	assert.InDelta(t, 15, (&subset.Problem{Items: 4, Terms: []subset.Term{priced}}).Cost(15), 0)
}
