package depreciation

import "fmt"

// MidQuarter returns the printed percentages, as shares of the whole basis,
// for a recovery class of 3, 5 or 7 years under the mid-quarter convention:
// class+1 years, the first counted from the middle of the quarter (1..4) in
// which the machine was put to use. Any other class or quarter is an error.
//
// Source: US Internal Revenue Service, Publication 946, How To Depreciate
// Property, Appendix A, Tables A-2 to A-5 (as reprinted, in part from memory).
func MidQuarter(class, quarter int) ([]float64, error) {
	if quarter < 1 || quarter > 4 {
		return nil, fmt.Errorf("mid-quarter table: no quarter %d; there are 1, 2, 3 and 4", quarter)
	}
	switch class {
	case 3:
		return midQuarter3()[quarter-1], nil
	case 5:
		return midQuarter5()[quarter-1], nil
	case 7:
		return midQuarter7()[quarter-1], nil
	}
	return nil, fmt.Errorf("mid-quarter table: no class of %d years; there are 3, 5 and 7", class)
}

func midQuarter3() [4][]float64 {
	return [4][]float64{
		percents(58.33, 27.78, 12.35, 1.54),
		percents(41.67, 38.89, 14.14, 5.30),
		percents(25, 50, 16.67, 8.33),
		percents(8.33, 61.11, 20.37, 10.19),
	}
}

func midQuarter5() [4][]float64 {
	return [4][]float64{
		percents(35, 26, 15.60, 11.01, 11.01, 1.38),
		percents(25, 30, 18, 11.37, 11.37, 4.26),
		percents(15, 34, 20.40, 12.24, 11.30, 7.06),
		percents(5, 38, 22.80, 13.68, 10.94, 9.58),
	}
}

func midQuarter7() [4][]float64 {
	return [4][]float64{
		percents(25, 21.43, 15.31, 10.93, 8.75, 8.74, 8.75, 1.09),
		// The first year is printed 17.85 though 2/7 · 0.625 is 17.857.
		percents(17.85, 23.47, 16.76, 11.97, 8.87, 8.87, 8.87, 3.34),
		percents(10.71, 25.51, 18.22, 13.02, 9.30, 8.85, 8.86, 5.53),
		percents(3.57, 27.55, 19.68, 14.06, 10.04, 8.73, 8.73, 7.64),
	}
}
