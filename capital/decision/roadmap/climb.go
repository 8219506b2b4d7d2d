package roadmap

// climb raises the least cost of a relaxation by moving its prices.
//
// Source: B. T. Polyak, Minimization of Unsmooth Functionals, 1969 (length of a
// step); P. M. Camerini, L. Fratta and F. Maffioli, On Improving Relaxation
// Methods by Modified Gradient Techniques, 1975 (direction).
type climb struct {
	*relaxation
	way     []float64 // direction of the step before
	best    []float64 // prices of the highest bound
	bound   float64
	mean    []float64 // how often each machine was owned in each year of late
	work    int       // entries of tables and spans looked at
	entries int       // of them in one step
	stuck   int       // steps since the bound last rose
	reach   float64   // share of the distance to the target that a step aims for
}

func newClimb(r *relaxation) *climb {
	return &climb{relaxation: r, way: make([]float64, len(r.prices)), best: make([]float64, len(r.prices)),
		mean: make([]float64, len(r.p.machines)*r.p.years), bound: -infinite, reach: 1, entries: r.p.entries()}
}

// begin forgets the bound of another domain; the prices stay.
func (c *climb) begin() {
	c.bound, c.reach, c.stuck = -infinite, 1, 0
	clear(c.way)
}

// climb moves the prices so many times, or until the bound reaches the target.
func (c *climb) climb(d domain, target float64, steps int) {
	c.prepare(d)
	for range steps {
		cost := c.priced(d)
		c.note()
		c.work += c.entries
		if cost > c.bound {
			c.bound, c.stuck = cost, 0
			copy(c.best, c.prices)
		} else if c.stuck++; c.stuck >= patience {
			c.stuck = 0
			c.reach *= 0.7
			copy(c.prices, c.best)
			clear(c.way)
			continue
		}
		if cost >= target {
			return
		}
		c.step(target - cost)
	}
}

// patience is the number of steps without a gain after which steps get shorter.
const patience = 10

// back returns to the prices of the best bound.
func (c *climb) back() { copy(c.prices, c.best) }

func (c *climb) step(gap float64) {
	along, length := 0.0, 0.0
	for i, s := range c.slope {
		along += s * c.way[i]
		length += c.way[i] * c.way[i]
	}
	turn := 0.0
	if along < 0 {
		turn = -1.5 * along / length
	}
	length = 0
	for i, s := range c.slope {
		c.way[i] = s + turn*c.way[i]
		length += c.way[i] * c.way[i]
	}
	if length == 0 {
		return
	}
	far := c.reach * gap / length
	for i := range c.prices {
		c.prices[i] += far * c.way[i]
		if i >= c.size && c.prices[i] < 0 {
			c.prices[i] = 0
		}
	}
}

const lately = 0.1

func (c *climb) note() {
	for m, owned := range c.owned {
		row := c.mean[m*c.p.years : (m+1)*c.p.years]
		for t := range row {
			row[t] += lately * (float64(owned>>t&1) - row[t])
		}
	}
}

// entries counts the entries of tables and the spans of an instance.
func (p *instance) entries() int {
	count := len(p.machines) * p.years * p.years
	for i := range p.tables {
		count += p.years << len(p.tables[i].machines)
	}
	return count
}
