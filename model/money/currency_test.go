package money_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/money"
)

func currencyOf(t require.TestingT, code string) money.Currency {
	c, err := money.ParseCurrency(code)
	require.NoError(t, err)
	return c
}

func TestCurrenciesHaveThePlacesOfTheStandard(t *testing.T) {
	for code, places := range map[string]int{ // ISO 4217, table A.1
		"USD": 2, "EUR": 2, "GBP": 2, "CHF": 2, "CAD": 2, "COP": 2, "HUF": 2, "MRU": 2, "VES": 2,
		"JPY": 0, "KRW": 0, "ISK": 0, "CLP": 0, "VND": 0, "XOF": 0,
		"KWD": 3, "BHD": 3, "TND": 3, "IQD": 3,
		"CLF": 4, "UYW": 4,
	} {
		c, err := money.ParseCurrency(code)
		require.NoError(t, err, code)
		assert.Equal(t, places, c.Places(), code)
		assert.Equal(t, code, c.Code())
		assert.Equal(t, code, c.String())
	}
}

func TestUnknownCurrenciesAreRefused(t *testing.T) {
	for _, row := range []struct{ code, want string }{
		{"", "is not a currency code"},
		{"usd", "is not a currency code"},
		{"Usd", "is not a currency code"},
		{"US", "is not a currency code"},
		{"USDD", "is not a currency code"},
		{"$", "is not a currency code"},
		{" USD", "is not a currency code"},
		{"U\x00D", `"U\x00D" is not a currency code`},
		{strings.Repeat("X", 10_000), `"` + strings.Repeat("X", 20) + `…" is not`},
		{"ABC", `ISO 4217 has no "ABC"`},
		{"ZZZ", `ISO 4217 has no "ZZZ"`},
		{"XXX", `nothing can be invoiced in "XXX"`},
		{"XTS", `nothing can be invoiced in "XTS"`},
		{"XAU", `nothing can be invoiced in "XAU"`},
	} {
		c, err := money.ParseCurrency(row.code)
		require.ErrorIs(t, err, money.ErrCurrency, "%q", row.code)
		assert.ErrorContains(t, err, row.want)
		assert.ErrorContains(t, err, "such as USD or EUR")
		assert.Zero(t, c)
	}
}
