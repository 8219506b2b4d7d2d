package workbook

import (
	"fmt"

	"shopstint/capital"
	"shopstint/capital/decision/single"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/reports/workbook/grid"
)

// ownLine is a line of a machine's years: one of capital's, or one that only
// the sheet needs.
type ownLine int

func lineOf(line capital.Line) ownLine { return ownLine(line) }

// Lines beside capital's. The lines of rentLines follow from lineSaved0 on.
const (
	lineJobs       = ownLine(capital.Lines) + iota // jobs that use it
	lineHoursSoFar                                 // running hours in its life
	lineBasis                                      // tax basis of the machine at work
	lineSchedule                                   // share by the method's schedule
	lineLeft                                       // share not yet deducted by the schedule
	lineSaved
	lineDifference
	lineSum
	lineDiscountedSum
	linePayback
	lineDiscountedPayback
	lineSumSaved  // running sum of what is saved
	lineSumOwning // running sum of what owning costs
	lineGroup0    // first of the lines of costGroups
	lineSaved0    = lineGroup0 + ownLine(len(costGroups))
)

// lineKind says how a line looks.
type lineKind int

const (
	lineMoney lineKind = iota
	lineMemo
	lineMemoMoney
	lineShare
	lineTotal
	lineFactor
)

type ownLineText struct {
	line  ownLine
	label string
	kind  lineKind
}

// ownLines are the lines from top to bottom. The costs from the price to the
// tax effect stand together, so that Net is one sum, and so do the costs that
// are deducted in the year, from interest to hours sold.
var ownLines = func() []ownLineText {
	list := []ownLineText{
		{lineOf(capital.Age), "age of the machine at work, years", lineMemo},
		{lineJobs, "jobs that use it", lineMemo},
		{lineOf(capital.Running), "running hours", lineMemo},
		{lineHoursSoFar, "running hours in its life so far", lineMemo},
		{lineOf(capital.Value), "what it would fetch at the end of the year", lineMemoMoney},
		{lineOf(capital.Owed), "still owed to the lender", lineMemoMoney},
		{lineBasis, "tax basis", lineMemoMoney},
		{lineSchedule, "share by the tax method", lineShare},
		{lineLeft, "share the method has left", lineShare},
		{lineOf(capital.TaxShare), "share deducted this year", lineShare},
		{lineOf(capital.Deducted), "tax depreciation", lineMemoMoney},
		{lineOf(capital.Book), "tax book value", lineMemoMoney},
		{lineOf(capital.Gain), "gain on disposal (loss negative)", lineMemoMoney},
		{lineOf(capital.Price), "price paid", lineMoney},
		{lineOf(capital.SalesTax), "sales tax", lineMoney},
		{lineOf(capital.Moving), "delivery and rigging in", lineMoney},
		{lineOf(capital.Fixtures), "wiring, converter, dust collection, air, fixtures", lineMoney},
		{lineOf(capital.Start), "instruction, first edges and abrasives", lineMoney},
		{lineOf(capital.Borrowed), "borrowed", lineMoney},
		{lineOf(capital.Principal), "loan paid back", lineMoney},
		{lineOf(capital.Interest), "interest", lineMoney},
		{lineOf(capital.Upkeep), "upkeep and repairs", lineMoney},
		{lineOf(capital.Insurance), "insurance and property tax", lineMoney},
		{lineOf(capital.Other), "permits and compliance", lineMoney},
		{lineOf(capital.Floor), "floor", lineMoney},
		{lineOf(capital.Energy), "energy", lineMoney},
		{lineOf(capital.Demand), "demand charge", lineMoney},
		{lineOf(capital.Wear), "edges and abrasives", lineMoney},
		{lineOf(capital.OwnTime), "own time at the machine", lineMoney},
		{lineOf(capital.Care), "own care by running hours", lineMoney},
		{lineOf(capital.Routine), "own care each month", lineMoney},
		{lineOf(capital.Learning), "slower first year", lineMoney},
		{lineOf(capital.Sold), "hours sold to others", lineMoney},
		{lineOf(capital.Resale), "sold for", lineMoney},
		{lineOf(capital.RiggingOut), "rigging out", lineMoney},
		{lineOf(capital.FixturesBack), "fixtures sold for", lineMoney},
		{lineOf(capital.Tax), "tax effect", lineMoney},
		{lineOf(capital.Net), "owning, after tax", lineTotal},
		{lineOf(capital.Discount), "discount factor", lineFactor},
		{lineOf(capital.Present), "present cost of the year", lineMoney},
	}
	for i, line := range rentLines {
		list = append(list, ownLineText{lineSaved0 + ownLine(i), "saved: " + line.label, lineMoney})
	}
	list = append(list,
		ownLineText{lineSaved, "saved, after tax", lineTotal},
		ownLineText{lineDifference, "saved less owning", lineTotal},
		ownLineText{lineSum, "running sum", lineMemoMoney},
		ownLineText{lineDiscountedSum, "running sum, discounted", lineMemoMoney},
		ownLineText{linePayback, "paid back after, years", lineMemo},
		ownLineText{lineDiscountedPayback, "paid back after, years, discounted", lineMemo},
		ownLineText{lineSumSaved, "for the picture: renting it replaces, running sum", lineMemoMoney},
		ownLineText{lineSumOwning, "for the picture: owning it, running sum", lineMemoMoney},
	)
	for i, group := range costGroups {
		list = append(list, ownLineText{lineGroup0 + ownLine(i), "for the picture: " + group.label, lineMemoMoney})
	}
	return list
}()

