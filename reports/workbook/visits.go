package workbook

import (
	"fmt"
	"strings"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/work"
	"shopstint/rental"
	"shopstint/reports/workbook/grid"
)

// rented is the alternative that owns nothing; owning machine m alone is alternative m.
const rented = -1

// Columns of the visits sheet; the minutes on each of the shop's machines
// stand between visitCount and the rest.
const (
	visitAlternative = iota + 1
	visitJob
	visitKind
	visitAboard
	visitCount
	visitMinutes // first of the machines
)

// Columns after the machines, counted from there.
const (
	visitBilled = iota
	visitPaid
	visitDays
	visitClock
	visitHalf
	visitWhole
	visitTime
	visitMember
	visitOperator
	visitAfter
	visitResin
	visitWear
	visitHandling
	visitTax
	visitShop
	visitTrips
	visitVehicle
	visitTolls
	visitDamage
	visitTravel
	visitOwnTime
	visitOwn
	visitHelpers
	visitLabour
	visitTotal
	visitPresent
	visitColumns
)

var visitTitles = [visitColumns]string{
	"billed min", "paid min", "whole days in it", "by the block", "with a half day", "by days",
	"machine time", "member's reduction", "operator", "after-hours supplement", "resin supplement", "belt and knife surcharge", "handling charge", "sales tax", "shop's invoice",
	"round trips", "vehicle", "tolls", "damage allowance", "travel",
	"own time min", "own time", "hired helpers", "own time and helpers", "the whole visit", "present cost of one a year",
}

// visitRow is one priced visit: some jobs of one type aboard, in one alternative.
type visitRow struct {
	alternative, job int
	aboard           int // 1 for a rework
	rework           bool
	visit            *rental.Visit
	count            float64
}

// visitPlaces says where visits stand.
type visitPlaces struct {
	rows     []visitRow
	first    int
	machines int // columns of minutes
}

func (v *visitPlaces) column(after int) int { return visitMinutes + v.machines + after }

// block returns the sheet rows of one job type in one alternative; its last
// row is the rework visit where there is one.
func (v *visitPlaces) block(alternative, job int) (first, last int) {
	first = -1
	for i, row := range v.rows {
		if row.alternative == alternative && row.job == job {
			if first < 0 {
				first = v.first + i
			}
			last = v.first + i
		}
	}
	return first, last
}

func (b *book) alternativeName(alternative int) string {
	if alternative == rented {
		return "everything rented"
	}
	return "owning " + b.study.Machines[alternative].Key
}

func (b *book) rentOf(alternativeIndex int) *alternative.Rent {
	if alternativeIndex == rented {
		return &b.answer.Rented
	}
	return &b.answer.Machines[alternativeIndex].Rent
}

// listVisits lists the visits in the order of the sheet.
func (b *book) listVisits() {
	v := &b.visits
	v.first = 4
	for s := range b.study.Shops {
		v.machines = max(v.machines, len(b.study.Shops[s].Machines))
	}
	for a := rented; a < len(b.study.Machines); a++ {
		rent := b.rentOf(a)
		for job := range rent.Jobs {
			if a != rented && !b.affected(a, job) {
				continue
			}
			part := &rent.Jobs[job]
			for k := range part.Visits {
				v.rows = append(v.rows, visitRow{a, job, k + 1, false, &part.Visits[k], part.Counts[k]})
			}
			if b.study.JobTypes[job].Repeats() {
				v.rows = append(v.rows, visitRow{a, job, 1, true, &part.Rework, part.ReworkCount})
			}
		}
	}
}

