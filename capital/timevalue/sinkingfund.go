package timevalue

import "math"

// SinkingFund returns the equal deposit at the end of each of periods that has
// grown to future with the last of them (A/F), at rate a period:
//
//	future · rate / ((1+rate)^periods - 1), or future/periods when rate is 0
//
// Zero periods leave no time to save and give an infinite deposit.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.36 PMT, for a
// future value and no present one.
func SinkingFund(rate, periods, future float64) float64 {
	return future * DiscountFactor(rate, periods) * CapitalRecovery(rate, periods)
}

// PeriodRate returns the rate a period that, left to grow, comes to yearly in a
// year of periods: (1+yearly)^(1/periods) - 1.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.31 NOMINAL,
// over the periods.
func PeriodRate(yearly, periods float64) float64 {
	return math.Expm1(math.Log1p(yearly) / periods)
}
