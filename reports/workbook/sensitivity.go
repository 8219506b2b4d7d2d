package workbook

import (
	"fmt"
	"math"
	"slices"

	"shopstint/capital/decision/sensitivity"
	"shopstint/reports/workbook/grid"
)

// Rows and columns of the sheet of sensitivity.
const (
	sensitivityChosen = 3 // row of the machine at hand
	tornadoHeader     = 6
)

const (
	tornadoInput = iota + 1
	tornadoUnit
	tornadoPlanned
	tornadoLow
	tornadoHigh
	tornadoAtLow
	tornadoAtHigh
	tornadoSwing
	sensitivityColumns = 13
	tornadoRank        = 16 // the ranked list for the picture stands beside the page
)

// mostBars is how many bars the tornado shows.
const mostBars = 12

func tornadoRow(l sensitivity.Lever) int { return tornadoHeader + 1 + int(l) }

// twoWaySteps is how many values a two-way table has each way.
const twoWaySteps = 5

// step is one value on the side of a table.
type step struct {
	times float64 // of what is planned
	fixed float64 // where times is 0
}

// twoWay is one two-way table.
type twoWay struct {
	down, across           sensitivity.Lever
	downSteps, acrossSteps []step // nil: between low and high
	at, col                int    // its upper left corner
}

func (t twoWay) place(row, right int) string {
	return grid.SheetRef(sheetSensitivity, row, t.col+right)
}

func timesOf(list ...float64) []step {
	var steps []step
	for _, times := range list {
		steps = append(steps, step{times: times})
	}
	return steps
}

func fixed(list ...float64) []step {
	var steps []step
	for _, value := range list {
		steps = append(steps, step{fixed: value})
	}
	return steps
}

// twoWays are the two-way tables. The last one is the reader's: its two inputs
// are named in cells.
func (b *book) twoWays() []twoWay {
	first := tornadoRow(sensitivity.Levers) + 2
	second, right := first+twoWaySteps+6, 8
	return []twoWay{
		{down: sensitivity.Work, across: sensitivity.Rates, downSteps: timesOf(0.5, 0.75, 1, 1.5, 2), acrossSteps: timesOf(0.7, 0.85, 1, 1.15, 1.3), at: first, col: 1},
		{down: sensitivity.Price, across: sensitivity.YearsKept, downSteps: timesOf(0.6, 0.8, 1, 1.2, 1.4), acrossSteps: fixed(3, 5, 7, 10, 15), at: first, col: right},
		{down: sensitivity.Distance, across: sensitivity.MinimumBlock, downSteps: timesOf(0.25, 0.5, 1, 1.5, 2), acrossSteps: fixed(0, 30, 60, 90, 120), at: second, col: 1},
		{down: sensitivity.LabourRate, across: sensitivity.Resale, at: second, col: right},
	}
}

// axis are the values on one side of a table, as shown.
func (b *book) axis(l sensitivity.Lever, steps []step) []float64 {
	planned, low, high := b.leverAt(l, 0, atValue).value, b.leverAt(l, 0, atLow).value, b.leverAt(l, 0, atHigh).value
	values := make([]float64, twoWaySteps)
	for i := range values {
		switch {
		case steps == nil && low == high:
			values[i] = planned * (0.5 + float64(i)/4)
		case steps == nil:
			values[i] = low + (high-low)*float64(i)/4
		case steps[i].times != 0:
			values[i] = planned * steps[i].times
		default:
			values[i] = steps[i].fixed
		}
		if l == sensitivity.YearsKept {
			values[i] = b.wholeYears(values[i])
		}
	}
	return values
}

// wholeYears keeps years kept within what a case can take.
func (b *book) wholeYears(years float64) float64 {
	return math.Max(1, math.Min(float64(b.horizon()), math.Round(years)))
}

// axisFormula is the twin of axis; name is the cell with the input's name.
func (b *book) axisFormula(l sensitivity.Lever, steps []step, i int, name string) string {
	column := func(column int) string {
		return fmt.Sprintf("INDEX(%s,MATCH(%s,%s,0))", grid.RangeRef(sheetSensitivity, tornadoRow(0), column, tornadoRow(sensitivity.Levers-1), column), name,
			grid.RangeRef(sheetSensitivity, tornadoRow(0), tornadoInput, tornadoRow(sensitivity.Levers-1), tornadoInput))
	}
	whole := func(formula string) string {
		return fmt.Sprintf("MAX(1,MIN(%s,ROUND(%s,0)))", b.in("studio.horizon"), formula)
	}
	switch {
	case steps == nil:
		between := fmt.Sprintf("IF(%[1]s=%[2]s,%[3]s*%[4]g,%[1]s+(%[2]s-%[1]s)*%[5]g)", column(tornadoLow), column(tornadoHigh), column(tornadoPlanned), 0.5+float64(i)/4, float64(i)/4)
		return fmt.Sprintf("IF(%s=%s,%s,%s)", name, grid.Quote(sensitivity.YearsKept.Label()), whole(between), between)
	case steps[i].times != 0:
		return fmt.Sprintf("%s*%g", column(tornadoPlanned), steps[i].times)
	case l == sensitivity.YearsKept:
		return whole(fmt.Sprint(steps[i].fixed))
	}
	return fmt.Sprint(steps[i].fixed)
}

