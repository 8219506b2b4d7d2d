package workbook

import (
	"github.com/stretchr/testify/require"

	"shopstint/capital"
	"shopstint/capital/decision/conformance"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/wear"
)

// carries lays a case of a method out with the formulas of the workbook; nil for a
// case that no formula carries. Methods that are not here stand in the workbook as
// figures of the engine only.
var carries = map[string]func(*sheetCase) *entry{
	"depreciation":  (*sheetCase).depreciation,
	"loan":          (*sheetCase).loan,
	"timevalue":     (*sheetCase).timeValue,
	"machinerate":   (*sheetCase).timeValue,
	"ownershipcost": (*sheetCase).ownershipCost,
	"economiclife":  (*sheetCase).economicLife,
	"upkeep":        (*sheetCase).upkeep,
	"breakeven":     (*sheetCase).breakEven,
	"density":       (*sheetCase).density,
	"current":       (*sheetCase).current,
	"toolchange":    (*sheetCase).toolChange,
	"aftertax":      (*sheetCase).afterTax,
	"unitcost":      (*sheetCase).unitCost,
}

// taxMethods are the methods of a study by the words of the cases.
var taxMethods = map[string]string{
	"straight line": model.TaxStraightLine, "sum of years": model.TaxSumOfYears, "declining balance": model.TaxDecliningBalance,
	"units of production": model.TaxUnitsOfProduction, "half-year": model.TaxHalfYear, "mid-quarter": model.TaxMidQuarter,
}

func (c *sheetCase) number(name string, otherwise float64) float64 {
	if c.in.Has(name) {
		return c.in.Number(name)
	}
	return otherwise
}

// depreciation deducts a machine of the case's cost year by year.
func (c *sheetCase) depreciation() *entry {
	method, ok := taxMethods[c.in.Text("method")]
	if !ok {
		return nil
	}
	cost, class := c.number("cost", 100), c.number("class", 0)
	m := &model.Machine{Tax: model.Depreciation{Method: method, Life: quantity.Years(class), Quarter: quantity.Count(c.number("quarter", 1))}}
	years := int(c.number("life", 0))
	var units []float64
	switch {
	case class > 0:
		years = len(capital.Schedule(m, nil))
	case c.in.Has("units"):
		units = c.in.List("units")
		years = len(units)
	}
	if _, whole := c.in.Case.Want["between"]; whole && len(c.in.Case.Want) == 1 {
		years = int(c.in.Number("to"))
	}
	c.own(map[string]float64{
		"tax.life": c.number("life", class), "tax.salvage": c.number("salvage", 0) / cost, "tax.factor": c.number("factor", 1),
		"tax.first_year": 0, "life_hours": c.number("total_units", 0), "hours": 0,
	})
	f := c.machine(m, years)
	c.fixed(f, capital.Price, 0, cost)
	for t, hours := range units {
		c.fixed(f, capital.Running, t+1, hours)
	}
	var deducted []string
	book := ""
	for t := 1; t <= years; t++ {
		deducted = append(deducted, c.line(f, t, lineBasis, lineSchedule, lineLeft, lineOf(capital.TaxShare), lineOf(capital.Deducted)))
		book = c.line(f, t, lineOf(capital.Book))
	}
	cells := figures{"deductions": deducted, "first": deducted[:1], "last": deducted[years-1:], "book": {book}}
	cells["total"] = []string{c.next(sum(deducted))}
	if cost == 100 {
		cells["percent"] = deducted
	}
	if c.in.Has("from") {
		cells["between"] = []string{c.next(sum(deducted[int(c.in.Number("from")):int(c.in.Number("to"))]))}
	}
	return &entry{cells: cells}
}

