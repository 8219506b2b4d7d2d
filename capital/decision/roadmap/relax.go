package roadmap

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
	charge []float64   // for buying it, by year
	fill   []*filling  // of each tied year
	owned  []uint32    // years of each machine at the least cost
	chain  *chain

	sums []float64 // of a table at work
	sets []int
	part [][]float64 // least cost of each table and year
	pick [][]int     // its set
	ends []float64   // least cost of each machine
	of   [][]member  // tables of each machine
	tied []int       // years with a budget

	settled    []uint32 // years in which the domain settles a machine of the table
	must, shut [][]int  // machines that must and cannot be bought in a tied year
}

// member is the place of a machine in a table.
type member struct{ table, at int }

func newRelaxation(p *instance) *relaxation {
	n := len(p.machines)
	r := &relaxation{p: p, chain: newChain(p), owning: make([]float64, p.years), charge: make([]float64, p.years),
		owned: make([]uint32, n), ends: make([]float64, n), of: make([][]member, n), settled: make([]uint32, len(p.tables))}
	widest := 0
	for i := range p.tables {
		widest = max(widest, len(p.tables[i].machines))
		r.start = append(r.start, r.size)
		r.size += len(p.tables[i].machines) * p.years
		for at, m := range p.tables[i].machines {
			r.of[m] = append(r.of[m], member{i, at})
		}
		r.part, r.pick = append(r.part, make([]float64, p.years)), append(r.pick, make([]int, p.years))
	}
	r.sums, r.sets = make([]float64, 1<<widest), make([]int, 1<<widest)
	r.limit()
	r.prices = make([]float64, r.size+len(r.tied)*n+len(r.scale))
	r.slope = make([]float64, len(r.prices))
	for i, start := range r.start {
		end := start + len(p.tables[i].machines)*p.years
		r.pull = append(r.pull, r.prices[start:end:end])
	}
	r.buying = r.prices[r.size : r.size+len(r.tied)*n]
	return r
}

// least returns the least cost at the present prices, within the domain, and
// sets the slope. It is +Inf when the domain holds nothing.
func (r *relaxation) least(d domain) float64 {
	r.prepare(d)
	return r.priced(d)
}

// prepare notes what the domain settles: which years of a table, and which
// machines can or must be bought in a year with a budget.
func (r *relaxation) prepare(d domain) {
	for i := range r.p.tables {
		r.settled[i] = 0
		for _, m := range r.p.tables[i].machines {
			r.settled[i] |= d.never[m] | d.always[m]
		}
	}
	for i, t := range r.tied {
		r.must[i], r.shut[i] = r.must[i][:0], r.shut[i][:0]
		for m := range r.p.machines {
			switch open, must := r.p.starts(d, m, t); {
			case must:
				r.must[i] = append(r.must[i], m)
			case !open:
				r.shut[i] = append(r.shut[i], m)
			}
		}
	}
}

// priced is least for the domain that was prepared.
func (r *relaxation) priced(d domain) float64 {
	total := r.limits()
	clear(r.slope)
	total += r.leastTables(d)
	for m := range r.p.machines {
		total += r.leastOf(m, d)
		for _, in := range r.of[m] {
			r.slopeOf(in, m)
		}
		r.slopeOfBuying(m)
	}
	r.slopeOfRooms()
	return total
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
