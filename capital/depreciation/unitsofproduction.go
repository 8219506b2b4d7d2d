package depreciation

import "math"

// UnitsOfProduction returns a share for each entry of unitsByYear, in
// proportion to the units (hours, metres, pages) done that year out of
// totalUnits, the units a machine's whole life yields. Once the shares reach
// 1 - salvage nothing more is deducted. Units above totalUnits are therefore
// free of deduction, and units that never come leave a rest. Nil when
// totalUnits is not above 0, salvage is outside 0..1, or a year's units are
// negative or not a number.
//
// Source: OpenStax, Principles of Accounting Volume 1, Financial Accounting,
// 2019, chapter 11 (from memory, page not seen).
func UnitsOfProduction(unitsByYear []float64, totalUnits, salvage float64) []float64 {
	if !(totalUnits > 0) || !defined(1, salvage) {
		return nil
	}
	shares := make([]float64, len(unitsByYear))
	left := 1 - salvage
	for i, units := range unitsByYear {
		if !(units >= 0) {
			return nil
		}
		shares[i] = math.Min((1-salvage)*units/totalUnits, left)
		left = math.Max(left-shares[i], 0)
	}
	return shares
}
