package subset

import (
	"math"
	"math/bits"
)

// leastSaving is what a step of a walk must save: less is what rounding leaves.
const leastSaving = 1e-9

// walk looks for a cheap set by changing one item, or one for another, at a time.
type walk struct {
	p     *Problem
	of    [][]touch // by item: the terms that it changes
	uses  [][][]int // by limit and item: the weights that it changes
	set   uint64
	at    []int           // by term: the index of the set
	price []float64       // by limit: charged for what is used
	used  []float64       // by limit: what the set uses
	tried map[uint64]bool // sets that were repaired
}

// touch is a term that an item changes. Where the item stands in no group with
// others, a change of it flips these bits of the term's index.
type touch struct {
	term, bits int
	grouped    bool
}

func walkOn(p *Problem) *walk {
	w := &walk{p: p, of: make([][]touch, p.Items), at: make([]int, len(p.Terms)), tried: map[uint64]bool{}}
	w.price, w.used = make([]float64, len(p.Limits)), make([]float64, len(p.Limits))
	for t := range p.Terms {
		w.touches(t)
	}
	for i := range p.Limits {
		uses := make([][]int, p.Items)
		for k, when := range p.Limits[i].When {
			enter(uses, when, k)
		}
		w.uses = append(w.uses, uses)
	}
	w.put(0)
	return w
}

// touches notes a term at every item that changes it.
func (w *walk) touches(t int) {
	when := w.p.Terms[t].When
	for rest := union(when); rest != 0; rest &= rest - 1 {
		to, item := touch{term: t}, rest&-rest
		for i, group := range when {
			if group&item != 0 {
				to.bits |= 1 << i
				to.grouped = to.grouped || group != item
			}
		}
		m := bits.TrailingZeros64(item)
		w.of[m] = append(w.of[m], to)
	}
}

// enter notes a number at every item of a set.
func enter(lists [][]int, items uint64, number int) {
	for rest := items; rest != 0; rest &= rest - 1 {
		m := bits.TrailingZeros64(rest)
		lists[m] = append(lists[m], number)
	}
}

// more is what the use of a limit rises by when an item changes.
func (w *walk) more(limit, m int) float64 {
	l, set, sum := &w.p.Limits[limit], w.set^1<<m, 0.0
	for _, k := range w.uses[limit][m] {
		if set&l.When[k] != 0 {
			sum += l.Weight[k]
		}
		if w.set&l.When[k] != 0 {
			sum -= l.Weight[k]
		}
	}
	return sum
}

// put stands the walk on a set.
func (w *walk) put(set uint64) {
	w.set = set
	for t := range w.at {
		w.at[t] = w.p.Terms[t].index(set)
	}
	for i := range w.used {
		w.used[i] = w.p.Limits[i].Used(set)
	}
}

// flip changes one item.
func (w *walk) flip(m int) {
	for i := range w.used {
		w.used[i] += w.more(i, m)
	}
	w.set ^= 1 << m
	for _, to := range w.of[m] {
		w.at[to.term] = w.next(to, w.set)
	}
}

// next is the index of a term for a set that differs from the walk's in the item
// that touches the term.
func (w *walk) next(to touch, set uint64) int {
	if to.grouped {
		return w.p.Terms[to.term].index(set)
	}
	return w.at[to.term] ^ to.bits
}

// change is what the cost rises by when an item changes.
func (w *walk) change(m int) float64 {
	set, sum := w.set^1<<m, 0.0
	for _, to := range w.of[m] {
		cost := w.p.Terms[to.term].Cost
		sum += cost[w.next(to, set)] - cost[w.at[to.term]]
	}
	for i, price := range w.price {
		if price > 0 {
			sum += price * w.more(i, m)
		}
	}
	return sum
}

// relax walks down under the network's multipliers, whatever the limits say.
func (w *walk) relax(n *network) {
	copy(w.price, n.multipliers)
	for changed := true; changed; {
		changed = false
		for m := range w.of {
			if w.change(m) < 0 {
				w.flip(m)
				changed = true
			}
		}
	}
	clear(w.price)
}

// repair makes an allowed set of the walk's, improves and offers it, and goes
// back to where it stood.
func (w *walk) repair(found *best) {
	stood := w.set
	if w.tried[stood] {
		return
	}
	w.tried[stood] = true
	for !w.allows() && w.set != 0 {
		w.flip(w.cheapestDrop())
	}
	w.improve(found, false)
	w.put(stood)
}

// allows is Problem.Allows for the walk's set.
func (w *walk) allows() bool {
	for i, used := range w.used {
		if !within(used, w.p.Limits[i].Most) {
			return false
		}
	}
	return w.p.related(w.set)
}

// cheapestDrop is the item whose loss costs least for what it frees.
func (w *walk) cheapestDrop() int {
	drop, least := 0, math.Inf(1)
	for m := range w.of {
		if w.set>>m&1 == 0 {
			continue
		}
		if cost := w.change(m) / (w.freed(m) + 1e-9); cost < least || least == math.Inf(1) {
			drop, least = m, cost
		}
	}
	return drop
}

// freed is what the loss of an item frees of the limits that are broken, as
// shares of them.
func (w *walk) freed(m int) float64 {
	sum := 0.0
	for i := range w.p.Limits {
		if limit := &w.p.Limits[i]; !within(w.used[i], limit.Most) {
			sum -= w.more(i, m) / scale(limit)
		}
	}
	return sum
}

// improve walks down among the allowed sets and offers where it ends.
func (w *walk) improve(found *best, swap bool) {
	if !w.p.Allows(w.set) {
		return // nothing at all may be forbidden
	}
	for w.betterFlip() || swap && w.betterSwap() {
	}
	found.offer(Set{w.set, w.p.Cost(w.set)})
}

// neighbours offers what is one item away from the best, as long as more sets
// than that are wanted.
func (w *walk) neighbours(found *best) {
	if found.count < 2 || len(found.sets) == 0 {
		return
	}
	stood := found.sets[0].Items
	for m := range w.of {
		if set := stood ^ 1<<m; w.p.Allows(set) {
			found.offer(Set{set, w.p.Cost(set)})
		}
	}
}

func (w *walk) betterFlip() bool {
	for m := range w.of {
		if w.change(m) < -leastSaving && w.p.Allows(w.set^1<<m) {
			w.flip(m)
			return true
		}
	}
	return false
}

// betterSwap gives up one item for another.
func (w *walk) betterSwap() bool {
	for out := range w.of {
		if w.set>>out&1 == 0 {
			continue
		}
		lost := w.change(out)
		w.flip(out)
		for in := range w.of {
			if w.set>>in&1 == 0 && in != out && lost+w.change(in) < -leastSaving && w.p.Allows(w.set^1<<in) {
				w.flip(in)
				return true
			}
		}
		w.flip(out)
	}
	return false
}
