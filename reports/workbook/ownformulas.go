package workbook

import (
	"fmt"
	"strings"

	"shopstint/capital"
	"shopstint/model"
)

// formula returns the formula of a line in year t; an empty one leaves the
// cell out.
func (f ownFormulas) formula(line ownLine, t int) string {
	if line >= lineSaved0 {
		return f.savedLine(int(line-lineSaved0), t)
	}
	if line >= ownLine(capital.Lines) {
		return f.sheetLine(line, t)
	}
	switch capital.Line(line) {
	case capital.Age, capital.Value, capital.Running, capital.Resale, capital.RiggingOut, capital.FixturesBack:
		return f.machineLine(capital.Line(line), t)
	case capital.Price, capital.SalesTax, capital.Moving, capital.Fixtures, capital.Start:
		return f.buyingLine(capital.Line(line), t)
	case capital.Borrowed, capital.Interest, capital.Principal, capital.Owed:
		return f.loanLine(capital.Line(line), t)
	case capital.TaxShare, capital.Deducted, capital.Book, capital.Gain, capital.Tax:
		return f.taxLine(capital.Line(line), t)
	case capital.Net, capital.Discount, capital.Present:
		return f.netLine(capital.Line(line), t)
	}
	return f.runningLine(capital.Line(line), t)
}

// year is the cell with the number of year t.
func (f ownFormulas) year(t int) string { return cell(f.o.years, yearColumn+t) }

// grown is a category's growth to year t; the first year is at today's prices.
func (f ownFormulas) grown(category string, t int) string {
	return fmt.Sprintf("(1+%s)^(%s-1)", f.b.in("growth."+category), f.year(t))
}

// priceGrown is the growth of machine prices to the end of the year in a cell.
func (f ownFormulas) priceGrown(years string) string {
	return fmt.Sprintf("(1+%s)^%s", f.b.in("growth.machines"), years)
}

// bought is a formula where a machine is bought at the end of year t, else zero.
func (f ownFormulas) bought(t int, formula string) string {
	if t == f.horizon {
		return "0"
	}
	return fmt.Sprintf("IF(%s=1,%s,0)", f.cap(capital.Age, t+1), formula)
}

// sold is a formula where a machine is sold at the end of year t, else another.
func (f ownFormulas) sold(t int, formula, otherwise string) string {
	if t == f.horizon {
		return formula
	}
	return fmt.Sprintf("IF(%s=1,%s,%s)", f.cap(capital.Age, t+1), formula, otherwise)
}

// machineLine is the machine at work: its age, value, hours and sale.
func (f ownFormulas) machineLine(line capital.Line, t int) string {
	age := f.cap(capital.Age, t)
	switch {
	case line == capital.Age && t == 0:
		return "0"
	case line == capital.Age:
		return fmt.Sprintf("IF(%[1]s=%[2]s,1,%[1]s+1)", f.cap(capital.Age, t-1), f.of("years_kept"))
	case line == capital.Value:
		return fmt.Sprintf("%s*%s*%s", f.of("price"), f.priceGrown(fmt.Sprintf("(%s-%s)", f.year(t), age)), f.valueShare(age))
	case t == 0:
		return ""
	case line == capital.Running:
		return f.uses(useHours, t)
	case line == capital.Resale:
		return f.sold(t, "-"+f.cap(capital.Value, t), "0")
	case line == capital.RiggingOut:
		return f.sold(t, f.of("rigging_out"), "0")
	case t == f.horizon: // fixtures come back at the end only
		return fmt.Sprintf("-(%s)*%s", f.ownFixtures(), f.of("fixtures_resale")) + f.shared("-", ".price", "*", ".resale")
	}
	return "0"
}

// ownFixtures is what the machine's own fixtures cost.
func (f ownFormulas) ownFixtures() string {
	return fmt.Sprintf("%s+%s+%s+%s", f.of("wiring"), f.of("converter"), f.of("dust_collection"), f.of("compressor"))
}

// shared writes a term for each fixture that the machine shares; parts that
// begin with a dot are its inputs.
func (f ownFormulas) shared(parts ...string) string {
	return sharedTerms(f.b, f.machine, parts...)
}

func sharedTerms(b *book, machine *model.Machine, parts ...string) string {
	terms := ""
	for _, fixture := range capital.Shared(b.study, machine) {
		for _, part := range parts {
			if strings.HasPrefix(part, ".") {
				part = b.in("fixtures." + fixture.Key + part)
			}
			terms += part
		}
	}
	return terms
}