// costGroup is a colour in the picture of what owning costs: lines that stand
// next to each other.
type costGroup struct {
	label       string
	first, last capital.Line
	color       string
}

// costGroups are in the order in which they are stacked. Together they are Net.
var costGroups = [...]costGroup{
	{"buying, borrowing", capital.Price, capital.Interest, slate},
	{"upkeep, insurance, permits", capital.Upkeep, capital.Other, rust},
	{"floor", capital.Floor, capital.Floor, sand},
	{"energy", capital.Energy, capital.Demand, "C9A227"},
	{"edges and abrasives", capital.Wear, capital.Wear, sky},
	{"own time", capital.OwnTime, capital.Learning, moss},
	{"hours sold, resale", capital.Sold, capital.FixturesBack, grey},
	{"tax effect", capital.Tax, capital.Tax, "9A86A4"},
}

func (k lineKind) style() grid.Style {
	switch k {
	case lineMemo:
		return memo(asNumber)
	case lineMemoMoney:
		return memo(asMoney0)
	case lineShare:
		return memo(asPercent)
	case lineFactor:
		return memo(asFactor)
	case lineTotal:
		return total(asMoney0)
	}
	return numbers(asMoney0)
}

// ownFormulas writes the formulas of one machine's years.
type ownFormulas struct {
	b       *book
	o       *ownPlaces
	result  *single.Result
	machine *model.Machine
	in      string // beginning of the machine's input names
	horizon int
}

func (f ownFormulas) of(key string) string { return f.b.in(f.in + key) }

// at is the cell of a line in year t.
func (f ownFormulas) at(line ownLine, t int) string { return cell(f.o.rows[line], yearColumn+t) }

func (f ownFormulas) cap(line capital.Line, t int) string { return f.at(lineOf(line), t) }

// line writes one line: its years and its present cost.
func (f ownFormulas) line(p page, line ownLineText, values map[ownLine][]any) {
	row, style := f.o.rows[line.line], line.kind.style()
	p.text(row, 1, line.label, grid.Style{Italic: style.Italic, Bold: style.Bold, FontColor: style.FontColor})
	for t := range f.horizon + 1 {
		formula := f.formula(line.line, t)
		if formula == "" {
			continue
		}
		p.calc(row, yearColumn+t, formula, values[line.line][t], style)
	}
	if line.kind == lineMoney && line.line != lineOf(capital.Present) || line.line == lineOf(capital.Net) || line.line == lineSaved || line.line == lineDifference {
		p.calc(row, 2, fmt.Sprintf("SUMPRODUCT(%s,%s)", f.years(line.line), f.years(lineOf(capital.Discount))), f.present(values[line.line]), style)
	}
}

func (f ownFormulas) years(line ownLine) string {
	return span(f.o.rows[line], yearColumn, f.o.rows[line], yearColumn+f.horizon)
}

func (f ownFormulas) present(values []any) float64 {
	total := 0.0
	for t, value := range values {
		if number, ok := value.(float64); ok {
			total += number * f.result.Owner.Table[capital.Discount][t]
		}
	}
	return total
}

