package evidence_test

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/decision/track/evidence"
	"shopstint/model/published"
)

func TestEveryFormulaNamesItsSource(t *testing.T) {
	missing, err := published.Unsourced(os.DirFS("."))
	require.NoError(t, err)
	assert.Empty(t, missing)
}

// Source: M. Abramowitz and I. A. Stegun, table 26.10 (from memory).
func TestStudentAgreesWithTheTable(t *testing.T) {
	for degrees, want := range map[float64]float64{1: 6.314, 2: 2.920, 5: 2.015, 10: 1.812, 30: 1.697, 120: 1.658} {
		assert.InDelta(t, want, evidence.Student(degrees, 0.95), 5e-4)
		assert.InDelta(t, -want, evidence.Student(degrees, 0.05), 5e-4)
	}
	assert.Zero(t, evidence.Student(7, 0.5))
}

// Source: the exact limits of 0 of n are 1 − (α/2)^(1/n); C. J. Clopper and E. S.
// Pearson's limits for 10 of 100 at 95 % are 0.0490 and 0.1762 (from memory).
func TestSharesHaveTheirExactLimits(t *testing.T) {
	none := evidence.Proportion(0, 20, 0.9)
	assert.Zero(t, none.Low)
	assert.InDelta(t, 1-math.Pow(0.05, 1/20.0), none.High, 1e-9)
	ten := evidence.Proportion(10, 100, 0.95)
	assert.InDelta(t, 0.0490, ten.Low, 5e-5)
	assert.InDelta(t, 0.1762, ten.High, 5e-5)
	assert.InDelta(t, 1, evidence.Proportion(5, 5, 0.9).High, 0)
}

// Source: F. Garwood, 1936: of a count of 10 at 95 %, 4.795 and 18.39 (from memory).
func TestRatesHaveTheirExactLimits(t *testing.T) {
	ten := evidence.Rate(10, 2, 0.95)
	assert.InDelta(t, 4.795/2, ten.Low, 5e-4)
	assert.InDelta(t, 18.39/2, ten.High, 5e-3)
	assert.InDelta(t, math.Log(20), evidence.Rate(0, 1, 0.9).High, 1e-9)
}

// Source: R. A. Fisher's tea: of four cups and four all told rightly, one in 70 either
// way (The Design of Experiments, 1935; from memory).
func TestFishersTea(t *testing.T) {
	assert.InDelta(t, 2.0/70, evidence.SharesDiffer(4, 4, 0, 4), 1e-12)
	assert.InDelta(t, 2*17.0/70, evidence.SharesDiffer(3, 4, 1, 4), 1e-12)
	assert.InDelta(t, 1, evidence.SharesDiffer(2, 4, 2, 4), 0)
}

func TestExactTestsTellDifferencesWronglyNoOftenerThanTheySay(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2026))
	const runs = 2000
	rates, shares, ratios := 0, 0, 0
	for range runs {
		var counts [2]float64
		for i := range counts {
			for at := random.ExpFloat64() / 20; at < 1; at += random.ExpFloat64() / 20 {
				counts[i]++
			}
		}
		rates += yes(evidence.RatesDiffer(counts[0], 1, counts[1], 1) <= 0.05)
		var hits [2]float64
		for i := range hits {
			for range 40 {
				hits[i] += float64(yes(random.Float64() < 0.25))
			}
		}
		shares += yes(evidence.SharesDiffer(hits[0], 40, hits[1], 40) <= 0.05)
		var pairs [2]evidence.Ratio
		for i := range pairs {
			for range 12 {
				should := 10 + 40*random.Float64()
				pairs[i].Add(should, should*1.1*math.Exp(0.2*random.NormFloat64()))
			}
		}
		p, ok := evidence.RatiosDiffer(pairs[0], pairs[1])
		require.True(t, ok)
		ratios += yes(p <= 0.05)
	}
	most := int(runs * (0.05 + 3*math.Sqrt(0.05*0.95/runs)))
	assert.LessOrEqual(t, rates, most)
	assert.LessOrEqual(t, shares, most)
	assert.LessOrEqual(t, ratios, most)
	assert.Greater(t, min(rates, shares, ratios), runs/200, "a test that tells nothing is none")
}

func TestARatioCoversTheTruthNineTimesInTen(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 2026))
	const runs = 2000
	covered := 0
	for range runs {
		var r evidence.Ratio
		for range 15 {
			should := 10 + 40*random.Float64()
			r.Add(should, should*1.2*(1+0.15*random.NormFloat64()))
		}
		interval, ok := r.Interval(0.9)
		require.True(t, ok)
		covered += yes(interval.Holds(1.2))
	}
	assert.InDelta(t, 0.9, float64(covered)/runs, 3*math.Sqrt(0.09/runs)+0.01, "an approximation, good to a per cent")
}

