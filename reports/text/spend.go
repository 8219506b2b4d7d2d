package text

import (
	"fmt"
	"io"
	"strings"

	"shopstint/reports"
)

// WriteSpending writes what the equipment will cost.
func WriteSpending(w io.Writer, said *reports.Spending, options Options) error {
	p := newPage(options)
	p.paragraph("", said.Title)
	p.paragraph("", sentence("what equipment will cost, "+said.ChoiceInWords))
	p.blank()
	p.spendTable(&said.Years, said.Currency)
	p.spendTable(&said.Months, said.Currency)
	for _, note := range said.Notes {
		p.item(sentence(note))
	}
	p.blank()
	p.listed("What happens to machines:", len(said.Events), func(i int) string { return said.Events[i].InWords })
	p.listed("Edges and abrasives, fresh on the first day, fall due:", len(said.Due), func(i int) string { return said.Due[i].InWords })
	p.listed(capital(said.ReservedInWords)+":", len(said.Reserves), func(i int) string { return said.Reserves[i].InWords })
	p.listed("An hour of a machine of your own is worth charging, before tax:", len(said.Rates), func(i int) string { return said.Rates[i].InWords })
	p.paragraph("", said.Caution)
	if _, err := io.WriteString(w, p.String()); err != nil {
		return fmt.Errorf("could not write the spending: %w", err)
	}
	return nil
}

// listed writes a heading and its items, or nothing.
func (p *page) listed(heading string, count int, words func(i int) string) {
	if count == 0 {
		return
	}
	p.paragraph("", heading)
	for i := range count {
		p.item(sentence(words(i)))
	}
	p.blank()
}

// Columns of a table over time.
const (
	lineColumns   = 30
	leastFigures  = 8
	narrowColumns = 60 // under this a table is a list
)

// spendTable writes a table in as many blocks as its periods need, all as wide as
// each other.
func (p *page) spendTable(table *reports.SpendTable, currency string) {
	heading := capital(table.Heading) + ", " + currency
	if p.columns < narrowColumns {
		p.spendList(table, heading)
		return
	}
	wide := leastFigures
	for _, line := range table.Lines {
		for _, figure := range line.InWords {
			wide = max(wide, columnsOf(figure)+1)
		}
	}
	fit := max(1, (p.columns-lineColumns)/wide)
	blocks := (len(table.Periods) + fit - 1) / fit
	for block := range blocks {
		from, to := block*len(table.Periods)/blocks, (block+1)*len(table.Periods)/blocks
		p.spendRow(heading, table.Periods[from:to], wide)
		for _, line := range table.Lines {
			if !line.Empty {
				p.spendRow("  "+line.Label, line.InWords[from:to], wide)
			}
		}
		p.blank()
	}
}

func (p *page) spendRow(label string, figures []string, wide int) {
	p.WriteString(label + strings.Repeat(" ", max(0, lineColumns-columnsOf(label))))
	for _, figure := range figures {
		p.WriteString(strings.Repeat(" ", max(1, wide-columnsOf(figure))) + figure)
	}
	p.blank()
}

// spendList is a table on a page too narrow for one.
func (p *page) spendList(table *reports.SpendTable, heading string) {
	p.paragraph("", heading+":")
	for _, line := range table.Lines {
		if line.Empty {
			continue
		}
		var parts []string
		for i, figure := range line.InWords {
			parts = append(parts, table.Periods[i]+" "+figure)
		}
		p.item(strings.TrimSpace(line.Label) + ": " + strings.Join(parts, "; "))
	}
	p.blank()
}
