package life

import (
	"cmp"
	"math"
	"slices"
)

// Step is one step of the curve of what survives: at Run, Ended of the AtRisk lives
// ended, and Survival is the share that lasts longer. Error is the standard error of
// Survival.
type Step struct {
	Run, AtRisk, Ended float64
	Survival, Error    float64
	Interval           // of Survival
}

// Curve returns the product-limit curve, one step for each run at which a life
// ended, with the standard error of Greenwood and an interval that is symmetric in
// ln(−ln S), so that it stays between 0 and 1. Level is such as 0.9. A life that was
// last looked at where another ended counts as at risk there. Where nothing survives
// the interval is not known: from 0 to 1.
//
// Source: E. L. Kaplan and P. Meier, Nonparametric Estimation from Incomplete
// Observations, JASA 53, 1958; M. Greenwood, The Natural Duration of Cancer, 1926;
// J. D. Kalbfleisch and R. L. Prentice, The Statistical Analysis of Failure Time
// Data, 1980, section 1.3 (the interval).
func Curve(lives []Observation, level float64) []Step {
	sorted := slices.DeleteFunc(slices.Clone(lives), func(one Observation) bool { return one.Run <= 0 || one.Count <= 0 })
	slices.SortFunc(sorted, func(a, b Observation) int { return cmp.Compare(a.Run, b.Run) })
	atRisk := 0.0
	for _, one := range sorted {
		atRisk += one.Count
	}
	var steps []Step
	survival, greenwood, wide := 1.0, 0.0, normal((1+level)/2)
	for first := 0; first < len(sorted); {
		ended, left, end := 0.0, 0.0, first
		for ; end < len(sorted) && sorted[end].Run == sorted[first].Run; end++ {
			left += sorted[end].Count
			if sorted[end].Ended {
				ended += sorted[end].Count
			}
		}
		if ended > 0 {
			survival *= max(0, (atRisk-ended)/atRisk)
			greenwood += ended / (atRisk * (atRisk - ended))
			step := Step{Run: sorted[first].Run, AtRisk: atRisk, Ended: ended, Survival: survival}
			step.Error, step.Interval = spreadOf(survival, greenwood, wide)
			steps = append(steps, step)
		}
		atRisk -= left
		first = end
	}
	return steps
}

// spreadOf returns the standard error of a share that survives and its interval.
func spreadOf(survival, greenwood, wide float64) (float64, Interval) {
	if survival <= 0 {
		return 0, Interval{0, 1}
	}
	log := math.Log(survival)
	around := wide * math.Sqrt(greenwood) / math.Abs(log)
	return survival * math.Sqrt(greenwood), Interval{math.Exp(log * math.Exp(around)), math.Exp(log * math.Exp(-around))}
}

// Median returns the run that half of the lives outlast, and whether the curve comes
// down that far.
//
// Source: by definition, from Curve.
func Median(curve []Step) (float64, bool) {
	for _, step := range curve {
		if step.Survival <= 0.5 {
			return step.Run, true
		}
	}
	return 0, false
}
