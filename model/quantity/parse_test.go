package quantity_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/quantity"
)

const sp811 = "NIST SP 811, 2008, appendix B.8"

func TestParseReadsWhatIsWrittenInTheTrade(t *testing.T) {
	const exact, near = 0, 1e-15
	for _, row := range []struct {
		d    quantity.Dimension
		text string
		want float64
		tol  float64 // relative
		from string
	}{
		{quantity.DimLength, "45 mm", 0.045, exact, sp811},
		{quantity.DimLength, "9mm", 0.009, exact, sp811},
		{quantity.DimLength, "4.5 cm", 0.045, exact, sp811},
		{quantity.DimLength, "2.4 m", 2.4, exact, sp811},
		{quantity.DimLength, "1 3/4 in", 0.04445, exact, sp811},
		{quantity.DimLength, "1-3/4 in", 0.04445, exact, sp811},
		{quantity.DimLength, "1.75 in", 0.04445, exact, sp811},
		{quantity.DimLength, "1¾ in", 0.04445, exact, sp811},
		{quantity.DimLength, "¾″", 0.01905, exact, sp811},
		{quantity.DimLength, `5/8"`, 0.015875, exact, sp811},
		{quantity.DimLength, "5/8 in", 0.015875, exact, sp811},
		{quantity.DimLength, "8 ft", 2.4384, exact, sp811},
		{quantity.DimLength, "8 ft 6 in", 2.5908, near, sp811},
		{quantity.DimLength, `8' 6 1/2"`, 2.6035, near, sp811},
		{quantity.DimLength, `8'-6 1/2"`, 2.6035, near, sp811},
		{quantity.DimLength, "8′6½″", 2.6035, near, sp811},
		{quantity.DimLength, "45\u00a0mm", 0.045, exact, sp811},
		{quantity.DimLength, "45\u202fmm", 0.045, exact, sp811},
		{quantity.DimLength, "  45\t mm ", 0.045, exact, sp811},
		{quantity.DimLength, "-45 mm", -0.045, exact, sp811},
		{quantity.DimLength, "−8 ft 6 in", -2.5908, near, sp811},
		{quantity.DimLength, "+.5 in", 0.0127, exact, sp811},
		{quantity.DimLength, "4.5e1 mm", 0.045, exact, sp811},
		{quantity.DimLength, "1e-12 m", 1e-12, exact, sp811},
		{quantity.DimDistance, "25 km", 25000, exact, sp811},
		{quantity.DimDistance, "1 mi", 1609.344, exact, sp811},
		{quantity.DimDistance, "10 miles", 16093.44, exact, sp811},
		{quantity.DimArea, "12 m²", 12, exact, sp811},
		{quantity.DimArea, "1 ft²", 0.09290304, exact, sp811},
		{quantity.DimArea, "1 sq ft", 0.09290304, exact, sp811},
		{quantity.DimMass, "1 lb", 0.45359237, exact, sp811},
		{quantity.DimMass, "0.2 t", 200, exact, sp811},
		{quantity.DimDensity, "1 lb/ft3", 16.01846337396014, near, sp811},
		{quantity.DimDensity, "0.65 g/cm³", 650, near, sp811},
		{quantity.DimDuration, "90 min", 5400, exact, sp811},
		{quantity.DimDuration, "2 h", 7200, exact, sp811},
		{quantity.DimDuration, "1 h 30 min", 5400, exact, sp811},
		{quantity.DimDuration, "1h30min15s", 5415, exact, sp811},
		{quantity.DimDuration, "1 1/2 hours", 5400, exact, sp811},
		{quantity.DimDuration, "45 s", 45, exact, sp811},
		{quantity.DimSpeed, "6 m/min", 0.1, exact, sp811},
		{quantity.DimSpeed, "6 m per min", 0.1, exact, sp811},
		{quantity.DimSpeed, "20 ft / min", 0.1016, near, sp811},
		{quantity.DimSpeed, "1 ft/min", 0.00508, near, sp811},
		{quantity.DimPower, "7.5 kW", 7500, exact, sp811},
		{quantity.DimPower, "10 hp", 7456.998715822702, near, sp811},
		{quantity.DimAirFlow, "3600 m³/h", 1, exact, sp811},
		{quantity.DimAirFlow, "1 ft³/min", 4.719474432e-4, near, sp811},
		{quantity.DimAirFlow, "1 cfm", 4.719474432e-4, near, sp811},
		{quantity.DimVoltage, "400 V", 400, exact, sp811},
		{quantity.DimCurrent, "32 A", 32, exact, sp811},
		{quantity.DimRotation, "3000 rpm", 50, exact, sp811},
		{quantity.DimRotation, "3000 1/min", 50, exact, sp811},
		{quantity.DimSpecificEnergy, "60 MJ/m³", 6e7, exact, sp811},
		{quantity.DimSpecificEnergy, "60 J/cm3", 6e7, exact, sp811},
		{quantity.DimAreaTime, "4 min/m²", 240, exact, sp811},
		{quantity.DimAreaTime, "0.4 min/ft²", 24 / 0.09290304, near, sp811},
		{quantity.DimYears, "10 years", 10, exact, "calendar"},
		{quantity.DimYears, "10 y", 10, exact, "calendar"},
		{quantity.DimYears, "6 months", 0.5, exact, "calendar"},
		{quantity.DimYears, "1 year 6 months", 1.5, exact, "calendar"},
		{quantity.DimShare, "12 %", 0.12, exact, "definition"},
		{quantity.DimShare, "12%", 0.12, exact, "definition"},
		{quantity.DimShare, "0.12", 0.12, exact, "definition"},
		{quantity.DimShare, "0.5 %", 0.005, exact, "definition"},
		{quantity.DimShare, "1/2 %", 0.005, exact, "definition"},
		{quantity.DimShare, "½ percent", 0.005, exact, "definition"},
		{quantity.DimCount, "12", 12, exact, "definition"},
		{quantity.DimCount, "2.5", 2.5, exact, "definition"},
	} {
		got, currency, err := quantity.Parse(row.d, row.text)
		require.NoError(t, err, "%s %q", row.d, row.text)
		assert.InDelta(t, row.want, got, math.Abs(row.want)*row.tol, "%s %q, source %s", row.d, row.text, row.from)
		assert.Empty(t, currency, row.text)
	}
}

