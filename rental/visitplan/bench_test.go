package visitplan_test

import (
	"fmt"
	"math"
	"testing"

	"shopstint/rental/visitplan"
)

// Instances of performance.md W4 at 22.00 travel, in turn over the seeds; the
// worst of them stands beside the mean.
func BenchmarkW4(b *testing.B) {
	for _, c := range []struct {
		n, seeds int
	}{{10, 60}, {20, 60}, {50, 60}, {200, 5}, {1000, 2}} {
		for _, loads := range []bool{true, false} {
			b.Run(fmt.Sprintf("jobs=%d/loads=%t", c.n, loads), func(b *testing.B) {
				problems := make([]*visitplan.Problem, c.seeds)
				for i := range problems {
					problems[i] = trips(c.n, uint64(i+1), loads, 2200)
				}
				gap := 0.0
				for i := 0; b.Loop(); i++ {
					plan, err := visitplan.Solve(problems[i%c.seeds], visitplan.Usual())
					if err != nil {
						b.Fatal(err)
					}
					gap = max(gap, plan.Gap())
				}
				b.ReportMetric(100*gap, "worst-gap-%")
			})
		}
	}
}

// The dynamic programme alone, over jobs in the order of their due dates.
func BenchmarkConsecutive(b *testing.B) {
	for _, loads := range []bool{true, false} {
		b.Run(fmt.Sprintf("jobs=1000/loads=%t", loads), func(b *testing.B) {
			jobs, cost := errands(1000, 1, loads), blocks(1400, 2200)
			var ready, minutes, load int
			for b.Loop() {
				least, _ := visitplan.Runs(len(jobs), func(first, last int) (float64, bool) {
					job := &jobs[first]
					if first == last {
						ready, minutes, load = 0, 0, 0
					}
					ready, minutes, load = max(ready, job.ready), minutes+job.minutes, load+job.load
					if ready > job.due || load > 100 {
						return math.Inf(1), false
					}
					return cost(minutes), true
				})
				if math.IsInf(least, 1) {
					b.Fatal("no plan")
				}
			}
		})
	}
}
