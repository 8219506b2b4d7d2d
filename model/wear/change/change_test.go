package change_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"shopstint/capital/decision/conformance"
	"shopstint/model/wear/change"
)

func TestRunsAndCostsAgreeWithPublishedCases(t *testing.T) { conformance.Hold(t, "model/wear/change") }

func drawn(t *rapid.T) (change.Costs, change.Sudden, float64) {
	full := rapid.Float64Range(1, 5000).Draw(t, "run until dull")
	share := rapid.Float64Range(0, 0.9).Draw(t, "share damaged before")
	costs := change.Costs{
		Change: rapid.Float64Range(0.1, 400).Draw(t, "change"), Damage: rapid.Float64Range(0, 400).Draw(t, "damage"),
		Steady: rapid.Float64Range(0, 2).Draw(t, "steady"), Rise: rapid.Float64Range(0.001, 5).Draw(t, "rise") / full,
	}
	return costs, change.Sudden(-math.Log1p(-share) / full), full
}

func TestNoOtherRunCostsLessThanTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		costs, life, _ := drawn(t)
		best := change.Best(costs, life)
		if math.IsInf(best, 1) {
			t.Skip("run until damage comes")
		}
		least := change.Rate(costs, life, best)
		for _, times := range []float64{0.5, 0.9, 0.99, 1.01, 1.1, 2} {
			assert.GreaterOrEqual(t, change.Rate(costs, life, times*best), least*(1-1e-12), "%v times the best run", times)
		}
	})
}

// Without damage the best run is the root of twice the change over the rise.
// Source: Jardine and Tsang, operating cost with a linear trend, in closed form.
func TestWithoutDamageTheBestRunIsASquareRoot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		costs, _, _ := drawn(t)
		want := math.Sqrt(2 * costs.Change / costs.Rise)
		assert.InEpsilon(t, want, change.Best(costs, change.Sudden(0)), 1e-10)
		assert.InEpsilon(t, math.Sqrt(2*costs.Change*costs.Rise)+costs.Steady, change.Rate(costs, change.Sudden(0), want), 1e-10)
	})
}

// Damage without memory is no reason to change sooner: what it costs does not
// move the best run, and the more of it, the longer the run that is aimed at.
func TestDamageWithoutMemoryNeverBringsTheChangeForward(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		costs, life, _ := drawn(t)
		best := change.Best(costs, life)
		if math.IsInf(best, 1) {
			assert.True(t, math.IsInf(change.Best(costs, life*1.5), 1))
			return
		}
		dearer := costs
		dearer.Damage += 100
		assert.InEpsilon(t, best, change.Best(dearer, life), 1e-9)
		assert.GreaterOrEqual(t, change.Best(costs, life*1.5), best*(1-1e-9))
	})
}

// The run u in lives of damage solves u − 1 + exp(−u) = change × rate² ÷ rise,
// which is how a spreadsheet finds it. Source: derivative of Rate set to zero.
func TestWithSuddenDamageTheBestRunSolvesItsEquation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		costs, life, _ := drawn(t)
		best := change.Best(costs, life)
		if u := float64(life) * best; u > 0.01 && u < 20 {
			assert.InEpsilon(t, costs.Change*float64(life*life)/costs.Rise, u-1+math.Exp(-u), 1e-9)
		}
	})
}

func TestRunningUntilDamageComesIsTheLimitOfLongerRuns(t *testing.T) {
	costs, life := change.Costs{Change: 30, Damage: 5, Steady: 1, Rise: 0.02}, change.Sudden(0.1)
	// (30 + 5) ÷ 10 + 0.02 × 10 + 1
	assert.InDelta(t, 4.7, change.Rate(costs, life, math.Inf(1)), 1e-12)
	assert.InEpsilon(t, change.Rate(costs, life, 250), change.Rate(costs, life, math.Inf(1)), 1e-6)
	assert.InDelta(t, 1, change.Rate(change.Costs{Steady: 1, Rise: 4}, life, 0), 0)
}

func TestWithNothingThatRisesAnEdgeIsRunUntilDamageComes(t *testing.T) {
	assert.True(t, math.IsInf(change.Best(change.Costs{Change: 3, Damage: 4}, change.Sudden(0.01)), 1))
	assert.True(t, math.IsInf(change.Best(change.Costs{Change: 3}, change.Sudden(0)), 1))
	assert.Zero(t, change.Best(change.Costs{Rise: 1}, change.Sudden(0.01)), "a change that costs nothing is made at once")
}
