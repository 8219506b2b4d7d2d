// Package booking plans the visits of a study's dated jobs: which jobs ride
// together, on which day, and what each visit costs. Prices are rental's, the
// grouping is visitplan's; here the two are brought together.
package booking

import (
	"fmt"
	"slices"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/model/work"
	"shopstint/rental"
	"shopstint/rental/visitplan"
)

// Options are what is asked beside the study.
type Options struct {
	// Today keeps visits from days that cannot be booked any more: none is before
	// it and the shop's lead time. Empty for no such limit.
	Today  quantity.Date
	Owned  []bool // machines that the studio owns by then; nil for none
	Limits visitplan.Limits
}

// Usual are limits that end within seconds: pricing a new mix of jobs takes longer
// than all else that the search does for it.
func Usual() visitplan.Limits {
	limits := visitplan.Usual()
	limits.Nodes = 6_000_000
	return limits
}

// Brief are limits that end within a fraction of a second, for a plan that is
// shown beside other answers; a gap that they leave is told.
func Brief() visitplan.Limits {
	limits := visitplan.Usual()
	limits.Nodes = 150_000
	return limits
}

// Plan is every visit of a study's dated jobs. Money is before tax and at the
// prices of the first year.
type Plan struct {
	Study  *model.Study
	Today  quantity.Date
	Owned  []bool
	Jobs   int     // that ride to a shop, counted one by one
	Visits []Visit // by day and shop
	Shops  []AtShop
	Home   []int // dated jobs without work at a shop, as indexes

	Cost, Bound float64 // of all visits; no grouping costs less than Bound
	Alone       float64 // with a visit for every job
	DueDates    float64 // with a visit on every due date
	DueVisits   int
}

// AtShop is how the visits to one shop were found.
type AtShop struct {
	Shop  int
	Jobs  int
	Found visitplan.Plan
}

// Visit is one visit: its day, counted as quantity.Date counts, who rides along
// and what it costs.
type Visit struct {
	Shop      int
	Day, Last int // the day it is planned on and the last that would do
	BookBy    int // the last open day on which it can be booked
	Aboard    []Aboard
	Errands   []alternative.Errand // what the job types aboard do
	Counts    []int                // jobs of each errand
	Load      quantity.Mass
	Heaviest  quantity.Mass
	rental.Visit
}

// Aboard is so many of one dated job.
type Aboard struct{ Dated, Count int }

// Book plans the visits. The problems are those of the study's dates and vehicle,
// with a path and no place; with any of them there is no plan. The error is of
// the solver: a price that breaks its promise.
//
// Source: common practice, no source: a visit is planned on the first day on
// which all its jobs are ready and the shop is open.
func Book(study *model.Study, options Options) (Plan, problem.List, error) {
	plan := Plan{Study: study, Today: options.Today, Owned: options.Owned}
	if plan.Owned == nil {
		plan.Owned = make([]bool, len(study.Machines))
	}
	groups, problems := gather(study, &plan)
	if len(problems) > 0 {
		return Plan{}, problems, nil
	}
	for i := range groups {
		if err := plan.book(&groups[i], options.Limits); err != nil {
			return Plan{}, nil, fmt.Errorf("could not plan the visits to %s: %w", study.Shops[groups[i].shop].Key, err)
		}
	}
	slices.SortStableFunc(plan.Visits, func(a, b Visit) int { return a.Day - b.Day })
	return plan, nil, nil
}

// group is the dated jobs of one shop.
type group struct {
	shop   int
	kinds  []alternative.Errand
	jobs   []visitplan.Job
	dated  []int // by job: index of its dated job
	member rental.Membership
}

