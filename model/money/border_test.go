package money_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/model/money"
)

// A product of 100 and what is a bit under a half cent may come out as the half
// itself; such amounts are rounded as they are written, and not by the product.
func TestALargeAmountABitUnderAHalfIsNoHalf(t *testing.T) {
	for _, half := range []float64{12345678901.235, 98765432101.365, 456789012345.625} {
		under := math.Nextafter(half, 0)
		want := math.Floor(under*100-0.25) / 100
		assert.InDelta(t, want, currencyOf(t, "USD").Round(under), 0, "%v", under)
		posted, err := currencyOf(t, "USD").Post(-under)
		assert.NoError(t, err)
		assert.InDelta(t, -want, money.Float(posted), 0)
	}
}

// Amounts are rounded by the million when futures are drawn.
func TestRoundingAnOrdinaryAmountTakesNoMemory(t *testing.T) {
	for _, code := range codes {
		c := currencyOf(t, code)
		for _, x := range []float64{0, 12.3, -1234.56, 98765432.1} {
			assert.Zero(t, testing.AllocsPerRun(10, func() { c.Round(x) }), "%s %v", code, x)
		}
	}
}

func TestTwentyLettersOfWhatIsNoCodeAreShown(t *testing.T) {
	_, err := money.ParseCurrency(strings.Repeat("é", 20))
	assert.ErrorContains(t, err, `"`+strings.Repeat("é", 20)+`" is not`)
}
