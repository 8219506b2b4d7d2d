package text

import (
	"fmt"
	"io"
	"strings"

	"shopstint/reports"
)

// WriteWear writes what edges and abrasives cost, and what a year of them takes.
func WriteWear(w io.Writer, wear *reports.Wear, options Options) error {
	p := newPage(options)
	p.paragraph("", capital(wear.Title)+", in "+wear.Currency+".")
	p.paragraph("", sentence(capital(wear.InWords)))
	p.blank()
	p.wearTable("Edges", wear.Length, wear.Edges)
	p.wearTable("Abrasives", wear.Area, wear.Abrasives)
	for _, items := range [...][]reports.WearItem{wear.Edges, wear.Abrasives} {
		for i := range items {
			p.wearItem(&items[i])
		}
	}
	if len(wear.Comparisons) > 0 {
		p.comparisons(wear.Comparisons)
		p.blank()
	}
	for _, note := range wear.Notes {
		p.item(sentence(capital(note)))
	}
	p.blank()
	p.paragraph("", wear.Caution)
	if _, err := io.WriteString(w, p.String()); err != nil {
		return fmt.Errorf("could not write the wear: %w", err)
	}
	return nil
}

// Columns of the table of wear.
const (
	wearName   = 36
	wearFigure = 12
	wearEnd    = 24
)

// wearTable writes a table, or on a narrow page an item a line.
func (p *page) wearTable(what, unit string, items []reports.WearItem) {
	if len(items) == 0 {
		return
	}
	wide := p.columns >= wearName+3*wearFigure+wearEnd
	if wide {
		p.wearRow(what, "a "+unit, "until dull", "until spent", "what it allows")
	} else {
		p.paragraph("", what+", a "+unit+":")
	}
	for i := range items {
		item := &items[i]
		if wide {
			p.wearRow("  "+shortened(item.Name, wearName-3), item.Cost, item.Dull, item.Span, item.End)
			continue
		}
		p.item(fmt.Sprintf("%s: %s; until dull %s, until spent %s; %s", item.Name, item.Cost, item.Dull, item.Span, item.End))
	}
	p.blank()
}

// shortened is a name on one line; what is cut off is told by an ellipsis.
func shortened(name string, columns int) string {
	if lines := Wrap(name, columns); len(lines) == 1 {
		return lines[0]
	}
	return Wrap(name, columns-2)[0] + " …"
}

func (p *page) wearRow(name, cost, dull, spent, end string) {
	p.WriteString(name + strings.Repeat(" ", max(0, wearName-columnsOf(name))))
	for _, figure := range [...]string{cost, dull, spent} {
		p.WriteString(strings.Repeat(" ", max(1, wearFigure-columnsOf(figure))) + figure)
	}
	p.WriteString("  " + end)
	p.blank()
}

// wearItem writes an item's years on its machines; an item that nothing wears is
// left to the table.
func (p *page) wearItem(item *reports.WearItem) {
	for i := range item.Years {
		year := &item.Years[i]
		if year.Idle {
			continue
		}
		p.paragraph("", capital(year.Heading)+":")
		for _, said := range []string{year.Work, item.MaterialsInWords, year.Spares, year.Time, year.Moment} {
			if said != "" {
				p.item(sentence(capital(said)))
			}
		}
		p.blank()
	}
}