// uses adds a column of what runs on the machine up, grown to year t.
func (f ownFormulas) uses(column, t int) string {
	return fmt.Sprintf("SUMPRODUCT(%s,(1+%s)^(%s-1))", f.o.useColumn(column), f.o.useColumn(useGrowth), f.year(t))
}

func (f ownFormulas) valueShare(age string) string {
	return f.valueShareFor(age, f.cap(capital.Running, 1))
}

// valueShareFor is the twin of capital.ValueShare; hours is the cell with the
// first year's running hours.
func (f ownFormulas) valueShareFor(age, hours string) string {
	var share func(years string) string
	switch f.machine.Resale {
	case model.ResaleTable:
		var shares []string
		for i := range f.machine.ValueTable {
			shares = append(shares, f.of(fmt.Sprintf("value_table.%d", i+1)))
		}
		return fmt.Sprintf("IF(%[1]s=0,1,CHOOSE(MAX(1,MIN(%[1]s,%d)),%s))", age, len(shares), strings.Join(shares, ","))
	case model.ResaleRemainingValue:
		share = func(years string) string {
			return fmt.Sprintf("MAX(0,%s-%s*SQRT(%s)-%s*SQRT(%s))^2", f.of("value_c1"), f.of("value_c2"), years, f.of("value_c3"), hours)
		}
	default:
		share = func(years string) string {
			first := f.of("first_year_value")
			return fmt.Sprintf("IF(%[1]s<1,1-(1-%[2]s)*%[1]s,%[2]s*%[3]s^(%[1]s-1))", years, first, f.of("yearly_value"))
		}
	}
	old := f.of("age")
	return fmt.Sprintf("IF(%[1]s=0,1,IF(%[2]s=0,%[3]s,IF(%[4]s=0,0,%[5]s/(%[4]s))))", age, old, share(age), share(old), share("("+old+"+"+age+")"))
}

// buyingLine is what buying costs.
func (f ownFormulas) buyingLine(line capital.Line, t int) string {
	switch line {
	case capital.Price:
		return f.bought(t, f.of("price")+"*"+f.priceGrown(f.year(t)))
	case capital.SalesTax:
		return f.cap(capital.Price, t) + "*" + f.of("sales_tax")
	case capital.Moving:
		return f.bought(t, fmt.Sprintf("(%s+%s)*%s", f.of("delivery"), f.of("rigging"), f.priceGrown(f.year(t))))
	}
	if t > 0 {
		return "0"
	}
	if line == capital.Fixtures {
		return f.ownFixtures() + f.shared("+", ".price")
	}
	start := fmt.Sprintf("%s+%s*%s+%s", f.of("training"), f.of("training_time"), f.b.in("studio.labour_rate"), f.of("first_abrasives"))
	if _, ok := model.Find(f.b.study.Edges, f.machine.Edge); ok {
		start += fmt.Sprintf("+%s*%s", f.of("first_edges"), f.b.in("edges."+f.machine.Edge+".price"))
	}
	return start
}

// loanLine is the twin of package loan.
func (f ownFormulas) loanLine(line capital.Line, t int) string {
	age, rate, months := f.cap(capital.Age, t), "("+f.of("loan.apr")+"/12)", f.of("loan.months")
	if line == capital.Borrowed {
		return "-" + f.cap(capital.Price, t) + "*" + f.of("loan.share")
	}
	if t == 0 {
		return map[capital.Line]string{capital.Owed: "-" + f.cap(capital.Borrowed, 0)}[line]
	}
	lent := fmt.Sprintf("-INDEX(%s,1,%s-%s+1)", f.years(lineOf(capital.Borrowed)), f.year(t), age)
	before := fmt.Sprintf("IF(%s=1,%s,%s)", age, lent, f.cap(capital.Owed, t-1))
	switch line {
	case capital.Owed:
		return fmt.Sprintf("IF(12*%[1]s>=%[2]s,0,(%[3]s)*IF(%[4]s=0,(%[2]s-12*%[1]s)/%[2]s,(1-(1+%[4]s)^(12*%[1]s-%[2]s))/(1-(1+%[4]s)^-%[2]s)))", age, months, lent, rate)
	case capital.Principal:
		return fmt.Sprintf("%s-%s+%s", before, f.cap(capital.Owed, t), f.sold(t, f.cap(capital.Owed, t), "0"))
	}
	payment := fmt.Sprintf("(%[1]s)*IF(%[2]s=0,1/%[3]s,%[2]s/(1-(1+%[2]s)^-%[3]s))", lent, rate, months)
	return fmt.Sprintf("%s*MAX(0,MIN(12,%s-12*(%s-1)))-(%s-%s)", payment, months, age, before, f.cap(capital.Owed, t))
}

