// Package upkeep estimates what a machine costs to keep and what it is still
// worth, by the published power-law forms.
package upkeep

import "math"

// AccumulatedRepair returns the repair and maintenance cost up to the given
// hours of use, in the unit of price:
//
//	price · rf1 · (hours/1000)^rf2
//
// Rf2 above 1 makes each further hour dearer. Hours at or below 0 cost 0.
// The cost of a year is the difference between its two ends.
//
// Source: American Society of Agricultural and Biological Engineers, ASABE
// Standards, D497.7, Agricultural Machinery Management Data, 2011, section
// on repair and maintenance costs (from memory).
func AccumulatedRepair(price, rf1, rf2, hours float64) float64 {
	if hours <= 0 {
		return 0
	}
	return price * rf1 * math.Pow(hours/1000, rf2)
}
