package depreciation

// SumOfYears returns life shares of what lies above salvage, each in
// proportion to the years still to come:
//
//	(1 - salvage) · (life - year + 1) / (1 + 2 + … + life)
//
// Nil when life is below 1 year or salvage is outside 0..1.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.46 SYD.
func SumOfYears(life int, salvage float64) []float64 {
	if !defined(life, salvage) {
		return nil
	}
	shares := make([]float64, life)
	digits := float64(life) * float64(life+1) / 2
	for i := range shares {
		shares[i] = (1 - salvage) * float64(life-i) / digits
	}
	return shares
}
