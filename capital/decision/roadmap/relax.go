package roadmap

import "math"

// relaxation prices what ties the parts of an instance together: that a table
// and a machine mean the same years of owning, that a year's money is limited,
// that room is. At any prices its least cost is no more than that of the
// cheapest roadmap.
//
// Source: M. L. Fisher, The Lagrangian Relaxation Method for Solving Integer
// Programming Problems, 1981.
type relaxation struct {
	p      *instance
	prices []float64 // all of them, in the order of slope
	size   int       // of those that are not limited in sign: the pulls

	pull   [][]float64 // pull[i][t*k+at]: price of owning machine at of table i in year t
	start  []int       // of each table's pulls among the prices
	buying []float64   // by tied year and machine: of buying it then
	space  [][]float64 // by room and year
	scale  []float64   // prices of space are so many times what slope says
	slope  []float64   // of the least cost, by price
	owning []float64   // of the machine at work
	charge []float64
	fill   []*filling
	owned  []uint32 // years of each machine at the least cost
	chain  *chain

	sums []float64 // of a table at work
	sets []int
	part [][]float64 // least cost of each table and year
	pick [][]int     // its set
	ends []float64   // least cost of each machine
	of   [][]member  // tables of each machine
	tied []int       // years with a budget
}

// member is the place of a machine in a table.
type member struct{ table, at int }

func newRelaxation(p *instance) *relaxation {
	r := &relaxation{p: p, chain: newChain(p), owning: make([]float64, p.years), charge: make([]float64, p.years),
		owned: make([]uint32, len(p.machines)), ends: make([]float64, len(p.machines)), of: make([][]member, len(p.machines))}
	widest := 0
	for i := range p.tables {
		k := len(p.tables[i].machines)
		widest = max(widest, k)
		r.size += k * p.years
		for at, m := range p.tables[i].machines {
			r.of[m] = append(r.of[m], member{i, at})
		}
		r.part, r.pick = append(r.part, make([]float64, p.years)), append(r.pick, make([]int, p.years))
	}
	r.sums, r.sets = make([]float64, 1<<widest), make([]int, 1<<widest)
	for t, limit := range p.budget {
		if !math.IsInf(limit, 1) {
			r.tied = append(r.tied, t)
			size := make([]float64, len(p.machines))
			for m := range size {
				size[m] = p.machines[m].paid[t][t]
			}
			r.fill = append(r.fill, newFilling(size))
		}
	}
	for i := range p.rooms {
		for range p.years {
			r.scale = append(r.scale, 1/math.Max(p.rooms[i].most, 1e-9))
		}
		r.space = append(r.space, make([]float64, p.years))
	}
	r.prices = make([]float64, r.size+len(r.tied)*len(p.machines)+len(r.scale))
	r.buying = r.prices[r.size : r.size+len(r.tied)*len(p.machines)]
	r.slope = make([]float64, len(r.prices))
	at := 0
	for i := range p.tables {
		k := len(p.tables[i].machines) * p.years
		r.pull, r.start = append(r.pull, r.prices[at:at+k:at+k]), append(r.start, at)
		at += k
	}
	return r
}

// least returns the least cost at the present prices, within the domain, and
// sets the slope. It is +Inf when the domain holds nothing.
func (r *relaxation) least(d domain) float64 {
	total := r.limits(d)
	clear(r.slope)
	total += r.leastTables(d)
	for m := range r.p.machines {
		cost := r.leastOf(m, d)
		total += cost
		for _, in := range r.of[m] {
			r.slopeOf(in, m)
		}
		r.slopeOfLimits(m)
	}
	return total
}

// limits sets the prices of space, and returns what the limits take off.
func (r *relaxation) limits(d domain) float64 {
	total := 0.0
	for i := range r.tied {
		total -= r.fillYear(i, d)
	}
	at := r.size + len(r.buying)
	for k := range r.space {
		for t := range r.space[k] {
			r.space[k][t] = r.prices[at] * r.scale[at-r.size-len(r.buying)]
			total -= r.space[k][t] * r.p.rooms[k].most
			at++
		}
	}
	return total
}

// fillYear returns what the purchases of a year with a budget are worth at most.
func (r *relaxation) fillYear(i int, d domain) float64 {
	t, fill := r.tied[i], r.fill[i]
	left, sure := withDust(r.p.budget[t]), 0.0
	copy(fill.worth, r.buying[i*len(r.p.machines):])
	for m := range fill.worth {
		open, must := r.p.starts(d, m, t)
		if must {
			left -= fill.size[m]
			sure += fill.worth[m]
		}
		if must || !open {
			fill.worth[m] = 0
		}
	}
	if left < 0 {
		return -infinite
	}
	most := fill.most(left)
	for m := range fill.best {
		if _, must := r.p.starts(d, m, t); must {
			fill.best[m] = true
		}
	}
	return sure + most
}

