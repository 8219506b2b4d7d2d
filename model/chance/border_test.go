package chance_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mathext"
	"pgregory.net/rapid"

	"shopstint/model"
	"shopstint/model/chance"
)

func TestAValueMayBeATwentiethOfTheRangeOffTheMiddle(t *testing.T) {
	for _, shape := range []string{model.ShapeNormal, model.ShapeLognormal} {
		is := ranged(10, 0, 20, shape)
		middle := chance.Middle(is)
		for _, side := range []float64{-1, 1} {
			is.Value = middle + side*0.49
			assert.Empty(t, chance.Fault(is), "%s at %v", shape, is.Value)
			is.Value = middle + side*0.51
			assert.NotEmpty(t, chance.Fault(is), "%s at %v", shape, is.Value)
		}
	}
}

// A normal distribution cut off in its middle is half of it, and a half's median is
// the quarter of the whole. Source: by definition.
func TestARangeWithALimitOnOneSideIsCutOffThere(t *testing.T) {
	quarter := (60 - 40) / 2 / 1.6448536269514722 * 0.6744897501960817 // Φ⁻¹(3/4)
	is := ranged(40, 50, 60, model.ShapeNormal)
	is.Most = 50
	assert.InDelta(t, 50-quarter, of(t, is).Quantile(0.5), 1e-9)
	is.Least, is.Most = 50, math.Inf(1)
	assert.InDelta(t, 50+quarter, of(t, is).Quantile(0.5), 1e-9)

	is = ranged(2, 4, 8, model.ShapeLognormal)
	free := of(t, is).Quantile(0.3)
	is.Least = 0
	assert.InDelta(t, free, of(t, is).Quantile(0.3), 1e-12, "all of it is above zero")
	is.Least = 4
	assert.InDelta(t, 4*math.Pow(2, 0.6744897501960817/1.6448536269514722), of(t, is).Quantile(0.5), 1e-9)
}

func TestMeansOfOneBlockTwoBlocksAndAPart(t *testing.T) {
	alternate := make([]float64, chance.PerBlock)
	for i := range alternate {
		alternate[i] = float64(i % 2)
	}
	assert.InDelta(t, math.Sqrt(0.25/63), chance.MeanOf(alternate, 0.5).Error, 1e-12, "one block: 64 values that count as independent")
	two := make([]float64, 2*chance.PerBlock)
	for i := range chance.PerBlock {
		two[i] = 1
	}
	assert.InDelta(t, 0.5, chance.MeanOf(two, 0).Error, 1e-12, "two blocks, of 1 and of 0")
	part := chance.MeanOf(two[:chance.PerBlock+1], 0)
	assert.InDelta(t, 0.5, part.Value, 1e-12, "a part of a block counts as one")
	assert.InDelta(t, 0.5, part.Error, 1e-12)
	assert.Equal(t, chance.Estimate{Value: 3}, chance.MeanOf([]float64{3}, 3), "of one value nothing is known of the error")
}

// Every figure is worked out beside its line. Source: the formulas that the doc
// comments name.
func TestASpreadOfFourValuesWorkedByHand(t *testing.T) {
	spread := chance.SpreadOf([]float64{0, 0, 0, 4}, 0)
	assert.InDelta(t, 1, spread.Mean.Value, 1e-12)
	// Squares 1, 1, 1, 9: mean 3, variance 12, its error √(12 ÷ 3) = 2; that of the root 2 ÷ 2√3.
	assert.InDelta(t, math.Sqrt(3), spread.Deviation.Value, 1e-12)
	assert.InDelta(t, 1/math.Sqrt(3), spread.Deviation.Error, 1e-12)
	assert.Equal(t, chance.Estimate{}, chance.SpreadOf([]float64{2, 2}, 2).Deviation, "nothing scatters")
}

func TestPercentilesOfTenValuesWorkedByHand(t *testing.T) {
	ten := []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}
	for _, row := range []struct{ share, value, error float64 }{
		{0.5, 5, 1.5},  // rank 5 ± √2.5 = 1.58: from 3 to 6
		{0.05, 0, 0.5}, // rank 0.5 ± 0.69: from 0, below which there is none, to 1
		{0.95, 9, 0.5}, // rank 9.5 ± 0.69: from 8 to 9
	} {
		assert.Equal(t, chance.Estimate{Value: row.value, Error: row.error}, chance.Percentile(ten, row.share), "%v", row.share)
	}
}

func TestASpreadTellsFiveShares(t *testing.T) {
	assert.Equal(t, [5]float64{0.05, 0.25, 0.5, 0.75, 0.95}, chance.Shares())
}

// Source: rule of succession of P. S. Laplace, (successes + 1) ÷ (draws + 2).
func TestAShareThatNeverOrAlwaysIsHasAnError(t *testing.T) {
	for _, all := range []float64{0, 1} {
		share := chance.ShareOf([]float64{all, all, all, all, all, all, all, all})
		assert.InDelta(t, all, share.Value, 0)
		assert.InDelta(t, math.Sqrt(0.1*0.9/8), share.Error, 1e-12)
	}
	assert.Equal(t, chance.MeanOf([]float64{0, 1, 1}, 0), chance.ShareOf([]float64{0, 1, 1}))
}

func TestACountIsFiniteUpToTheLastProbability(t *testing.T) {
	last := math.Nextafter(1, 0)
	for _, mean := range []float64{1e-12, 0.5, 31, 33, 700, 1e5, 2e6} {
		count := chance.Poisson(mean, last)
		assert.LessOrEqual(t, count, mean+20+12*math.Sqrt(mean), "mean %v", mean)
	}
}

func TestPerfectCorrelationsThatContradictEachOtherAreRefused(t *testing.T) {
	tied := func(last float64) error {
		_, err := chance.NewCopula([]chance.Correlation{{A: 7, B: 3, Rho: 1}, {A: 3, B: 5, Rho: -1}, {A: 7, B: 5, Rho: last}})
		return err
	}
	require.NoError(t, tied(-1))
	var contradiction *chance.Contradiction
	require.ErrorAs(t, tied(-0.9), &contradiction)
	assert.Equal(t, 5, contradiction.Figure, "the figure, and not its place in the list")
	assert.ErrorContains(t, contradiction, "at figure 5")
}

// Source: by definition, the probability of a count from the incomplete gamma function.
func TestACountIsTheLeastWhoseProbabilityReachesTheDraw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mean := math.Exp(rapid.Float64Range(math.Log(0.1), math.Log(1e5)).Draw(t, "ln mean"))
		u := math.Exp(-rapid.Float64Range(0.001, 30).Draw(t, "−ln of the draw"))
		if rapid.Bool().Draw(t, "the other tail") {
			u = 1 - u
		}
		count := chance.Poisson(mean, u)
		assert.GreaterOrEqual(t, mathext.GammaIncRegComp(count+1, mean), u*(1-1e-9))
		if count > 0 {
			assert.Less(t, mathext.GammaIncRegComp(count, mean), u*(1+1e-9)+1e-15)
		}
	})
}

func TestTheOutermostCellsOfPERTBendAsItsEndsDo(t *testing.T) {
	for _, mode := range []float64{0.02, 0.1, 0.2, 0.8, 0.9, 0.98} {
		for _, part := range []float64{0.2, 0.5, 0.8} {
			x := part / 64 // of the first cell, or the last, whichever the hill stands by
			if mode > 0.5 {
				x = 1 - x
			}
			u := mathext.RegIncBeta(1+4*mode, 5-4*mode, x)
			assert.InDelta(t, x, of(t, ranged(0, mode, 1, "")).Quantile(u), 5e-4, "mode %v", mode)
		}
	}
}
