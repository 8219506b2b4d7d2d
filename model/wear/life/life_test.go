package life_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/wear/life"
)

// some draws a handful of lives, at least two of which ended at different runs.
func some(t *rapid.T) []life.Observation {
	n := rapid.IntRange(2, 30).Draw(t, "n")
	lives := []life.Observation{{Run: 0.5, Ended: true, Count: 1}, {Run: 30, Ended: true, Count: 1}}
	for range n {
		lives = append(lives, life.Observation{
			Run:   float64(rapid.IntRange(1, 4000).Draw(t, "run")) / 100,
			Ended: rapid.Bool().Draw(t, "ended"), Count: float64(rapid.IntRange(1, 3).Draw(t, "count")),
		})
	}
	return lives
}

func ended(runs ...float64) []life.Observation {
	var lives []life.Observation
	for _, run := range runs {
		lives = append(lives, life.Observation{Run: run, Ended: true, Count: 1})
	}
	return lives
}

func TestTheCurveWithoutLivesStillGoingIsTheShareThatLasts(t *testing.T) {
	steps := life.Curve(ended(4, 1, 3, 1, 2), 0.9)
	require.Len(t, steps, 4)
	for i, want := range []float64{3. / 5, 2. / 5, 1. / 5, 0} {
		assert.InDelta(t, want, steps[i].Survival, 1e-15)
	}
	assert.InDelta(t, math.Sqrt(.6*.4/5), steps[0].Error, 1e-15, "of a share: √(p(1−p)/n)")
	assert.Equal(t, life.Interval{Low: 0, High: 1}, steps[3].Interval)
	median, ok := life.Median(steps)
	assert.True(t, ok)
	assert.InDelta(t, 2, median, 0)
}

func TestTheCurveFallsAndItsIntervalHoldsItWhateverTheLives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		last := life.Step{Survival: 1}
		for _, step := range life.Curve(some(t), 0.9) {
			assert.Less(t, step.Survival, last.Survival)
			assert.Greater(t, step.Run, last.Run)
			assert.True(t, step.Holds(step.Survival))
			assert.True(t, step.Low >= 0 && step.High <= 1)
			last = step
		}
	})
}

func TestLivesAlikeMayBeCountedOrWrittenOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		counted := some(t)
		var written []life.Observation
		for _, one := range counted {
			for range int(one.Count) {
				written = append(written, life.Observation{Run: one.Run, Ended: one.Ended, Count: 1})
			}
		}
		a, err := life.Fit(counted)
		require.NoError(t, err)
		b, err := life.Fit(written)
		require.NoError(t, err)
		assert.InEpsilon(t, a.Scale, b.Scale, 1e-9)
		assert.InEpsilon(t, a.Shape, b.Shape, 1e-9)
		for i, step := range life.Curve(counted, 0.9) {
			assert.InDelta(t, life.Curve(written, 0.9)[i].Survival, step.Survival, 1e-12)
		}
	})
}

func TestNoOtherShapeAndScaleAreLikelierThanTheFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lives := some(t)
		fit, err := life.Fit(lives)
		require.NoError(t, err)
		likelihood := func(shape, scale float64) float64 {
			sum := 0.0
			for _, one := range lives {
				z := math.Pow(one.Run/scale, shape)
				sum -= one.Count * z
				if one.Ended {
					sum += one.Count * math.Log(shape/one.Run*z)
				}
			}
			return sum
		}
		best := likelihood(fit.Shape, fit.Scale)
		assert.InDelta(t, best, fit.LogLikelihood, 1e-8)
		for _, a := range []float64{0.97, 1, 1.03} {
			for _, b := range []float64{0.97, 1, 1.03} {
				assert.LessOrEqual(t, likelihood(fit.Shape*a, fit.Scale*b), best+1e-9)
			}
		}
	})
}

func TestAFitMovesWithTheUnitOfTheRun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lives := some(t)
		var feet []life.Observation
		for _, one := range lives {
			feet = append(feet, life.Observation{Run: one.Run / 0.3048, Ended: one.Ended, Count: one.Count})
		}
		a, err := life.Fit(lives)
		require.NoError(t, err)
		b, err := life.Fit(feet)
		require.NoError(t, err)
		assert.InEpsilon(t, a.Mean()/0.3048, b.Mean(), 1e-9)
		assert.InEpsilon(t, a.Shape, b.Shape, 1e-9)
		within := a.MeanInterval(0.9)
		assert.InEpsilon(t, within.Low/0.3048, b.MeanInterval(0.9).Low, 1e-5)
	})
}

