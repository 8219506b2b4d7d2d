package roadmap

import (
	"math"
	"os"
)

// search looks through the roadmaps of an instance by branch and bound.
//
// Source: A. H. Land and A. G. Doig, An Automatic Method of Solving Discrete
// Programming Problems, 1960.
type search struct {
	p     *instance
	parts []trade // nil where ownership does not part
	climb *climb
	draft *draft
	found []span
	upper float64 // cost of the best so far
	bound float64 // least bound of what was given up
	nodes int
	most  int // nodes to look at
}

// closeEnough is the share of the cost that two roadmaps may differ by and
// count as equally cheap: the noise of adding up.
const closeEnough = 1e-9

func (s *search) cut() float64 { return s.upper - closeEnough*math.Abs(s.upper) }

const (
	rootSteps   = 150
	nodeSteps   = 12
	inSetsFirst = 14
	inSets      = 10 // open machines from which a node is left to the sets
)

func (s *search) try(plan []span, cost float64) {
	if plan != nil && cost < s.cut() && s.p.allowed(plan) {
		s.found, s.upper = plan, cost
	}
}

// start looks through a domain, after two simple tries.
func (s *search) start(d domain) {
	if plan, cost := s.draft.plan(); !math.IsInf(cost, 1) {
		s.try(plan, cost)
	}
	s.draft.settle()
	s.try(s.draft.plan())
	s.node(d, 0)
}

func (s *search) node(d domain, depth int) {
	s.nodes++
	steps := nodeSteps
	if depth == 0 {
		steps = rootSteps
	}
	s.climb.bound = -infinite
	s.climb.reach = 1
	for k := 0; k < steps; k += 10 {
		s.climb.climb(d, s.cut(), min(10, steps-k))
		if s.climb.bound >= s.cut() {
			return
		}
		if depth == 0 || k == 0 && s.nodes%16 == 0 {
			s.climb.least(d)
			s.try(s.draft.fromPrices())
		}
	}
	if s.climb.bound >= s.cut() || !s.fix(d) {
		return
	}
	if s.nodes >= s.most {
		s.bound = math.Min(s.bound, s.climb.bound)
		return
	}
	open := 0
	for m := range s.p.machines {
		if !s.p.settled(d, m) {
			open++
		}
	}
	if open == 0 {
		plan := s.p.planOf(d.always)
		s.try(plan, s.p.cost(plan))
		return
	}
	if s.nodes == 1 && os.Getenv("V") != "" {
		println("open", open, int((s.upper-s.climb.bound)/s.upper*1e6), "ppm")
	}
	if s.parts != nil && (open <= inSets || open <= inSetsFirst && depth == 0) {
		s.bySets(d)
		return
	}
	m, t, first := s.branch(d)
	for _, own := range []bool{first, !first} {
		child := d.clone()
		if own {
			child.always[m] |= 1 << t
		} else {
			child.never[m] |= 1 << t
		}
		s.node(child, depth+1)
	}
}

func (s *search) bySets(d domain) {
	small := s.p.reduce(d)
	parts := make([]trade, len(small.kept))
	for i, m := range small.kept {
		parts[i] = s.parts[m]
	}
	plan, cost := small.instance.bySets(parts, small.domain)
	if !math.IsInf(cost, 1) {
		plan = small.whole(plan)
		s.try(plan, s.p.cost(plan))
	}
}

// branch picks the machine and year that are least decided.
func (s *search) branch(d domain) (m, t int, own bool) {
	most := -1.0
	for i := range s.p.machines {
		if s.p.settled(d, i) {
			continue
		}
		sum, worst, at := 0.0, -1.0, 0
		for y := range s.p.years {
			if (d.never[i]|d.always[i])>>y&1 == 1 {
				continue
			}
			mean := s.climb.mean[i*s.p.years+y]
			open := math.Min(mean, 1-mean)
			sum += open
			if open > worst {
				worst, at = open, y
			}
		}
		if sum > most {
			most, m, t = sum, i, at
		}
	}
	return m, t, s.climb.mean[m*s.p.years+t] > 0.5
}

// fix settles the years that no roadmap under the best one so far can have
// otherwise, and tells whether any roadmap is left.
func (s *search) fix(d domain) bool {
	c := s.climb
	total := c.least(d)
	T := s.p.years
	without, with := make([][]float64, len(s.p.machines)), make([][]float64, len(s.p.machines))
	for m := range s.p.machines {
		without[m], with[m] = make([]float64, T), make([]float64, T)
		c.priceOf(m, d)
		c.chain.marginals(d.never[m], d.always[m], without[m], with[m])
		for t := range T {
			without[m][t] -= c.ends[m]
			with[m][t] -= c.ends[m]
		}
	}
	for i := range s.p.tables {
		machines := s.p.tables[i].machines
		for t := range T {
			n, base := c.spread(i, t, d)
			row := s.p.tables[i].cost[t]
			for at, m := range machines {
				lo, hi := infinite, infinite
				for k := range n {
					cost := row[c.sets[k]] + c.sums[k] + base - c.part[i][t]
					if c.sets[k]>>at&1 == 1 {
						hi = math.Min(hi, cost)
					} else {
						lo = math.Min(lo, cost)
					}
				}
				without[m][t] += lo
				with[m][t] += hi
			}
		}
	}
	for m := range s.p.machines {
		for t := range T {
			if (d.never[m]|d.always[m])>>t&1 == 1 {
				continue
			}
			a, b := total+without[m][t] >= s.cut(), total+with[m][t] >= s.cut()
			switch {
			case a && b:
				return false
			case a:
				d.always[m] |= 1 << t
			case b:
				d.never[m] |= 1 << t
			}
		}
	}
	return true
}
