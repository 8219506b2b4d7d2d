package workbook

import (
	"fmt"
	"strconv"

	"shopstint/capital/decision/sensitivity"
	"shopstint/reports/workbook/grid"
)

// Columns of the sheet of cases: the case and up to two inputs that it moves,
// every lever, the results, and then the workings.
const (
	caseName = iota + 1
	caseFirst
	caseFirstTo
	caseSecond
	caseSecondTo
	caseLever // first of the levers
)

// Results and sums, counted from behind the levers.
const (
	caseSavedYear = iota
	caseOwningYear
	caseBetter
	caseAgainst
	caseVerdict
	caseSaved
	caseOwning
	caseInvoices
	caseTravel
	caseOwnTime
	caseBench
	caseFees
	caseResults
)

// Rows of the sheet of cases.
const (
	caseHeader  = 4
	caseUnit    = 5
	casePlanned = 6
)

// ownCases is how many cases are left to the reader, beside any that are added.
const ownCases = 6

// addedCases is how many more rows the lists of inputs reach down.
const addedCases = 40

// caseRow is one case: the inputs it moves and the places of their values.
type caseRow struct {
	name   string
	levers [2]sensitivity.Lever // Levers where nothing is moved
	names  [2]string            // formula of the lever's name; empty: a text
	places [2]string            // formula of the value it is moved to
	values sensitivity.Case     // SI
	to     [2]float64           // as shown
	own    bool                 // the reader's
}

// casePlaces says where the cases stand.
type casePlaces struct {
	rows                                     []caseRow
	arrays                                   map[int]string // formulas of inArrays, as they would stand in anyRow
	time, invoice                            int            // first columns by visit
	age, value, owed, deducted, running, net int            // first columns by year
}

func (c *casePlaces) result(result int) int {
	return caseLever + int(sensitivity.Levers) + result
}

// at is a result of the case in a row, seen from another sheet.
func (c *casePlaces) at(row, result int) string {
	return grid.SheetRef(sheetCases, casePlanned+row, c.result(result))
}

// placeCases settles the columns.
func (b *book) placeCases() {
	c, n, h := &b.cases, b.facts.visits(), b.horizon()
	c.time = c.result(caseResults)
	c.invoice = c.time + n
	c.age = c.invoice + n
	c.value = c.age + h
	c.owed = c.value + h
	c.deducted = c.owed + h
	c.running = c.deducted + h
	c.net = c.running + h // one more: today
}

// caseFormulas writes the formulas of the case in a row.
type caseFormulas struct {
	b   *book
	c   *casePlaces
	f   *factPlaces
	row int
}

func (k caseFormulas) lever(l sensitivity.Lever) string {
	place := "$" + cell(k.row, caseLever+int(l))
	if _, _, factor := k.b.leverUnit(l); factor != 1 {
		return fmt.Sprintf("%s*%.17g", place, factor)
	}
	return place
}

func (k caseFormulas) at(column int) string { return cell(k.row, column) }

func (k caseFormulas) hand(key string) string { return k.f.names[key] }

// visit is a fact of the visit in a column of time or invoice.
func (k caseFormulas) visit(i int, key string) string {
	return grid.SheetRef(sheetFacts, k.f.visit[key], 2+i)
}

// all is a fact of every visit, side by side.
func (k caseFormulas) all(key string) string { return k.b.names["visit:"+key] }

// moved is a lever's cell: the value of the case where it moves the lever, else
// the planned one.
func (k caseFormulas) moved(l sensitivity.Lever) string {
	name := grid.ColumnName(caseLever+int(l)) + "$" + fmt.Sprint(caseHeader)
	return fmt.Sprintf("IF($B%[1]d=%[2]s,$C%[1]d,IF($D%[1]d=%[2]s,$E%[1]d,%[3]s))", k.row, name, k.hand(fmt.Sprintf("planned_%d", l+1)))
}

