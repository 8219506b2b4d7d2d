package roadmap

import (
	"cmp"
	"math"
	"slices"
)

// stay is one span of a machine: what owning it so costs by itself, and at the
// prices of the moment.
type stay struct {
	from, to  int
	own, cost float64
}

// choice is what a domain leaves of one machine.
type choice struct {
	again  bool
	always uint32 // years in which it must be owned
	stays  []stay // by their end, then by their start
}

// staysOf lists the spans in which a machine may be owned.
func (p *instance) staysOf(m int) []stay {
	var list []stay
	for a, row := range p.machines[m].own {
		for b := a + 1; b <= p.years; b++ {
			if !math.IsInf(row[b], 1) {
				list = append(list, stay{from: a, to: b, own: row[b]})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b stay) int { return cmp.Compare(a.to, b.to) })
	return list
}

// narrow keeps of all stays those that a domain allows, none of which begins in
// a barred year.
func (c *choice) narrow(all []stay, never, always, barred uint32) {
	c.always, c.stays = always, c.stays[:0]
	for _, s := range all {
		owned := years(s.from, s.to)
		beside := always &^ owned
		if c.again {
			beside &= owned<<1 | owned>>1 // it is idle in the years before and after
		}
		if owned&never|beside|barred&(1<<s.from) == 0 {
			c.stays = append(c.stays, s)
		}
	}
}

// keep drops the stays that go on in a year, by that of their start.
func (c *choice) keep(until []int) {
	n := 0
	for _, s := range c.stays {
		if s.to <= until[s.from] {
			c.stays[n] = s
			n++
		}
	}
	c.stays = c.stays[:n]
}

// chain finds the cheapest years of owning one machine when each year's owning
// and each year's purchase have prices of their own.
type chain struct {
	years int
	sums  []float64 // of owning before a year
	idle  []float64 // cheapest up to the start of a year, not owning in the year before
	sold  []float64 // cheapest up to the start of a year, sold then
	free  []float64 // cheapest from a year on, not owning at its start, free to buy
	rest  []float64 // the same, just sold: the year itself is idle
	last  []int     // of the stay that is sold
	held  []bool    // whether not owning before a year begins with a sale at its start
}

func newChain(years int) *chain {
	room := func() []float64 { return make([]float64, years+2) }
	return &chain{years: years, sums: room(), idle: room(), sold: room(), free: room(), rest: room(),
		last: make([]int, years+1), held: make([]bool, years+1)}
}

// price sets the cost of each stay.
func (c *chain) price(of *choice, owning, charge []float64) {
	sum := 0.0
	for t, price := range owning {
		sum += price
		c.sums[t+1] = sum
	}
	for i := range of.stays {
		s := &of.stays[i]
		s.cost = s.own + charge[s.from] + c.sums[s.to] - c.sums[s.from]
	}
}

// best returns the least cost and the years owned.
func (c *chain) best(of *choice) (float64, uint32) {
	if of.again {
		return c.bestPath(of)
	}
	least, at := infinite, -1
	if of.always == 0 {
		least = 0
	}
	for i := range of.stays {
		if of.stays[i].cost < least {
			least, at = of.stays[i].cost, i
		}
	}
	if at < 0 {
		return least, 0
	}
	return least, years(of.stays[at].from, of.stays[at].to)
}

// bestPath is best where a machine may be bought again, a year after at the earliest.
func (c *chain) bestPath(of *choice) (float64, uint32) {
	c.forward(of)
	least := min(c.idle[c.years], c.sold[c.years])
	if math.IsInf(least, 1) {
		return least, 0
	}
	owned, t, sold := uint32(0), c.years, c.sold[c.years] < c.idle[c.years]
	for t > 0 {
		if sold {
			from := of.stays[c.last[t]].from
			owned |= years(from, t)
			t, sold = from, false
			continue
		}
		t, sold = t-1, c.held[t]
	}
	return least, owned
}

func (c *chain) forward(of *choice) {
	c.idle[0], c.sold[0] = 0, infinite
	i := 0
	for b := 1; b <= c.years; b++ {
		c.idle[b], c.held[b] = c.idle[b-1], false
		if c.sold[b-1] < c.idle[b] {
			c.idle[b], c.held[b] = c.sold[b-1], true
		}
		if of.always>>(b-1)&1 == 1 {
			c.idle[b] = infinite
		}
		least := infinite
		for ; i < len(of.stays) && of.stays[i].to == b; i++ {
			if sum := c.idle[of.stays[i].from] + of.stays[i].cost; sum < least {
				least, c.last[b] = sum, i
			}
		}
		c.sold[b] = least
	}
}

// marginals fills in, for each year, the least cost when the machine is not
// owned in it and when it is.
func (c *chain) marginals(of *choice, without, with []float64) {
	for t := range c.years {
		without[t], with[t] = infinite, infinite
	}
	if of.again {
		c.pathMarginals(of, without, with)
		return
	}
	if of.always == 0 {
		clear(without)
	}
	for i := range of.stays {
		s := &of.stays[i]
		for t := range s.from {
			without[t] = min(without[t], s.cost)
		}
		for t := s.from; t < s.to; t++ {
			with[t] = min(with[t], s.cost)
		}
		for t := s.to; t < c.years; t++ {
			without[t] = min(without[t], s.cost)
		}
	}
}

// pathMarginals goes through the years from both ends.
func (c *chain) pathMarginals(of *choice, without, with []float64) {
	c.forward(of)
	for t := range c.free {
		c.free[t], c.rest[t] = infinite, infinite
	}
	for t := c.years; t <= c.years+1; t++ {
		c.free[t], c.rest[t] = 0, 0
	}
	for t := c.years - 1; t > 0; t-- { // the first year has none before it that could be sold
		if of.always>>t&1 == 0 {
			c.rest[t] = c.free[t+1]
		}
		c.free[t] = c.rest[t]
		for i := range of.stays {
			if s := &of.stays[i]; s.from == t {
				c.free[t] = min(c.free[t], s.cost+c.rest[s.to])
			}
		}
	}
	for t := range c.years {
		if of.always>>t&1 == 0 {
			without[t] = min(c.idle[t], c.sold[t]) + c.free[t+1]
		}
	}
	for i := range of.stays {
		s := &of.stays[i]
		for t := s.from; t < s.to; t++ {
			with[t] = min(with[t], c.idle[s.from]+s.cost+c.rest[s.to])
		}
	}
}
