package workbook

import (
	"fmt"
	"strings"

	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// answerChartHeight is the height of the answer's chart, in pixels.
const answerChartHeight = 300

// Columns of the answer's table.
const (
	answerMachine = iota + 1
	answerVerdict
	answerAnnual
	answerSaved
	answerOwning
	answerCash
	answerJobs
	answerBreakEven
	answerTurns
)

// answerSheet is the first page: what to do about each machine, why, what
// would turn it, what was assumed and what is not priced.
func (b *book) answerSheet(s *grid.Sheet) {
	p, said := page{s}, &b.said
	s.Columns = []float64{30, 18, 14, 14, 14, 14, 12, 14, 84}
	s.Protected, s.TabColor = true, slate
	s.Print = grid.Print{Landscape: true, FitWide: 1, FitTall: 1, Footer: "&L&F&C&A&R&P of &N"}
	p.text(1, 1, said.Title, title)
	p.text(2, 1, fmt.Sprintf("Rent the machines by the hour, or own them? %s, from %d; %s.", said.RentingInWords, said.StartYear, said.RentingParts), lead)
	b.lights(p)
	p.headers(5, "machine", "answer", "owning is better by, a year", "renting saved a year", "owning a year", "cash on the day", "jobs a year", "breaks even at jobs", "what would turn it")
	for m := range said.Machines {
		b.answerRow(p, 6+m, m, &said.Machines[m])
	}
	last := 5 + len(said.Machines)
	b.verdictColours(s, last)
	last = b.togetherLines(p, last+1)
	b.answerChart(p, len(said.Machines)+5, last)
	b.closing(p, last+3+answerChartHeight/pixelsARow, said)
	for _, link := range [...]string{sheetInputs, sheetTimes, sheetVisits, sheetInvoice, sheetOwning, sheetBreakEven, sheetSensitivity, sheetTogether, sheetRoadmap} {
		col := len(s.Links) + 1
		p.text(4, col, link, linked)
		s.Links = append(s.Links, grid.Link{Cell: cell(4, col), Target: "'" + link + "'!A1"})
	}
}

// lights are the overall check and whether what was solved still belongs to the
// inputs.
func (b *book) lights(p page) {
	light := map[bool]string{true: "all checks hold", false: "a check fails: see Checks"}
	p.calc(3, 1, fmt.Sprintf(`IF(%s=1,"%s","%s")`, b.in("all_checks_hold"), light[true], light[false]), light[b.allHold()], grid.Style{Bold: true, FontColor: moss})
	b.stamp(p, 3, 3)
	p.text(3, answerTurns, "What the program solved is brought up to date by: shopstint decide THIS FILE", faint)
	p.Conditions = append(p.Conditions, grid.Condition{Range: "A3", Formula: b.in("all_checks_hold") + "=0", Style: grid.Style{Fill: "F4D9CE", FontColor: rust, Bold: true}})
}

func (b *book) answerRow(p page, at, m int, said *reports.Machine) {
	result, o := &b.answer.Machines[m], &b.own[m]
	money := grid.Style{NumberFormat: asMoney0, VAlign: grid.VAlignTop}
	p.text(at, answerMachine, said.Name, grid.Style{Bold: true, Wrap: true, VAlign: grid.VAlignTop})
	p.calc(at, answerVerdict, o.fact(factVerdict), result.Verdict.String(), grid.Style{Bold: true, VAlign: grid.VAlignTop})
	p.calc(at, answerAnnual, o.fact(factAnnual), result.Annual, money)
	p.calc(at, answerSaved, cell(at, answerAnnual)+"+"+cell(at, answerOwning), result.Annual+result.OwningAnnual, money)
	p.calc(at, answerOwning, o.fact(factOwningAnnual), result.OwningAnnual, money)
	p.calc(at, answerCash, o.fact(factCash), result.CashNeeded, money)
	p.calc(at, answerJobs, o.fact(factJobs), result.Jobs, grid.Style{NumberFormat: asNumber, VAlign: grid.VAlignTop})
	if crossings := result.BreakEvens[0].Crossings; len(crossings) > 0 {
		var list []string
		for _, crossing := range crossings {
			list = append(list, fmt.Sprintf("%.1f", crossing))
		}
		p.text(at, answerBreakEven, strings.Join(list, ", "), grid.Style{Align: grid.AlignRight, VAlign: grid.VAlignTop, Wrap: true})
	} else {
		p.text(at, answerBreakEven, "never", grid.Style{Align: grid.AlignRight, VAlign: grid.VAlignTop, FontColor: grey})
	}
	p.text(at, answerTurns, said.Turns, wrapped)
	p.high(at, max(p.lines(said.Turns, answerTurns-1), p.lines(said.Name, answerMachine-1)))
}

func (b *book) verdictColours(s *grid.Sheet, last int) {
	for _, rule := range [...]struct{ verdict, fill, ink string }{
		{"buy", "D8E8DC", moss}, {"keep renting", "DCE7F1", "2F5F8A"}, {"too close to call", "F2E8D2", "7A5B1E"},
	} {
		s.Conditions = append(s.Conditions, grid.Condition{Range: span(6, answerVerdict, last, answerVerdict), Formula: fmt.Sprintf(`$B6="%s"`, rule.verdict),
			Style: grid.Style{Fill: rule.fill, FontColor: rule.ink, Bold: true}})
	}
}

// togetherLines says what to own together, and when; it returns the last row.
func (b *book) togetherLines(p page, at int) int {
	said := &b.said
	p.bands(at, answerTurns, map[int]string{1: "All machines together, solved: " + said.Joint.Verdict})
	return p.sentences(at+1, append(jointLines(&said.Joint)[1:], nonEmpty(said.Roadmap.InWords, said.Roadmap.YearsInWords)...), text) - 1
}

// answerChart stands below the row at; its figures end with the row last.
func (b *book) answerChart(p page, last, at int) {
	column := func(column int) string { return grid.RangeRef(sheetAnswer, 6, column, last, column) }
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Column, Title: "Each machine alone: renting it would save, and what owning it costs, a year", Cell: cell(at+2, 1), Width: 1240, Height: answerChartHeight,
		AltText: "columns of what each machine would save in renting and what owning it costs a year",
		X:       grid.Axis{}, Y: grid.Axis{Title: p.yAxis(b), Format: "#,##0", Min: b.fromNothing()},
		Series: []grid.Series{
			{Name: "renting saved", Categories: column(answerMachine), Values: column(answerSaved), Color: sky},
			{Name: "owning", Categories: column(answerMachine), Values: column(answerOwning), Color: rust},
		},
	})
}

// fromNothing lets columns begin at nothing, unless some go below.
func (b *book) fromNothing() *float64 {
	for m := range b.answer.Machines {
		if b.answer.Machines[m].SavedAnnual < 0 || b.answer.Machines[m].OwningAnnual < 0 {
			return nil
		}
	}
	return new(float64)
}

func (page) yAxis(b *book) string { return b.study.Currency + " a year after tax" }

// closing lists what was assumed and, side by side, what is not priced and the
// cautions.
func (b *book) closing(p page, at int, said *reports.Summary) {
	p.band(at, answerTurns, "Assumed: "+said.AssumedInWords)
	for i, input := range said.Assumed {
		p.text(at+1+i, 1, input.InWords, text)
	}
	at += len(said.Assumed) + 2
	p.bands(at, answerTurns, map[int]string{1: "Not priced, so think of it when the money is close", answerJobs: "Cautions"})
	for i, line := range said.NotPriced {
		p.text(at+1+i, 1, line, text)
	}
	for i, line := range said.Cautions {
		p.text(at+1+i, answerJobs, line, text)
	}
}
