package workbook

import (
	"fmt"
	"math"

	"shopstint/capital"
	"shopstint/model"
	"shopstint/model/work"
	"shopstint/reports/workbook/grid"
)

// factYear is the column of today in the figures by year; the years follow.
const factYear = 2

// yearlyFact is a figure by machine and year, or by machine and age; today has
// one only where first is 0.
type yearlyFact struct {
	key, label string
	first      int
	of         func(m, t, row int) term // row is the machine's own line
}

// year is a figure of the machine at hand in year t.
func (f *factPlaces) year(key string, t int) string {
	return grid.SheetRef(sheetFacts, f.yearly[key], factYear+t)
}

// years is a figure of the machine at hand from one year to another.
func (f *factPlaces) years(key string, from, to int) string {
	return grid.RangeRef(sheetFacts, f.yearly[key], factYear+from, f.yearly[key], factYear+to)
}

func (b *book) horizon() int { return int(b.study.Studio.Horizon) }

// yearlyFacts writes the figures by year, and the growth of prices.
func (b *book) yearlyFacts(p page) {
	f := &b.facts
	f.row += 2
	p.band(f.row, factYear+b.horizon(), "By year, or by years of age")
	f.row++
	p.text(f.row, factsLabel, "year", header)
	f.yearly["year"] = f.row
	for t := range b.horizon() + 1 {
		p.number(f.row, factYear+t, float64(t), header)
	}
	for _, category := range [...]string{"labour", "floor", "upkeep"} {
		b.growthRow(p, category)
	}
	for _, fact := range b.yearlyList() {
		b.yearlyFact(p, fact)
	}
}

func (b *book) growthRow(p page, category string) {
	f := &b.facts
	f.row++
	p.text(f.row, factsLabel, "growth of prices: "+category, plain)
	f.yearly["growth_"+category] = f.row
	growth := b.working("growth." + category)
	for t := 1; t <= b.horizon(); t++ {
		p.calc(f.row, factYear+t, b.grownTo("growth."+category, t), math.Pow(1+growth, float64(t-1)), numbers(asFactor))
	}
}

// grownTo is the growth of a category to year t of the facts.
func (b *book) grownTo(path string, t int) string {
	return fmt.Sprintf("(1+%s)^(%s-1)", b.in(path), cell(b.facts.yearly["year"], factYear+t))
}

func (b *book) yearlyFact(p page, fact yearlyFact) {
	f := &b.facts
	f.row++
	hand := f.row
	f.yearly[fact.key] = hand
	p.text(hand, factsLabel, fact.label+": machine at hand", grid.Style{Bold: true})
	for m := range b.study.Machines {
		f.row++
		p.text(f.row, factsLabel, fact.label+": "+b.study.Machines[m].Key, plain)
		for t := fact.first; t <= b.horizon(); t++ {
			figure := fact.of(m, t, f.row)
			if m == 0 {
				p.calc(hand, factYear+t, pick(span(hand+1, factYear+t, hand+len(b.study.Machines), factYear+t), b.handFact("machine")), figure.value, grid.Style{Bold: true})
			}
			p.calc(f.row, factYear+t, figure.formula, figure.value, plain)
		}
	}
}

func (b *book) yearlyList() []yearlyFact {
	line := func(line capital.Line) func(m, t, row int) term {
		return func(m, t, _ int) term { return b.ownLine(m, line, t) }
	}
	return []yearlyFact{
		{"hours", "running hours", 1, line(capital.Running)},
		{"hours_to", "running hours to date", 0, b.hoursTo},
		{"own_hours", "own hours at it", 1, b.ownHours},
		{"wear", "edges and abrasives", 1, line(capital.Wear)},
		{"constant", "permits and demand charge", 1, func(m, t, _ int) term {
			other, demand := b.ownLine(m, capital.Other, t), b.ownLine(m, capital.Demand, t)
			return term{other.formula + "+" + demand.formula, other.value + demand.value}
		}},
		{"energy", "electricity, units at the price growth", 1, b.energyUnits},
		{"upkeep", "upkeep as a share of price, by age", 1, b.upkeepByAge},
		{"left", "share that the tax method has left, by age", 0, b.leftByAge},
		{"value", "share of its price that it is worth, by age", 1, func(m, t, _ int) term {
			machine := &b.study.Machines[m]
			own := ownFormulas{b: b, in: "machines." + machine.Key + ".", machine: machine}
			hours := b.answer.Machines[m].Owner.Profile.Hours[0]
			return term{own.valueShareFor(cell(b.facts.yearly["year"], factYear+t), b.ownLine(m, capital.Running, 1).formula), capital.ValueShare(machine, float64(t), hours)}
		}},
		{"bench_hours", "own bench hours that it saves", 1, func(m, t, _ int) term { return b.benchSaved(m, t, false) }},
		{"bench_wear", "edges and abrasives at the bench that it saves", 1, func(m, t, _ int) term { return b.benchSaved(m, t, true) }},
	}
}