// gather sorts the dated jobs by shop and reads their dates.
func gather(study *model.Study, plan *Plan) ([]group, problem.List) {
	if len(study.DatedJobs) == 0 {
		return nil, problem.List{{Path: "dated_jobs", What: "the study has no dated jobs", Right: "list them under dated_jobs, each with job_type, ready and due"}}
	}
	groups := make([]group, len(study.Shops))
	at := work.New(study)
	errands := make([]*alternative.Errand, len(study.JobTypes))
	var problems problem.List
	for i := range study.DatedJobs {
		job := model.Index(study.JobTypes, study.DatedJobs[i].JobType)
		if errands[job] == nil {
			errand := alternative.ErrandOf(study, at, plan.Owned, job)
			errands[job] = &errand
			problems = append(problems, tooLong(study, &errand)...)
		}
		if len(errands[job].Pieces) == 0 {
			plan.Home = append(plan.Home, i)
			continue
		}
		shop := work.ShopOf(study, job)
		problems = append(problems, groups[shop].add(study, plan.Today, shop, errands[job], i)...)
	}
	members := alternative.RentOf(study, at, plan.Owned).Members
	for shop := range groups {
		groups[shop].shop, groups[shop].member = shop, members[shop]
	}
	return slices.DeleteFunc(groups, func(g group) bool { return len(g.jobs) == 0 }), problems
}

// add takes one dated job in, as often as it counts.
func (g *group) add(study *model.Study, today quantity.Date, shop int, errand *alternative.Errand, index int) problem.List {
	kind := slices.IndexFunc(g.kinds, func(known alternative.Errand) bool { return known.Job == errand.Job })
	if kind < 0 {
		kind = len(g.kinds)
		g.kinds = append(g.kinds, *errand)
	}
	first, last, problems := window(study, today, shop, index)
	for range study.DatedJobs[index].Number() {
		g.jobs = append(g.jobs, visitplan.Job{Ready: first, Due: last, Kind: kind})
		g.dated = append(g.dated, index)
	}
	return problems
}

// book groups the jobs of one shop into visits.
func (p *Plan) book(g *group, limits visitplan.Limits) error {
	price := newPrice(p.Study, g)
	sought := visitplan.Problem{Jobs: g.jobs, Price: price, Monotone: !g.member.Joined}
	bound(p.Study, g, &sought)
	found, err := visitplan.Solve(&sought, limits)
	if err != nil {
		return err
	}
	dueCost, dueVisits := visitplan.ByDueDate(&sought)
	p.Cost, p.Bound, p.Alone = p.Cost+found.Cost, p.Bound+found.Bound, p.Alone+visitplan.Alone(&sought)
	p.DueDates, p.DueVisits, p.Jobs = p.DueDates+dueCost, p.DueVisits+dueVisits, p.Jobs+len(g.jobs)
	for i := range found.Visits {
		p.Visits = append(p.Visits, p.visit(g, price, &found.Visits[i]))
	}
	p.Shops = append(p.Shops, AtShop{g.shop, len(g.jobs), found})
	return nil
}

// visit writes one visit down.
func (p *Plan) visit(g *group, price *price, found *visitplan.Visit) Visit {
	counts := make([]int, len(g.kinds))
	visit := Visit{Shop: g.shop, Day: found.First, Last: found.Last}
	shop := &p.Study.Shops[g.shop]
	for visit.BookBy = visit.Day - int(shop.LeadTime); !open(shop, visit.BookBy); {
		visit.BookBy--
	}
	for _, i := range found.Jobs {
		counts[g.jobs[i].Kind]++
		if last := len(visit.Aboard) - 1; last >= 0 && visit.Aboard[last].Dated == g.dated[i] {
			visit.Aboard[last].Count++
			continue
		}
		visit.Aboard = append(visit.Aboard, Aboard{g.dated[i], 1})
	}
	trip := alternative.Together(p.Study, g.shop, g.kinds, counts)
	visit.Load, visit.Heaviest, visit.Visit = trip.JobMass, trip.Heaviest, price.visit(counts)
	for k, count := range counts {
		if count > 0 {
			visit.Errands, visit.Counts = append(visit.Errands, g.kinds[k]), append(visit.Counts, count)
		}
	}
	return visit
}
