package workbook

import (
	"fmt"

	"shopstint/reports/workbook/grid"
)

// invoice shows one visit as a bill: what the shop charges, line by line, and
// apart from it what the visit costs the owner. The visit is chosen by number.
func (b *book) invoice(s *grid.Sheet) {
	p, v := page{s}, &b.visits
	s.Columns = []float64{34, 30, 44}
	s.Protected, s.TabColor = true, sky
	s.Print = grid.Print{FitWide: 1, FitTall: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "One visit as a bill", title)
	p.text(2, 1, "Choose a visit by its number: the lines of the visits sheet count from 1.", lead)
	p.text(4, 1, "visit number", plain)
	if len(v.rows) == 0 {
		p.text(4, 2, "no visits in this study", faint)
		return
	}
	p.number(4, 2, 1, editable)
	least, most := 1.0, float64(len(v.rows))
	s.Validations = append(s.Validations, grid.Validation{Range: "B4", Min: &least, Max: &most, Title: "visit number", Message: fmt.Sprintf("a whole number from 1 to %d", len(v.rows))})
	first := v.rows[0]
	kind := "with " + fmt.Sprint(first.aboard)
	if first.rework {
		kind = "rework"
	}
	for i, line := range [...]struct {
		label  string
		column int
		value  string
	}{
		{"alternative", visitAlternative, b.alternativeName(first.alternative)},
		{"job type", visitJob, b.study.JobTypes[first.job].Name},
		{"visit", visitKind, kind},
	} {
		p.text(5+i, 1, line.label, plain)
		p.calc(5+i, 2, b.chosen(line.column), line.value, plain)
	}
	b.billLines(p, 9)
}

// chosen is a column of the visits sheet at the chosen visit.
func (b *book) chosen(column int) string {
	v := &b.visits
	return fmt.Sprintf("INDEX(%s,$B$4)", grid.RangeRef(sheetVisits, v.first, column, v.first+len(v.rows)-1, column))
}

// billLine is one line of the bill: a column of the visits sheet, or a heading.
type billLine struct {
	label  string
	column int // behind the machines; -1 for a heading
	note   string
	bold   bool
}

var billLines = [...]billLine{
	{"what the shop bills", -1, "", true},
	{"minutes on the shop's clock", visitBilled, "set-up, grit changes, running, handling, cleaning", false},
	{"minutes paid by the block", visitPaid, "after the minimum block and increments", false},
	{"machine time", visitTime, "the cheapest of block, half day and day", false},
	{"member's reduction", visitMember, "", false},
	{"operator", visitOperator, "", false},
	{"after-hours supplement", visitAfter, "", false},
	{"resin supplement", visitResin, "", false},
	{"belt and knife surcharge", visitWear, "", false},
	{"handling charge", visitHandling, "", false},
	{"sales tax", visitTax, "", false},
	{"the shop's invoice", visitShop, "", true},
	{"what the visit costs you beside it", -1, "", true},
	{"vehicle", visitVehicle, "", false},
	{"tolls", visitTolls, "", false},
	{"damage allowance", visitDamage, "expected, not billed", false},
	{"own minutes: drive, wait, load, machine", visitOwnTime, "all own people who come along", false},
	{"own time", visitOwn, "unpaid hours at what they would earn", false},
	{"hired helpers", visitHelpers, "", false},
	{"the whole visit", visitTotal, "", true},
}

func (b *book) billLines(p page, at int) {
	visit := b.visits.rows[0].visit
	values := map[int]float64{
		visitBilled: visit.Billed.Minutes(), visitPaid: visit.Paid.Minutes(), visitTime: visit.MachineTime, visitMember: visit.Member,
		visitOperator: visit.Operator, visitAfter: visit.AfterHours, visitResin: visit.Resin, visitWear: visit.Wear, visitHandling: visit.Handling,
		visitTax: visit.Tax, visitShop: visit.Shop, visitVehicle: visit.Vehicle, visitTolls: visit.Tolls, visitDamage: visit.Damage,
		visitOwnTime: visit.OwnTime.Minutes(), visitOwn: visit.OwnCost, visitHelpers: visit.HelperCost, visitTotal: visit.Total,
	}
	for i, line := range billLines {
		if line.column < 0 {
			p.band(at+i, 3, line.label)
			continue
		}
		style := visitStyle(line.column)
		if line.bold {
			style = total(asMoney)
		}
		p.text(at+i, 1, line.label, grid.Style{Bold: line.bold})
		p.calc(at+i, 2, b.chosen(b.visits.column(line.column)), values[line.column], style)
		p.text(at+i, 3, line.note, faint)
	}
}
