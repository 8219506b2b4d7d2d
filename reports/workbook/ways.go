package workbook

import (
	"fmt"

	"shopstint/capital/decision/ways"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/wear"
	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// Columns of the table of what the ways run.
const (
	runKey = iota + 1
	runName
	runMean
	runChanges
	runCost
	runChange
	runSlower
)

// wayColumn is the column of the first way of a comparison.
const wayColumn = 2

// waySheet sets ways of doing the same work beside each other. Twin of package ways.
func (b *book) waySheet(s *grid.Sheet) {
	p := page{s}
	s.Columns = []float64{52, 24, 24, 16, 16, 16, 16, 16, 16, 16, 16, 16, 16}
	s.Protected, s.TabColor = true, moss
	s.Print = grid.Print{Landscape: true, FitWide: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Ways of doing the same work", title)
	p.text(2, 1, "Before tax, at the prices of the first year. What is bought is recovered over the years kept at the study's discount rate; electricity of tools that are there already is left out.", lead)
	at := b.runTable(p, 4+len(b.answer.Comparisons)+2)
	for i := range b.answer.Comparisons {
		s.Print.Breaks = append(s.Print.Breaks, at)
		block := b.placeWays(i, at)
		b.waySummary(p, 5+i, block)
		at = b.wayBlock(p, block)
	}
	p.caution(at+1, reports.EdgeCaution)
	p.headers(4, "in short", "cheapest at the study's amount", "which saves a year, against the next", "at an amount a year of", "unit", "break-even of the first two")
}

// waySummary tells in a row what a comparison comes to, from its own block below.
func (b *book) waySummary(p page, at int, w *wayBlock) {
	p.text(at, 1, calledOr(w.comparison.Name, w.comparison.Key), plain)
	p.calc(at, 2, w.head(headWinner), w.winner(), wrappedLow)
	longest := 0
	for i := range w.comparison.Ways {
		longest = max(longest, p.lines(calledOr(w.comparison.Ways[i].Name, w.comparison.Ways[i].Key), 1))
	}
	p.high(at, longest)
	p.calc(at, 3, w.head(headSaving), w.result.Saving(), numbers(asMoney))
	p.calc(at, 4, w.head(headAmount), w.comparison.Amount(), numbers(asNumber))
	p.text(at, 5, w.unit(), plain)
	first := &w.result.Pairs[0]
	p.calc(at, 6, cell(w.pairs, pairAt), orEmpty(first.Outcome == ways.Crossing, first.At), numbers(asNumber))
}

// runTable shows what the ways run and returns the row below.
func (b *book) runTable(p page, at int) int {
	p.headers(at, "what the ways run", "name", "m or m² until it is changed", "changes for each m or m²", "cost for each m or m²", "minutes of a change", "times longer as it dulls")
	edges, abrasives := map[string]bool{}, map[string]bool{}
	for i := range b.study.Comparisons {
		for k := range b.study.Comparisons[i].Ways {
			way := &b.study.Comparisons[i].Ways[k]
			edges[way.Edge] = true
			for _, key := range way.Abrasives {
				abrasives[key] = true
			}
		}
	}
	for i := range b.study.Edges {
		if edges[b.study.Edges[i].Key] {
			at++
			edge := &b.study.Edges[i]
			b.run(p, at, "edges", "metre_of_", &b.wear.result.Edges[i], b.wear.edges+i, edge.ChangeTime, edge.DullFeed)
		}
	}
	for i := range b.study.Abrasives {
		if abrasives[b.study.Abrasives[i].Key] {
			at++
			abrasive := &b.study.Abrasives[i]
			b.run(p, at, "abrasives", "area_of_", &b.wear.result.Abrasives[i], b.wear.edges+len(b.study.Edges)+i, abrasive.ChangeTime, abrasive.DullFeed)
		}
	}
	return at + 2
}

// run is one edge or abrasive, with its row on the sheet of wear.
func (b *book) run(p page, at int, list, cost string, item *wear.Item, row int, change quantity.Duration, dull quantity.Share) {
	path := list + "." + item.Key
	p.text(at, runKey, item.Key, plain)
	p.text(at, runName, item.Name, plain)
	p.calc(at, runMean, grid.SheetRef(sheetWear, row, wearMean), item.Mean, numbers(asNumber))
	p.calc(at, runChanges, "1/"+cell(at, runMean), 1/item.Mean, numbers("0.0000"))
	p.calc(at, runCost, b.in(cost+item.Key), item.Cost, numbers("0.0000"))
	p.calc(at, runChange, b.in(path+".change_time"), change.Minutes(), numbers(asNumber))
	// The mean age of what ends dull or by damage, in shares of a full life.
	meanAge := fmt.Sprintf("IF(%[1]s<0.001,0.5+LN(1-%[1]s)/12,-1/LN(1-%[1]s)-(1-%[1]s)/%[1]s)", b.in(path+".sudden_share"))
	p.calc(at, runSlower, fmt.Sprintf("1+%[1]s/(1-%[1]s)*(%[2]s)", b.in(path+".dull_feed"), meanAge), ways.Slowing(float64(dull), item.Sudden), numbers(asFine))
	b.places["ways."+path] = fmt.Sprint(at)
}

// runs are the cells of a column for what a way runs.
func (b *book) runs(way *model.Way, byArea bool, column int) []string {
	var cells []string
	at := func(list, key string) {
		if row := b.places["ways."+list+"."+key]; row != "" {
			cells = append(cells, "$"+grid.Ref(1, column)[:1]+"$"+row)
		}
	}
	if !byArea {
		at("edges", way.Edge)
		return cells
	}
	for _, key := range way.Abrasives {
		at("abrasives", key)
	}
	return cells
}
