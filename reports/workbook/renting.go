package workbook

import (
	"fmt"
	"strings"

	"shopstint/capital/decision/alternative"
	"shopstint/model/quantity"
	"shopstint/model/work"
	"shopstint/rental"
	"shopstint/reports/workbook/grid"
)

// Columns of the job block.
const (
	rentJob = iota + 1
	rentPerYear
	rentBatch
	rentFull
	rentAboard
	rentShare
	rentGrowth
	rentMass
	rentHeaviest
	rentPersons
	rentCrew
	rentHelpers
	rentFactorShop
	rentFactorTravel
	rentFactorLabour
	rentFactorWear
)

// Columns of the yearly block: one line a job type in each alternative.
const (
	yearlyAlternative = iota + 1
	yearlyJob
	yearlyShop
	yearlyTravel
	yearlyLabour
	yearlyPaid
	yearlyCharge
	yearlyBenchHours
	yearlyBenchLabour
	yearlyBenchWear
	yearlyColumns
)

// Columns of the membership block and of the alternatives block.
const (
	memberPaid = iota + 3
	memberCharge
	memberIncluded
	memberSaving
	memberFee
	memberJoined
	memberDue
	memberTaken
)

const (
	alternativeFee = iota + 2
	alternativeInduction
)

// rentPlaces says where the blocks of the renting sheet stand.
type rentPlaces struct {
	jobs, members, alternatives, yearly, years int // first rows
	jobTypes, shops                            int
	memberShops                                []int // shops that offer a membership
}

func (r *rentPlaces) job(job, column int) string {
	return grid.SheetRef(sheetRenting, r.jobs+job, column)
}

// jobColumn is a column of the job block over all job types.
func (r *rentPlaces) jobColumn(column int) string {
	return grid.RangeRef(sheetRenting, r.jobs, column, r.jobs+r.jobTypes-1, column)
}

func (r *rentPlaces) memberRow(alternative, shop int) int {
	for i, s := range r.memberShops {
		if s == shop {
			return r.members + (alternative+1)*len(r.memberShops) + i
		}
	}
	return 0
}

// saving is the cell with the share of machine time that a membership takes
// off in one alternative; empty where the shop offers none.
func (r *rentPlaces) saving(alternative, shop int) string {
	if row := r.memberRow(alternative, shop); row > 0 {
		return grid.SheetRef(sheetRenting, row, memberTaken)
	}
	return ""
}

func (r *rentPlaces) alternative(alternative, column int) string {
	return grid.SheetRef(sheetRenting, r.alternatives+alternative+1, column)
}

func (r *rentPlaces) yearlyRow(alternative, job int) int {
	return r.yearly + (alternative+1)*r.jobTypes + job
}

// yearlyColumn is one column over all job types of an alternative.
func (r *rentPlaces) yearlyColumn(alternative, column int) string {
	return grid.RangeRef(sheetRenting, r.yearlyRow(alternative, 0), column, r.yearlyRow(alternative, r.jobTypes-1), column)
}

// placeRenting settles where everything will stand, before the sheets that
// point there are written.
func (b *book) placeRenting() {
	r := &b.rent
	r.jobTypes, r.shops = len(b.study.JobTypes), len(b.study.Shops)
	for s := range b.study.Shops {
		if b.study.Shops[s].Tariff.MembershipFee > 0 {
			r.memberShops = append(r.memberShops, s)
		}
	}
	alternatives := len(b.study.Machines) + 1
	r.jobs = 5
	r.members = r.jobs + r.jobTypes + 3
	r.alternatives = r.members + alternatives*len(r.memberShops) + 3
	r.yearly = r.alternatives + alternatives + 3
	r.years = r.yearly + alternatives*r.jobTypes + 3
	b.places["years"] = grid.RangeRef(sheetRenting, r.years-1, 3, r.years-1, 2+int(b.study.Studio.Horizon))
	b.listVisits()
}

