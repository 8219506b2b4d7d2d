package quantity_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/quantity"
)

func TestAValueIsReadUpToTheLargestAndDownToTheSmallest(t *testing.T) {
	zeros := strings.Repeat("0", 29)
	for text, want := range map[string]float64{"10" + zeros + " m": 1e30, "0." + zeros + "1 m": 1e-30} {
		si, _, err := quantity.Parse(quantity.DimLength, text)
		require.NoError(t, err, text)
		assert.InEpsilon(t, want, si, 1e-12)
	}
	for _, text := range []string{"11" + zeros + " m", "0." + zeros + "09 m"} {
		_, _, err := quantity.Parse(quantity.DimLength, text)
		assert.Error(t, err, text)
	}
}

func TestATextIsShownAsWrittenUnlessItSpoilsTheTerminal(t *testing.T) {
	for text, shown := range map[string]string{
		`a"b`:      `"a"b" is no date`,
		`a\b`:      `"a\b" is no date`,
		"Fräse":    `"Fräse" is no date`,
		"a\x1b\"b": `"a\x1b\"b" is no date`,
		"a\xff\"b": `"a\xff\"b" is no date`,
	} {
		_, err := quantity.ParseDate(text)
		assert.ErrorContains(t, err, shown)
	}
}

func TestOnlyDigitsInTheirPlacesAreADayOfNoCalendar(t *testing.T) {
	for text, what := range map[string]string{
		"2026-13-01": "is no day of the calendar", "2026-1x-01": "is no date", "2026x11-26": "is no date", "2026-1--26": "is no date",
	} {
		_, err := quantity.ParseDate(text)
		assert.ErrorContains(t, err, `"`+text+`" `+what)
	}
}

func TestWhatNoOneCanMeanIsShownShort(t *testing.T) {
	for _, si := range []float64{1e50, -1e50, 1e-50, -1e-50} {
		assert.Less(t, len(quantity.Format(quantity.DimLength, si, quantity.Metric)), 30, si)
	}
}
