package visitplan_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"shopstint/rental/visitplan"
)

func TestTmp(t *testing.T) {
	for _, n := range []int{10, 20, 50, 200, 1000} {
		for _, loads := range []bool{true, false} {
			for seed := uint64(1); seed <= 5; seed++ {
				p := trips(n, seed, loads, 2200)
				start := time.Now()
				plan, err := visitplan.Solve(p, visitplan.Usual())
				require.NoError(t, err)
				fmt.Println(n, loads, seed, plan.Cost, plan.Bound, plan.Gap(), plan.Method, plan.Nodes, time.Since(start))
				if n == 1000 && seed >= 2 {
					break
				}
			}
		}
	}
}
