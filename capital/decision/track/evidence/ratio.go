package evidence

import "math"

// Ratio sums pairs of what should be and what was. The zero value has none.
type Ratio struct{ N, Should, Was, shouldSquared, both, wasSquared float64 }

// Add adds one pair.
//
// Source: by definition.
func (r *Ratio) Add(should, was float64) {
	r.N++
	r.Should += should
	r.Was += was
	r.shouldSquared += should * should
	r.both += should * was
	r.wasSquared += was * was
}

// Plus returns the pairs of both.
//
// Source: by definition.
func (r Ratio) Plus(other Ratio) Ratio {
	return Ratio{
		r.N + other.N, r.Should + other.Should, r.Was + other.Was,
		r.shouldSquared + other.shouldSquared, r.both + other.both, r.wasSquared + other.wasSquared,
	}
}

// Value returns what was for each unit of what should be; NaN without pairs.
//
// Source: by definition.
func (r Ratio) Value() float64 { return r.Was / r.Should }

// Error returns the standard error of Value, for two pairs or more.
//
// Source: W. G. Cochran, Sampling Techniques, 3rd edition, 1977, section 6.4 (ratio
// estimate of a large population).
func (r Ratio) Error() float64 {
	value := r.Value()
	off := max(0, r.wasSquared-2*value*r.both+value*value*r.shouldSquared)
	return math.Sqrt(off*r.N/(r.N-1)) / r.Should
}

// leastPairs is how few pairs tell a scatter.
const leastPairs = 3

// Interval returns the interval of Value, and whether there are pairs enough for one.
//
// Source: as of Error, with Student's t.
func (r Ratio) Interval(level float64) (Interval, bool) {
	if r.N < leastPairs || !(r.Should > 0) {
		return Interval{}, false
	}
	half := Student(r.N-1, (1+level)/2) * r.Error()
	return Interval{max(0, r.Value()-half), r.Value() + half}, true
}

// RatiosDiffer returns the probability that two ratios that are alike come out as
// different as these, both ways, and whether there are pairs enough on both sides.
//
// Source: B. L. Welch, The Generalization of Student's Problem when Several Different
// Population Variances are Involved, Biometrika 34, 1947.
func RatiosDiffer(a, b Ratio) (float64, bool) {
	if a.N < leastPairs || b.N < leastPairs || !(a.Should > 0) || !(b.Should > 0) {
		return 1, false
	}
	errorA, errorB := a.Error()*a.Error(), b.Error()*b.Error()
	off := math.Abs(a.Value() - b.Value())
	if errorA+errorB <= 0 {
		if off <= exact*math.Abs(a.Value()) {
			return 1, true
		}
		return 0, true
	}
	degrees := (errorA + errorB) * (errorA + errorB) / (errorA*errorA/(a.N-1) + errorB*errorB/(b.N-1))
	return beyond(off/math.Sqrt(errorA+errorB), degrees), true
}

// exact is how near two figures without any scatter are the same.
const exact = 1e-9
