package workbook

import (
	"fmt"
	"math"

	"shopstint/capital/decision/sensitivity"
	"shopstint/model"
	"shopstint/model/work"
	"shopstint/rental"
	"shopstint/reports/workbook/grid"
)

// jobFact is a figure by job type.
type jobFact struct {
	key, label string
	of         func(job int) term
}

// jobFacts writes a table of what a visit needs to know of its job type and of
// the shop that the job type goes to.
func (b *book) jobFacts(p page) {
	f := &b.facts
	list := b.jobList()
	f.ofJob = map[string]func(job int) term{}
	f.row += 2
	p.band(f.row, len(list)+1, "By job type, with the shop that it goes to")
	f.row++
	titles := []string{"job type"}
	for i, fact := range list {
		titles = append(titles, fact.label)
		f.jobs[fact.key], f.ofJob[fact.key] = i+2, fact.of
	}
	p.headers(f.row, titles...)
	f.job0 = f.row + 1
	for job := range b.study.JobTypes {
		f.row++
		p.text(f.row, 1, b.study.JobTypes[job].Name, plain)
		for i, fact := range list {
			figure := fact.of(job)
			p.calc(f.row, i+2, figure.formula, figure.value, plain)
		}
	}
}

func (b *book) jobList() []jobFact {
	f := &b.facts
	renting := func(column int, value func(job int) float64) func(job int) term {
		return func(job int) term { return term{b.rent.job(job, column), value(job)} }
	}
	of := func(prefix func(job int) string, key string) func(job int) term {
		return func(job int) term {
			path := prefix(job) + key
			return term{b.in(path), b.working(path)}
		}
	}
	shop := func(job int) string { return "shops." + b.shopOf(job).Key + "." }
	tariff := func(job int) string { return shop(job) + "tariff." }
	kind := func(job int) *model.JobType { return &b.study.JobTypes[job] }
	list := []jobFact{
		{"jobs", "jobs a year", renting(rentPerYear, func(job int) float64 { return float64(kind(job).PerYear) })},
		{"batch", "jobs a visit", renting(rentBatch, func(job int) float64 { return float64(kind(job).JobsPerVisit) })},
		{"growth", "growth a year", renting(rentGrowth, func(job int) float64 { return float64(kind(job).Growth) })},
		{"crew", "own people", renting(rentCrew, func(job int) float64 { crew, _ := rental.Hands(&b.study.Studio, b.heaviest(job)); return crew })},
		{"repeats", "rework visits a job", b.repeats},
		{"loading", "loading min", of(func(job int) string { return "job_types." + kind(job).Key + "." }, "loading_time")},
		{"after", "after-hours supplement", b.afterHours},
		{"resin", "resin supplement", b.resinSupplement},
		{"shop", "shop", func(job int) term { return constant(float64(1 + work.ShopOf(b.study, job))) }},
		{"whole", "one clock for all", func(job int) term { return constant(flag(b.shopOf(job).Tariff.Basis == model.WholeShop)) }},
		{"least", "minimum block min", of(tariff, "minimum_block")},
		{"step", "increment min", of(tariff, "increment")},
		{"km", "distance km", of(shop, "distance")},
		{"drive", "drive min", of(shop, "drive_time")},
		{"waiting", "waiting min", of(shop, "waiting")},
		{"cleaning", "cleaning min", of(shop, "cleaning")},
		{"half_price", "half-day price", of(tariff, "half_day_price")},
		{"half", "half day min", of(tariff, "half_day")},
		{"day_price", "day price", of(tariff, "day_price")},
		{"day", "day min", of(tariff, "day")},
		{"tax", "sales tax", of(tariff, "sales_tax")},
		{"saving", "saving as a member, everything rented", func(job int) term { return b.savingOf(rented, work.ShopOf(b.study, job)) }},
		{"saving_beside", "saving as a member, beside the machine", b.savingBeside},
	}
	f.clocks = 1
	for s := range b.study.Shops {
		if b.study.Shops[s].Tariff.Basis == model.PerMachine {
			f.clocks = max(f.clocks, len(b.study.Shops[s].Machines))
		}
	}
	for c := range f.clocks {
		list = append(list, jobFact{fmt.Sprintf("rate_%d", c), fmt.Sprintf("rate of clock %d", c+1), func(job int) term { return b.clockRate(job, c) }})
	}
	return list
}

