package chance

import "math/rand/v2"

// Latin fills in a block of draws: by figure and future, a probability over 0
// and under 1. Within the block every figure has one draw in each of as many
// equal slices as there are futures, in an order of its own, so that means of
// the block scatter less than those of independent draws and different blocks
// stay independent. The copula, if any, then mixes the figures that go together.
//
// Source: M. D. McKay, R. J. Beckman and W. J. Conover, A Comparison of Three
// Methods for Selecting Values of Input Variables, Technometrics 21, 1979.
func Latin(rng *rand.Rand, copula *Copula, block [][]float64) {
	for _, draws := range block {
		width := 1 / float64(len(draws))
		for i := range draws {
			slice := rng.IntN(i + 1) // the shuffle of R. Durstenfeld, 1964, from the inside out
			draws[i] = draws[slice]
			draws[slice] = float64(i)
		}
		for i := range draws {
			draws[i] = inside((draws[i] + rng.Float64()) * width)
		}
	}
	if copula == nil || len(block) == 0 {
		return
	}
	scores := make([]float64, len(copula.members))
	for i := range block[0] {
		copula.mix(block, i, scores)
	}
}
