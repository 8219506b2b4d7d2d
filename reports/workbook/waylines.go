package workbook

import (
	"fmt"
	"math"
	"strings"

	"shopstint/capital/decision/ways"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/reports/workbook/grid"
)

// wayLine is one row of a comparison: its formula for a way beside the engine's figure.
type wayLine struct {
	label   string
	formula func(way int) string
	value   func(way *ways.Way) float64
	style   grid.Style
}

// wayFormulas writes the formulas of one comparison.
type wayFormulas struct {
	b *book
	w *wayBlock
}

func (f wayFormulas) given(i int) *model.Way { return &f.w.comparison.Ways[i] }

// in is an input of a way.
func (f wayFormulas) in(i int, key string) string {
	return f.b.in("comparisons." + f.w.comparison.Key + ".ways." + f.given(i).Key + "." + key)
}

// at is a row of the same way.
func (f wayFormulas) at(row wayRow, i int) string { return f.w.way(row, i) }

// runs are the cells of a column for what a way runs.
func (f wayFormulas) runs(i, column int) []string {
	return f.b.runs(f.given(i), f.w.comparison.ByArea(), column)
}

// machine is what is bought for a way, where it is one of the study's.
func (f wayFormulas) machine(i int) (ownFormulas, bool) {
	at := model.Index(f.b.study.Machines, f.given(i).Machine)
	if at < 0 {
		return ownFormulas{}, false
	}
	machine := &f.b.study.Machines[at]
	return ownFormulas{b: f.b, in: "machines." + machine.Key + ".", machine: machine}, true
}

// byPiece spreads what is counted by the piece over its units.
func (f wayFormulas) byPiece(formula string) string {
	return fmt.Sprintf("IF(%[1]s=0,0,%[2]s/%[1]s)", f.w.head(headPiece), formula)
}

// wayLines are the rows of a comparison, in the order of their constants.
func (b *book) wayLines(w *wayBlock) []wayLine {
	f := wayFormulas{b, w}
	lines := append(f.timeLines(), f.keptLines()...)
	lines = append(lines, f.costLines()...)
	return append(lines, f.yearLines()...)
}

func (f wayFormulas) timeLines() []wayLine {
	fine := numbers(asFine)
	return []wayLine{
		{"one pass in plain hardwood: edge or abrasives", func(i int) string { return sum(f.runs(i, runCost)) }, func(w *ways.Way) float64 { return w.WearPlain }, numbers("0.0000")},
		{"life in this work and material, against that", func(i int) string { return f.in(i, "life_factor") + "*" + f.w.head(headMaterial) }, func(w *ways.Way) float64 { return w.Lasts }, numbers(asPercent)},
		{"times longer than with a fresh edge", f.slower, func(w *ways.Way) float64 { return w.Slowing }, fine},
		{"minutes at the machine", f.running, func(w *ways.Way) float64 { return w.Running }, fine},
		{"minutes of changing edges or abrasives", f.change, func(w *ways.Way) float64 { return w.Change }, fine},
		{"minutes of setting up and handling", func(i int) string { return f.byPiece(f.in(i, "piece_time")) }, func(w *ways.Way) float64 { return w.Setting }, fine},
		{"minutes of rework, as expected", func(i int) string { return f.byPiece(f.in(i, "rework_share") + "*" + f.in(i, "rework_time")) }, func(w *ways.Way) float64 { return w.Again }, fine},
		{"own minutes, with care of what is bought", f.minutes, (*ways.Way).Minutes, total(asFine)},
	}
}

func (f wayFormulas) slower(i int) string {
	if cells := f.runs(i, runSlower); len(cells) > 0 {
		return fmt.Sprintf("(%s)/%d", sum(cells), len(cells))
	}
	return "1"
}

func (f wayFormulas) running(i int) string {
	if f.w.comparison.ByArea() {
		return f.in(i, "area_time") + "*" + f.at(waySlower, i)
	}
	return fmt.Sprintf("IF(%[1]s=0,0,%[2]s/(%[1]s*%[3]s)*%[4]s)", f.in(i, "feed"), f.in(i, "passes"), f.w.head(headFeed), f.at(waySlower, i))
}

