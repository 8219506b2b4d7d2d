package timevalue_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/timevalue"
)

// flowsWithRates multiplies out scale times the product of
// (1 - (1+rate)·x), whose roots in x = 1/(1+rate) are the given rates.
func flowsWithRates(scale float64, rates ...float64) []float64 {
	flows := []float64{scale}
	for _, rate := range rates {
		next := make([]float64, len(flows)+1)
		for t, flow := range flows {
			next[t] += flow
			next[t+1] -= flow * (1 + rate)
		}
		flows = next
	}
	return flows
}

func TestEveryRateBuiltIntoTheFlowsIsFound(t *testing.T) {
	// Tolerances widen with the number of rates, since multiplying out
	// rounds each flow and roots close together feel that most.
	rows := []struct {
		name  string
		flows []float64
		want  []float64
		tol   float64
	}{
		{"one rate", flowsWithRates(-100, 0.08), []float64{0.08}, 1e-12},
		{"rate 0", []float64{-100, 40, 60}, []float64{0}, 1e-12},
		{"two rates", flowsWithRates(-1000, 0.1, 0.4), []float64{0.1, 0.4}, 1e-12},
		{"three rates", flowsWithRates(5, 0, 1, 2), []float64{0, 1, 2}, 1e-11},
		{"negative and positive", flowsWithRates(7, -0.5, 0.25), []float64{-0.5, 0.25}, 1e-12},
		{"nearly total loss", []float64{-1e6, 1}, []float64{1e-6 - 1}, 1e-12},
		{"thousandfold return", []float64{-1, 1001}, []float64{1000}, 1e-9},
		{"touching once", flowsWithRates(-100, 0.5, 0.5), []float64{0.5}, 1e-9},
		{"touching between two others", flowsWithRates(3, 0, 0.5, 0.5, 1), []float64{0, 0.5, 1}, 1e-9},
		{"touching twice", flowsWithRates(3, 0.25, 0.25, 1.5, 1.5), []float64{0.25, 1.5}, 1e-9},
		{"crossing flat", flowsWithRates(3, 0.25, 0.25, 0.25), []float64{0.25}, 1e-9},
		{"flat to the eighth order", flowsWithRates(3, 1, 1, 1, 1, 1, 1, 1, 1), []float64{1}, 1e-9},
		{"flat to the fourth order", flowsWithRates(3, 0.25, 0.25, 0.25, 0.25), []float64{0.25}, 1e-9},
		{"four too near to part", flowsWithRates(3, 0.5, 0.5, 0.5001, 0.5001), []float64{0.50005}, 1e-4},
		{"two still parted", flowsWithRates(3, 0.5, 0.50001), []float64{0.5, 0.50001}, 1e-9},
		{"leading and closing zeros", []float64{0, 0, -100, 0, 121, 0}, []float64{0.1}, 1e-12},
		{"very large and very small money", []float64{-1e300, 1.5e300}, []float64{0.5}, 1e-12},
		{"a last flow that vanishes beside the others", []float64{-1e300, 1.5e300, -1e-300}, []float64{0.5}, 1e-12},
		{"money at the edge of numbers", []float64{-1e-300, 1.5e-300}, []float64{0.5}, 1e-12},
	}
	for _, row := range rows {
		got := timevalue.ReturnRates(row.flows)
		require.Lenf(t, got, len(row.want), "%s: flows %v, got %v, want %v", row.name, row.flows, got, row.want)
		assert.InDeltaSlicef(t, row.want, got, row.tol, "%s: flows %v, tolerance %g", row.name, row.flows, row.tol)
	}
}

func TestFlowsWithoutARateGiveNone(t *testing.T) {
	rows := map[string][]float64{
		"none":                 nil,
		"all zero":             {0, 0, 0},
		"one flow":             {0, 5, 0},
		"all income":           {1, 2, 3},
		"all outlay":           {-1, 0, -3},
		"two changes, no rate": {1, -1, 1},
		"not a number":         {-1, math.NaN(), 3},
		"infinite":             {-1, math.Inf(1)},
		"return without bound": {-1e-300, 1e300},
		"loss too near total":  {-1e20, 1},
	}
	for name, flows := range rows {
		assert.Emptyf(t, timevalue.ReturnRates(flows), "%s: flows %v", name, flows)
	}
}

