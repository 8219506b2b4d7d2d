package subset

import (
	"fmt"
	"slices"
	"testing"
	"time"
)

// sizes of the benchmark: machines, job types, limited or not.
var sizes = []struct {
	machines, jobs int
	limited        bool
}{
	{8, 20, false}, {8, 20, true}, {12, 20, false}, {12, 20, true}, {16, 20, false}, {16, 20, true},
	{24, 20, false}, {24, 20, true}, {24, 60, false}, {24, 60, true}, {40, 60, false}, {40, 60, true},
}

// BenchmarkCheapest gives the time to find and prove the cheapest set: beside the
// mean, median and worst over sixty instances, each the least of five runs.
func BenchmarkCheapest(b *testing.B) {
	for _, size := range sizes {
		b.Run(fmt.Sprintf("%d_machines_%d_jobs_limited_%t", size.machines, size.jobs, size.limited), func(b *testing.B) {
			instances := make([]*Problem, 60)
			for seed := range instances {
				instances[seed] = instance(size.machines, size.jobs, uint64(seed+1), size.limited)
			}
			times := timed(instances)
			b.ResetTimer()
			i := 0
			for b.Loop() {
				Cheapest(instances[i%len(instances)], 1, 1<<30)
				i++
			}
			b.ReportMetric(float64(times[len(times)/2].Nanoseconds())/1e3, "median-µs")
			b.ReportMetric(float64(times[len(times)-1].Nanoseconds())/1e3, "worst-µs")
		})
	}
}

// timed gives the least time of five for each instance, ascending.
func timed(instances []*Problem) []time.Duration {
	times := make([]time.Duration, len(instances))
	for i, p := range instances {
		times[i] = time.Hour
		for range 5 {
			start := time.Now()
			Cheapest(p, 1, 1<<30)
			times[i] = min(times[i], time.Since(start))
		}
	}
	slices.Sort(times)
	return times
}
