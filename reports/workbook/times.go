package workbook

import (
	"fmt"
	"strings"

	"shopstint/capital/decision"
	"shopstint/capital/decision/alternative"
	"shopstint/model/work"
	"shopstint/reports/workbook/grid"
)

// Columns of the job-times sheet.
const (
	timeJob = iota + 1
	timeOperation
	timePiece
	timeGrit
	timeWhere
	timeMachine
	timeRepeat
	timeMass
	timeFits
	timeUsed
	timeDepth
	timePasses
	timeRun
	timePerJob
	timePerVisit
	timeMinutes
	timeMetres
	timeArea
	timeWear
	timeWears // what it wears, and on which machine: as the years on the sheet of wear are found
	timeYear  // m or m² a year
	timePlain // the same in plain hardwood
	timeHours // hours a year of cutting or rubbing
	timeKept  // first of the columns that say what is kept beside each candidate
)

// firstTime is the row of the first of the job times.
const firstTime = 4

// timesPlaces says where the plan's rows stand.
type timesPlaces struct{ first int }

// row is the sheet row of a plan row.
func (t timesPlaces) row(plan int) int { return t.first + plan }

// column is the range of one column over a job type's rows, seen from another sheet.
func (b *book) timeColumn(job, column int) string {
	rows := b.answer.Plan.Jobs[job]
	return grid.RangeRef(sheetTimes, b.times.row(rows.First), column, b.times.row(rows.End)-1, column)
}

// kept is the column that says which rows are at work in an alternative: the
// rented one, or owning one machine.
func keptColumn(alternative int) int {
	if alternative < 0 {
		return timeUsed
	}
	return timeKept + alternative
}

var places = [...]string{work.AtShop: "shop", work.AtBench: "bench", work.AtStudio: "own"}

// jobTimes lays out every step on every machine that could do it. Twin of package work.
func (b *book) jobTimes(s *grid.Sheet) {
	p := page{s}
	s.Columns = []float64{26, 14, 10, 7, 8, 15, 9, 9, 7, 9, 9, 8, 9, 9, 9, 10, 9, 9, 9, 30, 9, 9, 9}
	s.Freeze, s.Protected, s.TabColor = "B4", true, sky
	s.Print = grid.Print{Landscape: true, FitWide: 1, TitleRows: 3, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Job times from geometry", title)
	p.text(2, 1, "One line for each step on each machine that could do it. Minutes are for all pieces of one job; set-up that a visit pays once stands apart.", lead)
	titles := []string{"job type", "operation", "piece", "grit", "where", "machine", "repeated at rework", "mass of a piece kg", "fits",
		"used when renting", "depth a pass mm", "passes", "running min", "set-up a job min", "set-up a visit min", "minutes a job", "metres run", "m² passed", "edge and abrasive", "wears", "m or m² a year", "the same in plain hardwood", "hours a year of cutting or rubbing"}
	for m := range b.study.Machines {
		titles = append(titles, "kept beside "+b.study.Machines[m].Key)
		s.Columns = append(s.Columns, 11)
	}
	p.headers(3, titles...)
	for i := range b.answer.Plan.Rows {
		b.timeRow(p, i)
	}
	end := b.times.row(len(b.answer.Plan.Rows)) - 1
	s.Conditions = append(s.Conditions, grid.Condition{
		Range: span(b.times.first, 1, end, timeWear), Formula: fmt.Sprintf("$%s%d=0", grid.ColumnName(timeFits), b.times.first),
		Style: grid.Style{FontColor: rust, Italic: true},
	})
}

func (b *book) timeRow(p page, index int) {
	row, at := &b.answer.Plan.Rows[index], b.times.row(index)
	f := b.timeFormulas(index)
	kind, operation, piece, material := row.Parts(b.study)
	machine := decision.RowMachinePath(b.study, row)
	p.text(at, timeJob, kind.Name, plain)
	p.text(at, timeOperation, operation.Key, plain)
	p.text(at, timePiece, piece.Key, plain)
	if row.Grit >= 0 {
		p.text(at, timeGrit, operation.Grits[row.Grit].Key, plain)
	}
	p.text(at, timeWhere, places[row.Site], plain)
	p.text(at, timeMachine, machine[strings.LastIndexByte(machine, '.')+1:], plain)
	p.number(at, timeRepeat, flag(operation.Repeat), numbers(asFlag))
	p.calc(at, timeMass, f.mass(), float64(work.PieceMass(piece, material)), numbers(asNumber))
	p.calc(at, timeFits, f.fits(), flag(row.Fit.OK()), numbers(asFlag))
	b.timeUse(p, index)
	f.reckoned(p, at, row)
	minutes := cell(at, timeRun) + "+" + cell(at, timePerJob)
	p.calc(at, timeMinutes, minutes, row.Minutes().Minutes(), numbers(asNumber))
	p.calc(at, timeWear, f.wear(), row.Wear, numbers(asMoney))
	f.yearly(p)
}

// timeUse writes whether a row does its step: the first rented or own way that
// takes the piece, unless an owned candidate takes it.
func (b *book) timeUse(p page, index int) {
	rows, row, at := b.answer.Plan.Rows, &b.answer.Plan.Rows[index], b.times.row(index)
	if row.Site == work.AtStudio {
		return
	}
	first := index
	for first > 0 && rows[first-1].Step == row.Step && rows[first-1].Site != work.AtStudio {
		first--
	}
	formula := cell(at, timeFits)
	if first < index {
		formula = fmt.Sprintf("IF(AND(%s=1,SUM(%s)=0),1,0)", cell(at, timeFits), span(b.times.row(first), timeFits, at-1, timeFits))
	}
	p.calc(at, timeUsed, formula, flag(row.Used), numbers(asFlag))
	candidates := map[int]int{}
	for i := first - 1; i >= 0 && rows[i].Step == row.Step; i-- {
		candidates[rows[i].Machine] = i
	}
	for m := range b.study.Machines {
		if !b.affected(m, row.Job) {
			continue
		}
		formula, kept := cell(at, timeUsed), row.Used
		if i, ok := candidates[m]; ok {
			formula += "*(1-" + cell(b.times.row(i), timeFits) + ")"
			kept = kept && !rows[i].Fit.OK()
		}
		p.calc(at, timeKept+m, formula, flag(kept), numbers(asFlag))
	}
}

// affected tells whether owning machine m can change what a job type rents.
func (b *book) affected(m, job int) bool { return b.reach[m][job] }

// reaches is affected for every machine and job type.
func reaches(answer *decision.Answer) [][]bool {
	study := answer.Study
	table := make([][]bool, len(study.Machines))
	for m := range table {
		owned := make([]bool, len(study.Machines))
		owned[m] = true
		table[m] = make([]bool, len(study.JobTypes))
		for job := range table[m] {
			table[m][job] = alternative.Reaches(study, answer.Plan, owned, job)
		}
	}
	return table
}
