package roadmap

// filling finds what is worth most within a limit: each item is taken whole or
// left.
//
// Source: E. Horowitz and S. Sahni, Computing Partitions with Applications to
// the Knapsack Problem, 1974 (branch and bound in the order of worth by size).
type filling struct {
	size, worth []float64 // of the items
	order       []int     // the dearest for their size first; kept from one use to the next
	taken, best []bool
	value       float64
	steps       int
}

// mostSteps bounds one filling; beyond it the bound of G. B. Dantzig,
// Discrete-Variable Extremum Problems, 1957, stands, which is never too low.
const mostSteps = 300

// reset makes place for so many items.
func (f *filling) reset(items int) {
	if cap(f.size) < items {
		f.size, f.worth = make([]float64, items), make([]float64, items)
		f.taken, f.best = make([]bool, items), make([]bool, items)
	}
	f.size, f.worth, f.taken, f.best = f.size[:items], f.worth[:items], f.taken[:items], f.best[:items]
	f.order = f.order[:0]
	for i := range items {
		f.order = append(f.order, i)
	}
}

// most returns the most worth that a limit takes in, or a little more.
func (f *filling) most(limit float64) float64 {
	n := 0
	for _, i := range f.order { // those worth nothing go to the end
		if f.worth[i] > 0 {
			n++
		}
	}
	f.sort()
	clear(f.best)
	clear(f.taken)
	f.value, f.steps = -1, 0
	top := f.room(n, 0, limit)
	f.try(n, 0, limit, 0)
	if f.steps > mostSteps {
		f.value = top
	}
	return f.value
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

// room is the worth of the items from i on when the last may be taken in part.
func (f *filling) room(n, i int, left float64) float64 {
	sum := 0.0
	for ; i < n; i++ {
		item := f.order[i]
		if f.size[item] > left {
			return sum + f.worth[item]*left/f.size[item]
		}
		left -= f.size[item]
		sum += f.worth[item]
	}
	return sum
}

// beside is the most that a limit can take in of all items but one, or more.
func (f *filling) beside(but int, left float64) float64 {
	sum := 0.0
	for _, item := range f.order {
		switch {
		case item == but:
			continue
		case f.worth[item] <= 0:
			return sum
		case f.size[item] > left:
			return sum + f.worth[item]*left/f.size[item]
		}
		left -= f.size[item]
		sum += f.worth[item]
	}
	return sum
}

func (f *filling) try(n, i int, left, value float64) {
	if f.steps++; f.steps > mostSteps && f.value >= 0 {
		return
	}
	if value+f.room(n, i, left) <= f.value {
		return
	}
	if i == n {
		f.value = value
		copy(f.best, f.taken)
		return
	}
	if item := f.order[i]; f.size[item] <= left {
		f.taken[item] = true
		f.try(n, i+1, left-f.size[item], value+f.worth[item])
		f.taken[item] = false
	}
	f.try(n, i+1, left, value)
}
