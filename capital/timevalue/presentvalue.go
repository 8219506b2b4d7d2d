// Package timevalue moves money between years: present value, equal yearly
// amounts, payback and rates of return.
//
// Rates are plain fractions a period (0.08 is 8 %) and must be above -1; at
// or below -1 the factors are not defined and the results are not finite.
// Money goes in and comes out in the same unit, whatever it is.
package timevalue

import "math"

// PresentValue returns the value at time 0 of flows, one a period, the first
// of which falls at time 0 and is not discounted:
//
//	sum of flows[t] / (1+rate)^t, t = 0 .. len(flows)-1
//
// Spreadsheet NPV functions place their first flow one period later.
// No flows are worth 0.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.30 NPV,
// shifted by one period.
func PresentValue(rate float64, flows []float64) float64 {
	present := 0.0
	for t := len(flows) - 1; t >= 0; t-- {
		present = present/(1+rate) + flows[t]
	}
	return present
}

// DiscountFactor returns what one unit of money paid after the given number
// of years, whole or not, is worth today: (1+rate)^-years.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.41 PV,
// with no payments.
func DiscountFactor(rate, years float64) float64 {
	return math.Pow(1+rate, -years)
}
