package text

import (
	"fmt"
	"io"
	"strings"

	"shopstint/reports"
)

// WriteBudget writes the budget of one job.
func WriteBudget(w io.Writer, budget *reports.Budget, options Options) error {
	p := newPage(options)
	p.paragraph("", capital(budget.Name)+": what to put into its price, in "+budget.Currency+".")
	p.paragraph("", sentence(budget.InWords))
	p.blank()
	for i := range budget.Cases {
		p.budgetCase(&budget.Cases[i])
	}
	if len(budget.Owned) > 0 {
		p.paragraph("", "What a machine of the studio's own would cost in place of its part of the above, after tax:")
		for i := range budget.Owned {
			p.item(sentence(budget.Owned[i].InWords))
		}
		p.blank()
	}
	for _, note := range budget.Notes {
		p.item(sentence(capital(note)))
	}
	p.blank()
	p.paragraph("", budget.Caution)
	if _, err := io.WriteString(w, p.String()); err != nil {
		return fmt.Errorf("could not write the budget: %w", err)
	}
	return nil
}

// Columns of a budget.
const (
	labelColumns  = 48
	figureColumns = 14
)

// budgetCase writes a table, or on a narrow page an item a line.
func (p *page) budgetCase(one *reports.BudgetCase) {
	headings := [3]string{"expected", "enough 80 %", "enough 95 %"}
	wide := p.columns >= labelColumns+3*figureColumns
	if wide {
		p.row(capital(one.InWords), headings)
	} else {
		p.paragraph("", capital(one.InWords)+":")
	}
	for _, line := range one.Lines {
		switch {
		case line.Empty:
		case wide:
			p.row("  "+line.Label, line.InWords)
		default:
			p.item(fmt.Sprintf("%s: %s; %s %s; %s %s", line.Label, line.InWords[0], headings[1], line.InWords[1], headings[2], line.InWords[2]))
		}
	}
	p.blank()
}

func (p *page) row(label string, figures [3]string) {
	p.WriteString(label + strings.Repeat(" ", max(0, labelColumns-columnsOf(label))))
	for _, figure := range figures {
		p.WriteString(strings.Repeat(" ", max(1, figureColumns-columnsOf(figure))) + figure)
	}
	p.blank()
}