// starts tells whether a machine can be bought in year t, and whether it must be.
func (p *instance) starts(d domain, m, t int) (open, must bool) {
	switch {
	case d.never[m]>>t&1 == 1, t > 0 && d.always[m]>>(t-1)&1 == 1, !p.again && d.always[m]&years(0, t) != 0:
		return false, false
	}
	return true, d.always[m]>>t&1 == 1 && (t == 0 || d.never[m]>>(t-1)&1 == 1)
}

func (r *relaxation) leastTables(d domain) float64 {
	total := 0.0
	for i := range r.p.tables {
		for t := range r.p.years {
			cost, set := r.leastTable(i, t, d)
			r.part[i][t], r.pick[i][t] = cost, set
			total += cost
		}
	}
	return total
}

// leastTable goes through the sets of a table that the domain allows in year t.
func (r *relaxation) leastTable(i, t int, d domain) (float64, int) {
	n, base := r.spread(i, t, d)
	row, best, least := r.p.tables[i].cost[t], 0, infinite
	sums, sets := r.sums[:n], r.sets[:n]
	for s, sum := range sums {
		if cost := row[sets[s]] + sum; cost < least {
			least, best = cost, sets[s]
		}
	}
	return least + base, best
}

// spread lists the sets of a table that the domain allows in year t, each with
// the sum of its prices over base.
func (r *relaxation) spread(i, t int, d domain) (n int, base float64) {
	machines := r.p.tables[i].machines
	pull := r.pull[i][t*len(machines):]
	r.sums[0], r.sets[0], n = 0, 0, 1
	for at, m := range machines {
		switch {
		case d.always[m]>>t&1 == 1:
			base += pull[at]
			for s := range n {
				r.sets[s] |= 1 << at
			}
		case d.never[m]>>t&1 == 0:
			price, bit := pull[at], 1<<at
			sums, sets, sums2, sets2 := r.sums[:n], r.sets[:n], r.sums[n:2*n], r.sets[n:2*n]
			for s := range sums {
				sums2[s], sets2[s] = sums[s]+price, sets[s]|bit
			}
			n *= 2
		}
	}
	return n, base
}

// leastOf prices one machine's years.
func (r *relaxation) leastOf(m int, d domain) float64 {
	r.priceOf(m, d)
	r.ends[m], r.owned[m] = r.chain.best(d.always[m])
	return r.ends[m]
}

func (r *relaxation) priceOf(m int, d domain) {
	for t := range r.owning {
		r.owning[t] = 0
		for k := range r.space {
			r.owning[t] += r.space[k][t] * r.p.rooms[k].need[m]
		}
	}
	for _, in := range r.of[m] {
		pull, k := r.pull[in.table], len(r.p.tables[in.table].machines)
		for t := range r.owning {
			r.owning[t] -= pull[t*k+in.at]
		}
	}
	for i, t := range r.tied {
		r.charge[t] = r.buying[i*len(r.p.machines)+m]
	}
	r.chain.price(&r.p.machines[m], d.never[m], r.owning, r.charge)
}

func (r *relaxation) slopeOf(in member, m int) {
	k, start := len(r.p.tables[in.table].machines), r.start[in.table]
	for t := range r.p.years {
		r.slope[start+t*k+in.at] = float64(r.pick[in.table][t]>>in.at&1) - float64(r.owned[m]>>t&1)
	}
}

// slopeOfLimits adds what machine m takes of money and room.
func (r *relaxation) slopeOfLimits(m int) {
	n := len(r.p.machines)
	for i := range r.tied {
		if r.fill[i].best[m] {
			r.slope[r.size+i*n+m] = -1
		}
	}
	for _, s := range spansOf(m, r.owned[m], r.p.years) {
		for i, t := range r.tied {
			if t == s.from {
				r.slope[r.size+i*n+m]++
			}
		}
	}
	at := r.size + len(r.buying)
	scale := 0
	for k := range r.space {
		for t := range r.p.years {
			if m == 0 {
				r.slope[at] = -r.p.rooms[k].most * r.scale[scale]
			}
			if r.owned[m]>>t&1 == 1 {
				r.slope[at] += r.p.rooms[k].need[m] * r.scale[scale]
			}
			at++
			scale++
		}
	}
}