func TestPartsAreToldApartAndCoverTheTruth(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 2026))
	const runs = 1000
	a, b, same, only := 0, 0, 0, 0
	for range runs {
		var different, alike evidence.Parts
		for range 40 {
			cut, handling := 5+30*random.Float64(), 5+10*random.Float64()
			noise := 1 + 0.1*random.NormFloat64()
			different.Add(cut, handling, (1.3*cut+handling)*noise)
			alike.Add(cut, handling, 1.2*(cut+handling)*noise)
		}
		f, ok := different.Fit(0.9)
		require.True(t, ok)
		a += yes(f.OfA.Holds(1.3))
		only += yes(f.OfOnlyA.Holds(1.3))
		b += yes(f.OfB.Holds(1))
		g, ok := alike.Fit(0.9)
		require.True(t, ok)
		same += yes(g.Same <= 0.05)
	}
	near := 3*math.Sqrt(0.09/runs) + 0.01
	assert.InDelta(t, 0.9, float64(a)/runs, near)
	assert.InDelta(t, 0.9, float64(b)/runs, near)
	assert.InDelta(t, 0.9, float64(only)/runs, near)
	assert.InDelta(t, 0.05, float64(same)/runs, 3*math.Sqrt(0.0475/runs)+0.01)
}

func TestPartsWithoutScatterGiveTheirFactorsBack(t *testing.T) {
	var p evidence.Parts
	for i := range 12 {
		cut, handling := float64(10+i), float64(20-i)
		p.Add(cut, handling, 1.5*cut+0.8*handling)
	}
	f, ok := p.Fit(0.9)
	require.True(t, ok)
	assert.InDelta(t, 1.5, f.A, 1e-9)
	assert.InDelta(t, 0.8, f.B, 1e-9)
	assert.Less(t, f.Same, 1e-6)
}

func TestPartsInTheSameSharesAreNotToldApart(t *testing.T) {
	var p evidence.Parts
	for i := range 50 {
		p.Add(float64(10+i), float64(20+2*i), 40)
	}
	_, ok := p.Fit(0.9)
	assert.False(t, ok)
}

func TestAStepIsFoundWhereItIs(t *testing.T) {
	figures := []float64{100, 100, 100.2, 99.9, 100, 131, 100, 100, 100, 100.1, 100, 100, 112, 112, 112.1, 111.9, 112, 112}
	steps := evidence.Steps(figures, 0.01, 0.01)
	require.Len(t, steps, 1)
	assert.Equal(t, 12, steps[0].At)
	assert.InDelta(t, 100, steps[0].Before, 0.1)
	assert.InDelta(t, 112, steps[0].After, 0.1)
}

func TestTwoStepsAreFoundAndTheirMiddlesAgree(t *testing.T) {
	var figures []float64
	for i := range 60 {
		figures = append(figures, []float64{100, 105, 112}[i/20]+float64(i%3)*0.1)
	}
	steps := evidence.Steps(figures, 0.01, 0.01)
	require.Len(t, steps, 2)
	assert.Equal(t, 20, steps[0].At)
	assert.Equal(t, 40, steps[1].At)
	assert.InDelta(t, steps[0].After, steps[1].Before, 1e-9)
}

func TestOneFigureFarOffIsNoStep(t *testing.T) {
	figures := make([]float64, 30)
	for i := range figures {
		figures[i] = 100 + float64(i%4)*0.01
	}
	figures[27], figures[28] = 180, 170
	assert.Empty(t, evidence.Steps(figures, 0.01, 0.01))
}

func TestStepsAreToldWronglyNoOftenerThanTheySay(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 2026))
	const runs = 1500
	for _, n := range []int{12, 40, 90} {
		wrong := 0
		for range runs {
			figures := make([]float64, n)
			for i := range figures {
				figures[i] = 100 * math.Exp(0.1*random.NormFloat64())
			}
			wrong += yes(len(evidence.Steps(figures, 0.05, 0.01)) > 0)
		}
		assert.LessOrEqual(t, wrong, int(runs*(0.05+3*math.Sqrt(0.0475/runs))), "%d figures", n)
		t.Logf("%d figures: %d of %d", n, wrong, runs)
	}
}

func TestHolmNeverTellsMoreThanEachByItself(t *testing.T) {
	assert.Equal(t, []bool{true, false, true, false}, evidence.Holm([]float64{0.01, 0.04, 0.001, 0.9}, 0.05))
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SliceOf(rapid.Float64Range(0, 1)).Draw(t, "p")
		for i, told := range evidence.Holm(p, 0.05) {
			if told {
				assert.LessOrEqual(t, p[i], 0.05)
			}
			if p[i] <= 0.05/float64(len(p)) {
				assert.True(t, told)
			}
		}
	})
}

func TestSumsOfPairsAddUp(t *testing.T) {
	var all, one, other evidence.Ratio
	for i := range 20 {
		should, was := float64(i+1), float64(2*i+3)
		all.Add(should, was)
		if i%2 == 0 {
			one.Add(should, was)
		} else {
			other.Add(should, was)
		}
	}
	assert.Equal(t, all, one.Plus(other))
	assert.True(t, math.IsNaN(evidence.Median(nil)))
	assert.InDelta(t, 2.5, evidence.Median([]float64{4, 1, 3, 2}), 0)
}

func yes(told bool) int {
	if told {
		return 1
	}
	return 0
}
