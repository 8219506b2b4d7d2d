// Package evidence says what counts and measured figures tell and how surely: ratios
// of what was to what should be, shares, rates, and whether two of them differ by more
// than chance. It takes and gives plain numbers.
package evidence

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mathext"
)

// Interval is from low to high, with the confidence asked for.
type Interval struct{ Low, High float64 }

// Holds tells whether x is in the interval.
//
// Source: by definition.
func (i Interval) Holds(x float64) bool { return x >= i.Low && x <= i.High }

// Student returns the value below which Student's t with so many degrees of freedom
// (above 0) stays with probability p (0 < p < 1).
//
// Source: M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 1964,
// 26.7.1 with 26.5.27.
func Student(degrees, p float64) float64 {
	if p == 0.5 {
		return 0
	}
	x := mathext.InvRegIncBeta(degrees/2, 0.5, 2*min(p, 1-p))
	return math.Copysign(math.Sqrt(degrees*(1-x)/x), p-0.5)
}

// beyond returns the probability that |t| is greater.
func beyond(t, degrees float64) float64 {
	if math.IsInf(t, 0) {
		return 0
	}
	return mathext.RegIncBeta(degrees/2, 0.5, degrees/(degrees+t*t))
}

// Proportion returns the interval of a share of which k of n were seen, 0 ≤ k ≤ n,
// n > 0. It covers the true share at least as often as the level says.
//
// Source: C. J. Clopper and E. S. Pearson, The Use of Confidence or Fiducial Limits
// Illustrated in the Case of the Binomial, Biometrika 26, 1934.
func Proportion(k, n, level float64) Interval {
	doubt, interval := (1-level)/2, Interval{0, 1}
	if k > 0 {
		interval.Low = mathext.InvRegIncBeta(k, n-k+1, doubt)
	}
	if k < n {
		interval.High = mathext.InvRegIncBeta(k+1, n-k, 1-doubt)
	}
	return interval
}

// Rate returns the interval of a rate at which so many were counted in an exposure
// above 0, per unit of the exposure. It covers the true rate at least as often as the
// level says, where counts come by chance at a steady rate.
//
// Source: F. Garwood, Fiducial Limits for the Poisson Distribution, Biometrika 28, 1936.
func Rate(count, exposure, level float64) Interval {
	doubt, interval := (1-level)/2, Interval{}
	if count > 0 {
		interval.Low = mathext.GammaIncRegInv(count, doubt) / exposure
	}
	interval.High = mathext.GammaIncRegInv(count+1, 1-doubt) / exposure
	return interval
}

// RatesDiffer returns the probability that two steady rates that are alike give counts
// as different as these, both ways.
//
// Source: J. Przyborowski and H. Wilenski, Homogeneity of Results in Testing Samples
// from Poisson Series, Biometrika 31, 1940: given their sum, the counts are binomial.
func RatesDiffer(countA, exposureA, countB, exposureB float64) float64 {
	n, share := countA+countB, exposureA/(exposureA+exposureB)
	if n == 0 || share <= 0 || share >= 1 {
		return 1
	}
	atLeast, atMost := 1.0, 1.0
	if countA > 0 {
		atLeast = mathext.RegIncBeta(countA, n-countA+1, share)
	}
	if countA < n {
		atMost = 1 - mathext.RegIncBeta(countA+1, n-countA, share)
	}
	return min(1, 2*min(atLeast, atMost))
}

// SharesDiffer returns the probability that two shares that are alike give counts as
// different as these, both ways: k of n, whole numbers.
//
// Source: R. A. Fisher, Statistical Methods for Research Workers, 1934, section 21.02
// (the exact test); twice the lesser tail.
func SharesDiffer(kA, nA, kB, nB float64) float64 {
	low := tail(kA, nA, kB, nB)
	high := tail(nA-kA, nA, nB-kB, nB)
	return min(1, 2*min(low, high))
}

// tail returns the probability of k or more in the first of two draws, when so many are
// in both together and all draws are alike.
func tail(kA, nA, kB, nB float64) float64 {
	k, n := kA+kB, nA+nB
	all, sum := choose(n, k), 0.0
	for x := kA; x <= min(nA, k); x++ {
		if k-x <= nB {
			sum += math.Exp(choose(nA, x) + choose(nB, k-x) - all)
		}
	}
	return sum
}

// choose returns the logarithm of how many ways there are to choose k of n.
func choose(n, k float64) float64 {
	a, _ := math.Lgamma(n + 1)
	b, _ := math.Lgamma(k + 1)
	c, _ := math.Lgamma(n - k + 1)
	return a - b - c
}

// Holm tells which of several differences are more than chance when they are looked
// at together: the chance that any is told wrongly is at most alpha.
//
// Source: S. Holm, A Simple Sequentially Rejective Multiple Test Procedure,
// Scandinavian Journal of Statistics 6, 1979.
func Holm(p []float64, alpha float64) []bool {
	order := make([]int, len(p))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(p[a], p[b]) })
	told := make([]bool, len(p))
	for rank, at := range order {
		if !(p[at] <= alpha/float64(len(p)-rank)) {
			break
		}
		told[at] = true
	}
	return told
}
