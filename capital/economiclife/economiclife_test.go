package economiclife_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/economiclife"
	"shopstint/capital/timevalue"
)

func drawMoney(t *rapid.T, n int, low, high float64, name string) []float64 {
	return rapid.SliceOfN(rapid.Float64Range(low, high), n, n).Draw(t, name)
}

func TestEquivalentCostIsTheAnnuityOfThePresentCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 30).Draw(t, "years")
		rate := rapid.Float64Range(-0.1, 0.5).Draw(t, "rate")
		price := rapid.Float64Range(0, 1e5).Draw(t, "price")
		operating := drawMoney(t, n, -1000, 1e4, "operating")
		market := drawMoney(t, n, 0, 1e5, "market value")
		costs := economiclife.EquivalentAnnualCosts(rate, price, operating, market)
		require.Len(t, costs, n)
		for life := 1; life <= n; life++ {
			flows := append([]float64{price}, operating[:life]...)
			flows[life] -= market[life-1]
			want := timevalue.EquivalentAnnual(rate, float64(life), timevalue.PresentValue(rate, flows))
			require.InDeltaf(t, want, costs[life-1], 1e-6, "life %d", life)
		}
	})
}

func TestLevelOperatingCostAddsToRecoveryAndInterestOnSalvage(t *testing.T) {
	// (P - S)·A/P + S·i + operating: published identity, needs no source.
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 30).Draw(t, "years")
		rate := rapid.Float64Range(0, 0.5).Draw(t, "rate")
		price := rapid.Float64Range(0, 1e5).Draw(t, "price")
		yearly := rapid.Float64Range(0, 1e4).Draw(t, "operating")
		market := drawMoney(t, n, 0, 1e5, "market value")
		costs := economiclife.EquivalentAnnualCosts(rate, price, slices.Repeat([]float64{yearly}, n), market)
		for life := 1; life <= n; life++ {
			salvage := market[life-1]
			want := (price-salvage)*timevalue.CapitalRecovery(rate, float64(life)) + salvage*rate + yearly
			require.InDeltaf(t, want, costs[life-1], 1e-6, "life %d", life)
		}
	})
}

func TestNoLifeIsCheaperThanTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		costs := rapid.SliceOfN(rapid.Float64Range(-100, 100), 1, 40).Draw(t, "costs")
		life, cost := economiclife.Best(costs)
		require.InDelta(t, slices.Min(costs), cost, 0)
		require.Equal(t, slices.Index(costs, cost)+1, life, "the earliest of equals")
	})
}

func TestBestLooksBeyondARise(t *testing.T) {
	life, cost := economiclife.Best([]float64{10, 8, 9, 9.5, 7, 7})
	assert.Equal(t, 5, life)
	assert.InDelta(t, 7, cost, 0)
}

func TestBestPassesOverWhatIsNotANumber(t *testing.T) {
	life, cost := economiclife.Best([]float64{math.NaN(), 8, math.NaN(), 9})
	assert.Equal(t, 2, life)
	assert.InDelta(t, 8, cost, 0)
	life, cost = economiclife.Best([]float64{math.NaN()})
	assert.Zero(t, life)
	assert.True(t, math.IsNaN(cost))
	life, cost = economiclife.Best(nil)
	assert.Zero(t, life)
	assert.True(t, math.IsNaN(cost))
}

func TestTheShorterListSetsTheLongestLife(t *testing.T) {
	assert.Len(t, economiclife.EquivalentAnnualCosts(0.08, 100, []float64{1, 2, 3}, []float64{50, 40}), 2)
	assert.Empty(t, economiclife.EquivalentAnnualCosts(0.08, 100, nil, []float64{50}))
}
