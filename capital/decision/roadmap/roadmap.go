// Package roadmap says which machine is bought in which year, replaced and sold,
// so that renting and owning together cost the least over the horizon.
//
// A machine is bought at the start of one of the years, or never; it is replaced
// every years_kept years, as the study says, and sold for good at the start of a
// later year or at the horizon. The yearly budget bounds what is paid for
// machines at the start of each year, replacements included; the studio's floor
// and supply, and what machines exclude and need, bound what is owned in each. A
// fixture that several machines name is paid once as long as one is owned. What a
// roadmap costs is what alternative.EvaluateCourse says of it.
package roadmap

import (
	"math"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/work"
)

// Result is the answer over the years of the horizon. Amounts are present costs
// after tax.
type Result struct {
	Why      string // why there is no roadmap; "" when there is one
	Budget   float64
	Best     Roadmap
	Rented   float64  // renting everything, all years
	RunnerUp *Roadmap // the best that buys another set of machines first; nil when the budget allows none
	Waiting  Roadmap  // the best that buys nothing this year
	Loose    bool     // upkeep, resale or tax by hours of machines that share steps or a fixture was weighed by the hours each has alone
	Nodes    int      // parts of the question that were looked at
}

// Roadmap is one course over the years.
type Roadmap struct {
	Years   []Year
	Stays   []alternative.Stay // each machine from its purchase to its sale for good
	Rented  []alternative.Year // by year, before tax; element 0 is the first
	Present float64
	Annual  float64 // the same as an equal amount each year
	Gap     float64 // none of its kind costs less than Present less this; 0 when it is the cheapest
}

// Year is what a year of a roadmap begins with: machines by their index in the
// study. The last entry is the end of the horizon, when what is left is sold.
type Year struct {
	Buy, Replace, Sell []int
	Paid               []float64 // money for machines, by machine of the study; a shared fixture's with its payer
	Spent              float64   // sum of Paid
	Fetched            float64   // from machines sold or replaced
}

// First returns the first year of a roadmap with a purchase, or -1.
func (r *Roadmap) First() int {
	for t := range r.Years {
		if len(r.Years[t].Buy) > 0 {
			return t
		}
	}
	return -1
}

// What is done for the best roadmap, and for each question beside it, which
// starts from the prices that the best one ended with. It is counted and not
// timed, so that the answer does not depend on the machine.
var (
	full  = effort{work: 300_000_000, steps: 400}
	aside = effort{work: 90_000_000, steps: 40}
)

// Decide finds the cheapest roadmap of a study.
//
// Source: as EvaluateCourse of package alternative; search by the sources named
// at its parts.
func Decide(study *model.Study, plan *work.Plan) Result {
	laid := layOut(study, plan)
	result := Result{Budget: float64(study.Studio.YearlyBudget), Why: laid.wide}
	if result.Why != "" {
		return result
	}
	q := questions{study: study, plan: plan, solvers: []*solver{newSolver(laid.out)}}
	if hopeful := laid.hopeful(); hopeful != nil {
		q.solvers = append(q.solvers, newSolver(hopeful))
	}
	p := laid.out
	best := q.ask(func(s *solver, upper float64) outcome { return s.best(p.wholeDomain(), upper, full) })
	bundle := make([]bool, len(study.Machines))
	if t := best.First(); t >= 0 {
		for _, m := range best.Years[t].Buy {
			bundle[m] = true
		}
	}
	result.Best, result.Loose, result.Rented = *best, laid.loose(), p.cost(nil)
	result.RunnerUp = q.ask(func(s *solver, upper float64) outcome { return s.otherFirst(bundle, upper, aside) })
	result.Waiting = *q.ask(func(s *solver, upper float64) outcome { return s.best(p.waiting(1), upper, aside) })
	result.Nodes = q.nodes
	return result
}

// questions are what is asked of one study: first of its tables, then of those
// at the least that shared steps can cost, which bound what the tables overlook.
type questions struct {
	study   *model.Study
	plan    *work.Plan
	solvers []*solver
	nodes   int
}

// ask returns the best answer of all solvers, priced by the one evaluator, or
// nil when there is none.
func (q *questions) ask(question func(s *solver, upper float64) outcome) *Roadmap {
	var best *Roadmap
	upper, bound := infinite, infinite
	for i, s := range q.solvers {
		if i > 0 { // the same tables but for what is spare: the same prices are good
			s.home = q.solvers[0].home
		}
		got := question(s, upper)
		q.nodes += got.nodes
		bound = math.Min(bound, got.bound)
		upper = math.Min(upper, got.cost)
		if got.plan == nil {
			continue
		}
		if found := roadmapOf(q.study, q.plan, s.p, got.plan); best == nil || found.Present < best.Present {
			best = &found
		}
	}
	if best != nil && best.Present-bound > proven*math.Abs(best.Present) {
		best.Gap = best.Present - bound
	}
	return best
}

// proven is the share of a cost that summing it in another order may move.
const proven = 1e-8

// roadmapOf prices a plan as the one evaluator does.
func roadmapOf(study *model.Study, plan *work.Plan, p *instance, spans []span) Roadmap {
	course := alternative.EvaluateCourse(study, plan, p.ownedIn(spans))
	out := Roadmap{Years: make([]Year, p.years+1), Stays: course.Stays, Rented: course.Rented, Present: course.Present}
	out.Annual = timevalue.EquivalentAnnual(float64(study.Studio.DiscountRate), float64(study.Studio.Horizon), out.Present)
	for t := range out.Years {
		out.Years[t].Paid = make([]float64, len(study.Machines))
	}
	for i := range out.Stays {
		out.book(&out.Stays[i])
	}
	for _, fixture := range course.Fixtures {
		year := &out.Years[fixture.From]
		year.Paid[fixture.Payer] += fixture.Paid
		year.Spent += fixture.Paid
	}
	return out
}

// book enters what one stay begins each year with.
func (r *Roadmap) book(stay *alternative.Stay) {
	m := stay.Machine
	for t, paid := range stay.Paid() {
		year := &r.Years[t]
		switch {
		case t == stay.From:
			year.Buy = append(year.Buy, m)
		case t == stay.To:
			year.Sell = append(year.Sell, m)
		case paid != 0:
			year.Replace = append(year.Replace, m)
		}
		year.Paid[m] += paid
		year.Spent += paid
		year.Fetched -= stay.Table[capital.Resale][t]
	}
}