func (b *book) repeats(job int) term {
	kind := &b.study.JobTypes[job]
	in := "job_types." + kind.Key + "."
	return term{b.in(in+"rework_chance") + "*" + b.in(in+"rework_visits"), float64(kind.ReworkChance) * float64(kind.ReworkVisits)}
}

func (b *book) afterHours(job int) term {
	kind, shop := &b.study.JobTypes[job], b.shopOf(job)
	value := flag(kind.AfterHours) * float64(shop.Tariff.AfterHours)
	return term{fmt.Sprintf(`IF(%s="yes",%s,0)`, b.in("job_types."+kind.Key+".after_hours"), b.in("shops."+shop.Key+".tariff.after_hours")), value}
}

func (b *book) resinSupplement(job int) term {
	material, shop := work.MaterialOf(b.study, job), b.shopOf(job)
	value := flag(material.Resin) * float64(shop.Tariff.ResinSupplement)
	return term{fmt.Sprintf(`IF(%s="yes",%s,0)`, b.in("materials."+material.Key+".resin"), b.in("shops."+shop.Key+".tariff.resin_supplement")), value}
}

func (b *book) savingOf(a, s int) term {
	formula := b.rent.saving(a, s)
	if formula == "" {
		return constant(0)
	}
	return term{formula, rental.MemberSaving(&b.study.Shops[s].Tariff, b.rentOf(a).Members[s])}
}

// savingBeside picks the saving of the machine at hand.
func (b *book) savingBeside(job int) term {
	s, list := work.ShopOf(b.study, job), ""
	if b.rent.saving(0, s) == "" {
		return constant(0)
	}
	for m := range b.study.Machines {
		list += "," + b.rent.saving(m, s)
	}
	return term{"CHOOSE(" + b.handFact("machine") + list + ")", b.savingOf(0, s).value}
}

// clockRate is the rate of one clock of a job type's shop.
func (b *book) clockRate(job, clock int) term {
	shop := b.shopOf(job)
	path := "shops." + shop.Key + ".tariff.hourly_rate"
	switch {
	case shop.Tariff.Basis == model.WholeShop && clock > 0, clock >= len(shop.Machines):
		return constant(0)
	case shop.Tariff.Basis == model.PerMachine:
		path = "shops." + shop.Key + ".machines." + shop.Machines[clock].Key + ".hourly_rate"
	}
	return term{b.in(path), b.working(path)}
}

// visitFact is a figure by visit; of gives it for the visit in a column.
type visitFact struct {
	key, label string
	of         func(v caseVisit) term
}

// caseVisit is one column of the visits: a line of the visits sheet when
// everything is rented, or the slot of a line beside the machine at hand.
type caseVisit struct {
	col  int
	slot int // from 1 beside the machine at hand; 0 when everything is rented
	line int // place in the list of visits, -1 where the machine at hand has fewer
}

// visitFacts writes a column for every visit that a case prices.
func (b *book) visitFacts(p page) {
	f := &b.facts
	for i, row := range b.visits.rows {
		if row.alternative == rented {
			f.rented = append(f.rented, i)
		}
	}
	for m := range b.study.Machines {
		f.most = max(f.most, b.visitsBeside(m).count)
	}
	f.row += 2
	p.band(f.row, 1+f.visits(), "By visit: everything rented, then beside the machine at hand")
	b.whichJob(p)
	visits := b.caseVisits()
	for _, fact := range b.visitList() {
		f.row++
		f.visit[fact.key] = f.row
		p.text(f.row, 1, fact.label, plain)
		for _, v := range visits {
			figure := fact.of(v)
			p.calc(f.row, v.col, figure.formula, figure.value, plain)
		}
		b.names["visit:"+fact.key] = b.name("case_visit_"+fact.key, grid.RangeRef(sheetFacts, f.row, 2, f.row, 1+f.visits()), "")
	}
}

