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

var infinite = math.Inf(1)