// loan pays a loan back in years: the sheet of owning has no single months.
func (c *sheetCase) loan() *entry {
	first, last, given := 0, 0, c.in.Has("year") || c.in.Has("from")
	if c.in.Has("from") {
		first, last = int(c.in.Number("from")), int(c.in.Number("to"))
	}
	if !given || first > 0 && (first%12 != 1 || last%12 != 0) {
		return nil
	}
	months := c.in.Number("months")
	c.own(map[string]float64{"loan.apr": c.in.Number("yearly_rate"), "loan.months": months, "loan.share": 1})
	years := int(months+11) / 12
	f := c.machine(&model.Machine{}, years)
	c.fixed(f, capital.Price, 0, c.in.Number("principal"))
	c.line(f, 0, lineOf(capital.Borrowed), lineOf(capital.Owed))
	interest, principal := make([]string, years+1), make([]string, years+1)
	for t := 1; t <= years; t++ {
		c.line(f, t, lineOf(capital.Owed))
		interest[t], principal[t] = c.line(f, t, lineOf(capital.Interest)), c.line(f, t, lineOf(capital.Principal))
	}
	cells := figures{}
	if c.in.Has("year") {
		year := int(c.in.Number("year"))
		cells["year_interest"], cells["year_principal"] = interest[year:year+1], principal[year:year+1]
	}
	if first > 0 {
		from, to := first/12+1, last/12
		cells["sum_interest"], cells["sum_principal"] = []string{c.next(sum(interest[from : to+1]))}, []string{c.next(sum(principal[from : to+1]))}
	}
	return &entry{cells: cells}
}

// rate is a rate a period, or a yearly one shared out evenly.
func (c *sheetCase) rate() float64 {
	if c.in.Has("yearly_rate") {
		return c.in.Number("yearly_rate") / c.in.Number("periods_a_year")
	}
	return c.in.Number("rate")
}

// timeValue runs equal amounts through what is bought and kept for a way, and
// flows through what owning saves.
func (c *sheetCase) timeValue() *entry {
	in := c.in
	switch in.Text("method") {
	case "present value":
		return c.flows(in.Number("rate"), in.List("flows"))
	case "present of payments and a last sum":
		flows := append([]float64{0}, level(in.Number("payment"), int(in.Number("periods")))...)
		flows[len(flows)-1] += in.Number("last")
		return c.flows(c.rate(), flows)
	case "return rates":
		return c.returns(in.List("flows"))
	case "return rates of level payments":
		return c.returns(append([]float64{in.Number("present")}, level(in.Number("payment"), int(in.Number("periods")))...))
	case "payment":
		return c.recovered("payment", c.rate(), way{price: in.Number("present"), years: in.Number("periods")})
	case "sinking fund":
		return c.recovered("deposit", c.rate(), way{resale: -in.Number("future"), years: in.Number("periods")})
	case "capital recovery":
		return c.recovered("factor", in.Number("rate"), way{price: 1, years: in.Number("years")})
	case "recovery less salvage", "recovery and interest on salvage":
		return c.recoveredLessSalvage()
	}
	return nil
}

func level(payment float64, periods int) []float64 {
	list := make([]float64, periods)
	for i := range list {
		list[i] = payment
	}
	return list
}

// flows are what owning saves, discounted.
func (c *sheetCase) flows(rate float64, flows []float64) *entry {
	c.give(map[string]float64{"studio.discount_rate": rate})
	f := c.machine(&model.Machine{}, len(flows)-1)
	present := ""
	for t, flow := range flows {
		c.put(f.o.rows[lineDifference], yearColumn+t, flow)
		present = c.line(f, t, lineOf(capital.Discount), lineDiscountedSum)
	}
	return &entry{cells: figures{"present": {present}}}
}

// returns is the rate of flows that have just one: others stand in the workbook as
// a text.
func (c *sheetCase) returns(flows []float64) *entry {
	found := timevalue.ReturnRates(flows)
	if len(found) != 1 || found[0] < worstReturn {
		return nil
	}
	for t, flow := range flows {
		c.put(c.row, yearColumn+t, flow)
	}
	c.row++
	return &entry{cells: figures{"rates": {c.next(returnFormula(span(c.row-1, yearColumn, c.row-1, yearColumn+len(flows)-1), found[0]))}}}
}

func (c *sheetCase) recovered(name string, rate float64, given way) *entry {
	w := c.compared(rate, 1, given)
	return &entry{cells: figures{name: {w.way(wayRecovery, 0)}}}
}

