package life

import "math"

// Weibull is a distribution of lives that share exp(−(run/Scale)^Shape) outlasts. A
// shape of 1 is sudden damage at any time, over 1 wear.
type Weibull struct {
	Shape, Scale  float64
	LogLikelihood float64 // of the lives it was fitted to

	sample sample
}

// Fit returns the Weibull distribution of the greatest likelihood. The error is
// ErrNoEnd or ErrNoSpread.
//
// Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 8.4.1.2;
// A. C. Cohen, Maximum Likelihood Estimation in the Weibull Distribution Based on
// Complete and on Censored Samples, Technometrics 7, 1965.
func Fit(lives []Observation) (Weibull, error) {
	s := sampleOf(lives)
	switch {
	case s.ended == 0:
		return Weibull{}, ErrNoEnd
	case s.lastEnded:
		return Weibull{}, ErrNoSpread
	}
	shape := rising(func(shape float64) float64 {
		_, mean := s.powers(shape)
		return mean - 1/shape - s.endedLogs/s.ended
	}, 1)
	w := Weibull{Shape: shape, sample: s}
	w.Scale, w.LogLikelihood = s.bestScale(shape)
	return w, nil
}

// bestScale returns the scale that suits a shape best, and the log-likelihood of both.
func (s *sample) bestScale(shape float64) (scale, likelihood float64) {
	powers, _ := s.powers(shape)
	logScale := (powers - math.Log(s.ended)) / shape
	return math.Exp(logScale), s.likelihood(shape, logScale, powers)
}

// Mean returns the mean life.
//
// Source: NIST/SEMATECH e-Handbook, section 8.1.6.2: Scale·Γ(1 + 1/Shape).
func (w Weibull) Mean() float64 { return w.Scale * math.Gamma(1+1/w.Shape) }

// SD returns the standard deviation of a life.
//
// Source: NIST/SEMATECH e-Handbook, section 8.1.6.2.
func (w Weibull) SD() float64 { return w.Mean() * Variation(w.Shape) }

// AIC returns Akaike's criterion; of two fits the lesser one is to be preferred.
//
// Source: H. Akaike, A New Look at the Statistical Model Identification, IEEE
// Transactions on Automatic Control 19, 1974: 2 × parameters − 2 × log-likelihood.
func (w Weibull) AIC() float64 { return 2*2 - 2*w.LogLikelihood }

// Survival returns the share of lives that outlast a run.
//
// Source: by definition.
func (w Weibull) Survival(run float64) float64 { return math.Exp(-math.Pow(run/w.Scale, w.Shape)) }

// Variation returns the coefficient of variation (standard deviation ÷ mean) of a
// Weibull distribution of that shape.
//
// Source: NIST/SEMATECH e-Handbook, section 8.1.6.2.
func Variation(shape float64) float64 {
	first, _ := math.Lgamma(1 + 1/shape)
	second, _ := math.Lgamma(1 + 2/shape)
	return math.Sqrt(math.Expm1(second - 2*first))
}

// ShapeOf returns the shape of a Weibull distribution with that coefficient of
// variation, which is above 0.
//
// Source: Variation, turned round.
func ShapeOf(variation float64) float64 {
	return rising(func(shape float64) float64 { return variation - Variation(shape) }, 1/variation)
}

// Bounds of shapes that are looked at: a coefficient of variation from some 0.6 % to
// more than 400.
const (
	leastShape = 0.1
	mostShape  = 200
)

// rising returns where a rising function of a shape crosses zero: the bracket is
// widened from a start and then halved, the secant tried in between.
func rising(f func(float64) float64, start float64) float64 {
	low, high := min(max(start, leastShape), mostShape), min(max(start, leastShape), mostShape)
	for low > leastShape && f(low) > 0 {
		low = max(leastShape, low/2)
	}
	for high < mostShape && f(high) < 0 {
		high = min(mostShape, high*2)
	}
	return between(f, low, high, 1e-13)
}

// between returns a zero of a function that is below zero at low and above at high,
// by the method of Illinois, to a share of it; of a function that does not cross, an
// end.
func between(f func(float64) float64, low, high, near float64) float64 {
	atLow, atHigh := f(low), f(high)
	if atLow >= 0 {
		return low
	}
	if atHigh <= 0 {
		return high
	}
	side := 0
	for range 200 {
		mid := (atHigh*low - atLow*high) / (atHigh - atLow)
		if !(mid > low && mid < high) || math.IsInf(atLow, 0) || math.IsInf(atHigh, 0) {
			mid = (low + high) / 2
		}
		at := f(mid)
		switch {
		case at == 0 || high-low <= near*math.Abs(mid):
			return mid
		case at < 0:
			low, atLow = mid, at
			if side < 0 {
				atHigh /= 2
			}
			side = -1
		default:
			high, atHigh = mid, at
			if side > 0 {
				atLow /= 2
			}
			side = 1
		}
	}
	return (low + high) / 2
}
