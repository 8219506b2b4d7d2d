package roadmap

import (
	"math"
	"math/bits"
)

// bundles are the sets that the budget of a year can buy at once, each with its
// cost; without a limit machines are bought one by one and nothing is listed.
type bundles struct {
	unlimited bool
	sets      []int
	costs     []float64
}

// buyInto lets every affordable bundle be bought at the start of year t: next
// becomes the least over the bundles of its cost and hold with the bundle in it.
func (p *instance) buyInto(next, hold []float64, parts []trade, d domain, t int) bundles {
	if math.IsInf(p.budget[t], 1) {
		for m := range parts {
			cost, bit := parts[m].buy[t], 1<<m
			for set := range next {
				if set&bit == 0 {
					next[set] = math.Min(next[set], cost+next[set|bit])
				}
			}
		}
		return bundles{unlimited: true}
	}
	list := p.affordable(parts, d, t)
	all := len(next) - 1
	for i, bundle := range list.sets {
		cost, rest := list.costs[i], all&^bundle
		for set := rest; ; set = (set - 1) & rest {
			if total := cost + hold[set|bundle]; total < next[set] {
				next[set] = total
			}
			if set == 0 {
				break
			}
		}
	}
	return list
}

// affordable lists the bundles that the budget of year t can pay and the domain allows.
func (p *instance) affordable(parts []trade, d domain, t int) bundles {
	var list bundles
	var grow func(m, set int, left, cost float64)
	grow = func(m, set int, left, cost float64) {
		if m == len(parts) {
			if set != 0 {
				list.sets, list.costs = append(list.sets, set), append(list.costs, cost)
			}
			return
		}
		grow(m+1, set, left, cost)
		if open, _ := p.starts(d, m, t); !open {
			return
		}
		if paid := p.machines[m].paid[t][t]; paid <= left {
			grow(m+1, set|1<<m, left-paid, cost+parts[m].buy[t])
		}
	}
	grow(0, 0, withDust(p.budget[t]), 0)
	return list
}

// walk follows the cheapest way from owning nothing through the years. start[t]
// is the cost from year t on before anything is bought in it, hold[t] after.
func (p *instance) walk(parts []trade, start, hold [][]float64, years []bundles) []span {
	owned := make([]uint32, len(p.machines))
	set := 0
	for t := range hold {
		if t > 0 {
			set = bestSale(set, parts, start[t], t)
		}
		set = bestBuy(set, parts, hold[t], years[t], t)
		for m := range owned {
			owned[m] |= uint32(set>>m&1) << t
		}
	}
	return p.planOf(owned)
}

// bestSale finds what is left of a set when the best part of it is sold at the
// start of year t.
func bestSale(set int, parts []trade, start []float64, t int) int {
	least, best := infinite, set
	for left := set; ; left = (left - 1) & set {
		gain := 0.0
		for m := range parts {
			if (set&^left)>>m&1 == 1 {
				gain += parts[m].sell[t]
			}
		}
		if gain+start[left] < least {
			least, best = gain+start[left], left
		}
		if left == 0 {
			return best
		}
	}
}

// bestBuy finds what a set becomes by buying at the start of year t.
func bestBuy(set int, parts []trade, hold []float64, list bundles, t int) int {
	if list.unlimited {
		return bestOneByOne(set, parts, hold, t)
	}
	least, best := hold[set], set
	for i, bundle := range list.sets {
		if bundle&set == 0 && list.costs[i]+hold[set|bundle] < least {
			least, best = list.costs[i]+hold[set|bundle], set|bundle
		}
	}
	return best
}

// bestOneByOne goes through every set that holds the given one.
func bestOneByOne(set int, parts []trade, hold []float64, t int) int {
	cost := make([]float64, len(hold))
	least, best := infinite, set
	for to := range hold {
		if to&set != set {
			continue
		}
		if more := to &^ set; more != 0 {
			last := more & -more
			cost[to] = cost[to&^last] + parts[bits.TrailingZeros(uint(last))].buy[t]
		}
		if cost[to]+hold[to] < least {
			least, best = cost[to]+hold[to], to
		}
	}
	return best
}
