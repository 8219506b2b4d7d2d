// Package depreciation spreads the basis of a machine over the years of its
// age. Every method returns the share of the basis deducted in each year of
// age, first year first; multiply by the basis for money. Salvage is a share
// of the basis too.
//
// Whether a method or class is allowed for a machine is a question for the
// tax law of the place, not for this package.
package depreciation

// StraightLine returns life equal shares of what lies above salvage:
// (1 - salvage)/life each year. Nil when life is below 1 year or salvage is
// outside 0..1.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.45 SLN.
func StraightLine(life int, salvage float64) []float64 {
	if !defined(life, salvage) {
		return nil
	}
	shares := make([]float64, life)
	for i := range shares {
		shares[i] = (1 - salvage) / float64(life)
	}
	return shares
}

// StraightLineHalfYear returns life+1 shares of the whole basis: half a
// year's share in the first and the last year, a full one between, as if the
// machine were bought in the middle of a year. Nil when life is below 1.
//
// Source: US Internal Revenue Service, Publication 946, How To Depreciate
// Property, Appendix A, Table A-8 (from memory).
func StraightLineHalfYear(life int) []float64 {
	if life < 1 {
		return nil
	}
	shares := make([]float64, life+1)
	for i := range shares {
		shares[i] = 1 / float64(life)
	}
	shares[0] /= 2
	shares[life] /= 2
	return shares
}

// defined reports whether a schedule exists for this life in years and this
// salvage share. A salvage that is not a number has none.
func defined(life int, salvage float64) bool {
	return life >= 1 && salvage >= 0 && salvage <= 1
}
