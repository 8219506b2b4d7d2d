package roadmap

import (
	"math"
	"slices"
)

// outcome is the best roadmap found, and what no roadmap can cost less than.
type outcome struct {
	plan  []span
	cost  float64 // +Inf without a plan
	bound float64
	nodes int
}

// solver answers several questions about one instance: each starts from the
// prices at which the one before ended.
type solver struct {
	p     *instance
	parts []trade
	climb *climb
}

func newSolver(p *instance) *solver {
	parts, ok := p.trades()
	if !ok {
		parts = nil
	}
	return &solver{p: p, parts: parts, climb: newClimb(newRelaxation(p))}
}

// best looks for the cheapest roadmap within a domain that costs less than
// upper, in at most so many nodes.
func (s *solver) best(d domain, upper float64, nodes int) outcome {
	upper = math.Min(upper, s.p.forbidden())
	if s.parts != nil && len(s.p.machines) <= mostInSets {
		return s.overSets(d, upper)
	}
	search := &search{p: s.p, parts: s.parts, climb: s.climb, draft: newDraft(s.climb.relaxation, d), most: nodes, upper: upper, bound: infinite}
	search.start(d)
	out := outcome{search.found, infinite, math.Min(search.bound, search.upper), search.nodes}
	if search.found != nil {
		out.cost = search.upper
	}
	return out
}

func (s *solver) overSets(d domain, upper float64) outcome {
	plan, cost := s.p.bySets(s.parts, d)
	if cost >= upper {
		return outcome{nil, infinite, upper, 0}
	}
	return outcome{plan, cost, cost, 0}
}

// waiting is the domain of the roadmaps that buy nothing before a year.
func (p *instance) waiting(until int) domain {
	d := p.wholeDomain()
	for m := range d.never {
		d.never[m] = years(0, until)
	}
	return d
}

// first is what a roadmap buys first: the machines and the year, years without
// a purchase.
func (p *instance) first(plan []span) (bundle []bool, year int) {
	bundle, year = make([]bool, len(p.machines)), p.years
	for _, s := range plan {
		year = min(year, s.from)
	}
	for _, s := range plan {
		bundle[s.machine] = bundle[s.machine] || s.from == year
	}
	return bundle, year
}

// otherFirst finds the cheapest roadmap whose first purchase is another set of
// machines and that costs less than upper. For each year of a first purchase the other sets are parted by the
// first machine in which they differ; a year is looked at only while waiting
// for it can still be cheaper than the best found.
func (s *solver) otherFirst(bundle []bool, upper float64, nodes int) outcome {
	best := outcome{cost: upper, bound: infinite}
	try := func(d domain) {
		got := s.best(d, best.cost, nodes)
		best.nodes += got.nodes
		best.bound = math.Min(best.bound, got.bound)
		if got.plan != nil {
			best.plan, best.cost = got.plan, got.cost
		}
	}
	for year := range s.p.years {
		if s.over(s.p.waiting(year), best.cost) {
			break
		}
		for _, d := range s.p.others(bundle, year) {
			if !s.over(d, best.cost) {
				try(d)
			}
		}
	}
	if slices.Contains(bundle, true) {
		try(s.p.waiting(s.p.years)) // buying nothing at all
	}
	best.bound = math.Min(best.bound, best.cost)
	if best.plan == nil {
		best.cost = infinite
	}
	return best
}

// over tells whether at the present prices already no roadmap of a domain can
// cost less than upper.
func (s *solver) over(d domain, upper float64) bool { return s.climb.least(d) >= upper }

// others parts the roadmaps that buy first in a year, and then another set than
// the bundle, into domains.
func (p *instance) others(bundle []bool, year int) []domain {
	var list []domain
	buys := func(d domain, m int) { d.always[m] |= 1 << year }
	leaves := func(d domain, m int) { d.never[m] |= 1 << year }
	rest := p.waiting(year)
	for m, in := range bundle { // a machine that is not in it
		if !in {
			d := rest.clone()
			buys(d, m)
			list = append(list, d)
			leaves(rest, m)
		}
	}
	for m, in := range bundle { // a part of it: the first that is left out, and one that is bought
		if !in {
			continue
		}
		without := rest.clone()
		leaves(without, m)
		bought := false
		for k := range bundle[:m] {
			bought = bought || bundle[k]
		}
		for k := m + 1; k < len(bundle) && !bought; k++ {
			if bundle[k] {
				d := without.clone()
				buys(d, k)
				list = append(list, d)
				leaves(without, k)
			}
		}
		if bought {
			list = append(list, without)
		}
		buys(rest, m)
	}
	return list
}