func TestParseReadsMoneyWithAndWithoutCurrency(t *testing.T) {
	for _, row := range []struct {
		d        quantity.Dimension
		text     string
		want     float64
		currency string
	}{
		{quantity.DimMoney, "22000", 22000, ""},
		{quantity.DimMoney, "22000 USD", 22000, "USD"},
		{quantity.DimMoney, "USD 22000.50", 22000.5, "USD"},
		{quantity.DimMoney, "EUR-5", -5, "EUR"},
		{quantity.DimMoneyPerHour, "75 per 30 min", 150, ""},
		{quantity.DimMoneyPerHour, "75 USD per 30 min", 150, "USD"},
		{quantity.DimMoneyPerHour, "85 per h", 85, ""},
		{quantity.DimMoneyPerHour, "85/h", 85, ""},
		{quantity.DimMoneyPerHour, "CAD 85 / h", 85, "CAD"},
		{quantity.DimMoneyPerHour, "1.5 per min", 90, ""},
		{quantity.DimMoneyPerHour, "40 per 1/2 h", 80, ""},
		{quantity.DimMoneyPerKilometre, "0.70 per mile", 0.70 / 1.609344, ""},
		{quantity.DimMoneyPerKilometre, "0.43 per km", 0.43, ""},
		{quantity.DimMoneyPerMetre, "3 per m", 3, ""},
		{quantity.DimMoneyPerMetre, "0.9 per ft", 0.9 / 0.3048, ""},
		{quantity.DimMoneyPerSquareMetre, "9 EUR per m²", 9, "EUR"},
		{quantity.DimMoneyPerSquareMetre, "0.8 per ft²", 0.8 / 0.09290304, ""},
		{quantity.DimMoneyPerSquareMetreYear, "14 per ft2 per year", 14 / 0.09290304, ""},
		{quantity.DimMoneyPerSquareMetreYear, "151 per m2 per year", 151, ""},
		{quantity.DimMoneyPerSquareMetreYear, "2 per m2 per month", 24, ""},
		{quantity.DimMoneyPerKilowattHour, "0.135 per kWh", 0.135, ""},
		{quantity.DimMoneyPerKilowattHour, "0.135/kWh", 0.135, ""},
		{quantity.DimMoneyPerKilowattMonth, "10 per kW per month", 10, ""},
		{quantity.DimMoneyPerKilowattMonth, "120 per kW per year", 10, ""},
		{quantity.DimMoneyPerMonth, "120 per month", 120, ""},
		{quantity.DimMoneyPerMonth, "1440 per year", 120, ""},
	} {
		got, currency, err := quantity.Parse(row.d, row.text)
		require.NoError(t, err, "%s %q", row.d, row.text)
		assert.InEpsilon(t, row.want, got, 1e-15, "%s %q", row.d, row.text)
		assert.Equal(t, row.currency, currency, row.text)
	}
}

