package roadmap

// climb raises the least cost of a relaxation by moving its prices.
//
// Source: B. T. Polyak, Minimization of Unsmooth Functionals, 1969 (length of a
// step); P. M. Camerini, L. Fratta and F. Maffioli, On Improving Relaxation
// Methods by Modified Gradient Techniques, 1975 (direction).
type climb struct {
	*relaxation
	way   []float64 // direction of the step before
	best  []float64 // prices of the highest bound
	bound float64
	mean  []float64 // how often each machine was owned in each year of late
	work  int       // entries of cells, stays and prices looked at
	stuck int       // steps since the bound last rose
	reach float64   // share of the distance to the target that a step aims for
}

func newClimb(r *relaxation) *climb {
	return &climb{relaxation: r, mean: make([]float64, len(r.p.machines)*r.p.years), bound: -infinite, reach: 1}
}

// begin lays out a domain and forgets the bound of another; the prices stay.
func (c *climb) begin(d domain) {
	c.reach = 1
	c.again(d)
}

// again is begin in a part of the same domain: steps go on as short as they were.
func (c *climb) again(d domain) {
	c.lay(d)
	c.work += c.entries()
	c.bound, c.stuck = -infinite, 0
	c.way, c.best = append(c.way[:0], c.x...), append(c.best[:0], c.x...)
	clear(c.way)
}

// climb moves the prices so many times, or until the bound reaches the target,
// and ends at those of the best bound.
func (c *climb) climb(target float64, steps int) {
	entries := c.entries()
	for range steps {
		c.allow(nearly * (target - c.bound))
		cost := c.priced()
		c.note()
		c.work += entries
		if cost > c.bound {
			c.bound, c.stuck = cost, 0
			copy(c.best, c.x)
		} else if c.stuck++; c.stuck >= patience {
			c.stuck = 0
			c.reach *= 0.7
		}
		if cost >= target {
			break
		}
		c.step(target - cost)
	}
	copy(c.x, c.best)
	c.keep()
}

// nearly is the share of the distance to the target by which fillings may stop
// short of the most: the last of it takes the longest.
const nearly = 0.03

// patience is the number of steps without a gain after which steps get shorter.
const patience = 10

func (c *climb) step(gap float64) {
	along, length := 0.0, 0.0
	way := c.way[:len(c.slope)]
	for i, weight := range c.weights {
		c.slope[i] *= weight
	}
	for i, s := range c.slope {
		along += s * way[i]
		length += way[i] * way[i]
	}
	turn := 0.0
	if along < 0 {
		turn = -1.5 * along / length
	}
	length = 0
	for i, s := range c.slope {
		way[i] = s + turn*way[i]
		length += way[i] * way[i]
	}
	if length == 0 {
		return
	}
	far := c.reach * gap / length
	x := c.x[:len(way)]
	for i, w := range way {
		x[i] += far * w * c.weights[i]
	}
	for i := c.free; i < len(x); i++ {
		x[i] = max(x[i], 0)
	}
}

const lately = 0.1

func (c *climb) note() {
	for _, m := range c.open {
		row, owned := c.mean[c.row(m):c.row(m+1)], c.owned[m]
		for t := range row {
			row[t] += lately * (float64(owned>>t&1) - row[t])
		}
	}
}

// entries counts the entries of cells, the stays and the prices that a step
// looks at.
func (r *relaxation) entries() int {
	count := len(r.x)
	for i := range r.cells {
		count += len(r.cells[i].cost)
	}
	for _, m := range r.open {
		count += len(r.choices[m].stays)
	}
	return count
}
