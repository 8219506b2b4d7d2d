package roadmap

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// draft is a roadmap in the making: it keeps to the limits, and each change of
// one machine is priced beside what the others do.
type draft struct {
	p      *instance
	prices *relaxation
	years  []uint32 // owned
	pick   [][]int  // set of each table and year
	left   []float64
	room   [][]float64

	followers [][]int    // of each machine
	bits      [][]int    // the set of each machine and its followers in each of its tables
	of        [][]member // tables of each machine

	chain          *chain
	choice         choice // of the machine that answers
	list           []int  // of the open machines
	owning, charge []float64
	until          []int // the first year that the money left does not pay, by year of purchase
}

// member is the place of a machine in a table.
type member struct{ table, at int }

func newDraft(r *relaxation) *draft {
	p := r.p
	out := &draft{p: p, prices: r, years: make([]uint32, len(p.machines)), left: slices.Clone(p.budget), chain: newChain(p.years),
		of: make([][]member, len(p.machines)), owning: make([]float64, p.years), charge: make([]float64, p.years), until: make([]int, p.years)}
	for t := range out.left {
		out.left[t] = withDust(out.left[t])
	}
	for i := range p.tables {
		out.pick = append(out.pick, make([]int, p.years))
		for at, m := range p.tables[i].machines {
			out.of[m] = append(out.of[m], member{i, at})
		}
	}
	for k := range p.rooms {
		free := make([]float64, p.years)
		for t := range free {
			free[t] = withDust(p.rooms[k].most[t])
		}
		out.room = append(out.room, free)
	}
	out.line()
	return out
}

// domain is the one that the relaxation is laid out for.
func (d *draft) domain() domain { return d.prices.domain }

// set gives a machine its years in place of those it had; what follows it comes
// along.
func (d *draft) set(m int, owned uint32) {
	d.enter(m, owned)
	for _, f := range d.followers[m] {
		d.enter(f, d.needed(f))
	}
}

// enter is set for the machine alone.
func (d *draft) enter(m int, owned uint32) {
	changed := d.years[m] ^ owned
	if changed == 0 {
		return
	}
	d.book(m, d.years[m], 1)
	d.book(m, owned, -1)
	d.years[m] = owned
	for _, in := range d.of[m] {
		pick := d.pick[in.table]
		for rest := changed; rest != 0; rest &= rest - 1 {
			pick[bits.TrailingZeros32(rest)] ^= 1 << in.at
		}
	}
}

func (d *draft) book(m int, owned uint32, sign float64) {
	from := 0
	for rest := owned; rest != 0; rest &= rest - 1 {
		t := bits.TrailingZeros32(rest)
		if t == 0 || owned>>(t-1)&1 == 0 {
			from = t
		}
		d.left[t] += sign * d.p.machines[m].paid[from][t]
		for k := range d.room {
			d.room[k][t] += sign * d.p.rooms[k].need[m]
		}
	}
}

// answer gives machine m its best years beside the others, and tells whether
// that changed anything. With asked prices the tables are heard through them.
func (d *draft) answer(m int, asked bool) bool {
	before := d.years[m]
	d.set(m, 0)
	owning, charge := d.owning, d.charge
	if asked {
		row, end := d.prices.row(m), d.prices.row(m+1)
		owning, charge = d.prices.owning[row:end], d.prices.charge[row:end]
	} else {
		d.savings(m)
	}
	d.choice.again = d.p.machines[m].again
	d.choice.narrow(d.prices.all[m], d.shut(m), d.domain().always[m], 0)
	d.afford(m)
	d.chain.price(&d.choice, owning, charge)
	if !asked {
		d.lead(m)
	}
	cost, owned := d.chain.best(&d.choice)
	if math.IsInf(cost, 1) {
		owned = 0
	}
	d.set(m, owned)
	return owned != before
}

// savings prices a year of owning by what it changes in the tables.
func (d *draft) savings(m int) {
	clear(d.owning)
	for i, in := range d.of[m] {
		for t, row := range d.p.tables[in.table].cost {
			without := d.pick[in.table][t]
			d.owning[t] += row[without|d.bits[m][i]] - row[without]
		}
	}
}