// caseVisits lists the columns.
func (b *book) caseVisits() []caseVisit {
	f, list := &b.facts, []caseVisit{}
	for i, line := range f.rented {
		list = append(list, caseVisit{col: 2 + i, line: line})
	}
	beside := b.visitsBeside(0)
	for slot := 1; slot <= f.most; slot++ {
		line := -1
		if slot <= beside.count {
			line = beside.first - 1 + slot - 1
		}
		list = append(list, caseVisit{col: 1 + len(f.rented) + slot, slot: slot, line: line})
	}
	return list
}

// whichJob says, machine by machine, of which job type each line of visits is.
func (b *book) whichJob(p page) {
	f := &b.facts
	f.visit["which"] = f.row + 1
	for m := range b.study.Machines {
		f.row++
		p.text(f.row, 1, "place of the job type: beside "+b.study.Machines[m].Key, faint)
		beside := b.visitsBeside(m)
		for slot := 1; slot <= f.most; slot++ {
			job := 0
			if slot <= beside.count {
				job = 1 + b.visits.rows[beside.first-1+slot-1].job
			}
			p.number(f.row, 1+len(f.rented)+slot, float64(job), memo(asCount))
		}
	}
}

func (b *book) visitList() []visitFact {
	f := &b.facts
	list := []visitFact{
		{"job", "place of its job type", b.visitJob},
		{"sign", "saved (1), still rented (-1)", b.visitSign},
		{"aboard", "jobs aboard", b.onSheet(visitAboard, 0, func(row *visitRow) float64 { return float64(row.aboard) })},
		{"rework", "a rework", b.visitRework},
	}
	for _, key := range [...]string{"jobs", "batch", "growth", "repeats"} {
		list = append(list, visitFact{key, key, b.ofJob(key, map[string]float64{"batch": 1}[key])})
	}
	after := func(column int) int { return b.visits.column(column) }
	list = append(list,
		visitFact{"billed", "billed min", b.onSheet(after(visitBilled), 0, func(row *visitRow) float64 { return row.visit.Billed.Minutes() })},
		visitFact{"main", "at the shop of the machine's work", b.visitMain},
		visitFact{"least", "minimum block at another shop", b.elsewhere("least", 0)},
		visitFact{"step", "increment at another shop", b.elsewhere("step", 1)},
		visitFact{"km", "distance of another shop", b.elsewhere("km", 0)},
		visitFact{"drive", "drive to another shop", b.elsewhere("drive", 0)},
	)
	for c := range f.clocks {
		list = append(list, visitFact{fmt.Sprintf("clock_%d", c), fmt.Sprintf("minutes on clock %d", c+1), func(v caseVisit) term { return b.visitClock(v, c) }},
			visitFact{fmt.Sprintf("rate_%d", c), fmt.Sprintf("rate of clock %d", c+1), b.ofJob(fmt.Sprintf("rate_%d", c), 0)})
	}
	list = append(list, visitFact{"dearest", "dearest rate in use", b.visitDearest},
		visitFact{"days", "whole days in it", b.onSheet(after(visitDays), 0, func(row *visitRow) float64 { return row.visit.Days })})
	for _, key := range [...]string{"day_price", "day", "half_price", "half", "after", "resin", "tax"} {
		list = append(list, visitFact{key, key, b.ofJob(key, 0)})
	}
	return append(list,
		visitFact{"saving", "saving as a member", b.visitSaving},
		visitFact{"charges", "operator, belts, handling", b.visitCharges},
		visitFact{"trips", "round trips", b.onSheet(after(visitTrips), 0, func(row *visitRow) float64 { return row.visit.RoundTrips })},
		visitFact{"tolls", "tolls and damage", b.visitTolls},
		visitFact{"crew", "own people", b.ofJob("crew", 0)},
		visitFact{"waiting", "waiting min", b.ofJob("waiting", 0)},
		visitFact{"loading", "loading min a job", b.ofJob("loading", 0)},
		visitFact{"helpers", "hired helpers", b.onSheet(after(visitHelpers), 0, func(row *visitRow) float64 { return row.visit.HelperCost })},
	)
}

