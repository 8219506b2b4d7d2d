package workbook

import (
	"fmt"

	"shopstint/capital/decision/ways"
	"shopstint/model"
	"shopstint/model/work"
	"shopstint/reports/workbook/grid"
)

// Columns of the table of what the ways run.
const (
	runKey = iota + 1
	runName
	runUsable
	runSound
	runSharpened
	runSpent
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
	at := b.runTable(p, 4)
	for i := range b.answer.Comparisons {
		s.Print.Breaks = append(s.Print.Breaks, at)
		block := b.placeWays(i, at)
		at = b.wayBlock(p, block)
	}
}

// runTable shows what the ways run and returns the row below.
func (b *book) runTable(p page, at int) int {
	p.headers(at, "what the ways run", "name", "sharpenings it allows", "sound after a life", "sharpenings it has", "run until spent, m or m²", "changes for each m or m²",
		"cost for each m or m²", "minutes of a change", "times longer as it dulls")
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
			b.edgeRun(p, at, &b.study.Edges[i])
		}
	}
	for i := range b.study.Abrasives {
		if abrasives[b.study.Abrasives[i].Key] {
			at++
			b.abrasiveRun(p, at, &b.study.Abrasives[i])
		}
	}
	return at + 2
}

// edgeRun follows an edge from new to spent. Twin of work.SpanOf.
func (b *book) edgeRun(p page, at int, edge *model.Edge) {
	in := func(key string) string { return b.in("edges." + edge.Key + "." + key) }
	here := func(column int) string { return cell(at, column) }
	span := work.SpanOf(edge)
	sound := 1 - float64(edge.SuddenShare)*float64(edge.DamageSpends)
	b.runName(p, at, "edges", edge.Key, edge.Name)
	p.calc(at, runUsable, fmt.Sprintf("IF(AND(%[2]s>0,%[3]s>0),MIN(%[1]s,INT(ROUND(%[3]s/%[2]s,6))),%[1]s)", in("sharpenings"), in("size_lost"), in("size_spare")), span.Usable, numbers(asCount))
	p.calc(at, runSound, fmt.Sprintf("1-%s*%s", in("sudden_share"), in("damage_spends")), sound, numbers(asPercent))
	p.calc(at, runSharpened, fmt.Sprintf("IF(%[1]s=1,%[2]s,%[1]s*(1-%[1]s^%[2]s)/(1-%[1]s))", here(runSound), here(runUsable)), span.Sharpened, numbers(asFine))
	lives := fmt.Sprintf("IF(%[1]s*(1-%[2]s)=1,%[3]s+1,(1-(%[1]s*(1-%[2]s))^(%[3]s+1))/(1-%[1]s*(1-%[2]s)))", here(runSound), in("life_lost"), here(runUsable))
	p.calc(at, runSpent, fmt.Sprintf("%s*1000*%s*%s", in("life"), lives, keptFormula(in("sudden_share"))), span.Run, numbers(asNumber))
	p.calc(at, runChanges, fmt.Sprintf("(1+%s)/%s", here(runSharpened), here(runSpent)), (1+span.Sharpened)/span.Run, numbers("0.0000"))
	b.runCosts(p, at, "metre_of_"+edge.Key, work.EdgeCost(edge), "edges."+edge.Key, edge.ChangeTime.Minutes(), ways.Slowing(float64(edge.DullFeed), float64(edge.SuddenShare)))
}

func (b *book) abrasiveRun(p page, at int, abrasive *model.Abrasive) {
	in := func(key string) string { return b.in("abrasives." + abrasive.Key + "." + key) }
	run := work.AbrasiveRun(abrasive)
	b.runName(p, at, "abrasives", abrasive.Key, abrasive.Name)
	p.calc(at, runSpent, in("life")+"*"+keptFormula(in("sudden_share")), run, numbers(asNumber))
	p.calc(at, runChanges, "1/"+cell(at, runSpent), 1/run, numbers("0.0000"))
	b.runCosts(p, at, "area_of_"+abrasive.Key, work.AbrasiveCost(abrasive), "abrasives."+abrasive.Key, abrasive.ChangeTime.Minutes(), ways.Slowing(float64(abrasive.DullFeed), float64(abrasive.SuddenShare)))
}

func (b *book) runName(p page, at int, list, key, label string) {
	p.text(at, runKey, key, plain)
	p.text(at, runName, label, plain)
	b.places["ways."+list+"."+key] = fmt.Sprint(at)
}

// runCosts are the columns that an edge and an abrasive have in common.
func (b *book) runCosts(p page, at int, cost string, value float64, path string, change, slower float64) {
	p.calc(at, runCost, b.in(cost), value, numbers("0.0000"))
	p.calc(at, runChange, b.in(path+".change_time"), change, numbers(asNumber))
	// The mean age of what ends dull or by damage, in shares of a full life.
	meanAge := fmt.Sprintf("IF(%[1]s<0.001,0.5+LN(1-%[1]s)/12,-1/LN(1-%[1]s)-(1-%[1]s)/%[1]s)", b.in(path+".sudden_share"))
	p.calc(at, runSlower, fmt.Sprintf("1+%[1]s/(1-%[1]s)*(%[2]s)", b.in(path+".dull_feed"), meanAge), slower, numbers(asFine))
}

// keptFormula is the twin of work.Kept.
func keptFormula(sudden string) string {
	return fmt.Sprintf("IF(%[1]s<1E-9,1,%[1]s/-LN(1-%[1]s))", sudden)
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
