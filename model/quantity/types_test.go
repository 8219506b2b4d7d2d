package quantity_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/quantity"
)

func TestEveryTypeKnowsItsDimension(t *testing.T) {
	kinds := []interface{ Dimension() quantity.Dimension }{
		quantity.Length(0), quantity.Distance(0), quantity.Area(0), quantity.Mass(0), quantity.Density(0),
		quantity.Duration(0), quantity.Speed(0), quantity.Power(0), quantity.AirFlow(0), quantity.Voltage(0),
		quantity.Current(0), quantity.Rotation(0), quantity.SpecificEnergy(0), quantity.AreaTime(0), quantity.Years(0),
		quantity.Share(0), quantity.Count(0), quantity.Money(0), quantity.MoneyPerHour(0), quantity.MoneyPerKilometre(0),
		quantity.MoneyPerMetre(0), quantity.MoneyPerSquareMetre(0), quantity.MoneyPerSquareMetreYear(0),
		quantity.MoneyPerKilowattHour(0), quantity.MoneyPerKilowattMonth(0), quantity.MoneyPerMonth(0),
	}
	var got []quantity.Dimension
	for _, kind := range kinds {
		got = append(got, kind.Dimension())
	}
	assert.Equal(t, quantity.Dimensions(), got)
}

func TestMoneyDimensionsAreThoseFromMoneyOn(t *testing.T) {
	count := 0
	for _, d := range quantity.Dimensions() {
		if d.IsMoney() {
			count++
		}
	}
	assert.Equal(t, 9, count)
	assert.True(t, quantity.DimMoneyPerMonth.IsMoney())
	assert.False(t, quantity.DimCount.IsMoney())
	assert.False(t, quantity.Dimension(99).IsMoney())
}

func TestConstructorsAndParserAgree(t *testing.T) {
	for _, row := range []struct {
		text string
		d    quantity.Dimension
		want float64
	}{
		{"45 mm", quantity.DimLength, float64(quantity.Millimetres(45))},
		{"25 km", quantity.DimDistance, float64(quantity.Kilometres(25))},
		{"90 min", quantity.DimDuration, float64(quantity.Minutes(90))},
		{"1.5 h", quantity.DimDuration, float64(quantity.Hours(1.5))},
		{"7 m/min", quantity.DimSpeed, float64(quantity.MetresPerMinute(7))},
		{"5.5 kW", quantity.DimPower, float64(quantity.Kilowatts(5.5))},
		{"60 MJ/m3", quantity.DimSpecificEnergy, float64(quantity.MegajoulesPerCubicMetre(60))},
	} {
		got, _, err := quantity.Parse(row.d, row.text)
		require.NoError(t, err)
		assert.InDelta(t, row.want, got, 0, row.text)
	}
}

func TestConstructorsAreUndoneByTheirMethods(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e9, 1e9).Draw(t, "x")
		for name, again := range map[string]float64{
			"mm":    quantity.Millimetres(x).Millimetres(),
			"km":    quantity.Kilometres(x).Kilometres(),
			"min":   quantity.Minutes(x).Minutes(),
			"h":     quantity.Hours(x).Hours(),
			"m/min": quantity.MetresPerMinute(x).MetresPerMinute(),
			"kW":    quantity.Kilowatts(x).Kilowatts(),
		} {
			assert.InDelta(t, x, again, math.Abs(x)*1e-15+1e-300, name)
		}
	})
}

func TestSystemsAreReadAsTheyAreWritten(t *testing.T) {
	for _, s := range systems {
		got, err := quantity.ParseSystem(s.String())
		require.NoError(t, err)
		assert.Equal(t, s, got)
	}
	for _, text := range []string{"", "Metric", "imperial"} {
		_, err := quantity.ParseSystem(text)
		var problem *quantity.ParseError
		require.ErrorAs(t, err, &problem)
		assert.Equal(t, "write metric or inch", problem.Right)
	}
}