// time is the twin of the cheapest way to buy a visit's time in rental.Price.
func (k caseFormulas) time(i int) string {
	v := func(key string) string { return k.visit(i, key) }
	least := fmt.Sprintf("(%s*%s+%s)", v("main"), k.lever(sensitivity.MinimumBlock), v("least"))
	step := fmt.Sprintf("(%s*%s+%s)", v("main"), k.lever(sensitivity.Increment), v("step"))
	steps := func(minutes string) string { return stepsUp("MAX(0,"+minutes+")", step) + "*" + step }
	var clocks []string
	for c := range k.f.clocks {
		minutes := v(fmt.Sprintf("clock_%d", c))
		clocks = append(clocks, fmt.Sprintf("IF(%[1]s>0,(%[2]s+%[3]s)/60*%[4]s,0)", minutes, least, steps(minutes+"-"+least), v(fmt.Sprintf("rate_%d", c))))
	}
	days := v("days") + "*" + v("day_price")
	left := v("billed") + "-" + v("days") + "*" + v("day")
	rest := func(minutes string) string { return steps(minutes) + "/60*" + v("dearest") }
	half := fmt.Sprintf("IF(%[1]s>0,%[2]s+%[1]s+%[3]s,1E+99)", v("half_price"), days, rest(left+"-"+v("half")))
	whole := fmt.Sprintf("IF(%[1]s>0,MIN(%[2]s+%[1]s,IF(%[3]s>0,%[2]s+%[4]s,1E+99)),1E+99)", v("day_price"), days, v("days"), rest(left))
	return fmt.Sprintf("IF(%s=0,0,%s*MIN(%s,%s,%s))", v("billed"), k.lever(sensitivity.Rates), sum(clocks), half, whole)
}

// invoice is the twin of the posted lines of rental.Price.
func (k caseFormulas) invoice(i int) string {
	v := func(key string) string { return k.visit(i, key) }
	time := cell(k.row, k.c.time+i)
	net := fmt.Sprintf("(%s-%s)", k.b.posted(time), k.b.posted(time+"*"+v("saving")))
	charges := fmt.Sprintf("(%[1]s+%[2]s+%[3]s+%[4]s)", net, k.b.posted(net+"*"+v("after")), k.b.posted(net+"*"+v("resin")), v("charges"))
	return charges + "+" + k.b.posted(charges+"*"+v("tax"))
}

// count is the twin of alternative.Counts for all visits at once: full visits,
// and the last one, which is between two whole numbers of jobs.
func (k caseFormulas) count() string {
	jobs := k.lever(sensitivity.Work) + "*" + k.all("jobs")
	full := fmt.Sprintf("INT(ROUND(%s/%s,6))", jobs, k.all("batch"))
	near := fmt.Sprintf("(1-ABS(%s-%s*%s-%s))", jobs, k.all("batch"), full, k.all("aboard"))
	return fmt.Sprintf("%s*((1-%s)*((%s=%s)*%s+(%[6]s+ABS(%[6]s))/2)+%[2]s*%[7]s*%[8]s)",
		k.all("sign"), k.all("rework"), k.all("aboard"), k.all("batch"), full, near, jobs, k.all("repeats"))
}

// overYears adds an amount of every visit up over the years: it grows with the
// work and with its price, and is discounted and after tax. The years are a
// geometric series, summed by its formula, or, where it hardly grows, by the
// first terms of its expansion.
func (k caseFormulas) overYears(amount, growth string) string {
	rate, h := k.lever(sensitivity.DiscountRate), float64(k.b.horizon())
	ratio := fmt.Sprintf("((1+%s)*(1+%s)/(1+%s))", k.all("growth"), growth, rate)
	flat := fmt.Sprintf("(ABS(%s-1)<0.000001)", ratio)
	series := fmt.Sprintf("(%[1]s*(%[3]g+%[4]g*(%[2]s-1)+%[5]g*(%[2]s-1)^2)+(1-%[1]s)*(1-%[2]s^%[3]g)/(1-%[2]s+%[1]s))", flat, ratio, h, h*(h-1)/2, h*(h-1)*(h-2)/6)
	return fmt.Sprintf("(1-%s)*SUMPRODUCT(%s*%s*%s)/(1+%s)", k.lever(sensitivity.TaxRate), k.count(), amount, series, rate)
}

func (k caseFormulas) invoices() string {
	return k.overYears("$"+cell(k.row, k.c.invoice)+":$"+cell(k.row, k.c.invoice+max(1, k.f.visits())-1), k.lever(sensitivity.RentalGrowth))
}

func (k caseFormulas) travel() string {
	km := fmt.Sprintf("(%s*%s+%s)", k.all("main"), k.lever(sensitivity.Distance), k.all("km"))
	vehicle := k.b.posted(fmt.Sprintf("2*%s*%s*%s", k.all("trips"), km, k.lever(sensitivity.VehicleCost)))
	return k.overYears("("+vehicle+"+"+k.all("tolls")+")", k.b.in("growth.travel"))
}

