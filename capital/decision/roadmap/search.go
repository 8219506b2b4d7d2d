package roadmap

import (
	"math"
	"slices"
)

// search looks through the roadmaps of an instance by branch and bound.
//
// Source: A. H. Land and A. G. Doig, An Automatic Method of Solving Discrete
// Programming Problems, 1960.
type search struct {
	p     *instance
	climb *climb
	draft *draft
	found []span
	upper float64 // cost of the best so far
	bound float64 // least bound of what was given up
	nodes int
	most  int // work to do
	steps int // of the prices at the root

	without, with  []float64 // by machine and year: what not owning and owning add to the bound
	owning, charge []float64 // of the machine at work
}

func newSearch(c *climb, upper float64, e effort) *search {
	size := len(c.mean)
	c.work = 0
	return &search{p: c.p, climb: c, draft: newDraft(c.relaxation), upper: upper, bound: infinite, most: e.work, steps: e.steps,
		without: make([]float64, size), with: make([]float64, size),
		owning: make([]float64, c.p.years), charge: make([]float64, c.p.years)}
}

// closeEnough is the share of the cost that two roadmaps may differ by and
// count as equally cheap: the noise of adding up.
const closeEnough = 1e-9

func (s *search) cut() float64 { return s.upper - closeEnough*math.Abs(s.upper) }

// How long prices are moved.
const (
	batch      = 20   // steps at the root between looking at what they settle
	worthwhile = 0.02 // share of the gap that a batch must close to be followed by another
	nodeSteps  = 12
)

// effort is how much a search may do: entries of tables and spans to look at,
// and steps of the prices before it parts the question.
type effort struct{ work, steps int }

func (s *search) try(plan []span, cost float64) {
	if plan != nil && cost < s.cut() && s.p.allowed(plan) {
		s.found, s.upper = plan, cost
	}
}

// start looks through a domain.
func (s *search) start(d domain) {
	d = d.clone()
	s.climb.begin(d)
	s.try(s.draft.plan())
	s.draft.settle(s.draft.open())
	s.try(s.draft.plan())
	if !s.root(d) {
		return
	}
	known := s.climb.bound
	if s.open(d) > 0 && s.climb.work < s.most {
		s.shake()
		s.guess(d)
		if s.climb.begin(d); !s.fix(d) {
			return
		}
	}
	s.part(d, known)
}

// shake improves the best roadmap as long as that makes it cheaper.
func (s *search) shake() {
	for before := infinite; s.found != nil && s.upper < before; {
		before = s.upper
		s.try(s.draft.shake(s.found))
	}
}

// root moves the prices as long as that closes the gap, and settles what it
// can; false when no cheaper roadmap is left.
func (s *search) root(d domain) bool {
	s.nodes++
	before := -infinite
	s.climb.begin(d)
	for k := 0; k < s.steps; k += batch {
		s.climb.again(d)
		s.climb.climb(s.cut(), batch)
		s.try(s.draft.fromPrices())
		if s.climb.bound >= s.cut() || !s.fix(d) {
			return false
		}
		if s.climb.work >= s.most || s.climb.bound-before < worthwhile*(s.upper-s.climb.bound) {
			break
		}
		before = s.climb.bound
	}
	return true
}

// node looks through a part of a domain of which no roadmap costs less than known.
func (s *search) node(d domain, known float64) {
	s.nodes++
	s.climb.begin(d)
	s.climb.climb(s.cut(), nodeSteps)
	if s.nodes%16 == 0 {
		s.try(s.draft.fromPrices())
	}
	if s.climb.bound >= s.cut() || !s.fix(d) {
		return
	}
	s.part(d, known)
}

// part looks at what is left of a domain: one roadmap, or both answers to a question
// while there is work to do.
func (s *search) part(d domain, known float64) {
	known = max(known, s.climb.bound)
	switch {
	case s.open(d) == 0:
		s.leaf(d)
	case s.climb.work >= s.most:
		s.bound = math.Min(s.bound, known)
	default:
		s.split(d, known)
	}
}

// astray is the share of the gap by which the prices that one answer ended with may
// make less of the other than those that both began with: beyond it these are taken
// up again. Without that, what rules forbid drives prices ever further off.
const astray = 20

// split looks at both answers to one question.
func (s *search) split(d domain, known float64) {
	m, t, first := s.branch(d)
	prices := slices.Clone(s.climb.prices)
	for _, own := range []bool{first, !first} {
		child := d.clone()
		if own {
			child.always[m] |= 1 << t
		} else {
			child.never[m] |= 1 << t
		}
		if own != first && s.climb.least(child) < known-astray*(s.upper-known) {
			copy(s.climb.prices, prices)
		}
		s.node(child, known)
	}
}

// open counts the machines that a domain leaves open.
func (s *search) open(d domain) int {
	open := 0
	for m := range s.p.machines {
		if !s.p.settled(d, m) {
			open++
		}
	}
	return open
}

// leaf tries the one roadmap of a domain that leaves nothing open.
func (s *search) leaf(d domain) {
	plan := s.p.planOf(d.always)
	s.try(plan, s.p.cost(plan))
}

// leaning is the share of the gap by which the years of late weigh against an
// answer that they did not give, and a little of everything.
const leaning, little = 1, 0.001

// branch picks the machine and year whose two answers both raise the bound
// most, and says which answer looks cheaper.
func (s *search) branch(d domain) (m, t int, own bool) {
	most, gap := -infinite, s.upper-s.climb.bound
	for i := range s.p.machines {
		for y := range s.p.years {
			if (d.never[i]|d.always[i])>>y&1 == 1 {
				continue
			}
			at := i*s.p.years + y
			mean := s.climb.mean[at]
			score := (s.without[at] + (leaning*mean+little)*gap) * (s.with[at] + (leaning*(1-mean)+little)*gap)
			if !(score <= most) { // what is no number parts a question too
				most, m, t, own = score, i, y, mean > 0.5
			}
		}
	}
	return m, t, own
}
