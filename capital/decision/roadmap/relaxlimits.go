package roadmap

import "math"

// limit takes up the budgets and rooms of the instance.
func (r *relaxation) limit() {
	for t, limit := range r.p.budget {
		if math.IsInf(limit, 1) {
			continue
		}
		size := make([]float64, len(r.p.machines))
		for m := range size {
			size[m] = r.p.machines[m].paid[t][t]
		}
		r.tied, r.fill = append(r.tied, t), append(r.fill, newFilling(size))
	}
	for i := range r.p.rooms {
		for _, most := range r.p.rooms[i].most {
			r.scale = append(r.scale, 1/math.Max(most, 1e-9))
		}
		r.space = append(r.space, make([]float64, r.p.years))
	}
	r.must, r.shut = make([][]int, len(r.tied)), make([][]int, len(r.tied))
}

// limits sets the prices of space, and returns what the limits take off.
func (r *relaxation) limits() float64 {
	total := 0.0
	for i := range r.tied {
		total -= r.fillYear(i)
	}
	at := r.size + len(r.buying)
	for k := range r.space {
		for t := range r.space[k] {
			r.space[k][t] = r.prices[at] * r.scale[at-r.size-len(r.buying)]
			total -= r.space[k][t] * r.p.rooms[k].most[t]
			at++
		}
	}
	return total
}

// fillYear returns what the purchases of a year with a budget are worth at most.
func (r *relaxation) fillYear(i int) float64 {
	fill, left, sure := r.fill[i], withDust(r.p.budget[r.tied[i]]), 0.0
	copy(fill.worth, r.buying[i*len(r.p.machines):])
	for _, m := range r.shut[i] {
		fill.worth[m] = 0
	}
	for _, m := range r.must[i] {
		left -= fill.size[m]
		sure += fill.worth[m]
		fill.worth[m] = 0
	}
	if left < 0 {
		return -infinite
	}
	most := fill.most(left)
	for _, m := range r.must[i] {
		fill.best[m] = true
	}
	return sure + most
}

// starts tells whether a machine can be bought in year t, and whether it must be.
func (p *instance) starts(d domain, m, t int) (open, must bool) {
	switch {
	case d.never[m]>>t&1 == 1, t > 0 && d.always[m]>>(t-1)&1 == 1, !p.machines[m].again && d.always[m]&years(0, t) != 0:
		return false, false
	}
	return true, d.always[m]>>t&1 == 1 && (t == 0 || d.never[m]>>(t-1)&1 == 1)
}

// slopeOfBuying adds what machine m buys, less what the budgets make most of.
func (r *relaxation) slopeOfBuying(m int) {
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
}

// slopeOfRooms adds what the machines take of each room over what there is.
func (r *relaxation) slopeOfRooms() {
	at := r.size + len(r.buying)
	for k := range r.p.rooms {
		for t, most := range r.p.rooms[k].most {
			taken := -most
			for m, owned := range r.owned {
				if owned>>t&1 == 1 {
					taken += r.p.rooms[k].need[m]
				}
			}
			r.slope[at] = taken * r.scale[at-r.size-len(r.buying)]
			at++
		}
	}
}
