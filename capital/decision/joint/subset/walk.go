package subset

import (
	"math"
	"math/bits"
)

// walk looks for a cheap set by changing one item, or one for another, at a time.
type walk struct {
	p     *Problem
	of    [][]int   // by item: the terms that it changes
	uses  [][][]int // by limit and item: the weights that it changes
	set   uint64
	terms []float64       // cost of each term for the set
	price []float64       // by limit: charged for what is used
	tried map[uint64]bool // sets that were repaired
}

func walkOn(p *Problem) *walk {
	w := &walk{p: p, of: make([][]int, p.Items), terms: make([]float64, len(p.Terms)), price: make([]float64, len(p.Limits)), tried: map[uint64]bool{}}
	for t := range p.Terms {
		enter(w.of, union(p.Terms[t].When), t)
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
	for t := range w.terms {
		w.terms[t] = w.p.Terms[t].Cost[w.p.Terms[t].index(set)]
	}
}

// flip changes one item.
func (w *walk) flip(m int) {
	w.set ^= 1 << m
	for _, t := range w.of[m] {
		w.terms[t] = w.p.Terms[t].Cost[w.p.Terms[t].index(w.set)]
	}
}

// change is what the cost rises by when an item changes.
func (w *walk) change(m int) float64 {
	set, sum := w.set^1<<m, 0.0
	for _, t := range w.of[m] {
		sum += w.p.Terms[t].Cost[w.p.Terms[t].index(set)] - w.terms[t]
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
	for !w.p.Allows(w.set) && w.set != 0 {
		w.flip(w.cheapestDrop())
	}
	w.improve(found, false)
	w.put(stood)
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
		limit := &w.p.Limits[i]
		if used := limit.Used(w.set); !within(used, limit.Most) {
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
		if w.change(m) < -dust(0) && w.p.Allows(w.set^1<<m) {
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
			if w.set>>in&1 == 0 && in != out && lost+w.change(in) < -dust(0) && w.p.Allows(w.set^1<<in) {
				w.flip(in)
				return true
			}
		}
		w.flip(out)
	}
	return false
}
