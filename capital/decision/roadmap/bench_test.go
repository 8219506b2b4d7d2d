package roadmap

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"shopstint/model/quantity"
	"shopstint/model/work"
)

func BenchmarkDemo(b *testing.B) {
	for _, budget := range []float64{0, 40000, 20000} {
		b.Run(fmt.Sprintf("budget %.0f", budget), func(b *testing.B) {
			s := demoStudy(b)
			s.Studio.YearlyBudget = quantity.Money(budget)
			plan := work.New(s)
			for b.Loop() {
				Decide(s, plan)
			}
		})
	}
}

// BenchmarkRoadmap solves forty instances of each size and variant, and reports
// the median and the worst of them.
func BenchmarkRoadmap(b *testing.B) {
	for _, n := range []int{8, 12, 14, 16, 24, 30} {
		for _, variant := range []string{"buy", "sell"} {
			b.Run(fmt.Sprintf("%d machines, %s", n, variant), func(b *testing.B) {
				for b.Loop() {
					times, unproven := solveSeeds(n, variant == "sell")
					b.ReportMetric(times[len(times)/2], "ms-median")
					b.ReportMetric(times[len(times)*9/10], "ms-p90")
					b.ReportMetric(times[len(times)-1], "ms-worst")
					b.ReportMetric(float64(unproven), "unproven")
				}
			})
		}
	}
}

// solveSeeds returns the milliseconds of each seed, sorted, and how many
// roadmaps were not proven the cheapest.
func solveSeeds(n int, sell bool) (times []float64, unproven int) {
	for seed := range uint64(40) {
		p := benchmark(n, seed+1, sell)
		begin := time.Now()
		got := newSolver(p).best(p.wholeDomain(), infinite, benchEffort)
		times = append(times, time.Since(begin).Seconds()*1000)
		if got.cost-got.bound > proven*got.cost {
			unproven++
		}
	}
	slices.Sort(times)
	return times, unproven
}

var benchEffort = effort{work: 2_000_000_000, steps: 400}
