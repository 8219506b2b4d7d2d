// Package loan follows a loan repaid by equal payments at the end of each
// month: what is owed, and how each year's payments part into interest and
// principal. The monthly rate is a plain fraction (8 % a year is 0.08/12) and
// must be above -1. Nothing is rounded to a coin.
package loan

import "math"

// Balance returns what is owed after paid of months equal payments:
//
//	principal · (1 - (1+rate)^-(months-paid)) / (1 - (1+rate)^-months)
//
// falling in a straight line when the rate is 0. Before the first payment
// the whole principal is owed, after the last nothing; a loan of less than
// one month owes nothing.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.41 PV of
// the payments still to come.
func Balance(principal, monthlyRate float64, months, paid int) float64 {
	switch {
	case paid >= months || months < 1:
		return 0
	case paid <= 0:
		return principal
	case monthlyRate == 0:
		return principal * float64(months-paid) / float64(months)
	}
	// Expm1 and Log1p keep all digits when the rate is tiny.
	growth := math.Log1p(monthlyRate)
	return principal * math.Expm1(-growth*float64(months-paid)) / math.Expm1(-growth*float64(months))
}
