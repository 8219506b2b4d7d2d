package roadmap

// fix settles the years that no roadmap under the best one so far can have
// otherwise, and tells whether any roadmap is left.
func (s *search) fix(d domain) bool {
	c := s.climb
	total := c.priced()
	c.bound = max(c.bound, total) // there is none yet where a domain was only laid out
	if total >= s.cut() {
		return false
	}
	for _, m := range c.open {
		clear(s.without[c.row(m):c.row(m+1)])
		clear(s.with[c.row(m):c.row(m+1)])
	}
	for i := range c.cells {
		s.ofCell(&c.cells[i])
	}
	for _, m := range c.open {
		s.ofMachine(m)
		for t := range s.p.years {
			if (d.never[m]|d.always[m])>>t&1 == 1 {
				continue
			}
			at := c.row(m) + t
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

// ofCell adds what owning each machine in a year, and not owning it, adds to
// the least cost of a cell.
func (s *search) ofCell(of *cell) {
	c := s.climb
	sums := c.sumsAt(of, c.x[of.first:of.first+len(of.machines)])
	for set := range sums {
		sums[set] += of.cost[set]
	}
	for place, m := range of.machines {
		without, with, bit := infinite, infinite, 1<<place
		for base := 0; base < len(sums); base += 2 * bit {
			for _, cost := range sums[base : base+bit] {
				without = min(without, cost)
			}
			for _, cost := range sums[base+bit : base+2*bit] {
				with = min(with, cost)
			}
		}
		at := c.row(m) + of.year
		s.without[at] += without - of.least
		s.with[at] += with - of.least
	}
}

// ofMachine turns what the cells say of a machine into what owning it in each
// year, and not owning it, adds to the least cost of all: its best stay that
// does so, by its own price, by what the cells add in every year, and by what
// the purchase adds to each year's money.
func (s *search) ofMachine(m int) {
	c := s.climb
	first, end := c.row(m), c.row(m+1)
	without, with := s.without[first:end], s.with[first:end]
	base := -c.ends[m]
	for t := range s.owning {
		s.owning[t] = c.owning[first+t] + with[t] - without[t]
		base += without[t]
	}
	base += c.ofPurchase(m, s.charge)
	c.chain.price(&c.choices[m], s.owning, s.charge)
	c.chain.marginals(&c.choices[m], without, with)
	for t := range with {
		without[t] += base
		with[t] += base
	}
}

// ofPurchase sets the price of buying a machine in each year to what doing so
// adds to the least cost over not doing so, and returns what buying in no year adds.
func (r *relaxation) ofPurchase(m int, charge []float64) float64 {
	copy(charge, r.charge[r.row(m):r.row(m+1)])
	base := 0.0
	for i, t := range r.tied {
		f := &r.tills[i]
		for at, item := range f.machines {
			if item == m {
				out := max(0, f.top-f.beside(at, f.left))
				in := max(0, f.top-f.worth[at]-f.beside(at, f.left-f.size[at]))
				charge[t] += in - out
				base += out
			}
		}
	}
	return base
}
