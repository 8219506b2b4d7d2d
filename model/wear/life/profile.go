package life

import "math"

// The intervals below are the values that the lives do not speak against: those for
// which the best likelihood, the other figure free, falls short of the greatest one
// by no more than chance. They rest on many ended lives and are a little too narrow
// for a handful. A side without an end within a factor of a thousand million is
// open: zero or +Inf.

// ShapeInterval returns the interval of the shape.
//
// Source: W. Q. Meeker and L. A. Escobar, Statistical Methods for Reliability Data,
// 1998, section 8.2 (profile likelihood; from memory).
func (w Weibull) ShapeInterval(level float64) Interval {
	return w.interval(w.Shape, level, func(shape float64) float64 {
		_, likelihood := w.sample.bestScale(shape)
		return likelihood
	})
}

// ScaleInterval returns the interval of the scale, the run that 37 % outlast.
//
// Source: as of ShapeInterval.
func (w Weibull) ScaleInterval(level float64) Interval {
	return w.interval(w.Scale, level, func(scale float64) float64 {
		return w.best(func(float64) float64 { return math.Log(scale) })
	})
}

// MeanInterval returns the interval of the mean life.
//
// Source: as of ShapeInterval.
func (w Weibull) MeanInterval(level float64) Interval {
	return w.interval(w.Mean(), level, func(mean float64) float64 {
		return w.best(func(shape float64) float64 { return math.Log(mean) - logGamma(1+1/shape) })
	})
}

func logGamma(x float64) float64 {
	log, _ := math.Lgamma(x)
	return log
}

// best returns the greatest log-likelihood over all shapes when the scale follows the
// shape: a look from the fitted shape outwards, then the golden section.
func (w Weibull) best(logScale func(shape float64) float64) float64 {
	at := func(logShape float64) float64 {
		shape := math.Exp(logShape)
		powers, _ := w.sample.powers(shape)
		return w.sample.likelihood(shape, logScale(shape), powers)
	}
	const stride = 0.25
	middle := math.Log(w.Shape)
	top := at(middle)
	for _, step := range []float64{-stride, stride} {
		for next := at(middle + step); next > top && inside(middle+step); next = at(middle + step) {
			middle, top = middle+step, next
		}
	}
	return golden(at, middle-stride, middle+stride)
}

func inside(logShape float64) bool {
	return logShape > math.Log(leastShape) && logShape < math.Log(mostShape)
}

// golden returns the greatest value of a function with one summit between two points.
func golden(f func(float64) float64, low, high float64) float64 {
	const section = 0.6180339887498949
	left, right := high-section*(high-low), low+section*(high-low)
	atLeft, atRight := f(left), f(right)
	for range 18 { // the square of the width that is left is far below what a likelihood can show
		if atLeft < atRight {
			low, left, atLeft = left, right, atRight
			right = low + section*(high-low)
			atRight = f(right)
		} else {
			high, right, atRight = right, left, atLeft
			left = high - section*(high-low)
			atLeft = f(left)
		}
	}
	return max(atLeft, atRight)
}

// nearEnd is how near the end of an interval is found, as a share of its logarithm.
const nearEnd = 1e-8

// widest is how far from the estimate an end of an interval is looked for.
const widest = 1e9

// interval finds both ends at which a profile has fallen by half a quantile of
// chi-square with one degree of freedom.
func (w Weibull) interval(estimate, level float64, profile func(float64) float64) Interval {
	least := w.LogLikelihood - chiSquare(1, level)/2
	end := func(factor float64) float64 {
		inner, outer := math.Log(estimate), math.Log(estimate*factor)
		for profile(math.Exp(outer)) > least {
			factor *= factor
			if factor > widest || factor < 1/widest {
				return math.Inf(1) // none; of the low end that means zero, see below
			}
			inner, outer = outer, math.Log(estimate*factor)
		}
		cross := func(log float64) float64 { return profile(math.Exp(log)) - least }
		if outer > inner {
			return math.Exp(between(func(log float64) float64 { return -cross(log) }, inner, outer, nearEnd))
		}
		return math.Exp(between(cross, outer, inner, nearEnd))
	}
	low := end(1 / 1.3)
	if math.IsInf(low, 0) {
		low = 0
	}
	return Interval{low, end(1.3)}
}
