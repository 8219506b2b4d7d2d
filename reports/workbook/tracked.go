package workbook

import (
	"fmt"
	"io"
	"time"

	"shopstint/capital/decision/track"
	"shopstint/model/money"
	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// Sheets of the workbook of actual against study, in reading order.
const (
	sheetTracked   = "Minutes"
	sheetInvoices  = "Invoices"
	sheetLives     = "Lives"
	sheetFinished  = "Jobs"
	sheetSuggested = "Suggested inputs"
)

// trackBook is the workbook of actual against study in the making.
type trackBook struct {
	out  *grid.Book
	told *reports.Tracked
}

// WriteTrack writes actual against study as a workbook: ratios are live formulas, what
// the engine estimated stands as values. The same result gives the same bytes.
func WriteTrack(w io.Writer, told *reports.Tracked, created time.Time) error {
	b := &trackBook{told: told, out: &grid.Book{Title: told.Title, Subject: "Actual against study", Author: "shopstint", Created: created}}
	for _, one := range []struct {
		name string
		fill func(page)
	}{{sheetTracked, b.minutes}, {sheetInvoices, b.invoices}, {sheetLives, b.lives}, {sheetFinished, b.jobs}, {sheetSuggested, b.suggested}} {
		s := b.out.Add(one.name)
		s.TabColor, s.Print = moss, grid.Print{Landscape: true, FitWide: 1, Footer: "&L&A&C&P of &N"}
		one.fill(page{s})
	}
	currency, err := money.ParseCurrency(told.Currency)
	if err != nil {
		return fmt.Errorf("could not lay out the workbook: %w", err)
	}
	inPlaces(b.out.Sheets, currency.Places())
	if err := b.out.Write(w); err != nil {
		return fmt.Errorf("could not write the workbook: %w", err)
	}
	return nil
}

// intervalOf writes the ends of an estimate, nothing where they are not known.
func (p page) intervalOf(row, col int, e track.Estimate, style grid.Style) {
	if e.Known {
		p.number(row, col, e.Low, style)
		p.number(row, col+1, e.High, style)
	}
}

// ratio writes one figure over another, empty where that is zero.
func (p page) ratio(row, col int, over, under string, overValue, underValue float64, style grid.Style) {
	var value any = ""
	if underValue != 0 {
		value = overValue / underValue
	}
	p.calc(row, col, "IF("+under+"=0,\"\","+over+"/"+under+")", value, style)
}

// minutes lays the operations out, a chart of all of them below.
func (b *trackBook) minutes(p page) {
	p.Columns = []float64{50, 9, 13, 13, 11, 11, 11, 2, 60}
	p.text(1, 1, "Minutes: actual against the study", title)
	at := p.sentences(2, nonEmpty(b.told.InWords), lead)
	p.headers(at, "machine: operation", "lines", "reckoned min", "actual min", "actual for each reckoned", "low", "high", "", "what the machine's lines say")
	first := at + 1
	row, reckoned, actual := first, 0.0, 0.0
	for i := range b.told.Result.Machines {
		m := &b.told.Result.Machines[i]
		for j := range m.Operations {
			one := &m.Operations[j]
			p.text(row, 1, m.Name+": "+reports.OperationName(one.Key), plain)
			p.number(row, 2, float64(one.Lines), numbers(asCount))
			p.number(row, 3, one.Predicted.Minutes(), numbers(asNumber))
			p.number(row, 4, one.Actual.Minutes(), numbers(asNumber))
			p.ratio(row, 5, cell(row, 4), cell(row, 3), one.Actual.Minutes(), one.Predicted.Minutes(), numbers(asFine))
			p.intervalOf(row, 6, one.Ratio, numbers(asFine))
			if says := b.told.Machines[i].Says; j == 0 && says != "" {
				p.text(row, 9, says, wrappedLow)
				p.high(row, p.lines(says, 8))
			}
			reckoned, actual, row = reckoned+one.Predicted.Minutes(), actual+one.Actual.Minutes(), row+1
		}
	}
	if row == first {
		p.text(row, 1, "no measured work in the logbook", faint)
		return
	}
	p.text(row, 1, "together", total(asGeneral))
	p.calc(row, 3, "SUM("+span(first, 3, row-1, 3)+")", reckoned, total(asNumber))
	p.calc(row, 4, "SUM("+span(first, 4, row-1, 4)+")", actual, total(asNumber))
	p.ratio(row, 5, cell(row, 4), cell(row, 3), actual, reckoned, total(asFine))
	labels, column := grid.RangeRef(sheetTracked, first, 1, row-1, 1), func(col int) string { return grid.RangeRef(sheetTracked, first, col, row-1, col) }
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Column, Title: "Minutes by operation", Cell: cell(row+2, 1), Width: 1100, Height: 420,
		AltText: "columns of the minutes reckoned and actual by machine and operation", Y: grid.Axis{Title: "minutes", Format: "#,##0"},
		Series: []grid.Series{{Name: "study", Categories: labels, Values: column(3), Color: sand}, {Name: "actual", Categories: labels, Values: column(4), Color: slate}},
	})
}

// serial is the day number of spreadsheets: 1970-01-01 is day 25569.
const serial = 25569

const asDate = "yyyy-mm-dd"

