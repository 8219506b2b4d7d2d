package roadmap

import (
	"math"
	"slices"
)

// relaxation prices what ties the parts of an instance together: that a table
// and a machine mean the same years of owning, that a year's money is limited,
// that room is. At any prices its least cost is no more than that of the
// cheapest roadmap.
//
// It is laid out for one domain at a time: what that settles is out of the
// tables, and out of the limits.
//
// Source: M. L. Fisher, The Lagrangian Relaxation Method for Solving Integer
// Programming Problems, 1981.
type relaxation struct {
	p      *instance
	prices []float64 // all of them, kept from one domain to the next: of owning by table, of buying, of space
	first  []int     // of each table's among the prices: by year, then by machine
	buying int       // first one of buying: by tied year, then by machine
	space  int       // first one of space: by room, then by year
	weight []float64 // of a price's step: prices of much differ by much
	tied   []int     // years with a budget
	chain  *chain
	all    [][]stay // of each machine

	domain  domain
	empty   bool    // the domain holds nothing
	base    float64 // what is settled costs
	cells   []cell
	tills   []till
	spaces  []float64 // left of each room and year
	open    []int     // machines that are not settled
	choices []choice  // of each machine
	barred  []uint32  // years in which each machine costs more than there is
	settled []float64 // price of owning by machine and year that no price can move

	x       []float64 // prices at work
	kept    []int     // where each is kept among the prices
	weights []float64 // of each
	slope   []float64 // of the least cost
	free    int       // so many of x are not limited in sign: those of owning

	owning []float64 // price by machine and year
	charge []float64 // price of buying by machine and year
	ends   []float64 // least cost of each machine
	owned  []uint32  // its years
	room   arena
}

func newRelaxation(p *instance) *relaxation {
	n := len(p.machines)
	r := &relaxation{p: p, chain: newChain(p.years), choices: make([]choice, n), owned: make([]uint32, n), ends: make([]float64, n)}
	widest, entries := 0, 0
	for i := range p.tables {
		widest = max(widest, len(p.tables[i].machines))
		entries += p.years << len(p.tables[i].machines)
		r.first = append(r.first, r.buying)
		r.buying += len(p.tables[i].machines) * p.years
	}
	r.room.sets, r.room.sums = make([]int, widest+1<<widest), make([]float64, 1<<widest)
	r.room.machines, r.room.costs = make([]int, 0, r.buying), make([]float64, 0, entries)
	r.cells, r.barred = make([]cell, 0, len(p.tables)*p.years), make([]uint32, n)
	for t, limit := range p.budget {
		if !math.IsInf(limit, 1) {
			r.tied = append(r.tied, t)
		}
	}
	r.space = r.buying + len(r.tied)*n
	r.prices = make([]float64, r.space+len(p.rooms)*p.years)
	r.x, r.weights, r.kept = make([]float64, 0, len(r.prices)), make([]float64, 0, len(r.prices)), make([]int, 0, len(r.prices))
	r.slope = make([]float64, len(r.prices))
	r.spaces = make([]float64, len(p.rooms)*p.years)
	r.tills = make([]till, len(r.tied))
	for m := range p.machines {
		r.all = append(r.all, p.staysOf(m))
		r.choices[m].again = p.machines[m].again
	}
	r.weigh()
	r.settled, r.owning, r.charge = make([]float64, n*p.years), make([]float64, n*p.years), make([]float64, n*p.years)
	return r
}

// weigh sets the weights: the root of what a table tells apart in a year, of what a
// machine costs, and for rooms of what the dearest does.
func (r *relaxation) weigh() {
	r.weight = make([]float64, len(r.prices))
	for i := range r.p.tables {
		k := len(r.p.tables[i].machines)
		for t := range r.p.years {
			root := math.Sqrt(r.p.apart(i, t))
			for at := range k {
				r.weight[r.first[i]+t*k+at] = root
			}
		}
	}
	ofPrice := func(paid float64) float64 { return 1.5 * math.Sqrt(paid) }
	for i, t := range r.tied {
		for m := range r.p.machines {
			r.weight[r.buying+i*len(r.p.machines)+m] = ofPrice(r.p.machines[m].paid[t][t])
		}
	}
	for k := range r.p.rooms {
		for t := range r.p.years {
			r.weight[r.space+k*r.p.years+t] = ofPrice(r.p.dearest(t))
		}
	}
}

// dearest is what the dearest machine costs in a year.
func (p *instance) dearest(t int) float64 {
	most := 0.0
	for m := range p.machines {
		most = max(most, p.machines[m].paid[t][t])
	}
	return most
}

// apart is how much a table tells apart in a year. What is forbidden costs far more
// than a price needs to say: beside it stands what the dearest of the machines costs.
func (p *instance) apart(i, t int) float64 {
	row, least := p.tables[i].cost[t], slices.Min(p.tables[i].cost[t])
	most := least
	for _, cost := range row {
		if cost < p.forbidden() {
			most = max(most, cost)
			continue
		}
		for _, m := range p.tables[i].machines {
			most = max(most, least+p.machines[m].paid[t][t])
		}
	}
	return most - least
}

// least returns the least cost at the present prices, within the domain, and
// sets the slope. It is +Inf when the domain holds nothing.
func (r *relaxation) least(d domain) float64 {
	r.lay(d)
	return r.priced()
}

// lay lays the relaxation out for a domain.
func (r *relaxation) lay(d domain) {
	r.domain, r.empty, r.base = d, false, 0
	r.x, r.kept, r.weights, r.open = r.x[:0], r.kept[:0], r.weights[:0], r.open[:0]
	clear(r.settled)
	r.layCells()
	r.free = len(r.x)
	r.layLimits()
	for m := range r.p.machines {
		if !r.p.settled(d, m) {
			r.open = append(r.open, m)
		}
	}
	r.slope = r.slope[:len(r.x)]
}

// put takes a price up.
func (r *relaxation) put(at int) {
	r.kept = append(r.kept, at)
	r.x = append(r.x, r.prices[at])
	r.weights = append(r.weights, r.weight[at])
}

// keep writes the prices at work back.
func (r *relaxation) keep() {
	for i, at := range r.kept {
		r.prices[at] = r.x[i]
	}
}

// priced is least for the domain that is laid out.
func (r *relaxation) priced() float64 {
	if r.empty {
		return infinite
	}
	copy(r.owning, r.settled)
	total := r.base + r.leastCells() + r.priceRooms() + r.priceBuying()
	for _, m := range r.open {
		row := r.row(m)
		r.chain.price(&r.choices[m], r.owning[row:row+r.p.years], r.charge[row:row+r.p.years])
		r.ends[m], r.owned[m] = r.chain.best(&r.choices[m])
		total += r.ends[m]
	}
	r.slopeOfCells()
	r.slopeOfBuying()
	r.slopeOfRooms()
	return total
}

// row is where the years of a machine begin.
func (r *relaxation) row(m int) int { return m * r.p.years }
