// Package subset finds the cheapest of all subsets of a few dozen items, with
// what they cost together in tables and what they may use in limits. It knows
// plain numbers and no word of the trade.
package subset

import (
	"cmp"
	"math"
	"slices"
)

// MostItems is how many items a problem may have: a subset is the bits of one word.
const MostItems = 64

// Problem is a choice among the subsets of items 0 … Items−1.
type Problem struct {
	Items    int
	Terms    []Term   // the cost of a subset is their sum
	Limits   []Limit  // all of them hold
	Peak     Peak     // no limit when AtOnce is 0
	Excludes [][2]int // never both
	Needs    [][2]int // the first only with the second
}

// Term is one part of the cost. Bit i of the index into Cost is set when the
// subset has an item of When[i]; Cost has 1<<len(When) entries, none of them
// infinite.
type Term struct {
	When []uint64
	Cost []float64
}

// Limit holds down what a subset uses: Weight[i], not below zero, once when it
// has an item of When[i].
type Limit struct {
	When   []uint64
	Weight []float64
	Most   float64
}

// Peak holds down what the AtOnce items that draw most draw together.
type Peak struct {
	Draw   []float64 // of each item
	AtOnce int
	Most   float64
}

// Set is a subset with its cost.
type Set struct {
	Items uint64
	Cost  float64
}

func (t *Term) index(set uint64) int {
	at := 0
	for i, when := range t.When {
		if set&when != 0 {
			at |= 1 << i
		}
	}
	return at
}

// Cost returns what a subset costs, whether it is allowed or not.
func (p *Problem) Cost(set uint64) float64 {
	sum := 0.0
	for t := range p.Terms {
		sum += p.Terms[t].Cost[p.Terms[t].index(set)]
	}
	return sum
}

// Used returns what a subset uses of a limit.
func (l *Limit) Used(set uint64) float64 {
	sum := 0.0
	for i, when := range l.When {
		if set&when != 0 {
			sum += l.Weight[i]
		}
	}
	return sum
}

// Drawn returns what a subset draws at its peak: the sum of its AtOnce largest draws.
func (p *Peak) Drawn(set uint64) float64 {
	var buffer [MostItems]float64
	draws := buffer[:0]
	for m, draw := range p.Draw {
		if set>>m&1 != 0 {
			draws = append(draws, draw)
		}
	}
	slices.Sort(draws)
	sum := 0.0
	for _, draw := range draws[max(0, len(draws)-p.AtOnce):] {
		sum += draw
	}
	return sum
}

// within compares with a limit; what rounding adds to a sum does not break it.
func within(used, most float64) bool { return used <= most+1e-9*math.Abs(most) }

// Allows tells whether a subset keeps every limit and relation.
func (p *Problem) Allows(set uint64) bool {
	for i := range p.Limits {
		if !within(p.Limits[i].Used(set), p.Limits[i].Most) {
			return false
		}
	}
	return p.related(set)
}

// related is Allows without the limits that add up.
func (p *Problem) related(set uint64) bool {
	has := func(m int) bool { return set>>m&1 != 0 }
	for _, pair := range p.Excludes {
		if has(pair[0]) && has(pair[1]) {
			return false
		}
	}
	for _, pair := range p.Needs {
		if has(pair[0]) && !has(pair[1]) {
			return false
		}
	}
	return p.Peak.AtOnce == 0 || within(p.Peak.Drawn(set), p.Peak.Most)
}

// dust is the difference under which two costs count as the same.
func dust(cost float64) float64 { return 1e-9 * (1 + math.Abs(cost)) }

// best keeps the cheapest allowed sets that were offered, cheapest first.
type best struct {
	count int
	sets  []Set
}

// offer takes a set in when it belongs there; equal costs stand by their items.
func (b *best) offer(set Set) {
	at, _ := slices.BinarySearchFunc(b.sets, set, order)
	if at == b.count || at < len(b.sets) && b.sets[at].Items == set.Items {
		return
	}
	b.sets = slices.Insert(b.sets, at, set)
	b.sets = b.sets[:min(b.count, len(b.sets))]
}

func order(a, b Set) int { return cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(a.Items, b.Items)) }

// ceiling is the cost from which a set is of no use any more.
func (b *best) ceiling() float64 {
	if len(b.sets) < b.count {
		return math.Inf(1)
	}
	last := b.sets[b.count-1].Cost
	return last - dust(last)
}