func (f wayFormulas) change(i int) string {
	changes, minutes := f.runs(i, runChanges), f.runs(i, runChange)
	if len(changes) == 0 {
		return "0"
	}
	terms := make([]string, len(changes))
	for k := range changes {
		terms[k] = changes[k] + "*" + minutes[k]
	}
	return fmt.Sprintf("%s*(%s)/%s", f.in(i, "passes"), sum(terms), f.at(wayLasts, i))
}

func (f wayFormulas) minutes(i int) string {
	care := "1"
	if own, ok := f.machine(i); ok {
		care = "(1+" + own.of("care_share") + ")"
	}
	return fmt.Sprintf("%s*%s+%s+%s+%s", f.at(wayRunning, i), care, f.at(wayChange, i), f.at(waySetting, i), f.at(wayAgain, i))
}

// keptLines are what is bought and kept. Twin of ways.Kept.
func (f wayFormulas) keptLines() []wayLine {
	money := numbers(asMoney)
	rate := f.b.in("studio.discount_rate")
	return []wayLine{
		{"paid for it at first", f.paid, func(w *ways.Way) float64 { return w.Kept.Paid }, money},
		{"comes back in the end", f.back, func(w *ways.Way) float64 { return w.Kept.Back }, money},
		{"years kept", f.years, func(w *ways.Way) float64 { return w.Kept.Years }, numbers(asCount)},
		{"recovered a year", func(i int) string {
			years := f.at(wayYears, i)
			return fmt.Sprintf("(%[1]s-%[2]s*(1+%[3]s)^-%[4]s)*IF(%[3]s=0,1/%[4]s,%[3]s/(1-(1+%[3]s)^-%[4]s))", f.at(wayPaid, i), f.at(wayBack, i), rate, years)
		}, func(w *ways.Way) float64 { return w.Kept.Recovery }, money},
		{"upkeep a year, in the mean", f.upkeep, func(w *ways.Way) float64 { return w.Kept.Upkeep }, money},
		{"insurance, permits, floor, demand, monthly care, a year", f.housing, func(w *ways.Way) float64 { return w.Kept.Housing }, money},
		{"worth of what lies in the drawer", func(i int) string { return f.in(i, "spares") + "*(" + f.firstSet(i) + ")" }, func(w *ways.Way) float64 { return w.Kept.Stock }, money},
		{"and what that money would earn a year", func(i int) string { return f.at(wayStock, i) + "*" + rate }, func(w *ways.Way) float64 { return w.Kept.Interest }, money},
		{"fixed a year, whatever the work", func(i int) string {
			return fmt.Sprintf("%s+%s+%s+%s", f.at(wayRecovery, i), f.at(wayUpkeep, i), f.at(wayHousing, i), f.at(wayInterest, i))
		}, func(w *ways.Way) float64 { return w.Line.Fixed }, total(asMoney)},
	}
}

// firstSet is the price of the edge, or of one of each abrasive.
func (f wayFormulas) firstSet(i int) string {
	var terms []string
	given := f.given(i)
	if _, ok := model.Find(f.b.study.Edges, given.Edge); ok {
		terms = append(terms, f.b.in("edges."+given.Edge+".price"))
	}
	for _, key := range given.Abrasives {
		terms = append(terms, f.b.in("abrasives."+key+".price"))
	}
	return sum(terms)
}

func (f wayFormulas) paid(i int) string {
	own, ok := f.machine(i)
	if !ok {
		return f.in(i, "price")
	}
	return fmt.Sprintf("%s*(1+%s)+%s+%s+%s", own.of("price"), own.of("sales_tax"), own.of("delivery"), own.of("rigging"), own.ownFixtures())
}

