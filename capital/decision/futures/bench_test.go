package futures_test

import (
	"context"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/futures"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/study"
)

func demoStudy(t testing.TB) *model.Study {
	t.Helper()
	s, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	return s
}

// BenchmarkTheDemo draws 2,048 futures and prices all 64 sets of its machines,
// or the 7 without combinations, in each.
func BenchmarkTheDemo(b *testing.B) {
	s := demoStudy(b)
	s.Studio.Amps = 1000 // its supply forbids most sets
	all := futures.Choices(s)
	for name, sets := range map[string][][]bool{"all sets": all, "each machine alone": all[:1+len(s.Machines)]} {
		for _, workers := range []int{1, runtime.GOMAXPROCS(0)} {
			b.Run(name, func(b *testing.B) {
				drawn := 0
				for b.Loop() {
					result, err := futures.Draw(context.Background(), s, futures.Options{Seed: 1, Most: 2048, Workers: workers, Sets: sets})
					require.NoError(b, err)
					drawn += result.Futures
				}
				b.ReportMetric(float64(drawn)/b.Elapsed().Seconds(), "futures/s")
			})
		}
	}
}
