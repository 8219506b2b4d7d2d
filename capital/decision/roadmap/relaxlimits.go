package roadmap

import "math"

// till is the money of one year with a budget.
type till struct {
	filling
	machines []int // that may be bought in the year and need not, when not all can be
	left     float64
	first    int // of its prices at work
}

// layLimits takes what is settled off the limits, and notes which machines can
// be bought in each year.
func (r *relaxation) layLimits() {
	for i, t := range r.tied {
		r.tills[i].left = withDust(r.p.budget[t])
	}
	for k := range r.p.rooms {
		copy(r.spaces[k*r.p.years:], r.p.rooms[k].most)
	}
	clear(r.charge)
	for m := range r.p.machines {
		if r.p.settled(r.domain, m) {
			r.book(m)
		}
	}
	clear(r.barred)
	for i, t := range r.tied {
		r.layTill(i, t)
	}
	for m := range r.p.machines {
		of := &r.choices[m]
		of.narrow(r.all[m], r.domain.never[m], r.domain.always[m], r.barred[m])
		r.empty = r.empty || len(of.stays) == 0 && of.always != 0
	}
	for at := range r.spaces {
		r.put(r.space + at)
	}
}

// book takes off what a settled machine costs and takes.
func (r *relaxation) book(m int) {
	r.owned[m] = r.domain.always[m]
	for _, s := range spansOf(m, r.domain.always[m], r.p.years) {
		r.base += r.p.machines[m].own[s.from][s.to]
		paid := r.p.machines[m].paid[s.from]
		for i, t := range r.tied {
			if s.from < t && t < s.to {
				r.tills[i].left -= paid[t] // what it costs on the day of purchase is taken off in layTill
			}
		}
		for k := range r.p.rooms {
			for t := s.from; t < s.to; t++ {
				r.spaces[k*r.p.years+t] -= r.p.rooms[k].need[m]
			}
		}
	}
}

// layTill sorts the machines by whether they must and can be bought in year t.
// Where all can be, money has no price.
func (r *relaxation) layTill(i, t int) {
	f := &r.tills[i]
	f.machines, f.first, f.slack = f.machines[:0], len(r.x), 0
	for m := range r.p.machines {
		switch open, must := r.p.starts(r.domain, m, t); {
		case must:
			f.left -= r.p.machines[m].paid[t][t]
		case open:
			f.machines = append(f.machines, m)
		}
	}
	r.empty = r.empty || f.left < 0
	sum, n := 0.0, 0
	for _, m := range f.machines {
		switch size := r.p.machines[m].paid[t][t]; {
		case size > f.left:
			r.barred[m] |= 1 << t
		case size > 0:
			sum += size
			f.machines[n] = m
			n++
		}
	}
	f.machines = f.machines[:n]
	if sum <= f.left {
		f.machines = f.machines[:0]
	}
	f.reset(len(f.machines))
	for at, m := range f.machines {
		f.size[at] = r.p.machines[m].paid[t][t]
		r.put(r.buying + i*len(r.p.machines) + m)
	}
}

// priceBuying takes off what the purchases of each year are worth at most.
func (r *relaxation) priceBuying() float64 {
	total := 0.0
	for i, t := range r.tied {
		f := &r.tills[i]
		if len(f.machines) == 0 {
			continue
		}
		copy(f.worth, r.x[f.first:])
		total -= f.most(f.left)
		for at, m := range f.machines {
			r.charge[m*r.p.years+t] = f.worth[at]
		}
	}
	return total
}

// allow lets the fillings stop so far below the most.
func (r *relaxation) allow(slack float64) {
	for i := range r.tills {
		r.tills[i].slack = max(0, slack)
	}
}

// slopeOfBuying is what is bought less what the budgets make most of.
func (r *relaxation) slopeOfBuying() {
	for i, t := range r.tied {
		f := &r.tills[i]
		for at, m := range f.machines {
			slope, owned := 0.0, r.owned[m]
			if owned&^(owned<<1)>>t&1 == 1 {
				slope = 1
			}
			if f.best[at] {
				slope--
			}
			r.slope[f.first+at] = slope
		}
	}
}

// priceRooms adds the prices of space to those of owning, and returns what the
// rooms take off.
func (r *relaxation) priceRooms() float64 {
	total := 0.0
	first := len(r.x) - len(r.spaces)
	for k := range r.p.rooms {
		for t := range r.p.years {
			at := k*r.p.years + t
			price := r.x[first+at] * r.scale(k, t)
			total -= price * r.spaces[at]
			for _, m := range r.open {
				r.owning[m*r.p.years+t] += price * r.p.rooms[k].need[m]
			}
		}
	}
	return total
}

// scale is the price of space in units of a room, so that rooms of any size
// weigh alike.
func (r *relaxation) scale(k, t int) float64 { return 1 / math.Max(r.p.rooms[k].most[t], 1e-9) }

// slopeOfRooms is what the machines take of each room over what there is.
func (r *relaxation) slopeOfRooms() {
	first := len(r.x) - len(r.spaces)
	for k := range r.p.rooms {
		for t := range r.p.years {
			at := k*r.p.years + t
			taken := -r.spaces[at]
			for _, m := range r.open {
				if r.owned[m]>>t&1 == 1 {
					taken += r.p.rooms[k].need[m]
				}
			}
			r.slope[first+at] = taken * r.scale(k, t)
		}
	}
}

// starts tells whether a machine can be bought in year t, and whether it must be.
func (p *instance) starts(d domain, m, t int) (open, must bool) {
	switch {
	case d.never[m]>>t&1 == 1, t > 0 && d.always[m]>>(t-1)&1 == 1, !p.machines[m].again && d.always[m]&years(0, t) != 0:
		return false, false
	}
	return true, d.always[m]>>t&1 == 1 && (t == 0 || d.never[m]>>(t-1)&1 == 1)
}