// sensitivitySheet writes what the cases say: how far each input moves the
// answer, and two at a time. The inputs of the cases stand here.
func (b *book) sensitivitySheet(s *grid.Sheet) {
	p := page{s}
	b.tornado = s
	s.Columns = []float64{32, 12, 11, 11, 11, 13, 13, 13, 14, 14, 14, 14, 14, 3, 3, 32, 14, 14}
	s.Protected, s.TabColor = true, rust
	s.Print = grid.Print{Landscape: true, FitWide: 1, FitTall: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "What if: one machine, inputs moved", title)
	p.text(2, 1, "Live: choose a machine, or type over any straw cell. Each figure is a row of the sheet Cases, where any inputs may be moved together.", lead)
	p.text(sensitivityChosen, 1, "machine", section)
	p.text(sensitivityChosen, 2, b.study.Machines[0].Key, editable)
	keys := grid.RangeRef(sheetFacts, 3, factsMachine, 3, factsMachine+len(b.study.Machines)-1)
	s.Validations = append(s.Validations, grid.Validation{Range: cell(sensitivityChosen, 2), ListRef: keys})
	p.headers(tornadoHeader, "one input at a time", "unit", "as planned", "low", "high", "better by, a year, at low", "better by, a year, at high", "swing")
	names := grid.RangeRef(sheetSensitivity, tornadoRow(0), tornadoInput, tornadoRow(sensitivity.Levers-1), tornadoInput)
	reader := b.twoWays()[len(b.twoWays())-1]
	s.Validations = append(s.Validations, grid.Validation{Range: cell(reader.at+1, reader.col+1) + " " + cell(reader.at+2, reader.col+1), ListRef: names})
	last := reader.at + 4 + twoWaySteps
	s.Print.Area = span(1, 1, last, sensitivityColumns)
	for n, t := range b.twoWays() {
		b.twoWayFrame(p, n, t)
	}
}

// twoWayFrame writes the names and the values at the sides of a table.
func (b *book) twoWayFrame(p page, n int, t twoWay) {
	style := plain
	words := fmt.Sprintf("Better by, a year: %s, and %s", t.down.Label(), t.across.Label())
	if n == len(b.twoWays())-1 {
		style, words = editable, "Better by, a year: two inputs of your choice, named in the straw cells"
	}
	for i := range twoWaySteps + 1 {
		p.text(t.at, t.col+i, map[int]string{0: words}[i], section)
	}
	p.text(t.at+1, t.col, "down", faint)
	p.text(t.at+1, t.col+1, t.down.Label(), style)
	p.text(t.at+2, t.col, "across", faint)
	p.text(t.at+2, t.col+1, t.across.Label(), style)
	axis := func(l sensitivity.Lever) grid.Style {
		open := editable
		open.NumberFormat, open.Bold = b.leverFormat(l), true
		if t.downSteps == nil {
			open.NumberFormat = "#,##0.##"
		}
		return open
	}
	down, across := b.axis(t.down, t.downSteps), b.axis(t.across, t.acrossSteps)
	for i := range twoWaySteps {
		p.calc(t.at+3, t.col+1+i, b.axisFormula(t.across, t.acrossSteps, i, grid.AbsRef(t.at+2, t.col+1)), across[i], axis(t.across))
		p.calc(t.at+4+i, t.col, b.axisFormula(t.down, t.downSteps, i, grid.AbsRef(t.at+1, t.col+1)), down[i], axis(t.down))
	}
	inside := span(t.at+4, t.col+1, t.at+3+twoWaySteps, t.col+twoWaySteps)
	corner := cell(t.at+4, t.col+1)
	p.Conditions = append(p.Conditions,
		grid.Condition{Range: inside, Formula: corner + ">0", Style: grid.Style{Fill: "D8E8DC", FontColor: moss}},
		grid.Condition{Range: inside, Formula: corner + "<0", Style: grid.Style{Fill: "DCE7F1", FontColor: "2F5F8A"}})
}

// fillSensitivity reads the outcomes of the cases into the tornado and the tables.
func (b *book) fillSensitivity(outcomes []sensitivity.Outcome) {
	p, c := page{b.tornado}, &b.cases
	planned := grid.SheetRef(sheetCases, casePlanned, c.result(caseBetter))
	p.calc(sensitivityChosen, 4, fmt.Sprintf(`"as planned: "&%s`, c.at(0, caseVerdict)), "as planned: "+outcomes[0].Verdict.String(), grid.Style{Bold: true, FontColor: slate})
	p.text(sensitivityChosen, 7, "better by, a year", faint)
	p.calc(sensitivityChosen, 8, planned, outcomes[0].Annual, grid.Style{Bold: true, NumberFormat: asMoney0})
	swings := make([]float64, sensitivity.Levers)
	for l := range sensitivity.Levers {
		swings[l] = b.tornadoLine(p, l, outcomes)
	}
	b.ranking(p, swings, outcomes)
	row := 1 + 2*int(sensitivity.Levers)
	for _, t := range b.twoWays() {
		for i := range twoWaySteps {
			for j := range twoWaySteps {
				p.calc(t.at+4+i, t.col+1+j, c.at(row, caseBetter), outcomes[row].Annual, grid.Style{NumberFormat: asMoney0, Border: grid.BorderBox})
				row++
			}
		}
	}
}

