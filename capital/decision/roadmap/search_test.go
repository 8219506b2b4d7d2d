package roadmap

import (
	"fmt"
	"os"
	"strconv"
	"testing"
	"time"
)

func TestSearchTmp(t *testing.T) {
	if os.Getenv("N") == "" {
		t.Skip()
	}
	n, _ := strconv.Atoi(os.Getenv("N"))
	sell := os.Getenv("SELL") != ""
	for seed := uint64(1); seed <= 12; seed++ {
		p := benchmark(n, seed, sell)
		t0 := time.Now()
		parts, _ := p.trades()
		r := newRelaxation(p)
		s := &search{p: p, parts: parts, climb: newClimb(r), most: 20000, upper: p.cost(nil), bound: infinite}
		s.draft = newDraft(r, p.wholeDomain())
		s.node(p.wholeDomain(), 0)
		d := time.Since(t0)
		want := 0.0
		if n <= 14 {
			_, want = p.bySets(parts, p.wholeDomain())
		}
		fmt.Printf("%d %d %.0f (%.0f) nodes %d bound %.0f %v\n", n, seed, s.upper, want, s.nodes, s.bound, d)
	}
}