// afford takes out the stays that the money left does not pay.
func (d *draft) afford(m int) {
	for a, paid := range d.p.machines[m].paid {
		d.until[a] = d.p.years
		for t := a; t < d.p.years; t++ {
			due := paid[t]
			if t == a {
				due += d.brings(m, a)
			}
			if due > 0 && due > d.left[t] {
				d.until[a] = t
				break
			}
		}
	}
	d.choice.keep(d.until)
}

// fromPrices drafts a roadmap by the prices of the relaxation, the machines
// that gain most first, and then lets each answer the others.
func (d *draft) fromPrices() ([]span, float64) {
	open := d.open()
	slices.SortStableFunc(open, func(a, b int) int { return cmp.Compare(d.prices.ends[a], d.prices.ends[b]) })
	for _, m := range open {
		d.set(m, 0)
	}
	for _, must := range []bool{true, false} {
		for _, m := range open {
			if d.domain().always[m] != 0 == must {
				d.answer(m, true)
			}
		}
	}
	d.settle(open)
	return d.plan()
}

// open lists the machines with years of their own that the domain leaves open,
// and gives the others theirs.
func (d *draft) open() []int {
	d.list = d.list[:0]
	for m := range d.years {
		switch {
		case d.follows(m):
		case d.p.settled(d.domain(), m):
			d.set(m, d.domain().always[m])
		default:
			d.list = append(d.list, m)
		}
	}
	return d.list
}

// mostRounds bounds how often the machines answer each other.
const mostRounds = 20

// settle lets machines answer each other until none changes.
func (d *draft) settle(open []int) {
	for range mostRounds {
		changed := false
		for _, m := range open {
			changed = d.answer(m, false) || changed
		}
		if !changed {
			return
		}
	}
}

// plan is the draft as a roadmap with its cost, +Inf when it leaves the domain.
func (d *draft) plan() ([]span, float64) {
	if !d.within() {
		return nil, infinite
	}
	plan := d.p.planOf(d.years)
	return plan, d.p.cost(plan) // a plan that buys nothing is not nil
}

func (d *draft) within() bool {
	for m, owned := range d.years {
		if owned&d.domain().never[m] != 0 || d.domain().always[m]&^owned != 0 {
			return false
		}
	}
	return !d.over()
}

// cost is what the draft costs.
func (d *draft) cost() float64 {
	sum := 0.0
	for m, owned := range d.years {
		sum += d.p.costOf(m, owned)
	}
	for i := range d.p.tables {
		for t, row := range d.p.tables[i].cost {
			sum += row[d.pick[i][t]]
		}
	}
	return sum
}

// shake takes each open machine out of a roadmap in turn, or buys it as early as
// the money lets it, has all others answer, and keeps what is cheaper.
func (d *draft) shake(from []span) ([]span, float64) {
	d.load(from)
	open := d.open()
	best, least := slices.Clone(d.years), infinite
	if d.within() {
		least = d.cost()
	}
	for _, m := range open {
		for _, from := range []int{d.p.years, 0, 1, 2} { // in no year at first
			owned := years(min(from, d.p.years), d.p.years)
			if d.years[m] == owned || !d.held(m, owned) {
				continue
			}
			for _, k := range open {
				if k != m {
					d.answer(k, false)
				}
			}
			d.settle(open)
			if d.within() && d.cost() < least {
				least = d.cost()
				copy(best, d.years)
			}
			for k, owned := range best {
				d.enter(k, owned)
			}
		}
	}
	return d.plan()
}

// held gives a machine its years against all others, and tells whether that may
// be: others that take the money or the room are sold.
func (d *draft) held(m int, owned uint32) bool {
	if owned&d.domain().never[m] != 0 || d.domain().always[m]&^owned != 0 {
		return false
	}
	d.set(m, owned)
	for k := range d.years {
		if k != m && !d.follows(k) && d.years[k] != 0 && d.domain().always[k] == 0 && d.over() {
			d.set(k, 0)
		}
	}
	return !d.over()
}

// over tells whether money or room has run out.
func (d *draft) over() bool {
	for t := range d.left {
		if d.left[t] < 0 {
			return true
		}
		for k := range d.room {
			if d.room[k][t] < 0 {
				return true
			}
		}
	}
	return false
}

// load takes a roadmap up.
func (d *draft) load(plan []span) {
	owned := make([]uint32, len(d.years))
	for _, s := range plan {
		owned[s.machine] |= years(s.from, s.to)
	}
	for m, set := range owned {
		if d.years[m] != set && !d.follows(m) {
			d.set(m, set)
		}
	}
}