func TestAnIntervalHoldsItsEstimateAndGrowsWithItsLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fit, err := life.Fit(some(t))
		require.NoError(t, err)
		for _, one := range []struct {
			estimate float64
			interval func(float64) life.Interval
		}{{fit.Shape, fit.ShapeInterval}, {fit.Scale, fit.ScaleInterval}, {fit.Mean(), fit.MeanInterval}} {
			narrow, wide := one.interval(0.5), one.interval(0.95)
			assert.True(t, narrow.Holds(one.estimate), "%v in %v", one.estimate, narrow)
			assert.Less(t, wide.Low, narrow.Low)
			assert.Greater(t, wide.High, narrow.High)
		}
	})
}

func TestWhatCannotBeFittedIsSaid(t *testing.T) {
	_, err := life.Fit([]life.Observation{{Run: 3, Count: 2}})
	require.ErrorIs(t, err, life.ErrNoEnd)
	_, err = life.Fit(ended(3, 3))
	require.ErrorIs(t, err, life.ErrNoSpread)
	_, err = life.FitExponential([]life.Observation{{Run: 3, Count: 2}, {Run: 0, Ended: true, Count: 1}})
	require.ErrorIs(t, err, life.ErrNoEnd)
}

// Source: NIST/SEMATECH e-Handbook, section 8.4.5.1: with no failure the lower bound
// is T/(−ln α).
func TestWithoutAnEndThereIsALowerBoundOnly(t *testing.T) {
	fit, err := life.FitExponential([]life.Observation{{Run: 100, Count: 5}})
	require.ErrorIs(t, err, life.ErrNoEnd)
	within := fit.Interval(0.9)
	assert.InDelta(t, 500/math.Log(10), within.Low, 1e-9)
	assert.True(t, math.IsInf(within.High, 1))
}

// Source: the form of NIST/SEMATECH e-Handbook, section 8.4.5.1, worked out with another program.
func TestTheFactorsOfTheExponentialBounds(t *testing.T) {
	for ended, want := range map[float64][2]float64{1: {.2108, 19.4957}, 2: {.3177, 5.6281}, 3: {.3869, 3.6689}, 5: {.4756, 2.5379}, 10: {.5895, 1.8432}} {
		within := life.Exponential{Ended: ended, Run: ended}.Interval(0.9)
		assert.InDelta(t, want[0], within.Low, 5e-5)
		assert.InDelta(t, want[1], within.High, 5e-5)
	}
}

func TestAShapeHasItsVariationAndTheOtherWayRound(t *testing.T) {
	assert.InDelta(t, 1, life.Variation(1), 1e-12, "exponential")
	assert.InDelta(t, math.Sqrt(4/math.Pi-1), life.Variation(2), 1e-12, "Rayleigh")
	for _, variation := range []float64{0.1, 0.25, 0.35, 0.5, 1, 2} {
		assert.InEpsilon(t, variation, life.Variation(life.ShapeOf(variation)), 1e-9)
	}
}

var trade = life.Prior{MeanLow: 2000, MeanHigh: 7000, VariationLow: 0.25, VariationHigh: 0.5}

func TestWithoutLivesTheBeliefIsThePrior(t *testing.T) {
	belief := life.Combine(nil, trade, 0.9)
	assert.InEpsilon(t, 2000, belief.Low, 2e-3)
	assert.InEpsilon(t, 7000, belief.High, 2e-3)
	assert.InEpsilon(t, math.Sqrt(2000*7000), belief.Median, 1e-3)
	spread := math.Log(7000./2000) / (2 * 1.6448536269514722)
	assert.InEpsilon(t, math.Sqrt(2000*7000)*math.Exp(spread*spread/2), belief.Mean, 1e-3, "of a lognormal distribution")
	assert.InDelta(t, 0, belief.Learnt, 1e-3)
	assert.False(t, belief.Told())
}

func TestManyLivesOutweighThePrior(t *testing.T) {
	var lives []life.Observation
	for i := range 400 {
		run := 9000 * math.Pow(-math.Log((float64(i)+0.5)/400), 1/3.0)
		lives = append(lives, life.Observation{Run: run, Ended: true, Count: 1})
	}
	fit, err := life.Fit(lives)
	require.NoError(t, err)
	belief := life.Combine(lives, trade, 0.9)
	within := fit.MeanInterval(0.9)
	assert.InEpsilon(t, fit.Mean(), belief.Median, 0.01)
	assert.InEpsilon(t, within.Low, belief.Low, 0.01)
	assert.InEpsilon(t, within.High, belief.High, 0.01)
	assert.True(t, belief.Told())
	assert.Greater(t, belief.Learnt, 0.99)
}

func TestALifeStillGoingMakesTheBeliefLonger(t *testing.T) {
	before := life.Combine(ended(3000, 4000), trade, 0.9)
	after := life.Combine(append(ended(3000, 4000), life.Observation{Run: 5000, Count: 1}), trade, 0.9)
	assert.Greater(t, after.Median, before.Median)
	assert.Greater(t, after.Low, before.Low)
}
