package chance_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/chance"
)

func block(figures, futures int) [][]float64 {
	list := make([][]float64, figures)
	for i := range list {
		list[i] = make([]float64, futures)
	}
	return list
}

func seeded(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 0)) }

func TestABlockHasOneDrawInEverySlice(t *testing.T) {
	draws := block(5, 64)
	chance.Latin(seeded(7), nil, draws)
	for _, figure := range draws {
		seen := make([]bool, 64)
		for _, u := range figure {
			slice := int(u * 64)
			assert.False(t, seen[slice])
			seen[slice] = true
		}
	}
	assert.NotEqual(t, draws[0], draws[1])
}

func TestOneSeedDrawsTheSameAndAnotherDoesNot(t *testing.T) {
	draw := func(seed uint64) [][]float64 {
		draws := block(3, 16)
		chance.Latin(seeded(seed), nil, draws)
		return draws
	}
	assert.Equal(t, draw(1), draw(1))
	assert.NotEqual(t, draw(1), draw(2))
}

// correlation is that of the normal scores of two figures over many blocks.
func correlation(copula *chance.Copula, figures, a, b int) (rho, error float64) {
	const blocks, futures = 400, 64
	sum, square := 0.0, 0.0
	for i := range blocks {
		draws, product := block(figures, futures), 0.0
		chance.Latin(seeded(uint64(i)), copula, draws)
		for k := range futures {
			product += chance.Score(draws[a][k]) * chance.Score(draws[b][k]) / futures
		}
		sum += product / blocks
		square += product * product / blocks
	}
	return sum, math.Sqrt((square - sum*sum) / blocks)
}

func TestCorrelationsAreFoundAgainInTheDraws(t *testing.T) {
	list := []chance.Correlation{{A: 0, B: 3, Rho: 0.8}, {A: 3, B: 1, Rho: -0.5}, {A: 4, B: 5, Rho: 1}, {A: 5, B: 6, Rho: -1}, {A: 4, B: 6, Rho: -1}}
	copula, err := chance.NewCopula(list)
	require.NoError(t, err)
	for _, one := range append(list, chance.Correlation{A: 0, B: 1}, chance.Correlation{A: 0, B: 2}, chance.Correlation{A: 2, B: 4}) {
		rho, sampling := correlation(copula, 7, one.A, one.B)
		assert.InDelta(t, one.Rho, rho, 4*sampling+2e-3, "figures %d and %d", one.A, one.B)
	}
}

func TestACopulaLeavesEachFigureAsItWas(t *testing.T) {
	copula, err := chance.NewCopula([]chance.Correlation{{A: 0, B: 1, Rho: 0.7}})
	require.NoError(t, err)
	var below [10]int
	for i := range 200 {
		draws := block(2, 50)
		chance.Latin(seeded(uint64(i)), copula, draws)
		for _, u := range draws[1] {
			below[int(u*10)]++
		}
	}
	for _, count := range below { // of 10,000 draws a tenth each, standard deviation 30
		assert.InDelta(t, 1000, count, 130)
	}
}

// eigenvalue returns the least eigenvalue of three figures' correlations, from
// the cubic that it solves: a second way to tell whether they can hold.
func eigenvalue(a, b, c float64) float64 {
	q := a*a + b*b + c*c
	if q == 0 {
		return 1
	}
	angle := math.Acos(math.Min(1, math.Max(-1, a*b*c/math.Pow(q/3, 1.5)))) / 3
	return 1 + 2*math.Sqrt(q/3)*math.Cos(angle+2*math.Pi/3)
}

func TestCorrelationsThatCannotAllHoldAreRefusedAndOthersAreNot(t *testing.T) {
	refused := 0
	rapid.Check(t, func(t *rapid.T) {
		rho := func(name string) float64 { return rapid.Float64Range(-1, 1).Draw(t, name) }
		a, b, c := rho("a"), rho("b"), rho("c")
		least := eigenvalue(a, b, c)
		if math.Abs(least) < 1e-6 {
			t.Skip("on the border")
		}
		_, err := chance.NewCopula([]chance.Correlation{{A: 0, B: 1, Rho: a}, {A: 0, B: 2, Rho: b}, {A: 1, B: 2, Rho: c}})
		var contradiction *chance.Contradiction
		if least < 0 {
			refused++
			require.ErrorAs(t, err, &contradiction)
			assert.Equal(t, 2, contradiction.Figure)
			return
		}
		assert.NoError(t, err)
	})
	assert.Positive(t, refused)
}
