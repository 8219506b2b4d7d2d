package timevalue

import "math"

// AnnuityFactor returns the present value of one unit of money a year, paid
// at the end of each year (P/A):
//
//	(1 - (1+rate)^-years) / rate, or years when rate is 0
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.41 PV,
// with payments of 1 at the end of each period.
func AnnuityFactor(rate, years float64) float64 {
	if rate == 0 {
		return years
	}
	// Expm1 and Log1p keep all digits when the rate is tiny.
	return -math.Expm1(-years*math.Log1p(rate)) / rate
}

// CapitalRecovery returns the equal amount at the end of each year that one
// unit of money today is worth (A/P): 1/AnnuityFactor, or 1/years when rate
// is 0. Zero years have no such amount and give +Inf.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.36 PMT,
// for a present value of 1.
func CapitalRecovery(rate, years float64) float64 {
	return 1 / AnnuityFactor(rate, years)
}

// EquivalentAnnual spreads a present sum over years of equal year-end
// amounts: present times A/P. The sign of present is kept.
//
// Source: C. S. Park, Contemporary Engineering Economics, annual equivalent
// worth analysis (from memory, page not seen).
func EquivalentAnnual(rate, years, present float64) float64 {
	return present * CapitalRecovery(rate, years)
}
