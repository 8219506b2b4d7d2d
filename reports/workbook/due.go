package workbook

import (
	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// Columns of the table of edges and abrasives; twelve months follow.
const (
	dueMachine = iota + 1
	dueItem
	dueSharpen
	dueRenew
	dueRun
	dueUnit
	dueTimes
	dueMonths
)

// dueSheet is the calendar of replacements: machines by date, edges and abrasives
// by month, what to set aside, and the rates of an hour.
func (b *book) dueSheet(s *grid.Sheet, said *reports.Spending) {
	p := page{s}
	s.Columns = []float64{34, 34, 13, 13, 11, 8, 12}
	for range 12 {
		s.Columns = append(s.Columns, 7)
	}
	s.Protected, s.TabColor = true, moss
	s.Print = grid.Print{Landscape: true, FitWide: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "What falls due, and what to set aside for it", title)
	b.stamp(p, 1, 4)
	at := p.sentences(2, []string{said.ChoiceInWords, "every edge and abrasive is taken for fresh on the first day; runs are counted as in plain hardwood"}, lead)
	at = b.eventTable(p, at+1, said)
	at = b.dueTable(p, at+1, said)
	at = b.reserveTable(p, at+1, said)
	at = b.rateTable(p, at+1, said)
	p.caution(at+1, said.Caution)
}

func (b *book) eventTable(p page, at int, said *reports.Spending) int {
	if len(said.Events) == 0 {
		return at
	}
	p.headers(at, "machine or fixture", "what happens", "on", "amount, "+said.Currency)
	for i := range said.Events {
		event := &said.Events[i]
		at++
		p.text(at, 1, event.Name, plain)
		p.text(at, 2, event.What, plain)
		p.text(at, 3, event.On, plain)
		p.number(at, 4, event.Amount, numbers(asMoney0))
	}
	return at + 1
}

func (b *book) dueTable(p page, at int, said *reports.Spending) int {
	if len(said.Due) == 0 {
		return at
	}
	titles := []string{"machine", "edge or abrasive", "sharpen first", "new first", "run, twelve months", "unit", "times due"}
	for m := range 12 {
		titles = append(titles, reports.MonthAfter(said.Due[0].From, m))
	}
	p.headers(at, titles...)
	first := at + 1
	for i := range said.Due {
		due := &said.Due[i]
		at++
		p.text(at, dueMachine, due.MachineName, plain)
		p.text(at, dueItem, due.ItemName, plain)
		p.text(at, dueSharpen, orDash(due.Sharpen), plain)
		p.text(at, dueRenew, orDash(due.Renew), plain)
		p.number(at, dueRun, due.Run, numbers(asCount))
		p.text(at, dueUnit, due.Unit, plain)
		times := 0
		for m, count := range due.Months {
			times += count
			p.number(at, dueMonths+m, float64(count), numbers(asFlag))
		}
		p.calc(at, dueTimes, "SUM("+span(at, dueMonths, at, dueMonths+11)+")", float64(times), numbers(asCount))
	}
	p.Conditions = append(p.Conditions, grid.Condition{
		Range: span(first, dueMonths, at, dueMonths+11), Formula: cell(first, dueMonths) + ">0", Style: grid.Style{Fill: "E4F0E7"},
	})
	return at + 1
}

func orDash(date string) string {
	if date == "" {
		return "–"
	}
	return date
}

func (b *book) reserveTable(p page, at int, said *reports.Spending) int {
	if len(said.Reserves) == 0 {
		return at
	}
	p.headers(at, "set aside for the next", "", "years", "a next one costs", "the old brings", "", "a month")
	first := at + 1
	sum := 0.0
	for i := range said.Reserves {
		reserve := &said.Reserves[i]
		at++
		p.text(at, 1, reserve.Name, plain)
		p.number(at, 3, float64(reserve.Years), numbers(asCount))
		p.number(at, 4, reserve.Price, numbers(asMoney0))
		p.number(at, 5, reserve.Fetched, numbers(asMoney0))
		p.number(at, 7, reserve.Monthly, numbers(asMoney))
		sum += reserve.Monthly
	}
	at++
	p.text(at, 1, "together, at "+said.SavingsInWords+" interest a year", total(asGeneral))
	p.calc(at, 7, "SUM("+span(first, 7, at-1, 7)+")", sum, total(asMoney))
	return at + 1
}

func (b *book) rateTable(p page, at int, said *reports.Spending) int {
	if len(said.Rates) == 0 {
		return at
	}
	p.headers(at, "an hour of a machine of your own", "hours in its first year", "owning", "running", "without own time", "own time", "with own time")
	for i := range said.Rates {
		rate := &said.Rates[i]
		at++
		p.text(at, 1, rate.Name, plain)
		p.number(at, 2, rate.Hours, numbers(asNumber))
		p.number(at, 3, rate.Owning, numbers(asMoney))
		p.number(at, 4, rate.Running, numbers(asMoney))
		p.calc(at, 5, cell(at, 3)+"+"+cell(at, 4), rate.WithoutTime, numbers(asMoney))
		p.number(at, 6, rate.Time, numbers(asMoney))
		p.calc(at, 7, cell(at, 5)+"+"+cell(at, 6), rate.WithTime, numbers(asMoney))
	}
	p.text(at+1, 1, "before tax; the same amount for every hour pays for all of it over the years", faint)
	return at + 2
}
