package single_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/conformance"
	"shopstint/capital/decision/single"
)

func TestBreakEvensAgreeWithPublishedCases(t *testing.T) {
	conformance.Hold(t, "capital/decision/single")
}

func TestCrossingsFindsEveryChangeOfSignOfAStaircase(t *testing.T) {
	// Blocks of 10 up to 40, against 2.5 a unit: the staircase is crossed again and again.
	stairs := func(x float64) float64 { return 10*math.Ceil(x/4) - 2.4*x - 3 }
	corners := []float64{0, 4, 8, 12, 16, 20, 24, 28, 32, 36, 40}
	found := single.Crossings(stairs, 0.5, 40, corners)
	require.NotEmpty(t, found)
	for i, x := range found {
		assert.NotEqual(t, stairs(x-1e-6) > 0, stairs(x+1e-6) > 0, "at %v", x)
		if i > 0 {
			middle := (found[i-1] + x) / 2
			before := (found[max(0, i-2)] + found[i-1]) / 2
			if i > 1 {
				assert.NotEqual(t, stairs(before) > 0, stairs(middle) > 0, "each crossing changes the side: %v", found)
			}
		}
	}
	sides := 0
	for x := 0.5; x+0.001 < 40; x += 0.001 {
		if stairs(x) > 0 != (stairs(x+0.001) > 0) {
			sides++
		}
	}
	assert.Len(t, found, sides, "as many as a fine walk meets")
}

func TestCrossingsAreNarrowedDown(t *testing.T) {
	for _, row := range []struct {
		name       string
		difference func(float64) float64
		want       []float64
		tolerance  float64
	}{
		{"a line", func(x float64) float64 { return 3*x - 7 }, []float64{7.0 / 3}, 1e-12},
		{"a curve", func(x float64) float64 { return x*x - 2 }, []float64{math.Sqrt2}, 1e-12},
		{"two roots", func(x float64) float64 { return (x - 1) * (x - 8.3) }, []float64{1, 8.3}, 1e-11},
		{"a jump", func(x float64) float64 { return math.Copysign(5, x-3.21) }, []float64{3.21}, 1e-9},
		{"a jump with unequal sides", func(x float64) float64 {
			if x < 3.21 {
				return -0.001
			}
			return 4000
		}, []float64{3.21}, 1e-6},
		{"a flat start", func(x float64) float64 { return math.Max(0, x-2) - 1 }, []float64{3}, 1e-12},
		{"none", func(x float64) float64 { return x + 1 }, nil, 0},
	} {
		found := single.Crossings(row.difference, 0, 10, nil)
		if assert.Len(t, found, len(row.want), row.name) {
			assert.InDeltaSlice(t, row.want, found, row.tolerance, row.name)
		}
	}
}

func TestWhereTheDifferenceIsNothingAnywhereNothingIsCrossed(t *testing.T) {
	assert.Empty(t, single.Crossings(func(float64) float64 { return 0 }, 0, 10, nil))
	touches := func(x float64) float64 { return (x - 5) * (x - 5) }
	assert.Empty(t, single.Crossings(touches, 0, 10, nil), "touching zero changes no side")
	level := func(x float64) float64 { return math.Max(0, x-6) + math.Min(0, x-4) }
	found := single.Crossings(level, 0, 10, nil)
	require.Len(t, found, 1, "a level stretch is crossed once")
	assert.GreaterOrEqual(t, found[0], 4.0-1e-9)
	assert.LessOrEqual(t, found[0], 6.0+1e-9)
}
