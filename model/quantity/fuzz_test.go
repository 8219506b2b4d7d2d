package quantity_test

import (
	"math"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"shopstint/model/quantity"
)

// seeds are the shapes that the reader knows, and slips next to them.
var seeds = []string{
	"45 mm", "1 3/4 in", `5/8"`, "1-3/4 in", "8 ft 6 in", `8' 6 1/2"`, "8′6½″", "6 m per min", "20 ft/min", "1 h 30 min",
	"12 %", "0.12", "22000 USD", "USD 75 per 30 min", "0.135/kWh", "14 per ft² per year", "10 per kW per month", "1e12 km",
	"", "-", "1/0 in", "1 2/", "NaN", "0x1p4 m", "4,5 mm", "1e999 m", "per", "/", "5 \xff", "USD", "+-5 mm", "75 per 0 min",
}

func FuzzParseNeverPanicsAndRoundTrips(f *testing.F) {
	for i, text := range seeds {
		f.Add(i, text)
		f.Add(int(quantity.DimLength), text)
		f.Add(int(quantity.DimMoneyPerHour), text)
	}
	f.Fuzz(func(t *testing.T, number int, text string) {
		d := quantity.Dimension(number)
		si, currency, err := quantity.Parse(d, text)
		if err != nil {
			requireUsefulProblem(t, err, text)
			return
		}
		require.LessOrEqual(t, utf8.RuneCountInString(text), 100)
		require.False(t, math.IsNaN(si) || math.IsInf(si, 0), "%s %q", d, text)
		require.Contains(t, []int{0, 3}, len(currency), text)
		// At the very limits one rounding may step outside.
		if size := math.Abs(si); size != 0 && (size < 1.01e-30 || size > 0.99e30) {
			return
		}
		for _, s := range systems {
			requireSameAgain(t, d, si, s)
		}
	})
}

func requireUsefulProblem(t *testing.T, err error, text string) {
	t.Helper()
	var problem *quantity.ParseError
	require.ErrorAs(t, err, &problem, "%q", text)
	require.NotEmpty(t, problem.What, "%q", text)
	require.NotEmpty(t, problem.Right, "%q", text)
	require.True(t, utf8.ValidString(problem.Error()), "%q", text)
}
