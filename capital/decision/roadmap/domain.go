package roadmap

import "math"

// domain says in which years a machine must and may not be owned: bit t of an
// entry is year t.
type domain struct{ never, always []uint32 }

func (p *instance) wholeDomain() domain {
	return domain{make([]uint32, len(p.machines)), make([]uint32, len(p.machines))}
}

func (d domain) clone() domain {
	return domain{append([]uint32(nil), d.never...), append([]uint32(nil), d.always...)}
}

// settled tells whether nothing is left open about a machine.
func (p *instance) settled(d domain, m int) bool {
	return d.never[m]|d.always[m] == 1<<p.years-1
}

// fits tells whether a span of a machine keeps to the domain, as far as the
// years within it go.
func (d domain) fits(m, from, to int) bool { return d.never[m]&years(from, to) == 0 }

// years is the set of the years from..to-1.
func years(from, to int) uint32 { return 1<<to - 1<<from }

// spansOf reads the spans of a machine off the years in which it is owned.
func spansOf(m int, owned uint32, years int) []span {
	var list []span
	for t := 0; t < years; t++ {
		if owned>>t&1 == 0 {
			continue
		}
		from := t
		for t < years && owned>>t&1 == 1 {
			t++
		}
		list = append(list, span{m, from, t})
	}
	return list
}

func (p *instance) planOf(owned []uint32) []span {
	plan := []span{} // not nil: buying nothing is a plan too
	for m, set := range owned {
		plan = append(plan, spansOf(m, set, p.years)...)
	}
	return plan
}

// reduced is an instance without the machines that a domain settles.
type reduced struct {
	*instance
	domain domain
	kept   []int  // machines of the instance that are still open, by their number here
	fixed  []span // of the settled machines
	base   float64
}

// reduce takes the settled machines out: their costs into base, their money and
// room off the limits, their years into the tables.
func (p *instance) reduce(d domain) reduced {
	out := reduced{instance: &instance{years: p.years, again: p.again, budget: append([]float64(nil), p.budget...)}}
	number := make([]int, len(p.machines))
	for m := range p.machines {
		number[m] = -1
		if p.settled(d, m) {
			out.fixed = append(out.fixed, spansOf(m, d.always[m], p.years)...)
			continue
		}
		number[m] = len(out.kept)
		out.kept = append(out.kept, m)
		out.machines = append(out.machines, p.machines[m])
		out.domain.never, out.domain.always = append(out.domain.never, d.never[m]), append(out.domain.always, d.always[m])
	}
	for t, spent := range p.spend(out.fixed) {
		out.budget[t] -= spent
	}
	for _, s := range out.fixed {
		out.base += p.machines[s.machine].own[s.from][s.to]
	}
	for i := range p.tables {
		out.add(&p.tables[i], number, d)
	}
	return out
}

// add projects a table onto the open machines.
func (r *reduced) add(from *table, number []int, d domain) {
	var to table
	var place []int
	for i, m := range from.machines {
		if number[m] >= 0 {
			to.machines, place = append(to.machines, number[m]), append(place, i)
		}
	}
	for t, row := range from.cost {
		settled := 0
		for i, m := range from.machines {
			if number[m] < 0 && d.always[m]>>t&1 == 1 {
				settled |= 1 << i
			}
		}
		costs := make([]float64, 1<<len(place))
		for set := range costs {
			full := settled
			for i, at := range place {
				full |= set >> i & 1 << at
			}
			costs[set] = row[full]
		}
		to.cost = append(to.cost, costs)
	}
	if len(place) > 0 {
		r.tables = append(r.tables, to)
		return
	}
	for _, row := range to.cost {
		r.base += row[0]
	}
}

// whole turns a plan of the reduced instance into one of the instance itself.
func (r *reduced) whole(plan []span) []span {
	out := append([]span(nil), r.fixed...)
	for _, s := range plan {
		out = append(out, span{r.kept[s.machine], s.from, s.to})
	}
	return out
}

var infinite = math.Inf(1)
