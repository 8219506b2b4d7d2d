package workbook

import (
	"fmt"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/reports/workbook/grid"
)

// Columns of an economic-life block.
const (
	lifeYear = iota + 1
	lifeRunning
	lifeHoursSoFar
	lifeValue
	lifeUpkeep
	lifeInsurance
	lifeOthers
	lifeOperating
	lifeMarket
	lifePresent
	lifeAnnual
	lifeColumns
)

// economicLife shows what a machine costs a year by how long it is kept. Twin of capital.EconomicLife.
func (b *book) economicLife(s *grid.Sheet) {
	p := page{s}
	s.Columns = []float64{12, 13, 13, 13, 13, 13, 13, 13, 13, 13, 15}
	s.Protected, s.TabColor = true, moss
	s.Print = grid.Print{Landscape: true, FitWide: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "How long to keep each machine", title)
	p.text(2, 1, "Before tax and without a loan, on the study's work; fixtures stay when the machine is replaced. The least yearly cost names the economic life.", lead)
	at := 4
	for m := range b.answer.Machines {
		b.lifeBlock(p, m, at)
		if m > 0 && m%2 == 0 {
			s.Print.Breaks = append(s.Print.Breaks, at)
		}
		at += single.LifeYears + 9
	}
}

func (b *book) lifeBlock(p page, m, at int) {
	result := &b.answer.Machines[m]
	machine := &b.study.Machines[result.Machine]
	life := &result.Life
	p.band(at, lifeColumns-1, fmt.Sprintf("%s (%s)", machine.Name, machine.Key))
	p.headers(at+2, "years kept", "running hours", "hours in its life", "value at the end", "upkeep", "insurance and tax on it", "floor, power, edges, time", "running cost of the year", "sold, moved out", "running costs to here, present", "yearly cost when kept so long")
	f := lifeFormulas{b: b, o: &b.own[m], in: "machines." + machine.Key + ".", machine: machine, first: at + 3}
	values := b.lifeValues(m)
	for k := 1; k <= single.LifeYears; k++ {
		for column := lifeYear; column < lifeColumns; column++ {
			style := numbers(asMoney0)
			if column == lifeYear || column == lifeRunning || column == lifeHoursSoFar {
				style = numbers(asNumber)
			}
			if column == lifeYear {
				p.number(at+2+k, column, float64(k), numbers(asCount))
				continue
			}
			p.calc(at+2+k, column, f.formula(column, k), values[k-1][column], style)
		}
	}
	last := at + 2 + single.LifeYears
	annual := span(at+3, lifeAnnual, last, lifeAnnual)
	p.text(at+1, 1, "kept best for, years", plain)
	p.calc(at+1, 3, keptBest(annual), float64(life.Best), grid.Style{Bold: true, NumberFormat: asCount})
	p.text(at+1, 4, "at a yearly cost of", plain)
	p.calc(at+1, 6, leastCost(annual), life.Least, grid.Style{Bold: true, NumberFormat: asMoney0})
	if life.StillFalling {
		p.text(at+1, 7, "still falling at the end of the curve: keep it as long as it runs", lead)
	}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Scatter, Title: "Yearly cost by years kept: " + machine.Key, Cell: cell(at, lifeColumns+1), Width: 560, Height: 330,
		AltText: "curve of the yearly cost of a machine by the number of years it is kept", NoLegend: true,
		X: grid.Axis{Title: "years kept", Format: "0", MajorUnit: 2}, Y: grid.Axis{Title: b.study.Currency + " a year", Format: "#,##0"},
		Series: []grid.Series{{Name: "yearly cost", Categories: grid.RangeRef(sheetLife, at+3, lifeYear, last, lifeYear), Values: grid.RangeRef(sheetLife, at+3, lifeAnnual, last, lifeAnnual), Color: moss}},
	})
}

// keptBest and leastCost are the twin of economiclife.Best, for the yearly costs
// by years kept.
func keptBest(annual string) string  { return fmt.Sprintf("MATCH(MIN(%[1]s),%[1]s,0)", annual) }
func leastCost(annual string) string { return "MIN(" + annual + ")" }