// resale is what a machine fetches in the end.
func (f wayFormulas) resale(own ownFormulas, i int) string {
	return own.of("price") + "*" + own.valueShareFor(f.at(wayYears, i), f.at(wayHours, i))
}

func (f wayFormulas) back(i int) string {
	own, ok := f.machine(i)
	if !ok {
		return f.in(i, "resale")
	}
	return fmt.Sprintf("%s-%s+(%s)*%s", f.resale(own, i), own.of("rigging_out"), own.ownFixtures(), own.of("fixtures_resale"))
}

func (f wayFormulas) years(i int) string {
	if own, ok := f.machine(i); ok {
		return own.of("years_kept")
	}
	return f.in(i, "years_kept")
}

// upkeep is the mean of capital.Repair over the years kept.
func (f wayFormulas) upkeep(i int) string {
	own, ok := f.machine(i)
	if !ok {
		return f.in(i, "yearly_upkeep")
	}
	years := f.at(wayYears, i)
	if own.machine.Upkeep == model.UpkeepAccumulated {
		before := own.of("hours")
		return fmt.Sprintf("%[1]s*%[2]s*(((%[3]s+%[4]s*%[5]s)/1000)^%[6]s-(%[3]s/1000)^%[6]s)/%[5]s", own.of("new_price"), own.of("repair_factor"), before, f.at(wayHours, i), years, own.of("repair_power"))
	}
	rise := own.of("upkeep_rise")
	return fmt.Sprintf("%[1]s*%[2]s*(1+%[3]s)^%[4]s*IF(%[3]s=0,1,((1+%[3]s)^%[5]s-1)/(%[3]s*%[5]s))", own.of("new_price"), own.of("upkeep_share"), rise, own.of("age"), years)
}

func (f wayFormulas) housing(i int) string {
	own, ok := f.machine(i)
	if !ok {
		return "0"
	}
	piece := "0"
	if !f.w.comparison.ByArea() {
		piece = f.b.in("comparisons." + f.w.comparison.Key + ".piece_length")
	}
	return fmt.Sprintf("(%s+%s)/2*(%s+%s)+%s+%s*%s+%s+12*%s/60*%s", own.of("price"), f.resale(own, i), own.of("insurance"), own.of("property_tax"), own.of("yearly_other"),
		f.b.floorFormula(own.machine, piece), f.b.in("studio.floor_cost"), own.demandAYear(), own.of("care_per_month"), f.b.in("studio.labour_rate"))
}

// costLines are the parts of what a unit costs and what it costs in all.
func (f wayFormulas) costLines() []wayLine {
	part := func(part ways.Part) func(w *ways.Way) float64 {
		return func(w *ways.Way) float64 { return w.PerUnit[part] }
	}
	wear, rate := "edges", f.b.in("studio.labour_rate")
	if f.w.comparison.ByArea() {
		wear = "abrasives"
	}
	fine := numbers("#,##0.000;-#,##0.000;\"–\"")
	piece := f.w.comparison.Piece()
	return []wayLine{
		{wear, func(i int) string {
			return fmt.Sprintf("%s*%s/%s", f.at(wayPlain, i), f.in(i, "passes"), f.at(wayLasts, i))
		}, part(ways.Wear), fine},
		{"labour", func(i int) string { return f.at(wayMinutes, i) + "/60*" + rate }, part(ways.Labour), fine},
		{"energy", func(i int) string {
			if own, ok := f.machine(i); ok {
				return f.at(wayRunning, i) + "/60*" + own.energyAnHour()
			}
			return "0"
		}, part(ways.Energy), fine},
		{"rework: what it uses up, and waiting", func(i int) string {
			return f.byPiece(fmt.Sprintf("%s*(%s+%s*%s)", f.in(i, "rework_share"), f.in(i, "rework_cost"), f.in(i, "rework_wait"), f.w.head(headWaiting)))
		}, part(ways.Rework), fine},
		{"what is bought and kept", func(i int) string { return f.overAmount(f.at(wayFixed, i)) }, part(ways.Equipment), fine},
		{"cost of a finished " + f.w.unit(), func(i int) string { return "SUM(" + f.at(wayWear, i) + ":" + f.at(wayEquipment, i) + ")" }, (*ways.Way).Unit, total(asFine)},
		{"cost of a finished " + f.shown(), func(i int) string { return fmt.Sprintf("%s*%.17g", f.at(wayUnit, i), f.size()) }, func(w *ways.Way) float64 { return w.Unit() * f.size() }, fine},
		{"cost of one " + nameOf2(f.w.comparison.PieceName, "piece"), func(i int) string { return f.at(wayUnit, i) + "*" + f.w.head(headPiece) }, func(w *ways.Way) float64 { return w.Unit() * piece }, numbers(asMoney)},
		{"goes with the work, for each " + f.w.unit(), func(i int) string { return "SUM(" + f.at(wayWear, i) + ":" + f.at(wayRework, i) + ")" }, func(w *ways.Way) float64 { return w.Line.Unit }, memo(asFine)},
	}
}

