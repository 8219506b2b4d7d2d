package workbook

import (
	"fmt"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/single"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/reports/workbook/grid"
)

// curveSteps is how many steps the curve is drawn in, up to twice the plan.
const (
	curveSteps = 24
	curveMost  = 2.0
)

// The chart stands beside the tables, above the curve.
const (
	chartHeight = 400
	pixelsARow  = 20
)

// Columns of the curve; three more follow for each job type that shares visits.
const (
	curveScale = iota + 1
	curveJobs
	curveHours
	curveSaved
	curveOwning
	curveSavedYear
	curveOwningYear
	curveDifference
	curveCrossing
	curveStairs // first of full visits, jobs on the last, saved
)

// Columns of the parts table.
const (
	partJob = iota + 1
	partPerYear
	partBatch
	partPerJob
	partNone // saved with nobody aboard: nothing
	partSaved
)

// curvePlaces says where one machine's block stands on the break-even sheet.
type curvePlaces struct {
	at, parts, terms, solved, first int
	jobs                            []int // job types the machine can change
	stairs                          []int // those of them that share visits
}

func (c *curvePlaces) row(step int) int { return c.first + step }

// Rows of the terms table.
const (
	termFloor = iota
	termFixed
	termWork
	termUpkeep
	termAnnual
	termStraight
	termCount
)

