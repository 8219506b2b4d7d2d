package workbook

import (
	"fmt"
	"math"

	"shopstint/capital"
	"shopstint/model/money"
	"shopstint/rental"
	"shopstint/reports/workbook/grid"
)

// check is one line of the checks sheet: two figures that must agree, or a
// figure that must be zero.
type check struct {
	what, left, right string
	leftValue         float64
	rightValue        float64
}

// difference leaves out what two ways of adding up differ by.
func (c check) difference() float64 {
	return math.Round((c.leftValue-c.rightValue)*1e6) / 1e6
}

func (c check) holds() bool { return math.Abs(c.difference()) <= agree }

func (b *book) allHold() bool {
	for _, check := range b.checks {
		if !check.holds() {
			return false
		}
	}
	return true
}

// agree is the difference up to which two figures of a check agree.
const agree = 0.005

func (b *book) check(what, left string, leftValue float64, right string, rightValue float64) {
	b.checks = append(b.checks, check{what, left, right, leftValue, rightValue})
}

// checkVisits asks that invoice lines add up and that every step has a machine.
func (b *book) checkVisits() {
	v := &b.visits
	if len(v.rows) > 0 {
		last := v.first + len(v.rows) - 1
		column := func(after int) string {
			return grid.RangeRef(sheetVisits, v.first, v.column(after), last, v.column(after))
		}
		lines, total := 0.0, 0.0
		for i := range v.rows {
			lines += b.billed(v.rows[i].visit)
			total += v.rows[i].visit.Shop
		}
		b.check("invoice lines of all visits add up to the invoices", "SUM("+grid.RangeRef(sheetVisits, v.first, v.column(visitTime), last, v.column(visitTax))+")", lines, "SUM("+column(visitShop)+")", total)
	}
	used := 0.0
	for i := range b.answer.Plan.Rows {
		used += flag(b.answer.Plan.Rows[i].Used)
	}
	rows := len(b.answer.Plan.Rows)
	b.check("every step of the work has a rented or own machine that takes it", "SUM("+grid.RangeRef(sheetTimes, b.times.first, timeUsed, b.times.row(rows)-1, timeUsed)+")", used,
		fmt.Sprint(b.answer.Plan.Steps), float64(b.answer.Plan.Steps))
}

// billed is the total of the decimal invoice of a visit.
func (b *book) billed(visit *rental.Visit) float64 {
	invoice, err := rental.Bill(*visit, b.study.Money)
	if err != nil {
		b.faults = append(b.faults, err)
	}
	return money.Float(invoice.Total)
}

// checkMachine asks that a machine's years, its terms and its curve agree.
func (b *book) checkMachine(m int) {
	result, o, c := &b.answer.Machines[m], &b.own[m], &b.curves[m]
	key := b.study.Machines[m].Key
	present := func(line capital.Line) string { return grid.SheetRef(sheetOwning, o.rows[lineOf(line)], 2) }
	b.check(key+": present cost by year is that of the lines", o.fact(factOwning), result.Owning, present(capital.Net), result.Owning)
	plan := grid.SheetRef(sheetBreakEven, c.row(curveSteps/2), curveSaved)
	b.check(key+": what it saves by year is what the visits say", o.fact(factSaved), result.Saved, plan, result.Curve.Saving(1))
	book := grid.RangeRef(sheetOwning, o.rows[lineOf(capital.Book)], yearColumn+1, o.rows[lineOf(capital.Book)], yearColumn+int(b.study.Studio.Horizon))
	b.check(key+": tax book value never falls below nothing", fmt.Sprintf("MIN(0,ROUND(MIN(%s),6))", book), 0, "0", 0)
}

// checkCarried asks that the visits of renting everything carry every job.
func (b *book) checkCarried() {
	v := &b.visits
	last, carried, jobs := v.first-1, 0.0, 0.0
	for i, row := range v.rows {
		if row.alternative != rented {
			break
		}
		last = v.first + i
		if !row.rework {
			carried += float64(row.aboard) * row.count
		}
	}
	for i := range b.study.JobTypes {
		jobs += float64(b.study.JobTypes[i].PerYear)
	}
	column := func(column int) string { return grid.RangeRef(sheetVisits, v.first, column, last, column) }
	b.check("the visits of a year carry every job of the year", fmt.Sprintf("SUMPRODUCT((%s<>\"rework\")*%s*%s)", column(visitKind), column(visitAboard), column(visitCount)), carried,
		"SUM("+b.rent.jobColumn(rentPerYear)+")", jobs)
}

// checkSheet lists the checks and says whether all of them hold. Below, it
// tells whether the live answer still is the one that the program solved.
func (b *book) checkSheet(s *grid.Sheet) {
	for m := range b.answer.Machines {
		b.checkMachine(m)
	}
	b.checkCarried()
	p := page{s}
	s.Columns = []float64{70, 18, 18, 14, 10}
	s.Freeze, s.Protected, s.TabColor = "A5", true, grey
	s.Print = grid.Print{Landscape: true, FitWide: 1, TitleRows: 4, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Checks", title)
	p.headers(4, "what must agree", "one way", "the other way", "difference", "holds")
	for i, check := range b.checks {
		at := 5 + i
		p.text(at, 1, check.what, plain)
		p.calc(at, 2, check.left, check.leftValue, numbers(asMoney))
		p.calc(at, 3, check.right, check.rightValue, numbers(asMoney))
		p.calc(at, 4, fmt.Sprintf("ROUND(%s-%s,6)", cell(at, 2), cell(at, 3)), check.difference(), numbers(asMoney))
		p.calc(at, 5, fmt.Sprintf("IF(ABS(%s)<=%g,1,0)", cell(at, 4), agree), flag(check.holds()), numbers(asFlag))
	}
	last := 4 + len(b.checks)
	p.text(2, 1, "all of them hold", section)
	p.calc(2, 5, "MIN("+span(5, 5, last, 5)+")", flag(b.allHold()), grid.Style{Bold: true, NumberFormat: asFlag})
	b.places["all_checks_hold"] = grid.SheetRef(sheetChecks, 2, 5)
	s.Conditions = append(s.Conditions,
		grid.Condition{Range: span(5, 1, last, 5), Formula: "$E5=0", Style: grid.Style{Fill: "F4D9CE", FontColor: rust, Bold: true}},
	)
	b.solvedCheck(p, last+2)
}

// solvedCheck compares each live difference with the one that the program
// solved for: once an input is edited, what was solved belongs to other inputs.
func (b *book) solvedCheck(p page, at int) {
	p.headers(at, "is the answer still the one that the program solved?", "live", "as solved", "difference", "same")
	for m := range b.answer.Machines {
		row, result := at+1+m, &b.answer.Machines[m]
		p.text(row, 1, b.study.Machines[m].Key, plain)
		p.calc(row, 2, b.own[m].fact(factDifference), result.Difference, numbers(asMoney))
		p.number(row, 3, result.Difference, numbers(asMoney))
		p.calc(row, 4, fmt.Sprintf("ROUND(%s-%s,6)", cell(row, 2), cell(row, 3)), 0.0, numbers(asMoney))
		p.calc(row, 5, fmt.Sprintf("IF(ABS(%s)<=%g,1,0)", cell(row, 4), agree), 1.0, numbers(asFlag))
	}
	last := at + len(b.answer.Machines)
	b.places["still_as_solved"] = grid.SheetRef(sheetChecks, last+1, 5)
	p.text(last+1, 1, "all the same", section)
	p.calc(last+1, 5, "MIN("+span(at+1, 5, last, 5)+")", 1.0, grid.Style{Bold: true, NumberFormat: asFlag})
}