// overAmount spreads a year's cost over the work of the year.
func (f wayFormulas) overAmount(formula string) string {
	return fmt.Sprintf("IF(%[1]s=0,0,%[2]s/%[1]s)", f.w.head(headAmount), formula)
}

// shown is the finished unit of the study's own units, size how much of the
// working unit it is.
func (f wayFormulas) dimension() quantity.Dimension {
	if f.w.comparison.ByArea() {
		return quantity.DimMoneyPerSquareMetre
	}
	return quantity.DimMoneyPerMetre
}

func (f wayFormulas) shown() string {
	return strings.TrimPrefix(quantity.Display(f.dimension(), f.b.system).Symbol, "per ")
}

func (f wayFormulas) size() float64 { return quantity.Shown(f.dimension(), 1, f.b.system) }

// yearLines are what a way comes to in a year.
func (f wayFormulas) yearLines() []wayLine {
	amount := f.w.head(headAmount)
	lines := []wayLine{
		{"cost a year", func(i int) string { return f.at(wayFixed, i) + "+" + f.at(wayWork, i) + "*" + amount }, func(w *ways.Way) float64 { return w.Yearly }, total(asMoney)},
	}
	for part, label := range [ways.Parts]string{"share of edges or abrasives", "share of labour", "share of energy", "share of rework", "share of what is bought and kept"} {
		row := wayWear + wayRow(part)
		lines = append(lines, wayLine{label, func(i int) string {
			return fmt.Sprintf("IF(%[1]s=0,0,%[2]s/%[1]s)", f.at(wayUnit, i), f.at(row, i))
		}, func(w *ways.Way) float64 { return shareOf(w.PerUnit[part], w.Unit()) }, memo(asPercent)})
	}
	return append(lines,
		wayLine{"hours at the machine, a year", func(i int) string { return amount + "*" + f.at(wayRunning, i) + "/60" }, func(w *ways.Way) float64 { return w.Hours }, numbers(asNumber)},
		wayLine{"own hours, a year", func(i int) string { return amount + "*" + f.at(wayMinutes, i) + "/60" }, func(w *ways.Way) float64 { return w.Own }, numbers(asNumber)},
		wayLine{"days a year that pieces wait for rework", func(i int) string {
			return f.byPiece(fmt.Sprintf("%s*%s*%s/24", amount, f.in(i, "rework_share"), f.in(i, "rework_wait")))
		}, func(w *ways.Way) float64 { return w.Waited }, numbers(asNumber)},
		wayLine{"laid out before the first " + f.w.unit(), func(i int) string {
			return fmt.Sprintf("%s+%s+%s", f.at(wayPaid, i), f.at(wayStock, i), f.firstSet(i))
		}, func(w *ways.Way) float64 { return w.Outlay }, numbers(asMoney)})
}

func shareOf(part, whole float64) float64 {
	if whole == 0 || math.IsNaN(whole) {
		return 0
	}
	return part / whole
}
