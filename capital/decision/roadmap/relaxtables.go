package roadmap

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
	if r.settled[i]>>t&1 == 0 {
		return r.leastOpen(i, t)
	}
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

// leastOpen is leastTable where every set is allowed.
func (r *relaxation) leastOpen(i, t int) (float64, int) {
	row := r.p.tables[i].cost[t]
	sums := r.sums[:len(row)]
	sums[0] = 0
	k := len(r.p.tables[i].machines)
	for at, price := range r.pull[i][t*k : t*k+k] {
		n := 1 << at
		low, high := sums[:n], sums[n:2*n]
		for s := range low {
			high[s] = low[s] + price
		}
	}
	best, least := 0, infinite
	for s, sum := range sums {
		if cost := row[s] + sum; cost < least {
			least, best = cost, s
		}
	}
	return least, best
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
