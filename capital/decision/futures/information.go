package futures

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"shopstint/model/chance"
)

// Information is what it would be worth to know one input before choosing.
type Information struct {
	Path  string
	Worth chance.Estimate
}

// among is among how many choices, the cheapest on average, the worth of one
// input is found.
const among = 24

// informations finds the worth of every input, the most first; of equals the
// first in the study.
func (s *sample) informations(costs [][]float64, result *Result) ([]Information, int) {
	order := make([]int, len(costs))
	for c := range order {
		order[c] = c
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(result.Choices[a].Cost.Mean.Value, result.Choices[b].Cost.Mean.Value)
	})
	order = order[:min(among, len(order))]
	rows := make([]float64, s.futures()*len(order))
	for c, choice := range order {
		for i, cost := range costs[choice] {
			rows[i*len(order)+c] = cost - costs[order[0]][i]
		}
	}
	list := make([]Information, s.inputs.Len())
	var group sync.WaitGroup
	workers := max(1, s.options.Workers)
	for w := range workers {
		group.Go(func() {
			for k := w; k < len(list); k += workers {
				list[k] = Information{s.inputs.Path(k), Worth(rows, len(order), s.slices(k))}
			}
		})
	}
	group.Wait()
	slices.SortStableFunc(list, func(a, b Information) int { return cmp.Compare(b.Worth.Value, a.Worth.Value) })
	return list, len(order)
}

// slices tells future by future in which slice of its chances an input lies:
// fewer and wider ones where there are few futures.
func (s *sample) slices(input int) []uint8 {
	list := make([]uint8, 0, s.futures())
	for b := range s.blocks {
		list = append(list, s.blocks[b].slices[input*chance.PerBlock:(input+1)*chance.PerBlock]...)
	}
	if s.futures() < finely {
		for i := range list {
			list[i] /= 2
		}
	}
	return list
}

// finely is from how many futures on all sixteen slices are told apart.
const finely = 8192

// Worth estimates what it would be worth to know in which slice an input lies:
// expected value of partial perfect information. Costs has one row a future,
// one column a choice; slices are numbered from 0 to 15. Blocks of 64 futures in
// turn belong to two halves: in each half the best choice of every slice is
// found, and it is judged on the other half, so that luck finds no worth where
// there is none. What is found is therefore rather a little low than high.
//
// Source: M. Strong and J. E. Oakley, An Efficient Method for Computing
// Single-Parameter Partial Expected Value of Perfect Information, Medical
// Decision Making 33, 2013 (slices of the sorted input); judged on the other
// half by common practice, no source.
func Worth(costs []float64, choices int, slices []uint8) chance.Estimate {
	var sums [2][slicesOf][]float64
	var counts [2][slicesOf]int
	for half := range sums {
		for slice := range sums[half] {
			sums[half][slice] = make([]float64, choices)
		}
	}
	for i, slice := range slices {
		half := i / chance.PerBlock % 2
		counts[half][slice]++
		for c, cost := range costs[i*choices : (i+1)*choices] {
			sums[half][slice][c] += cost
		}
	}
	var chosen [2][slicesOf]int
	var unknowing [2]int
	for half := range sums {
		unknowing[half], chosen[half] = policy(&sums[half], choices)
	}
	saved := make([]float64, len(slices))
	for i, slice := range slices {
		other := 1 - i/chance.PerBlock%2
		row := costs[i*choices : (i+1)*choices]
		if counts[other][slice] > 0 {
			saved[i] = row[unknowing[other]] - row[chosen[other][slice]]
		}
	}
	worth := chance.MeanOf(saved, 0)
	worth.Value = math.Max(0, worth.Value)
	return worth
}

// policy finds the best choice without knowledge, and in each slice.
func policy(sums *[slicesOf][]float64, choices int) (unknowing int, chosen [slicesOf]int) {
	total := make([]float64, choices)
	for slice, row := range sums {
		chosen[slice] = least(row)
		for c, sum := range row {
			total[c] += sum
		}
	}
	return least(total), chosen
}

func least(row []float64) int {
	best := 0
	for c, sum := range row {
		if sum < row[best] {
			best = c
		}
	}
	return best
}
