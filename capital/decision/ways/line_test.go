package ways_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/decision/conformance"
	"shopstint/capital/decision/ways"
)

func TestBreakEvensAgreeWithPublishedCases(t *testing.T) {
	conformance.Hold(t, "capital/decision/ways")
}

func lines(t *rapid.T, name string) ways.Line {
	cost := rapid.Float64Range(0, 1e6)
	return ways.Line{Fixed: cost.Draw(t, name+" fixed"), Unit: cost.Draw(t, name+" unit")}
}

func TestAtTheBreakEvenBothWaysCostTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := lines(t, "a"), lines(t, "b")
		outcome, at := ways.BreakEven(a, b)
		if outcome != ways.Crossing {
			assert.Zero(t, at)
			return
		}
		assert.Positive(t, at)
		assert.InEpsilon(t, a.Yearly(at)+1, b.Yearly(at)+1, 1e-6)
		cheaper := a.Fixed < b.Fixed
		assert.Equal(t, cheaper, a.Yearly(at/2) < b.Yearly(at/2), "below it the one with less fixed cost")
		assert.Equal(t, !cheaper, a.Yearly(at*2) < b.Yearly(at*2), "above it the other")
	})
}

func TestSwappingTheWaysSwapsTheOutcome(t *testing.T) {
	other := map[ways.Outcome]ways.Outcome{ways.Same: ways.Same, ways.Crossing: ways.Crossing, ways.FirstAlways: ways.SecondAlways, ways.SecondAlways: ways.FirstAlways}
	rapid.Check(t, func(t *rapid.T) {
		a, b := lines(t, "a"), lines(t, "b")
		if rapid.Bool().Draw(t, "no fixed cost") {
			a.Fixed, b.Fixed = 0, 0
		}
		forth, at := ways.BreakEven(a, b)
		back, same := ways.BreakEven(b, a)
		assert.Equal(t, other[forth], back)
		assert.InDelta(t, at, same, 1e-9*at)
	})
}

func TestAWayThatIsDearerInEveryPartNeverWins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := lines(t, "a")
		more := rapid.Float64Range(1, 1e5)
		b := ways.Line{Fixed: a.Fixed + more.Draw(t, "fixed"), Unit: a.Unit + more.Draw(t, "unit")}
		outcome, _ := ways.BreakEven(a, b)
		assert.Equal(t, ways.FirstAlways, outcome)
	})
}

func TestWhatAddingUpLeavesIsNoDifference(t *testing.T) {
	tenth, fifth := 0.1, 0.2 // a sum of constants would be exact
	require.NotEqual(t, 0.3, tenth+fifth)
	a := ways.Line{Fixed: tenth + fifth, Unit: 1}
	outcome, at := ways.BreakEven(a, ways.Line{Fixed: 0.3, Unit: 2})
	assert.Equal(t, ways.FirstAlways, outcome)
	assert.Zero(t, at)
	outcome, _ = ways.BreakEven(a, ways.Line{Fixed: 0.3, Unit: 1})
	assert.Equal(t, ways.Same, outcome)
	assert.Zero(t, ways.Apart(1e6+1e-4, 1e6), "in the eleventh digit")
	assert.InDelta(t, 1e-7, ways.Apart(1.1e-6, 1e-6), 1e-12, "in the second")
	assert.InDelta(t, 0.001, ways.Apart(1000.001, 1000), 1e-12, "a tenth of a cent is a difference")
	assert.InDelta(t, -1, ways.Apart(-2, -1), 0)
	assert.Zero(t, ways.Apart(0, 0))
}
