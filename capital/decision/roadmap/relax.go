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
	money  []float64   // by year, for each unit of money over the budget
	space  [][]float64 // by room and year
	scale  []float64   // prices of money and space are so many times what slope says
	slope  []float64   // of the least cost, by price
	owning []float64   // of the machine at work
	owned  []uint32    // years of each machine at the least cost
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
	r := &relaxation{p: p, chain: newChain(p), owning: make([]float64, p.years), money: make([]float64, p.years),
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
			r.tied, r.scale = append(r.tied, t), append(r.scale, 1/math.Max(limit, 1))
		}
	}
	for i := range p.rooms {
		for range p.years {
			r.scale = append(r.scale, 1/math.Max(p.rooms[i].most, 1e-9))
		}
		r.space = append(r.space, make([]float64, p.years))
	}
	r.prices = make([]float64, r.size+len(r.scale))
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
	total := r.limits()
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

// limits sets the prices of money and space, and returns what they take off.
func (r *relaxation) limits() float64 {
	total, at := 0.0, r.size
	for i, t := range r.tied {
		r.money[t] = r.prices[at+i] * r.scale[i]
		total -= r.money[t] * r.p.budget[t]
	}
	at += len(r.tied)
	for k := range r.space {
		for t := range r.space[k] {
			i := at - r.size
			r.space[k][t] = r.prices[at] * r.scale[i]
			total -= r.space[k][t] * r.p.rooms[k].most
			at++
		}
	}
	return total
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
	r.chain.price(&r.p.machines[m], d.never[m], r.owning, r.money)
}

func (r *relaxation) slopeOf(in member, m int) {
	k, start := len(r.p.tables[in.table].machines), r.start[in.table]
	for t := range r.p.years {
		r.slope[start+t*k+in.at] = float64(r.pick[in.table][t]>>in.at&1) - float64(r.owned[m]>>t&1)
	}
}

// slopeOfLimits adds what machine m takes of money and room.
func (r *relaxation) slopeOfLimits(m int) {
	spans := spansOf(m, r.owned[m], r.p.years)
	for i, t := range r.tied {
		if m == 0 {
			r.slope[r.size+i] = -r.p.budget[t] * r.scale[i]
		}
		for _, s := range spans {
			if s.from <= t && t < s.to {
				r.slope[r.size+i] += r.p.machines[m].paid[s.from][t] * r.scale[i]
			}
		}
	}
	at := r.size + len(r.tied)
	for k := range r.space {
		for t := range r.p.years {
			if m == 0 {
				r.slope[at] = -r.p.rooms[k].most * r.scale[at-r.size]
			}
			if r.owned[m]>>t&1 == 1 {
				r.slope[at] += r.p.rooms[k].need[m] * r.scale[at-r.size]
			}
			at++
		}
	}
}
