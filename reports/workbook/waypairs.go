package workbook

import (
	"fmt"

	"shopstint/capital/decision/ways"
	"shopstint/reports/workbook/grid"
)

// Columns of the pairs of ways.
const (
	pairNames = iota + 1
	pairFixed
	pairUnit
	pairAt
	pairPieces
	pairHours
	pairCost
	pairBelow
	pairAbove
	pairMore
	pairRepaid
)

// sameCost is told where two ways cost the same at any amount.
const sameCost = "the same"

// wayPairs tells for each pair of ways from how much work on which is cheaper.
func (b *book) wayPairs(p page, w *wayBlock) {
	p.headers(w.pairs-1, "two ways, the first less the second", "fixed a year differs by", w.unit()+" costs the second more by", "break-even, "+w.unit()+" a year", "in pieces",
		"in hours at the machine", "a year then costs", "cheaper below", "cheaper above", "first lays out more by", "back after, "+w.unit())
	for i := range w.result.Pairs {
		b.wayPair(p, w, w.pairs+i, &w.result.Pairs[i])
	}
}

// apartFormula is the difference of two cells, 0 where it is dust. Twin of package ways.
func apartFormula(a, b string) string {
	return fmt.Sprintf("IF(ABS(%[1]s-%[2]s)<=1E-9*(ABS(%[1]s)+ABS(%[2]s)),0,%[1]s-%[2]s)", a, b)
}

func (b *book) wayPair(p page, w *wayBlock, at int, pair *ways.Pair) {
	first, second := pair.First, pair.Second
	name := func(way int) string {
		if way < 0 {
			return sameCost
		}
		return calledOr(w.comparison.Ways[way].Name, w.comparison.Ways[way].Key)
	}
	title := func(way int) string { return cell(w.rows-1, wayColumn+way) }
	here := func(column int) string { return cell(at, column) }
	a, z := &w.result.Ways[first], &w.result.Ways[second]
	p.text(at, pairNames, name(first)+" – "+name(second), wrappedLow)
	p.high(at, p.lines(name(first)+" – "+name(second), 0))
	fixed, unit := ways.Apart(a.Line.Fixed, z.Line.Fixed), ways.Apart(z.Line.Unit, a.Line.Unit)
	p.calc(at, pairFixed, apartFormula(w.way(wayFixed, first), w.way(wayFixed, second)), fixed, numbers(asMoney))
	p.calc(at, pairUnit, apartFormula(w.way(wayWork, second), w.way(wayWork, first)), unit, numbers(asFine))
	p.calc(at, pairAt, fmt.Sprintf(`IF(%[1]s*%[2]s>0,%[1]s/%[2]s,"")`, here(pairFixed), here(pairUnit)), orEmpty(pair.Outcome == ways.Crossing, pair.At), numbers(asNumber))
	piece := w.comparison.Piece()
	p.calc(at, pairPieces, fmt.Sprintf(`IF(OR(%[1]s="",%[2]s=0),"",%[1]s/MAX(%[2]s,1E-9))`, here(pairAt), w.head(headPiece)), orEmpty(pair.Outcome == ways.Crossing && piece > 0, pair.At/max(piece, 1e-9)), numbers(asNumber))
	p.calc(at, pairHours, fmt.Sprintf(`IF(%[1]s="","",%[1]s*IF(%[2]s>0,%[3]s,%[4]s)/60)`, here(pairAt), here(pairUnit), w.way(wayRunning, first), w.way(wayRunning, second)),
		orEmpty(pair.Outcome == ways.Crossing, pair.Hours), numbers(asNumber))
	p.calc(at, pairCost, fmt.Sprintf(`IF(%[1]s="","",%[2]s+%[3]s*%[1]s)`, here(pairAt), w.way(wayFixed, first), w.way(wayWork, first)),
		orEmpty(pair.Outcome == ways.Crossing, a.Line.Yearly(pair.At)), numbers(asMoney0))
	p.calc(at, pairBelow, belowFormula(here(pairFixed), here(pairUnit), title(first), title(second)), name(pair.Below), wrappedLow)
	p.calc(at, pairAbove, belowFormula("-"+here(pairUnit), "-"+here(pairFixed), title(first), title(second)), name(pair.Above), wrappedLow)
	b.wayRepaid(p, w, at, pair)
}

// belowFormula is the first name where the leading difference is under zero or,
// with none, the other one over it; the second name where it is the other way round.
func belowFormula(leading, other, first, second string) string {
	return fmt.Sprintf(`IF(%[1]s<0,%[3]s,IF(%[1]s>0,%[4]s,IF(%[2]s>0,%[3]s,IF(%[2]s<0,%[4]s,"%[5]s"))))`, leading, other, first, second, sameCost)
}

// wayRepaid tells after how much work what one lays out more is back.
func (b *book) wayRepaid(p page, w *wayBlock, at int, pair *ways.Pair) {
	first, second := pair.First, pair.Second
	more := ways.Apart(w.result.Ways[first].Outlay, w.result.Ways[second].Outlay)
	amount, here := w.head(headAmount), cell(at, pairMore)
	p.calc(at, pairMore, apartFormula(w.way(wayOutlay, first), w.way(wayOutlay, second)), more, numbers(asMoney))
	saved := fmt.Sprintf("SIGN(%s)*((%s-%s)*%s+%s+%s-%s-%s)", here, w.way(wayWork, second), w.way(wayWork, first), amount,
		w.way(wayUpkeep, second), w.way(wayHousing, second), w.way(wayUpkeep, first), w.way(wayHousing, first))
	p.calc(at, pairRepaid, fmt.Sprintf(`IF(%[1]s>0,ABS(%[2]s)*%[3]s/(%[1]s),"")`, saved, here, amount), orEmpty(pair.Repaid, pair.RepayAt), numbers(asNumber))
}

