package roadmap

// cell is a table in one year: the cost of each set of its machines that are
// open in that year.
type cell struct {
	machines []int
	cost     []float64
	year     int
	first    int // of its prices at work
	least    float64
	pick     int // set of the least cost
}

// arena holds what the cells are made of.
type arena struct {
	machines []int
	costs    []float64
	sets     []int
	sums     []float64
}

// layCells cuts what the domain settles out of the tables. What is left of one
// machine is a price of owning it.
func (r *relaxation) layCells() {
	r.cells, r.room.machines, r.room.costs = r.cells[:0], r.room.machines[:0], r.room.costs[:0]
	for i := range r.p.tables {
		known := uint32(0)
		for _, m := range r.p.tables[i].machines {
			known |= r.domain.never[m] | r.domain.always[m]
		}
		for t := range r.p.years {
			r.layCell(i, t, known>>t&1 == 0)
		}
	}
}

func (r *relaxation) layCell(i, t int, whole bool) {
	b := &r.p.tables[i]
	row, k, start := b.cost[t], len(b.machines), len(r.room.machines)
	first, kept := len(r.x), r.first[i]+t*k
	places := r.room.sets[:0]
	fixed := 0
	for at, m := range b.machines {
		switch {
		case whole || (r.domain.never[m]|r.domain.always[m])>>t&1 == 0:
			r.room.machines = append(r.room.machines, m)
			places = append(places, at)
		case r.domain.always[m]>>t&1 == 1:
			fixed |= 1 << at
		}
	}
	r.room.sets = places
	machines := r.room.machines[start:]
	switch len(machines) {
	case 0:
		r.base += row[fixed]
		return
	case 1:
		r.base += row[fixed]
		r.settled[r.row(machines[0])+t] += row[fixed|1<<places[0]] - row[fixed]
		return
	}
	for _, at := range places {
		r.put(kept + at)
	}
	if !whole {
		row = r.cut(row, fixed, places)
	}
	r.cells = append(r.cells, cell{machines: machines, cost: row, year: t, first: first})
}

// cut picks the sets of a row that hold what is fixed and any of the places.
func (r *relaxation) cut(row []float64, fixed int, places []int) []float64 {
	start := len(r.room.costs)
	sets := append(r.room.sets, fixed)[len(places):]
	for _, at := range places {
		for _, set := range sets {
			sets = append(sets, set|1<<at)
		}
	}
	for _, set := range sets {
		r.room.costs = append(r.room.costs, row[set])
	}
	return r.room.costs[start:]
}

// leastCells adds up the least costs of the cells, and takes their prices off
// those of owning.
func (r *relaxation) leastCells() float64 {
	total := 0.0
	for i := range r.cells {
		c := &r.cells[i]
		prices := r.x[c.first : c.first+len(c.machines)]
		c.least, c.pick = r.leastSet(c, prices)
		total += c.least
		for at, m := range c.machines {
			r.owning[m*r.p.years+c.year] -= prices[at]
		}
	}
	return total
}

// sumsAt lists the prices of each set of a cell.
func (r *relaxation) sumsAt(c *cell, prices []float64) []float64 {
	sums := r.room.sums[:len(c.cost)]
	sums[0] = 0
	for at, price := range prices {
		n := 1 << at
		low, high := sums[:n], sums[n:2*n]
		for s, sum := range low {
			high[s] = sum + price
		}
	}
	return sums
}

func (r *relaxation) leastSet(c *cell, prices []float64) (float64, int) {
	best, least := 0, infinite
	cost := c.cost
	sums := r.sumsAt(c, prices)[:len(cost)]
	for s, sum := range sums {
		if cost := cost[s] + sum; cost < least {
			least, best = cost, s
		}
	}
	return least, best
}

func (r *relaxation) slopeOfCells() {
	for i := range r.cells {
		c := &r.cells[i]
		slope := r.slope[c.first : c.first+len(c.machines)]
		for at, m := range c.machines {
			slope[at] = float64(c.pick>>at&1 - int(r.owned[m]>>c.year&1))
		}
	}
}
