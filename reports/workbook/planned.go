package workbook

import (
	"strings"

	"shopstint/model/quantity"
	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// planned is the plan of visits for the dated jobs, as the program solved it: a
// page to hang up.
func (b *book) planned(s *grid.Sheet, visits *Visits) {
	p := page{s}
	s.Columns = []float64{12, 6, 24, 50, 9, 12, 11, 11, 12, 11, 13, 13, 11, 9, 60}
	s.Freeze, s.Protected, s.TabColor = "C3", true, sky
	s.Print = grid.Print{Landscape: true, FitWide: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Visits for the dated jobs", title)
	b.stamp(p, 1, 5)
	if visits.Plan == nil {
		p.text(2, 1, "No plan: "+visits.Why, lead)
		return
	}
	said := visits.Plan
	words := append(nonEmpty(said.CostInWords, said.SavedInWords), said.ProofsInWords...)
	at := p.sentences(2, append(words, nonEmpty(said.HomeInWords)...), lead)
	mass := quantity.Display(quantity.DimMass, b.system).Symbol
	p.headers(at+1, "date", "day", "shop", "jobs aboard", "billed min", "bought as", "invoice", "travel", "own time and helpers", "the whole visit", "book by", "would do until", "load "+mass, "people", "to bring")
	for i := range said.Visits {
		b.plannedRow(p, at+2+i, &said.Visits[i])
	}
	last := at + 2 + len(said.Visits)
	p.text(last, 4, "together, before tax", total(asMoney))
	for column := 7; column <= 10; column++ {
		p.calc(last, column, "SUM("+span(at+2, column, last-1, column)+")", b.plannedSum(said, column), total(asMoney))
	}
	p.caution(last+2, said.Caution)
}

// plannedMoney are the amounts of a visit, by column.
func plannedMoney(visit *reports.PlannedVisit, column int) float64 {
	return map[int]float64{7: visit.Invoice, 8: visit.Travel, 9: visit.Labour, 10: visit.Total}[column]
}

func (b *book) plannedSum(said *reports.VisitPlan, column int) float64 {
	sum := 0.0
	for i := range said.Visits {
		sum += plannedMoney(&said.Visits[i], column)
	}
	return sum
}

func (b *book) plannedRow(p page, at int, visit *reports.PlannedVisit) {
	var jobs []string
	for _, job := range visit.Jobs {
		jobs = append(jobs, job.InWords)
	}
	top := func(format string) grid.Style { return grid.Style{NumberFormat: format, VAlign: grid.VAlignTop} }
	bring := strings.Join(visit.Bring, "\n")
	p.text(at, 1, visit.Date, grid.Style{Bold: true, VAlign: grid.VAlignTop})
	p.text(at, 2, visit.Weekday, text)
	p.text(at, 3, visit.ShopName, wrapped)
	p.text(at, 4, strings.Join(jobs, "\n"), wrapped)
	p.number(at, 5, visit.Minutes, top(asCount))
	p.text(at, 6, visit.By, text)
	for column := 7; column <= 10; column++ {
		p.number(at, column, plannedMoney(visit, column), top(asMoney))
	}
	p.text(at, 11, visit.BookBy, text)
	p.text(at, 12, visit.LastDay, text)
	p.number(at, 13, quantity.Shown(quantity.DimMass, visit.Load, b.system), top(asCount))
	p.number(at, 14, visit.People+visit.Helpers, top(asCount))
	p.text(at, 15, bring, wrapped)
	p.high(at, max(wrappedLines(p, jobs, 3), wrappedLines(p, visit.Bring, 14)))
}

// wrappedLines is how many lines some paragraphs take in a column, counted from 0.
func wrappedLines(p page, paragraphs []string, column int) int {
	lines := 0
	for _, words := range paragraphs {
		lines += max(1, p.lines(words, column))
	}
	return lines
}