// values are the engine's figures, line by line and year by year.
func (f ownFormulas) values() map[ownLine][]any {
	values := map[ownLine][]any{}
	put := func(line ownLine, of func(t int) any) {
		list := make([]any, f.horizon+1)
		for t := range list {
			list[t] = of(t)
		}
		values[line] = list
	}
	table := &f.result.Owner.Table
	for line := range capital.Lines {
		put(lineOf(line), func(t int) any { return table[line][t] })
	}
	f.taxValues(put)
	f.savedValues(put)
	put(lineJobs, f.jobsIn)
	put(lineHoursSoFar, func(t int) any {
		if t == 0 {
			return 0.0
		}
		return capital.HoursSoFar(f.machine, f.result.Owner.Profile.Hours, t, int(table[capital.Age][t]))
	})
	return values
}

func (f ownFormulas) jobsIn(t int) any {
	jobs := 0.0
	for _, use := range f.result.Owner.Uses {
		if use.PerJob > 0 && t > 0 {
			kind := &f.b.study.JobTypes[use.Job]
			growth := 1.0
			for range t - 1 {
				growth *= 1 + float64(kind.Growth)
			}
			jobs += float64(kind.PerYear) * growth
		}
	}
	return jobs
}

// taxValues are the basis, the schedule and what it has left.
func (f ownFormulas) taxValues(put func(ownLine, func(int) any)) {
	table, hours := &f.result.Owner.Table, f.result.Owner.Profile.Hours
	basis, share, left := make([]float64, f.horizon+1), make([]float64, f.horizon+1), make([]float64, f.horizon+1)
	var schedule []float64
	for t := 1; t <= f.horizon; t++ {
		age := int(table[capital.Age][t])
		basis[t], left[t] = basis[t-1], left[t-1]
		if age == 1 {
			basis[t] = table[capital.Price][t-1] + table[capital.SalesTax][t-1] + table[capital.Moving][t-1] + table[capital.Fixtures][t-1]
			schedule, left[t] = capital.Schedule(f.machine, hours[t-1:]), 1
		}
		if age <= len(schedule) {
			share[t] = schedule[age-1]
		}
		left[t] -= share[t]
	}
	put(lineBasis, func(t int) any { return basis[t] })
	put(lineSchedule, func(t int) any { return share[t] })
	put(lineLeft, func(t int) any { return left[t] })
}

// savedValues are the lines of renting that owning saves, and their sums.
func (f ownFormulas) savedValues(put func(ownLine, func(int) any)) {
	before, after := f.b.answer.Rented.Years(f.b.study), f.result.Rent.Years(f.b.study)
	for i, line := range rentLines {
		put(lineSaved0+ownLine(i), func(t int) any {
			if t == 0 {
				return 0.0
			}
			return line.value(before[t-1]) - line.value(after[t-1])
		})
	}
	flows := f.result.Flows
	discounted := make([]float64, len(flows))
	for t := range flows {
		discounted[t] = flows[t] * f.result.Owner.Table[capital.Discount][t]
	}
	put(lineSaved, func(t int) any { return f.result.Avoided[t] })
	put(lineDifference, func(t int) any { return flows[t] })
	put(lineSum, func(t int) any { return sumTo(flows, t) })
	put(lineDiscountedSum, func(t int) any { return sumTo(discounted, t) })
	put(lineSumSaved, func(t int) any { return sumTo(f.result.Avoided, t) })
	put(lineSumOwning, func(t int) any { return sumTo(f.result.Owner.Table[capital.Net], t) })
	for i, group := range costGroups {
		put(lineGroup0+ownLine(i), func(t int) any { return f.groupSum(group, t) })
	}
	put(linePayback, func(t int) any { return paidBack(flows, t) })
	put(lineDiscountedPayback, func(t int) any { return paidBack(discounted, t) })
}

// groupSum adds up the lines of a group in the order of the sheet.
func (f ownFormulas) groupSum(group costGroup, t int) float64 {
	sum := 0.0
	for line := range capital.Lines {
		row := f.o.rows[lineOf(line)]
		if row >= f.o.rows[lineOf(group.first)] && row <= f.o.rows[lineOf(group.last)] {
			sum += f.result.Owner.Table[line][t]
		}
	}
	return sum
}

func sumTo(flows []float64, t int) float64 {
	total := 0.0
	for _, flow := range flows[:t+1] {
		total += flow
	}
	return total
}

// paidBack is when the running sum turns within year t, or an empty text.
func paidBack(flows []float64, t int) any {
	if t == 0 || !(sumTo(flows, t-1) < 0 && sumTo(flows, t) >= 0) {
		return ""
	}
	years, _ := timevalue.SimplePayback([]float64{sumTo(flows, t-1), flows[t]})
	return float64(t-1) + years
}
