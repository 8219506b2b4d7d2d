package workbook

import (
	"fmt"
	"math"
	"strings"

	"shopstint/capital/decision/sensitivity"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/reports/workbook/grid"
)

// term is a formula with the engine's value.
type term struct {
	formula string
	value   float64
}

func constant(value float64) term { return term{fmt.Sprintf("%.17g", value), value} }

// end chooses one of the three figures that an input has.
type end int

const (
	atValue end = iota
	atLow
	atHigh
)

// shown is the figure of an input as it stands on the input sheet, in the
// study's units. Without a range, both ends are the value.
func (b *book) shown(path string, at end) term {
	leaf, ok := b.leaves[path]
	if !ok {
		b.missing = append(b.missing, path)
		return constant(0)
	}
	dim, _ := leaf.Dimension()
	unit, origin := unitOf(leaf, dim, b.system), b.study.Origins[path]
	column, si := inputValue, leaf.Number()
	switch {
	case at == atLow && origin.HasRange:
		column, si = inputLow, origin.Low
	case at == atHigh && origin.HasRange:
		column, si = inputHigh, origin.High
	}
	return term{grid.SheetRef(sheetInputs, b.inputRows[path], column), unit.of(si)}
}

// leverUnit is how a lever stands in a cell, and what turns it into the working
// unit of the formulas.
func (b *book) leverUnit(l sensitivity.Lever) (shown unit, symbol string, factor float64) {
	if l.Times() {
		return unit{size: 1}, "times", 1
	}
	leaf := b.leaves[l.Path(b.study.Machines[0].Key, b.study.Shops[0].Key)]
	dim, _ := leaf.Dimension()
	shown = unitOf(leaf, dim, b.system)
	symbol = b.unitText(shown, dim)
	return shown, symbol, shown.size / unitOf(leaf, dim, quantity.Metric).size
}

// leverFormat is the number format of a lever.
func (b *book) leverFormat(l sensitivity.Lever) string {
	shown, _, _ := b.leverUnit(l)
	switch {
	case l.Times():
		return "0.00"
	case shown.symbol == "" && shown.dim == 0:
		return asPercent
	}
	return "#,##0.##"
}

// leverAt is a lever's figure for machine m: its planned value or one end of
// its range, as it is shown.
func (b *book) leverAt(l sensitivity.Lever, m int, at end) term {
	machine := &b.study.Machines[m]
	shop := &b.study.Shops[sensitivity.ShopOf(b.study, b.answer.Plan, m)]
	if !l.Times() {
		return b.shown(l.Path(machine.Key, shop.Key), at)
	}
	if at == atValue {
		return constant(1)
	}
	switch in := "machines." + machine.Key + "."; l {
	case sensitivity.Work:
		return b.share(at, b.workPaths(m))
	case sensitivity.Rates:
		return b.share(at, ratePaths(shop))
	case sensitivity.Upkeep:
		return b.share(at, []string{in + map[string]string{model.UpkeepShare: "upkeep_share", model.UpkeepAccumulated: "repair_factor"}[machine.Upkeep]})
	case sensitivity.Installation:
		return b.share(at, []string{in + "delivery", in + "rigging", in + "wiring", in + "converter", in + "dust_collection", in + "compressor"})
	case sensitivity.Consumables:
		return b.consumablesAt(machine, at)
	default:
		return b.resaleAt(machine, at)
	}
}

func (b *book) workPaths(m int) []string {
	var paths []string
	for job := range b.study.JobTypes {
		if b.affected(m, job) {
			paths = append(paths, "job_types."+b.study.JobTypes[job].Key+".per_year")
		}
	}
	return paths
}

func ratePaths(shop *model.Shop) []string {
	if shop.Tariff.Basis == model.WholeShop {
		return []string{"shops." + shop.Key + ".tariff.hourly_rate"}
	}
	var paths []string
	for q := range shop.Machines {
		paths = append(paths, "shops."+shop.Key+".machines."+shop.Machines[q].Key+".hourly_rate")
	}
	return paths
}

// ranged tells whether any of some inputs has a range.
func (b *book) ranged(paths ...string) bool {
	for _, path := range paths {
		if b.study.Origins[path].HasRange {
			return true
		}
	}
	return false
}

// share is what some inputs together come to at one end of their ranges,
// against what they come to as planned.
func (b *book) share(at end, paths []string) term {
	if !b.ranged(paths...) {
		return constant(1)
	}
	var ends, values []string
	moved, planned := 0.0, 0.0
	for _, path := range paths {
		now, then := b.shown(path, atValue), b.shown(path, at)
		ends, values = append(ends, then.formula), append(values, now.formula)
		moved, planned = moved+then.value, planned+now.value
	}
	value := 1.0
	if planned != 0 {
		value = moved / planned
	}
	whole := sum(values)
	return term{fmt.Sprintf("IF(%[1]s=0,1,(%[2]s)/(%[1]s))", whole, sum(ends)), value}
}

// consumablesAt moves the price and the life of what a machine wears; a long
// life is a low cost.
func (b *book) consumablesAt(machine *model.Machine, at end) term {
	other := map[end]end{atLow: atHigh, atHigh: atLow}[at]
	var terms []string
	total := 0.0
	for _, in := range b.wornBy(machine) {
		if !b.ranged(in+"price", in+"life") {
			continue
		}
		price, life := b.share(at, []string{in + "price"}), b.share(other, []string{in + "life"})
		terms = append(terms, price.formula+"/"+life.formula)
		total += price.value / life.value
	}
	if len(terms) == 0 {
		return constant(1)
	}
	return term{"AVERAGE(" + strings.Join(terms, ",") + ")", total / float64(len(terms))}
}

// wornBy lists the edges or abrasives of a machine.
func (b *book) wornBy(machine *model.Machine) []string {
	if machine.Edge != "" {
		return []string{"edges." + machine.Edge + "."}
	}
	var list []string
	for i := range b.study.Abrasives {
		if b.study.Abrasives[i].Class == machine.Class {
			list = append(list, "abrasives."+b.study.Abrasives[i].Key+".")
		}
	}
	return list
}

// resaleAt is what a machine fetches at the ends of the ranges of its yearly
// loss, when kept as long as planned. Methods with a table or a published form
// have no such range; there it is as planned.
func (b *book) resaleAt(machine *model.Machine, at end) term {
	in := "machines." + machine.Key + "."
	if machine.Resale != model.ResaleDeclining || !b.ranged(in+"first_year_value", in+"yearly_value") {
		return constant(1)
	}
	first, yearly := b.share(at, []string{in + "first_year_value"}), b.share(at, []string{in + "yearly_value"})
	kept, age := b.shown(in+"years_kept", atValue), b.shown(in+"age", atValue)
	value := first.value * math.Pow(yearly.value, kept.value-1)
	if age.value > 0 {
		value = math.Pow(yearly.value, kept.value)
	}
	return term{fmt.Sprintf("IF(%[1]s>0,(%[2]s)^%[3]s,(%[4]s)*(%[2]s)^(%[3]s-1))", age.formula, yearly.formula, kept.formula, first.formula), value}
}