// renting sums the visits up: how jobs fill visits, what a year costs in each
// alternative, and the rented years ahead. Twin of package alternative.
func (b *book) renting(s *grid.Sheet) {
	p := page{s}
	s.Columns = []float64{30, 26, 13, 13, 13, 13, 13, 13, 13, 13, 13, 13, 13, 13, 13, 13}
	s.Protected, s.TabColor = true, sky
	s.Print = grid.Print{Landscape: true, FitWide: 1, Footer: "&L&A&C&P of &N"}
	p.text(1, 1, "Renting, this year and ahead", title)
	p.text(2, 1, "Whole jobs fill whole visits and the last visit takes the rest; a broken number of jobs is the average of the two whole numbers beside it.", lead)
	p.text(3, 1, "Job types", section)
	p.headers(4, "job type", "jobs a year", "jobs a visit", "full visits", "jobs on the last", "share one more", "growth a year", "mass of a job kg", "heaviest piece kg",
		"people for it", "own people", "helpers", "present factor shop", "present factor travel", "present factor labour", "present factor wear")
	for job := range b.study.JobTypes {
		b.rentJobRow(p, job)
	}
	b.memberBlock(p)
	b.alternativeBlock(p)
	b.yearlyBlock(p)
	b.rentedYears(p)
}

func (b *book) rentJobRow(p page, job int) {
	r, kind := &b.rent, &b.study.JobTypes[job]
	at, in := r.jobs+job, func(key string) string { return b.in("job_types." + kind.Key + "." + key) }
	put := func(column int, formula string, value float64, format string) {
		p.calc(at, column, formula, value, numbers(format))
	}
	here := func(column int) string { return cell(at, column) }
	full, aboard, share := alternative.Fill(float64(kind.PerYear), int(kind.JobsPerVisit))
	p.text(at, rentJob, kind.Name, plain)
	put(rentPerYear, in("per_year"), float64(kind.PerYear), asNumber)
	put(rentBatch, in("jobs_per_visit"), float64(kind.JobsPerVisit), asCount)
	put(rentFull, fmt.Sprintf("INT(ROUND(%s/%s,6))", here(rentPerYear), here(rentBatch)), full, asCount)
	rest := fmt.Sprintf("MAX(0,%s-%s*%s)", here(rentPerYear), here(rentFull), here(rentBatch))
	put(rentAboard, "INT(ROUND("+rest+",6))", float64(aboard), asCount)
	put(rentShare, fmt.Sprintf("MAX(0,%s-%s)", rest, here(rentAboard)), share, `0.00;-0.00;"–"`)
	put(rentGrowth, in("growth"), float64(kind.Growth), asPercent)
	b.massCells(p, job)
	visit := rental.Visit{}
	visit.Crew, visit.Helpers = rental.Hands(&b.study.Studio, b.heaviest(job))
	put(rentPersons, "MAX(1,"+stepsUp(here(rentHeaviest), b.in("studio.lift_limit"))+")", visit.Crew+visit.Helpers, asCount)
	put(rentCrew, fmt.Sprintf("MIN(%s,%s)", b.in("studio.people"), here(rentPersons)), visit.Crew, asCount)
	put(rentHelpers, here(rentPersons)+"-"+here(rentCrew), visit.Helpers, asNumber)
	factors := alternative.FactorsOf(b.study, job)
	for _, factor := range [...]struct {
		column int
		growth string
		value  float64
	}{
		{rentFactorShop, "rental", factors.Shop}, {rentFactorTravel, "travel", factors.Travel},
		{rentFactorLabour, "labour", factors.Labour}, {rentFactorWear, "consumables", factors.Wear},
	} {
		put(factor.column, b.presentFactor(here(rentGrowth), b.in("growth."+factor.growth)), factor.value, asFactor)
	}
}

// presentFactor is the twin of alternative.FactorsOf: a first-year amount that
// grows with the work and with its price, discounted and after tax.
func (b *book) presentFactor(work, price string) string {
	return fmt.Sprintf("SUMPRODUCT(((1+%[1]s)*(1+%[2]s))^(%[3]s-1)/(1+%[4]s)^%[3]s)*(1-%[5]s)", work, price, b.in("years"), b.in("studio.discount_rate"), b.in("studio.tax_rate"))
}

