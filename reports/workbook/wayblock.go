package workbook

import (
	"fmt"

	"shopstint/capital/decision/ways"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/reports/workbook/grid"
)

// Rows of the head of a comparison, below its band.
const (
	headAmount = iota + 1
	headPiece
	headMaterial
	headFeed
	headWaiting
	headWinner
	headSaving
	headRows
)

// wayRow is a row that has a figure for each way.
type wayRow int

// The rows of a comparison in their order. Rows from wayWear to wayEquipment
// are the parts of what a unit costs, in the order of ways.Part.
const (
	wayPlain wayRow = iota
	wayLasts
	waySlower
	wayRunning
	wayChange
	waySetting
	wayAgain
	wayMinutes
	wayPaid
	wayBack
	wayYears
	wayRecovery
	wayUpkeep
	wayHousing
	wayStock
	wayInterest
	wayFixed
	wayWear
	wayLabour
	wayEnergy
	wayRework
	wayEquipment
	wayUnit
	wayFoot
	wayPiece
	wayWork
	wayYearly
	wayShareWear
	wayShareLabour
	wayShareEnergy
	wayShareRework
	wayShareEquipment
	wayHours
	wayOwn
	wayWaited
	wayOutlay
	wayRows
)

// wayBlock is where one comparison stands on the sheet.
type wayBlock struct {
	result     *ways.Result
	comparison *model.Comparison
	index, at  int
	place      [wayRows]int
	rows       int // first row of the ways
	pairs      int // first row of the pairs
	curve      int // first row of the curve
}

func (b *book) placeWays(i, at int) *wayBlock {
	result := &b.answer.Comparisons[i]
	block := &wayBlock{result: result, comparison: &b.study.Comparisons[result.Comparison], index: i, at: at, rows: at + headRows + 1}
	at = block.rows
	for row := range wayRows {
		if block.place[row] = at; row != wayFoot || b.system == quantity.Inch {
			at++
		}
	}
	block.pairs = at + 2
	block.curve = block.pairs + len(result.Pairs) + 2
	return block
}

// head is a cell of the comparison's head, way the cell of a row and a way.
func (w *wayBlock) head(row int) string { return fmt.Sprintf("$B$%d", w.at+row) }

func (w *wayBlock) way(row wayRow, i int) string { return cell(w.place[row], wayColumn+i) }

// all are the cells of a row, for every way.
func (w *wayBlock) all(row wayRow) string {
	at := w.place[row]
	return span(at, wayColumn, at, wayColumn+len(w.result.Ways)-1)
}

// wayBlock writes a comparison and returns the row below it.
func (b *book) wayBlock(p page, w *wayBlock) int {
	p.band(w.at, wayColumn+len(w.result.Ways)-1, calledOr(w.comparison.Name, w.comparison.Key))
	b.wayHead(p, w)
	titles := []string{"for each " + w.unit()}
	for i := range w.comparison.Ways {
		titles = append(titles, calledOr(w.comparison.Ways[i].Name, w.comparison.Ways[i].Key))
	}
	p.headers(w.rows-1, titles...)
	for row, line := range b.wayLines(w) {
		at := w.place[row]
		if wayRow(row) == wayFoot && b.system != quantity.Inch {
			continue
		}
		p.text(at, 1, line.label, grid.Style{Bold: line.style.Bold, Italic: line.style.Italic})
		for i := range w.result.Ways {
			p.calc(at, wayColumn+i, line.formula(i), line.value(&w.result.Ways[i]), line.style)
		}
	}
	b.wayPairs(p, w)
	b.wayCurve(p, w)
	b.wayCharts(p, w)
	return w.curve + waySteps + 3
}

// winner is the way that is cheapest at the study's amount, in words.
func (w *wayBlock) winner() string {
	if w.result.Close {
		return "too close to call"
	}
	best := &w.comparison.Ways[w.result.Best]
	return calledOr(best.Name, best.Key)
}

// calledOr is the name, or the key of what has none.
func calledOr(name, key string) string {
	if name == "" {
		return key
	}
	return name
}

// unit is a finished unit in the working unit of the sheets.
func (w *wayBlock) unit() string {
	if w.comparison.ByArea() {
		return "m²"
	}
	return "m"
}

// wayHead shows the work of a comparison and, live, which way is cheapest.
func (b *book) wayHead(p page, w *wayBlock) {
	c, r := w.comparison, w.result
	in := func(key string) string { return b.in("comparisons." + c.Key + "." + key) }
	factor := func(key string) string { return b.in("materials." + c.Material + "." + key) }
	material, _ := model.Find(b.study.Materials, c.Material)
	amount, piece, lasts, lastsValue := in("yearly_length")+"*1000", in("piece_length")+"/1000", factor("edge_life"), float64(material.EdgeLife)
	if c.ByArea() {
		amount, piece, lasts, lastsValue = in("yearly_area"), in("piece_area"), factor("abrasive_life"), float64(material.AbrasiveLife)
	}
	put := func(row int, label, formula string, value any, format string) {
		p.text(w.at+row, 1, label, plain)
		p.calc(w.at+row, 2, formula, value, numbers(format))
	}
	put(headAmount, w.unit()+" a year", amount, c.Amount(), asNumber)
	put(headPiece, w.unit()+" for each "+calledOr(c.PieceName, "piece")+" (–: not told in pieces)", piece, c.Piece(), asFine)
	put(headMaterial, "life in this material, against plain hardwood", lasts, lastsValue, asPercent)
	put(headFeed, "feed in this material, against plain hardwood", factor("feed_factor"), float64(material.FeedFactor), asPercent)
	put(headWaiting, "an hour of waiting", in("waiting_rate"), float64(c.WaitingRate), asMoney)
	names := span(w.rows-1, wayColumn, w.rows-1, wayColumn+len(r.Ways)-1)
	saving := fmt.Sprintf("SMALL(%[1]s,2)-MIN(%[1]s)", w.all(wayYearly))
	winner := fmt.Sprintf(`IF(%s<=%s*SMALL(%s,2),"too close to call",INDEX(%s,1,MATCH(MIN(%[3]s),%[3]s,0)))`, saving, b.in("studio.close_call"), w.all(wayYearly), names)
	p.text(w.at+headWinner, 1, "cheapest at that amount", plain)
	p.calc(w.at+headWinner, 2, winner, w.winner(), grid.Style{Bold: true, FontColor: moss})
	put(headSaving, "which saves a year, against the next", saving, r.Saving(), asMoney)
}
