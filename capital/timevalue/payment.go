package timevalue

// Payment returns the equal payment at the end of each of periods that
// repays present at rate a period. It has the sign of present, where the
// spreadsheet function of the same purpose turns the sign round.
//
// Source: OASIS, OpenDocument 1.3 Part 4 (OpenFormula), 2021, 6.12.36 PMT,
// no future value, payments at the end of the period.
func Payment(rate, periods, present float64) float64 {
	return present * CapitalRecovery(rate, periods)
}
