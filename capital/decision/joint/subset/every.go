package subset

import (
	"math"
	"math/bits"
)

// everyMost is the number of items up to which all subsets are priced: cheaper
// than any bound.
const everyMost = 12

// every holds what all subsets cost and use, by the bits of the subset.
type every struct {
	p     *Problem
	costs []float64
	used  [][]float64 // by limit
}

func everySet(p *Problem) *every {
	e := &every{p: p, costs: spread(p.Items, p.Terms)}
	for i := range p.Limits {
		e.used = append(e.used, spread(p.Items, weights(&p.Limits[i])))
	}
	return e
}

// weights writes a limit as terms.
func weights(limit *Limit) []Term {
	terms := make([]Term, len(limit.When))
	cells := make([]float64, 2*len(limit.When))
	for i := range terms {
		cells[2*i+1] = limit.Weight[i]
		terms[i] = Term{limit.When[i : i+1 : i+1], cells[2*i : 2*i+2]}
	}
	return terms
}

// spread sums terms for all subsets, item by item: the subsets with an item are
// those without it and what changes. A term is added where its last item is
// known.
func spread(items int, terms []Term) []float64 {
	sums := make([]float64, 1<<items)
	at := make([]uint16, 1<<items)
	alone := make([]float64, items)
	ending := make([][]*Term, items)
	for t := range terms {
		term := &terms[t]
		last := bits.Len64(union(term.When)) - 1
		switch {
		case last < 0:
			sums[0] += term.Cost[0]
		case len(term.When) == 1 && bits.OnesCount64(term.When[0]) == 1:
			sums[0] += term.Cost[0]
			alone[last] += term.Cost[1] - term.Cost[0]
		default:
			ending[last] = append(ending[last], term)
		}
	}
	for m := range items {
		half := 1 << m
		for set, sum := range sums[:half] {
			sums[half+set] = sum + alone[m]
		}
		for _, term := range ending[m] {
			add(sums[:2*half], at[:2*half], term)
		}
	}
	return sums
}

// add adds a term to the sums of all subsets; at is its index for each of them.
func add(sums []float64, at []uint16, term *Term) {
	at[0] = 0
	for half, m := 1, 0; half < len(sums); half, m = 2*half, m+1 {
		set := uint16(term.index(1 << m))
		for i, before := range at[:half] {
			at[half+i] = before | set
		}
	}
	cost := term.Cost
	for set, i := range at {
		sums[set] += cost[i]
	}
}

func union(masks []uint64) uint64 {
	all := uint64(0)
	for _, mask := range masks {
		all |= mask
	}
	return all
}

// allows is Problem.Allows for limits that were summed already.
func (e *every) allows(set int) bool {
	for i := range e.used {
		if !within(e.used[i][set], e.p.Limits[i].Most) {
			return false
		}
	}
	return e.p.related(uint64(set))
}

// cheapest lists the cheapest allowed sets.
func (e *every) cheapest(count int) Answer {
	found := best{count: count}
	ceiling := math.Inf(1)
	for set, cost := range e.costs {
		if cost < ceiling && e.allows(set) {
			found.offer(Set{uint64(set), cost})
			ceiling = found.ceiling()
		}
	}
	answer := Answer{Sets: found.sets, Bound: math.Inf(1), Proven: true, Looked: len(e.costs)}
	if len(found.sets) == count && count > 0 {
		answer.Bound = found.sets[count-1].Cost
	}
	return answer
}

// least is the least use of a limit among sets that cost less than a ceiling and
// keep all other limits.
func (e *every) least(limit int, ceiling float64) float64 {
	free := e.p.freed(limit)
	low := math.Inf(1)
	for set, cost := range e.costs {
		if cost < ceiling && free.Allows(uint64(set)) {
			low = min(low, e.p.usedOf(limit, uint64(set)))
		}
	}
	return low
}