func orEmpty(known bool, x float64) any {
	if known {
		return x
	}
	return ""
}

// waySteps is in how many steps the yearly cost is drawn: it is a straight line.
const waySteps = 2

// wayCurve shows the yearly cost of each way over the amount of work: to twice
// the study's, or farther to the last break-even, up to ten times the study's.
func (b *book) wayCurve(p page, w *wayBlock) {
	titles := []string{w.unit() + " a year"}
	for i := range w.comparison.Ways {
		titles = append(titles, calledOr(w.comparison.Ways[i].Name, w.comparison.Ways[i].Key))
	}
	p.headers(w.curve-1, titles...)
	amount := w.head(headAmount)
	most := fmt.Sprintf("MAX(2*%[1]s,MIN(10*%[1]s,1.3*MAX(%[2]s)))", amount, span(w.pairs, pairAt, w.pairs+len(w.result.Pairs)-1, pairAt))
	value := w.mostDrawn()
	for step := range waySteps + 1 {
		at := w.curve + step
		x := value * float64(step) / waySteps
		p.calc(at, 1, fmt.Sprintf("%s*%d/%d", most, step, waySteps), x, grid.Style{NumberFormat: asNumber, Align: grid.AlignRight})
		for i := range w.result.Ways {
			p.calc(at, wayColumn+i, fmt.Sprintf("%s+%s*%s", w.way(wayFixed, i), w.way(wayWork, i), cell(at, 1)), w.result.Ways[i].Line.Yearly(x), numbers(asMoney0))
		}
	}
}

func (w *wayBlock) mostDrawn() float64 {
	amount, last := w.comparison.Amount(), 0.0
	for _, pair := range w.result.Pairs {
		last = max(last, pair.At)
	}
	return max(2*amount, min(10*amount, 1.3*last))
}

// wayColors tell the ways of a comparison apart; there are at most twelve.
var wayColors = [...]string{sky, rust, moss, sand, slate, grey}

// The charts stand beside the figures, one below the other.
const (
	chartColumn    = 5
	wayChartWidth  = 760
	wayChartHeight = 380
)

// wayCharts draws what a unit is made of, and the yearly cost over the work.
func (b *book) wayCharts(p page, w *wayBlock) {
	row := func(row wayRow) string {
		at := w.place[row]
		return grid.RangeRef(sheetWays, at, wayColumn, at, wayColumn+len(w.result.Ways)-1)
	}
	column := max(chartColumn, wayColumn+len(w.result.Ways)+1)
	names := grid.RangeRef(sheetWays, w.rows-1, wayColumn, w.rows-1, wayColumn+len(w.result.Ways)-1)
	parts := grid.Chart{
		Kind: grid.ColumnStacked, Title: "What a finished " + w.unit() + " costs", Cell: cell(w.at+1, column), Width: wayChartWidth, Height: wayChartHeight,
		AltText: "stacked columns by way: wear, labour, energy, rework, what is bought and kept", Y: grid.Axis{Title: b.study.Currency + " a " + w.unit(), Format: "0.00"},
	}
	for part, color := range [ways.Parts]string{rust, sky, sand, grey, slate} {
		label := [ways.Parts]string{"edges or abrasives", "labour", "energy", "rework", "bought and kept"}[part]
		parts.Series = append(parts.Series, grid.Series{Name: label, Categories: names, Values: row(wayWear + wayRow(part)), Color: color})
	}
	lines := grid.Chart{
		Kind: grid.Scatter, Title: "What a year costs, by the work it brings", Cell: cell(w.at+3+wayChartHeight/pixelsARow, column), Width: wayChartWidth, Height: wayChartHeight,
		AltText: "a line for each way over the amount of work; ways cost the same where lines cross", X: grid.Axis{Title: w.unit() + " a year", Format: "#,##0"},
		Y: grid.Axis{Title: b.study.Currency + " a year", Format: "#,##0"},
	}
	for i := range w.result.Ways {
		lines.Series = append(lines.Series, grid.Series{
			NameRef: grid.SheetRef(sheetWays, w.curve-1, wayColumn+i), Categories: grid.RangeRef(sheetWays, w.curve, 1, w.curve+waySteps, 1),
			Values: grid.RangeRef(sheetWays, w.curve, wayColumn+i, w.curve+waySteps, wayColumn+i), Color: wayColors[i%len(wayColors)],
			Dash: []grid.Dash{grid.DashSolid, grid.DashLong}[i%2],
		})
	}
	for i, pair := range w.result.Pairs {
		if pair.Outcome == ways.Crossing && pair.At <= w.mostDrawn() {
			at := w.pairs + i
			lines.Series = append(lines.Series, grid.Series{
				Name: "break-even", Categories: grid.SheetRef(sheetWays, at, pairAt), Values: grid.SheetRef(sheetWays, at, pairCost),
				Color: moss, NoLine: true, Marker: grid.MarkerDiamond, MarkerSize: 11,
			})
		}
	}
	p.Charts = append(p.Charts, parts, lines)
}
