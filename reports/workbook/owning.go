package workbook

import (
	"fmt"

	"shopstint/capital"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/reports/workbook/grid"
)

// Facts of a machine's block, in the order of their rows.
const (
	factOwning = iota
	factSaved
	factDifference
	factAnnual
	factBand
	factVerdict
	factCash
	factOwningAnnual
	factJobs
	factHours
	factPerHour
	factPerJob
	factSimple
	factDiscounted
	factReturn
	factArea
	factCount
)

// Columns of the table of what runs on a machine.
const (
	useJob = iota + 1
	usePerYear
	usePerJob
	useCrew
	useWear
	useMetres
	useArea
	useHours
	useGrowth
)

// yearColumn is the column of today; the years follow.
const yearColumn = 3

// ownPlaces says where one machine's block stands on the owning sheet.
type ownPlaces struct {
	facts, uses, useRows, years, end int
	rows                             map[ownLine]int
}

func (o *ownPlaces) fact(fact int) string {
	return grid.SheetRef(sheetOwning, o.facts+fact, 2)
}

// useColumn is one column over the job types on the machine, with the empty row
// below: one of the spreadsheet programs takes a single cell for no list.
func (o *ownPlaces) useColumn(column int) string {
	return span(o.uses, column, o.lastUse(), column)
}

func (o *ownPlaces) lastUse() int { return o.uses + max(1, o.useRows) }

// useRange is the same, seen from another sheet.
func (o *ownPlaces) useRange(column int) string {
	return grid.RangeRef(sheetOwning, o.uses, column, o.lastUse(), column)
}

// owning lays every candidate's ownership out, a block each. Twin of package capital.
func (b *book) owning(s *grid.Sheet) {
	p := page{s}
	s.Columns = []float64{44, 15}
	for range int(b.study.Studio.Horizon) + 1 {
		s.Columns = append(s.Columns, 12)
	}
	for len(s.Columns) < useGrowth {
		s.Columns = append(s.Columns, 12)
	}
	s.Freeze, s.Protected, s.TabColor = "C4", true, moss
	s.Print = grid.Print{Landscape: true, FitWide: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Owning, year by year", title)
	p.text(2, 1, "Costs are positive, income and relief negative; grey lines are for reading and not added up. Column B is the present cost.", lead)
	at := 4
	for m := range b.answer.Machines {
		b.own = append(b.own, b.placeOwn(m, at))
		if m > 0 {
			s.Print.Breaks = append(s.Print.Breaks, at)
		}
		b.ownBlock(p, m)
		at = b.own[m].end + 3
	}
}

func (b *book) placeOwn(m, at int) ownPlaces {
	o := ownPlaces{facts: at + 1, useRows: len(b.answer.Machines[m].Owner.Uses), rows: map[ownLine]int{}}
	o.uses = o.facts + factCount + 2
	o.years = o.uses + max(1, o.useRows) + 1
	row := o.years
	for _, line := range ownLines {
		row++
		o.rows[line.line] = row
	}
	o.end = row
	return o
}

func (b *book) ownBlock(p page, m int) {
	o, result := &b.own[m], &b.answer.Machines[m]
	machine := &b.study.Machines[result.Machine]
	p.band(o.facts-1, len(p.Columns), fmt.Sprintf("%s (%s, %s)", machine.Name, machine.Key, machine.Condition))
	b.ownFacts(p, m)
	b.uses(p, m)
	p.text(o.years, 1, "year by year", header)
	p.text(o.years, 2, "present cost", header)
	for t := range result.Flows {
		p.number(o.years, yearColumn+t, float64(t), grid.Style{Bold: true, FontColor: white, Fill: slate, NumberFormat: asGeneral})
	}
	f := ownFormulas{b: b, o: o, result: result, in: "machines." + machine.Key + ".", machine: machine, horizon: len(result.Flows) - 1}
	values := f.values()
	for _, line := range ownLines {
		f.line(p, line, values)
	}
	b.ownCharts(p, m)
}

// ownCharts show, beside the facts, when owning overtakes renting and what
// owning is made of.
func (b *book) ownCharts(p page, m int) {
	o, last := &b.own[m], yearColumn+int(b.study.Studio.Horizon)
	key, years := b.study.Machines[m].Key, grid.RangeRef(sheetOwning, o.years, yearColumn, o.years, last)
	row := func(line ownLine) string {
		return grid.RangeRef(sheetOwning, o.rows[line], yearColumn, o.rows[line], last)
	}
	amounts := grid.Axis{Title: b.study.Currency + " after tax", Format: "#,##0"}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Scatter, Title: "Money spent to date: owning " + key + ", and the renting it replaces", Cell: cell(o.facts, yearColumn), Width: 520, Height: factCount * pixelsARow,
		AltText: "two curves over the years: running cost of owning and of the renting that it replaces", X: grid.Axis{Title: "years", Format: "0"}, Y: amounts,
		Series: []grid.Series{
			{Name: "renting it replaces", Categories: years, Values: row(lineSumSaved), Color: sky},
			{Name: "owning it", Categories: years, Values: row(lineSumOwning), Color: rust, Dash: grid.DashLong},
		},
	})
	var series []grid.Series
	for i, group := range costGroups {
		series = append(series, grid.Series{Name: group.label, Categories: years, Values: row(lineGroup0 + ownLine(i)), Color: group.color})
	}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.ColumnStacked, Title: "What owning " + key + " costs, year by year", Cell: cell(o.facts, yearColumn+6), Width: 560, Height: factCount * pixelsARow,
		AltText: "stacked columns of the costs of owning in each year", X: grid.Axis{Title: "year", Format: "0", LabelsLow: true}, Y: amounts, Series: series,
	})
}

