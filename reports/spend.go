package reports

import (
	"strconv"

	"shopstint/capital/decision/spend"
	"shopstint/model"
)

// How the machines of a Spending were chosen, as the JSON says it.
const (
	ChoiceTogether = "together" // the cheapest set to own together
	ChoiceOwning   = "owning"   // named by whoever asks
	ChoiceRoadmap  = "roadmap"  // as the roadmap buys and sells
)

// Spending is what the equipment of a studio will cost. Amounts are in Currency, in
// money of their year; costs are positive, income and relief negative.
type Spending struct {
	Title, Currency string
	Choice          string
	Machines        []string // keys of those that are owned in some year
	ChoiceInWords   string

	Years, Months SpendTable
	Futures       int // drawn; 0 for none
	Seed          uint64

	Due      []DueItem
	Events   []SpendEvent
	Reserves []Reserve
	Reserved float64 // all of them together, each month
	Savings  float64 // yearly interest on it

	ReservedInWords, SavingsInWords string
	Rates                           []HourRate

	Notes   []string // what to know beside the figures; clauses without a full stop
	Caution string
}

// SpendTable is a number of years or months by category.
type SpendTable struct {
	Heading string
	Periods []string // 2026 …, or Jan …
	Lines   []SpendLine
}

// What a line of a SpendTable counts in.
const (
	InBoth  = "both" // money from the account and cost at once
	InCash  = "cash" // only money from the account
	InCost  = "cost" // only cost
	SumCash = "cash sum"
	SumCost = "cost sum"
	Beside  = "beside" // an end of a range
)

// SpendLine is one line over the periods.
type SpendLine struct {
	Key, Label string
	In         string
	Amounts    []float64
	InWords    []string // of the amounts
	Empty      bool     // nothing in any period
}

// spendLines are the lines of a table in their order.
var spendLines = [...]struct {
	category       spend.Category
	in, key, label string
}{
	{spend.Rental, InBoth, "rental", "rental: invoices and fees"},
	{spend.Travel, InBoth, "travel", "travel"},
	{spend.Helpers, InBoth, "helpers", "hired helpers"},
	{spend.Upkeep, InBoth, "upkeep", "upkeep"},
	{spend.Insurance, InBoth, "insurance", "insurance and permits"},
	{spend.Edges, InBoth, "edges", "edges, sharpening"},
	{spend.Abrasives, InBoth, "abrasives", "abrasives"},
	{spend.Energy, InBoth, "energy", "energy"},
	{spend.Floor, InBoth, "floor", "floor"},
	{spend.Sold, InBoth, "hours_sold", "hours sold"},
	{spend.Purchase, InCash, "purchase", "machines bought"},
	{spend.Borrowed, InCash, "borrowed", "borrowed"},
	{spend.Repaid, InCash, "loan_payments", "loan payments"},
	{spend.Resale, InCash, "resale", "machines sold"},
	{spend.Tax, InCash, "tax_paid", "tax effect, as paid"},
	{spend.Recovery, InCost, "capital_recovery", "machines, spread"},
	{spend.OwnTime, InCost, "own_time", "own time"},
	{spend.Tax, InCost, "tax_on_cost", "tax effect, on all of it"},
}

// SpendingOf words what is spent, by a choice of machines.
func SpendingOf(found *spend.Spend, choice string, numbers Numbers) Spending {
	w := spendWording{studyWording(found.Study, numbers), found}
	said := Spending{
		Title: w.title(), Currency: w.study.Money.Code(), Choice: choice, Machines: []string{}, Futures: found.Futures, Seed: found.Seed,
		Savings: float64(found.Savings), Caution: DueCaution,
	}
	machines := w.owned()
	for _, m := range machines {
		said.Machines = append(said.Machines, w.study.Machines[m].Key)
	}
	said.ChoiceInWords = w.choice(choice, machines)
	said.Years, said.Months = w.yearTable(), w.monthTable()
	for i := range found.Due {
		said.Due = append(said.Due, w.due(&found.Due[i]))
	}
	for i := range found.Events {
		said.Events = append(said.Events, w.event(&found.Events[i]))
	}
	for i := range found.Reserves {
		said.Reserves = append(said.Reserves, w.reserve(&found.Reserves[i]))
		said.Reserved += found.Reserves[i].Monthly
	}
	for i := range found.Rates {
		said.Rates = append(said.Rates, w.rate(&found.Rates[i]))
	}
	said.SavingsInWords = percent(said.Savings)
	said.ReservedInWords = "set " + w.posted(said.Reserved) + " aside each month for what comes next, at " + percent(said.Savings) + " interest a year"
	said.Notes = w.notes()
	return said
}

// spendWording words one spending.
type spendWording struct {
	wording
	found *spend.Spend
}

// owned lists the machines that are owned in some year.
func (w spendWording) owned() []int {
	var list []int
	for m := range w.study.Machines {
		for t := range w.found.Owned {
			if w.found.Owned[t][m] {
				list = append(list, m)
				break
			}
		}
	}
	return list
}