// runningLine is the twin of capital.RunningCosts.
func (f ownFormulas) runningLine(line capital.Line, t int) string {
	if t == 0 {
		return ""
	}
	hours := f.cap(capital.Running, t)
	labour := f.b.in("studio.labour_rate") + "*" + f.grown("labour", t)
	switch line {
	case capital.Upkeep:
		return f.upkeep(t) + "*" + f.grown("upkeep", t)
	case capital.Insurance:
		return fmt.Sprintf("IF(%s=1,%s,%s)*(%s+%s)", f.cap(capital.Age, t), f.cap(capital.Price, t-1), f.cap(capital.Value, t-1), f.of("insurance"), f.of("property_tax"))
	case capital.Other:
		return f.of("yearly_other") + "*" + f.grown("upkeep", t)
	case capital.Floor:
		return cell(f.o.facts+factArea, 2) + "*" + f.b.in("studio.floor_cost") + "*" + f.grown("floor", t)
	case capital.Energy:
		return hours + "*" + f.energyAnHour() + "*" + f.grown("energy", t)
	case capital.Demand:
		return f.demandAYear() + "*" + f.grown("energy", t)
	case capital.Wear:
		return fmt.Sprintf("SUMPRODUCT(%s,%s,(1+%s)^(%s-1))*%s", f.o.useColumn(usePerYear), f.o.useColumn(useWear), f.o.useColumn(useGrowth), f.year(t), f.grown("consumables", t))
	case capital.OwnTime:
		return fmt.Sprintf("SUMPRODUCT(%s,%s,(1+%s)^(%s-1))*%s", f.o.useColumn(useHours), f.o.useColumn(useCrew), f.o.useColumn(useGrowth), f.year(t), labour)
	case capital.Care:
		return hours + "*" + f.of("care_share") + "*" + labour
	case capital.Routine:
		return "12*" + f.of("care_per_month") + "/60*" + labour
	case capital.Learning:
		if t > 1 {
			return "0"
		}
		return f.cap(capital.OwnTime, t) + "*" + f.of("learning_share")
	}
	return fmt.Sprintf("-%s*%s*(1-%s)*%s", f.of("hours_sold"), f.of("sold_rate"), f.of("sold_cost"), f.grown("rental", t)) // hours sold
}

// energyAnHour is what a running hour draws, at today's prices.
func (f ownFormulas) energyAnHour() string {
	return fmt.Sprintf("(%s*%s/%s+%s)*%s", f.of("motor"), f.of("mean_load"), f.of("efficiency"), f.of("extra_power"), f.b.in("studio.energy_price"))
}

// demandAYear is what its highest draw costs in a year, at today's prices.
func (f ownFormulas) demandAYear() string {
	return fmt.Sprintf("(%s/%s+%s)*%s*%s", f.of("motor"), f.of("efficiency"), f.of("extra_power"), f.b.in("studio.demand_charge"), f.of("demand_months"))
}

func (f ownFormulas) upkeep(t int) string {
	return f.upkeepFor(f.at(lineHoursSoFar, t), f.cap(capital.Running, t), f.cap(capital.Age, t))
}

// upkeepFor is the twin of capital.Repair: upkeep of a year at today's prices,
// from the hours in the machine's life at its end, the year's hours and the age.
func (f ownFormulas) upkeepFor(soFar, hours, age string) string {
	if f.machine.Upkeep == model.UpkeepAccumulated {
		return fmt.Sprintf("%[1]s*%[2]s*((%[3]s/1000)^%[4]s-(ABS(%[3]s-%[5]s)/1000)^%[4]s)", f.of("new_price"), f.of("repair_factor"), soFar, f.of("repair_power"), hours)
	}
	return fmt.Sprintf("%s*%s*(1+%s)^(%s+%s-1)", f.of("new_price"), f.of("upkeep_share"), f.of("upkeep_rise"), f.of("age"), age)
}

