package depreciation

import "fmt"

// HalfYear returns the printed percentages, as shares of the whole basis,
// for a recovery class of 3, 5, 7, 10, 15 or 20 years under the half-year
// convention: class+1 years, of which the first and the last count half. The
// printed figures are rounded and add up to 1 exactly; where they differ
// from the declining balance worked out, they stay as printed. Any other
// class is an error.
//
// Source: US Internal Revenue Service, Publication 946, How To Depreciate
// Property, Appendix A, Table A-1 (as reprinted; 10 and 20 years from memory).
func HalfYear(class int) ([]float64, error) {
	switch class {
	case 3:
		return percents(33.33, 44.45, 14.81, 7.41), nil
	case 5:
		return percents(20, 32, 19.20, 11.52, 11.52, 5.76), nil
	case 7:
		return percents(14.29, 24.49, 17.49, 12.49, 8.93, 8.92, 8.93, 4.46), nil
	case 10:
		return percents(10, 18, 14.40, 11.52, 9.22, 7.37, 6.55, 6.55, 6.56, 6.55, 3.28), nil
	case 15:
		return percents(5, 9.50, 8.55, 7.70, 6.93, 6.23, 5.90, 5.90, 5.91, 5.90, 5.91, 5.90, 5.91, 5.90, 5.91, 2.95), nil
	case 20:
		return percents(3.750, 7.219, 6.677, 6.177, 5.713, 5.285, 4.888, 4.522, 4.462, 4.461, 4.462,
			4.461, 4.462, 4.461, 4.462, 4.461, 4.462, 4.461, 4.462, 4.461, 2.231), nil
	}
	return nil, fmt.Errorf("half-year table: no class of %d years; there are 3, 5, 7, 10, 15 and 20", class)
}

func percents(printed ...float64) []float64 {
	shares := make([]float64, len(printed))
	for i, percent := range printed {
		shares[i] = percent / 100
	}
	return shares
}
