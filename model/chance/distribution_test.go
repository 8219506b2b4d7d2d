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

func ranged(low, value, high float64, shape string) chance.Range {
	return chance.Range{Value: value, Low: low, High: high, Shape: shape, Least: math.Inf(-1), Most: math.Inf(1)}
}

func of(t require.TestingT, r chance.Range) chance.Distribution {
	d, err := chance.NewTables().Of(r)
	require.NoError(t, err)
	return d
}

var probabilities = []float64{.01, .05, .25, .5, .75, .95, .99}

func TestQuantilesAreThoseOfAnotherProgram(t *testing.T) {
	limited := ranged(0, 0.1, 0.2, model.ShapeNormal)
	limited.Least, limited.Most = 0, 1
	rows := []struct {
		is   chance.Range
		want []float64 // scipy.stats 1.10.1: beta, triang, norm, lognorm, truncnorm
		tol  float64   // of the table: two ten-thousandths of the range
	}{
		{ranged(1, 2, 3, ""), []float64{1.2112797, 1.3785108, 1.7188723, 2, 2.2811277, 2.6214892, 2.7887203}, 4e-4},
		{ranged(2, 4, 11, ""), []float64{2.2444987, 2.5985813, 3.5910073, 4.6385328, 5.8889749, 7.738338, 8.8571087}, 18e-4},
		{ranged(0, 0, 1, ""), []float64{.0020080483, .010206218, .055912489, .12944944, .24214172, .45071973, .60189283}, 2e-4},
		{ranged(5, 9, 9, ""), []float64{6.5924287, 7.1971211, 8.0314331, 8.4822023, 8.77635, 8.9591751, 8.9919678}, 8e-4},
		{ranged(.3, .8, 2, ""), []float64{.37228307, .45869134, .67635221, .88925773, 1.1306731, 1.4689742, 1.6633759}, 3.4e-4},
		{ranged(3, 4, 11, model.ShapeTriangular), []float64{3.282842712, 3.632455532, 4.519259302, 5.708497378, 7.258342613, 9.326679947, 10.25166852}, 1e-8},
		{ranged(40, 50, 60, model.ShapeNormal), []float64{35.85680917, 40, 45.89939348, 50, 54.10060652, 60, 64.14319083}, 1e-7},
		{ranged(2, 4, 8, model.ShapeLognormal), []float64{1.500747138, 2, 3.010366935, 4, 5.314966696, 8, 10.66135633}, 1e-7},
		{limited, []float64{.005220459704, .02121312042, .06591167611, .1038123014, .1434304566, .2015040214, .2425981578}, 1e-9},
	}
	for _, row := range rows {
		d := of(t, row.is)
		for i, u := range probabilities {
			assert.InDelta(t, row.want[i], d.Quantile(u), row.tol, "%+v at %v", row.is, u)
		}
	}
}

// moments integrates the quantiles by the midpoint rule.
func moments(d chance.Distribution) (mean, variance float64) {
	const steps = 200_000
	square := 0.0
	for i := range steps {
		x := d.Quantile((float64(i) + 0.5) / steps)
		mean += x / steps
		square += x * x / steps
	}
	return mean, square - mean*mean
}

func TestMeanAndVarianceAreTheClosedForms(t *testing.T) {
	pert := func(a, m, b float64) (mean, variance float64) { // a beta distribution with α + β = 6
		mean = (a + 4*m + b) / 6
		return mean, (mean - a) * (b - mean) / 7
	}
	triangular := func(a, m, b float64) (mean, variance float64) { // published.md, case 63
		return (a + b + m) / 3, (a*a + b*b + m*m - a*b - a*m - b*m) / 18
	}
	z := 1.6448536269514722
	normal := func(a, _, b float64) (mean, variance float64) { return (a + b) / 2, math.Pow((b-a)/2/z, 2) }
	lognormal := func(a, _, b float64) (mean, variance float64) {
		mu, variance := normal(math.Log(a), 0, math.Log(b))
		return math.Exp(mu + variance/2), math.Expm1(variance) * math.Exp(2*mu+variance)
	}
	uniform := func(a, _, b float64) (mean, variance float64) { return (a + b) / 2, (b - a) * (b - a) / 12 }
	rows := []struct {
		low, value, high float64
		shape            string
		form             func(a, m, b float64) (mean, variance float64)
	}{
		// Activities of the eight-activity example of Heizer and Render, Operations
		// Management: means 2, 3, 4, 5 and, for the last, (1 + 8 + 9)/6.
		{1, 2, 3, "", pert}, {2, 3, 4, "", pert}, {1, 4, 7, "", pert}, {3, 4, 11, "", pert}, {1, 2, 9, "", pert},
		{0, 0, 5, "", pert}, {-3, 2, 2, model.ShapePERT, pert},
		{1, 4, 7, model.ShapeTriangular, triangular}, {3, 4, 11, model.ShapeTriangular, triangular}, {2, 4, 6, model.ShapeTriangular, triangular}, {0, 0, 1, model.ShapeTriangular, triangular},
		{2, 3, 7, model.ShapeUniform, uniform},
		{40, 50, 60, model.ShapeNormal, normal},
		{2, 4, 8, model.ShapeLognormal, lognormal},
	}
	for _, row := range rows {
		mean, variance := moments(of(t, ranged(row.low, row.value, row.high, row.shape)))
		wantMean, wantVariance := row.form(row.low, row.value, row.high)
		width := row.high - row.low
		assert.InDelta(t, wantMean, mean, 1e-4*width, "mean of %+v", row)
		assert.InDelta(t, wantVariance, variance, 2e-4*width*width, "variance of %+v", row)
	}
}