// taxLine is the twin of capital's taxes.
func (f ownFormulas) taxLine(line capital.Line, t int) string {
	if t == 0 {
		return ""
	}
	age := f.cap(capital.Age, t)
	switch line {
	case capital.TaxShare:
		return f.taxShare(age, t)
	case capital.Deducted:
		return f.at(lineBasis, t) + "*" + f.cap(capital.TaxShare, t)
	case capital.Book:
		before := f.at(lineBasis, t)
		if t > 1 {
			before = fmt.Sprintf("IF(%s=1,%s,%s)", age, before, f.cap(capital.Book, t-1))
		}
		return before + "-" + f.cap(capital.Deducted, t)
	case capital.Gain:
		return f.sold(t, fmt.Sprintf("-%s-%s-%s-%s", f.cap(capital.Resale, t), f.cap(capital.FixturesBack, t), f.cap(capital.RiggingOut, t), f.cap(capital.Book, t)), "0")
	}
	deducted := fmt.Sprintf("%s+SUM(%s)-%s", f.cap(capital.Deducted, t),
		span(f.o.rows[lineOf(capital.Interest)], yearColumn+t, f.o.rows[lineOf(capital.Sold)], yearColumn+t), f.cap(capital.Gain, t))
	if t == 1 {
		deducted += "+" + f.cap(capital.Start, 0)
	}
	return "-" + f.b.in("studio.tax_rate") + "*(" + deducted + ")"
}

func (f ownFormulas) taxShare(age string, t int) string {
	if f.machine.Tax.Method == model.TaxNone {
		return "0"
	}
	share := fmt.Sprintf("%s*(1-%s)", f.at(lineSchedule, t), f.of("tax.first_year"))
	if part := capital.SaleYearShare(&f.machine.Tax); part < 1 {
		last := len(capital.Schedule(f.machine, nil))
		share += "*" + f.sold(t, fmt.Sprintf("IF(%s<%d,%g,1)", age, last, part), "1")
	}
	return fmt.Sprintf("%s+IF(%s=1,%s,0)", share, age, f.of("tax.first_year"))
}

func (f ownFormulas) schedule(t int) string {
	age, left := f.cap(capital.Age, t), "1"
	if t > 1 {
		left = fmt.Sprintf("IF(%s=1,1,%s)", age, f.at(lineLeft, t-1))
	}
	return f.scheduleFor(age, left, f.cap(capital.Running, t))
}

// scheduleFor is the twin of package depreciation, one year of age at a time:
// left is what the method had left before, hours are the year's running hours.
func (f ownFormulas) scheduleFor(age, left, hours string) string {
	life, salvage := f.of("tax.life"), f.of("tax.salvage")
	switch f.machine.Tax.Method {
	case model.TaxStraightLine:
		return fmt.Sprintf("IF(%s<=%[2]s,(1-%[3]s)/%[2]s,0)", age, life, salvage)
	case model.TaxSumOfYears:
		return fmt.Sprintf("IF(%[1]s<=%[2]s,(1-%[3]s)*(%[2]s-%[1]s+1)/(%[2]s*(%[2]s+1)/2),0)", age, life, salvage)
	case model.TaxDecliningBalance:
		above := fmt.Sprintf("MAX(0,%s-%s)", left, salvage)
		return fmt.Sprintf("IF(%[1]s<=%[2]s,MIN(%[3]s,MAX((%[4]s)*%[5]s/%[2]s,%[3]s/(%[2]s-%[1]s+1))),0)", age, life, above, left, f.of("tax.factor"))
	case model.TaxUnitsOfProduction:
		units := fmt.Sprintf("(%s-%s)", f.of("life_hours"), f.of("hours"))
		return fmt.Sprintf("MIN((1-%[1]s)*%[2]s/%[3]s,MAX(0,%[4]s-%[1]s))", salvage, hours, units, left)
	case model.TaxHalfYear, model.TaxMidQuarter:
		var shares []string
		for _, share := range capital.Schedule(f.machine, nil) {
			shares = append(shares, fmt.Sprintf("%.17g", share))
		}
		return fmt.Sprintf("IF(%[1]s<=%[2]d,CHOOSE(MIN(%[1]s,%[2]d),%[3]s),0)", age, len(shares), strings.Join(shares, ","))
	}
	return "0"
}

