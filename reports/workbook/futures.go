package workbook

import (
	"fmt"
	"slices"
	"strings"

	"shopstint/capital/decision/futures"
	"shopstint/reports"
	"shopstint/reports/workbook/grid"
)

// Columns of the table of choices.
const (
	futureChoice = iota + 1
	futureMean
	futureMeanError
	futureBetter
	futureBetterError
	futureCheapest
	futureRegret
	futureLow
	futureMiddle
	futureHigh
	futureColumns
)

// besidePage is the first column of the figures that the pictures are made of.
const besidePage = futureColumns + 2

// mostCurves is how many choices a picture has room for, beside renting.
const mostCurves = 5

// futures shows what the sampled futures say: each choice against renting, the
// curve of what it saves, and the money spent to date with its band.
func (b *book) futures(s *grid.Sheet) {
	p, said := page{s}, b.said.Futures
	s.Columns = []float64{62, 14, 12, 14, 12, 14, 14, 14, 14, 14}
	s.Protected, s.TabColor = true, rust
	s.Print = grid.Print{Landscape: true, FitWide: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Futures: what ranges and luck make of the answer", title)
	b.stamp(p, 1, 4)
	at := p.sentences(2, append([]string{said.InWords, said.BestWords}, said.Notes...), lead)
	b.futureCharts(p, at+1, said)
	at += 1 + chartHeight/pixelsARow
	p.headers(at+1, "choice", "better than renting, mean, present", "± error", "cheaper than renting in", "± error", "cheapest of all in", "regret, mean", "5 % of futures are worse than", "half", "95 %")
	at += 2
	for _, choice := range said.Choices {
		b.futureRow(p, at, &choice)
		at++
	}
	s.Print.Area = span(1, 1, b.knowing(p, at+1, said), futureColumns-1)
}

func (b *book) futureRow(p page, at int, choice *reports.FutureChoice) {
	p.text(at, futureChoice, choiceName(choice), plain)
	for column, value := range map[int]float64{
		futureMean: choice.Difference.Mean.Value, futureMeanError: choice.Difference.Mean.Error, futureRegret: choice.Regret.Value,
		futureLow: choice.Difference.Percentiles[0].Value, futureMiddle: choice.Difference.Percentiles[2].Value, futureHigh: choice.Difference.Percentiles[4].Value,
	} {
		p.number(at, column, value, numbers(asMoney0))
	}
	for column, value := range map[int]float64{futureBetter: choice.Better.Value, futureBetterError: choice.Better.Error, futureCheapest: choice.Cheapest.Value} {
		p.number(at, column, value, numbers(asPercent))
	}
}

func choiceName(choice *reports.FutureChoice) string {
	if len(choice.Owned) == 0 {
		return "rent everything"
	}
	return strings.Join(choice.Owned, " + ")
}

// knowing lists the inputs most worth knowing beforehand.
func (b *book) knowing(p page, at int, said *reports.Futures) int {
	p.headers(at, "worth knowing beforehand", "present", "± error")
	p.text(at+1, 1, "everything", plain)
	p.number(at+1, 2, said.Perfect.Value, numbers(asMoney0))
	p.number(at+1, 3, said.Perfect.Error, numbers(asMoney0))
	for i, one := range said.Knowing {
		p.text(at+2+i, 1, one.Label, plain)
		p.number(at+2+i, 2, one.Worth.Value, numbers(asMoney0))
		p.number(at+2+i, 3, one.Worth.Error, numbers(asMoney0))
	}
	return at + 2 + len(said.Knowing)
}

// pictured are the choices in the pictures: the best on average and then each
// machine by itself.
func pictured(said *reports.Futures) []int {
	list := []int{said.Best}
	for c := range said.Choices {
		if len(said.Choices[c].Owned) == 1 && c != said.Best && len(list) < mostCurves {
			list = append(list, c)
		}
	}
	return slices.DeleteFunc(list, func(c int) bool { return len(said.Choices[c].Owned) == 0 })
}

// futureCharts draw the curves, whose figures stand beside the page.
func (b *book) futureCharts(p page, chart int, said *reports.Futures) {
	if curves := b.curveColumns(p, 3, said); len(curves) > 0 { // none where nothing may be owned
		p.Charts = append(p.Charts, grid.Chart{
			Kind: grid.Scatter, Title: "What owning saves: share of futures that stay below", Cell: cell(chart, 1), Width: 640, Height: chartHeight,
			AltText: "rising curves of the share of futures below each saving", X: grid.Axis{Title: b.study.Currency + " better than renting, present", Format: "#,##0"},
			Y: grid.Axis{Title: "share of futures", Format: "0%"}, Series: curves,
		})
	}
	at := 5 + len(said.Choices[said.Best].Curve)
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Scatter, Title: "Money spent to date: renting everything, and the best choice, with their bands", Cell: cell(chart, 5), Width: 620, Height: chartHeight,
		AltText: "curves of cost to date by year with the band of nine futures in ten", X: grid.Axis{Title: "years", Format: "0"},
		Y: grid.Axis{Title: b.study.Currency + " present, after tax", Format: "#,##0"}, Series: b.bandColumns(p, at, said),
	})
}

func (b *book) curveColumns(p page, at int, said *reports.Futures) []grid.Series {
	var series []grid.Series
	for i, c := range pictured(said) {
		choice, column := &said.Choices[c], besidePage+2*i
		p.text(at, column, "better by: "+choiceName(choice), faint)
		p.text(at, column+1, "share below", faint)
		for k, point := range choice.Curve {
			p.number(at+1+k, column, point.Difference, memo(asMoney0))
			p.number(at+1+k, column+1, point.Below, memo(asPercent))
		}
		last := at + len(choice.Curve)
		series = append(series, grid.Series{Name: choiceName(choice), Categories: grid.RangeRef(sheetFutures, at+1, column, last, column),
			Values: grid.RangeRef(sheetFutures, at+1, column+1, last, column+1), Color: machineColours[i%len(machineColours)]})
	}
	return series
}

// bandColumns write the cost to date of renting everything and of the best
// choice: the middle, and what nine futures in ten lie between.
func (b *book) bandColumns(p page, at int, said *reports.Futures) []grid.Series {
	var series []grid.Series
	choices := []int{0}
	if said.Best != 0 && len(said.Choices[said.Best].Years) > 0 {
		choices = append(choices, said.Best)
	}
	p.text(at, besidePage, "year", faint)
	for t := range said.Choices[0].Years {
		p.number(at+1+t, besidePage, float64(t), memo(asCount))
	}
	for i, c := range choices {
		name := choiceName(&said.Choices[c])
		for k, part := range [...]struct {
			label string
			of    func(futures.YearBand) float64
			dash  grid.Dash
		}{
			{"half", func(y futures.YearBand) float64 { return y.Median }, grid.DashSolid},
			{"5 %", func(y futures.YearBand) float64 { return y.Low }, grid.DashShort},
			{"95 %", func(y futures.YearBand) float64 { return y.High }, grid.DashShort},
		} {
			column := besidePage + 1 + 3*i + k
			p.text(at, column, fmt.Sprintf("%s: %s", part.label, name), faint)
			for t, year := range said.Choices[c].Years {
				p.number(at+1+t, column, part.of(year), memo(asMoney0))
			}
			last := at + len(said.Choices[c].Years)
			series = append(series, grid.Series{Name: part.label + ": " + name, Categories: grid.RangeRef(sheetFutures, at+1, besidePage, last, besidePage),
				Values: grid.RangeRef(sheetFutures, at+1, column, last, column), Color: [...]string{sky, rust}[i], Dash: part.dash})
		}
	}
	return series
}
