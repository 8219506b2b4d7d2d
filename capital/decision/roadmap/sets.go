package roadmap

import (
	"math"
	"math/bits"
)

// mostInSets is the number of machines up to which every set of them is walked
// through, year by year.
const mostInSets = 12

// trade is what a machine costs when ownership parts into what is paid on
// buying and what is paid on selling: own[a][b] = buy[a] + sell[b].
type trade struct{ buy, sell []float64 }

// trades parts every machine's costs so, if that can be done: then the sets
// owned say all that the years ahead need to know.
func (p *instance) trades() ([]trade, bool) {
	list := make([]trade, len(p.machines))
	for m := range p.machines {
		part, ok := p.trade(m)
		if !ok {
			return nil, false
		}
		list[m] = part
	}
	return list, true
}

func (p *instance) trade(m int) (trade, bool) {
	own, last := p.machines[m].own, p.years
	part := trade{make([]float64, last), make([]float64, last+1)}
	for b := 1; b <= last; b++ {
		part.sell[b] = own[0][b] - own[0][last]
	}
	for a := range part.buy {
		part.buy[a] = own[a][last]
		for b := a + 1; b <= last; b++ {
			switch off := own[a][b] - part.buy[a] - part.sell[b]; {
			case math.IsInf(own[a][b], 1) && math.IsInf(part.sell[b], 1):
			case !p.machines[m].again && b < last, !(math.Abs(off) <= dust*(1+math.Abs(part.buy[a]))):
				return trade{}, false
			}
		}
		if a > 0 && part.buy[a]+part.sell[a] < 0 || p.paidLater(m, a) {
			return trade{}, false
		}
	}
	return part, true
}

// paidLater tells whether who bought a machine in year a pays for another one
// later, out of a budget.
func (p *instance) paidLater(m, a int) bool {
	for t := a + 1; t < p.years; t++ {
		if p.machines[m].paid[a][t] > 0 && !math.IsInf(p.budget[t], 1) {
			return true
		}
	}
	return false
}

// bySets finds the cheapest roadmap within a domain by dynamic programming over
// the sets owned, from the last year back. It returns no plan and +Inf when
// there is none.
//
// Source: R. Bellman, Dynamic Programming, 1957.
func (p *instance) bySets(parts []trade, d domain) ([]span, float64) {
	n := len(p.machines)
	next := make([]float64, 1<<n) // cost from the start of a year on, before buying
	start, hold := make([][]float64, p.years), make([][]float64, p.years)
	bundles := make([]bundles, p.years)
	for t := p.years - 1; t >= 0; t-- {
		if t < p.years-1 {
			sellInto(next, parts, t+1)
		}
		hold[t] = p.yearCosts(t)
		p.bar(hold[t], d, t)
		for set, cost := range next {
			hold[t][set] += cost
		}
		next = make([]float64, 1<<n)
		copy(next, hold[t])
		bundles[t] = p.buyInto(next, hold[t], parts, d, t)
		start[t] = append([]float64(nil), next...)
	}
	if math.IsInf(next[0], 1) {
		return nil, infinite
	}
	return p.walk(parts, start, hold, bundles), next[0]
}

// sellInto lets each machine be sold at the start of year t.
func sellInto(next []float64, parts []trade, t int) {
	for m := range parts {
		gain, bit := parts[m].sell[t], 1<<m
		if math.IsInf(gain, 1) {
			continue
		}
		for set := range next {
			if set&bit != 0 {
				next[set] = math.Min(next[set], gain+next[set&^bit])
			}
		}
	}
}

// yearCosts is what the tables say of year t for every set: each table as a sum
// over subsets, all of them added up, and one transform.
//
// Source: F. Yates, The Design and Analysis of Factorial Experiments, 1937.
func (p *instance) yearCosts(t int) []float64 {
	sums := make([]float64, 1<<len(p.machines))
	for i := range p.tables {
		part := append([]float64(nil), p.tables[i].cost[t]...)
		for bit := 1; bit < len(part); bit <<= 1 {
			for set := range part {
				if set&bit != 0 {
					part[set] -= part[set^bit]
				}
			}
		}
		for set, value := range part {
			sums[p.tables[i].spread(set)] += value
		}
	}
	for bit := 1; bit < len(sums); bit <<= 1 {
		for base := 0; base < len(sums); base += 2 * bit {
			low, high := sums[base:base+bit], sums[base+bit:base+2*bit]
			for i := range low {
				high[i] += low[i]
			}
		}
	}
	return sums
}

// spread turns a set of the table's machines into one of all machines.
func (b *table) spread(set int) int {
	whole := 0
	for i, m := range b.machines {
		whole |= set >> i & 1 << m
	}
	return whole
}

// bar takes out the sets that may not be owned in year t.
func (p *instance) bar(costs []float64, d domain, t int) {
	never, always := 0, 0
	for m := range p.machines {
		never |= int(d.never[m]>>t&1) << m
		always |= int(d.always[m]>>t&1) << m
	}
	for set := range costs {
		if set&never != 0 || set&always != always {
			costs[set] = infinite
		}
	}
	for r := range p.rooms {
		taken := make([]float64, len(costs))
		for set := 1; set < len(taken); set++ {
			taken[set] = taken[set&(set-1)] + p.rooms[r].need[bits.TrailingZeros(uint(set))]
			if taken[set] > withDust(p.rooms[r].most[t]) {
				costs[set] = infinite
			}
		}
	}
}
