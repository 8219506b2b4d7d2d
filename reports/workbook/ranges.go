package workbook

import (
	"shopstint/model"
	"shopstint/reports/workbook/grid"
)

// mostRanked is how many inputs are listed for each machine.
const mostRanked = 15

// ranges lists, for each machine, the inputs that move its answer most between
// the ends of their range, and where the answer turns. The program solved
// them for the inputs as given.
func (b *book) ranges(s *grid.Sheet) {
	p := page{s}
	s.Columns = []float64{58, 12, 14, 12, 12, 12, 16, 16, 16, 14}
	s.Freeze, s.Protected, s.TabColor = "A4", true, rust
	s.Print = grid.Print{Landscape: true, FitWide: 1, TitleRows: 3, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Which inputs matter most", title)
	p.text(2, 1, "One input at a time is moved to the ends of its range, all else as given. Solved by the program; replace assumed inputs from the top.", lead)
	b.stamp(p, 1, 5)
	p.headers(3, "input", "status", "unit", "now", "low", "high", "saved less owning, at low", "saved less owning, at high", "swing", "answer turns at")
	leaves := map[string]model.Leaf{}
	model.Walk(b.study, func(leaf model.Leaf) { leaves[leaf.Path] = leaf })
	at := 4
	for m := range b.answer.Machines {
		machine := &b.study.Machines[m]
		p.band(at, 10, machine.Name+" ("+machine.Key+"): "+b.answer.Machines[m].Verdict.String())
		at++
		for _, swing := range b.answer.Machines[m].Swings[:min(mostRanked, len(b.answer.Machines[m].Swings))] {
			leaf := leaves[swing.Path]
			dim, _ := leaf.Dimension()
			shown := unitOf(leaf, dim, b.system)
			style := numbers(asGeneral)
			if shown.symbol == "" && shown.dim == 0 {
				style = numbers(asPercent)
			}
			p.text(at, 1, swing.Path, plain)
			p.text(at, 2, map[bool]string{true: "assumed", false: "given"}[swing.Assumed], plain)
			p.text(at, 3, b.unitText(shown, dim), plain)
			for i, value := range [...]float64{swing.Value, swing.Low, swing.High} {
				p.number(at, 4+i, shown.of(value), style)
			}
			p.number(at, 7, swing.AtLow, numbers(asMoney0))
			p.number(at, 8, swing.AtHigh, numbers(asMoney0))
			p.number(at, 9, swing.Size(), grid.Style{NumberFormat: asMoney0, Bold: true})
			if swing.Switches {
				p.number(at, 10, rounded(shown.of(swing.Switch)), style)
			} else {
				p.text(at, 10, "not in range", faint)
			}
			at++
		}
		at++
	}
}