// lifeValues are the engine's figures of every year kept.
func (b *book) lifeValues(m int) [][lifeColumns]float64 {
	result := &b.answer.Machines[m]
	machine, life := &b.study.Machines[result.Machine], &result.Life
	profile := alternative.ProfileOf(b.study, result.Owner.Uses, single.LifeYears)
	rows := make([][lifeColumns]float64, single.LifeYears)
	before, present, factor := float64(machine.Price), 0.0, 1.0
	for i := range rows {
		k := i + 1
		costs := capital.RunningCosts(b.study, machine, profile, capital.Year{T: k, Age: k, Before: before, Area: result.Owner.Area})
		value := float64(machine.Price) * capital.ValueShare(machine, float64(k), profile.Hours[0])
		factor /= 1 + float64(b.study.Studio.DiscountRate)
		present += life.Operating[i] * factor
		rows[i] = [lifeColumns]float64{
			lifeRunning: profile.Hours[i], lifeHoursSoFar: capital.HoursSoFar(machine, profile.Hours, k, k), lifeValue: value,
			lifeUpkeep: costs[capital.Upkeep], lifeInsurance: costs[capital.Insurance],
			lifeOthers:    life.Operating[i] - costs[capital.Upkeep] - costs[capital.Insurance],
			lifeOperating: life.Operating[i], lifeMarket: life.Value[i], lifePresent: present, lifeAnnual: life.Annual[i],
		}
		before = value
	}
	return rows
}

// lifeFormulas writes the formulas of one economic-life block.
type lifeFormulas struct {
	b       *book
	o       *ownPlaces
	in      string
	machine *model.Machine
	first   int
}

func (f lifeFormulas) formula(column, k int) string {
	at := func(column, k int) string { return cell(f.first+k-1, column) }
	of := func(key string) string { return f.b.in(f.in + key) }
	year, hours := at(lifeYear, k), at(lifeRunning, k)
	grown := func(category string) string { return fmt.Sprintf("(1+%s)^(%s-1)", f.b.in("growth."+category), year) }
	uses := f.o.useRange
	own := ownFormulas{b: f.b, o: f.o, in: f.in, machine: f.machine}
	switch column {
	case lifeRunning:
		return fmt.Sprintf("SUMPRODUCT(%s,(1+%s)^(%s-1))", uses(useHours), uses(useGrowth), year)
	case lifeHoursSoFar:
		if k == 1 {
			return of("hours") + "+" + hours
		}
		return at(lifeHoursSoFar, k-1) + "+" + hours
	case lifeValue:
		return of("price") + "*" + own.valueShareFor(year, at(lifeRunning, 1))
	case lifeUpkeep:
		return own.upkeepFor(at(lifeHoursSoFar, k), hours, year) + "*" + grown("upkeep")
	case lifeInsurance:
		before := of("price")
		if k > 1 {
			before = at(lifeValue, k-1)
		}
		return fmt.Sprintf("%s*(%s+%s)", before, of("insurance"), of("property_tax"))
	case lifeOthers:
		return f.others(hours, year, grown, uses)
	case lifeOperating:
		return "SUM(" + span(f.first+k-1, lifeUpkeep, f.first+k-1, lifeOthers) + ")"
	case lifeMarket:
		return at(lifeValue, k) + "-" + of("rigging_out")
	case lifePresent:
		now := fmt.Sprintf("%s*(1+%s)^-%s", at(lifeOperating, k), f.b.in("studio.discount_rate"), year)
		if k == 1 {
			return now
		}
		return at(lifePresent, k-1) + "+" + now
	}
	rate := f.b.in("studio.discount_rate")
	present := fmt.Sprintf("(%s*(1+%s)+%s+%s+%s-%s*(1+%s)^-%s)", of("price"), of("sales_tax"), of("delivery"), of("rigging"), at(lifePresent, k), at(lifeMarket, k), rate, year)
	return fmt.Sprintf("%[1]s*IF(%[2]s=0,1/%[3]s,%[2]s/(1-(1+%[2]s)^-%[3]s))", present, rate, year)
}

// others sums permits, floor, energy, demand, edges, own time and care.
func (f lifeFormulas) others(hours, year string, grown func(string) string, uses func(int) string) string {
	of := func(key string) string { return f.b.in(f.in + key) }
	work := func(a, b int) string {
		return fmt.Sprintf("SUMPRODUCT(%s,%s,(1+%s)^(%s-1))", uses(a), uses(b), uses(useGrowth), year)
	}
	rated := fmt.Sprintf("%s/%s", of("motor"), of("efficiency"))
	return fmt.Sprintf("%s*%s+%s*%s*%s+(%s*(%s*%s+%s)*%s+(%s+%s)*%s*%s)*%s+%s*%s+(%s+%s*%s+12*%s/60)*%s*%s",
		of("yearly_other"), grown("upkeep"), f.o.fact(factArea), f.b.in("studio.floor_cost"), grown("floor"),
		hours, rated, of("mean_load"), of("extra_power"), f.b.in("studio.energy_price"), rated, of("extra_power"), f.b.in("studio.demand_charge"), of("demand_months"), grown("energy"),
		work(usePerYear, useWear), grown("consumables"), work(useHours, useCrew), hours, of("care_share"), of("care_per_month"), f.b.in("studio.labour_rate"), grown("labour"))
}