func (b *book) heaviest(job int) quantity.Mass {
	_, heaviest := alternative.Masses(b.study, job)
	return heaviest
}

// massCells weighs one job and its heaviest piece.
func (b *book) massCells(p page, job int) {
	kind, at := &b.study.JobTypes[job], b.rent.jobs+job
	total, heaviest := alternative.Masses(b.study, job)
	density := b.in("density_of_" + work.MaterialOf(b.study, job).Key)
	var all, each []string
	for i := range kind.Pieces {
		in := "job_types." + kind.Key + ".pieces." + kind.Pieces[i].Key + "."
		mass := fmt.Sprintf("%s*%s*%s*%s/1E9", b.in(in+"length"), b.in(in+"width"), b.in(in+"thickness"), density)
		each = append(each, mass)
		all = append(all, b.in(in+"count")+"*"+mass)
	}
	p.calc(at, rentMass, sum(all), float64(total), numbers(asNumber))
	p.calc(at, rentHeaviest, "MAX("+strings.Join(each, ",")+")", float64(heaviest), numbers(asNumber))
}

// memberBlock decides on memberships, alternative by alternative. Twin of alternative's join.
func (b *book) memberBlock(p page) {
	r := &b.rent
	p.text(r.members-2, 1, "Memberships", section)
	if len(r.memberShops) == 0 {
		p.text(r.members-1, 1, "no shop of this study offers one", faint)
		return
	}
	p.headers(r.members-1, "alternative", "shop", "paid hours", "machine time", "share included", "saving as a member", "fee a year", "joined", "fee with tax", "saving taken")
	for a := rented; a < len(b.study.Machines); a++ {
		for _, s := range r.memberShops {
			b.memberRow(p, a, s)
		}
	}
}

func (b *book) memberRow(p page, a, s int) {
	r, shop, at := &b.rent, &b.study.Shops[s], b.rent.memberRow(a, s)
	tariff := func(key string) string { return b.in("shops." + shop.Key + ".tariff." + key) }
	here := func(column int) string { return cell(at, column) }
	rent := b.rentOf(a)
	var paid, charge []string
	hours, time := 0.0, 0.0
	for job := range rent.Jobs {
		if work.ShopOf(b.study, job) == s {
			paid = append(paid, cell(r.yearlyRow(a, job), yearlyPaid))
			charge = append(charge, cell(r.yearlyRow(a, job), yearlyCharge))
			hours += rent.Jobs[job].Paid
			time += rent.Jobs[job].TimeCharge
		}
	}
	could := rental.Membership{Joined: true, Included: alternative.IncludedShare(&shop.Tariff, hours)}
	fee := 12 * float64(shop.Tariff.MembershipFee)
	joined := rent.Members[s].Joined
	p.text(at, 1, b.alternativeName(a), plain)
	p.text(at, 2, shop.Name, plain)
	p.calc(at, memberPaid, sum(paid), hours, numbers(asNumber))
	p.calc(at, memberCharge, sum(charge), time, numbers(asMoney))
	p.calc(at, memberIncluded, fmt.Sprintf("IF(%[1]s=0,0,MIN(1,12*%[2]s/%[1]s))", here(memberPaid), tariff("membership_time")), could.Included, numbers(asPercent))
	p.calc(at, memberSaving, fmt.Sprintf("1-(1-%s)*(1-%s)", tariff("member_discount"), here(memberIncluded)), rental.MemberSaving(&shop.Tariff, could), numbers(asPercent))
	p.calc(at, memberFee, "12*"+tariff("membership_fee"), fee, numbers(asMoney))
	p.calc(at, memberJoined, fmt.Sprintf("IF(AND(%s>0,%s*%s>%[1]s),1,0)", here(memberFee), here(memberCharge), here(memberSaving)), flag(joined), numbers(asFlag))
	due := b.study.Money.Round(fee * (1 + float64(shop.Tariff.SalesTax)))
	p.calc(at, memberDue, here(memberJoined)+"*"+b.posted(here(memberFee)+"*(1+"+tariff("sales_tax")+")"), flag(joined)*due, numbers(asMoney))
	p.calc(at, memberTaken, here(memberJoined)+"*"+here(memberSaving), rental.MemberSaving(&shop.Tariff, rent.Members[s]), numbers(asPercent))
}