// breakEven draws, for each machine, what is saved and what owning costs as
// the work is scaled. Twin of single.Curve.
func (b *book) breakEven(s *grid.Sheet) {
	p := page{s}
	s.Columns = []float64{40, 12, 12, 14, 14, 14, 14, 14, 14, 12, 12, 14, 12, 12, 14}
	s.Protected, s.TabColor = true, rust
	s.Print = grid.Print{Landscape: true, FitWide: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Break-even", title)
	p.text(2, 1, "The whole mix of work is scaled; block rounding makes a staircase that may cross more than once. Tax depreciation, resale and memberships stay as planned.", lead)
	b.stamp(p, 1, 4)
	at := 4
	for m := range b.answer.Machines {
		c := b.placeCurve(m, at)
		b.curves = append(b.curves, c)
		if m > 0 {
			s.Print.Breaks = append(s.Print.Breaks, at)
		}
		b.curveBlock(p, m)
		at = c.row(curveSteps) + mostMarks + 3
	}
}

func (b *book) placeCurve(m, at int) curvePlaces {
	c := curvePlaces{at: at, parts: at + 2}
	for job := range b.study.JobTypes {
		if !b.affected(m, job) {
			continue
		}
		c.jobs = append(c.jobs, job)
		if b.study.JobTypes[job].JobsPerVisit > 1 {
			c.stairs = append(c.stairs, job)
		}
	}
	c.terms = c.parts + len(c.jobs) + 1
	c.solved = c.terms + termCount + 2
	c.first = max(c.solved+len(b.answer.Machines[m].BreakEvens)+2, at+chartHeight/pixelsARow+3)
	return c
}

func (b *book) curveBlock(p page, m int) {
	c, machine := &b.curves[m], &b.study.Machines[m]
	p.band(c.at, curveStairs-1, fmt.Sprintf("%s (%s)", machine.Name, machine.Key))
	b.parts(p, m)
	b.terms(p, m)
	b.solvedTable(p, m)
	b.curveTable(p, m)
	b.curveChart(p, m)
}

// parts lists what each job type saves: by jobs aboard a visit, and on every job.
func (b *book) parts(p page, m int) {
	c, curve := &b.curves[m], &b.answer.Machines[m].Curve
	titles := []string{"present worth saved by job type", "jobs a year", "jobs a visit", "on every job", "nobody aboard"}
	most := 1
	for _, job := range c.jobs {
		most = max(most, int(b.study.JobTypes[job].JobsPerVisit))
	}
	for k := range most {
		titles = append(titles, fmt.Sprintf("a visit with %d", k+1))
	}
	p.headers(c.parts-1, titles...)
	for i, job := range c.jobs {
		b.partRow(p, m, c.parts+i, &curve.Jobs[job])
	}
}

func (b *book) partRow(p page, m, at int, part *single.JobCurve) {
	job, r, v := part.Job, &b.rent, &b.visits
	money := numbers(asMoney0)
	p.text(at, partJob, b.study.JobTypes[job].Name, plain)
	p.calc(at, partPerYear, r.job(job, rentPerYear), part.PerYear, numbers(asNumber))
	p.calc(at, partBatch, r.job(job, rentBatch), float64(len(part.Saved)-1), numbers(asCount))
	p.number(at, partNone, 0, money)
	before, end := v.block(rented, job)
	after, _ := v.block(m, job)
	saved := func(row int) string {
		column := v.column(visitPresent)
		return grid.SheetRef(sheetVisits, before+row, column) + "-" + grid.SheetRef(sheetVisits, after+row, column)
	}
	batch := len(part.Saved) - 1
	for k := range batch {
		p.calc(at, partSaved+k, saved(k), part.Saved[k+1], money)
	}
	var terms []string
	if end == before+batch { // the rework visit stands behind the others
		kind := "job_types." + b.study.JobTypes[job].Key + "."
		terms = append(terms, fmt.Sprintf("%s*%s*(%s)", b.in(kind+"rework_chance"), b.in(kind+"rework_visits"), saved(batch)))
	}
	bench := func(column int) string {
		return "(" + grid.SheetRef(sheetRenting, r.yearlyRow(rented, job), column) + "-" + grid.SheetRef(sheetRenting, r.yearlyRow(m, job), column) + ")"
	}
	terms = append(terms, fmt.Sprintf("IF(%[1]s>0,(%[2]s*%[3]s+%[4]s*%[5]s)/%[1]s,0)", cell(at, partPerYear),
		bench(yearlyBenchLabour), r.job(job, rentFactorLabour), bench(yearlyBenchWear), r.job(job, rentFactorWear)))
	p.calc(at, partPerJob, sum(terms), part.PerJob, money)
}

// terms are what the curve is made of beside the visits.
func (b *book) terms(p page, m int) {
	c, o, result := &b.curves[m], &b.own[m], &b.answer.Machines[m]
	curve := &result.Curve
	present := func(line capital.Line) string {
		return grid.SheetRef(sheetOwning, o.rows[lineOf(line)], 2)
	}
	here := func(term int) string { return cell(c.terms+term, 4) }
	keep := "(1-" + b.in("studio.tax_rate") + ")"
	rate, years := b.in("studio.discount_rate"), b.in("studio.horizon")
	fees := func(column int) string {
		return "(" + b.rent.alternative(rented, column) + "-" + b.rent.alternative(m, column) + ")"
	}
	annual := 1.0
	for i, term := range [termCount]struct {
		label, formula string
		value          float64
	}{
		termFloor: {"saved whatever the work: fees and inductions", fmt.Sprintf("%s*%s+%s*%s/(1+%s)", fees(alternativeFee), b.presentFactor("0", b.in("growth.rental")),
			fees(alternativeInduction), keep, rate), curve.Floor},
		termFixed: {"owning, whatever the work", fmt.Sprintf("%s-%s-%s", o.fact(factOwning), here(termWork), here(termUpkeep)), curve.Fixed},
		termWork: {"owning, in proportion to the work", fmt.Sprintf("%s*(%s+%s+%s+%s+%s)", keep, present(capital.Energy), present(capital.Wear),
			present(capital.OwnTime), present(capital.Care), present(capital.Learning)), curve.Work},
		termUpkeep:   {"upkeep as planned", keep + "*" + present(capital.Upkeep), curve.Upkeep(1)},
		termAnnual:   {"a present amount as an equal amount each year, times", fmt.Sprintf("IF(%[1]s=0,1/%[2]s,%[1]s/(1-(1+%[1]s)^-%[2]s))", rate, years), b.annual(annual)},
		termStraight: {"saved in proportion to the work", b.straight(m), b.straightValue(m)},
	} {
		p.text(c.terms+i, 1, term.label, plain)
		style := numbers(asMoney0)
		if i == termAnnual {
			style = numbers(asFactor)
		}
		p.calc(c.terms+i, 4, term.formula, term.value, style)
	}
}

// straight is what job types save in proportion to their number: all of it
// where each job has its own visit, else only what every job saves.
func (b *book) straight(m int) string {
	c := &b.curves[m]
	var terms []string
	for i, job := range c.jobs {
		at := c.parts + i
		each := cell(at, partPerJob)
		if b.study.JobTypes[job].JobsPerVisit == 1 {
			each += "+" + cell(at, partSaved)
		}
		terms = append(terms, fmt.Sprintf("%s*(%s)", cell(at, partPerYear), each))
	}
	return sum(terms)
}

func (b *book) straightValue(m int) float64 {
	total := 0.0
	for _, job := range b.curves[m].jobs {
		part := &b.answer.Machines[m].Curve.Jobs[job]
		total += part.PerYear * part.PerJob
		if len(part.Saved) == 2 {
			total += part.PerYear * part.Saved[1]
		}
	}
	return total
}

// solvedTable lists every crossing that the program found.
func (b *book) solvedTable(p page, m int) {
	c := &b.curves[m]
	p.headers(c.solved-1, "solved for the inputs as given: the answer changes at", "now", "unit", "crossing", "crossing", "crossing", "crossing", "looked from", "to")
	for i, found := range b.answer.Machines[m].BreakEvens {
		at := c.solved + i
		unit := quantity.Display(found.Dimension, b.system)
		show := func(si float64) float64 { return quantity.Shown(found.Dimension, si, b.system) }
		symbol := unit.Symbol
		if found.In == single.InHours {
			show, symbol = func(si float64) float64 { return si / 3600 }, "h"
		}
		p.text(at, 1, found.In, plain)
		p.number(at, 2, show(found.Now), numbers(asNumber))
		p.text(at, 3, symbol, plain)
		if len(found.Crossings) == 0 {
			p.text(at, 4, "none", faint)
		}
		for k, crossing := range found.Crossings {
			if k == 3 && len(found.Crossings) > 4 {
				p.text(at, 4+k, fmt.Sprintf("and %d more", len(found.Crossings)-3), faint)
				break
			}
			p.number(at, 4+k, show(crossing), grid.Style{NumberFormat: asNumber, Bold: true})
		}
		p.number(at, 8, show(found.From), memo(asNumber))
		p.number(at, 9, show(found.To), memo(asNumber))
	}
}

// curveTable is the curve itself, a line a step.
func (b *book) curveTable(p page, m int) {
	c := &b.curves[m]
	titles := []string{"work against the plan", "jobs a year", "running hours", "saved, present", "owning, present", "saved a year", "owning a year", "saved less owning", "crosses at jobs"}
	for _, job := range c.stairs {
		key := b.study.JobTypes[job].Key
		titles = append(titles, key+": full visits", key+": jobs on the last", key+": saved")
	}
	p.headers(c.first-1, titles...)
	for step := range curveSteps + 1 {
		b.curveRow(p, m, step)
	}
}

func (b *book) scaleOf(step int) float64 { return curveMost * float64(step) / curveSteps }

func (b *book) curveRow(p page, m, step int) {
	c, result := &b.curves[m], &b.answer.Machines[m]
	at, scale, curve := c.row(step), b.scaleOf(step), &result.Curve
	here := func(column int) string { return cell(at, column) }
	term := func(term int) string { return grid.Ref(c.terms+term, 4) }
	put := func(column int, formula string, value float64, format string) {
		p.calc(at, column, formula, value, numbers(format))
	}
	p.number(at, curveScale, scale, numbers("0.000"))
	put(curveJobs, here(curveScale)+"*"+b.own[m].fact(factJobs), scale*result.Jobs, asNumber)
	put(curveHours, here(curveScale)+"*"+b.own[m].fact(factHours), scale*result.Owner.Profile.Hours[0], asNumber)
	saved := fmt.Sprintf("%s+%s*%s", term(termFloor), here(curveScale), term(termStraight))
	for i, job := range c.stairs {
		column := curveStairs + 3*i
		saved += "+" + here(column+2)
		b.stair(p, m, at, column, job, scale)
	}
	put(curveSaved, saved, curve.Saving(scale), asMoney0)
	owning := fmt.Sprintf("%s+%s*%s+%s", term(termFixed), here(curveScale), term(termWork), b.scaledUpkeep(m, here(curveScale)))
	accumulated := b.study.Machines[m].Upkeep == model.UpkeepAccumulated // over all years at once
	p.Set(at, curveOwning, grid.Cell{Formula: owning, Array: accumulated, Value: curve.Owning(scale), Style: numbers(asMoney0)})
	put(curveSavedYear, here(curveSaved)+"*"+term(termAnnual), b.annual(curve.Saving(scale)), asMoney0)
	put(curveOwningYear, here(curveOwning)+"*"+term(termAnnual), b.annual(curve.Owning(scale)), asMoney0)
	put(curveDifference, here(curveSavedYear)+"-"+here(curveOwningYear), b.annual(curve.Difference(scale)), asMoney0)
	if step > 0 {
		before := func(column int) string { return cell(at-1, column) }
		formula := fmt.Sprintf(`IF(%[1]s*%[2]s<0,%[3]s-%[1]s*(%[4]s-%[3]s)/(%[2]s-%[1]s),"")`, before(curveDifference), here(curveDifference), before(curveJobs), here(curveJobs))
		p.calc(at, curveCrossing, formula, b.crossingValue(m, step), numbers(asNumber))
	}
}

// crossingValue reads the crossing within one step off the straight line between its ends.
func (b *book) crossingValue(m, step int) any {
	result := &b.answer.Machines[m]
	x0, x1 := b.scaleOf(step-1)*result.Jobs, b.scaleOf(step)*result.Jobs
	d0, d1 := b.annual(result.Curve.Difference(b.scaleOf(step-1))), b.annual(result.Curve.Difference(b.scaleOf(step)))
	if d0*d1 >= 0 {
		return ""
	}
	return x0 - d0*(x1-x0)/(d1-d0)
}

func (b *book) annual(present float64) float64 {
	return timevalue.EquivalentAnnual(float64(b.study.Studio.DiscountRate), float64(b.study.Studio.Horizon), present)
}

// stair is the twin of single.JobCurve.At for a job type that shares visits.
func (b *book) stair(p page, m, at, column, job int, scale float64) {
	c := &b.curves[m]
	part := &b.answer.Machines[m].Curve.Jobs[job]
	row := c.parts
	for i, listed := range c.jobs {
		if listed == job {
			row += i
		}
	}
	batch := len(part.Saved) - 1
	jobs := cell(at, curveScale) + "*" + cell(row, partPerYear)
	full, aboard, share := alternative.Fill(scale*part.PerYear, batch)
	p.calc(at, column, fmt.Sprintf("INT(ROUND(%s/%s,6))", jobs, cell(row, partBatch)), full, numbers(asCount))
	rest := cell(at, column+1)
	p.calc(at, column+1, fmt.Sprintf("MAX(0,%s-%s*%s)", jobs, cell(at, column), cell(row, partBatch)), float64(aboard)+share, numbers(asFine))
	all := span(row, partNone, row, partSaved+batch-1)
	last := fmt.Sprintf("INT(ROUND(%s,6))", rest)
	more := fmt.Sprintf("MAX(0,%s-%s)", rest, last)
	formula := fmt.Sprintf("%s*%s+(1-%[3]s)*INDEX(%[4]s,1,%[5]s+1)+%[3]s*INDEX(%[4]s,1,%[5]s+2)", cell(at, column), cell(row, partSaved+batch-1), more, all, last)
	value := part.At(scale*part.PerYear) - scale*part.PerYear*part.PerJob
	p.calc(at, column+2, formula, value, numbers(asMoney0))
}

// scaledUpkeep is the twin of single.Curve.Upkeep.
func (b *book) scaledUpkeep(m int, scale string) string {
	machine, c := &b.study.Machines[m], &b.curves[m]
	if machine.Upkeep != model.UpkeepAccumulated {
		return cell(c.terms+termUpkeep, 4)
	}
	o := &b.own[m]
	of := func(key string) string { return b.in("machines." + machine.Key + "." + key) }
	years := func(line ownLine) string {
		return grid.RangeRef(sheetOwning, o.rows[line], yearColumn+1, o.rows[line], yearColumn+int(b.study.Studio.Horizon))
	}
	after := fmt.Sprintf("(%[1]s+%[2]s*(%[3]s-%[1]s))", of("hours"), scale, years(lineHoursSoFar))
	before := fmt.Sprintf("(%[1]s+%[2]s*ABS(%[3]s-%[1]s-%[4]s))", of("hours"), scale, years(lineHoursSoFar), years(lineOf(capital.Running)))
	grown := fmt.Sprintf("(1+%s)^(%s-1)", b.in("growth.upkeep"), b.in("years"))
	return fmt.Sprintf("(1-%s)*%s*%s*SUMPRODUCT((%s/1000)^%[5]s-(%[6]s/1000)^%[5]s,%[7]s,%[8]s)", b.in("studio.tax_rate"), of("new_price"), of("repair_factor"),
		after, of("repair_power"), before, grown, years(lineOf(capital.Discount)))
}

// mostMarks is how many crossings the chart has room for.
const mostMarks = 6

// marks writes, below the curve, the solved crossings that the chart can show
// and returns how many there are.
func (b *book) marks(p page, m int) int {
	c, result := &b.curves[m], &b.answer.Machines[m]
	at := c.row(curveSteps) + 1
	count := 0
	for _, jobs := range result.BreakEvens[0].Crossings {
		scale := jobs / result.Jobs
		if scale > curveMost || count == mostMarks {
			break
		}
		p.text(at+count, curveScale, "mark on the chart, solved", faint)
		p.number(at+count, curveJobs, jobs, memo(asNumber))
		p.number(at+count, curveOwningYear, b.annual(result.Curve.Owning(scale)), memo(asMoney0))
		count++
	}
	return count
}

// curveChart shows both sides, the plan and every solved crossing in sight.
func (b *book) curveChart(p page, m int) {
	c := &b.curves[m]
	column := func(column int) string {
		return grid.RangeRef(sheetBreakEven, c.first, column, c.row(curveSteps), column)
	}
	plan := c.row(curveSteps / 2)
	series := []grid.Series{
		{Name: "renting saved", Categories: column(curveJobs), Values: column(curveSavedYear), Color: sky},
		{Name: "owning", Categories: column(curveJobs), Values: column(curveOwningYear), Color: rust, Dash: grid.DashLong},
		{Name: "the plan", Categories: grid.SheetRef(sheetBreakEven, plan, curveJobs), Values: grid.SheetRef(sheetBreakEven, plan, curveOwningYear), Color: slate,
			NoLine: true, Marker: grid.MarkerSquare, MarkerSize: 9},
	}
	if marks := b.marks(p, m); marks > 0 {
		series = append(series, grid.Series{Name: "break-even", Categories: grid.RangeRef(sheetBreakEven, c.row(curveSteps)+1, curveJobs, c.row(curveSteps)+marks, curveJobs),
			Values: grid.RangeRef(sheetBreakEven, c.row(curveSteps)+1, curveOwningYear, c.row(curveSteps)+marks, curveOwningYear), Color: moss, NoLine: true, Marker: grid.MarkerDiamond, MarkerSize: 11})
	}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Scatter, Title: fmt.Sprintf("What renting costs and what owning %s costs, by jobs a year", b.study.Machines[m].Key),
		Cell: cell(c.at+1, curveStairs), Width: 600, Height: chartHeight, AltText: "two curves over jobs a year: renting saved and owning, with the plan and the break-even marked",
		X: grid.Axis{Title: "jobs a year on the machine", Format: "0"}, Y: grid.Axis{Title: b.study.Currency + " a year after tax", Format: "#,##0"}, Series: series,
	})
}
