// Package joint chooses the set of machines to own that costs least together
// with what is still rented: one visit may serve several machines, so that two
// machines may pay where neither does alone. It asks package alternative what
// sets cost and keeps the studio's limits.
package joint

import (
	"math"

	"shopstint/capital/decision/joint/subset"
	"shopstint/model"
	"shopstint/model/work"
)

// Shown is how many of the cheapest sets are kept.
const Shown = 5

// Result is the joint choice. Machines are numbered as in the study. Amounts are
// present amounts after tax, unless said otherwise.
type Result struct {
	Rented  Choice   // owning nothing
	Single  Choice   // the best with at most one machine, within the limits
	Choices []Choice // the cheapest sets within the limits, cheapest first: the best is Choices[0]

	Gap       float64 // no set within the limits is cheaper than the best by more; 0 when the best is proven
	GapAnnual float64 // the same as an equal amount each year
	GapKnown  bool    // false when nothing bounds the gap
	Ranked    bool    // the others of Choices are proven to be the next best, too

	Alone  []float64   // what owning each machine alone saves
	After  [][]float64 // After[a][b]: what owning b saves once a is owned; 0 on the diagonal
	InBest []float64   // what each machine saves in the best set, or would save if added to it
	Limits []Limit     // those that the study sets
	Draw   Draw
}

// Choice is one set of machines.
type Choice struct {
	Owned    []bool
	Machines []int // the owned ones

	Present float64 // of everything
	Renting float64 // of that, rented and bench work
	Owning  float64 // of that, the owned machines
	Annual  float64 // Present as an equal amount each year
	Saving  float64 // against renting everything
	Over    float64 // dearer than the best
	Close   bool    // another set than the best, and too close to it to call

	SavingAnnual, OverAnnual float64 // the same as equal amounts each year

	Cash float64 // leaves the account on the day of purchase
	Area float64 // m² of floor
	Amps float64 // planned supply current
}

// Limit is a limit of the study and what more of it would be worth.
type Limit struct {
	On   string  // Money, Floor or Supply
	Path string  // its input
	Most float64 // amount of money, m² or A
	Used float64 // by the best set

	Known  bool    // false where costs are only bounded: what follows was not looked for
	Binds  bool    // some set beyond this limit alone is cheaper
	More   float64 // the least by which the limit must rise for a cheaper set
	Gain   float64 // what that set saves beyond the best
	Annual float64 // Gain as an equal amount each year
	Next   Choice  // that set
	Proven bool    // More is the least, and Gain the most at that step
}

// Draw is what the best set asks of the electrical supply.
type Draw struct {
	Amps    float64
	Free    float64 // studio.amps
	AtOnce  int     // machines that may run at once: one for each own person
	Limited bool    // the study gives its supply, so that it limits the choice
}

// Over tells whether the best set is planned to draw more than the supply that
// was assumed.
func (d Draw) Over() bool { return !d.Limited && d.Amps > d.Free }

// mostBranches is how many branches one search looks at, about a second.
const mostBranches = 200_000

// mostRepriced is how many sets are priced anew where tables are only a lower bound.
const mostRepriced = 64

// Decide chooses among all sets of the study's machines. The plan is the study's
// work.
//
// Source: one visit serving several machines makes their savings depend on each
// other; the cheapest set by complete enumeration, or by branch and bound as in
// package subset.
func Decide(study *model.Study, plan *work.Plan) Result {
	return chooserOf(study, plan, usual).decide()
}

func (c *chooser) decide() Result {
	result := Result{Rented: c.choice(0), GapKnown: c.bounding, Ranked: c.bounding}
	found, bound := c.cheapest()
	for _, set := range found {
		result.Choices = append(result.Choices, c.choice(set.Items))
	}
	if len(result.Choices) == 0 { // cannot be: no limit is below zero
		result.Choices = []Choice{result.Rented}
	}
	best := result.Choices[0]
	if gap := best.Present - bound; gap > dust(best.Present) {
		result.Gap, result.GapAnnual = gap, c.annual(gap)
	}
	if len(found) > 0 && bound < found[len(found)-1].Cost-dust(best.Present) {
		result.Ranked = false
	}
	c.compare(&result)
	c.interactions(&result)
	c.limits(&result)
	return result
}

func dust(cost float64) float64 { return 1e-9 * (1 + math.Abs(cost)) }

// cheapest lists the cheapest sets and a cost that no other set is under.
func (c *chooser) cheapest() (found []subset.Set, bound float64) {
	if c.exact {
		answer := subset.Cheapest(&c.problems[0], Shown, mostBranches)
		return answer.Sets, answer.Bound
	}
	return c.reprice()
}
