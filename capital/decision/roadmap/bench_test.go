package roadmap

import (
	"fmt"
	"testing"

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
