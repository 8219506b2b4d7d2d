package evidence_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track/evidence"
)

// pairs are so many pairs about a factor, off by a step up and down in turn.
func pairs(n int, factor, step float64) evidence.Ratio {
	var r evidence.Ratio
	for i := range n {
		should := float64(10 + i)
		r.Add(should, should*factor+step*float64(1-2*(i%2)))
	}
	return r
}

func TestThreePairsTellAScatterAndTwoDoNot(t *testing.T) {
	_, enough := pairs(2, 1.2, 1).Interval(0.9)
	assert.False(t, enough)
	_, enough = pairs(3, 1.2, 1).Interval(0.9)
	assert.True(t, enough)
	_, enough = evidence.RatiosDiffer(pairs(3, 1.2, 1), pairs(3, 1.5, 1))
	assert.True(t, enough)
	for _, few := range [][2]evidence.Ratio{{pairs(2, 1.2, 1), pairs(9, 1.5, 1)}, {pairs(9, 1.2, 1), pairs(2, 1.5, 1)}} {
		p, enough := evidence.RatiosDiffer(few[0], few[1])
		assert.False(t, enough)
		assert.InDelta(t, 1, p, 0)
	}
}

func TestARatioToNothingTellsNothing(t *testing.T) {
	var nothing evidence.Ratio
	for range 5 {
		nothing.Add(0, 1)
	}
	_, told := nothing.Interval(0.9)
	assert.False(t, told)
	for _, both := range [][2]evidence.Ratio{{nothing, pairs(5, 1, 1)}, {pairs(5, 1, 1), nothing}} {
		p, told := evidence.RatiosDiffer(both[0], both[1])
		assert.False(t, told)
		assert.InDelta(t, 1, p, 0)
	}
}

func TestRatiosWithoutScatterDifferSurelyOrNotAtAll(t *testing.T) {
	p, told := evidence.RatiosDiffer(pairs(4, 1, 0), pairs(4, 1.25, 0))
	assert.True(t, told)
	assert.InDelta(t, 0, p, 0)
	p, told = evidence.RatiosDiffer(pairs(4, 0, 0), pairs(4, 1.25, 0))
	assert.True(t, told)
	assert.InDelta(t, 0, p, 0)
	for _, factor := range []float64{0, 1.25} {
		p, told = evidence.RatiosDiffer(pairs(4, factor, 0), pairs(6, factor, 0))
		assert.True(t, told)
		assert.InDelta(t, 1, p, 0, factor)
	}
}

// Source: B. L. Welch, 1947: t = off/√(a+b) on (a+b)²/(a²/(n−1) + b²/(m−1)) degrees, with
// a and b the squares of the standard errors. The quantile leads back from p to t.
func TestTwoRatiosAreComparedByWelchsDegrees(t *testing.T) {
	one, other := pairs(4, 1.2, 1), pairs(9, 1.3, 0.5)
	p, told := evidence.RatiosDiffer(one, other)
	require.True(t, told)
	a, b := math.Pow(one.Error(), 2), math.Pow(other.Error(), 2)
	degrees := math.Pow(a+b, 2) / (a*a/3 + b*b/8)
	assert.InDelta(t, math.Abs(one.Value()-other.Value())/math.Sqrt(a+b), evidence.Student(degrees, 1-p/2), 1e-6)
}

// Of 10, 20 and 30 that came out as 12, 22 and 36: the ratio is 70/60, what is left of
// each is 1/3, −4/3 and 1, their squares 26/9, and the error √(26/9 · 3/2)/60.
func TestTheErrorOfARatioWorkedByHand(t *testing.T) {
	var r evidence.Ratio
	r.Add(10, 12)
	r.Add(20, 22)
	r.Add(30, 36)
	assert.InDelta(t, 70.0/60, r.Value(), 1e-12)
	assert.InDelta(t, math.Sqrt(26.0/9*3/2)/60, r.Error(), 1e-12)
	interval, ok := r.Interval(0.9)
	require.True(t, ok)
	// Student's t of 2 degrees at 95 % is 2.920.
	assert.InDelta(t, 70.0/60-2.920*r.Error(), interval.Low, 1e-4)
	assert.InDelta(t, 70.0/60+2.920*r.Error(), interval.High, 1e-4)
}

// triples are n with shares of the first part from 20 % on in steps of 6 %, and the
// ratios that they came out at.
func triples(n int) (evidence.Parts, []float64) {
	var p evidence.Parts
	var ratios []float64
	for i := range n {
		a, ratio := 0.2+0.06*float64(i), 1.1+0.05*float64(i*i%5-2)
		p.Add(30*a, 30*(1-a), 30*ratio)
		ratios = append(ratios, ratio)
	}
	return p, ratios
}

