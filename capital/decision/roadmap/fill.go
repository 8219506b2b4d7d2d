package roadmap

// filling finds what is worth most within a limit: each item is taken whole or
// left.
//
// Source: E. Horowitz and S. Sahni, Computing Partitions with Applications to
// the Knapsack Problem, 1974 (branch and bound in the order of worth by size).
type filling struct {
	size, worth []float64 // of the items; no size is 0
	slack       float64   // what is worth no more than this over the best so far is not looked for
	best        []bool    // the items taken; where the next use starts from
	value       float64   // what they are worth
	top         float64   // no items that fit are worth more
	steps       int

	order  []int   // the dearest for their size first; kept from one use to the next
	sorted []item  // those worth something, in order
	taken  []taken // of the sorted
}

type item struct{ size, worth, per float64 }

// taken is an item that is taken, and what there was before.
type taken struct {
	item        int
	left, value float64
}

// mostSteps bounds one filling; beyond it the bound of G. B. Dantzig,
// Discrete-Variable Extremum Problems, 1957, stands, which is never too low.
const mostSteps = 300

// reset makes place for so many items.
func (f *filling) reset(items int) {
	if cap(f.size) < items {
		f.size, f.worth, f.best = make([]float64, items), make([]float64, items), make([]bool, items)
	}
	f.size, f.worth, f.best = f.size[:items], f.worth[:items], f.best[:items]
	clear(f.best)
	f.order = f.order[:0]
	for i := range items {
		f.order = append(f.order, i)
	}
}

// most returns the most worth that a limit takes in, or a little more: no more
// than the slack, where the steps were enough. The limit is the same from one
// use to the next.
func (f *filling) most(limit float64) float64 {
	f.sort()
	f.value, f.steps = 0, 0
	f.sorted = f.sorted[:0]
	for _, i := range f.order {
		if f.worth[i] <= 0 { // those worth nothing are at the end
			f.best[i] = false
			continue
		}
		f.sorted = append(f.sorted, item{f.size[i], f.worth[i], f.worth[i] / f.size[i]})
		if f.best[i] {
			f.value += f.worth[i]
		}
	}
	f.top = f.value
	if top := roomOf(f.sorted, limit); !f.search(limit) {
		f.top = top
	}
	f.top = max(f.top, f.value)
	return f.top
}

// sort puts the items in order, quickly when it has changed little.
func (f *filling) sort() {
	for i := 1; i < len(f.order); i++ {
		item := f.order[i]
		k := i
		for ; k > 0 && f.before(item, f.order[k-1]); k-- {
			f.order[k] = f.order[k-1]
		}
		f.order[k] = item
	}
}

func (f *filling) before(a, b int) bool {
	if f.worth[a] <= 0 || f.worth[b] <= 0 {
		return f.worth[a] > 0 && f.worth[b] <= 0
	}
	return f.worth[a]*f.size[b] > f.worth[b]*f.size[a]
}

// roomOf is the worth that fits when the last item may be taken in part.
func roomOf(items []item, left float64) float64 {
	sum := 0.0
	for i := range items {
		it := &items[i]
		if it.size > left {
			return sum + left*it.per
		}
		left -= it.size
		sum += it.worth
	}
	return sum
}

// beside is the most that a limit can take in of all items but one, or more.
func (f *filling) beside(but int, left float64) float64 {
	sum := 0.0
	for at, it := range f.sorted {
		if f.order[at] == but {
			continue
		}
		if it.size > left {
			return sum + left*it.per
		}
		left -= it.size
		sum += it.worth
	}
	return sum
}

// search takes items as long as they fit, leaves what does not, and goes back
// to leave the last one taken while that can still be worth more. It tells
// whether it came to its end.
func (f *filling) search(left float64) bool {
	items, value, i := f.sorted, 0.0, 0
	f.taken = f.taken[:0]
	for {
		for ; i < len(items); i++ {
			it := items[i]
			if it.size <= left {
				f.taken = append(f.taken, taken{i, left, value})
				left, value = left-it.size, value+it.worth
			} else if top := value + left*it.per; top <= f.value+f.slack {
				f.top = max(f.top, top)
				break
			}
		}
		if value > f.value {
			f.note(value)
		}
		for {
			last := len(f.taken) - 1
			if last < 0 {
				return true
			}
			i, left, value = f.taken[last].item+1, f.taken[last].left, f.taken[last].value
			f.taken = f.taken[:last]
			if f.steps++; f.steps >= mostSteps {
				return false
			}
			top := value + roomOf(items[i:], left)
			if top > f.value+f.slack {
				break
			}
			f.top = max(f.top, top)
		}
	}
}

func (f *filling) note(value float64) {
	f.value = value
	clear(f.best)
	for _, t := range f.taken {
		f.best[f.order[t.item]] = true
	}
}