// recoveredLessSalvage spreads price and salvage over the years, alone and together.
func (c *sheetCase) recoveredLessSalvage() *entry {
	in := c.in
	price, salvage, years := in.Number("price"), in.Number("salvage"), in.Number("years")
	w := c.compared(in.Number("rate"), in.Number("hours"),
		way{price: price, resale: salvage, years: years, yearly: c.number("yearly", 0)}, way{price: price, years: years}, way{resale: -salvage, years: years})
	return &entry{cells: figures{
		"recovery": {w.way(wayRecovery, 0)}, "ownership": {w.way(wayFixed, 0)}, "per_hour": {w.way(wayEquipment, 0)},
		"price_a_year": {w.way(wayRecovery, 1)}, "salvage_a_year": {w.way(wayRecovery, 2)},
	}}
}

// ownershipCost runs the years of owning one machine.
func (c *sheetCase) ownershipCost() *entry {
	if c.in.Text("method") == "owning-cost worksheet" {
		return c.worksheet()
	}
	in := c.in
	price, salvage, years, hours := in.Number("price"), in.Number("salvage"), int(in.Number("years")), in.Number("hours")
	m := &model.Machine{Resale: model.ResaleTable, ValueTable: make([]quantity.Share, years), Tax: model.Depreciation{Method: model.TaxStraightLine}}
	inputs := map[string]float64{
		"price": price, "insurance": in.Number("rate"), "property_tax": 0, "tax.life": float64(years), "tax.salvage": salvage / price, "tax.first_year": 0,
	}
	for i := range years {
		inputs["value_table."+string(rune('1'+i))] = 1 - (1-salvage/price)*float64(i+1)/float64(years)
	}
	c.own(inputs)
	c.give(map[string]float64{"growth.machines": 0, "growth.labour": 0, "studio.labour_rate": 0})
	f := c.machine(m, years)
	c.fixed(f, capital.Price, 0, price)
	var interest []string
	for t := 1; t <= years; t++ {
		interest = append(interest, c.line(f, t, lineOf(capital.Value), lineOf(capital.Insurance)))
	}
	deducted := c.line(f, 1, lineBasis, lineSchedule, lineOf(capital.TaxShare), lineOf(capital.Deducted))
	return &entry{cells: figures{"interest": interest, "deducted": {deducted}}, finish: func(got map[string][]float64) map[string][]float64 {
		mean := 0.0
		for _, year := range got["interest"] {
			mean += year / float64(years)
		}
		return map[string][]float64{
			"investment": {mean / in.Number("rate")}, "interest_an_hour": {mean / hours},
			"depreciation_an_hour": {got["deducted"][0] / hours}, "per_hour": {(mean + got["deducted"][0]) / hours},
		}
	}}
}

// worksheet buys a machine with tax and freight and deducts it by its hours. What
// it came to is in the salvage too, as a formula.
func (c *sheetCase) worksheet() *entry {
	in := c.in
	hours := in.Number("hours_a_year")
	c.own(map[string]float64{
		"price": in.Number("list") * (1 - in.Number("discount")), "sales_tax": in.Number("sales_tax"),
		"delivery": in.Number("hundredweights") * in.Number("freight"), "rigging": 0, "life_hours": in.Number("life_hours"), "hours": 0, "tax.life": 0, "tax.first_year": 0,
		"tires": in.Number("tires") * in.Number("tire_index"), "salvage_share": in.Number("salvage_share"),
	})
	c.give(map[string]float64{"growth.machines": 0})
	f := c.machine(&model.Machine{Tax: model.Depreciation{Method: model.TaxUnitsOfProduction}}, 1)
	cells := figures{}
	for name, line := range map[string]capital.Line{"price": capital.Price, "tax": capital.SalesTax, "moving": capital.Moving} {
		cells[name] = []string{c.line(f, 0, lineOf(line))}
	}
	total := c.line(f, 1, lineBasis)
	c.b.names["machines.m.tax.salvage"] = c.next(f.of("salvage_share") + "+" + f.of("tires") + "/" + total)
	c.fixed(f, capital.Running, 1, hours)
	cells["total"] = []string{total}
	cells["per_hour"] = []string{c.line(f, 1, lineSchedule, lineOf(capital.TaxShare), lineOf(capital.Deducted))}
	return &entry{cells: cells, finish: func(got map[string][]float64) map[string][]float64 {
		got["per_hour"][0] /= hours
		return got
	}}
}