func TestParseRefusesAndSaysWhatWouldBeRight(t *testing.T) {
	for _, row := range []struct {
		d    quantity.Dimension
		text string
		want string
	}{
		{quantity.DimLength, "45", `"45" has no unit; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "5 kg", `"5 kg" is a mass; a length is needed, such as 45 mm`},
		{quantity.DimLength, "5 m2", `"5 m2" is an area; a length is needed, such as 45 mm`},
		{quantity.DimLength, "22000 USD", `"22000 USD" is an amount of money; a length is needed, such as 45 mm`},
		{quantity.DimLength, "4,5 mm", `"4,5 mm" has a comma; use a point for decimals and nothing between thousands, such as 45 mm`},
		{quantity.DimLength, "", `the value is empty; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, " \u00a0", `the value is empty; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "NaN", `"NaN" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "NaN mm", `"NaN mm" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "Inf m", `"Inf m" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "0x1F mm", `"0x1F mm" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "1_000 mm", `"1_000 mm" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "5. mm", `"5. mm" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "mm", `"mm" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "-", `"-" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "8 ft -6 in", `"8 ft -6 in" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "8 ft 6", `"8 ft 6" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "1e13 mm", `"1e13 mm" has an exponent beyond 12; write the digits out, such as 45 mm`},
		{quantity.DimLength, "1e-13 mm", `"1e-13 mm" has an exponent beyond 12; write the digits out, such as 45 mm`},
		{quantity.DimLength, "1e99999999999999999999 mm", `"1e99999999999999999999 mm" has an exponent beyond 12; write the digits out, such as 45 mm`},
		{quantity.DimLength, "1/0 in", `"1/0 in" divides by zero in "1/0"; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "1 3/0 in", `"1 3/0 in" divides by zero in "3/0"; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "8 ft 14 in", `"8 ft 14 in" has the part "14 in" out of order; each part must be less than one of the unit before it, such as 8 ft 6 in`},
		{quantity.DimLength, "6 in 8 ft", `"6 in 8 ft" has the part "8 ft" out of order; each part must be less than one of the unit before it, such as 8 ft 6 in`},
		{quantity.DimLength, "45 MM", `"45 MM" has the unit "MM" in other letters; write it as "mm"`},
		{quantity.DimLength, "45 m\x00m", `"45 m\x00m" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "45 \xff", `"45 \xff" is not understood as a length; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, "1" + strings.Repeat("0", 40) + " mm", `"1` + strings.Repeat("0", 40) + ` mm" is too large or too small to be meant; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, strings.Repeat("9", 61) + " mm", `"` + strings.Repeat("9", 61) + ` mm" has a number longer than 60 characters; write 45 mm or 1 3/4 in`},
		{quantity.DimLength, strings.Repeat("9", 101), `"` + strings.Repeat("9", 40) + `…" is longer than 100 characters; write 45 mm or 1 3/4 in`},
		{quantity.DimDuration, "1 h 60 min", `"1 h 60 min" has the part "60 min" out of order; each part must be less than one of the unit before it, such as 1 h 30 min`},
		{quantity.DimYears, "1 year 12 months", `"1 year 12 months" has the part "12 months" out of order; each part must be less than one of the unit before it, such as 1 year 6 months`},
		{quantity.DimMoneyPerHour, "5 per 1e13 min", `"5 per 1e13 min" has an exponent beyond 12; write the digits out, such as 85 per h`},
		{quantity.DimMoneyPerHour, "5 USDX per h", `"5 USDX per h" is not understood as an hourly rate; write 85 per h or 75 per 30 min`},
		{quantity.DimMoneyPerKilowattHour, "0.1 per mwh", `"0.1 per mwh" is not understood as an energy rate; write 0.135 per kWh`},
		{quantity.DimVoltage, "230 e", `"230 e" is not understood as a voltage; write 230 V`},
		{quantity.DimVoltage, "230e+", `"230e+" is not understood as a voltage; write 230 V`},
		{quantity.DimPower, "5 KW", `"5 KW" has the unit "KW" in other letters; write it as "kW"`},
		{quantity.DimSpeed, "6 m", `"6 m" is a length; a speed is needed, such as 6 m/min`},
		{quantity.DimDuration, "2 days", `"2 days" counts days, and a working day has no fixed length; use hours or minutes, such as 90 min`},
		{quantity.DimDuration, "1 week", `"1 week" counts days, and a working day has no fixed length; use hours or minutes, such as 90 min`},
		{quantity.DimDuration, "2 years", `"2 years" is a time in years; a duration is needed, such as 90 min`},
		{quantity.DimShare, "12 kg", `"12 kg" is a mass; a share is needed, such as 12 %`},
		{quantity.DimCount, "12 pieces", `"12 pieces" is not understood as a bare number; write 12`},
		{quantity.DimCount, "12 %", `"12 %" is a share; a bare number is needed, such as 12`},
		{quantity.DimMoney, "$22000", `"$22000" has a currency sign; leave it out or write a three-letter code, such as 22000`},
		{quantity.DimMoney, "22,000", `"22,000" has a comma; use a point for decimals and nothing between thousands, such as 22000`},
		{quantity.DimMoney, "22000 usd", `"22000 usd" has "usd" where a currency code may stand; write the code in three capitals, as USD`},
		{quantity.DimMoney, "85 per h", `"85 per h" is an hourly rate; an amount of money is needed, such as 22000`},
		{quantity.DimMoney, "USD", `"USD" is not understood as an amount of money; write 22000 or 22000 USD`},
		{quantity.DimMoneyPerHour, "85", `"85" has no unit; write 85 per h or 75 per 30 min`},
		{quantity.DimMoneyPerHour, "85 USD", `"85 USD" has no unit; write 85 per h or 75 per 30 min`},
		{quantity.DimMoneyPerHour, "75 per 0 min", `"75 per 0 min" divides by zero in "per 0 min"; write 85 per h or 75 per 30 min`},
		{quantity.DimMoneyPerHour, "300 per day", `"300 per day" counts days, and a working day has no fixed length; use hours or minutes, such as 85 per h`},
		{quantity.DimMoneyPerHour, "0.43 per km", `"0.43 per km" is a rate per distance; an hourly rate is needed, such as 85 per h`},
		{quantity.DimMoneyPerHour, "75 30 min", `"75 30 min" is not understood as an hourly rate; write 85 per h or 75 per 30 min`},
		{quantity.Dimension(0), "45 mm", "dimension 0 does not exist; use one of the Dim constants"},
		{quantity.Dimension(99), "45 mm", "dimension 99 does not exist; use one of the Dim constants"},
	} {
		got, currency, err := quantity.Parse(row.d, row.text)
		var problem *quantity.ParseError
		require.ErrorAs(t, err, &problem, "%s %q gave %v", row.d, row.text, got)
		assert.Equal(t, row.want, problem.Error())
		assert.Equal(t, row.text, problem.Text)
		assert.Zero(t, got, row.text)
		assert.Empty(t, currency, row.text)
	}
}

