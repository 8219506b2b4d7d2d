package workbook

import (
	"strings"

	"shopstint/capital/decision/roadmap"
	"shopstint/reports/workbook/grid"
)

// palette of machines in a picture; it begins again where there are more.
var machineColours = [...]string{slate, rust, sky, moss, "C9A227", "9A86A4", sand, "7FB3A6"}

// roadmap shows what to buy, replace and sell in which year, as the program
// solved it, and what that takes out of the account.
func (b *book) roadmap(s *grid.Sheet) {
	p, said := page{s}, &b.said.Roadmap
	s.Columns = []float64{34}
	for range b.horizon() + 1 {
		s.Columns = append(s.Columns, 15)
	}
	s.Freeze, s.Protected, s.TabColor = "B3", true, moss
	s.Print = grid.Print{Landscape: true, FitWide: 1, FitTall: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Which machine in which year", title)
	b.stamp(p, 1, 5)
	at := p.sentences(2, nonEmpty(said.InWords, said.YearsInWords, said.Next), lead)
	if said.Why != "" {
		return
	}
	b.roadmapTable(p, at+1, &b.answer.Roadmap.Best)
}

// roadmapTable lays the years out: what is done, and what it costs by machine.
func (b *book) roadmapTable(p page, at int, best *roadmap.Roadmap) {
	head := at
	p.text(head, 1, "year", header)
	for i, label := range [...]string{"bought", "replaced", "sold", "money for machines", "fetched by what is sold", "money for machines, to date"} {
		p.text(head+1+i, 1, label, text)
	}
	first := head + 8
	p.text(first-1, 1, "money for machines, by machine", section)
	for m := range b.study.Machines {
		p.text(first+m, 1, b.study.Machines[m].Key, plain)
	}
	spent := 0.0
	for t, year := range best.Years {
		column := 2 + t
		p.number(head, column, float64(b.study.StartYear)+float64(t), grid.Style{Bold: true, FontColor: white, Fill: slate, NumberFormat: asGeneral})
		for i, machines := range [...][]int{year.Buy, year.Replace, year.Sell} {
			p.text(head+1+i, column, b.keys(machines), wrapped)
			p.high(head+1+i, max(len(machines), int(p.Heights[head+1+i]/lineHeight)))
		}
		spent += year.Spent
		p.number(head+4, column, year.Spent, numbers(asMoney0))
		p.number(head+5, column, year.Fetched, numbers(asMoney0))
		p.number(head+6, column, spent, memo(asMoney0))
		for m := range b.study.Machines {
			paid := 0.0
			if m < len(year.Paid) {
				paid = year.Paid[m]
			}
			p.number(first+m, column, paid, numbers(asMoney0))
		}
	}
	b.roadmapChart(p, head, first, len(best.Years))
}

func (b *book) keys(machines []int) string {
	var list []string
	for _, m := range machines {
		list = append(list, b.study.Machines[m].Key)
	}
	return strings.Join(list, "\n")
}

func (b *book) roadmapChart(p page, head, first, years int) {
	row := func(row int) string { return grid.RangeRef(sheetRoadmap, row, 2, row, 1+years) }
	var series []grid.Series
	for m := range b.study.Machines {
		series = append(series, grid.Series{Name: b.study.Machines[m].Key, Categories: row(head), Values: row(first + m), Color: machineColours[m%len(machineColours)]})
	}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.ColumnStacked, Title: "Money for machines, year by year", Cell: cell(first+len(b.study.Machines)+1, 1), Width: 1000, Height: 340,
		AltText: "stacked columns of what is paid for machines in each year", X: grid.Axis{Title: "year", Format: "0"}, Y: grid.Axis{Title: b.study.Currency + " at the start of the year", Format: "#,##0"}, Series: series,
	})
}
