package workbook

import (
	"fmt"

	"shopstint/capital"
	"shopstint/capital/decision/sensitivity"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
	"shopstint/reports/workbook/grid"
)

// Columns of the figures by machine: the machine at hand, then every candidate.
const (
	factsLabel = iota + 1
	factsHand
	factsMachine // first of the candidates
)

// factPlaces says where the facts behind the cases stand.
type factPlaces struct {
	row    int                           // next free row
	names  map[string]string             // names of figures of the machine at hand
	yearly map[string]int                // row of a yearly figure of the machine at hand
	jobs   map[string]int                // column of a figure by job type
	ofJob  map[string]func(job int) term // and the figure
	job0   int                           // first row of the job types
	visit  map[string]int                // row of a figure by visit
	rented []int                         // rows of the visits sheet when everything is rented
	most   int                           // visits beside a machine: the most of any machine
	clocks int
}

// visits is how many columns of visits there are.
func (f *factPlaces) visits() int { return len(f.rented) + f.most }

// handFact names a figure of the machine at hand.
func (b *book) handFact(key string) string { return b.facts.names[key] }

// caseFacts lays out what the cases are reckoned from: figures of every
// candidate and, beside them, of the machine at hand.
func (b *book) caseFacts(s *grid.Sheet) {
	p, f := page{s}, &b.facts
	*f = factPlaces{row: 3, names: map[string]string{}, yearly: map[string]int{}, jobs: map[string]int{}, visit: map[string]int{}}
	s.Columns = []float64{40, 15}
	s.Freeze, s.Protected, s.TabColor = "C4", true, grey
	s.Print = grid.Print{Landscape: true, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Facts behind the cases", title)
	p.text(2, 1, "Figures of every candidate, picked for the machine that is chosen on the sheet Sensitivity. Nothing is to be changed here; job types and visits, farther down, are not printed.", lead)
	titles := []string{"figure", "machine at hand"}
	for m := range b.study.Machines {
		titles = append(titles, b.study.Machines[m].Key)
	}
	p.headers(3, titles...)
	b.machineFacts(p)
	b.yearlyFacts(p)
	s.Print.FitWide, s.Print.Area = 1, span(1, 1, b.facts.row, max(factYear+b.horizon(), factsMachine+len(b.study.Machines)-1))
	b.jobFacts(p)
	b.visitFacts(p)
}

// machineFacts writes a line for every figure that one machine has.
func (b *book) machineFacts(p page) {
	f := &b.facts
	f.row++
	chosen := fmt.Sprintf("MATCH(%s,%s,0)", grid.SheetRef(sheetSensitivity, sensitivityChosen, 2), grid.RangeRef(sheetFacts, 3, factsMachine, 3, factsMachine+len(b.study.Machines)-1))
	p.text(f.row, factsLabel, "its place in the list", plain)
	p.calc(f.row, factsHand, chosen, 1.0, numbers(asCount))
	f.names["machine"] = b.name("case_machine", grid.SheetRef(sheetFacts, f.row, factsHand), "")
	for _, fact := range b.factList() {
		b.machineFact(p, fact)
	}
}

// machineFact is a figure by machine; of is its formula and value for machine m.
type machineFact struct {
	key, label string
	of         func(m int) term
}

func (b *book) machineFact(p page, fact machineFact) {
	f := &b.facts
	f.row++
	p.text(f.row, factsLabel, fact.label, plain)
	for m := range b.study.Machines {
		figure := fact.of(m)
		if m == 0 {
			p.calc(f.row, factsHand, pick(span(f.row, factsMachine, f.row, factsMachine+len(b.study.Machines)-1), "1,"+b.handFact("machine")), figure.value, numbers(asGeneral))
		}
		p.calc(f.row, factsMachine+m, figure.formula, figure.value, numbers(asGeneral))
	}
	f.names[fact.key] = b.name("case_"+fact.key, grid.SheetRef(sheetFacts, f.row, factsHand), "")
}

// inputFact is a figure that is an input of the machine, in the working unit.
func (b *book) inputFact(key, label string, paths ...string) machineFact {
	return machineFact{key, label, func(m int) term {
		var terms []string
		total := 0.0
		for _, path := range paths {
			path = "machines." + b.study.Machines[m].Key + "." + path
			terms = append(terms, b.in(path))
			total += b.working(path)
		}
		return term{sum(terms), total}
	}}
}

// working is the value of an input in the working unit of the formulas.
func (b *book) working(path string) float64 {
	leaf := b.leaves[path]
	dim, _ := leaf.Dimension()
	return unitOf(leaf, dim, quantity.Metric).of(leaf.Number())
}

func (b *book) flagFact(key, label string, is func(machine *model.Machine) bool) machineFact {
	return machineFact{key, label, func(m int) term { return constant(flag(is(&b.study.Machines[m]))) }}
}

func (b *book) factList() []machineFact {
	list := []machineFact{
		b.inputFact("sales_tax", "sales tax on its price", "sales_tax"),
		b.inputFact("moving", "delivery and rigging in", "delivery", "rigging"),
		b.inputFact("fixtures", "wiring, converter, dust collection, air", "wiring", "converter", "dust_collection", "compressor"),
		{"shared", "fixtures that it shares", func(m int) term { return b.sharedFact(m, false) }},
		{"shared_back", "what comes back of them", func(m int) term { return b.sharedFact(m, true) }},
		b.inputFact("fixtures_resale", "share of them that comes back", "fixtures_resale"),
		b.inputFact("rigging_out", "rigging out", "rigging_out"),
		b.inputFact("start_money", "instruction and first abrasives", "training", "first_abrasives"),
		b.inputFact("start_hours", "own hours to learn it", "training_time"),
		{"first_edges", "first edges", b.firstEdges},
		b.inputFact("loan_share", "share borrowed", "loan.share"),
		b.inputFact("loan_apr", "yearly rate of the loan", "loan.apr"),
		b.inputFact("loan_months", "months of the loan", "loan.months"),
		b.inputFact("holding", "insurance and property tax on its value", "insurance", "property_tax"),
		b.inputFact("age", "age when bought", "age"),
		b.inputFact("hours", "running hours when bought", "hours"),
		b.flagFact("accumulated", "upkeep by accumulated repair", func(m *model.Machine) bool { return m.Upkeep == model.UpkeepAccumulated }),
		{"repair", "new price times repair factor", b.repairFactor},
		b.inputFact("repair_power", "repair power", "repair_power"),
		b.inputFact("care", "own care as a share of running time", "care_share"),
		{"routine", "own care each year, h", b.routineHours},
		b.inputFact("learning", "slower first year", "learning_share"),
		{"sold", "hours sold to others, a year", b.soldFact},
		b.flagFact("deducts", "price is deducted", func(m *model.Machine) bool { return m.Tax.Method != model.TaxNone }),
		b.flagFact("by_hours", "deducted by running hours", func(m *model.Machine) bool { return m.Tax.Method == model.TaxUnitsOfProduction }),
		b.inputFact("first_year", "share written off in the first year", "tax.first_year"),
		b.inputFact("salvage", "share never deducted", "tax.salvage"),
		{"sale_year", "share of the schedule in the year of sale", func(m int) term { return constant(capital.SaleYearShare(&b.study.Machines[m].Tax)) }},
		{"table_years", "years of the schedule", func(m int) term { return constant(float64(len(capital.Schedule(&b.study.Machines[m], nil)))) }},
		{"units", "running hours left to deduct", b.unitsFact},
		b.flagFact("by_value", "value by the remaining-value form", func(m *model.Machine) bool { return m.Resale == model.ResaleRemainingValue }),
		b.inputFact("c1", "remaining value: start", "value_c1"),
		b.inputFact("c2", "remaining value: years", "value_c2"),
		b.inputFact("c3", "remaining value: hours", "value_c3"),
		{"area", "floor, m²", func(m int) term { return term{b.own[m].fact(factArea), b.answer.Machines[m].Owner.Area} }},
		{"fee_saved", "membership fees saved, a year", b.feeSaved},
		{"fees_rented", "induction fees, everything rented", func(int) term { return b.inductionPart(rented, true) }},
		{"fees_beside", "induction fees beside it", func(m int) term { return b.inductionPart(m, true) }},
		{"hours_rented", "own hours of inductions, everything rented", func(int) term { return b.inductionPart(rented, false) }},
		{"hours_beside", "own hours of inductions beside it", func(m int) term { return b.inductionPart(m, false) }},
		{"shop", "shop that its work goes to", func(m int) term { return constant(float64(1 + sensitivity.ShopOf(b.study, b.answer.Plan, m))) }},
		{"beside", "first line of its visits, counted from the first of all", func(m int) term { return constant(float64(b.visitsBeside(m).first)) }},
		{"beside_count", "lines of visits beside it", func(m int) term { return constant(float64(b.visitsBeside(m).count)) }},
	}
	for job := range b.study.JobTypes {
		list = append(list, machineFact{fmt.Sprintf("changes_%d", job+1), "it changes: " + b.study.JobTypes[job].Name, func(m int) term { return constant(flag(b.affected(m, job))) }})
	}
	for l := range sensitivity.Levers {
		for i, word := range [...]string{"as planned", "low", "high"} {
			key := fmt.Sprintf("%s_%d", [...]string{"planned", "low", "high"}[i], l+1)
			list = append(list, machineFact{key, l.Label() + ": " + word, func(m int) term { return b.leverAt(l, m, end(i)) }})
		}
	}
	return list
}

// sharedFact is the price of the fixtures that a machine shares, or what comes
// back of it.
func (b *book) sharedFact(m int, back bool) term {
	machine := &b.study.Machines[m]
	parts := []string{"+", ".price"}
	if back {
		parts = append(parts, "*", ".resale")
	}
	total := 0.0
	for _, fixture := range capital.Shared(b.study, machine) {
		if back {
			total += float64(fixture.Price) * float64(fixture.Resale)
		} else {
			total += float64(fixture.Price)
		}
	}
	return term{"0" + sharedTerms(b, machine, parts...), total}
}

func (b *book) firstEdges(m int) term {
	machine := &b.study.Machines[m]
	edge, ok := model.Find(b.study.Edges, machine.Edge)
	if !ok {
		return constant(0)
	}
	return term{b.in("machines."+machine.Key+".first_edges") + "*" + b.in("edges."+machine.Edge+".price"), float64(machine.FirstEdges) * float64(edge.Price)}
}

func (b *book) repairFactor(m int) term {
	machine := &b.study.Machines[m]
	in := "machines." + machine.Key + "."
	return term{b.in(in+"new_price") + "*" + b.in(in+"repair_factor"), float64(machine.NewPrice) * float64(machine.RepairFactor)}
}

func (b *book) routineHours(m int) term {
	machine := &b.study.Machines[m]
	return term{"12*" + b.in("machines."+machine.Key+".care_per_month") + "/60", 12 * machine.CarePerMonth.Hours()}
}

func (b *book) soldFact(m int) term {
	machine := &b.study.Machines[m]
	in := func(key string) string { return b.in("machines." + machine.Key + "." + key) }
	return term{fmt.Sprintf("%s*%s*(1-%s)", in("hours_sold"), in("sold_rate"), in("sold_cost")), machine.HoursSold.Hours() * float64(machine.SoldRate) * (1 - float64(machine.SoldCost))}
}

func (b *book) unitsFact(m int) term {
	machine := &b.study.Machines[m]
	in := func(key string) string { return b.in("machines." + machine.Key + "." + key) }
	return term{in("life_hours") + "-" + in("hours"), capital.UnitsLeft(machine)}
}

func (b *book) feeSaved(m int) term {
	return term{b.rent.alternative(rented, alternativeFee) + "-" + b.rent.alternative(m, alternativeFee), b.answer.Rented.Fee - b.answer.Machines[m].Rent.Fee}
}

// inductionPart is the invoiced or the own part of the inductions of an
// alternative.
func (b *book) inductionPart(a int, fees bool) term {
	value := b.rentOf(a).InductionHours
	if fees {
		value = b.rentOf(a).InductionFees
	}
	return term{b.inductions(a, func(tariff func(string) string) string {
		if fees {
			return b.posted(tariff("induction_fee") + "*(1+" + tariff("sales_tax") + ")")
		}
		return tariff("induction_time")
	}), value}
}

// besideVisits are the lines of the visits sheet beside one machine; first
// counts from the first line of the sheet, from 1.
type besideVisits struct{ first, count int }

func (b *book) visitsBeside(m int) besideVisits {
	found := besideVisits{first: 1}
	for i, row := range b.visits.rows {
		if row.alternative != m {
			continue
		}
		if found.count == 0 {
			found.first = i + 1
		}
		found.count++
	}
	return found
}

// shopOf is the shop of a job type, by its place in the list.
func (b *book) shopOf(job int) *model.Shop { return &b.study.Shops[work.ShopOf(b.study, job)] }
