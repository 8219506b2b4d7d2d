package roadmap

import (
	"fmt"
	"testing"
	"time"
)

func TestTmp(t *testing.T) {
	for _, n := range []int{8, 12, 14} {
		for _, sell := range []bool{false, true} {
			for seed := uint64(1); seed <= 3; seed++ {
				p := benchmark(n, seed, sell)
				parts, ok := p.trades()
				t0 := time.Now()
				plan, cost := p.bySets(parts, p.wholeDomain())
				d := time.Since(t0)
				fmt.Println(n, seed, sell, ok, int(cost+.5), int(p.cost(plan)+.5), p.allowed(plan), d)
			}
		}
	}
}