// ownFacts are the figures that the answer is made of.
func (b *book) ownFacts(p page, m int) {
	o, result := &b.own[m], &b.answer.Machines[m]
	years, rate := b.in("studio.horizon"), b.in("studio.discount_rate")
	row := func(line ownLine) string {
		return span(o.rows[line], yearColumn, o.rows[line], yearColumn+len(result.Flows)-1)
	}
	first := func(line ownLine) string { return cell(o.rows[line], yearColumn) }
	here := func(fact int) string { return cell(o.facts+fact, 2) }
	annual := func(present string) string {
		return fmt.Sprintf("IF(%[2]s=0,%[1]s/%[3]s,%[1]s*%[2]s/(1-(1+%[2]s)^-%[3]s))", present, rate, years)
	}
	discount := row(lineOf(capital.Discount))
	per := func(amount, count string) string { return fmt.Sprintf("IF(%[2]s=0,0,%[1]s/%[2]s)", amount, count) }
	hours := fmt.Sprintf("SUMPRODUCT(%s,%s)", row(lineOf(capital.Running)), discount)
	jobs := fmt.Sprintf("SUMPRODUCT(%s,%s)", row(lineJobs), discount)
	difference := row(lineDifference)
	for i, entry := range [factCount]fact{
		factOwning:       {"present cost of owning, after tax", "SUM(" + row(lineOf(capital.Present)) + ")", result.Owning, asMoney0},
		factSaved:        {"present worth of the renting it saves, after tax", fmt.Sprintf("SUMPRODUCT(%s,%s)", row(lineSaved), discount), result.Saved, asMoney0},
		factDifference:   {"difference (positive: buying pays)", here(factSaved) + "-" + here(factOwning), result.Difference, asMoney0},
		factAnnual:       {"the same as an equal amount each year", annual(here(factDifference)), result.Annual, asMoney0},
		factBand:         {"too close to call under", fmt.Sprintf("%s*MAX(ABS(%s),ABS(%s))", b.in("studio.close_call"), here(factSaved), here(factOwning)), result.Band, asMoney0},
		factVerdict:      {"answer", fmt.Sprintf(`IF(ABS(%[1]s)<=%[2]s,"too close to call",IF(%[1]s>0,"buy","keep renting"))`, here(factDifference), here(factBand)), result.Verdict.String(), asGeneral},
		factCash:         {"cash needed on the day of purchase", first(lineOf(capital.Net)), result.CashNeeded, asMoney0},
		factOwningAnnual: {"owning as an equal amount each year", annual(here(factOwning)), result.OwningAnnual, asMoney0},
		factJobs:         {"jobs a year that use it, first year", first1(o, lineJobs), result.Jobs, asNumber},
		factHours:        {"running hours, first year", first1(o, lineOf(capital.Running)), result.Owner.Profile.Hours[0], asNumber},
		factPerHour:      {"cost of a running hour", per(here(factOwning), hours), result.PerHour, asMoney},
		factPerJob:       {"cost of a job on it", per(here(factOwning), jobs), result.PerJob, asMoney},
		factSimple:       {"payback in years, simple", paybackFormula(row(lineSum), row(linePayback)), paybackValue(result.Payback.Simple, result.Payback.SimpleOK), asNumber},
		factDiscounted:   {"payback in years, discounted", paybackFormula(row(lineDiscountedSum), row(lineDiscountedPayback)), paybackValue(result.Payback.Discounted, result.Payback.DiscountedOK), asNumber},
		factReturn:       returnFact(result, difference),
		factArea:         {"floor it takes, m²", b.areaFormula(m), result.Owner.Area, asNumber},
	} {
		p.text(o.facts+i, 1, entry.label, plain)
		style := numbers(entry.format)
		if i == factVerdict || i == factDifference {
			style.Bold = true
		}
		p.Set(o.facts+i, 2, grid.Cell{Formula: entry.formula, Value: entry.value, Style: style})
	}
}