// invoices lists the rates that invoices imply, shop by shop, each with its chart.
func (b *trackBook) invoices(p page) {
	p.Columns = []float64{34, 16, 16, 16, 16, 12, 11, 11}
	p.text(1, 1, "Invoices against the study's tariff", title)
	p.headers(2, "shop", "visits", "invoices priced", "paid", "by the tariff", "paid for each priced", "low", "high")
	at := 3
	for i := range b.told.Result.Visits {
		v := &b.told.Result.Visits[i]
		p.text(at, 1, v.Name, plain)
		p.number(at, 2, float64(v.Lines), numbers(asCount))
		p.number(at, 3, float64(v.Compared), numbers(asCount))
		p.number(at, 4, v.Paid, numbers(asMoney))
		p.number(at, 5, v.Priced, numbers(asMoney))
		p.ratio(at, 6, cell(at, 4), cell(at, 5), v.Paid, v.Priced, numbers(asFine))
		p.intervalOf(at, 7, v.Ratio, numbers(asFine))
		at++
	}
	for i := range b.told.Result.Visits {
		at = b.rates(p, at+1, &b.told.Result.Visits[i], b.told.Visits[i].Says)
	}
}

// rates lists the days of one shop and draws them.
func (b *trackBook) rates(p page, at int, v *track.Visits, says []string) int {
	p.band(at, 8, v.Name)
	at = p.sentences(at+1, says, lead)
	if len(v.Days) == 0 {
		return at
	}
	unit, format, axis := b.told.Currency+" an hour", asMoney, asAxis
	if !v.Hourly {
		unit, format, axis = "share of the study's rates", asFine, "0.00"
	}
	p.headers(at, "day", "implied, "+unit, "study", "implied for each of the study")
	first := at + 1
	for i, day := range v.Days {
		row := first + i
		p.number(row, 1, float64(day.Date.Day()+serial), grid.Style{NumberFormat: asDate, Align: grid.AlignLeft})
		p.number(row, 2, day.Rate, numbers(format))
		p.number(row, 3, v.Study, numbers(format))
		p.ratio(row, 4, cell(row, 2), cell(row, 3), day.Rate, v.Study, numbers(asFine))
	}
	last := first + len(v.Days) - 1
	days := grid.RangeRef(sheetInvoices, first, 1, last, 1)
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Scatter, Title: "Rate that the invoices imply: " + v.Name, Cell: cell(first, 6), Width: 560, Height: 340,
		AltText: "the rate that each day's invoices imply, and the study's", X: grid.Axis{Title: "day", Format: asDate}, Y: grid.Axis{Title: unit, Format: axis},
		Series: []grid.Series{
			{Name: "implied by the invoices", Categories: days, Values: grid.RangeRef(sheetInvoices, first, 2, last, 2), Color: slate, NoLine: true, Marker: grid.MarkerCircle, MarkerSize: 5},
			{Name: "study", Categories: days, Values: grid.RangeRef(sheetInvoices, first, 3, last, 3), Color: rust},
		},
	})
	return max(last, first+chartRows) + 1
}

// chartRows is how many rows a chart of the usual height covers.
const chartRows = 19

// jobs lists jobs done and done again.
func (b *trackBook) jobs(p page) {
	p.Columns = []float64{34, 10, 12, 10, 10, 12, 12, 10, 12, 10, 10, 12, 16}
	p.text(1, 1, "Jobs a year and rework", title)
	p.text(2, 1, "years that the logbook covers", text)
	p.number(2, 2, b.told.Result.Years, numbers(asFine))
	p.headers(3, "job type", "done", "a year", "low", "high", "a year in the study", "actual for each of the study", "done again", "share done again", "low", "high", "chance in the study", "hours waited on average")
	for i := range b.told.Result.Jobs {
		j, row := &b.told.Result.Jobs[i], 4+i
		p.text(row, 1, j.Name, plain)
		p.number(row, 2, j.Done, numbers(asCount))
		p.ratio(row, 3, cell(row, 2), "$B$2", j.Done, b.told.Result.Years, numbers(asNumber))
		p.intervalOf(row, 4, j.PerYear, numbers(asNumber))
		p.number(row, 6, j.Study, numbers(asNumber))
		p.ratio(row, 7, cell(row, 3), cell(row, 6), j.PerYear.Value, j.Study, numbers(asFine))
		p.number(row, 8, j.Again, numbers(asCount))
		p.ratio(row, 9, "MIN("+cell(row, 8)+","+cell(row, 2)+")", cell(row, 2), min(j.Again, j.Done), j.Done, numbers(asPercent))
		p.intervalOf(row, 10, j.Share, numbers(asPercent))
		p.number(row, 12, j.Chance, numbers(asPercent))
		if j.Waits > 0 {
			p.number(row, 13, j.Waiting.Value/60, numbers(asNumber))
		}
	}
}

// suggested lists what the evidence would change, what drifted and what was left out.
func (b *trackBook) suggested(p page) {
	p.Columns = []float64{52, 20, 20, 16, 16, 70}
	p.text(1, 1, "Inputs that the logbook speaks against", title)
	p.headers(2, "input", "in the study", "suggested", "low", "high", "what it rests on")
	at := 3
	for i := range b.told.Suggestions {
		one := &b.told.Suggestions[i]
		for col, words := range [...]string{one.Path, one.Old, one.New, one.Low, one.High, one.Because} {
			p.text(at, col+1, words, wrapped)
		}
		p.high(at, max(p.lines(one.Path, 0), p.lines(one.Because, 5)))
		at++
	}
	if len(b.told.Suggestions) == 0 {
		p.text(at, 1, "none: it does not speak clearly enough against the study", faint)
		at++
	}
	p.band(at+1, 6, "Since last year")
	at = p.sentences(at+2, b.told.Drift, text)
	if len(b.told.Notes) > 0 {
		p.band(at+1, 6, "Left out")
		at = p.sentences(at+2, b.told.Notes, text)
	}
	p.band(at+1, 6, "Caution")
	p.sentences(at+2, []string{b.told.Caution[:len(b.told.Caution)-1]}, text)
}