func TestEveryExampleIsRead(t *testing.T) {
	require.Len(t, quantity.Dimensions(), 26)
	for _, d := range quantity.Dimensions() {
		for example := range strings.SplitSeq(d.Example(), " or ") {
			got, _, err := quantity.Parse(d, example)
			require.NoError(t, err, "%s %q", d, example)
			assert.Positive(t, got, "%s %q", d, example)
		}
	}
}

func TestBothExamplesOfARateAreNearOneAnother(t *testing.T) {
	got, _, err := quantity.Parse(quantity.DimMoneyPerSquareMetreYear, "14 per ft² per year")
	require.NoError(t, err)
	assert.InDelta(t, 151, got, 0.5)
}

func TestNegativeZeroIsReadAsZero(t *testing.T) {
	for text, d := range map[string]quantity.Dimension{"-0 mm": quantity.DimLength, "-0": quantity.DimMoney, "-0 %": quantity.DimShare} {
		got, _, err := quantity.Parse(d, text)
		require.NoError(t, err, text)
		assert.False(t, math.Signbit(got), text)
	}
}

func TestFractionSignsAreReadAsFractions(t *testing.T) {
	for sign, want := range map[string]float64{
		"½": 1.0 / 2, "¼": 1.0 / 4, "¾": 3.0 / 4, "⅓": 1.0 / 3, "⅔": 2.0 / 3,
		"⅛": 1.0 / 8, "⅜": 3.0 / 8, "⅝": 5.0 / 8, "⅞": 7.0 / 8, "5⁄8": 5.0 / 8, "5∕8": 5.0 / 8,
	} {
		got, _, err := quantity.Parse(quantity.DimLength, sign+" m")
		require.NoError(t, err, sign)
		assert.InDelta(t, want, got, 0, sign)
	}
}

