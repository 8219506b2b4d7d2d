package roadmap

import (
	"math/bits"
	"slices"
)

// line notes what follows which machine.
func (d *draft) line() {
	d.followers, d.bits = make([][]int, len(d.years)), make([][]int, len(d.years))
	for f := range d.years {
		for _, leader := range d.p.machines[f].leaders {
			d.followers[leader] = append(d.followers[leader], f)
		}
	}
	for m := range d.years {
		for _, in := range d.of[m] {
			d.bits[m] = append(d.bits[m], d.p.tables[in.table].bitsOf(append([]int{m}, d.followers[m]...)))
		}
	}
}

// needed is the years in which what follows others is owned.
func (d *draft) needed(f int) uint32 {
	owned := uint32(0)
	for _, leader := range d.p.machines[f].leaders {
		owned |= d.years[leader]
	}
	return owned
}

// follows tells whether a machine has no years of its own.
func (d *draft) follows(m int) bool { return d.p.machines[m].leaders != nil }

// shut is the years in which machine m may not be owned, or has no room with what
// follows it.
func (d *draft) shut(m int) uint32 {
	never := d.domain().never[m]
	for _, f := range d.followers[m] {
		never |= d.domain().never[f] &^ d.years[f]
	}
	for k := range d.room {
		for t, free := range d.room[k] {
			need := d.p.rooms[k].need[m]
			for _, f := range d.followers[m] {
				if d.years[f]>>t&1 == 0 {
					need += d.p.rooms[k].need[f]
				}
			}
			if need > free {
				never |= 1 << t
			}
		}
	}
	return never
}

// lead adds to each span what it changes in the cost of what follows machine m.
func (d *draft) lead(m int) {
	for _, f := range d.followers[m] {
		base := d.years[f]
		before := d.p.costOf(f, base)
		for i := range d.choice.stays {
			s := &d.choice.stays[i]
			if more := years(s.from, s.to) &^ base; more != 0 {
				s.cost += d.p.costOf(f, base|more) - before
			}
		}
	}
}

// costOf is what owning a machine in some years costs.
func (p *instance) costOf(m int, owned uint32) float64 {
	sum := 0.0
	for owned != 0 {
		from := bits.TrailingZeros32(owned)
		to := from + bits.TrailingZeros32(^(owned >> from))
		sum += p.machines[m].own[from][to]
		owned &^= years(from, to)
	}
	return sum
}

// brings is the money for what is bought along with machine m in year a.
func (d *draft) brings(m, a int) float64 {
	sum := 0.0
	for _, f := range d.followers[m] {
		if d.years[f]&(years(a, a+1)|years(max(0, a-1), a)) == 0 {
			sum += d.p.machines[f].paid[a][a]
		}
	}
	return sum
}

// bitsOf is a set of machines, those that the table has.
func (b *table) bitsOf(machines []int) int {
	set := 0
	for at, m := range b.machines {
		if slices.Contains(machines, m) {
			set |= 1 << at
		}
	}
	return set
}
