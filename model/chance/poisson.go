package chance

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

const (
	// fewJobs is up to which mean a Poisson count is found by adding up from zero.
	fewJobs = 32
	// manyJobs is from which mean on a Poisson count is a rounded normal value:
	// there a step is under a thousandth of the standard deviation.
	manyJobs = 1e6
)

// Poisson returns the count that a Poisson distribution of that mean stays at or
// below with probability u: the least count whose probability reaches u.
//
// Source: by definition, by inversion; started from the expansion of E. A.
// Cornish and R. A. Fisher, Moments and Cumulants in the Specification of
// Distributions, 1938, where the mean is large.
func Poisson(mean, u float64) float64 {
	switch {
	case !(mean > 0):
		return 0
	case mean <= fewJobs:
		return addUp(mean, u)
	case mean >= manyJobs:
		return math.Max(0, math.Round(expanded(mean, u)))
	}
	count := math.Max(0, math.Floor(expanded(mean, u)))
	below, chance := mathext.GammaIncRegComp(count+1, mean), probability(mean, count)
	for ; below < u && chance > 0; below += chance {
		count++
		chance *= mean / count
	}
	for count > 0 && below-chance >= u {
		below -= chance
		chance *= count / mean
		count--
	}
	return count
}

func addUp(mean, u float64) float64 {
	count, chance := 0.0, math.Exp(-mean)
	for below := chance; below < u && chance > 0; below += chance {
		count++
		chance *= mean / count
	}
	return count
}

func expanded(mean, u float64) float64 {
	z := Score(u)
	return mean + math.Sqrt(mean)*z + (z*z-1)/6
}

func probability(mean, count float64) float64 {
	log, _ := math.Lgamma(count + 1)
	return math.Exp(count*math.Log(mean) - mean - log)
}
