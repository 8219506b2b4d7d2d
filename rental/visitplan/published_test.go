package visitplan_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"shopstint/model/published"
	"shopstint/rental/visitplan"
)

func TestLotsBySizeAgreeWithPublishedCases(t *testing.T) {
	require.NoError(t, published.Agree(os.DirFS("../../testdata/published"), "lotsizing", workOut))
}

// lots makes every run of periods one lot: set up in its first period, held
// until each period's demand.
func lots(demand, setup []float64, holding float64) (float64, []int) {
	carried, waiting := 0.0, 0.0
	return visitplan.Runs(len(demand), func(first, last int) (float64, bool) {
		if first == last {
			carried, waiting = 0, 0
		}
		waiting += carried // what comes later waits one period more
		carried += demand[first]
		return setup[first] + holding*waiting, true
	})
}

func workOut(in *published.Inputs) map[string][]float64 {
	demand, setup, holding := in.List("demand"), in.List("setup"), in.Number("holding")
	if in.Err() != nil {
		return nil
	}
	cost, starts := lots(demand, setup, holding)
	size, through, toGo := make([]float64, len(demand)), []float64{}, []float64{}
	for i, start := range starts {
		end := len(demand)
		if i+1 < len(starts) {
			end = starts[i+1]
		}
		for _, amount := range demand[start:end] {
			size[start] += amount
		}
	}
	for t := range demand {
		until, _ := lots(demand[:t+1], setup[:t+1], holding)
		from, _ := lots(demand[t:], setup[t:], holding)
		through, toGo = append(through, until), append(toGo, from)
	}
	return map[string][]float64{"cost": {cost}, "lots": size, "through": through, "togo": toGo}
}
