package upkeep_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/upkeep"
)

func TestRemainingShareNeverRisesWithAge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c1 := rapid.Float64Range(0.5, 1).Draw(t, "c1")
		c2 := rapid.Float64Range(0, 0.3).Draw(t, "c2")
		c3 := rapid.Float64Range(0, 0.02).Draw(t, "c3")
		hours := rapid.Float64Range(0, 3000).Draw(t, "hours a year")
		before := 1.0
		for age := 0.0; age <= 60; age++ {
			share := upkeep.RemainingShare(c1, c2, c3, age, hours)
			require.GreaterOrEqual(t, share, 0.0)
			require.LessOrEqual(t, share, before)
			before = share
		}
	})
}

func TestAMachinePastTheEndOfTheFormIsWorthNothing(t *testing.T) {
	// 0.9 - 0.2·6 is below 0; its square would be 0.09.
	assert.Zero(t, upkeep.RemainingShare(0.9, 0.2, 0, 36, 0))
}

func TestAgeAndUseBelowZeroCountAsNone(t *testing.T) {
	assert.InDelta(t, 0.81, upkeep.RemainingShare(0.9, 0.1, 0.1, -4, -9), 1e-12)
	assert.Zero(t, upkeep.AccumulatedRepair(1000, 0.1, 1.5, -10))
	assert.Zero(t, upkeep.AccumulatedRepair(1000, 0.1, 0, 0))
}

func TestAccumulatedRepairOfFiveThousandHours(t *testing.T) {
	// 100,000 · 0.01 · 5^2, worked by hand.
	assert.InDelta(t, 25000, upkeep.AccumulatedRepair(100000, 0.01, 2, 5000), 1e-6)
}

func TestAccumulatedRepairRisesFasterWithUseWhenRF2IsAboveOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rf1 := rapid.Float64Range(0.001, 1).Draw(t, "rf1")
		rf2 := rapid.Float64Range(1, 2.5).Draw(t, "rf2")
		step := rapid.Float64Range(1, 500).Draw(t, "hours a year")
		before, lastYear := 0.0, 0.0
		for year := 1.0; year <= 30; year++ {
			sofar := upkeep.AccumulatedRepair(10000, rf1, rf2, year*step)
			require.GreaterOrEqual(t, sofar-before, lastYear-1e-9*(1+sofar))
			before, lastYear = sofar, sofar-before
		}
	})
}