// alternativeBlock sums what does not follow the number of jobs.
func (b *book) alternativeBlock(p page) {
	r := &b.rent
	p.text(r.alternatives-2, 1, "Fees and inductions", section)
	p.headers(r.alternatives-1, "alternative", "membership fees a year", "inductions, once")
	for a := rented; a < len(b.study.Machines); a++ {
		at, rent := r.alternatives+a+1, b.rentOf(a)
		var fees []string
		for _, s := range r.memberShops {
			fees = append(fees, cell(r.memberRow(a, s), memberDue))
		}
		p.text(at, 1, b.alternativeName(a), plain)
		p.calc(at, alternativeFee, sum(fees), rent.Fee, numbers(asMoney))
		p.calc(at, alternativeInduction, b.induction(a), rent.Induction, numbers(asMoney))
	}
}

// induction is the twin of alternative.Rent's induction: fees with tax and own
// time for every machine in use on which an induction is still due.
func (b *book) induction(a int) string {
	return b.inductions(a, func(tariff func(string) string) string {
		return b.posted(tariff("induction_fee")+"*(1+"+tariff("sales_tax")+")") + "+" + tariff("induction_time") + "*" + b.in("studio.labour_rate")
	})
}

// inductions adds something up over the machines in use on which an induction
// is still due.
func (b *book) inductions(a int, each func(tariff func(key string) string) string) string {
	var terms []string
	for s := range b.study.Shops {
		shop := &b.study.Shops[s]
		for q := range shop.Machines {
			if uses := b.usesOf(a, s, q); !bool(shop.Machines[q].Inducted) && len(uses) > 0 {
				one := each(func(key string) string { return b.in("shops." + shop.Key + ".tariff." + key) })
				terms = append(terms, fmt.Sprintf("IF(%s>0,%s,0)", sum(uses), one))
			}
		}
	}
	return sum(terms)
}

// usesOf lists terms that are above zero when a job type uses machine q.
func (b *book) usesOf(a, s, q int) []string {
	var uses []string
	for job := range b.study.JobTypes {
		if work.ShopOf(b.study, job) != s {
			continue
		}
		column := timeUsed
		if a != rented && b.affected(a, job) {
			column = keptColumn(a)
		}
		uses = append(uses, fmt.Sprintf("(%s>0)*COUNTIFS(%s,\"shop\",%s,%s,%s,1)", b.rent.job(job, rentPerYear), b.timeColumn(job, timeWhere),
			b.timeColumn(job, timeMachine), grid.Quote(b.study.Shops[s].Machines[q].Key), b.timeColumn(job, column)))
	}
	return uses
}

// yearlyBlock sums each job type's first year in each alternative. Where
// owning a machine changes nothing for a job type, it points to the rented line.
func (b *book) yearlyBlock(p page) {
	r := &b.rent
	p.text(r.yearly-2, 1, "The first year", section)
	p.headers(r.yearly-1, "alternative", "job type", "shop's invoices", "travel", "own time and helpers on visits", "paid hours", "machine time before reductions",
		"bench hours", "bench time", "bench edges and abrasives")
	for a := rented; a < len(b.study.Machines); a++ {
		for job := range b.study.JobTypes {
			b.yearlyLine(p, a, job)
		}
	}
}

