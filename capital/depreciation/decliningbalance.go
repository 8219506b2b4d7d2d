package depreciation

import "math"

// DecliningBalance returns life shares: each year factor/life of what is
// left of the basis, or the straight line over the remaining years where
// that is more, and never more than what still lies above salvage. Factor 2
// is the double declining balance. Nil when life is below 1 year, salvage is
// outside 0..1 or factor is not above 0.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.50 VDB,
// whole years, with the switch.
func DecliningBalance(life int, salvage, factor float64) []float64 {
	return declining(life, salvage, factor, true)
}

// DecliningBalanceNoSwitch is DecliningBalance without the change to the
// straight line. What the last year leaves above salvage is never deducted,
// so the shares may add up to less than 1 - salvage.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.14 DDB.
func DecliningBalanceNoSwitch(life int, salvage, factor float64) []float64 {
	return declining(life, salvage, factor, false)
}

func declining(life int, salvage, factor float64, switches bool) []float64 {
	if !defined(life, salvage) || !(factor > 0) {
		return nil
	}
	shares := make([]float64, life)
	book := 1.0
	for i := range shares {
		above := math.Max(book-salvage, 0)
		share := book * factor / float64(life)
		if switches {
			share = math.Max(share, above/float64(life-i))
		}
		shares[i] = math.Min(share, above)
		book -= shares[i]
	}
	return shares
}
