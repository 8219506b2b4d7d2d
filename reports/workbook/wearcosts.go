package workbook

import (
	"fmt"

	"shopstint/model/work"
	"shopstint/reports/workbook/grid"
)

// wearCosts shows what edges and abrasives cost by the metre and the square
// metre, and what a stock weighs. Twin of work.EdgeCost, work.AbrasiveCost and work.StockDensity.
func (b *book) wearCosts(s *grid.Sheet) {
	p := page{s}
	s.Columns = []float64{34, 34, 18, 60}
	s.Protected, s.TabColor = true, grey
	s.Print = grid.Print{FitWide: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "What edges, abrasives and stock cost and weigh", title)
	p.text(2, 1, "In plain hardwood; each material's own factors come on top in the job times.", lead)
	p.headers(3, "key", "name", "figure", "meaning")
	row := 4
	for i := range b.study.Edges {
		edge := &b.study.Edges[i]
		b.wearRow(p, row, "metre_of_"+edge.Key, edge.Key, edge.Name, b.edgeFormula(edge.Key), work.EdgeCost(edge), "for each metre run: a new edge and its sharpenings over all the metres they give")
		row++
	}
	for i := range b.study.Abrasives {
		abrasive := &b.study.Abrasives[i]
		in := "abrasives." + abrasive.Key
		formula := b.in(in+".price") + "/" + b.in(in+".life")
		b.wearRow(p, row, "area_of_"+abrasive.Key, abrasive.Key, abrasive.Name, formula, work.AbrasiveCost(abrasive), "for each m² passed")
		row++
	}
	for i := range b.study.Materials {
		material := &b.study.Materials[i]
		in := "materials." + material.Key
		formula := fmt.Sprintf("IF(%[1]s>0,1000*%[1]s*(1+%s),%s)", b.in(in+".specific_gravity"), b.in(in+".moisture"), b.in(in+".density"))
		b.wearRow(p, row, "density_of_"+material.Key, material.Key, material.Name, formula, float64(work.StockDensity(material)), "kg/m³: as given, or from a specific gravity and moisture")
		row++
	}
}

func (b *book) wearRow(p page, row int, name, key, label, formula string, value float64, meaning string) {
	p.text(row, 1, key, plain)
	p.text(row, 2, label, plain)
	p.calc(row, 3, formula, value, numbers("#,##0.0000"))
	p.text(row, 4, meaning, faint)
	b.places[name] = grid.SheetRef(sheetWear, row, 3)
}

func (b *book) edgeFormula(key string) string {
	in := func(field string) string { return b.in("edges." + key + "." + field) }
	n, lost := in("sharpenings"), in("life_lost")
	lives := fmt.Sprintf("IF(%[1]s=0,%[2]s+1,(1-(1-%[1]s)^(%[2]s+1))/%[1]s)", lost, n)
	return fmt.Sprintf("(%s+%s*(%s+%s))/(%s*1000*%s)", in("price"), n, in("sharpening_price"), in("errand"), in("life"), lives)
}
