// Package visitplan groups dated jobs into visits so that money is least and
// no due date is missed. It knows days, kinds of job and what a visit costs, and
// no noun of the trade: whoever asks brings the price of a visit along.
//
// Where the cost and the windows allow it, the best groups are consecutive by
// due date and a dynamic programme finds them. Minimum blocks, rounding up and
// limits of load break that; then a sweep over the jobs by due date looks
// through the groupings that a lower bound leaves open. It ends with the best
// one and its proof, or, at its limits, with the best one found and a proven
// bound below it.
//
// Source: H. M. Wagner and T. M. Whitin, Dynamic Version of the Economic Lot
// Size Model, Management Science 5(1), 1958, for consecutive groups; the sweep
// is a dynamic programme over the jobs that earlier visits have taken along.
package visitplan

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Job is one job with the days between which a visit must do it.
type Job struct {
	Ready, Due int // first and last day, both included
	// Kind tells jobs apart that cost or weigh differently in a visit: jobs of
	// one kind can change places.
	Kind int
	Load float64 // of the problem's Capacity; 0 or more

	// Linear and Units are the job's part of what any visit costs at least; see Floor.
	Linear, Units float64
}

// Price says what a visit costs by what it holds. Contents are numbers of the
// pricer's own: 0 is the empty visit, and Add gives the contents with one more
// job, the same for any order of the same jobs.
type Price interface {
	Add(contents uint64, kind int) uint64
	// Of returns the cost of a visit, and +Inf for one that cannot be, which no
	// further job can mend. A job alone must have a finite cost.
	Of(contents uint64) float64
}

// Shape is what a price promises beside its figures. Every shape but General
// promises that all costs are finite, and holds what the shapes before it hold.
type Shape int

// The shapes of a price, by what they promise.
const (
	General     Shape = iota // nothing
	Subadditive              // one visit never costs more than two with the same jobs
	Concave                  // a fixed cost and a concave function of a sum over the jobs
	Linear                   // a fixed cost and a sum over the jobs
)

// Floor is what any visit costs at least: Visit, the sum of its jobs' Linear,
// and Unit times the sum of their Units. With Whole a visit pays whole units, so
// that the sum over all visits is rounded up as well.
type Floor struct {
	Visit, Unit float64
	Whole       bool
}

// Problem is a set of jobs to be grouped.
type Problem struct {
	Jobs     []Job
	Price    Price
	Shape    Shape
	Monotone bool    // whether a further job never makes a visit cheaper
	Capacity float64 // most load of a visit of two jobs or more; 0 for none
	Floor    Floor
}

// Limits end the search: the same problem with the same limits ends at the same
// plan on any machine. Widths are the states that are kept before each job, pass
// after pass; a pass that keeps all that the bound leaves open is a proof.
type Limits struct {
	Widths []int
	Nodes  int // groups looked at in all passes; a pass that has so many goes on as a narrow one
}

// Usual are limits that end within a second or two.
func Usual() Limits {
	return Limits{Widths: []int{6, 25, 600, 60000, 1000000}, Nodes: 60_000_000}
}

// Method is how a plan was found.
type Method int

// Consecutive is the dynamic programme over consecutive jobs in a case where it
// is proven; Searched is the sweep that ended with its proof; Beam is the best
// that was found within the limits.
const (
	Consecutive Method = iota
	Searched
	Beam
)

// Plan is a grouping of all jobs.
type Plan struct {
	Visits []Visit // by their first day
	Cost   float64
	Bound  float64 // no grouping costs less; Cost where the plan is proven best
	Method Method
	Proof  Case // of the dynamic programme
	Nodes  int  // groups that were looked at
}

// Visit is the jobs of one visit, and the days on which it can be.
type Visit struct {
	Jobs        []int // indexes in the problem, rising
	First, Last int
	Cost        float64
}

// Gap is how far the plan may be above the best, as a part of one.
func (p *Plan) Gap() float64 {
	if p.Cost <= p.Bound || p.Cost == 0 {
		return 0
	}
	return (p.Cost - p.Bound) / p.Cost
}

// ErrWindow and ErrPrice are the two ways in which a problem can be wrong.
var (
	ErrWindow = errors.New("a job is due before it is ready")
	ErrPrice  = errors.New("a price breaks its promise")
)

// Solve groups the jobs. It fails only on a problem that is wrong in itself: a
// job that is due before it is ready, a job alone that has no price, or a price
// below its floor.
func Solve(problem *Problem, limits Limits) (Plan, error) {
	if err := sound(problem); err != nil {
		return Plan{}, err
	}
	s := prepare(problem)
	s.consecutive()
	if found, ok := provenCase(s); ok {
		return s.plan(Consecutive, found, s.best), nil
	}
	s.sumUp()
	bound, _ := s.whole()
	for i, width := range limits.Widths {
		if s.best <= bound+s.near || s.nodes >= limits.Nodes {
			break
		}
		last := i == len(limits.Widths)-1
		bound = max(bound, s.sweep(width, last, limits.Nodes))
		if s.fault != nil {
			return Plan{}, s.fault
		}
	}
	if s.best <= bound+s.near {
		return s.plan(Searched, 0, s.best), nil
	}
	return s.plan(Beam, 0, bound), nil
}

func sound(problem *Problem) error {
	for i, job := range problem.Jobs {
		if job.Due < job.Ready {
			return fmt.Errorf("job %d is ready on day %d and due on day %d: %w", i+1, job.Ready, job.Due, ErrWindow)
		}
		price := problem.Price.Of(problem.Price.Add(0, job.Kind))
		if !(price >= 0 && price <= math.MaxFloat64) {
			return fmt.Errorf("job %d alone costs %v and must have a cost of its own: %w", i+1, price, ErrPrice)
		}
	}
	return nil
}

// plan writes down the best grouping that is known.
func (s *sweep) plan(method Method, proof Case, bound float64) Plan {
	plan := Plan{Cost: s.best, Bound: min(bound, s.best), Method: method, Proof: proof, Nodes: s.nodes}
	for _, group := range s.groups {
		visit := Visit{First: math.MinInt, Last: math.MaxInt}
		contents := uint64(0)
		for _, at := range group {
			job := &s.jobs[at]
			visit.Jobs = append(visit.Jobs, s.order[at])
			visit.First, visit.Last = max(visit.First, job.Ready), min(visit.Last, job.Due)
			contents = s.price.Add(contents, job.Kind)
		}
		slices.Sort(visit.Jobs)
		visit.Cost = s.price.Of(contents)
		plan.Visits = append(plan.Visits, visit)
	}
	slices.SortFunc(plan.Visits, func(a, b Visit) int {
		if a.First != b.First {
			return a.First - b.First
		}
		return a.Jobs[0] - b.Jobs[0]
	})
	return plan
}
