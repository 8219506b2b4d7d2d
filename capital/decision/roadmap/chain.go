package roadmap

import "math"

// chain finds the cheapest years of owning one machine when each year's owning
// and each year's money have prices of their own.
type chain struct {
	years int
	again bool        // the machine priced last may be bought again
	cost  [][]float64 // of the span from a to b at these prices
	idle  []float64   // cheapest up to the start of a year, not owning in the year before
	sold  []float64   // cheapest up to the start of a year, sold then
	from  []int       // of the span that is sold
	held  []bool      // whether not owning before a year begins with a sale at its start
}

func newChain(p *instance) *chain {
	c := &chain{years: p.years, cost: make([][]float64, p.years)}
	for a := range c.cost {
		c.cost[a] = make([]float64, p.years+1)
	}
	c.idle, c.sold = make([]float64, p.years+1), make([]float64, p.years+1)
	c.from, c.held = make([]int, p.years+1), make([]bool, p.years+1)
	return c
}

// price fills in the cost of each span within the domain.
func (c *chain) price(m *machine, never uint32, owning, charge []float64) {
	c.again = m.again
	for a := range c.years {
		sum, own, row := charge[a], m.own[a], c.cost[a]
		for b := a + 1; b <= c.years; b++ {
			sum += owning[b-1]
			row[b] = own[b] + sum
			if never>>(b-1)&1 == 1 {
				for ; b <= c.years; b++ {
					row[b] = infinite
				}
			}
		}
	}
}

// best returns the least cost and the years owned, for years that must be owned.
func (c *chain) best(always uint32) (float64, uint32) {
	if c.again {
		return c.bestPath(always)
	}
	least, owned := infinite, uint32(0)
	if always == 0 {
		least = 0
	}
	for a := range c.years {
		if always&years(0, a) != 0 {
			break
		}
		for b := a + 1; b <= c.years; b++ {
			if c.cost[a][b] < least && always&years(b, c.years) == 0 {
				least, owned = c.cost[a][b], years(a, b)
			}
		}
	}
	return least, owned
}

// bestPath is best where a machine may be bought again, a year after at the earliest.
func (c *chain) bestPath(always uint32) (float64, uint32) {
	c.idle[0], c.sold[0] = 0, infinite
	for b := 1; b <= c.years; b++ {
		c.idle[b], c.held[b] = c.idle[b-1], false
		if c.sold[b-1] < c.idle[b] {
			c.idle[b], c.held[b] = c.sold[b-1], true
		}
		if always>>(b-1)&1 == 1 {
			c.idle[b] = infinite
		}
		c.sold[b] = infinite
		for a := range b {
			if sum := c.idle[a] + c.cost[a][b]; sum < c.sold[b] {
				c.sold[b], c.from[b] = sum, a
			}
		}
	}
	least := math.Min(c.idle[c.years], c.sold[c.years])
	return least, c.trace(c.years, c.sold[c.years] < c.idle[c.years])
}

func (c *chain) trace(t int, sold bool) uint32 {
	owned := uint32(0)
	for t > 0 {
		if sold {
			owned |= years(c.from[t], t)
			t, sold = c.from[t], false
			continue
		}
		t, sold = t-1, c.held[t]
	}
	return owned
}

// marginals fills in, for each year, the least cost when the machine is not
// owned in it and when it is.
func (c *chain) marginals(never, always uint32, without, with []float64) {
	for t := range c.years {
		without[t], with[t] = infinite, infinite
	}
	if c.again {
		c.pathMarginals(always, without, with)
		return
	}
	note := func(cost float64, owned uint32) {
		if always&^owned != 0 {
			return
		}
		for t := range c.years {
			if owned>>t&1 == 1 {
				with[t] = math.Min(with[t], cost)
			} else {
				without[t] = math.Min(without[t], cost)
			}
		}
	}
	note(0, 0)
	for a := range c.years {
		for b := a + 1; b <= c.years && never>>(b-1)&1 == 0; b++ {
			if !math.IsInf(c.cost[a][b], 1) {
				note(c.cost[a][b], years(a, b))
			}
		}
	}
}

// pathMarginals goes through the years from both ends.
func (c *chain) pathMarginals(always uint32, without, with []float64) {
	c.bestPath(always)
	free := make([]float64, c.years+2) // cheapest from a year on, not owning at its start, free to buy
	rest := make([]float64, c.years+2) // the same, just sold: the year itself is idle
	for t := c.years - 1; t >= 0; t-- {
		rest[t] = free[t+1]
		if always>>t&1 == 1 {
			rest[t] = infinite
		}
		free[t] = rest[t]
		for b := t + 1; b <= c.years; b++ {
			free[t] = math.Min(free[t], c.cost[t][b]+rest[b])
		}
	}
	for t := range c.years {
		if always>>t&1 == 0 {
			without[t] = math.Min(c.idle[t], c.sold[t]) + free[t+1]
		}
		for b := t + 1; b <= c.years; b++ {
			for a := 0; a <= t; a++ {
				with[t] = math.Min(with[t], c.idle[a]+c.cost[a][b]+rest[b])
			}
		}
	}
}
