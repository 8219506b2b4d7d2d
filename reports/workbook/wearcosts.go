package workbook

import (
	"fmt"

	"shopstint/model/wear"
	"shopstint/model/work"
	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// Columns of the wear sheet's first table.
const (
	wearKey = iota + 1
	wearName
	wearPrice
	wearLife
	wearUsable
	wearEnds
	wearSound
	wearSharpened
	wearLives
	wearFull
	wearMean
	wearRun
	wearSpent
	wearUnit
	wearColumns
)

// wearPlaces says where the wear sheet has its items and their years.
type wearPlaces struct {
	sheet  *grid.Sheet
	result wear.Result
	edges  int // row of the first edge; the abrasives follow
	year   int // row of the first year
	steps  int // row of the first year's steps
}

// items lists edges and then abrasives with the beginning of their inputs' names.
func (w *wearPlaces) items(visit func(at int, item *wear.Item, in string, edge bool)) {
	for i := range w.result.Edges {
		visit(w.edges+i, &w.result.Edges[i], "edges."+w.result.Edges[i].Key, true)
	}
	for i := range w.result.Abrasives {
		visit(w.edges+len(w.result.Edges)+i, &w.result.Abrasives[i], "abrasives."+w.result.Abrasives[i].Key, false)
	}
}

// wearCosts shows what edges and abrasives cost by the metre and the square
// metre, in plain hardwood and in each material, and what a stock weighs. Twin of
// work.SpanOf, work.EdgeCost, work.AbrasiveCost and work.StockDensity.
func (b *book) wearCosts(s *grid.Sheet) {
	p := page{s}
	b.times.first = firstTime
	b.wear = wearPlaces{sheet: s, result: wear.Of(b.study, b.answer.Plan), edges: 5}
	s.Columns = []float64{26, 34, 11, 11, 11, 12, 11, 11, 11, 11, 11, 11, 11, 12, 11, 12, 11}
	s.Protected, s.TabColor = true, grey
	s.Print = grid.Print{Landscape: true, FitWide: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "What edges, abrasives and stock cost and weigh", title)
	p.text(2, 1, "From new to spent in plain hardwood, as expected. Damage (a nick, metal, a drop) ends some lives before an edge is dull; a damaged edge is sharpened like a dull one where it can be.", lead)
	p.text(3, 1, reports.EdgesCut, faint)
	p.headers(4, "key", "name", "a new one", "m or m² until dull", "sharpenings it allows", "what ends them", "sharpened again after a life", "sharpenings it has", "lives, shorter ones in part",
		"mean life until dull", "with damage", "m or m² from new to spent", "cost from new to spent", "cost of a m or m²")
	last := b.wear.edges
	b.wear.items(func(at int, item *wear.Item, in string, edge bool) {
		b.wearRow(p, at, item, in, edge)
		last = at
	})
	at := b.inMaterials(p, last+2)
	s.Print.Breaks = []int{at + 1}
	at = b.densities(p, at+1)
	b.wear.year = at + 4
}

func (b *book) wearRow(p page, at int, item *wear.Item, in string, edge bool) {
	of := func(field string) string { return b.in(in + "." + field) }
	put := func(column int, formula string, value float64, format string) {
		p.calc(at, column, formula, value, numbers(format))
	}
	p.text(at, wearKey, item.Key, plain)
	p.text(at, wearName, item.Name, plain)
	put(wearPrice, of("price"), item.Price, asMoney)
	kept := fmt.Sprintf("IF(%[1]s<1E-6,1-%[1]s/2,-%[1]s/LN(1-%[1]s))", of("sudden_share"))
	spent := cell(at, wearPrice)
	if edge {
		put(wearLife, of("life")+"*1000", item.Life, asNumber)
		spent = b.sharpened(p, at, item, of)
	} else {
		put(wearLife, of("life"), item.Life, asNumber)
		put(wearSharpened, "0", 0, asFine)
		put(wearLives, "1", 1, asFine)
	}
	put(wearFull, fmt.Sprintf("%s*%s/(1+%s)", cell(at, wearLife), cell(at, wearLives), cell(at, wearSharpened)), item.Full, asNumber)
	put(wearMean, cell(at, wearFull)+"*"+kept, item.Mean, asNumber)
	put(wearRun, cell(at, wearMean)+"*(1+"+cell(at, wearSharpened)+")", item.Span.Run, asNumber)
	put(wearSpent, spent, item.Span.Cost, asMoney)
	put(wearUnit, cell(at, wearSpent)+"/"+cell(at, wearRun), item.Cost, "#,##0.0000")
	name := "area_of_" + item.Key
	if edge {
		name = "metre_of_" + item.Key
	}
	b.places[name] = grid.SheetRef(sheetWear, at, wearUnit)
}

// sharpened writes how an edge comes from new to spent and returns what it costs on the way.
func (b *book) sharpened(p page, at int, item *wear.Item, of func(string) string) string {
	put := func(column int, formula string, value any, format string) {
		p.calc(at, column, formula, value, numbers(format))
	}
	usable, sound := cell(at, wearUsable), cell(at, wearSound)
	put(wearUsable, fmt.Sprintf("IF(AND(%[1]s>0,%[2]s>0),MIN(%[3]s,ROUNDDOWN(ROUND(%[2]s/%[1]s,6),0)),%[3]s)",
		of("size_lost"), of("size_spare"), of("sharpenings")), item.Span.Usable, asCount)
	ends := "number"
	if item.Span.BySize {
		ends = "size"
	}
	put(wearEnds, fmt.Sprintf("IF(%s<%s,\"size\",\"number\")", usable, of("sharpenings")), ends, asGeneral)
	put(wearSound, fmt.Sprintf("1-%s*%s", of("sudden_share"), of("damage_spends")), item.Sound, asPercent)
	put(wearSharpened, fmt.Sprintf("IF(%[1]s=1,%[2]s,%[1]s*(1-%[1]s^%[2]s)/(1-%[1]s))", sound, usable), item.Span.Sharpened, asFine)
	ratio := fmt.Sprintf("(%s*(1-%s))", sound, of("life_lost"))
	put(wearLives, fmt.Sprintf("IF(%[1]s=1,%[2]s+1,(1-%[1]s^(%[2]s+1))/(1-%[1]s))", ratio, usable), item.Span.Lives, asFine)
	return fmt.Sprintf("%s+%s*(%s+%s)", cell(at, wearPrice), cell(at, wearSharpened), of("sharpening_price"), of("errand"))
}

// inMaterials writes the cost of a metre or square metre in each material and
// returns the row below.
func (b *book) inMaterials(p page, at int) int {
	columns := len(b.study.Materials) + 2
	p.band(at, max(columns, wearColumns-1), "Cost of a m or m² in each material")
	titles := []string{"key", "name"}
	for i := range b.study.Materials {
		titles = append(titles, b.study.Materials[i].Name)
		if i+3 > len(p.Columns) {
			p.Columns = append(p.Columns, 11)
		}
	}
	p.headers(at+1, titles...)
	at += 2
	b.wear.items(func(from int, item *wear.Item, _ string, edge bool) {
		p.text(at, 1, item.Key, plain)
		p.text(at, 2, item.Name, plain)
		for i := range b.study.Materials {
			material, factor, field := &b.study.Materials[i], float64(b.study.Materials[i].AbrasiveLife), ".abrasive_life"
			if edge {
				factor, field = float64(material.EdgeLife), ".edge_life"
			}
			p.calc(at, 3+i, cell(from, wearUnit)+"/"+b.in("materials."+material.Key+field), item.Cost/factor, numbers("#,##0.0000"))
		}
		at++
	})
	return at
}

// densities writes what each stock weighs and returns the row below.
func (b *book) densities(p page, at int) int {
	p.bands(at, wearColumns-1, map[int]string{1: "What a stock weighs, kg/m³", 4: "as given, or from a specific gravity and moisture"})
	at++
	for i := range b.study.Materials {
		material := &b.study.Materials[i]
		in := "materials." + material.Key
		formula := fmt.Sprintf("IF(%[1]s>0,1000*%[1]s*(1+%s),%s)", b.in(in+".specific_gravity"), b.in(in+".moisture"), b.in(in+".density"))
		p.text(at, 1, material.Key, plain)
		p.text(at, 2, material.Name, plain)
		p.calc(at, 3, formula, float64(work.StockDensity(material)), numbers("#,##0.0000"))
		b.places["density_of_"+material.Key] = grid.SheetRef(sheetWear, at, 3)
		at++
	}
	return at
}
