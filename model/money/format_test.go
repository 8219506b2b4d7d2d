package money_test

import (
	"math"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestFormatGroupsThousandsAndFixesPlaces(t *testing.T) {
	for _, row := range []struct{ code, amount, want string }{
		{"USD", "1234.5", "1,234.50"},
		{"USD", "0", "0.00"},
		{"USD", "-0.001", "0.00"},
		{"USD", "999.995", "1,000.00"},
		{"USD", "-1234567.891", "-1,234,567.89"},
		{"USD", "-123", "-123.00"},
		{"JPY", "1234.5", "1,235"},
		{"JPY", "-999", "-999"},
		{"KWD", "1000000", "1,000,000.000"},
	} {
		got := currencyOf(t, row.code).Format(decimal.RequireFromString(row.amount))
		assert.Equal(t, row.want, got, "%s %s", row.code, row.amount)
	}
}

func TestFormatFloatLooksTheSame(t *testing.T) {
	usd := currencyOf(t, "USD")
	assert.Equal(t, "1,234.50", usd.FormatFloat(1234.499999999))
	assert.Equal(t, "-2.68", usd.FormatFloat(-2.675))
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		assert.Equal(t, "n/a", usd.FormatFloat(x))
	}
}

func TestFormatWithoutCommasIsThePostedAmount(t *testing.T) {
	for _, code := range codes {
		c := currencyOf(t, code)
		t.Run(code, rapid.MakeCheck(func(t *rapid.T) {
			x := amounts(c.Places()).Draw(t, "x")
			text := c.FormatFloat(x)
			plain, err := decimal.NewFromString(strings.ReplaceAll(text, ",", ""))
			require.NoError(t, err, text)
			posted, err := c.Post(x)
			require.NoError(t, err)
			require.True(t, posted.Equal(plain), "%v is %s, written %s", x, posted, text)
			for i, group := range strings.Split(strings.TrimPrefix(strings.Split(text, ".")[0], "-"), ",") {
				require.True(t, len(group) == 3 || (i == 0 && len(group) < 3 && group != ""), text)
			}
		}))
	}
}