func TestATriangularVarianceIsThePublishedOne(t *testing.T) {
	for _, row := range [][5]float64{{1, 4, 7, 4, 1.5}, {3, 4, 11, 6, 3.1667}, {2, 4, 6, 4, 0.6667}} { // published.md, case 63
		mean, variance := moments(of(t, ranged(row[0], row[1], row[2], model.ShapeTriangular)))
		assert.InDelta(t, row[3], mean, 1e-5)
		assert.InDelta(t, row[4], variance, 1e-4)
	}
}

func TestATableOfPERTIsWithinFiveTenThousandthsOfTheRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mode := rapid.Float64Range(0, 1).Draw(t, "mode")
		u := rapid.Float64Range(1e-5, 1-1e-5).Draw(t, "u")
		want := mathext.InvRegIncBeta(1+4*mode, 5-4*mode, u)
		assert.InDelta(t, want, of(t, ranged(0, mode, 1, "")).Quantile(u), 5e-4)
	})
}

func TestQuantilesRiseAndStayWithinTheLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shape := rapid.SampledFrom(model.Shapes).Draw(t, "shape")
		low := rapid.Float64Range(0.1, 50).Draw(t, "low")
		is := ranged(low, 0, low+rapid.Float64Range(0.01, 100).Draw(t, "width"), shape)
		is.Value = is.Low + (is.High-is.Low)*rapid.Float64Range(0, 1).Draw(t, "typical")
		if shape == model.ShapeNormal || shape == model.ShapeLognormal {
			is.Value = chance.Middle(is)
		}
		is.Least = is.Low - rapid.Float64Range(0, 10).Draw(t, "room below")
		is.Most = is.High + rapid.Float64Range(0, 10).Draw(t, "room above")
		d, last := of(t, is), math.Inf(-1)
		for i := range 400 {
			x := d.Quantile((float64(i) + 0.5) / 400)
			assert.GreaterOrEqual(t, x, last)
			assert.True(t, x >= is.Least-1e-9 && x <= is.Most+1e-9, "%v", x)
			last = x
		}
	})
}

func TestLowAndHighOfANormalOrLognormalRangeAreItsTwentieths(t *testing.T) {
	for _, shape := range []string{model.ShapeNormal, model.ShapeLognormal} {
		is := ranged(3, 0, 12, shape)
		is.Value = chance.Middle(is)
		assert.InDelta(t, 3, of(t, is).Quantile(chance.Tails), 1e-9)
		assert.InDelta(t, 12, of(t, is).Quantile(1-chance.Tails), 1e-9)
	}
}

func TestARangeThatItsShapeCannotReadIsRefused(t *testing.T) {
	rows := []struct {
		is   chance.Range
		says string
	}{
		{ranged(1, 5, 3, ""), "does not rise"}, {ranged(2, 2, 2, ""), "does not rise"}, {ranged(math.NaN(), 2, 3, ""), "does not rise"},
		{ranged(0, 2, 4, model.ShapeLognormal), "above zero"}, {ranged(1, 5, 9, model.ShapeLognormal), "middle"}, {ranged(1, 2, 9, model.ShapeNormal), "middle"},
	}
	for _, row := range rows {
		_, err := chance.NewTables().Of(row.is)
		assert.ErrorContains(t, err, row.says)
	}
}

func TestPoissonCountsAreThoseOfAnotherProgram(t *testing.T) {
	rows := map[float64][]float64{ // scipy.stats.poisson.ppf 1.10.1
		.3: {0, 0, 0, 0, 1, 1, 2, 0, 5}, 4: {0, 1, 3, 4, 5, 8, 9, 0, 17},
		31.9: {20, 23, 28, 32, 36, 41, 46, 9, 62}, 32.1: {20, 23, 28, 32, 36, 42, 46, 9, 62},
		250: {214, 224, 239, 250, 261, 276, 288, 179, 329}, 9999.5: {9768, 9835, 9932, 9999, 10067, 10164, 10233, 9528, 10478},
	}
	for mean, want := range rows {
		for i, u := range append(append([]float64{}, probabilities...), 1e-6, 1-1e-6) {
			assert.Equal(t, want[i], chance.Poisson(mean, u), "mean %v at %v", mean, u)
		}
	}
	for _, none := range []float64{0, -1, math.NaN()} {
		assert.Zero(t, chance.Poisson(none, 0.5))
	}
}

type poisson float64

func (mean poisson) Quantile(u float64) float64 { return chance.Poisson(float64(mean), u) }

func TestAPoissonCountHasItsMeanAsVariance(t *testing.T) {
	for _, want := range []float64{0.2, 1, 7.5, 31, 33, 400, 3e6} {
		mean, variance := moments(poisson(want))
		assert.InEpsilon(t, want, mean, 1e-4)
		assert.InEpsilon(t, want, variance, 1e-3, "mean %v", want)
	}
}