// netLine sums the costs and discounts them.
func (f ownFormulas) netLine(line capital.Line, t int) string {
	switch line {
	case capital.Net:
		return "SUM(" + span(f.o.rows[lineOf(capital.Price)], yearColumn+t, f.o.rows[lineOf(capital.Tax)], yearColumn+t) + ")"
	case capital.Discount:
		return fmt.Sprintf("(1+%s)^-%s", f.b.in("studio.discount_rate"), f.year(t))
	}
	return f.cap(capital.Net, t) + "*" + f.cap(capital.Discount, t)
}

// savedLine is one line of renting that owning saves: rented less what is
// still rented beside the machine.
func (f ownFormulas) savedLine(line, t int) string {
	if t == 0 {
		return ""
	}
	return f.b.rentFormula(rented, line, f.year(t)) + "-(" + f.b.rentFormula(f.result.Machine, line, f.year(t)) + ")"
}

// sheetLine is a line that only the sheet needs.
func (f ownFormulas) sheetLine(line ownLine, t int) string {
	if t == 0 && line <= lineLeft {
		return ""
	}
	switch line {
	case lineJobs:
		return fmt.Sprintf("SUMPRODUCT((%s>0)*%s,(1+%s)^(%s-1))", f.o.useColumn(usePerJob), f.o.useColumn(usePerYear), f.o.useColumn(useGrowth), f.year(t))
	case lineHoursSoFar:
		before := f.of("hours")
		if t > 1 {
			before = fmt.Sprintf("IF(%s=1,%s,%s)", f.cap(capital.Age, t), before, f.at(lineHoursSoFar, t-1))
		}
		return before + "+" + f.cap(capital.Running, t)
	case lineBasis:
		paid := fmt.Sprintf("%s+%s+%s+%s", f.cap(capital.Price, t-1), f.cap(capital.SalesTax, t-1), f.cap(capital.Moving, t-1), f.cap(capital.Fixtures, t-1))
		if t == 1 {
			return paid
		}
		return fmt.Sprintf("IF(%s=1,%s,%s)", f.cap(capital.Age, t), paid, f.at(lineBasis, t-1))
	case lineSchedule:
		return f.schedule(t)
	case lineLeft:
		if t == 1 {
			return "1-" + f.at(lineSchedule, t)
		}
		return fmt.Sprintf("IF(%s=1,1,%s)-%s", f.cap(capital.Age, t), f.at(lineLeft, t-1), f.at(lineSchedule, t))
	}
	if line >= lineGroup0 {
		group := costGroups[line-lineGroup0]
		return "SUM(" + span(f.o.rows[lineOf(group.first)], yearColumn+t, f.o.rows[lineOf(group.last)], yearColumn+t) + ")"
	}
	return f.sumLine(line, t)
}

// sumLine adds the saved lines up and follows the money until it is back.
func (f ownFormulas) sumLine(line ownLine, t int) string {
	switch line {
	case lineSaved:
		if t == 0 {
			return "0"
		}
		all := span(f.o.rows[lineSaved0], yearColumn+t, f.o.rows[lineSaved0+ownLine(len(rentLines))-1], yearColumn+t)
		return fmt.Sprintf("SUM(%s)*(1-%s)", all, f.b.in("studio.tax_rate"))
	case lineDifference:
		return f.at(lineSaved, t) + "-" + f.cap(capital.Net, t)
	case lineSum:
		return "SUM(" + span(f.o.rows[lineDifference], yearColumn, f.o.rows[lineDifference], yearColumn+t) + ")"
	case lineSumSaved:
		return "SUM(" + span(f.o.rows[lineSaved], yearColumn, f.o.rows[lineSaved], yearColumn+t) + ")"
	case lineSumOwning:
		net := f.o.rows[lineOf(capital.Net)]
		return "SUM(" + span(net, yearColumn, net, yearColumn+t) + ")"
	case lineDiscountedSum:
		row := func(line ownLine) string { return span(f.o.rows[line], yearColumn, f.o.rows[line], yearColumn+t) }
		return fmt.Sprintf("SUMPRODUCT(%s,%s)", row(lineDifference), row(lineOf(capital.Discount)))
	}
	if t == 0 {
		return ""
	}
	running, flow := lineSum, f.at(lineDifference, t)
	if line == lineDiscountedPayback {
		running, flow = lineDiscountedSum, flow+"*"+f.cap(capital.Discount, t)
	}
	return fmt.Sprintf(`IF(AND(%[1]s<0,%[2]s>=0),%[3]s-1-%[1]s/(%[4]s),"")`, f.at(running, t-1), f.at(running, t), f.year(t), flow)
}