// ownLine is a line of the owning sheet in year t.
func (b *book) ownLine(m int, line capital.Line, t int) term {
	return term{grid.SheetRef(sheetOwning, b.own[m].rows[lineOf(line)], yearColumn+t), b.answer.Machines[m].Owner.Table[line][t]}
}

func (b *book) hoursTo(m, t, row int) term {
	if t == 0 {
		return constant(0)
	}
	total := 0.0
	for _, hours := range b.answer.Machines[m].Owner.Profile.Hours[:t] {
		total += hours
	}
	return term{cell(row, factYear+t-1) + "+" + b.ownLine(m, capital.Running, t).formula, total}
}

func (b *book) ownHours(m, t, _ int) term {
	o := &b.own[m]
	uses := o.useRange
	return term{fmt.Sprintf("SUMPRODUCT(%s,%s,(1+%s)^(%s-1))", uses(useHours), uses(useCrew), uses(useGrowth), cell(b.facts.yearly["year"], factYear+t)),
		b.answer.Machines[m].Owner.Profile.OwnHours[t-1]}
}

func (b *book) energyUnits(m, t, _ int) term {
	machine := &b.study.Machines[m]
	in := func(key string) string { return b.in("machines." + machine.Key + "." + key) }
	drawn := work.InputPower(machine.Motor, float64(machine.MeanLoad), float64(machine.Efficiency)) + machine.ExtraPower
	grown := math.Pow(1+float64(b.study.Growth.Energy), float64(t-1))
	hours := b.ownLine(m, capital.Running, t)
	return term{fmt.Sprintf("%s*(%s*%s/%s+%s)*%s", hours.formula, in("motor"), in("mean_load"), in("efficiency"), in("extra_power"), b.grownTo("growth.energy", t)),
		hours.value * drawn.Kilowatts() * grown}
}

func (b *book) upkeepByAge(m, age, _ int) term {
	machine := &b.study.Machines[m]
	if machine.Upkeep == model.UpkeepAccumulated {
		return constant(0)
	}
	own := ownFormulas{b: b, in: "machines." + machine.Key + ".", machine: machine}
	hours := make([]float64, age)
	return term{own.upkeepFor("", "", cell(b.facts.yearly["year"], factYear+age)), capital.Repair(machine, hours, age, age)}
}

// leftByAge is what the tax method has not yet deducted at an age; a method by
// running hours is reckoned in the case itself.
func (b *book) leftByAge(m, age, row int) term {
	machine := &b.study.Machines[m]
	if age == 0 || machine.Tax.Method == model.TaxUnitsOfProduction || machine.Tax.Method == model.TaxNone {
		return constant(1)
	}
	own := ownFormulas{b: b, in: "machines." + machine.Key + ".", machine: machine}
	before := cell(row, factYear+age-1)
	left := 1.0
	schedule := capital.Schedule(machine, nil)
	for _, share := range schedule[:min(age, len(schedule))] {
		left -= share
	}
	return term{before + "-" + own.scheduleFor(cell(b.facts.yearly["year"], factYear+age), before, ""), left}
}

// benchSaved is the bench time or the bench wear that owning a machine saves in
// a year, wear at that year's prices.
func (b *book) benchSaved(m, t int, wear bool) term {
	before, after := b.answer.Rented.Jobs, b.answer.Machines[m].Rent.Jobs
	column, total := yearlyBenchHours, 0.0
	for job := range before {
		saved := before[job].Bench.Hours - after[job].Bench.Hours
		if wear {
			column, saved = yearlyBenchWear, before[job].Bench.Wear-after[job].Bench.Wear
		}
		total += saved * math.Pow(1+float64(b.study.JobTypes[job].Growth), float64(t-1))
	}
	formula := fmt.Sprintf("SUMPRODUCT(%s-%s,(1+%s)^(%s-1))", b.rent.yearlyColumn(rented, column), b.rent.yearlyColumn(m, column), b.rent.jobColumn(rentGrowth), cell(b.facts.yearly["year"], factYear+t))
	if wear {
		formula += "*" + b.grownTo("growth.consumables", t)
		total *= math.Pow(1+float64(b.study.Growth.Consumables), float64(t-1))
	}
	return term{formula, total}
}
