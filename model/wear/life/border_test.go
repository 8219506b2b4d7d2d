package life_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/wear/life"
)

func TestABeliefIsToldByTheLivesOnceHalfOfTheDoubtIsGone(t *testing.T) {
	assert.True(t, life.Belief{Learnt: 0.5}.Told())
	assert.False(t, life.Belief{Learnt: 0.499}.Told())
}

// few are lives and counts below one, so that nothing rests on whole numbers.
var few = []life.Observation{{Run: 0.25, Ended: true, Count: 0.5}, {Run: 0.5, Ended: true, Count: 1.5}, {Run: 0.75, Count: 0.25}}

func TestRunsAndCountsOfNothingAreLeftOutOfEveryEstimate(t *testing.T) {
	ended, all, run := life.Totals(few)
	assert.Equal(t, []float64{2, 2.25, 0.125 + 0.75 + 0.1875}, []float64{ended, all, run})
	fit, err := life.Fit(few)
	require.NoError(t, err)
	exponential, err := life.FitExponential(few)
	require.NoError(t, err)
	curve, belief := life.Curve(few, 0.9), life.Combine(few, life.Prior{MeanLow: 0.1, MeanHigh: 1, VariationLow: 0.25, VariationHigh: 0.5}, 0.9)
	for _, nothing := range []life.Observation{{Run: 0, Ended: true, Count: 1}, {Run: -1, Ended: true, Count: 1}, {Run: 0.3, Ended: true, Count: 0}, {Run: 0.9, Ended: true, Count: -1}, {Run: 0, Count: 0}} {
		lives := append([]life.Observation{nothing}, few...)
		e, a, r := life.Totals(lives)
		assert.Equal(t, []float64{ended, all, run}, []float64{e, a, r}, "%+v", nothing)
		again, err := life.Fit(lives)
		require.NoError(t, err)
		assert.Equal(t, []float64{fit.Shape, fit.Scale}, []float64{again.Shape, again.Scale}, "%+v", nothing)
		sudden, err := life.FitExponential(lives)
		require.NoError(t, err)
		assert.Equal(t, exponential, sudden, "%+v", nothing)
		assert.Equal(t, curve, life.Curve(lives, 0.9), "%+v", nothing)
		assert.Equal(t, belief, life.Combine(lives, life.Prior{MeanLow: 0.1, MeanHigh: 1, VariationLow: 0.25, VariationHigh: 0.5}, 0.9), "%+v", nothing)
	}
}

func TestLivesThatAllEndedAtTheLongestRunHaveNoShapeHoweverManyAreNothing(t *testing.T) {
	_, err := life.Fit([]life.Observation{{Run: 0.5, Ended: true, Count: 2}, {Run: 0.4, Count: 1}, {Run: 0.2, Ended: true, Count: 0}, {Run: -1, Ended: true, Count: 1}})
	require.ErrorIs(t, err, life.ErrNoSpread)
}

// Source: by definition of the product-limit curve: half a life of 2.25 ended, then
// one and a half of 1.75.
func TestACurveOfPartsOfLivesWorkedByHand(t *testing.T) {
	curve := life.Curve(few, 0.9)
	require.Len(t, curve, 2)
	assert.InDelta(t, 1.75/2.25, curve[0].Survival, 1e-12)
	assert.InDelta(t, 1.75/2.25*0.25/1.75, curve[1].Survival, 1e-12)
	assert.InDelta(t, 1.75, curve[1].AtRisk, 1e-12)
	median, ok := life.Median(curve)
	assert.True(t, ok)
	assert.InDelta(t, 0.5, median, 0)
	_, ok = life.Median(curve[:1])
	assert.False(t, ok, "more than half last longer than the curve was followed")
	median, ok = life.Median([]life.Step{{Run: 3, Survival: 0.5}})
	assert.True(t, ok)
	assert.InDelta(t, 3, median, 0, "half is enough")
}

// Source: Akaike, 2 × parameters − 2 × log-likelihood; of 1, 2 and 3 with a mean of 2
// the likelihood is −3 ln 2 − 3.
func TestACriterionCountsTheParameters(t *testing.T) {
	fit, err := life.FitExponential(ended(1, 2, 3))
	require.NoError(t, err)
	assert.InDelta(t, 2+6*math.Ln2+6, fit.AIC(), 1e-12)
}

func TestASingleLifeCountsForABelief(t *testing.T) {
	alone := life.Combine(nil, trade, 0.9)
	longer := life.Combine([]life.Observation{{Run: 9000, Count: 1}}, trade, 0.9)
	shorter := life.Combine(ended(900), trade, 0.9)
	assert.Greater(t, longer.Mean, 1.2*alone.Mean, "still going where few come to")
	assert.Less(t, shorter.Mean, 0.9*alone.Mean)
	assert.Less(t, longer.Learnt, 1.0)
}

func TestASideThatTheLivesDoNotBoundIsOpen(t *testing.T) {
	fit, err := life.Fit([]life.Observation{{Run: 1, Ended: true, Count: 1}, {Run: 100, Count: 10}})
	require.NoError(t, err)
	within := fit.MeanInterval(0.99)
	assert.True(t, math.IsInf(within.High, 1), "%v", within)
	assert.Positive(t, within.Low)
	assert.Less(t, within.Low, fit.Mean())
}

func TestACurveThatDoesNotComeDownToTheMiddleHasNoMedian(t *testing.T) {
	median, reached := life.Median(life.Curve([]life.Observation{{Run: 10, Ended: true, Count: 1}, {Run: 20, Count: 3}}, 0.9))
	assert.False(t, reached)
	assert.Zero(t, median)
}
