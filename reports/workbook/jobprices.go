package workbook

import (
	"fmt"

	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// Columns of the table of job prices: three figures each of hours, invoice and
// total, and what is expected of the rest.
const (
	priceJob = iota + 1
	priceVisit
	priceHours   // expected, enough in 80, in 95
	priceInvoice = priceHours + 3
	priceOwn     = priceInvoice + 3
	priceTravel  = priceOwn + 1
	priceTotal   = priceTravel + 1
)

// jobPrices shows what to put into a job's price, as sampled jobs say: on a
// visit of its own, and as a part of a shared one.
func (b *book) jobPrices(s *grid.Sheet, budgets []reports.Budget) {
	p := page{s}
	s.Columns = []float64{36, 24, 11, 11, 11, 12, 12, 12, 12, 12, 12, 12, 12}
	s.Freeze, s.Protected, s.TabColor = "C5", true, rust
	s.Print = grid.Print{Landscape: true, FitWide: 1, TitleRows: 4, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "What to put into a job's price", title)
	b.stamp(p, 1, 4)
	p.text(2, 1, fmt.Sprintf("Before tax on profit, in %s: expected, and enough in 80 and in 95 of 100 such jobs, with rework, ranges and the rounding of blocks. Seed %d.", b.study.Currency, budgets[0].Seed), lead)
	p.text(3, 1, "Every figure stands by itself: those that are enough need not add up. Drawing leaves an error of a hundredth or so.", lead)
	p.headers(4, "job", "on a visit", "hours paid", "enough 80 %", "enough 95 %", "invoice", "enough 80 %", "enough 95 %", "own hours", "travel", "total", "enough 80 %", "enough 95 %")
	at := 5
	for i := range budgets {
		for _, one := range budgets[i].Cases {
			priceRow(p, at, &budgets[i], &one)
			at++
		}
	}
	b.priceChart(p, at+1, 5, at-1)
}

func priceRow(p page, at int, budget *reports.Budget, one *reports.BudgetCase) {
	visit := "of its own"
	if one.Aboard > 1 {
		visit = fmt.Sprintf("shared by %d", one.Aboard)
	}
	p.text(at, priceJob, budget.Name, plain)
	p.text(at, priceVisit, visit, plain)
	for _, line := range one.Lines {
		format, column := asMoney0, map[string]int{"hours_paid": priceHours, "invoice": priceInvoice, "total": priceTotal, "own_hours": priceOwn, "travel": priceTravel}[line.Key]
		if column == priceHours || column == priceOwn {
			format = "0.00"
		}
		if column == 0 {
			continue
		}
		p.number(at, column, line.Expected.Value, numbers(format))
		if column != priceOwn && column != priceTravel {
			p.number(at, column+1, line.Enough80.Value, numbers(format))
			p.number(at, column+2, line.Enough95.Value, numbers(format))
		}
	}
}

func (b *book) priceChart(p page, at, first, last int) {
	column := func(column int) string { return grid.RangeRef(sheetPrices, first, column, last, column) }
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Column, Title: "What the shop, the way and the own hours come to for one job", Cell: cell(at, 1), Width: 1150, Height: 340,
		AltText: "columns by job: expected, and enough in 80 and in 95 of 100 jobs", Y: grid.Axis{Title: b.study.Currency, Format: "#,##0", Min: new(float64)},
		Series: []grid.Series{
			{Name: "expected", Categories: column(priceJob), Values: column(priceTotal), Color: sky},
			{Name: "enough in 80 of 100", Categories: column(priceJob), Values: column(priceTotal + 1), Color: sand},
			{Name: "enough in 95 of 100", Categories: column(priceJob), Values: column(priceTotal + 2), Color: rust},
		},
	})
}
