package upkeep

import "math"

// RemainingShare returns the share of the list price, 0 or more, that a
// machine still fetches after years of age at hoursPerYear of mean use:
//
//	(c1 - c2·years^0.5 - c3·hoursPerYear^0.5)^2
//
// Where the bracket falls below 0 the machine is worth nothing: 0, and not
// the square, which would rise again. Years or hours below 0 count as 0.
//
// Source: American Society of Agricultural and Biological Engineers, ASABE
// Standards, D497.7, Agricultural Machinery Management Data, 2011, Table 4
// (from memory).
func RemainingShare(c1, c2, c3, years, hoursPerYear float64) float64 {
	root := c1 - c2*math.Sqrt(math.Max(years, 0)) - c3*math.Sqrt(math.Max(hoursPerYear, 0))
	return math.Pow(math.Max(root, 0), 2)
}