// here is a fact of the same visit, on the sheet of the facts.
func (f *factPlaces) here(v caseVisit, key string) string { return cell(f.visit[key], v.col) }

// jobIn is the place of a visit's job type, or -1.
func (b *book) jobIn(v caseVisit) int {
	if v.line < 0 {
		return -1
	}
	return b.visits.rows[v.line].job
}

// counted tells whether a visit is priced in a case of the machine at hand.
func (b *book) counted(v caseVisit) bool {
	return v.line >= 0 && (v.slot > 0 || b.affected(0, b.jobIn(v)))
}

func (b *book) visitJob(v caseVisit) term {
	if v.slot == 0 {
		return constant(float64(1 + b.jobIn(v)))
	}
	which := b.facts.visit["which"]
	return term{pick(span(which, v.col, which+len(b.study.Machines)-1, v.col), b.handFact("machine")), float64(1 + b.jobIn(v))}
}

func (b *book) visitSign(v caseVisit) term {
	if v.slot == 0 {
		return term{b.handFact(fmt.Sprintf("changes_%d", 1+b.jobIn(v))), flag(b.counted(v))}
	}
	return term{fmt.Sprintf("IF(%d<=%s,-1,0)", v.slot, b.handFact("beside_count")), -flag(b.counted(v))}
}

// gated is a figure of a visit that is priced; otherwise it has the value of
// one that does no harm.
func (b *book) gated(v caseVisit, harmless float64, figure term) term {
	if !b.counted(v) {
		figure.value = harmless
	}
	figure.formula = fmt.Sprintf("IF(%s=0,%g,%s)", b.facts.here(v, "sign"), harmless, figure.formula)
	return figure
}

// lineAt points to a column of the visits sheet in the line of a visit.
func (b *book) lineAt(v caseVisit, column int) string {
	first := b.visits.first
	if v.slot == 0 {
		return grid.SheetRef(sheetVisits, first+v.line, column)
	}
	return pick(grid.RangeRef(sheetVisits, first, column, first+len(b.visits.rows)-1, column), fmt.Sprintf("%s+%d", b.handFact("beside"), v.slot-1))
}

func (b *book) onSheet(column int, harmless float64, value func(*visitRow) float64) func(caseVisit) term {
	return func(v caseVisit) term {
		figure := term{formula: b.lineAt(v, column)}
		if v.line >= 0 {
			figure.value = value(&b.visits.rows[v.line])
		}
		return b.gated(v, harmless, figure)
	}
}

// ofJob is a figure of the visit's job type.
func (b *book) ofJob(key string, harmless float64) func(caseVisit) term {
	return func(v caseVisit) term {
		f := &b.facts
		figure := term{formula: pick(span(f.job0, f.jobs[key], f.job0+len(b.study.JobTypes)-1, f.jobs[key]), f.here(v, "job"))}
		if job := b.jobIn(v); job >= 0 {
			figure.value = f.ofJob[key](job).value
		}
		return b.gated(v, harmless, figure)
	}
}

func (b *book) visitRework(v caseVisit) term {
	figure := term{formula: fmt.Sprintf(`(%s="rework")*1`, b.lineAt(v, visitKind))}
	figure.value = flag(v.line >= 0 && b.visits.rows[max(0, v.line)].rework)
	return b.gated(v, 0, figure)
}