func TestQuotationMarksOfAnyKindAreFeetAndInches(t *testing.T) {
	for _, text := range []string{`8' 6"`, "8′ 6″", "8’ 6”", "8‘6“", "8'‑6\"", "8'–6\""} {
		got, _, err := quantity.Parse(quantity.DimLength, text)
		require.NoError(t, err, text)
		assert.InEpsilon(t, 2.5908, got, 1e-15, text)
	}
}

func TestEveryDimensionHasItsOwnName(t *testing.T) {
	seen := map[string]bool{}
	for _, d := range quantity.Dimensions() {
		require.NotEmpty(t, d.Name())
		assert.False(t, seen[d.Name()], "two dimensions are called %s", d.Name())
		seen[d.Name()] = true
	}
	assert.Equal(t, "length", quantity.DimLength.Name())
	assert.Equal(t, "hourly rate", quantity.DimMoneyPerHour.Name())
	assert.Equal(t, "hourly rate", quantity.DimMoneyPerHour.String())
	assert.Equal(t, "dimension 0", quantity.Dimension(0).String())
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		for _, text := range []string{"45 mm", "1 3/4 in", `8' 6 1/2"`, "2.4 m"} {
			_, _, _ = quantity.Parse(quantity.DimLength, text)
		}
		_, _, _ = quantity.Parse(quantity.DimMoneyPerHour, "75 USD per 30 min")
	}
}
