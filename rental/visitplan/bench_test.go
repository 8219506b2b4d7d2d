package visitplan_test

import (
	"fmt"
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
