package wear

import "gonum.org/v1/gonum/stat/distuv"

const daysInYear = 365

// Seldom is the share of changes that may have to wait for a sharpened edge.
const Seldom = 0.05

// Spares returns how many edges are needed beside the one in the machine, so that
// fewer than one change in twenty waits, when so many are away for sharpening on
// the average. A change waits when all the spares are away.
//
// Source: Palm, Analysis of the Erlang traffic formula, Ericsson Technics (1938),
// and Feeney and Sherbrooke, The (s−1, s) inventory policy, Management Science 12
// (1966): the number away is a Poisson number, however long each stays away.
func Spares(away float64) int {
	if away <= 0 {
		return 0
	}
	spares := 1
	for Waits(spares, away) >= Seldom {
		spares++
	}
	return spares
}

// Waits returns the share of changes that wait when so many edges stand by and so
// many are away on the average.
func Waits(spares int, away float64) float64 {
	return distuv.Poisson{Lambda: away}.Survival(float64(spares - 1))
}
