package text

import (
	"strings"

	"shopstint/reports"
)

// comparisons writes what ways of doing the same work cost, each comparison a
// table and the answer below it; nothing for none.
func (p *page) comparisons(list []reports.Comparison) {
	for i := range list {
		if i > 0 {
			p.blank()
		}
		p.comparison(&list[i])
	}
}

// Columns of a comparison: the way, and a figure each for its parts.
const (
	wayColumns  = 40
	partColumns = 10
)

func (p *page) comparison(one *reports.Comparison) {
	p.paragraph("", sentence(one.Heading))
	headings := headingsOf(one)
	wide := p.columns >= wayColumns+partColumns*len(headings)
	if wide {
		p.figures(one.Currency+" a "+one.Unit, headings)
	}
	for i := range one.Ways {
		way := &one.Ways[i]
		if wide {
			p.figures(way.Name, figuresOf(way))
			continue
		}
		var said []string
		for k, figure := range figuresOf(way) {
			said = append(said, headings[k]+" "+figure)
		}
		p.item(way.Name + ", " + one.Currency + " a " + one.Unit + ": " + strings.Join(said, "; "))
	}
	for _, clause := range one.InWords {
		p.item(sentence(clause))
	}
}

// headingsOf names the parts in few letters, in the order of figuresOf.
func headingsOf(one *reports.Comparison) []string {
	return []string{one.Ways[0].Parts[0].Label, "labour", "energy", "rework", "kept", "in all"}
}

func figuresOf(way *reports.ComparedWay) []string {
	var figures []string
	for _, part := range way.Parts {
		figures = append(figures, part.InWords)
	}
	return append(figures, way.InWords)
}

// figures writes a line of figures behind a label; a label that is too long has
// a line of its own.
func (p *page) figures(label string, figures []string) {
	lines := Wrap(label, p.columns-2)
	if columnsOf(lines[0]) > wayColumns-2 || len(lines) > 1 {
		p.WriteString("  " + strings.Join(lines, "\n  ") + "\n")
		lines = []string{""}
	}
	label = "  " + lines[0]
	p.WriteString(label + strings.Repeat(" ", wayColumns-columnsOf(label)))
	for _, figure := range figures {
		p.WriteString(strings.Repeat(" ", max(1, partColumns-columnsOf(figure))) + figure)
	}
	p.blank()
}
