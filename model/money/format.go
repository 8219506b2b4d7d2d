package money

import (
	"strings"

	"github.com/shopspring/decimal"
)

// noAmount stands for what is no number, as in an empty field of a ledger.
const noAmount = "n/a"

// Format writes d with the places of c and a comma between thousands:
// "1,234.50". Halves are rounded away from zero. The code is not written.
//
// Source: common practice, no source.
func (c Currency) Format(d decimal.Decimal) string {
	return grouped(d.StringFixed(int32(c.places)))
}

// FormatFloat writes x as Format would after Post: "1,234.50"; what is no
// finite number is "n/a".
//
// Source: common practice, no source.
func (c Currency) FormatFloat(x float64) string {
	d, err := c.Post(x)
	if err != nil {
		return noAmount
	}
	return c.Format(d)
}

// grouped puts a comma between thousands of a plain decimal number.
func grouped(number string) string {
	digits, negative := strings.CutPrefix(number, "-")
	whole, cents, hasCents := strings.Cut(digits, ".")
	var b strings.Builder
	if negative {
		b.WriteByte('-')
	}
	for i := range len(whole) {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteByte(whole[i])
	}
	if hasCents {
		b.WriteByte('.')
		b.WriteString(cents)
	}
	return b.String()
}
