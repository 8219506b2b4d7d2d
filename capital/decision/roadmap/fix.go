package roadmap

import "math"

// fix settles the years that no roadmap under the best one so far can have
// otherwise, and tells whether any roadmap is left.
func (s *search) fix(d domain) bool {
	total := s.climb.least(d)
	for m := range s.p.machines {
		s.ofMachine(m, d)
	}
	for i := range s.p.tables {
		for t := range s.p.years {
			s.ofTable(i, t, d)
		}
	}
	for m := range s.p.machines {
		for t := range s.p.years {
			if (d.never[m]|d.always[m])>>t&1 == 1 {
				continue
			}
			at := m*s.p.years + t
			must, never := total+s.without[at] >= s.cut(), total+s.with[at] >= s.cut()
			switch {
			case must && never:
				return false
			case must:
				d.always[m] |= 1 << t
			case never:
				d.never[m] |= 1 << t
			}
		}
	}
	return true
}

// ofMachine is what owning a machine in each year, and not owning it, adds to
// its least cost.
func (s *search) ofMachine(m int, d domain) {
	c, first, end := s.climb, m*s.p.years, (m+1)*s.p.years
	c.priceOf(m, d)
	c.chain.marginals(d.never[m], d.always[m], s.without[first:end], s.with[first:end])
	for at := first; at < end; at++ {
		s.without[at] -= c.ends[m]
		s.with[at] -= c.ends[m]
	}
}

// ofTable adds what they add to the least cost of a table in year t.
func (s *search) ofTable(i, t int, d domain) {
	c := s.climb
	n, base := c.spread(i, t, d)
	row, least := s.p.tables[i].cost[t], c.part[i][t]-base
	for place, m := range s.p.tables[i].machines {
		without, with := infinite, infinite
		for k, set := range c.sets[:n] {
			cost := row[set] + c.sums[k] - least
			if set>>place&1 == 1 {
				with = math.Min(with, cost)
			} else {
				without = math.Min(without, cost)
			}
		}
		s.without[m*s.p.years+t] += without
		s.with[m*s.p.years+t] += with
	}
}
