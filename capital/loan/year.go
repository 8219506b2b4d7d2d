package loan

const monthsOfAYear = 12

// YearInterest returns the interest within the payments of a year of the
// loan, the first being year 1: each month's is the rate on what is owed
// before its payment. Years before the first or after the last pay none.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.11
// CUMIPMT, payments at the end of the period.
func YearInterest(principal, monthlyRate float64, months, year int) float64 {
	if year < 1 || year > months {
		return 0
	}
	interest := 0.0
	for month := (year - 1) * monthsOfAYear; month < year*monthsOfAYear; month++ {
		interest += monthlyRate * Balance(principal, monthlyRate, months, month)
	}
	return interest
}

// YearPrincipal returns by how much the payments of a year of the loan, the
// first being year 1, lower what is owed. Years before the first or after
// the last lower nothing.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.12
// CUMPRINC, payments at the end of the period.
func YearPrincipal(principal, monthlyRate float64, months, year int) float64 {
	if year < 1 || year > months {
		return 0
	}
	start := (year - 1) * monthsOfAYear
	return Balance(principal, monthlyRate, months, start) - Balance(principal, monthlyRate, months, start+monthsOfAYear)
}
