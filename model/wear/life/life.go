// Package life estimates how long something lasts from lives of which some have
// ended and some were still going when they were last looked at (right-censored):
// the curve of what survives, a Weibull and an exponential fit with intervals, and
// both joined with what was believed beforehand. It knows plain numbers only; a
// run is in any one unit.
package life

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Observation is a number of lives alike: each ended at Run or, where Ended is
// false, was still going there. Runs of zero and below and counts of zero and
// below are left out of every estimate.
type Observation struct {
	Run   float64
	Ended bool
	Count float64
}

// Interval is from low to high, with the confidence asked for. High may be +Inf:
// the lives set no upper bound.
type Interval struct{ Low, High float64 }

// Holds tells whether x is in the interval.
//
// Source: by definition.
func (i Interval) Holds(x float64) bool { return x >= i.Low && x <= i.High }

// ErrNoEnd says that no life has ended, so that nothing can be fitted.
var ErrNoEnd = errors.New("no life has ended")

// ErrNoSpread says that all lives that ended did so at the longest run of all, so
// that no shape fits better than a steeper one.
var ErrNoSpread = errors.New("all lives ended at the longest run")

// Totals returns how many lives ended, how many were looked at, and the run of all
// together.
//
// Source: by definition.
func Totals(lives []Observation) (ended, all, run float64) {
	for _, one := range lives {
		if one.Run <= 0 || one.Count <= 0 {
			continue
		}
		all += one.Count
		run += one.Count * one.Run
		if one.Ended {
			ended += one.Count
		}
	}
	return ended, all, run
}

// sample is the lives as the likelihood needs them: logarithms of runs, all of them
// and those that ended.
type sample struct {
	logs, counts []float64
	ended        float64 // how many ended
	endedLogs    float64 // sum of their logarithms
	last         float64 // greatest logarithm
	lastEnded    bool    // whether all that ended did so there
}

func sampleOf(lives []Observation) sample {
	s := sample{last: math.Inf(-1), lastEnded: true}
	for _, one := range lives {
		if one.Run <= 0 || one.Count <= 0 {
			continue
		}
		log := math.Log(one.Run)
		s.logs, s.counts = append(s.logs, log), append(s.counts, one.Count)
		s.last = max(s.last, log)
		if one.Ended {
			s.ended += one.Count
			s.endedLogs += one.Count * log
		}
	}
	for _, one := range lives {
		if one.Ended && one.Run > 0 && one.Count > 0 && math.Log(one.Run) < s.last {
			s.lastEnded = false
		}
	}
	return s
}

// powers returns the logarithm of Σ t^shape over all lives, and the mean of ln t
// weighted by t^shape. Powers are taken against the longest run, so that none
// overflows.
func (s *sample) powers(shape float64) (log, mean float64) {
	sum, moment := 0.0, 0.0
	for i, log := range s.logs {
		power := s.counts[i] * math.Exp(shape*(log-s.last))
		sum += power
		moment += power * log
	}
	return math.Log(sum) + shape*s.last, moment / sum
}

// likelihood returns the logarithm of the likelihood of a Weibull distribution, from
// the logarithm of its scale and of Σ t^shape.
func (s *sample) likelihood(shape, logScale, logPowers float64) float64 {
	density := s.ended*(math.Log(shape)-shape*logScale) + (shape-1)*s.endedLogs
	return density - math.Exp(logPowers-shape*logScale)
}

// chiSquare returns the value below which a chi-square variable of so many degrees
// of freedom stays with probability p.
func chiSquare(degrees, p float64) float64 {
	return 2 * mathext.GammaIncRegInv(degrees/2, p)
}

// normal returns the value below which a standard normal variable stays with
// probability p.
func normal(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }
