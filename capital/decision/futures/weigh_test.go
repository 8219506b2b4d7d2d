package futures

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// Four futures by hand: renting costs 10 in each, the choice 8, 9.5, 10 and 12.
func TestAChoiceIsWeighedInEveryFuture(t *testing.T) {
	choice := weighOne([]float64{10, 10, 10, 10}, []float64{8, 9.5, 10, 12}, []float64{8, 9, 9, 9}, []int{1, 0, 0, 0}, 1, []float64{10, 9})
	assert.InDelta(t, 0.5, choice.Better.Value, 1e-12, "cheaper in two, and as dear in a third")
	assert.InDelta(t, 0.25, choice.Cheapest.Value, 1e-12)
	assert.InDelta(t, (0+0.5+1+3)/4.0, choice.Regret.Value, 1e-12)
	assert.InDelta(t, (2+0.5+0-2)/4.0, choice.Difference.Mean.Value, 1e-12)
	require.Len(t, choice.Curve, points)
	assert.InDelta(t, 0.01, choice.Curve[0].Below, 1e-12)
	assert.InDelta(t, 0.99, choice.Curve[points-1].Below, 1e-12)
	assert.InDelta(t, -2, choice.Curve[0].Difference, 1e-12)
	assert.InDelta(t, 2, choice.Curve[points-1].Difference, 1e-12)
	assert.InDelta(t, 0, choice.Curve[13].Difference, 1e-12, "27 % lie below")
}

// What is too close to call is the same share as for one machine alone.
func TestTheBandOfASetOfOneIsThatOfTheSingleDecision(t *testing.T) {
	for seed, s := range studygen.Studies(6) {
		s.Origins, s.Correlations = map[string]model.Origin{}, nil
		scene, err := sceneOf(s, Options{Sets: Choices(s)})
		require.NoError(t, err)
		assert.InDelta(t, 0, scene.bands[0], 1e-6, "renting everything saves and costs nothing more")
		plan := work.New(s)
		rented := alternative.RentOf(s, plan, make([]bool, len(s.Machines)))
		for c, owned := range scene.options.Sets {
			machine, count := -1, 0
			for m, has := range owned {
				if has {
					machine, count = m, count+1
				}
			}
			if count != 1 {
				continue
			}
			one := single.Decide(s, plan, &rented, machine)
			assert.InDelta(t, one.Band, scene.bands[c], 1e-9*math.Max(1, one.Band), "seed %d, machine %d", seed, machine)
		}
	}
}

func TestOfChoicesThatCostTheSameTheFirstIsTheCheapest(t *testing.T) {
	costing := func(means ...float64) (list []Choice) {
		for _, mean := range means {
			list = append(list, Choice{Cost: chance.Spread{Mean: chance.Estimate{Value: mean}}})
		}
		return list
	}
	assert.Equal(t, 0, cheapest(costing(5, 5, 7)))
	assert.Equal(t, 1, cheapest(costing(6, 5, 5)))
}