func (b *book) tornadoLine(p page, l sensitivity.Lever, outcomes []sensitivity.Outcome) float64 {
	at, c, format := tornadoRow(l), &b.cases, b.leverFormat(l)
	_, symbol, _ := b.leverUnit(l)
	open := editable
	open.NumberFormat = format
	p.text(at, tornadoInput, l.Label(), plain)
	p.text(at, tornadoUnit, symbol, faint)
	for i, word := range [...]string{"planned", "low", "high"} {
		style := open
		if i == 0 {
			style = numbers(format)
		}
		p.calc(at, tornadoPlanned+i, b.handFact(fmt.Sprintf("%s_%d", word, l+1)), b.leverAt(l, 0, end(i)).value, style)
	}
	low, high := outcomes[1+2*int(l)].Annual, outcomes[2+2*int(l)].Annual
	p.calc(at, tornadoAtLow, c.at(1+2*int(l), caseBetter), low, numbers(asMoney0))
	p.calc(at, tornadoAtHigh, c.at(2+2*int(l), caseBetter), high, numbers(asMoney0))
	p.calc(at, tornadoSwing, fmt.Sprintf("ABS(%s-%s)", cell(at, tornadoAtHigh), cell(at, tornadoAtLow)), math.Abs(high-low), grid.Style{NumberFormat: asMoney0, Bold: true})
	return math.Abs(high - low)
}

// ranking sorts the inputs by swing for the picture, the largest last so that
// it stands on top. Equal swings keep the order of the list.
func (b *book) ranking(p page, swings []float64, outcomes []sensitivity.Outcome) {
	for i, words := range [...]string{"for the picture: by swing", "at low", "at high", "swing, made unlike"} {
		p.text(tornadoHeader, tornadoRank+i, words, faint)
	}
	keys := make([]float64, len(swings))
	for l := range sensitivity.Levers {
		keys[l] = swings[l] + float64(tornadoRow(l))*1e-7
		p.calc(tornadoRow(l), tornadoRank+3, fmt.Sprintf("%s+ROW()*0.0000001", cell(tornadoRow(l), tornadoSwing)), keys[l], memo(asFine))
	}
	order := slices.Sorted(slices.Values(keys))
	list := span(tornadoRow(0), tornadoRank+3, tornadoRow(sensitivity.Levers-1), tornadoRank+3)
	for k := range mostBars {
		at, rank := tornadoHeader+1+k, len(keys)-mostBars+k
		l := slices.Index(keys, order[rank])
		match := fmt.Sprintf("MATCH(SMALL(%s,%d),%s,0)", list, rank+1, list)
		column := func(column int) string {
			return fmt.Sprintf("INDEX(%s,%s)", span(tornadoRow(0), column, tornadoRow(sensitivity.Levers-1), column), match)
		}
		p.calc(at, tornadoRank, column(tornadoInput), sensitivity.Lever(l).Label(), memo(asGeneral))
		planned := b.cases.at(0, caseBetter)
		p.calc(at, tornadoRank+1, column(tornadoAtLow)+"-"+planned, outcomes[1+2*l].Annual-outcomes[0].Annual, memo(asMoney0))
		p.calc(at, tornadoRank+2, column(tornadoAtHigh)+"-"+planned, outcomes[2+2*l].Annual-outcomes[0].Annual, memo(asMoney0))
	}
	b.tornadoChart(p)
}

func (b *book) tornadoChart(p page) {
	column := func(column int) string {
		return grid.RangeRef(sheetSensitivity, tornadoHeader+1, column, tornadoHeader+mostBars, column)
	}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.BarStacked, Title: "How far each input moves the answer between its low and its high", Cell: cell(tornadoHeader, tornadoSwing+1), Width: 500, Height: pixelsARow * (int(sensitivity.Levers) + 1),
		AltText: "bars to both sides of the plan, the input that moves the answer most on top",
		X:       grid.Axis{LabelsLow: true}, Y: grid.Axis{Title: "better by, a year, against the plan (" + b.study.Currency + ")", Format: "#,##0"},
		Series: []grid.Series{
			{Name: "at low", Categories: column(tornadoRank), Values: column(tornadoRank + 1), Color: sky},
			{Name: "at high", Categories: column(tornadoRank), Values: column(tornadoRank + 2), Color: rust},
		},
	})
}
