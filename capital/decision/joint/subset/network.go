package subset

import (
	"math"
	"math/bits"
	"slices"
)

// network is a problem as tables over yes-or-no variables: the items and, behind
// them, auxiliary ones that say whether a subset has any of several items.
type network struct {
	p      *Problem
	tables []table
	at     [][]place   // by variable: the tables it stands in
	alone  []float64   // by variable: cost of a yes that no table has taken up yet
	always float64     // cost of every set
	weight [][]float64 // by limit and variable: what a yes uses
	known  []clause    // auxiliary variables, in the order of their number

	multipliers []float64 // by limit
}

// table has a cost for every combination of its variables, bit i for vars[i].
// What cannot be together costs +Inf.
type table struct {
	vars []int
	cost []float64
	or   bool // says that the first variable is a yes when any of the others is
}

// place is a table and the bit of a variable in it.
type place struct{ table, bit int }

// clause is an auxiliary variable: yes when the subset has one of the items.
type clause struct {
	items    uint64
	variable int
}

// widest is how many items a term may hang on to become one table over them;
// more go through auxiliary variables.
const widest = 5

// netOf builds the network of a problem.
func netOf(p *Problem) *network {
	n := &network{p: p, alone: make([]float64, p.Items), multipliers: make([]float64, len(p.Limits))}
	n.clauses()
	for t := range p.Terms {
		n.term(&p.Terms[t])
	}
	n.weigh()
	n.at = make([][]place, len(n.alone))
	for t := range n.tables {
		for bit, v := range n.tables[t].vars {
			n.at[v] = append(n.at[v], place{t, bit})
		}
	}
	for v := range n.at { // a variable that no table knows gets one of its own
		if len(n.at[v]) == 0 {
			n.at[v] = []place{{len(n.tables), 0}}
			n.tables = append(n.tables, table{vars: []int{v}, cost: make([]float64, 2)})
		}
	}
	return n
}

// clauses gives a variable to each group of items that a wide term or a limit
// asks for, small groups first, so that larger ones are built of them.
func (n *network) clauses() {
	var groups []uint64
	for t := range n.p.Terms {
		if when := n.p.Terms[t].When; bits.OnesCount64(union(when)) > widest {
			groups = append(groups, when...)
		}
	}
	for i := range n.p.Limits {
		groups = append(groups, n.p.Limits[i].When...)
	}
	groups = slices.DeleteFunc(groups, func(group uint64) bool { return bits.OnesCount64(group) < 2 })
	slices.SortStableFunc(groups, func(a, b uint64) int { return bits.OnesCount64(a) - bits.OnesCount64(b) })
	for _, group := range groups {
		n.variableOf(group)
	}
}

// variableOf returns the variable that says whether a subset has one of some
// items, of which there is at least one.
func (n *network) variableOf(items uint64) int {
	if bits.OnesCount64(items) == 1 {
		return bits.TrailingZeros64(items)
	}
	for _, one := range n.known {
		if one.items == items {
			return one.variable
		}
	}
	vars := make([]int, 1) // its own variable, which is numbered below
	for rest, parts := items, 0; rest != 0; parts++ {
		part := n.largest(rest, (bits.OnesCount64(rest)+2-parts)/(3-parts))
		vars = append(vars, n.variableOf(part))
		rest &^= part
	}
	vars[0] = len(n.alone)
	n.alone = append(n.alone, 0)
	n.known = append(n.known, clause{items, vars[0]})
	n.tables = append(n.tables, orTable(vars))
	return vars[0]
}

// largest is the largest group that is known among some items, or the first
// least of them when no group has as many.
func (n *network) largest(items uint64, least int) uint64 {
	part := uint64(0)
	for rest := items; bits.OnesCount64(part) < least; rest &= rest - 1 {
		part |= rest & -rest
	}
	for _, one := range n.known {
		if one.items&^items == 0 && bits.OnesCount64(one.items) >= bits.OnesCount64(part) {
			part = one.items
		}
	}
	return part
}

func orTable(vars []int) table {
	t := table{vars: vars, cost: make([]float64, 1<<len(vars)), or: true}
	for at := range t.cost {
		if (at&1 != 0) != (at>>1 != 0) {
			t.cost[at] = math.Inf(1)
		}
	}
	return t
}

// term adds the table of a term, over its items when they are few.
func (n *network) term(term *Term) {
	items := union(term.When)
	switch {
	case items == 0:
		n.always += term.Cost[0]
	case items&(items-1) == 0 && len(term.When) == 1:
		n.always += term.Cost[0]
		n.alone[bits.TrailingZeros64(items)] += term.Cost[1] - term.Cost[0]
	case bits.OnesCount64(items) <= widest:
		n.tables = append(n.tables, overItems(term, items))
	default:
		t := table{cost: slices.Clone(term.Cost)}
		for _, when := range term.When {
			t.vars = append(t.vars, n.variableOf(when))
		}
		n.tables = append(n.tables, t)
	}
}

func overItems(term *Term, items uint64) table {
	t := table{}
	for rest := items; rest != 0; rest &= rest - 1 {
		t.vars = append(t.vars, bits.TrailingZeros64(rest))
	}
	t.cost = make([]float64, 1<<len(t.vars))
	for at := range t.cost {
		set := uint64(0)
		for bit, v := range t.vars {
			set |= uint64(at>>bit&1) << v
		}
		t.cost[at] = term.Cost[term.index(set)]
	}
	return t
}

// weigh gives each variable what it uses of each limit.
func (n *network) weigh() {
	for i := range n.p.Limits {
		limit := &n.p.Limits[i]
		weight := make([]float64, len(n.alone))
		for k, when := range limit.When {
			if when != 0 {
				weight[n.variableOf(when)] += limit.Weight[k]
			}
		}
		n.weight = append(n.weight, weight)
	}
}
