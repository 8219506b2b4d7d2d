package workbook

import (
	"fmt"
	"math"
	"strings"

	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// Columns of the table of sets.
const (
	setRank = iota + 1
	setMachines
	setCost
	setSaving
	setOver
	setCash
	setFloor
	setAmps
	setColumns
)

// together shows which machines to own together, as the program solved it: the
// best sets, what one machine is worth beside another, and the limits.
func (b *book) together(s *grid.Sheet) {
	p, said := page{s}, &b.said.Joint
	s.Columns = []float64{30, 62, 15, 15, 15, 15, 13, 13}
	s.Protected, s.TabColor = true, moss
	s.Print = grid.Print{Landscape: true, FitWide: 1, FitTall: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Which machines to own together", title)
	b.stamp(p, 1, 3)
	at := p.sentences(2, jointLines(said), lead)
	at = p.caution(at, reports.SupplyCaution)
	at = b.setTable(p, at+1, said)
	at = b.heldTable(p, at+1, said)
	b.worthTable(p, at+1, said)
}

// jointLines are the sentences of the joint answer.
func jointLines(said *reports.Joint) []string {
	lines := []string{"Together: " + said.Verdict}
	lines = append(lines, nonEmpty(said.Saving, said.Next)...)
	lines = append(lines, said.Limits...)
	return append(lines, nonEmpty(said.Proof)...)
}

func (b *book) setTable(p page, at int, said *reports.Joint) int {
	p.headers(at, "set", "machines owned", "everything costs, a year", "better than renting, a year", "dearer than the best, a year", "cash on the day", "floor m²", "supply A, planned")
	sets := append([]reports.Set{said.Best}, said.Others...)
	for i, set := range sets {
		b.setRow(p, at+1+i, fmt.Sprintf("%d", i+1), &set)
	}
	at += 1 + len(sets)
	b.setRow(p, at, "best of one machine", &said.Single)
	return at + 1
}

func (b *book) setRow(p page, at int, rank string, set *reports.Set) {
	names := set.InWords
	if len(set.Machines) == 0 {
		names = "none: rent everything"
	}
	p.text(at, setRank, rank, plain)
	p.text(at, setMachines, names, wrapped)
	p.high(at, p.lines(names, setMachines-1))
	for column, value := range map[int]float64{setCost: set.CostAnnual, setSaving: set.SavingAnnual, setOver: set.OverAnnual, setCash: set.Cash} {
		p.number(at, column, value, numbers(asMoney0))
	}
	p.number(at, setFloor, set.Area, numbers(asNumber))
	p.number(at, setAmps, set.Amps, numbers(asNumber))
}

// heldTable shows what holds the choice down, and the next step that would
// change it.
func (b *book) heldTable(p page, at int, said *reports.Joint) int {
	if len(said.Held) == 0 {
		p.text(at, 1, "no limit of money, floor or supply is given in the study", faint)
		return at + 1
	}
	p.headers(at, "limit", "its input, and what more of it would bring", "most", "used by the best", "more by", "then better by, a year")
	for i, held := range said.Held {
		row := at + 1 + i
		p.text(row, 1, held.On+" ("+held.Unit+")", plain)
		p.number(row, 3, held.Most, numbers(asNumber))
		p.number(row, 4, held.Used, numbers(asNumber))
		if !held.More.Known {
			p.text(row, 2, held.Path+": "+map[bool]string{true: "no cheaper set is kept out by it", false: "not looked for"}[held.Known], plain)
			continue
		}
		p.text(row, 2, held.Path+": "+strings.Join(held.Machines, " + "), plain)
		p.number(row, 5, held.More.Value, numbers(asNumber))
		p.number(row, 6, held.GainAnnual, numbers(asMoney0))
	}
	return at + 1 + len(said.Held)
}

// worthTable is what each machine saves alone, in the best set, and once
// another is owned, in present amounts, shaded by size.
func (b *book) worthTable(p page, at int, said *reports.Joint) {
	p.band(at, setColumns-1, "What each machine saves, present worth: by itself, in the best set, and once the machine of the line is owned")
	head := at + 1
	p.text(head, 2, "once this one is owned", header)
	p.text(head+1, 2, "none: by itself", grid.Style{Bold: true})
	p.text(head+2, 2, "the best set", grid.Style{Bold: true})
	most := 0.0
	for m, worth := range said.Worths {
		p.text(head, 3+m, worth.Key, header)
		for len(p.Columns) < 3+m {
			p.Columns = append(p.Columns, 13)
		}
		p.number(head+1, 3+m, worth.Alone, numbers(asMoney0))
		p.number(head+2, 3+m, worth.InBest, numbers(asMoney0))
		most = math.Max(most, math.Max(math.Abs(worth.Alone), math.Abs(worth.InBest)))
	}
	for a := range said.Worths {
		row := head + 3 + a
		p.text(row, 2, said.Worths[a].Key, plain)
		for m, worth := range said.Worths {
			if m == a {
				p.text(row, 3+m, "–", grid.Style{FontColor: grey, Align: grid.AlignRight})
				continue
			}
			p.number(row, 3+m, worth.After[a], numbers(asMoney0))
			most = math.Max(most, math.Abs(worth.After[a]))
		}
	}
	b.heat(p, head+1, 3, head+2+len(said.Worths), 2+len(said.Worths), most)
	b.worthChart(p, head, len(said.Worths))
}

// heatSteps are the shares of the largest amount from which a cell is shaded.
var heatSteps = [...]struct {
	share        float64
	saves, costs string
}{{0.6, "9CC5A6", "E2A78E"}, {0.25, "C3DECA", "EFCBBC"}, {0, "E4F0E7", "F8E8E1"}}

// heat shades a table of amounts by their size, above and below nothing.
func (b *book) heat(p page, row1, col1, row2, col2 int, most float64) {
	all, corner := span(row1, col1, row2, col2), cell(row1, col1)
	for _, step := range heatSteps {
		edge := step.share * most
		p.Conditions = append(p.Conditions,
			grid.Condition{Range: all, Formula: fmt.Sprintf("AND(ISNUMBER(%[1]s),%[1]s>%[2]g)", corner, edge), Style: grid.Style{Fill: step.saves}},
			grid.Condition{Range: all, Formula: fmt.Sprintf("AND(ISNUMBER(%[1]s),%[1]s<%[2]g)", corner, -edge), Style: grid.Style{Fill: step.costs}})
	}
}

func (b *book) worthChart(p page, head, machines int) {
	row := func(row int) string { return grid.RangeRef(sheetTogether, row, 3, row, 2+machines) }
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Column, Title: "What each machine saves: by itself, and in the best set", Cell: cell(head+5+machines, 1), Width: 1000, Height: 300,
		AltText: "columns of what each machine saves by itself and in the best set", X: grid.Axis{LabelsLow: true}, Y: grid.Axis{Title: b.study.Currency + " present, after tax", Format: "#,##0"},
		Series: []grid.Series{
			{Name: "by itself", Categories: row(head), Values: row(head + 1), Color: sky},
			{Name: "in the best set", Categories: row(head), Values: row(head + 2), Color: moss},
		},
	})
}
