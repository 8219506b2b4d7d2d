package subset

import "math"

// walk looks for a cheap set by changing one item, or one for another, at a time.
type walk struct {
	p     *Problem
	of    [][]int // by item: the terms that it changes
	set   uint64
	terms []float64 // cost of each term for the set
	price []float64 // by limit: charged for what is used
}

func walkOn(p *Problem) *walk {
	w := &walk{p: p, of: make([][]int, p.Items), terms: make([]float64, len(p.Terms)), price: make([]float64, len(p.Limits))}
	for t := range p.Terms {
		all := union(p.Terms[t].When)
		for m := range w.of {
			if all>>m&1 != 0 {
				w.of[m] = append(w.of[m], t)
			}
		}
	}
	w.put(0)
	return w
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
			sum += price * (w.p.Limits[i].Used(set) - w.p.Limits[i].Used(w.set))
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
	for !w.p.Allows(w.set) && w.set != 0 {
		w.flip(w.cheapestDrop())
	}
	w.improve(found)
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
			sum += (used - limit.Used(w.set^1<<m)) / scale(limit)
		}
	}
	return sum
}

// improve walks down among the allowed sets and offers where it ends.
func (w *walk) improve(found *best) {
	if !w.p.Allows(w.set) {
		return // nothing at all may be forbidden
	}
	for w.betterFlip() || w.betterSwap() {
	}
	found.offer(Set{w.set, w.p.Cost(w.set)})
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
