package workbook

import (
	"slices"
	"strings"

	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// spending shows what owning the set together costs, as the program solved it: by
// year, by month, and what falls due. Sums are live.
func (b *book) spending(years, months, due *grid.Sheet) {
	said := reports.SpendingOf(&b.answer.Spend, reports.ChoiceTogether, reports.Grouped)
	b.spendSheet(years, sheetYears, "What equipment will cost, year by year", &said, &said.Years)
	b.spendSheet(months, sheetMonths, "What equipment will cost, month by month of "+said.Years.Periods[b.answer.Spend.ByMonth], &said, &said.Months)
	b.dueSheet(due, &said)
}

// spendGroups are the colours of the pictures: lines of a table taken together.
var spendGroups = [...]struct {
	label, color string
	keys         []string
}{
	{"renting and travel", rust, []string{"rental", "travel", "helpers"}},
	{"machines, bought and sold", slate, []string{"purchase", "borrowed", "loan_payments", "resale"}},
	{"machines, spread", slate, []string{"capital_recovery"}},
	{"upkeep, insurance, floor", moss, []string{"upkeep", "insurance", "floor"}},
	{"edges and abrasives", sky, []string{"edges", "abrasives"}},
	{"energy", "C9A227", []string{"energy"}},
	{"own time", sand, []string{"own_time"}},
	{"hours sold", "7FB3A6", []string{"hours_sold"}},
	{"tax effect, as paid", "9A86A4", []string{"tax_paid"}},
	{"tax effect, on all of it", "9A86A4", []string{"tax_on_cost"}},
}

// spendTable is a table of amounts on a sheet.
type spendTable struct {
	page
	sheet   string
	head    int
	said    *reports.SpendTable
	rows    map[string]int // by the key of a line
	periods int
}

func (b *book) spendSheet(s *grid.Sheet, name, heading string, said *reports.Spending, table *reports.SpendTable) {
	p := page{s}
	s.Columns = []float64{34}
	for range len(table.Periods) + 1 {
		s.Columns = append(s.Columns, 12)
	}
	s.Protected, s.TabColor = true, moss
	s.Print = grid.Print{Landscape: true, FitWide: 1, FitTall: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, heading, title)
	b.stamp(p, 1, 6)
	at := p.sentences(2, append([]string{said.ChoiceInWords}, said.Notes...), lead)
	t := spendTable{page: p, sheet: name, head: at + 1, said: table, rows: map[string]int{}, periods: len(table.Periods)}
	at = t.write()
	charts := at + 1
	at = p.caution(charts+chartHeight/pixelsARow+1, said.Caution)
	s.Print.Area = span(1, 1, at-1, 2+len(table.Periods))
	cash := t.groups(at+1, reports.InCash)
	cost := t.groups(cash.end+1, reports.InCost)
	t.chart(cell(charts, 1), cash, "Money that leaves the account", "stacked columns of cash by category with a line of their sum", b.study.Currency)
	t.chart(cell(charts, secondChart), cost, "What it costs, own time included", "stacked columns of cost by category with a line of their sum", b.study.Currency)
}

// write fills the table and returns the row below. What is in both sums stands
// above what is only in one.
func (t *spendTable) write() int {
	t.text(t.head, 1, t.said.Heading, header)
	over := header
	over.Align = grid.AlignRight
	for i, words := range append(t.said.Periods[:t.periods:t.periods], "together") {
		t.text(t.head, 2+i, words, over)
	}
	at := t.head + 1
	for i := range t.said.Lines {
		line := &t.said.Lines[i]
		if line.Empty && line.In != reports.SumCash && line.In != reports.SumCost {
			continue
		}
		t.rows[line.Key] = at
		t.line(at, line)
		at++
	}
	return at
}

func (t *spendTable) line(at int, line *reports.SpendLine) {
	whole, style, label := 0.0, numbers(asMoney0), plain
	switch line.In {
	case reports.SumCash, reports.SumCost:
		style, label = total(asMoney0), total(asGeneral)
	case reports.Beside:
		style, label = memo(asMoney0), faint
	}
	t.text(at, 1, strings.TrimSpace(line.Label), label)
	for i, amount := range line.Amounts {
		whole += amount
		if formula := t.sum(line.In, 2+i); formula != "" {
			t.calc(at, 2+i, formula, amount, style)
		} else {
			t.number(at, 2+i, amount, style)
		}
	}
	if line.In != reports.Beside {
		t.calc(at, 2+t.periods, "SUM("+span(at, 2, at, 1+t.periods)+")", whole, style)
	}
}

// sum is the formula of a sum in a column, "" for a line that is none.
func (t *spendTable) sum(in string, column int) string {
	only := map[string]string{reports.SumCash: reports.InCash, reports.SumCost: reports.InCost}[in]
	if only == "" {
		return ""
	}
	var terms []string
	for i := range t.said.Lines {
		line := &t.said.Lines[i]
		if row, ok := t.rows[line.Key]; ok && (line.In == reports.InBoth || line.In == only) {
			terms = append(terms, cell(row, column))
		}
	}
	return sum(terms)
}

// spendPicture is where the series of a picture stand.
type spendPicture struct {
	labels, colors []string
	rows           []int
	sum, end       int
	name           string
}

// groups takes lines together for a picture of one of the sums.
func (t *spendTable) groups(at int, in string) spendPicture {
	words := map[string]string{reports.InCash: "cash", reports.InCost: "cost"}[in]
	t.band(at, 2+t.periods, words+", taken together for the picture")
	picture := spendPicture{sum: t.rows[words], name: words}
	for _, group := range spendGroups {
		var lines []*reports.SpendLine
		for i := range t.said.Lines {
			line := &t.said.Lines[i]
			if _, shown := t.rows[line.Key]; shown && (line.In == in || line.In == reports.InBoth) && slices.Contains(group.keys, line.Key) {
				lines = append(lines, line)
			}
		}
		if len(lines) == 0 {
			continue
		}
		at++
		picture.rows, picture.labels, picture.colors = append(picture.rows, at), append(picture.labels, group.label), append(picture.colors, group.color)
		t.text(at, 1, group.label, plain)
		for i := range t.periods {
			amount := 0.0
			var terms []string
			for _, line := range lines {
				amount += line.Amounts[i]
				terms = append(terms, cell(t.rows[line.Key], 2+i))
			}
			t.calc(at, 2+i, sum(terms), amount, memo(asMoney0))
		}
	}
	picture.end = at + 1
	return picture
}

// The two pictures stand side by side under the table: the second at this column,
// which begins where the first, so many pixels wide, ends.
const (
	secondChart     = 6
	spendChartWidth = 590
)

// chart stacks the groups of a picture under a line of their sum.
func (t *spendTable) chart(at string, picture spendPicture, heading, alt, currency string) {
	row := func(row int) string { return grid.RangeRef(t.sheet, row, 2, row, 1+t.periods) }
	var series []grid.Series
	for i := range picture.rows {
		series = append(series, grid.Series{Name: picture.labels[i], Categories: row(t.head), Values: row(picture.rows[i]), Color: picture.colors[i]})
	}
	series = append(series, grid.Series{
		Name: picture.name, Categories: row(t.head), Values: row(picture.sum), Color: "1F1F1F", Over: true, Marker: grid.MarkerCircle, MarkerSize: 6,
	})
	t.Charts = append(t.Charts, grid.Chart{
		Kind: grid.ColumnStacked, Title: heading, Cell: at, Width: spendChartWidth, Height: chartHeight, AltText: alt,
		X: grid.Axis{LabelsLow: true}, Y: grid.Axis{Title: currency, Format: "#,##0"}, Series: series,
	})
}
