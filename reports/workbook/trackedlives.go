package workbook

import (
	"fmt"
	"math"
	"strconv"

	"shopstint/capital/decision/track"
	"shopstint/model/wear/life"
	"shopstint/reports/workbook/grid"
)

// Columns of the table of lives.
const (
	lifeEnded = iota + 2
	lifeDamaged
	lifeGoing
	lifeRun
	lifePaid
	lifeCost
	lifeCostLow
	lifeCostHigh
	lifeStudyCost
	lifeCostRatio
	lifeLasts
	lifeLow
	lifeHigh
	lifeStudy
	lifeRatio
)

// lives lists edges and abrasives, and draws how long those lasted of which one ended.
func (b *trackBook) lives(p page) {
	p.Columns = []float64{40, 9, 11, 9, 12, 12, 12, 11, 11, 13, 13, 13, 11, 11, 13, 13}
	p.text(1, 1, "Edges and abrasives: life and cost", title)
	at := p.sentences(2, []string{"lives are in plain hardwood, the study's range counted in; costs are for each unit as it was run"}, lead)
	p.headers(at, "edge or abrasive, unit of its run", "lives ended", "of them by damage", "still going", "run", "paid", "cost of a unit", "low", "high", "cost of a unit in the study", "actual for each of the study",
		"lasts", "low", "high", "life in the study", "actual for each of the study")
	at++
	for i := range b.told.Result.Wear {
		b.lifeRow(p, at, &b.told.Result.Wear[i])
		at++
	}
	drawn := 0 // the first under the table, then one on a page, so that no picture is cut
	for i := range b.told.Result.Wear {
		if one := &b.told.Result.Wear[i]; one.Ended > 0 {
			if drawn++; drawn > 1 {
				p.Print.Breaks = append(p.Print.Breaks, at+1)
			}
			at = b.curve(p, at+1, one, b.told.Wear[i].Says)
		}
	}
}

func (b *trackBook) lifeRow(p page, row int, one *track.Wear) {
	unit, size := b.told.RunUnit(one.Measure)
	p.text(row, 1, one.Name+", "+unit, plain)
	for col, value := range map[int]float64{lifeEnded: one.Ended, lifeDamaged: one.Damaged, lifeGoing: one.Going} {
		p.number(row, col, value, numbers(asCount))
	}
	p.number(row, lifeRun, one.Run/size, numbers(asNumber))
	p.number(row, lifePaid, one.Paid, numbers(asMoney))
	p.ratio(row, lifeCost, cell(row, lifePaid), cell(row, lifeRun), one.Paid, one.Run/size, numbers(asFactor))
	if one.Cost.Known {
		p.number(row, lifeCostLow, one.Cost.Low*size, numbers(asFactor))
		p.number(row, lifeCostHigh, one.Cost.High*size, numbers(asFactor))
	}
	if one.StudyCost > 0 && one.Run > 0 {
		p.number(row, lifeStudyCost, one.StudyCost*size, numbers(asFactor))
		p.ratio(row, lifeCostRatio, cell(row, lifeCost), cell(row, lifeStudyCost), one.Paid/(one.Run/size), one.StudyCost*size, numbers(asFine))
	}
	if one.Study > 0 {
		p.number(row, lifeLasts, one.Lasts.Value/size, numbers(asNumber))
		p.number(row, lifeLow, one.Lasts.Low/size, numbers(asNumber))
		p.number(row, lifeHigh, one.Lasts.High/size, numbers(asNumber))
		p.number(row, lifeStudy, one.Study/size, numbers(asNumber))
		p.ratio(row, lifeRatio, cell(row, lifeLasts), cell(row, lifeStudy), one.Lasts.Value/size, one.Study/size, numbers(asFine))
	}
}

// mostSteps is how many steps of a curve are drawn; of more every second, third and so
// on is, and the sheet says so.
const mostSteps = 200

