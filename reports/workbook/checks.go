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

// edited is the defined name of the number of edited inputs. It is claimed
// before any other, so that it is the same in every workbook.
const edited = "inputs_edited"

// Places that other sheets point to.
const (
	editedRow  = 3
	checkHolds = 5
)

// stamp tells, beside what the program solved, whether it still belongs to the
// inputs.
func (b *book) stamp(p page, row, col int) {
	p.calc(row, col, fmt.Sprintf(`IF(%[1]s=0,"%[2]s","stale: "&%[1]s&IF(%[1]s=1," input"," inputs")&" edited; solve again")`, edited, stampCurrent), stampCurrent, grid.Style{Bold: true, FontColor: moss})
	p.Conditions = append(p.Conditions, grid.Condition{Range: cell(row, col), Formula: edited + ">0", Style: grid.Style{Fill: "F4D9CE", FontColor: rust, Bold: true}})
}

const stampCurrent = "current: solved for these inputs"

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

// checkSheet lists the checks and says whether all of them hold. It also counts
// the inputs that were edited since the program solved for them.
// checkNumbers: an input that was emptied counts as nothing in a formula, and a
// number typed as a text, such as 0,5 where a point is wanted, as an error.
func (b *book) checkNumbers() {
	numbersIn := func(column int) string {
		return "COUNT(" + grid.RangeRef(sheetInputs, 4, column, b.lastInput, column) + ")"
	}
	b.check("inputs that hold a number, now and when the program solved", numbersIn(inputValue), b.numericInputs, numbersIn(inputWas), b.numericInputs)
}

func (b *book) checkSheet(s *grid.Sheet) {
	b.checkNumbers()
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
		p.calc(at, 5, fmt.Sprintf("IFERROR(IF(ABS(%s)<=%g,1,0),0)", cell(at, 4), agree), flag(check.holds()), numbers(asFlag))
	}
	last := 4 + len(b.checks)
	p.text(2, 1, "all of them hold", section)
	p.text(editedRow, 1, "inputs that differ from those that the program solved for", section)
	p.calc(editedRow, checkHolds, fmt.Sprintf("SUMPRODUCT((%s<>%s)*1)", grid.RangeRef(sheetInputs, 4, inputValue, b.lastInput, inputValue),
		grid.RangeRef(sheetInputs, 4, inputWas, b.lastInput, inputWas)), 0.0, grid.Style{Bold: true, NumberFormat: "0"})
	p.calc(2, checkHolds, "MIN("+span(5, 5, last, 5)+")", flag(b.allHold()), grid.Style{Bold: true, NumberFormat: asFlag})
	b.places["all_checks_hold"] = grid.SheetRef(sheetChecks, 2, checkHolds)
	s.Conditions = append(s.Conditions,
		grid.Condition{Range: span(5, 1, last, 5), Formula: "$E5=0", Style: grid.Style{Fill: "F4D9CE", FontColor: rust, Bold: true}},
	)
}
