package depreciation

import "fmt"

// Convention says from which moment a year in which a machine is bought or
// sold counts.
type Convention string

// The conventions. Under FullYear a machine is deducted for the whole of the
// year in which it is sold.
const (
	FullYear     Convention = "full year"
	HalfYearly   Convention = "half-year"
	MidQuarterly Convention = "mid-quarter"
)

const quartersOfAYear = 4

// DisposalShare returns the share of a year's deduction that is allowed in
// the year of sale: all of it, a half, or up to the middle of the quarter of
// sale (1/8, 3/8, 5/8, 7/8). Only MidQuarterly looks at quarter, which must
// then be 1..4. Any other convention is an error.
//
// A sale in the last year of a table, whose share is already that of a part
// year, is not cut again; the caller decides that.
//
// Source: US Internal Revenue Service, Publication 946, How To Depreciate
// Property, chapter 4, Sale or Other Disposition Before the Recovery Period
// Ends (from memory, page not seen).
func DisposalShare(convention Convention, quarter int) (float64, error) {
	switch convention {
	case FullYear:
		return 1, nil
	case HalfYearly:
		return 0.5, nil
	case MidQuarterly:
		if quarter >= 1 && quarter <= quartersOfAYear {
			return (float64(quarter) - 0.5) / quartersOfAYear, nil
		}
		return 0, fmt.Errorf("mid-quarter sale: no quarter %d; there are 1, 2, 3 and 4", quarter)
	}
	return 0, fmt.Errorf("year of sale: no convention %q; there are %q, %q and %q",
		string(convention), string(FullYear), string(HalfYearly), string(MidQuarterly))
}
