package rental

import (
	"fmt"

	"github.com/shopspring/decimal"

	"shopstint/model/money"
)

// Line is one line of an invoice.
type Line struct {
	Label  string
	Amount decimal.Decimal
}

// Invoice is what the shop bills for one visit, in posted decimal amounts.
// Lines add up to Total to the smallest unit of the currency.
type Invoice struct {
	Lines []Line
	Total decimal.Decimal
}

// Bill writes a priced visit as an invoice; lines that are zero are left out.
// It fails only when an amount is not a number.
func Bill(visit Visit, currency money.Currency) (Invoice, error) {
	invoice := Invoice{Total: decimal.Zero}
	for _, item := range []struct {
		label  string
		amount float64
	}{
		{"machine time by the " + visit.By, visit.MachineTime},
		{"member's reduction", visit.Member},
		{"operator", visit.Operator},
		{"after-hours supplement", visit.AfterHours},
		{"resin supplement", visit.Resin},
		{"belt and knife surcharge", visit.Wear},
		{"handling charge", visit.Handling},
		{"sales tax", visit.Tax},
	} {
		amount, err := currency.Post(item.amount)
		if err != nil {
			return Invoice{}, fmt.Errorf("could not post %s: %w", item.label, err)
		}
		if amount.IsZero() {
			continue
		}
		invoice.Lines = append(invoice.Lines, Line{item.label, amount})
		invoice.Total = invoice.Total.Add(amount)
	}
	return invoice, nil
}
