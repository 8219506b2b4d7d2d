package visitplan_test

import (
	"fmt"
	"testing"

	"shopstint/rental/visitplan"
)

func TestTmp(t *testing.T) {
	for seed := uint64(1); seed <= 8; seed++ {
		p := trips(200, seed, true, 2200)
		a, _ := visitplan.Solve(p, visitplan.Limits{})
		b, _ := visitplan.Solve(p, visitplan.Limits{Widths: []int{24}, Nodes: 1e9})
		c, _ := visitplan.Solve(p, visitplan.Limits{Widths: []int{24, 400}, Nodes: 1e9})
		d, _ := visitplan.Solve(p, visitplan.Limits{Widths: []int{24, 400, 6000}, Nodes: 1e9})
		e, _ := visitplan.Solve(p, visitplan.Limits{Widths: []int{24, 400, 6000, 100000, 1000000}, Nodes: 1e9})
		fmt.Println(seed, a.Bound, a.Cost, "|", b.Bound, b.Cost, b.Nodes, "|", c.Bound, c.Cost, c.Nodes, "|", d.Bound, d.Cost, d.Nodes, "|", e.Cost, e.Nodes)
	}
}
