package roadmap

import (
	"fmt"
	"testing"
	"time"
)

func TestClimb(t *testing.T) {
	for _, n := range []int{8, 12, 14} {
		for seed := uint64(1); seed <= 4; seed++ {
			p := benchmark(n, seed, false)
			parts, _ := p.trades()
			_, cost := p.bySets(parts, p.wholeDomain())
			r := newRelaxation(p)
			d := p.wholeDomain()
			s := ""
			t0 := time.Now()
			c := newClimb(r)
			for k := 0; k < 8; k++ {
				c.climb(d, cost*1.0, 100)
				s += fmt.Sprintf(" %.3f%%", 100*(cost-c.bound)/cost)
			}
			fmt.Println(n, seed, s, time.Since(t0)/800)
		}
	}
}
