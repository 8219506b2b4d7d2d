package change_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/model/wear/change"
)

// With u the best run in lives of damage, change × rate² ÷ rise is u − 1 + exp(−u);
// of which the change that has that best run is found. Source: derivative of Rate
// set to zero.
func TestABestRunIsToldAsLongAsOneEdgeInABillionComesToIt(t *testing.T) {
	const rise, life = 0.02, change.Sudden(0.1)
	for u, told := range map[float64]bool{1e-3: true, 0.5: true, 2: true, 10: true, 20.7: true, 20.8: false, 30: false} { // ln 1e9 = 20.72
		costs := change.Costs{Change: (math.Expm1(-u) + u) * rise / (0.1 * 0.1), Rise: rise}
		best := change.Best(costs, life)
		if !told {
			assert.True(t, math.IsInf(best, 1), "%v lives of damage", u)
			continue
		}
		assert.InEpsilon(t, u/0.1, best, 1e-6, "%v lives of damage", u)
	}
}

func TestABestRunMayBeFarUnderAndFarOverOneUnit(t *testing.T) {
	for _, want := range []float64{1e-9, 0.3, 0.5, 1, 2, 3, 1e12} {
		costs := change.Costs{Change: want * want / 2, Rise: 1}
		assert.InEpsilon(t, want, change.Best(costs, change.Sudden(0)), 1e-10)
	}
}

// even is a life that damage ends before 10, at each run as likely as at any other.
type even struct{}

func (even) Survival(run float64) float64 { return 1 - math.Min(run/10, 1) }
func (even) Prob(run float64) float64 {
	if run >= 10 {
		return 0
	}
	return 0.1
}

// A change of c and d more after damage cost (c + d·r/10) ÷ (r − r²/20), which is
// least where d·r²/200 + c·r/10 = c. Source: worked out by hand.
func TestAnEdgeThatNoneOutlastsIsChangedBeforeItsEnd(t *testing.T) {
	best := change.Best(change.Costs{Change: 10, Damage: 10}, even{})
	assert.InEpsilon(t, 10*(math.Sqrt(3)-1), best, 1e-9)
	best = change.Best(change.Costs{Change: 30, Damage: 10}, even{})
	assert.InEpsilon(t, math.Sqrt(1500)-30, best, 1e-9)
}
