package quantity_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/quantity"
)

func TestAValueIsWrittenLikeTheOneBeforeIt(t *testing.T) {
	for _, row := range []struct {
		dimension quantity.Dimension
		text      string
		si        float64
		want      string
	}{
		{quantity.DimMoneyPerHour, "75 per 30 min", 160, "80 per 30 min"},
		{quantity.DimMoneyPerHour, "150 USD per h", 161.26, "161 USD per h"},
		{quantity.DimDistance, "150 m", 159.4, "159 m"},
		{quantity.DimDistance, "4 km", 3217, "3.22 km"},
		{quantity.DimSpeed, "15 ft/min", 0.0649, "12.8 ft/min"},
		{quantity.DimShare, "30 %", 0.4286, "42.9 %"},
		{quantity.DimShare, "0.3", 0.4286, "0.429"},
		{quantity.DimCount, "12", 15.83, "15.8"},
		{quantity.DimArea, "1.2 m²", 2.3357, "2.34 m2"},
		{quantity.DimDuration, "1.5 min", 111.8, "1.86 min"},
		{quantity.DimMoney, "20", 22, "22"},
	} {
		got, ok := quantity.Like(row.dimension, row.text, row.si, 3)
		require.True(t, ok, row.text)
		assert.Equal(t, row.want, got)
	}
	for text, dimension := range map[string]quantity.Dimension{
		"8 ft 6 in": quantity.DimLength, "1 3/4 in": quantity.DimLength, "1 h 30 min": quantity.DimDuration,
		"0 %": quantity.DimShare, "wide": quantity.DimLength,
	} {
		_, ok := quantity.Like(dimension, text, 1, 3)
		assert.False(t, ok, text)
	}
}

func TestWhatIsWrittenLikeAnotherReadsBackAsItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		si := rapid.Float64Range(1e-3, 1e6).Draw(t, "si")
		text := rapid.SampledFrom([]string{"150 m", "4 km", "0.2 mi"}).Draw(t, "text")
		got, ok := quantity.Like(quantity.DimDistance, text, si, 6)
		require.True(t, ok)
		read, _, err := quantity.Parse(quantity.DimDistance, got)
		require.NoError(t, err)
		assert.InEpsilon(t, si, read, 1e-5)
	})
}
