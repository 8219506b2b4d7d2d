package quantity_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/quantity"
)

// Source: NIST SP 811, 2008, appendix B.8, from memory to the digits that it prints;
// prefixes and twelve months to a year by definition.
func TestEveryUnitHasItsSize(t *testing.T) {
	for _, row := range []struct {
		d     quantity.Dimension
		sizes map[string]float64
	}{
		{quantity.DimLength, map[string]float64{"mm": 1e-3, "cm": 1e-2, "m": 1, "in": 2.54e-2, "ft": 3.048e-1, "feet": 3.048e-1, "inches": 2.54e-2, "metres": 1}},
		{quantity.DimDistance, map[string]float64{"km": 1e3, "mi": 1.609344e3, "m": 1, "ft": 3.048e-1}},
		{quantity.DimArea, map[string]float64{"mm2": 1e-6, "cm2": 1e-4, "m2": 1, "in2": 6.4516e-4, "sq in": 6.4516e-4, "ft2": 9.290304e-2, "sq m": 1}},
		{quantity.DimMass, map[string]float64{"g": 1e-3, "kg": 1, "t": 1e3, "oz": 2.834952e-2, "lb": 4.535924e-1, "lbs": 4.535924e-1}},
		{quantity.DimDensity, map[string]float64{"kg/m3": 1, "g/cm3": 1e3, "lb/in3": 2.767990e4, "lb/ft3": 1.601846e1, "kg/mm3": 1e9, "t/m3": 1e3, "oz/in3": 1.729994e3}},
		{quantity.DimDuration, map[string]float64{"s": 1, "min": 60, "h": 3600}},
		{quantity.DimSpeed, map[string]float64{"m/s": 1, "m/min": 1.0 / 60, "m/h": 1.0 / 3600, "ft/min": 5.08e-3, "ft/s": 3.048e-1, "in/s": 2.54e-2}},
		{quantity.DimPower, map[string]float64{"W": 1, "kW": 1e3, "hp": 7.456999e2}},
		{quantity.DimAirFlow, map[string]float64{"m3/s": 1, "m3/h": 2.777778e-4, "ft3/min": 4.719474e-4, "cfm": 4.719474e-4, "ft3/s": 2.831685e-2, "in3/min": 2.731177e-7}},
		{quantity.DimVoltage, map[string]float64{"V": 1, "kV": 1e3}},
		{quantity.DimCurrent, map[string]float64{"A": 1}},
		{quantity.DimRotation, map[string]float64{"rpm": 1.0 / 60, "1/min": 1.0 / 60, "1/s": 1}},
		{quantity.DimSpecificEnergy, map[string]float64{"J/m3": 1, "kJ/m3": 1e3, "MJ/m3": 1e6, "kWh/m3": 3.6e6, "J/mm3": 1e9, "J/cm3": 1e6}},
		{quantity.DimAreaTime, map[string]float64{"s/m2": 1, "min/m2": 60, "h/m2": 3600, "min/ft2": 60 / 9.290304e-2, "s/in2": 1 / 6.4516e-4}},
		{quantity.DimYears, map[string]float64{"years": 1, "months": 1.0 / 12, "mo": 1.0 / 12}},
		{quantity.DimShare, map[string]float64{"%": 0.01, "percent": 0.01, "": 1}},
		{quantity.DimMoneyPerHour, map[string]float64{"per h": 1, "per min": 60, "per s": 3600, "per 30 min": 2}},
		{quantity.DimMoneyPerKilometre, map[string]float64{"per km": 1, "per mi": 1 / 1.609344}},
		{quantity.DimMoneyPerMetre, map[string]float64{"per m": 1, "per ft": 1 / 3.048e-1, "per mm": 1e3}},
		{quantity.DimMoneyPerSquareMetre, map[string]float64{"per m2": 1, "per ft2": 1 / 9.290304e-2}},
		{quantity.DimMoneyPerSquareMetreYear, map[string]float64{"per m2 per year": 1, "per m2 per month": 12, "per ft2 per year": 1 / 9.290304e-2}},
		{quantity.DimMoneyPerKilowattHour, map[string]float64{"per kWh": 1}},
		{quantity.DimMoneyPerKilowattMonth, map[string]float64{"per kW per month": 1, "per kW per year": 1.0 / 12}},
		{quantity.DimMoneyPerMonth, map[string]float64{"per month": 1, "per year": 1.0 / 12}},
	} {
		for unit, size := range row.sizes {
			got, _, err := quantity.Parse(row.d, "1 "+unit)
			require.NoError(t, err, unit)
			assert.InEpsilon(t, size, got, 4e-7, "%s as %v", unit, row.d)
		}
	}
}

func TestANumberOfEightSignsStaysInTheUsualUnit(t *testing.T) {
	numbers, unit := quantity.Written(quantity.DimPower, quantity.Metric, 123.456)
	assert.Equal(t, []string{"0.123456"}, numbers)
	assert.Equal(t, "kW", unit)
	numbers, unit = quantity.Written(quantity.DimPower, quantity.Metric, 123.4567)
	assert.Equal(t, []string{"123.4567"}, numbers, "nine would be longer than in another unit")
	assert.Equal(t, "W", unit)
}

func TestAUnitThatIsNoneWritesNothing(t *testing.T) {
	_, ok := quantity.WrittenIn(quantity.DimLength, "kg", 1)
	assert.False(t, ok)
	numbers, ok := quantity.WrittenIn(quantity.DimLength, "mm", math.Copysign(0, -1))
	assert.True(t, ok)
	assert.Equal(t, []string{"0"}, numbers, "nothing has no sign")
}

func TestNothingIsWrittenLikeAValueInPartsThatBeginsWithNone(t *testing.T) {
	_, ok := quantity.Like(quantity.DimLength, "0 ft 6 in", 0.3, 3)
	assert.False(t, ok)
	_, ok = quantity.Like(quantity.DimLength, "0 mm", 0.3, 3)
	assert.False(t, ok)
}

func TestALowerCaseCodeIsToldApartFromOtherWords(t *testing.T) {
	_, _, err := quantity.Parse(quantity.DimMoney, "75 usd")
	require.ErrorContains(t, err, "USD")
	for _, other := range []string{"75 us", "75 u5d", "75 usdx"} {
		_, _, err = quantity.Parse(quantity.DimMoney, other)
		require.Error(t, err)
		assert.NotContains(t, err.Error(), "capital", other)
	}
}

func TestExponentsAreReadUpToTwelve(t *testing.T) {
	for text, want := range map[string]float64{"4e1": 40, "1e12": 1e12, "1e-12": 1e-12, "2E+2": 200} {
		got, _, err := quantity.Parse(quantity.DimCount, text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, got, 0, text)
	}
	for _, text := range []string{"1e13", "1e-13", "1e", "e5"} {
		_, _, err := quantity.Parse(quantity.DimCount, text)
		require.Error(t, err, text)
	}
}

func TestSixteenOuncesAreAPound(t *testing.T) {
	ounces, _, err := quantity.Parse(quantity.DimMass, "16 oz")
	require.NoError(t, err)
	assert.InDelta(t, 0.45359237, ounces, 1e-15)
	for _, none := range []float64{math.NaN(), math.Inf(1)} {
		_, ok := quantity.Like(quantity.DimMass, "5 kg", none, 3)
		assert.False(t, ok)
	}
}