func TestTenTriplesTellPartsApartAndNineDoNot(t *testing.T) {
	few, _ := triples(9)
	_, told := few.Fit(0.9)
	assert.False(t, told)
	enough, _ := triples(10)
	_, told = enough.Fit(0.9)
	assert.True(t, told)
	var nothing evidence.Parts
	nothing.Add(0, 0, 5)
	assert.Equal(t, evidence.Parts{}, nothing, "a triple of which nothing should be is left out")
}

// The one factor of parts that are alike is the mean of the ratios, with the interval
// of a mean: Student's t of n − 1 degrees, 1.833 for ten at 90 %.
func TestTheFactorOfPartsThatAreAlikeIsTheMeanOfTheRatios(t *testing.T) {
	p, ratios := triples(10)
	f, ok := p.Fit(0.9)
	require.True(t, ok)
	mean, squares := 0.0, 0.0
	for _, ratio := range ratios {
		mean += ratio / 10
	}
	for _, ratio := range ratios {
		squares += (ratio - mean) * (ratio - mean)
	}
	half := 1.833 * math.Sqrt(squares/9/10)
	assert.InDelta(t, mean, f.Alike, 1e-12)
	assert.InDelta(t, mean-half, f.OfAlike.Low, 1e-4)
	assert.InDelta(t, mean+half, f.OfAlike.High, 1e-4)
}

func TestWithoutOneOfTwoExposuresRatesAreNotToldApart(t *testing.T) {
	assert.InDelta(t, 1, evidence.RatesDiffer(3, 5, 0, 0), 0)
	assert.InDelta(t, 1, evidence.RatesDiffer(0, 0, 3, 5), 0)
	assert.InDelta(t, 1, evidence.RatesDiffer(0, 5, 0, 5), 0)
	assert.InDelta(t, 2*0.1, evidence.RatesDiffer(1, 1, 0, 9), 1e-12, "one, in the tenth part: once in ten times, both ways")
	// Ten against none in the same time: 2 · (1/2)^10.
	assert.InDelta(t, 2.0/1024, evidence.RatesDiffer(10, 1, 0, 1), 1e-12)
	assert.InDelta(t, 2.0/1024, evidence.RatesDiffer(0, 1, 10, 1), 1e-12)
	// One of two in a third of the time: at least one has 1 − (2/3)² = 5/9, so twice is all.
	assert.InDelta(t, 1, evidence.RatesDiffer(1, 1, 1, 2), 0)
}

func TestHolmTellsADifferenceThatIsJustRareEnough(t *testing.T) {
	assert.Equal(t, []bool{true}, evidence.Holm([]float64{0.05}, 0.05))
	assert.Equal(t, []bool{true, true}, evidence.Holm([]float64{0.05, 0.025}, 0.05))
}

func TestTheMedianOfAnOddNumberIsTheMiddleOne(t *testing.T) {
	assert.InDelta(t, 4, evidence.Median([]float64{4}), 0)
	assert.InDelta(t, 2, evidence.Median([]float64{3, 1, 2}), 0)
	assert.InDelta(t, 9, evidence.Median([]float64{100, 9, 1, 2, 50}), 0)
	assert.InDelta(t, 7, evidence.Median([]float64{100, 9, 1, 2, 50, 5}), 0)
}

// Whichever of two steps is the clearer one, the middle between them is one figure.
func TestNeighbouringStepsShareTheMiddleBetweenThem(t *testing.T) {
	for _, levels := range [][3]float64{{100, 105, 112}, {100, 109, 112}, {112, 104, 100}, {112, 109, 100}, {100, 110, 100}} {
		var figures []float64
		for i := range 75 {
			figures = append(figures, levels[i/25]+float64(i%3)*0.1)
		}
		steps := evidence.Steps(figures, 0.01, 0.01)
		require.Len(t, steps, 2, levels)
		for i, step := range steps {
			assert.Equal(t, 25*(i+1), step.At, levels)
			assert.InDelta(t, levels[i]+0.1, step.Before, 1e-9, levels)
			assert.InDelta(t, levels[i+1]+0.1, step.After, 1e-9, levels)
			assert.LessOrEqual(t, step.P, 0.01)
		}
	}
}