// economicLife takes running costs and market values as they are published.
func (c *sheetCase) economicLife() *entry {
	operating, market := c.in.List("operating"), c.in.List("market")
	c.own(map[string]float64{"price": c.in.Number("price"), "sales_tax": 0, "delivery": 0, "rigging": 0})
	c.give(map[string]float64{"studio.discount_rate": c.in.Number("rate")})
	f := lifeFormulas{b: c.b, in: "machines.m.", first: c.row}
	var costs []string
	for i := range operating {
		c.put(c.row, lifeYear, float64(i+1))
		c.put(c.row, lifeOperating, operating[i])
		c.put(c.row, lifeMarket, market[i])
		c.put(c.row, lifePresent, f.formula(lifePresent, i+1))
		costs = append(costs, c.put(c.row, lifeAnnual, f.formula(lifeAnnual, i+1)))
		c.row++
	}
	annual := span(f.first, lifeAnnual, c.row-1, lifeAnnual)
	return &entry{cells: figures{"costs": costs, "last": costs[len(costs)-1:], "life": {c.next(keptBest(annual))}, "cost": {c.next(leastCost(annual))}}}
}

// upkeep is repair in a machine's life so far, and what it would still fetch.
func (c *sheetCase) upkeep() *entry {
	if c.in.Text("method") == "repair" {
		c.own(map[string]float64{"new_price": c.in.Number("price"), "repair_factor": c.in.Number("rf1"), "repair_power": c.in.Number("rf2")})
		f := ownFormulas{b: c.b, in: "machines.m.", machine: &model.Machine{Upkeep: model.UpkeepAccumulated}}
		return &entry{cells: figures{"repair": c.each(c.in.List("hours"), func(hours string) string { return f.upkeepFor(hours, hours, "1") })}}
	}
	c.own(map[string]float64{"value_c1": c.in.Number("c1"), "value_c2": c.in.Number("c2"), "value_c3": c.in.Number("c3"), "age": 0})
	hours := c.next(c.in.Number("hours_a_year"))
	f := ownFormulas{b: c.b, in: "machines.m.", machine: &model.Machine{Resale: model.ResaleRemainingValue}}
	return &entry{cells: figures{"shares": c.each(c.in.List("ages"), func(age string) string { return f.valueShareFor(age, hours) })}}
}

// each writes a formula beside every one of some figures.
func (c *sheetCase) each(list []float64, formula func(at string) string) []string {
	var made []string
	for _, x := range list {
		at := c.next(x)
		made = append(made, c.put(c.row-1, 3, formula(at)))
	}
	return made
}

// breakEven sets owning beside hiring, as two ways of the same work.
func (c *sheetCase) breakEven() *entry {
	in := c.in
	own := way{price: c.number("price", 0), resale: c.number("salvage", 0), years: c.number("years", 1), yearly: c.number("yearly", c.number("fixed_a_year", 0)), unit: in.Number("own_rate")}
	w := c.compared(c.number("rate", 0), c.number("units", 1), own, way{years: 1, unit: in.Number("rent_rate")})
	cells := figures{"break_even": {cell(w.pairs, pairAt)}}
	if in.Has("units") {
		cells["saving"] = []string{c.next(w.way(wayYearly, 1) + "-" + w.way(wayYearly, 0))}
	}
	return &entry{cells: cells}
}

