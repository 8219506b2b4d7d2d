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
	work  int // see effort
}

// solver answers several questions about one instance: each starts from the
// prices at which the first one ended.
type solver struct {
	p     *instance
	parts []trade
	climb *climb
	home  []float64 // those prices; nil before
}

func newSolver(p *instance) *solver {
	parts, ok := p.trades()
	if !ok {
		parts = nil
	}
	return &solver{p: p, parts: parts, climb: newClimb(newRelaxation(p))}
}

// best looks for the cheapest roadmap within a domain that costs less than
// upper.
func (s *solver) best(d domain, upper float64, e effort) outcome {
	upper = math.Min(upper, s.p.forbidden())
	if s.parts != nil && len(s.p.machines) <= mostInSets {
		return s.overSets(d, upper)
	}
	s.goHome()
	search := newSearch(s.climb, upper, e)
	search.start(d)
	if s.home == nil {
		s.home = slices.Clone(s.climb.prices)
	}
	out := outcome{search.found, infinite, math.Min(search.bound, search.upper), search.nodes, s.climb.work}
	if search.found != nil {
		out.cost = search.upper
	}
	return out
}

func (s *solver) goHome() {
	if s.home != nil {
		copy(s.climb.prices, s.home)
	}
}

func (s *solver) overSets(d domain, upper float64) outcome {
	plan, cost := s.p.bySets(s.parts, d)
	if cost >= upper {
		return outcome{nil, infinite, upper, 0, 0}
	}
	return outcome{plan, cost, cost, 0, 0}
}

// waiting is the domain of the roadmaps that buy nothing before a year.
func (p *instance) waiting(until int) domain {
	d := p.wholeDomain()
	for m := range d.never {
		d.never[m] = years(0, until)
	}
	return d
}

// otherFirst finds the cheapest roadmap whose first purchase is another set of
// machines and that costs less than upper, with one effort for all. For each
// year of a first purchase the other sets are parted by the first machine in
// which they differ; a year is looked at only while waiting for it can still be
// cheaper than the best found.
func (s *solver) otherFirst(bundle []bool, upper float64, e effort) outcome {
	best := outcome{cost: upper, bound: infinite}
	try := func(d domain) {
		got := s.best(d, best.cost, effort{max(1, e.work-best.work), e.steps})
		best.work += got.work
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

// over tells whether at the prices of the first question already no roadmap of
// a domain can cost less than upper.
func (s *solver) over(d domain, upper float64) bool {
	s.goHome()
	return s.climb.least(d) >= upper
}

// others parts the roadmaps that buy first in a year, and then another set than
// the bundle, into domains.
func (p *instance) others(bundle []bool, year int) []domain {
	var list []domain
	rest := p.waiting(year)
	with := func(m int) domain {
		d := rest.clone()
		d.always[m] |= 1 << year
		return d
	}
	for m, in := range bundle {
		if !in { // the first machine bought that is not in the bundle
			list = append(list, with(m))
			rest.never[m] |= 1 << year
		}
	}
	first := slices.Index(bundle, true)
	for m := first + 1; first >= 0 && m < len(bundle); m++ {
		if bundle[m] { // bought with the first of the bundle, but for one: the first one left out
			d := with(first)
			d.never[m] |= 1 << year
			list = append(list, d)
			rest.always[m] |= 1 << year
		}
	}
	if first < 0 {
		return list
	}
	rest = p.waiting(year)
	for m, in := range bundle {
		if !in || m == first {
			rest.never[m] |= 1 << year
		}
	}
	for m := first + 1; m < len(bundle); m++ {
		if bundle[m] { // bought without the first of the bundle: the first one bought
			list = append(list, with(m))
			rest.never[m] |= 1 << year
		}
	}
	return list
}
