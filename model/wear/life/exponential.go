package life

import "math"

// Exponential is a distribution of lives that end suddenly, no sooner and no later
// for having lasted.
type Exponential struct {
	Mean, LogLikelihood float64
	Ended, Run          float64 // how many ended in a run of all together
}

// FitExponential returns the exponential distribution of the greatest likelihood:
// the run of all lives ÷ those that ended. The error is ErrNoEnd.
//
// Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 8.4.5.1.
func FitExponential(lives []Observation) (Exponential, error) {
	ended, _, run := Totals(lives)
	if ended == 0 {
		return Exponential{Mean: math.Inf(1), Run: run}, ErrNoEnd
	}
	mean := run / ended
	return Exponential{Mean: mean, LogLikelihood: -ended*math.Log(mean) - ended, Ended: ended, Run: run}, nil
}

// AIC returns Akaike's criterion.
//
// Source: as of Weibull.AIC, with one parameter.
func (e Exponential) AIC() float64 { return 2 - 2*e.LogLikelihood }

// Interval returns the interval of the mean life, for lives that were looked at until
// a date and not until so many ended; it covers the true mean at least as often as
// the level says. Where none ended it has a lower end only, with the whole of the
// doubt on that side.
//
// Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 8.4.5.1:
// 2T/χ²(1−α/2; 2r+2) and 2T/χ²(α/2; 2r); with no failure T/(−ln α).
func (e Exponential) Interval(level float64) Interval {
	if e.Ended == 0 {
		return Interval{e.Run / -math.Log(1-level), math.Inf(1)}
	}
	doubt := (1 - level) / 2
	return Interval{2 * e.Run / chiSquare(2*e.Ended+2, 1-doubt), 2 * e.Run / chiSquare(2*e.Ended, doubt)}
}
