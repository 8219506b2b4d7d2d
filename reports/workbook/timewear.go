package workbook

import (
	"fmt"

	"shopstint/capital/decision"
	"shopstint/model"
	"shopstint/model/wear"
	"shopstint/model/work"
	"shopstint/reports/workbook/grid"
)

// yearly writes what a row takes of its edge or abrasive in a year. Twin of wear.Of.
func (f timeFormulas) yearly(p page) {
	item, life, run, column, factor := "", 0.0, f.row.Metres, timeMetres, "edge_life"
	material := work.MaterialOf(f.b.study, f.row.Job)
	switch edge, abrasive := f.row.Wears(f.b.study); {
	case edge != nil:
		item, life = "edges."+edge.Key, float64(material.EdgeLife)
	case abrasive != nil:
		item, life, run, column, factor = "abrasives."+abrasive.Key, float64(material.AbrasiveLife), f.row.Area, timeArea, "abrasive_life"
	default:
		return
	}
	year := float64(f.kind.PerYear) * wear.Times(f.kind, f.row)
	if !wear.Counts(f.row) {
		year = 0
	}
	hours := year * f.row.Rubbing(f.b.study).Hours()
	if run == 0 {
		hours = 0
	}
	p.text(f.at, timeWears, wearsText(item, decision.RowMachinePath(f.b.study, f.row)), plain)
	p.calc(f.at, timeYear, f.times()+"*"+cell(f.at, column), year*run, numbers(asNumber))
	p.calc(f.at, timePlain, cell(f.at, timeYear)+"/"+f.stock(factor), year*run/life, numbers(asNumber))
	p.calc(f.at, timeHours, fmt.Sprintf("IF(%s=0,0,%s*%s/60)", cell(f.at, column), f.times(), f.rubbing()), hours, numbers(asNumber))
}

// wearsText names an edge or abrasive on a machine, by their paths.
func wearsText(item, machine string) string { return item + " on " + machine }

// times is how often a year the row's step is done: the twin of wear.Counts and wear.Times.
func (f timeFormulas) times() string {
	counts, again := timeUsed, f.b.in("job_types."+f.kind.Key+".rework_chance")
	switch f.row.Site {
	case work.AtStudio:
		counts = timeFits
	case work.AtShop:
		again += "*" + f.b.in("job_types."+f.kind.Key+".rework_visits")
	}
	return fmt.Sprintf("%s*%s*(1+%s*%s)", cell(f.at, counts), f.b.in("job_types."+f.kind.Key+".per_year"), cell(f.at, timeRepeat), again)
}

// rubbing is the twin of work's Rubbing, in minutes.
func (f timeFormulas) rubbing() string {
	switch class := f.ability.Class; {
	case f.operation.Measured > 0:
		return cell(f.at, timeRun)
	case class == model.Planer || class == model.WideBelt || class == model.Router || f.saws():
		return cell(f.at, timeMetres) + "/" + f.feed()
	}
	return cell(f.at, timeArea) + "*" + f.of("area_time")
}

// yearOf sums a column of the job times over an edge or abrasive on a machine.
func (b *book) yearOf(column int, item, machine string) string {
	last := b.times.row(len(b.answer.Plan.Rows)) - 1
	at := func(column int) string { return grid.RangeRef(sheetTimes, b.times.first, column, last, column) }
	return "SUMIFS(" + at(column) + "," + at(timeWears) + "," + grid.Quote(wearsText(item, machine)) + ")"
}