func (b *book) visitMain(v caseVisit) term {
	figure := b.ofJob("shop", 0)(v)
	figure.value = flag(b.counted(v) && work.ShopOf(b.study, b.jobIn(v)) == b.mainShop())
	figure.formula = fmt.Sprintf("((%s)=%s)*1", figure.formula, b.handFact("shop"))
	return figure
}

// elsewhere is a figure of a shop whose own a case does not move; none at the
// shop of the machine's work.
func (b *book) elsewhere(key string, harmless float64) func(caseVisit) term {
	of := b.ofJob(key, harmless)
	return func(v caseVisit) term {
		figure, main := of(v), b.facts.here(v, "main")
		if b.visitMain(v).value == 1 {
			figure.value = 0
		}
		return term{fmt.Sprintf("IF(%s=1,0,%s)", main, figure.formula), figure.value}
	}
}

// visitClock is the time on one clock: all of it where one clock runs for all.
func (b *book) visitClock(v caseVisit, clock int) term {
	f := &b.facts
	billed := "0"
	if clock == 0 {
		billed = f.here(v, "billed")
	}
	minutes := b.lineAt(v, visitMinutes+min(clock, b.visits.machines-1))
	figure := term{formula: fmt.Sprintf("IF(%s=1,%s,IF(%[3]s>0,%[3]s+%[4]s,0))", b.ofJob("whole", 0)(v).formula, billed, minutes, b.ofJob("cleaning", 0)(v).formula)}
	if b.counted(v) {
		figure.value = b.clockMinutes(v, clock)
	}
	return b.gated(v, 0, figure)
}

func (b *book) clockMinutes(v caseVisit, clock int) float64 {
	visit, shop := b.visits.rows[v.line].visit, b.shopOf(b.jobIn(v))
	switch {
	case shop.Tariff.Basis == model.WholeShop && clock == 0:
		return visit.Billed.Minutes()
	case shop.Tariff.Basis == model.WholeShop, clock >= len(visit.Uses), visit.Uses[clock].Minutes == 0:
		return 0
	}
	return (visit.Uses[clock].Minutes + shop.Cleaning).Minutes()
}

// visitDearest is the rate of time beyond whole days.
func (b *book) visitDearest(v caseVisit) term {
	f, formula, value := &b.facts, "", 0.0
	for c := range f.clocks {
		if c > 0 {
			formula += ","
		}
		formula += fmt.Sprintf("(%s>0)*%s", f.here(v, fmt.Sprintf("clock_%d", c)), f.here(v, fmt.Sprintf("rate_%d", c)))
		if b.counted(v) && b.clockMinutes(v, c) > 0 {
			value = math.Max(value, b.clockRate(b.jobIn(v), c).value)
		}
	}
	return term{"MAX(" + formula + ")", value}
}

func (b *book) visitSaving(v caseVisit) term {
	if v.slot == 0 {
		return b.ofJob("saving", 0)(v)
	}
	return b.ofJob("saving_beside", 0)(v)
}

func (b *book) visitCharges(v caseVisit) term {
	column := func(after int) string { return b.lineAt(v, b.visits.column(after)) }
	figure := term{formula: column(visitOperator) + "+" + column(visitWear) + "+" + column(visitHandling)}
	if v.line >= 0 {
		visit := b.visits.rows[v.line].visit
		figure.value = visit.Operator + visit.Wear + visit.Handling
	}
	return b.gated(v, 0, figure)
}

func (b *book) visitTolls(v caseVisit) term {
	column := func(after int) string { return b.lineAt(v, b.visits.column(after)) }
	figure := term{formula: column(visitTolls) + "+" + column(visitDamage)}
	if v.line >= 0 {
		visit := b.visits.rows[v.line].visit
		figure.value = visit.Tolls + visit.Damage
	}
	return b.gated(v, 0, figure)
}

// mainShop is the shop of the work of the machine that is chosen when written.
func (b *book) mainShop() int { return sensitivity.ShopOf(b.study, b.answer.Plan, 0) }