// The sums lead to what the residuals lead to: their squares over the degrees left, by
// the inverse of the sums of squares.
func TestTheIntervalsOfPartsFollowFromTheirResiduals(t *testing.T) {
	p, ratios := triples(10)
	f, ok := p.Fit(0.9)
	require.True(t, ok)
	var aa, ab, bb, residuals, onlyWas, only float64
	for i, ratio := range ratios {
		a := 0.2 + 0.06*float64(i)
		aa, ab, bb = aa+a*a, ab+a*(1-a), bb+(1-a)*(1-a)
		residuals += math.Pow(ratio-f.A*a-f.B*(1-a), 2)
		onlyWas += a * (ratio - (1 - a))
	}
	assert.InDelta(t, onlyWas/aa, f.OnlyA, 1e-9)
	for i, ratio := range ratios {
		a := 0.2 + 0.06*float64(i)
		only += math.Pow(ratio-(1-a)-f.OnlyA*a, 2)
	}
	// Student's t of 8 and of 9 degrees at 95 %: 1.860 and 1.833.
	half := 1.860 * math.Sqrt(residuals/8*bb/(aa*bb-ab*ab))
	assert.InDelta(t, f.A-half, f.OfA.Low, 1e-3)
	assert.InDelta(t, f.A+half, f.OfA.High, 1e-3)
	half = 1.860 * math.Sqrt(residuals/8*aa/(aa*bb-ab*ab))
	assert.InDelta(t, f.B-half, f.OfB.Low, 1e-3)
	assert.InDelta(t, f.B+half, f.OfB.High, 1e-3)
	half = 1.833 * math.Sqrt(only/9/aa)
	assert.InDelta(t, f.OnlyA-half, f.OfOnlyA.Low, 1e-3)
	assert.InDelta(t, f.OnlyA+half, f.OfOnlyA.High, 1e-3)
	// Factors that are alike come out so different with the t of their difference.
	off := math.Abs(f.A-f.B) / math.Sqrt(residuals/8*(aa+bb+2*ab)/(aa*bb-ab*ab))
	assert.InDelta(t, off, evidence.Student(8, 1-f.Same/2), 1e-6)
}

func TestAnIntervalHoldsItsEnds(t *testing.T) {
	interval := evidence.Interval{Low: 1, High: 2}
	assert.True(t, interval.Holds(1))
	assert.True(t, interval.Holds(2))
	assert.False(t, interval.Holds(math.Nextafter(1, 0)))
	assert.False(t, interval.Holds(math.Nextafter(2, 3)))
}

// Of a count of 1, 5 % lie above it where 1 − e^−x is 5 %.
func TestARateOfOneCountIsAboveNothing(t *testing.T) {
	assert.InDelta(t, -math.Log(0.95), evidence.Rate(1, 1, 0.9).Low, 1e-9)
	assert.Zero(t, evidence.Rate(0, 1, 0.9).Low)
}

// Of one in twenty, 5 % lie above it where 1 − (1 − x)^20 is 5 %.
func TestAShareOfOneIsAboveNothing(t *testing.T) {
	assert.InDelta(t, 1-math.Pow(0.95, 1.0/20), evidence.Proportion(1, 20, 0.9).Low, 1e-9)
}

func TestAStepOfExactlyItsLeastIsTold(t *testing.T) {
	var figures []float64
	for i := range 40 {
		figures = append(figures, 100+float64(i/20))
	}
	assert.Len(t, evidence.Steps(figures, 0.01, 0.01), 1)
}

func TestAClearStepOfLessThanItsLeastIsNotTold(t *testing.T) {
	var figures []float64
	for i := range 40 {
		figures = append(figures, 100+0.5*float64(i/20)+float64(i%3)*0.01)
	}
	assert.Empty(t, evidence.Steps(figures, 0.01, 0.01))
	assert.Len(t, evidence.Steps(figures, 0.01, 0.004), 1)
}

// At either of two places the figures part cleanly: one in 35 both times.
func TestOfEquallyClearStepsTheWidestIsTold(t *testing.T) {
	rising, falling := []float64{100, 100, 100, 116, 121, 140, 141}, []float64{141, 140, 121, 116, 100, 100, 100}
	steps := evidence.Steps(rising, 0.2, 0.01)
	require.Len(t, steps, 1)
	assert.Equal(t, 4, steps[0].At, "from 100 to 140, and not to 130.5 a place earlier")
	assert.InDelta(t, 4.0/35, steps[0].P, 1e-9, "of 35 ways, two places, both ways")
	steps = evidence.Steps(falling, 0.2, 0.01)
	require.Len(t, steps, 1)
	assert.Equal(t, 3, steps[0].At)
}

func TestSharesOfAUnitTellAsMuchAsUnits(t *testing.T) {
	var small, large, other evidence.Ratio
	for i := range 5 {
		small.Add(0.01, 0.01+0.001*float64(i))
		large.Add(10, 10+float64(i))
		other.Add(0.01, 0.02+0.001*float64(i))
	}
	ofSmall, told := small.Interval(0.9)
	assert.True(t, told)
	ofLarge, _ := large.Interval(0.9)
	assert.InDelta(t, ofLarge.Low, ofSmall.Low, 1e-9)
	assert.InDelta(t, ofLarge.High, ofSmall.High, 1e-9)
	_, told = evidence.RatiosDiffer(small, other)
	assert.True(t, told)
	_, told = evidence.RatiosDiffer(other, small)
	assert.True(t, told)
}

func TestARatioIsNeverBelowNothing(t *testing.T) {
	var wild evidence.Ratio
	for i := range 3 {
		wild.Add(1, float64(9*(i%2)))
	}
	interval, told := wild.Interval(0.9)
	assert.True(t, told)
	assert.Zero(t, interval.Low)
}