// density weighs a stock, and a slab of it where the case has one.
func (c *sheetCase) density() *entry {
	in, slab := c.in, c.in.Has("length_in")
	c.b.study.Materials = []model.Material{{Key: "stock"}}
	c.give(map[string]float64{"materials.stock.specific_gravity": in.Number("gravity"), "materials.stock.moisture": in.Number("moisture_percent") / 100, "materials.stock.density": 0})
	at := c.row + 1
	c.row = c.b.densities(page{c.sheet}, c.row)
	cells := figures{"density": {cell(at, 3)}}
	if slab {
		c.give(map[string]float64{
			"slab.length": conformance.Metres(in, "length_in").Millimetres(), "slab.width": conformance.Metres(in, "width_in").Millimetres(), "slab.thickness": conformance.Metres(in, "thickness_in").Millimetres(),
		})
		cells["mass"] = []string{c.next(timeFormulas{b: c.b, piece: "slab.", density: cells["density"][0]}.mass())}
	}
	return &entry{cells: cells, finish: func(got map[string][]float64) map[string][]float64 {
		if slab {
			return conformance.Pounds(got["density"][0], got["mass"][0])
		}
		return conformance.Pounds(got["density"][0], 0)
	}}
}

// current is what a motor takes in, as energy of an hour at a price of 1.
func (c *sheetCase) current() *entry {
	if c.in.Text("method") != "motor input" {
		return nil
	}
	output := c.in.Number("output_watts")
	c.own(map[string]float64{"motor": output, "mean_load": 1, "efficiency": c.in.Number("efficiency"), "extra_power": 0})
	c.give(map[string]float64{"studio.energy_price": 1})
	drawn := c.next(ownFormulas{b: c.b, in: "machines.m."}.energyAnHour())
	return &entry{cells: figures{"input_watts": {drawn}, "loss_watts": {c.next(drawn + "-" + c.b.in("machines.m.motor"))}}}
}

// toolChange finds the run of least cost where no damage ends it: the law of the
// workbook is damage without memory.
func (c *sheetCase) toolChange() *entry {
	if !c.in.Has("rise") {
		return nil
	}
	f := wearLine{b: c.b, p: page{c.sheet}, item: &wear.Item{}, use: &wear.Use{}, from: c.row, at: c.row + 1, step: c.row + 2}
	for column, value := range map[int]float64{stepOne: c.in.Number("change"), stepRise: c.in.Number("rise"), stepRate: 0, stepLast: 0} {
		c.put(f.step, column, value)
	}
	f.best()
	c.row += 3
	return &entry{cells: figures{"best": {f.it(yearBest)}}}
}

// afterTax reads a whole decision workbook: a machine without work, so that what
// owning saves less what it costs is the published cash flow.
func (c *sheetCase) afterTax() *entry {
	s, m := conformance.Earning(c.in)
	require.NoError(c.t, c.in.Err())
	for i := range s.JobTypes {
		s.JobTypes[i].PerYear = 0
	}
	years, file := int(m.YearsKept), c.decided(s)
	label := map[ownLine]string{}
	for _, line := range ownLines {
		label[line.line] = line.label
	}
	row := func(line ownLine, from int) []string {
		var list []string
		at, _ := c.found(file, sheetOwning, label[line])
		for t := from; t <= years; t++ {
			list = append(list, cell(at, yearColumn+t))
		}
		return list
	}
	fact := func(label string) []string {
		at, _ := c.found(file, sheetOwning, label)
		return []string{cell(at, 2)}
	}
	cells := figures{
		"depreciation": row(lineOf(capital.Deducted), 1), "book_value": row(lineOf(capital.Book), years), "gain": row(lineOf(capital.Gain), years),
		"flows": row(lineDifference, 0), "present": fact("difference (positive: buying pays)"), "return": fact("rate of return of the difference"),
	}
	return &entry{file: file, sheet: sheetOwning, cells: cells, finish: func(got map[string][]float64) map[string][]float64 {
		got["tax_on_gain"] = []float64{got["gain"][0] * float64(s.Studio.TaxRate)}
		return got
	}}
}

// unitCost reads a whole decision workbook: one job of an hour in a room that is
// rented by the hour.
func (c *sheetCase) unitCost() *entry {
	file := c.decided(conformance.HourInTheRoom(c.in.Number("rent_per_hour")))
	titles, column := c.found(file, sheetVisits, visitTitles[visitTime])
	return &entry{file: file, sheet: sheetVisits, cells: figures{"per_unit": {cell(titles+1, column)}}, finish: func(got map[string][]float64) map[string][]float64 {
		got["per_unit"][0] /= c.in.Number("units_per_hour")
		return got
	}}
}