// first1 is the cell of year 1.
func first1(o *ownPlaces, line ownLine) string { return cell(o.rows[line], yearColumn+1) }

func paybackFormula(sum, marks string) string {
	return fmt.Sprintf(`IF(MIN(%s)>=0,0,IF(COUNT(%[2]s)=0,"none",MIN(%[2]s)))`, sum, marks)
}

func paybackValue(years float64, ok bool) any {
	if !ok {
		return "none"
	}
	return years
}

// fact is one figure; without a formula the program's own value stands alone.
type fact struct {
	label, formula string
	value          any
	format         string
}

// A rate worse than this is beyond what spreadsheet programs find.
const (
	worstReturn = -0.9
	noReturn    = "none"
)

// returnFact shows the rate of return live where there is just one; where
// there is none or several, what the program found stands as text.
func returnFact(result *single.Result, flows string) fact {
	switch found := result.Returns; {
	case len(found) == 0:
		return fact{"rate of return of the difference", "", noReturn, asPercent}
	case len(found) == 1 && found[0] < worstReturn:
		return fact{"rate of return of the difference", "", "worse than -90 %", asPercent}
	case len(found) == 1:
		return fact{"rate of return of the difference", returnFormula(flows, result.Returns[0]), result.Returns[0], asPercent}
	}
	text := ""
	for i, rate := range result.Returns {
		if i > 0 {
			text += ", "
		}
		text += fmt.Sprintf("%.2f %%", 100*rate)
	}
	return fact{"rates of return of the difference: several, none decides", "", text, asPercent}
}

// returnFormula searches from the rate that the program found, and then, for
// flows that were edited, from rates over the range that a machine may give:
// spreadsheet programs find a rate only from nearby.
func returnFormula(flows string, found float64) string {
	formula := `"` + noReturn + `"`
	for _, guess := range [...]float64{-0.9, -0.6, -0.3, 0.1, found} {
		formula = fmt.Sprintf("IFERROR(IRR(%s,%.6f),%s)", flows, guess, formula)
	}
	return formula
}

// areaFormula is the twin of capital.FloorArea, with the fixtures' floor.
func (b *book) areaFormula(m int) string {
	return b.floorFormula(&b.study.Machines[m], b.longest()) + sharedTerms(b, &b.study.Machines[m], "+", ".area")
}

// floorFormula is the floor of a machine alone, for a longest piece in mm.
func (b *book) floorFormula(machine *model.Machine, longest string) string {
	in := func(key string) string { return b.in("machines." + machine.Key + "." + key) }
	return fmt.Sprintf("IF(%[1]s=0,0,(%[1]s+2*(%[2]s+%[3]s))*(%[4]s+2*%[5]s)/1E6*%[6]s)", in("footprint_length"), longest,
		b.in("studio.end_clearance"), in("footprint_width"), b.in("studio.side_clearance"), in("floor_share"))
}

