package evidence

import (
	"math"
	"slices"
)

// Step is a place in a row of figures from which on they are about another middle.
type Step struct {
	At            int // index of the first figure behind it
	Before, After float64
	P             float64 // probability that figures without any step show one so clear
}

// leastBehind is how many figures must stand on each side of a step.
const leastBehind = 3

// MostFigures is how many figures Steps looks at; a longer row is to be gathered into
// as many.
const MostFigures = 400

// Steps finds where a row of figures jumps by at least a share of their middle. A
// step is told when its probability by chance is at most alpha, every place counted;
// then both sides are looked at in the same way. It makes no assumption about how
// figures scatter, so that one that is far off is no step.
//
// Source: R. A. Fisher's exact test of how many figures lie on their side of the
// middle of two medians, with C. E. Bonferroni's correction for the places, both ways;
// E. S. Page, Continuous Inspection Schemes, Biometrika 41, 1954, for the question;
// put together so by common practice. That it tells no more steps than it says is
// tested on rows of chance.
func Steps(figures []float64, alpha, least float64) []Step {
	if len(figures) > MostFigures {
		figures = figures[:MostFigures]
	}
	best, ok := clearest(figures, least)
	if !ok || best.P > alpha {
		return nil
	}
	left, right := Steps(figures[:best.At], alpha, least), Steps(figures[best.At:], alpha, least)
	if len(left) > 0 {
		best.Before = left[len(left)-1].After
	}
	if len(right) > 0 {
		best.After = right[0].Before
	}
	for i := range right {
		right[i].At += best.At
	}
	return append(append(left, best), right...)
}

// clearest finds the step that chance would show least; of equal ones the widest.
func clearest(figures []float64, least float64) (Step, bool) {
	n := len(figures)
	var best Step
	found := false
	for at := leastBehind; at <= n-leastBehind; at++ {
		before, after := median(figures[:at]), median(figures[at:])
		if math.Abs(after-before) < least*math.Abs(before) || before == after {
			continue
		}
		p := split(figures, at, (before+after)/2, after > before)
		wider := math.Abs(after-before) > math.Abs(best.After-best.Before)
		if !found || p < best.P || p == best.P && wider {
			best, found = Step{at, before, after, p}, true
		}
	}
	best.P *= 2 * float64(n-2*leastBehind+1)
	return best, found
}

// split returns the probability that so many figures lie on their side of a threshold
// by chance.
func split(figures []float64, at int, threshold float64, rises bool) float64 {
	below := [2]float64{}
	for i, x := range figures {
		side := 0
		if i >= at {
			side = 1
		}
		if (x < threshold) == rises {
			below[side]++
		}
	}
	return tail(below[0], float64(at), below[1], float64(len(figures)-at))
}

func median(figures []float64) float64 {
	sorted := slices.Clone(figures)
	slices.Sort(sorted)
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

// Median returns the middle of some figures, NaN of none.
//
// Source: by definition.
func Median(figures []float64) float64 {
	if len(figures) == 0 {
		return math.NaN()
	}
	return median(figures)
}
