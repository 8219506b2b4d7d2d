package money

import (
	"errors"
	"fmt"

	"golang.org/x/text/currency"
)

// Currency is a currency of ISO 4217. The zero Currency has no code and no
// places.
type Currency struct {
	code   string
	places int
}

// ErrCurrency is behind every error of ParseCurrency.
var ErrCurrency = errors.New("unknown currency")

// ParseCurrency finds a currency by its code: three capitals, in the standard.
// Codes without a minor unit there (metals, funds, tests, "no currency") are
// refused: nothing can be invoiced in them.
//
// Source: ISO 4217, Codes for the representation of currencies, 2015, tables
// A.1 and A.3.
func ParseCurrency(code string) (Currency, error) {
	if !isThreeCapitals(code) {
		return Currency{}, fmt.Errorf("%w: %q is not a currency code; write three capitals of ISO 4217, such as USD or EUR", ErrCurrency, shortened(code))
	}
	if hasNoMinorUnit(code) {
		return Currency{}, fmt.Errorf("%w: nothing can be invoiced in %q; write the ISO 4217 code of the money in which you are paid, such as USD or EUR", ErrCurrency, code)
	}
	if _, err := currency.ParseISO(code); err != nil && !isNewerCode(code) {
		return Currency{}, fmt.Errorf("%w: ISO 4217 has no %q; write the code of the money in which you are paid, such as USD or EUR", ErrCurrency, code)
	}
	return Currency{code: code, places: placesOf(code)}, nil
}

// Code is the three capitals of the standard.
func (c Currency) Code() string { return c.code }

// Places is how many decimals an amount is posted with: 2 for most, 0 to 4.
//
// Source: ISO 4217, 2015, table A.1, column "minor unit".
func (c Currency) Places() int { return c.places }

// String is Code.
func (c Currency) String() string { return c.code }

func isThreeCapitals(code string) bool {
	if len(code) != 3 {
		return false
	}
	for i := range len(code) {
		if code[i] < 'A' || code[i] > 'Z' {
			return false
		}
	}
	return true
}

// shortened keeps a hostile text out of the message.
func shortened(text string) string {
	const shown = 20
	if runes := []rune(text); len(runes) > shown {
		return string(runes[:shown]) + "…"
	}
	return text
}

// placesOf is the standard's minor unit. It is written out because the language
// library follows the habits of shops (no cents in some countries), not the
// standard that invoices are checked against.
func placesOf(code string) int {
	switch code {
	case "BIF", "BYR", "CLP", "DJF", "ESP", "GNF", "ISK", "ITL", "JPY", "KMF", "KRW", "LUF", "MGF",
		"PYG", "RWF", "TPE", "TRL", "UGX", "UYI", "VND", "VUV", "XAF", "XOF", "XPF":
		return 0
	case "BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND":
		return 3
	case "CLF", "UYW":
		return 4
	}
	return 2
}

func hasNoMinorUnit(code string) bool {
	switch code {
	case "XAG", "XAU", "XBA", "XBB", "XBC", "XBD", "XDR", "XPD", "XPT", "XSU", "XTS", "XUA", "XXX":
		return true
	}
	return false
}

// isNewerCode knows the codes that the standard took up after the language
// library's table was made.
func isNewerCode(code string) bool {
	switch code {
	case "MRU", "SLE", "UYW", "VED", "VES", "XCG", "ZWG":
		return true
	}
	return false
}