func TestSixtyYearsOfAlternatingFlowsStayFast(t *testing.T) {
	flows := make([]float64, 61)
	source := rand.New(rand.NewPCG(61, 1))
	for i := range flows {
		flows[i] = (1 + source.Float64()) * float64(1-2*(i%2))
	}
	for _, rate := range timevalue.ReturnRates(flows) {
		assert.Greater(t, rate, -1.0)
	}
}

// drawFlows draws 2 to 61 yearly flows in whole cents, now and then zero.
func drawFlows(t *rapid.T) []float64 {
	cents := rapid.OneOf(rapid.IntRange(-1_000_000, 1_000_000), rapid.Just(0))
	amount := rapid.Map(cents, func(c int) float64 { return float64(c) / 100 })
	return rapid.SliceOfN(amount, 2, 61).Draw(t, "flows")
}

// openness bounds what rounding the flows, the sum and the rate itself can
// leave of a present value that is zero.
func openness(rate float64, flows []float64) float64 {
	size, slope := 0.0, 0.0
	for year, flow := range flows {
		term := math.Abs(flow) * timevalue.DiscountFactor(rate, float64(year))
		size += term
		slope += float64(year) * term
	}
	return 1e-13 * (size + slope*(1+math.Abs(rate))/(1+rate))
}

func TestPresentValueAtEveryReturnedRateIsZero(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flows := drawFlows(t)
		for i, rate := range timevalue.ReturnRates(flows) {
			present := timevalue.PresentValue(rate, flows)
			require.LessOrEqualf(t, math.Abs(present), openness(rate, flows), "rate %d = %v of %v", i, rate, flows)
		}
	})
}

func TestReturnRatesAscendAndStayAboveTotalLoss(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := -1.0
		for _, rate := range timevalue.ReturnRates(drawFlows(t)) {
			require.Greater(t, rate, before)
			before = rate
		}
	})
}

func TestReturnRatesNeverOutnumberChangesOfSign(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flows := drawFlows(t)
		changes, last := 0, 0.0
		for _, flow := range flows {
			if (flow < 0 && last > 0) || (flow > 0 && last < 0) {
				changes++
			}
			if flow != 0 {
				last = flow
			}
		}
		require.LessOrEqual(t, len(timevalue.ReturnRates(flows)), changes)
	})
}

// TestReturnRatesMissNothingAScanSees walks rates from -0.9 to 10 in small
// steps; wherever the present value changes sign between two steps, a
// returned rate must lie between them, and one crossing cannot hide behind
// another since an odd number lies in each such step.
func TestReturnRatesMissNothingAScanSees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flows := drawFlows(t)
		rates := timevalue.ReturnRates(flows)
		low := -0.9
		before := timevalue.PresentValue(low, flows)
		for low < 10 {
			high := low + 0.005*(1+math.Abs(low))
			after := timevalue.PresentValue(high, flows)
			sure := math.Abs(before) > openness(low, flows) && math.Abs(after) > openness(high, flows)
			if sure && (before < 0) != (after < 0) {
				require.Truef(t, oddBetween(rates, low, high), "crossing in %v..%v of %v not in %v", low, high, flows, rates)
			}
			low, before = high, after
		}
	})
}

func oddBetween(rates []float64, low, high float64) bool {
	count := 0
	for _, rate := range rates {
		if rate >= low && rate <= high {
			count++
		}
	}
	return count%2 == 1
}

func TestSeveralRatesOfWildFlowsAreAllFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 6).Draw(t, "rates")
		want := make([]float64, n)
		at := rapid.Float64Range(-0.8, 0).Draw(t, "lowest")
		for i := range want {
			want[i] = at
			at += rapid.Float64Range(0.1, 0.6).Draw(t, "gap")
		}
		flows := flowsWithRates(rapid.SampledFrom([]float64{-50, 3, 1e6}).Draw(t, "scale"), want...)
		got := timevalue.ReturnRates(flows)
		require.Lenf(t, got, n, "want %v, got %v", want, got)
		require.InDeltaSlice(t, want, got, 1e-6)
	})
}