func (k caseFormulas) ownTime() string {
	drive := fmt.Sprintf("(%s*%s+%s)", k.all("main"), k.lever(sensitivity.DriveTime), k.all("drive"))
	minutes := fmt.Sprintf("(%[1]s>0)*%[2]s*(2*%[3]s*%[4]s+%[5]s+%[6]s*%[7]s+%[1]s)", k.all("billed"), k.all("crew"), k.all("trips"), drive, k.all("waiting"), k.all("aboard"), k.all("loading"))
	return k.overYears("("+k.b.posted(minutes+"/60*"+k.lever(sensitivity.LabourRate))+"+"+k.all("helpers")+")", k.b.in("growth.labour"))
}

// discounted is a factor for each year, side by side.
func (k caseFormulas) discounted() string {
	return fmt.Sprintf("(1+%s)^%s", k.lever(sensitivity.DiscountRate), k.f.years("year", 1, k.b.horizon()))
}

func (k caseFormulas) bench() string {
	h := k.b.horizon()
	return fmt.Sprintf("(1-%s)*%s*SUMPRODUCT((%s*%s*%s+%s*%s)/%s)", k.lever(sensitivity.TaxRate), k.lever(sensitivity.Work),
		k.f.years("bench_hours", 1, h), k.f.years("growth_labour", 1, h), k.lever(sensitivity.LabourRate),
		k.f.years("bench_wear", 1, h), k.lever(sensitivity.Consumables), k.discounted())
}

func (k caseFormulas) fees() string {
	rate := k.lever(sensitivity.DiscountRate)
	return fmt.Sprintf("(1-%s)*(%s*SUMPRODUCT((1+%s)^(%[4]s-1)/(1+%[5]s)^%[4]s)+(%[6]s-%[7]s+(%[8]s-%[9]s)*%[10]s)/(1+%[5]s))", k.lever(sensitivity.TaxRate), k.hand("fee_saved"),
		k.lever(sensitivity.RentalGrowth), k.f.years("year", 1, k.b.horizon()), rate, k.hand("fees_rented"), k.hand("fees_beside"), k.hand("hours_rented"), k.hand("hours_beside"), k.lever(sensitivity.LabourRate))
}

func (k caseFormulas) owning() string {
	h := k.b.horizon()
	return fmt.Sprintf("$%s+SUMPRODUCT($%s:$%s/%s)", k.at(k.c.net), k.at(k.c.net+1), k.at(k.c.net+h), k.discounted())
}

// result is the formula of one of the results.
func (k caseFormulas) result(result int) string {
	here := func(result int) string { return "$" + k.at(k.c.result(result)) }
	rate, horizon := k.lever(sensitivity.DiscountRate), k.b.in("studio.horizon")
	annual := func(present string) string {
		return fmt.Sprintf("IF(%[2]s=0,%[1]s/%[3]s,%[1]s*%[2]s/(1-(1+%[2]s)^-%[3]s))", present, rate, horizon)
	}
	switch result {
	case caseSavedYear:
		return annual(here(caseSaved))
	case caseOwningYear:
		return annual(here(caseOwning))
	case caseBetter:
		return here(caseSavedYear) + "-" + here(caseOwningYear)
	case caseAgainst:
		return here(caseBetter) + "-" + grid.AbsRef(casePlanned, k.c.result(caseBetter))
	case caseVerdict:
		return fmt.Sprintf(`IF(ABS(%[1]s-%[2]s)<=%[3]s*MAX(ABS(%[1]s),ABS(%[2]s)),"too close to call",IF(%[1]s>%[2]s,"buy","keep renting"))`, here(caseSaved), here(caseOwning), k.b.in("studio.close_call"))
	case caseSaved:
		return "SUM(" + here(caseInvoices) + ":" + here(caseFees) + ")"
	case caseOwning:
		return k.owning()
	case caseBench:
		return k.bench()
	}
	return k.fees()
}

// caseTitles are the titles of the results.
var caseTitles = [caseResults]string{
	caseSavedYear: "renting saved a year", caseOwningYear: "owning a year", caseBetter: "owning is better by, a year", caseAgainst: "against the plan", caseVerdict: "answer",
	caseSaved: "saved, present", caseOwning: "owning, present",
	caseInvoices: "invoices saved", caseTravel: "travel saved", caseOwnTime: "own time on visits saved", caseBench: "bench time and wear saved", caseFees: "fees and inductions saved",
}

// leverNames is the place of the names of the levers.
func leverNames() string {
	return grid.RangeRef(sheetCases, caseHeader, caseLever, caseHeader, caseLever+int(sensitivity.Levers)-1)
}