func (w spendWording) choice(choice string, machines []int) string {
	start := strconv.Itoa(w.calendar(0))
	switch {
	case len(machines) == 0 && choice == ChoiceTogether:
		return "renting everything, which is the cheapest"
	case len(machines) == 0 && choice == ChoiceRoadmap:
		return "renting everything in all years, as the roadmap says"
	case len(machines) == 0:
		return "renting everything"
	case choice == ChoiceRoadmap:
		return "along the roadmap, which owns " + w.named(machines) + " at its time; the rest is rented"
	case choice == ChoiceOwning:
		return "owning " + w.named(machines) + ", bought at the start of " + start + "; the rest is rented"
	}
	return "owning " + w.named(machines) + ", the cheapest set to own together, bought at the start of " + start + "; the rest is rented"
}

func (w spendWording) yearTable() SpendTable {
	table := SpendTable{Heading: "by year"}
	for t := range w.found.Years {
		table.Periods = append(table.Periods, strconv.Itoa(w.calendar(t)))
	}
	table.Lines = w.lines(w.found.Years, w.found.YearRanges)
	return table
}

// monthNames stand over the columns of a year by month.
var monthNames = [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

func (w spendWording) monthTable() SpendTable {
	return SpendTable{Heading: "by month of " + strconv.Itoa(w.calendar(w.found.ByMonth)), Periods: monthNames[:], Lines: w.lines(w.found.Months[:], w.found.MonthRanges)}
}

// lines writes what is cash and cost at once, then either sum with what is only in
// it and the ends of its range.
func (w spendWording) lines(amounts []spend.Amounts, ranges []spend.Ranges) []SpendLine {
	var lines []SpendLine
	add := func(in string) {
		for _, one := range spendLines {
			if one.in == in {
				lines = append(lines, w.line(one.key, one.label, in, len(amounts), func(i int) float64 {
					if in == InCost {
						return amounts[i].Cost[one.category]
					}
					return amounts[i].Cash[one.category]
				}))
			}
		}
	}
	ends := func(key string, of func(spend.Ranges) spend.Range) {
		if ranges == nil {
			return
		}
		lines = append(lines,
			w.line(key+"_low", "  5 of 100 futures are under", Beside, len(ranges), func(i int) float64 { return of(ranges[i]).Low }),
			w.line(key+"_high", "  5 of 100 futures are over", Beside, len(ranges), func(i int) float64 { return of(ranges[i]).High }))
	}
	add(InBoth)
	add(InCash)
	lines = append(lines, w.line("cash", "cash", SumCash, len(amounts), func(i int) float64 { return amounts[i].CashSum() }))
	ends("cash", func(r spend.Ranges) spend.Range { return r.Cash })
	add(InCost)
	lines = append(lines, w.line("cost", "cost", SumCost, len(amounts), func(i int) float64 { return amounts[i].CostSum() }))
	ends("cost", func(r spend.Ranges) spend.Range { return r.Cost })
	return lines
}

func (w spendWording) line(key, label, in string, periods int, amount func(i int) float64) SpendLine {
	line := SpendLine{Key: key, Label: label, In: in, Empty: true}
	for i := range periods {
		x := amount(i)
		line.Amounts = append(line.Amounts, x)
		line.InWords = append(line.InWords, w.whole(x))
		line.Empty = line.Empty && x == 0
	}
	return line
}

// notes say how the tables were made.
func (w spendWording) notes() []string {
	notes := []string{
		"cash is money when it leaves the account: a machine is bought on the first day of a year and sold on the last, a loan is paid month by month, tax in December",
		"cost spreads what buying, borrowing, selling and learning come to as an equal amount over the years of each machine (capital recovery, at " + percent(float64(w.study.Studio.DiscountRate)) + "), and counts own time",
	}
	if len(w.owned()) > 0 {
		notes = append(notes, "the study ends with "+strconv.Itoa(w.calendar(len(w.found.Years)-1))+": what is still owned counts as sold then, and nothing is bought for the time after")
	}
	jobs := "jobs, membership, upkeep, insurance and floor are spread evenly over the months"
	if w.found.Dated > 0 {
		jobs = w.counted(float64(w.found.Dated), "dated job") + " of that year fall in the month halfway from ready to due, the others evenly"
	}
	notes = append(notes, "by month: "+jobs+"; what a machine runs follows its work")
	if w.found.Futures > 0 {
		notes = append(notes, "ranges are of "+w.whole(float64(w.found.Futures))+" futures drawn with the seed "+strconv.FormatUint(w.found.Seed, 10)+
			"; every year and month stands by itself, so the ends do not add up, and a month has its share of the year's scatter only")
	}
	return notes
}

// machineName is the name of a candidate.
func machineName(study *model.Study, m int) string {
	return nameOr(study.Machines[m].Name, study.Machines[m].Key)
}
