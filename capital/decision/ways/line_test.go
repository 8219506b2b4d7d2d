package ways_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/decision/ways"
	"shopstint/model/published"
)

// TestBreakEvensAgreeWithPublishedCases runs the published cases of renting
// against owning as two ways: one with a fixed cost, one without.
func TestBreakEvensAgreeWithPublishedCases(t *testing.T) {
	workOut := func(in *published.Inputs) map[string][]float64 {
		own, hired := ways.Line{Unit: in.Number("own_rate")}, ways.Line{Unit: in.Number("rent_rate")}
		if in.Has("fixed_a_year") {
			own.Fixed = in.Number("fixed_a_year")
		} else {
			own.Fixed = ways.Recovery(in.Number("rate"), in.Number("years"), in.Number("price"), in.Number("salvage")) + in.Number("yearly")
		}
		outcome, at := ways.BreakEven(own, hired)
		require.Equal(t, ways.Crossing, outcome, in.Case.ID)
		got := map[string][]float64{"break_even": {at}}
		if in.Has("units") {
			units := in.Number("units")
			got["saving"] = []float64{hired.Yearly(units) - own.Yearly(units)}
		}
		return got
	}
	require.NoError(t, published.Agree(os.DirFS("../../../testdata/published"), "breakeven", workOut))
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
	a := ways.Line{Fixed: 0.1 + 0.2, Unit: 1}
	outcome, at := ways.BreakEven(a, ways.Line{Fixed: 0.3, Unit: 2})
	assert.Equal(t, ways.FirstAlways, outcome)
	assert.Zero(t, at)
	outcome, _ = ways.BreakEven(a, ways.Line{Fixed: 0.3, Unit: 1})
	assert.Equal(t, ways.Same, outcome)
}