// curve writes one curve of what survives, with the fit beside it, and draws both.
func (b *trackBook) curve(p page, at int, one *track.Wear, says []string) int {
	unit, size := b.told.RunUnit(one.Measure)
	p.band(at, lifeRatio, one.Name)
	steps, each := thinned(one.Curve)
	if each > 1 {
		says = append(append([]string{}, says...), "one in "+strconv.Itoa(each)+" steps of the curve is drawn")
	}
	at = p.sentences(at+1, says, lead)
	shape, scale := 1.0, one.Sudden.Mean/size
	if one.Weibull != nil {
		shape, scale = one.Weibull.Shape, one.Weibull.Scale/size
	}
	p.text(at, 1, "shape of the fit", text)
	p.number(at, 2, shape, numbers(asFine))
	p.text(at+1, 1, "run that 37 % outlast by the fit, "+unit, text)
	p.number(at+1, 2, scale, numbers(asNumber))
	p.text(at+2, 1, "life in the study, "+unit, text)
	p.number(at+2, 2, one.Study/size, numbers(asNumber))
	fit := [2]string{grid.AbsRef(at, 2), grid.AbsRef(at+1, 2)}
	p.headers(at+4, "run, "+unit, "share that lasts", "low", "high", "run, "+unit, "share by the fit")
	first := at + 5
	row := first
	point := func(run, survival float64, step *life.Step) {
		p.number(row, 1, run, grid.Style{NumberFormat: asRun, Align: grid.AlignLeft})
		p.number(row, 2, survival, numbers(asShare))
		if step != nil {
			p.number(row, 3, step.Low, numbers(asShare))
			p.number(row, 4, step.High, numbers(asShare))
		}
		row++
	}
	last := 1.0
	point(0, 1, nil)
	for i := range steps {
		point(steps[i].Run/size, last, nil)
		point(steps[i].Run/size, steps[i].Survival, &steps[i])
		last = steps[i].Survival
	}
	longest := 1.15 * max(steps[len(steps)-1].Run/size, one.Study/size)
	for i := range fitPoints {
		run, at := longest*float64(i)/(fitPoints-1), first+i
		p.number(at, 5, run, numbers(asRun))
		p.calc(at, 6, "EXP(-(("+cell(at, 5)+"/"+fit[1]+")^"+fit[0]+"))", math.Exp(-math.Pow(run/scale, shape)), numbers(asShare))
	}
	b.curveChart(p, first, row-1, at+2, one)
	return max(row, first+max(chartRows, fitPoints)) + 1
}

// fitPoints is how many points the fitted curve is drawn through.
const fitPoints = 21

const (
	asRun   = `#,##0.0`
	asShare = `0.000`
)

// thinned takes so many steps of a curve at most, the last one with them.
func thinned(curve []life.Step) (steps []life.Step, each int) {
	each = max(1, (len(curve)+mostSteps-1)/mostSteps)
	for i := range curve {
		if i%each == 0 || i == len(curve)-1 {
			steps = append(steps, curve[i])
		}
	}
	return steps, each
}

func (b *trackBook) curveChart(p page, first, last, study int, one *track.Wear) {
	unit, size := b.told.RunUnit(one.Measure)
	runs, column := grid.RangeRef(sheetLives, first, 1, last, 1), func(col int) string { return grid.RangeRef(sheetLives, first, col, last, col) }
	series := []grid.Series{
		{Name: "lasted longer", Categories: runs, Values: column(2), Color: slate},
		{Name: "fit", Categories: grid.RangeRef(sheetLives, first, 5, first+fitPoints-1, 5), Values: grid.RangeRef(sheetLives, first, 6, first+fitPoints-1, 6), Color: moss, Dash: grid.DashLong},
	}
	if one.Study > 0 {
		// The study's life as an upright line: its run twice, from nothing to all.
		for col := 3; col <= 4; col++ {
			p.calc(study+1, col, cell(study, 2), one.Study/size, memo(asRun))
		}
		p.number(study, 3, 0, faint)
		p.number(study, 4, 1, faint)
		series = append(series, grid.Series{
			Name: "life in the study", Categories: grid.RangeRef(sheetLives, study+1, 3, study+1, 4), Values: grid.RangeRef(sheetLives, study, 3, study, 4), Color: rust,
		})
	}
	nothing, all := 0.0, 1.0
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Scatter, Title: fmt.Sprintf("How long it lasted: %s", one.Name), Cell: cell(first-5, 8), Width: 640, Height: 340,
		AltText: "the share that lasts longer than a run, as it was seen and by the fit, and the study's life",
		X:       grid.Axis{Title: unit + " in plain hardwood", Format: "#,##0", Min: &nothing}, Y: grid.Axis{Title: "share that lasts", Format: "0%", Min: &nothing, Max: &all}, Series: series,
	})
}