// longest is the longest piece of any job type.
func (b *book) longest() string {
	list := ""
	for j := range b.study.JobTypes {
		kind := &b.study.JobTypes[j]
		for i := range kind.Pieces {
			if list != "" {
				list += ","
			}
			list += b.in("job_types." + kind.Key + ".pieces." + kind.Pieces[i].Key + ".length")
		}
	}
	return "MAX(" + list + ")"
}

// uses lists what each job type does on the machine. Twin of alternative.UsesOf.
func (b *book) uses(p page, m int) {
	o, result := &b.own[m], &b.answer.Machines[m]
	p.headers(o.uses-1, "what runs on it", "jobs a year", "minutes a job", "own people", "edges a job", "metres a job", "m² a job", "hours a year", "growth a year")
	for i, use := range result.Owner.Uses {
		at := o.uses + i
		kind := &b.study.JobTypes[use.Job]
		f := useFormulas{b: b, m: m, job: use.Job, at: at}
		p.text(at, useJob, kind.Name, plain)
		p.calc(at, usePerYear, b.rent.job(use.Job, rentPerYear), float64(kind.PerYear), numbers(asNumber))
		p.calc(at, usePerJob, f.perJob(), use.PerJob.Minutes(), numbers(asNumber))
		crew := b.rent.job(use.Job, rentCrew)
		if model.HandHeld(b.study.Machines[m].Class) {
			crew = "1"
		}
		p.calc(at, useCrew, crew, use.Crew, numbers(asCount))
		p.calc(at, useWear, f.times(b.timeColumn(use.Job, timeWear)), use.Wear, numbers(asMoney))
		p.calc(at, useMetres, f.times(b.timeColumn(use.Job, timeMetres)), use.Metres, numbers(asNumber))
		p.calc(at, useArea, f.times(b.timeColumn(use.Job, timeArea)), use.Area, numbers(asNumber))
		p.calc(at, useHours, cell(at, usePerYear)+"*"+cell(at, usePerJob)+"/60", use.Hours, numbers(asNumber))
		p.calc(at, useGrowth, b.rent.job(use.Job, rentGrowth), float64(kind.Growth), numbers(asPercent))
	}
}

// useFormulas writes the formulas of one job type on one machine.
type useFormulas struct {
	b          *book
	m, job, at int
}

func (f useFormulas) own() string {
	return fmt.Sprintf("(%s=\"own\")*(%s=%s)", f.b.timeColumn(f.job, timeWhere), f.b.timeColumn(f.job, timeMachine), grid.Quote(f.b.study.Machines[f.m].Key))
}

func (f useFormulas) rework() string {
	return f.b.in("job_types." + f.b.study.JobTypes[f.job].Key + ".rework_chance")
}

// times adds a column up over the steps done on the machine, repeats included.
func (f useFormulas) times(column string) string {
	return fmt.Sprintf("SUMPRODUCT(%s*%s*(1+%s*%s)*%s)", f.own(), f.b.timeColumn(f.job, timeFits), f.b.timeColumn(f.job, timeRepeat), f.rework(), column)
}

func (f useFormulas) perJob() string {
	minutes := "(" + f.b.timeColumn(f.job, timeMinutes) + "+" + f.b.timeColumn(f.job, timePerVisit) + ")"
	any := fmt.Sprintf("SUMPRODUCT(%s*%s)", f.own(), f.b.timeColumn(f.job, timeFits))
	repeated := fmt.Sprintf("SUMPRODUCT(%s*%s*%s)", f.own(), f.b.timeColumn(f.job, timeFits), f.b.timeColumn(f.job, timeRepeat))
	setup := f.b.in("machines." + f.b.study.Machines[f.m].Key + ".setup")
	return fmt.Sprintf("%s+IF(%s=0,0,1+IF(%s>0,%s,0))*%s", f.times(minutes), any, repeated, f.rework(), setup)
}
