package subset

import "math"

// Sweeps of diffusion between two moves of the multipliers, and before and behind
// them.
const (
	sweeps      = 2
	finalSweeps = 6
)

// shorter is what is left of the next step of the multipliers where the bound did
// not rise.
const shorter = 0.85

// tighten moves costs between tables, and multipliers of the limits, so that
// the sum of the tables' minima comes close to the least cost of an allowed set.
// Allowed sets that it comes by are offered to found.
func (n *network) tighten(found *best, e effort) {
	n.sweep(finalSweeps)
	w := walkOn(n.p)
	if len(found.sets) > 0 {
		w.put(found.sets[0].Items)
	}
	w.improve(found, len(n.p.Limits) == 0)
	if len(n.p.Limits) > 0 {
		n.multiply(w, found, e)
		if len(found.sets) > 0 {
			w.put(found.sets[0].Items)
			w.improve(found, true)
		}
	}
	w.neighbours(found)
	n.sweep(finalSweeps)
}

// multiply finds multipliers by subgradient: a limit that the cheapest set under
// the present multipliers breaks gets dearer. The best bound's tables are kept.
func (n *network) multiply(w *walk, found *best, e effort) {
	top, kept := n.bound(), n.snapshot(nil)
	reach := e.reach
	for range e.rounds {
		w.relax(n)
		over, length := n.overuse(w.set)
		if len(found.sets) == 0 || length == 0 {
			break
		}
		gap := found.sets[len(found.sets)-1].Cost - n.bound()
		if gap <= 0 {
			break
		}
		n.move(over, reach*gap/length)
		n.sweep(sweeps)
		w.repair(found)
		if bound := n.bound(); bound > top {
			top, kept = bound, n.snapshot(kept[:0])
		} else {
			reach *= shorter
		}
	}
	n.restore(kept)
}

// overuse is how far a set is over each limit, as a share of the limit, and the
// square of the length of that vector. A limit that is kept and costs nothing
// counts for nothing.
func (n *network) overuse(set uint64) (over []float64, length float64) {
	over = make([]float64, len(n.p.Limits))
	for i := range over {
		limit := &n.p.Limits[i]
		over[i] = (limit.Used(set) - limit.Most) / scale(limit)
		if over[i] < 0 && n.multipliers[i] == 0 {
			over[i] = 0
		}
		length += over[i] * over[i]
	}
	return over, length
}

func scale(limit *Limit) float64 { return max(math.Abs(limit.Most), 1e-9) }

// move steps along the overuse; no multiplier falls below zero.
func (n *network) move(over []float64, step float64) {
	for i := range over {
		before := n.multipliers[i]
		n.multipliers[i] = max(0, before+step*over[i]/scale(&n.p.Limits[i]))
		n.charge(i, n.multipliers[i]-before)
	}
}

// charge makes each use of a limit dearer and gives what the limit allows free.
func (n *network) charge(limit int, price float64) {
	for v, weight := range n.weight[limit] {
		n.alone[v] += price * weight
	}
	n.always -= price * n.p.Limits[limit].Most
}

// sweep spreads the costs of each variable evenly over the tables that it stands
// in: no other split of that variable gives a higher sum of minima.
func (n *network) sweep(times int) {
	for range times {
		for v := range n.at {
			n.even(v)
		}
	}
}

func (n *network) even(v int) {
	var room [16]float64
	differences := room[:0]
	sum := n.alone[v]
	for _, at := range n.at[v] {
		difference := n.tables[at.table].difference(at.bit)
		differences = append(differences, difference)
		sum += difference
	}
	share := sum / float64(len(differences))
	for i, at := range n.at[v] {
		n.tables[at.table].shift(at.bit, share-differences[i])
	}
	n.alone[v] = 0
}

// difference is how much dearer a table's cheapest entry with a variable is than
// that without.
func (t *table) difference(bit int) float64 {
	step := 1 << bit
	no, yes := math.Inf(1), math.Inf(1)
	if step == 1 { // the loop below, without slices of one entry
		for first := 0; first+1 < len(t.cost); first += 2 {
			no, yes = min(no, t.cost[first]), min(yes, t.cost[first+1])
		}
		return yes - no
	}
	for first := 0; first < len(t.cost); first += 2 * step {
		without, with := t.cost[first:first+step], t.cost[first+step:first+2*step]
		for i, cost := range without {
			no = min(no, cost)
			yes = min(yes, with[i])
		}
	}
	return yes - no
}

// shift makes a table's entries with a variable dearer.
func (t *table) shift(bit int, by float64) {
	step := 1 << bit
	for first := step; first < len(t.cost); first += 2 * step {
		with := t.cost[first : first+step]
		for i := range with {
			with[i] += by
		}
	}
}

// bound is the sum of the tables' minima and of what is not in a table: no
// allowed set costs less.
func (n *network) bound() float64 {
	sum := n.always
	for t := range n.tables {
		low := math.Inf(1)
		for _, cost := range n.tables[t].cost {
			low = min(low, cost)
		}
		sum += low
	}
	for _, cost := range n.alone {
		sum += min(0, cost)
	}
	return sum
}

// snapshot appends what the bound rests on.
func (n *network) snapshot(kept []float64) []float64 {
	kept = append(append(kept, n.always), n.multipliers...)
	kept = append(kept, n.alone...)
	for t := range n.tables {
		kept = append(kept, n.tables[t].cost...)
	}
	return kept
}

func (n *network) restore(kept []float64) {
	n.always = kept[0]
	kept = kept[1:]
	take := func(into []float64) { kept = kept[copy(into, kept):] }
	take(n.multipliers)
	take(n.alone)
	for t := range n.tables {
		take(n.tables[t].cost)
	}
}
