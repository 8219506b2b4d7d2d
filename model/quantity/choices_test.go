package quantity_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/quantity"
)

func TestEveryUnitOnOfferIsReadAndTheShownOneComesFirst(t *testing.T) {
	for _, d := range quantity.Dimensions() {
		for _, system := range []quantity.System{quantity.Metric, quantity.Inch} {
			list := quantity.Choices(d, system)
			symbol := quantity.Display(d, system).Symbol
			if symbol == "" {
				assert.Empty(t, list, d)
				continue
			}
			require.NotEmpty(t, list, d)
			assert.Equal(t, symbol, list[0], d)
			exact := d == quantity.DimShare // a bare share is its own unit
			for _, unit := range list {
				size, _, err := quantity.Parse(d, "1 "+unit)
				require.NoError(t, err, "%v in %s", d, unit)
				exact = exact || size == 1
			}
			assert.True(t, exact, "%v has no unit of size 1", d)
		}
	}
	assert.Empty(t, quantity.Choices(0, quantity.Metric))
}

func TestWrittenValuesAreReadBackExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(quantity.Dimensions()).Draw(t, "dimension")
		system := rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.Inch}).Draw(t, "system")
		values := rapid.SliceOfN(rapid.Float64Range(-1e9, 1e9), 1, 3).Draw(t, "values")
		for i, value := range values {
			if value > -1e-20 && value < 1e-20 {
				values[i] = 0
			}
		}
		numbers, unit := quantity.Written(d, system, values...)
		require.Len(t, numbers, len(values))
		for i, number := range numbers {
			back, _, err := quantity.Parse(d, strings.TrimSpace(number+" "+unit))
			require.NoError(t, err)
			require.Equal(t, values[i], back, "%s %s", number, unit)
		}
	})
}

func TestWrittenTakesTheUsualUnitWhereItCan(t *testing.T) {
	for _, row := range []struct {
		d      quantity.Dimension
		system quantity.System
		text   string
		number string
		unit   string
	}{
		{quantity.DimLength, quantity.Inch, "1 3/4 in", "1.75", "in"},
		{quantity.DimLength, quantity.Metric, "45 mm", "45", "mm"},
		{quantity.DimPower, quantity.Inch, "20 hp", "20", "hp"},
		{quantity.DimLength, quantity.Inch, "0.4 mm", "0.4", "mm"},
		{quantity.DimLength, quantity.Metric, "25.4 mm", "25.4", "mm"},
		{quantity.DimShare, quantity.Metric, "7 %", "7", "%"},
		{quantity.DimMoneyPerHour, quantity.Metric, "75 per 30 min", "150", "per h"},
		{quantity.DimCount, quantity.Metric, "12", "12", ""},
	} {
		si, _, err := quantity.Parse(row.d, row.text)
		require.NoError(t, err)
		numbers, unit := quantity.Written(row.d, row.system, si)
		assert.Equal(t, []string{row.number}, numbers, row.text)
		assert.Equal(t, row.unit, unit, row.text)
	}
}

func TestAUnitThatThereIsNotIsNotWrittenIn(t *testing.T) {
	numbers, ok := quantity.WrittenIn(quantity.DimLength, "ells", 1)
	assert.False(t, ok)
	assert.Empty(t, numbers)
}