func (b *book) yearlyLine(p page, a, job int) {
	at, rent := b.rent.yearlyRow(a, job), &b.rentOf(a).Jobs[job]
	p.text(at, yearlyAlternative, b.alternativeName(a), plain)
	p.text(at, yearlyJob, b.study.JobTypes[job].Name, plain)
	values := [yearlyColumns]float64{
		yearlyShop: rent.Shop, yearlyTravel: rent.Travel, yearlyLabour: rent.Labour, yearlyPaid: rent.Paid, yearlyCharge: rent.TimeCharge,
		yearlyBenchHours: rent.Bench.Hours, yearlyBenchLabour: rent.Bench.Labour, yearlyBenchWear: rent.Bench.Wear,
	}
	formulas := b.yearlyFormulas(a, job)
	if a != rented && !b.affected(a, job) {
		for column := yearlyShop; column < yearlyColumns; column++ {
			formulas[column] = cell(b.rent.yearlyRow(rented, job), column)
		}
	}
	for column := yearlyShop; column < yearlyColumns; column++ {
		format := asMoney
		if column == yearlyPaid || column == yearlyBenchHours {
			format = asNumber
		}
		p.calc(at, column, formulas[column], values[column], numbers(format))
	}
}

func (b *book) yearlyFormulas(a, job int) [yearlyColumns]string {
	v := &b.visits
	first, last := v.block(a, job)
	visits := func(column int) string {
		if first < 0 {
			return "0"
		}
		return fmt.Sprintf("SUMPRODUCT(%s,%s)", grid.RangeRef(sheetVisits, first, visitCount, last, visitCount),
			grid.RangeRef(sheetVisits, first, v.column(column), last, v.column(column)))
	}
	bench := func(columns string) string {
		return fmt.Sprintf("%s*SUMPRODUCT((%s=\"bench\")*%s*%s*(1+%s*%s))", b.rent.job(job, rentPerYear), b.timeColumn(job, timeWhere),
			b.timeColumn(job, keptColumn(a)), columns, b.timeColumn(job, timeRepeat), b.in("job_types."+b.study.JobTypes[job].Key+".rework_chance"))
	}
	minutes := "(" + b.timeColumn(job, timeMinutes) + "+" + b.timeColumn(job, timePerVisit) + ")"
	return [yearlyColumns]string{
		yearlyShop: visits(visitShop), yearlyTravel: visits(visitTravel), yearlyLabour: visits(visitLabour),
		yearlyPaid: visits(visitPaid) + "/60", yearlyCharge: visits(visitTime),
		yearlyBenchHours:  "(" + bench(minutes) + b.benchSetups(a, job) + ")/60",
		yearlyBenchLabour: cell(b.rent.yearlyRow(a, job), yearlyBenchHours) + "*" + b.in("studio.labour_rate"),
		yearlyBenchWear:   bench(b.timeColumn(job, timeWear)),
	}
}

// benchSetups adds the set-up of each own tool in use: once a job, and again
// for a rework that repeats its step.
func (b *book) benchSetups(a, job int) string {
	formula, listed := "", map[int]bool{}
	for _, row := range b.answer.Plan.Of(job) {
		if row.Site != work.AtBench || listed[row.Machine] {
			continue
		}
		listed[row.Machine] = true
		tool := b.study.Tools[row.Machine].Key
		steps := func(more string) string {
			return fmt.Sprintf("COUNTIFS(%s,\"bench\",%s,%s,%s,1%s)", b.timeColumn(job, timeWhere), b.timeColumn(job, timeMachine), grid.Quote(tool),
				b.timeColumn(job, keptColumn(a)), more)
		}
		formula += fmt.Sprintf("+%s*IF(%s=0,0,1+IF(%s>0,%s,0))*%s", b.rent.job(job, rentPerYear), steps(""), steps(","+b.timeColumn(job, timeRepeat)+",1"),
			b.in("job_types."+b.study.JobTypes[job].Key+".rework_chance"), b.in("tools."+tool+".setup"))
	}
	return formula
}

