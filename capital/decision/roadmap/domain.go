package roadmap

import (
	"math"
	"slices"
)

// domain says in which years a machine must and may not be owned: bit t of an
// entry is year t.
type domain struct{ never, always []uint32 }

func (p *instance) wholeDomain() domain {
	return domain{make([]uint32, len(p.machines)), make([]uint32, len(p.machines))}
}

func (d domain) clone() domain {
	return domain{slices.Clone(d.never), slices.Clone(d.always)}
}

// settled tells whether nothing is left open about a machine.
func (p *instance) settled(d domain, m int) bool {
	return d.never[m]|d.always[m] == 1<<p.years-1
}

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
	out := reduced{instance: &instance{years: p.years, budget: slices.Clone(p.budget)}}
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
		out.cut(&p.tables[i], number, d)
	}
	for r := range p.rooms {
		left := room{most: slices.Clone(p.rooms[r].most)}
		for t := range left.most {
			left.most[t] -= p.taken(out.fixed, r, t)
		}
		for _, m := range out.kept {
			left.need = append(left.need, p.rooms[r].need[m])
		}
		out.rooms = append(out.rooms, left)
	}
	return out
}

// cut adds what a table says of the open machines.
func (r *reduced) cut(whole *table, number []int, d domain) {
	var part table
	var places []int
	for i, m := range whole.machines {
		if number[m] >= 0 {
			part.machines, places = append(part.machines, number[m]), append(places, i)
		}
	}
	for t, row := range whole.cost {
		settled := 0
		for i, m := range whole.machines {
			if number[m] < 0 && d.always[m]>>t&1 == 1 {
				settled |= 1 << i
			}
		}
		if len(places) == 0 {
			r.base += row[settled]
			continue
		}
		costs := make([]float64, 1<<len(places))
		for set := range costs {
			full := settled
			for i, at := range places {
				full |= set >> i & 1 << at
			}
			costs[set] = row[full]
		}
		part.cost = append(part.cost, costs)
	}
	if len(places) > 0 {
		r.tables = append(r.tables, part)
	}
}

// whole turns a plan of the reduced instance into one of the instance itself.
func (r *reduced) whole(plan []span) []span {
	out := slices.Clone(r.fixed)
	for _, s := range plan {
		out = append(out, span{r.kept[s.machine], s.from, s.to})
	}
	return out
}

// partsOf picks the parts of the open machines.
func (r *reduced) partsOf(parts []trade) []trade {
	if parts == nil {
		return nil
	}
	list := make([]trade, len(r.kept))
	for i, m := range r.kept {
		list[i] = parts[m]
	}
	return list
}

var infinite = math.Inf(1)
