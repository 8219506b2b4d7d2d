// Package decision composes the whole answer to a study: what each machine's
// single decision says, what to buy in which year, what was assumed, what is not priced and what to look
// at. It has no formula of its own.
package decision

import (
	"cmp"
	"context"
	"slices"
	"sync"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/futures"
	"shopstint/capital/decision/joint"
	"shopstint/capital/decision/roadmap"
	"shopstint/capital/decision/single"
	"shopstint/capital/decision/spend"
	"shopstint/capital/decision/ways"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/work"
)

// Answer is the answer to a study.
type Answer struct {
	Study        *model.Study
	Plan         *work.Plan
	Rented       alternative.Rent // everything rented, as now
	Present      float64          // its present cost after tax
	Annual       float64          // the same as an equal amount each year
	Machines     []single.Result  // in study order
	Joint        joint.Result     // which of them to own together
	Roadmap      roadmap.Result   // what to buy in which year
	Comparisons  []ways.Result    // ways of doing the same work
	Spend        spend.Spend      // what owning the set together costs, by year and month
	Assumed      []Assumption     // assumed inputs, the one that moves the answer most first
	Notes        []Note
	Futures      *futures.Result // nil until Draw
	AssumedCount int             // inputs that were not in the study
}

// Assumption is an input that was not in the study, with what it could do to
// the answer of the machine that it moves most.
type Assumption struct {
	Path    string
	Machine int
	Swing   single.Swing
	Flips   bool // the answer of that machine has the other sign at one end
}

// Decide answers a study that has been read, filled and checked.
func Decide(study *model.Study) Answer {
	answer := Answer{Study: study, Plan: work.New(study)}
	none := make([]bool, len(study.Machines))
	answer.Rented = alternative.RentOf(study, answer.Plan, none)
	answer.Present = answer.Rented.Present(study)
	answer.Annual = timevalue.EquivalentAnnual(float64(study.Studio.DiscountRate), float64(study.Studio.Horizon), answer.Present)
	var wait sync.WaitGroup
	wait.Go(func() { answer.Roadmap = roadmap.Decide(study, answer.Plan) })
	answer.Machines = single.DecideAll(study, answer.Plan, &answer.Rented)
	answer.Joint = joint.Decide(study, answer.Plan)
	answer.Comparisons = ways.Compare(study)
	answer.Spend = spend.Of(study, answer.Plan, spend.Always(study, answer.Joint.Choices[0].Owned), spend.Options{Savings: study.Studio.DiscountRate})
	wait.Wait()
	answer.Assumed = assumptions(answer.Machines)
	for _, origin := range study.Origins {
		if origin.Assumed {
			answer.AssumedCount++
		}
	}
	answer.Notes = notes(&answer)
	return answer
}

// Draw adds sampled futures to an answer, and the ranges of its spending.
func (a *Answer) Draw(ctx context.Context, options futures.Options) (err error) {
	if a.Futures, err = futures.Draw(ctx, a.Study, options); err != nil {
		return err
	}
	options.Most = min(options.Most, spend.Usual)
	return a.Spend.Draw(ctx, options)
}

// assumptions ranks the assumed inputs by their largest swing on any machine.
func assumptions(machines []single.Result) []Assumption {
	best := map[string]int{}
	var list []Assumption
	for m := range machines {
		for _, swing := range machines[m].Swings {
			if !swing.Assumed || swing.Size() == 0 {
				continue
			}
			candidate := Assumption{swing.Path, machines[m].Machine, swing, swing.Flips(machines[m].Difference)}
			at, seen := best[swing.Path]
			switch {
			case !seen:
				best[swing.Path] = len(list)
				list = append(list, candidate)
			case swing.Rank() > list[at].Swing.Rank():
				list[at] = candidate
			}
		}
	}
	slices.SortStableFunc(list, func(a, b Assumption) int { return cmp.Compare(b.Swing.Rank(), a.Swing.Rank()) })
	return list
}