// rentedYears lays renting everything out over the horizon. Twin of alternative.Rent.Years.
func (b *book) rentedYears(p page) {
	r, years := &b.rent, b.answer.Rented.Years(b.study)
	p.text(r.years-2, 1, "Renting everything, year by year, before tax", section)
	p.text(r.years-1, 1, "year", header)
	for t := range years {
		p.number(r.years-1, 3+t, float64(t+1), grid.Style{Bold: true, FontColor: white, Fill: slate})
	}
	for i, line := range rentLines {
		p.text(r.years+i, 1, line.label, plain)
		for t := range years {
			p.calc(r.years+i, 3+t, b.rentFormula(rented, i, cell(r.years-1, 3+t)), line.value(years[t]), numbers(asMoney0))
		}
	}
	b.rentChart(p)
	last := r.years + len(rentLines)
	p.text(last, 1, "together", total(asMoney0))
	for t := range years {
		p.calc(last, 3+t, "SUM("+span(r.years, 3+t, last-1, 3+t)+")", years[t].Sum(), total(asMoney0))
	}
	p.text(last+1, 1, "present cost after tax", plain)
	p.calc(last+1, 2, fmt.Sprintf("SUMPRODUCT(%s/(1+%s)^%s)*(1-%s)", span(last, 3, last, 2+len(years)), b.in("studio.discount_rate"), b.in("years"), b.in("studio.tax_rate")), b.answer.Present, total(asMoney0))
}

// rentChart shows what renting everything takes out of the account and of the
// day, year by year.
func (b *book) rentChart(p page) {
	r, last := &b.rent, 2+b.horizon()
	years := grid.RangeRef(sheetRenting, r.years-1, 3, r.years-1, last)
	var series []grid.Series
	for i, color := range [len(rentLines)]string{sky, sand, rust, moss, "C9A227", slate} {
		series = append(series, grid.Series{Name: rentLines[i].label, Categories: years, Values: grid.RangeRef(sheetRenting, r.years+i, 3, r.years+i, last), Color: color})
	}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.ColumnStacked, Title: "Renting everything: what each year costs, before tax", Cell: cell(r.years+len(rentLines)+3, 1), Width: 900, Height: 340,
		AltText: "stacked columns of what renting everything costs in each year", X: grid.Axis{Title: "year", Format: "0"}, Y: grid.Axis{Title: b.study.Currency + " a year", Format: "#,##0"}, Series: series,
	})
}

// rentLine is one line of the rented and bench side of a year.
type rentLine struct {
	label  string
	column int    // of the yearly block; 0 for fees and inductions
	growth string // price growth
	value  func(alternative.Year) float64
}

var rentLines = [...]rentLine{
	{"shop's invoices", yearlyShop, "rental", func(y alternative.Year) float64 { return y.Shop }},
	{"travel", yearlyTravel, "travel", func(y alternative.Year) float64 { return y.Travel }},
	{"own time and helpers on visits", yearlyLabour, "labour", func(y alternative.Year) float64 { return y.Labour }},
	{"own time at the bench", yearlyBenchLabour, "labour", func(y alternative.Year) float64 { return y.BenchLabour }},
	{"edges and abrasives at the bench", yearlyBenchWear, "consumables", func(y alternative.Year) float64 { return y.BenchWear }},
	{"membership fees and inductions", 0, "rental", func(y alternative.Year) float64 { return y.Fee + y.Induction }},
}

// rentFormula is one line of one year of an alternative; year is the cell with
// the year's number from 1.
func (b *book) rentFormula(a, line int, year string) string {
	r, l := &b.rent, rentLines[line]
	growth := fmt.Sprintf("(1+%s)^(%s-1)", b.in("growth."+l.growth), year)
	if l.column == 0 {
		return fmt.Sprintf("%s*%s+IF(%s=1,%s,0)", r.alternative(a, alternativeFee), growth, year, r.alternative(a, alternativeInduction))
	}
	return fmt.Sprintf("SUMPRODUCT(%s,(1+%s)^(%s-1))*%s", r.yearlyColumn(a, l.column), r.jobColumn(rentGrowth), year, growth)
}