// visitSheet prices every kind of visit, a line each. Twin of package rental.
func (b *book) visitSheet(s *grid.Sheet) {
	p, v := page{s}, &b.visits
	s.Freeze, s.Protected, s.TabColor = "D4", true, sky
	s.Print = grid.Print{Landscape: true, FitWide: 2, TitleRows: 3, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Visits to the shop", title)
	p.text(2, 1, "What the shop bills (its own clock, its own tax) and what the visit costs you beside it stand apart. The invoice sheet shows any one of them as a bill.", lead)
	titles := []string{"alternative", "job type", "visit", "jobs aboard", "visits a year"}
	s.Columns = []float64{22, 26, 12, 8, 9}
	for q := range v.machines {
		titles = append(titles, b.clockTitle(q))
		s.Columns = append(s.Columns, 10)
	}
	for _, name := range visitTitles {
		titles = append(titles, name)
		s.Columns = append(s.Columns, 11.5)
	}
	p.headers(3, titles...)
	for i := range v.rows {
		b.visitLine(p, v.first+i, &v.rows[i])
	}
	b.checkVisits()
}

// clockTitle heads the minutes on one machine: by its key where there is one
// shop, else by its place in each shop's list.
func (b *book) clockTitle(q int) string {
	if len(b.study.Shops) == 1 {
		return b.study.Shops[0].Machines[q].Key + " min"
	}
	return fmt.Sprintf("machine %d min", q+1)
}

func (b *book) visitLine(p page, at int, row *visitRow) {
	f := visitFormulas{b: b, at: at, row: row, shop: &b.study.Shops[work.ShopOf(b.study, row.job)]}
	p.text(at, visitAlternative, b.alternativeName(row.alternative), plain)
	p.text(at, visitJob, b.study.JobTypes[row.job].Name, plain)
	kind := "with " + fmt.Sprint(row.aboard)
	if row.rework {
		kind = "rework"
	}
	p.text(at, visitKind, kind, plain)
	p.number(at, visitAboard, float64(row.aboard), numbers(asCount))
	p.calc(at, visitCount, f.count(), row.count, numbers(`0.00;-0.00;"–"`))
	for q := range f.shop.Machines {
		p.calc(at, visitMinutes+q, f.minutes(q), f.minutesValue(q), numbers(asNumber))
	}
	f.write(p)
}

// visitFormulas writes the formulas of one visit.
type visitFormulas struct {
	b    *book
	at   int
	row  *visitRow
	shop *model.Shop
}

func (f visitFormulas) tariff(key string) string {
	return f.b.in("shops." + f.shop.Key + ".tariff." + key)
}
func (f visitFormulas) ofShop(key string) string { return f.b.in("shops." + f.shop.Key + "." + key) }
func (f visitFormulas) machine(q int, key string) string {
	return f.b.in("shops." + f.shop.Key + ".machines." + f.shop.Machines[q].Key + "." + key)
}
func (f visitFormulas) job(key string) string {
	return f.b.in("job_types." + f.b.study.JobTypes[f.row.job].Key + "." + key)
}
func (f visitFormulas) col(after int) string { return cell(f.at, f.b.visits.column(after)) }

// count is the twin of alternative.Counts.
func (f visitFormulas) count() string {
	b := f.b
	if f.row.rework {
		return f.job("per_year") + "*" + f.job("rework_chance") + "*" + f.job("rework_visits")
	}
	full, aboard, share := b.rent.job(f.row.job, rentFull), b.rent.job(f.row.job, rentAboard), b.rent.job(f.row.job, rentShare)
	terms := []string{
		fmt.Sprintf("IF(%s=%d,1-%s,0)", aboard, f.row.aboard, share),
		fmt.Sprintf("IF(%s=%d,%s,0)", aboard, f.row.aboard-1, share),
	}
	if f.row.aboard == int(b.study.JobTypes[f.row.job].JobsPerVisit) {
		terms = append([]string{full}, terms...)
	}
	return sum(terms)
}

// sumTimes adds up a column of the job times over the steps that this visit
// does on machine q.
func (f visitFormulas) sumTimes(column, q int) string {
	b, job := f.b, f.row.job
	formula := fmt.Sprintf("SUMIFS(%s,%s,\"shop\",%s,%s,%s,1", b.timeColumn(job, column), b.timeColumn(job, timeWhere),
		b.timeColumn(job, timeMachine), grid.Quote(f.shop.Machines[q].Key), b.timeColumn(job, keptColumn(f.row.alternative)))
	if f.row.rework {
		formula += "," + b.timeColumn(job, timeRepeat) + ",1"
	}
	return formula + ")"
}

func (f visitFormulas) minutes(q int) string {
	work := fmt.Sprintf("%s+%s*%s", f.sumTimes(timePerVisit, q), cell(f.at, visitAboard), f.sumTimes(timeMinutes, q))
	return fmt.Sprintf("IF(%[1]s>0,%[1]s+%[2]s,0)", work, f.machine(q, "setup"))
}

func (f visitFormulas) minutesValue(q int) float64 {
	return f.row.visit.Uses[q].Minutes.Minutes()
}

// block is the twin of rental.Block.
func (f visitFormulas) block(minutes string) string {
	least, step := f.tariff("minimum_block"), f.tariff("increment")
	return fmt.Sprintf("IF(%[1]s<=0,0,%[2]s+%[3]s*%[4]s)", minutes, least, stepsUp("MAX(0,"+minutes+"-"+least+")", step), step)
}

// clocks calls each for every clock that runs: one for the whole shop, or one
// a machine, with its cleaning.
func (f visitFormulas) clocks(each func(minutes, rate string) string) string {
	if f.shop.Tariff.Basis == model.WholeShop {
		return each(f.col(visitBilled), f.tariff("hourly_rate"))
	}
	var terms []string
	for q := range f.shop.Machines {
		minutes := cell(f.at, visitMinutes+q)
		clock := fmt.Sprintf("IF(%[1]s>0,%[1]s+%[2]s,0)", minutes, f.ofShop("cleaning"))
		terms = append(terms, each(clock, f.machine(q, "hourly_rate")))
	}
	return sum(terms)
}

func (f visitFormulas) billed() string {
	all := span(f.at, visitMinutes, f.at, visitMinutes+len(f.shop.Machines)-1)
	if f.shop.Tariff.Basis == model.WholeShop {
		return fmt.Sprintf("IF(SUM(%[1]s)>0,SUM(%[1]s)+%[2]s,0)", all, f.ofShop("cleaning"))
	}
	return f.clocks(func(minutes, _ string) string { return minutes })
}

// rest is the charge for time beyond whole days, at the dearest rate in use.
func (f visitFormulas) rest(minutes string) string {
	rate := f.tariff("hourly_rate")
	if f.shop.Tariff.Basis != model.WholeShop {
		var rates []string
		for q := range f.shop.Machines {
			rates = append(rates, fmt.Sprintf("IF(%s>0,%s,0)", cell(f.at, visitMinutes+q), f.machine(q, "hourly_rate")))
		}
		rate = "MAX(" + strings.Join(rates, ",") + ")"
	}
	return fmt.Sprintf("%s*%s/60*%s", stepsUp("MAX(0,"+minutes+")", f.tariff("increment")), f.tariff("increment"), rate)
}

// write fills in the columns behind the machines.
func (f visitFormulas) write(p page) {
	visit, formulas := f.row.visit, f.formulas()
	values := [visitColumns]float64{
		visitBilled: visit.Billed.Minutes(), visitPaid: visit.Paid.Minutes(), visitDays: visit.Days,
		visitClock: visit.Clock, visitHalf: offered(visit.WithHalfDay), visitWhole: offered(visit.WholeDays),
		visitTime: visit.MachineTime, visitMember: visit.Member, visitOperator: visit.Operator, visitAfter: visit.AfterHours, visitResin: visit.Resin,
		visitWear: visit.Wear, visitHandling: visit.Handling, visitTax: visit.Tax, visitShop: visit.Shop,
		visitTrips: visit.RoundTrips, visitVehicle: visit.Vehicle, visitTolls: visit.Tolls, visitDamage: visit.Damage, visitTravel: visit.Travel,
		visitOwnTime: visit.OwnTime.Minutes(), visitOwn: visit.OwnCost, visitHelpers: visit.HelperCost, visitLabour: visit.Labour,
		visitTotal: visit.Total, visitPresent: single.VisitPresent(visit, alternative.FactorsOf(f.b.study, f.row.job)),
	}
	for i := range formulas {
		p.calc(f.at, f.b.visits.column(i), formulas[i], values[i], visitStyle(i))
	}
}

func visitStyle(column int) grid.Style {
	switch column {
	case visitBilled, visitPaid, visitOwnTime:
		return numbers(asNumber)
	case visitDays, visitTrips:
		return numbers(asCount)
	case visitClock, visitHalf, visitWhole:
		return memo(asOffered)
	case visitShop, visitTravel, visitLabour, visitTotal:
		return grid.Style{NumberFormat: asMoney, Bold: true}
	}
	return numbers(asMoney)
}

func (f visitFormulas) formulas() [visitColumns]string {
	b, col := f.b, f.col
	gate := func(formula string) string { return "IF(" + col(visitBilled) + "=0,0," + formula + ")" }
	days, left := fmt.Sprintf("%s*%s", col(visitDays), f.tariff("day_price")), fmt.Sprintf("%s-%s*%s", col(visitBilled), col(visitDays), f.tariff("day"))
	paid := f.clocks(func(minutes, _ string) string { return f.block(minutes) })
	clock := f.clocks(func(minutes, rate string) string { return f.block(minutes) + "/60*" + rate })
	least := fmt.Sprintf("MIN(%s,%s,%s)", col(visitClock), col(visitHalf), col(visitWhole))
	net := "(" + col(visitTime) + "+" + col(visitMember) + ")"
	crew, helpers := b.rent.job(f.row.job, rentCrew), b.rent.job(f.row.job, rentHelpers)
	aboard := cell(f.at, visitAboard)
	factor := func(column int) string { return b.rent.job(f.row.job, column) }
	member := "0"
	if saving := b.rent.saving(f.row.alternative, work.ShopOf(b.study, f.row.job)); saving != "" {
		member = "-" + b.posted(least+"*"+saving)
	}
	return [visitColumns]string{
		visitBilled: f.billed(),
		visitPaid:   paid,
		visitDays:   fmt.Sprintf("IF(%s>0,INT(ROUND(%s/%s,6)),0)", f.tariff("day_price"), col(visitBilled), f.tariff("day")),
		visitClock:  gate(clock),
		visitHalf:   gate(fmt.Sprintf("IF(%[1]s>0,%[2]s+%[1]s+%[3]s,1E+99)", f.tariff("half_day_price"), days, f.rest(left+"-"+f.tariff("half_day")))),
		visitWhole:  gate(fmt.Sprintf("IF(%[1]s>0,MIN(%[2]s+%[1]s,IF(%[3]s>0,%[2]s+%[4]s,1E+99)),1E+99)", f.tariff("day_price"), days, col(visitDays), f.rest(left))),

		visitTime:     b.posted(least),
		visitMember:   member,
		visitOperator: b.posted(col(visitBilled) + "/60*" + f.tariff("operator_rate")),
		visitAfter:    fmt.Sprintf("IF(%s=\"yes\",%s,0)", f.job("after_hours"), b.posted(net+"*"+f.tariff("after_hours"))),
		visitResin:    fmt.Sprintf("IF(%s=\"yes\",%s,0)", b.in("materials."+work.MaterialOf(b.study, f.row.job).Key+".resin"), b.posted(net+"*"+f.tariff("resin_supplement"))),
		visitWear:     b.posted(f.wear()),
		visitHandling: gate(b.posted(f.tariff("handling_charge"))),
		visitTax:      b.posted("SUM(" + span(f.at, b.visits.column(visitTime), f.at, b.visits.column(visitHandling)) + ")*" + f.tariff("sales_tax")),
		visitShop:     "SUM(" + span(f.at, b.visits.column(visitTime), f.at, b.visits.column(visitTax)) + ")",

		visitTrips:   gate(fmt.Sprintf("MAX(1,%s)", stepsUp(b.rent.job(f.row.job, rentMass)+"*"+aboard, b.in("studio.vehicle.payload")))),
		visitVehicle: b.posted(fmt.Sprintf("2*%s*%s*%s", col(visitTrips), f.ofShop("distance"), b.in("studio.vehicle.cost"))),
		visitTolls:   b.posted(col(visitTrips) + "*" + f.ofShop("tolls")),
		visitDamage:  gate(b.posted(f.tariff("damage_allowance"))),
		visitTravel:  "SUM(" + span(f.at, b.visits.column(visitVehicle), f.at, b.visits.column(visitDamage)) + ")",

		visitOwnTime: gate(fmt.Sprintf("%s*(2*%s*%s+%s+%s*%s+%s)", crew, col(visitTrips), f.ofShop("drive_time"), f.ofShop("waiting"), aboard, f.job("loading_time"), col(visitBilled))),
		visitOwn:     b.posted(col(visitOwnTime) + "/60*" + b.in("studio.labour_rate")),
		visitHelpers: gate(b.posted(fmt.Sprintf("%s*%s/60*%s*%s", aboard, f.job("loading_time"), helpers, b.in("studio.helper_rate")))),
		visitLabour:  col(visitOwn) + "+" + col(visitHelpers),
		visitTotal:   col(visitShop) + "+" + col(visitTravel) + "+" + col(visitLabour),
		visitPresent: fmt.Sprintf("%s*%s+%s*%s+%s*%s", col(visitShop), factor(rentFactorShop), col(visitTravel), factor(rentFactorTravel), col(visitLabour), factor(rentFactorLabour)),
	}
}

// wear is the shop's surcharge for belts and knives.
func (f visitFormulas) wear() string {
	var terms []string
	for q := range f.shop.Machines {
		area := f.sumTimes(timeArea, q)
		terms = append(terms, fmt.Sprintf("%s*%s*%s+%s/60*%s", cell(f.at, visitAboard), area, f.machine(q, "surcharge_per_area"),
			cell(f.at, visitMinutes+q), f.machine(q, "surcharge_per_hour")))
	}
	return sum(terms)
}
