package chance_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/model/chance"
)

func TestAMeanHasTheErrorThatItsBlocksShow(t *testing.T) {
	assert.Equal(t, 0.1, chance.MeanOf([]float64{0.1, 0.1, 0.1}, 0.1).Value, "equal values have themselves as mean")
	values := make([]float64, 4*chance.PerBlock)
	for i := range values {
		values[i] = float64(i / chance.PerBlock) // blocks of 0, 1, 2, 3
	}
	got := chance.MeanOf(values, 1)
	assert.InDelta(t, 1.5, got.Value, 1e-12)
	assert.InDelta(t, math.Sqrt(5.0/3/4), got.Error, 1e-12, "standard deviation of 0, 1, 2, 3 over the root of 4")
	assert.InDelta(t, math.Sqrt(0.25/3), chance.MeanOf([]float64{0, 1, 0, 1}, 0).Error, 1e-12, "values of one block count as independent")
}

func TestSpreadsOfANormalSampleAreItsClosedForms(t *testing.T) {
	const mean, deviation, blocks = 1000, 250, 64
	values := make([]float64, blocks*chance.PerBlock)
	draws := [][]float64{make([]float64, chance.PerBlock)}
	for b := range blocks {
		chance.Latin(seeded(uint64(b)), nil, draws)
		for i, u := range draws[0] {
			values[b*chance.PerBlock+i] = mean + deviation*chance.Score(u)
		}
	}
	spread := chance.SpreadOf(values, mean)
	assert.InDelta(t, mean, spread.Mean.Value, 4*spread.Mean.Error)
	assert.Less(t, spread.Mean.Error, deviation/math.Sqrt(blocks*chance.PerBlock)/4, "strata make the mean far better than independent draws")
	assert.InDelta(t, deviation, spread.Deviation.Value, 4*spread.Deviation.Error)
	for i, share := range chance.Shares() {
		got := spread.Percentiles[i]
		assert.InDelta(t, mean+deviation*chance.Score(share), got.Value, 4*got.Error, "percentile %v", share)
		assert.InDelta(t, math.Sqrt(share*(1-share)/float64(len(values)))*deviation*math.Sqrt(2*math.Pi)*math.Exp(chance.Score(share)*chance.Score(share)/2),
			got.Error, 0.5*got.Error, "the error of percentile %v is near that of theory", share)
	}
}
