package roadmap

import (
	"cmp"
	"slices"
)

// mostMerged is the number of machines up to which tables are added up to one
// of all their machines.
const mostMerged = 8

// merge adds tables up where one of all their machines is small, or no larger
// than one of them: what one table says the search weighs as it is, and what
// several say by prices only. The second list has the same tables at other
// costs and is merged alike.
func merge(tables, twins []table) (merged, mergedTwins []table) {
	order := make([]int, len(tables))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(len(tables[b].machines), len(tables[a].machines)) })
	for _, i := range order {
		at := slices.IndexFunc(merged, func(one table) bool {
			all := len(union(one.machines, tables[i].machines))
			return all <= max(len(one.machines), mostMerged)
		})
		if at < 0 {
			merged, mergedTwins = append(merged, tables[i]), append(mergedTwins, twins[i])
			continue
		}
		merged[at], mergedTwins[at] = merged[at].plus(&tables[i]), mergedTwins[at].plus(&twins[i])
	}
	return merged, mergedTwins
}

func union(a, b []int) []int {
	all := slices.Clone(a)
	for _, m := range b {
		if !slices.Contains(all, m) {
			all = append(all, m)
		}
	}
	return all
}

// plus is the sum of two tables, over the machines of both.
func (b *table) plus(other *table) table {
	out := table{machines: union(b.machines, other.machines), cost: make([][]float64, len(b.cost))}
	one, two := b.places(out.machines), other.places(out.machines)
	for t := range out.cost {
		out.cost[t] = make([]float64, len(one))
		for set := range out.cost[t] {
			out.cost[t][set] = b.cost[t][one[set]] + other.cost[t][two[set]]
		}
	}
	return out
}

// places says for each set of some machines which set of the table's it holds.
func (b *table) places(machines []int) []int {
	of := make([]int, 1<<len(machines))
	for i, m := range machines {
		bit := 0
		if at := slices.Index(b.machines, m); at >= 0 {
			bit = 1 << at
		}
		for set := range 1 << i {
			of[set|1<<i] = of[set] | bit
		}
	}
	return of
}
