package futures_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital/decision/futures"
	"shopstint/model/chance"
)

// byBlocks lays out futures in stratified blocks of 64: one normal score each.
func byBlocks(count int, figures int) [][]float64 {
	list := make([][]float64, figures)
	for b := range count / 64 {
		block := make([][]float64, figures)
		for i := range block {
			block[i] = make([]float64, 64)
		}
		chance.Latin(rand.New(rand.NewPCG(3, uint64(b))), nil, block)
		for i := range block {
			list[i] = append(list[i], block[i]...)
		}
	}
	return list
}

// Large or small plant, or none, in a good or a bad market, each with half the
// chance: published.md, case 66. Expected payoffs 10,000, 40,000 and 0; 100,000
// with perfect information, so that this is worth 60,000.
func TestPerfectInformationIsWorthThePublishedAmount(t *testing.T) {
	payoffs := [][2]float64{{200_000, -180_000}, {100_000, -20_000}, {0, 0}}
	costs, rows, slices := make([][]float64, 3), []float64(nil), []uint8(nil)
	for i := range 256 {
		for c := range costs {
			costs[c] = append(costs[c], -payoffs[c][i%2])
			rows = append(rows, -payoffs[c][i%2])
		}
		slices = append(slices, uint8(15*(i%2)))
	}
	choices := futures.Weigh(costs, make([]float64, 3))
	for c, want := range []float64{-10_000, -40_000, 0} {
		assert.Equal(t, want, choices[c].Cost.Mean.Value)
	}
	assert.Equal(t, 60_000.0, choices[1].Regret.Value, "the small plant is best on average")
	assert.Equal(t, chance.Estimate{Value: 0.5}, chance.Estimate{Value: choices[0].Cheapest.Value})
	assert.Equal(t, 60_000.0, futures.Worth(rows, 3, slices).Value, "the market is all there is to know")
	assert.Zero(t, futures.Worth(rows, 3, make([]uint8, len(slices))).Value, "knowing nothing is worth nothing")
}

// With perfect information a newsvendor orders what will be sold and pays
// nothing, so that his least expected cost is what it is worth: Snyder and Shen,
// Fundamentals of Supply Chain Theory, example 4.3, holding 0.18, penalty 0.70,
// demand normal with mean 50 and deviation 8: 1.9976051931766445 (published.md,
// case 64), for an order of 56.604.
func TestPerfectInformationIsWorthTheNewsvendorsLeastCost(t *testing.T) {
	const orders = 601
	demand := byBlocks(64*150, 1)[0]
	costs := make([][]float64, orders)
	for c := range costs {
		order := 20 + float64(c)*0.1
		for _, u := range demand {
			sold := 50 + 8*chance.Score(u)
			costs[c] = append(costs[c], math.Max(0.18*(order-sold), 0.70*(sold-order)))
		}
	}
	choices := futures.Weigh(costs, make([]float64, orders))
	best := 0
	for c := range choices {
		if choices[c].Cost.Mean.Value < choices[best].Cost.Mean.Value {
			best = c
		}
	}
	assert.InDelta(t, 56.604, 20+float64(best)*0.1, 0.31)
	regret := choices[best].Regret
	assert.InDelta(t, 1.9976051931766445, regret.Value, 4*regret.Error+0.0072, "0.0072: what the nearest order on offer costs, 0.18·0.70/(0.18 + 0.70) of half a step")
}

// Two choices, the first at cost 0, the second at a + b·x + noise with x and the
// noise normal: knowing x is worth |b|·(φ(k) − k·(1 − Φ(k))) with k = |a/b|, the
// unit normal loss of H. Raiffa and R. Schlaifer, Applied Statistical Decision
// Theory, 1961.
func TestKnowingOneNormalInputIsWorthItsUnitNormalLoss(t *testing.T) {
	for _, row := range []struct{ a, b, noise float64 }{{0, 100, 50}, {60, 100, 100}, {-150, 100, 20}, {30, 40, 200}} {
		draws := byBlocks(64*512, 3)
		rows, x, idle := []float64(nil), []uint8(nil), []uint8(nil)
		for i, u := range draws[0] {
			rows = append(rows, 0, row.a+row.b*chance.Score(u)+row.noise*chance.Score(draws[1][i]))
			x, idle = append(x, uint8(16*u)), append(idle, uint8(16*draws[2][i]))
		}
		k := math.Abs(row.a / row.b)
		want := row.b * (math.Exp(-k*k/2)/math.Sqrt(2*math.Pi) - k*(1-chance.Below(k)))
		got := futures.Worth(rows, 2, x)
		assert.InDelta(t, want, got.Value, 4*got.Error+0.03*want+0.01, "%+v: sixteen slices lose up to three in a hundred", row)
		nothing := futures.Worth(rows, 2, idle)
		assert.LessOrEqual(t, nothing.Value, 4*nothing.Error+1e-12, "%+v: what does not matter is worth nothing", row)
	}
}