// caseSheet writes the titles and the formulas of the cases; the values follow
// beside the other sheets, since nothing waits for them but the sensitivity.
func (b *book) caseSheet(s *grid.Sheet) {
	p, c := page{s}, &b.cases
	b.placeCases()
	b.listCases()
	s.Freeze, s.Protected, s.Open, s.TabColor = "B7", true, true, rust
	s.Columns = []float64{36, 31, 11, 31, 11}
	titles := []string{"case", "input moved", "to", "and another", "to"}
	units := map[int]string{}
	for l := range sensitivity.Levers {
		_, symbol, _ := b.leverUnit(l)
		titles, s.Columns = append(titles, l.Label()), append(s.Columns, 12)
		units[caseLever+int(l)] = symbol
	}
	for _, name := range caseTitles {
		titles, s.Columns = append(titles, name), append(s.Columns, 13)
	}
	for i := range b.facts.visits() {
		titles = append(titles, fmt.Sprintf("time of visit %d", i+1))
	}
	for i := range b.facts.visits() {
		titles = append(titles, fmt.Sprintf("invoice %d", i+1))
	}
	for _, name := range [...]string{"age", "worth", "owed", "share deducted to date", "running cost", "owning"} {
		for t := range b.horizon() + 1 {
			if t > 0 || name == "owning" {
				titles = append(titles, fmt.Sprintf("%s, year %d", name, t))
			}
		}
	}
	p.text(1, 1, "Cases", title)
	p.text(2, 1, "One case a row, for the machine chosen on the sheet Sensitivity: name an input and a value, or type over any straw cell. Copy a row downwards to add a case.", lead)
	p.text(3, 1, "Jobs aboard, sizes and minutes stay as planned, and so do memberships. Workings stand to the right.", lead)
	p.headers(caseHeader, titles...)
	for column := 1; column < caseLever+int(sensitivity.Levers); column++ {
		p.text(caseUnit, column, units[column], faint)
	}
	last := casePlanned + len(c.rows) - 1
	s.Print = grid.Print{Landscape: true, FitWide: 2, TitleRows: caseUnit, Area: span(1, 1, last, c.result(caseSaved)-1), Footer: "&L&A&C&P of &N"}
	first := last - ownCases + 1
	s.Validations = append(s.Validations, grid.Validation{Range: span(first, caseFirst, last+addedCases, caseFirst) + " " + span(first, caseSecond, last+addedCases, caseSecond), ListRef: leverNames()})
	better := c.result(caseBetter)
	s.Conditions = append(s.Conditions, grid.Condition{Range: span(casePlanned, better, last+addedCases, better),
		Formula: "$" + cell(casePlanned, better) + "<0", Style: grid.Style{FontColor: rust}})
	formulas := b.caseColumns()
	b.aside.Go(func() { b.fillCases(p, formulas) })
}

// anyRow is the number of a row that no sheet has, to be replaced.
const anyRow = "9876543"

// inArrays are the results that sum over all visits with rounding: a program
// that is asked for such a sum works its functions out element by element only
// in an array.
var inArrays = map[int]func(k caseFormulas) string{
	caseInvoices: caseFormulas.invoices, caseTravel: caseFormulas.travel, caseOwnTime: caseFormulas.ownTime,
}

// caseColumns are the formulas of all columns from the levers on, as they stand
// in the first row.
func (b *book) caseColumns() map[int]string {
	k := caseFormulas{b, &b.cases, &b.facts, casePlanned}
	formulas := map[int]string{}
	for l := range sensitivity.Levers {
		formulas[caseLever+int(l)] = k.moved(l)
	}
	for result := range caseResults {
		formulas[k.c.result(result)] = k.result(result)
	}
	for i := range k.f.visits() {
		formulas[k.c.time+i], formulas[k.c.invoice+i] = k.time(i), k.invoice(i)
	}
	for t := 1; t <= b.horizon(); t++ {
		formulas[k.c.age+t-1], formulas[k.c.value+t-1] = k.ageIn(t), k.valueIn(t)
		formulas[k.c.owed+t-1], formulas[k.c.deducted+t-1] = k.owedIn(t), k.deductedIn(t)
		formulas[k.c.running+t-1], formulas[k.c.net+t] = k.runningIn(t), k.netIn(t)
	}
	formulas[k.c.net] = k.today()
	k.row, _ = strconv.Atoi(anyRow)
	k.c.arrays = map[int]string{}
	for result, formula := range inArrays {
		k.c.arrays[result] = formula(k)
	}
	return formulas
}
