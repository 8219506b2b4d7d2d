package spend

import (
	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/work"
)

// books enter the amounts of a course into years and the months of one of them.
type books struct {
	study    *model.Study
	plan     *work.Plan
	owned    [][]bool
	calendar *calendar
	shown    int // the year by month
	years    []Amounts
	months   [12]Amounts
}

func booksOf(study *model.Study, plan *work.Plan, owned [][]bool, calendar *calendar, shown int) *books {
	return &books{study: study, plan: plan, owned: owned, calendar: calendar, shown: shown, years: make([]Amounts, len(owned))}
}

// shares say how an amount of a year falls on its months; they add up to 1.
type shares [12]float64

func evenly() (even shares) {
	for m := range even {
		even[m] = 1.0 / 12
	}
	return even
}

// Two ends of a year, and all of it alike. They are constants.
var (
	first = shares{1}
	last  = shares{11: 1}
	even  = evenly()
)

// paid enters an amount that is cash and cost at once.
func (b *books) paid(year int, category Category, amount float64, over *shares) {
	b.cash(year, category, amount, over)
	b.cost(year, category, amount, over)
}

func (b *books) cash(year int, category Category, amount float64, over *shares) {
	b.years[year].Cash[category] += amount
	if year == b.shown {
		for m, share := range over {
			b.months[m].Cash[category] += amount * share
		}
	}
}

func (b *books) cost(year int, category Category, amount float64, over *shares) {
	b.years[year].Cost[category] += amount
	if year == b.shown {
		for m, share := range over {
			b.months[m].Cost[category] += amount * share
		}
	}
}

// tax enters the tax effect of a year. Own time lowers no tax that is paid: the
// account does not see that part.
func (b *books) tax(year int, effect, own float64) {
	b.cash(year, Tax, effect+float64(b.study.Studio.TaxRate)*own, &last)
	b.cost(year, Tax, effect, &even)
}

// course enters everything.
func (b *books) course(course *alternative.Course, pace alternative.Pace) {
	for t := range course.Rented {
		b.rented(t, &course.Rented[t])
	}
	b.rentedMonths(course, pace)
	for i := range course.Stays {
		b.stay(&course.Stays[i], pace)
	}
	for i := range course.Fixtures {
		b.fixture(&course.Fixtures[i])
	}
}

// rented enters the rented and bench side of a year; its months come apart.
func (b *books) rented(t int, year *alternative.Year) {
	lines := rentedLines(year)
	for category, amount := range lines {
		b.years[t].Cost[category] += amount
		if Category(category) != OwnTime {
			b.years[t].Cash[category] += amount
		}
	}
	b.tax(t, -float64(b.study.Studio.TaxRate)*year.Sum(), lines[OwnTime])
}

// rentedLines sorts the rented and bench side by category, without tax.
func rentedLines(year *alternative.Year) (lines [Categories]float64) {
	lines[Rental] = year.Shop + year.Fee + year.Induction - year.InductionOwn
	lines[Travel] = year.Travel
	lines[Helpers] = year.Helpers
	lines[Edges] = year.BenchWear - year.BenchAbrasives
	lines[Abrasives] = year.BenchAbrasives
	lines[OwnTime] = year.Labour - year.Helpers + year.BenchLabour + year.InductionOwn
	return lines
}

// rentedMonths parts the jobs of the shown year among its months. A membership is
// paid month by month, an induction before the first job.
func (b *books) rentedMonths(course *alternative.Course, pace alternative.Pace) {
	t := b.shown
	for m := range b.months {
		year := course.Rents[t].Part(b.study, pace, t, func(job int) float64 { return b.calendar.jobs[t][job][m] })
		year.Fee = course.Rented[t].Fee / 12
		if m == 0 {
			year.Induction, year.InductionOwn = course.Rented[t].Induction, course.Rented[t].InductionOwn
		}
		for category, amount := range rentedLines(&year) {
			b.months[m].Cost[category] += amount
			if Category(category) != OwnTime {
				b.months[m].Cash[category] += amount
			}
		}
	}
}

// stay enters one owned machine.
func (b *books) stay(stay *alternative.Stay, pace alternative.Pace) {
	machine, rate := &b.study.Machines[stay.Machine], float64(b.study.Studio.DiscountRate)
	learned := capital.LearningTime(b.study, machine, stay.From)
	at := func(line capital.Line, t int) float64 { return stay.Table[line][t] }
	for t := stay.From + 1; t <= stay.To; t++ {
		b.running(stay, t, pace)
		own := ownTime(at, t)
		if t == stay.From+1 {
			own += learned
		}
		b.tax(t-1, at(capital.Tax, t), own)
	}
	for _, turn := range stay.Turns() {
		b.turn(stay, machine, turn, rate)
	}
	b.cash(stay.From, Purchase, at(capital.Fixtures, stay.From)+at(capital.Start, stay.From)-learned, &first)
	b.cash(stay.To-1, Resale, at(capital.FixturesBack, stay.To), &last)
	whole := capital.Turn{From: stay.From, To: stay.To}
	b.spread(whole, recovery(rate, at, whole, onceLines[:], laterOnce[:]))
}

// fixture enters one that several machines share.
func (b *books) fixture(stay *alternative.FixtureStay) {
	for t := stay.From + 1; t <= stay.To; t++ {
		b.paid(t-1, Floor, stay.At(capital.Floor, t), &even)
		b.tax(t-1, stay.At(capital.Tax, t), 0)
	}
	b.cash(stay.From, Purchase, stay.At(capital.Fixtures, stay.From), &first)
	b.cash(stay.To-1, Resale, stay.At(capital.FixturesBack, stay.To), &last)
	whole := capital.Turn{From: stay.From, To: stay.To}
	b.spread(whole, recovery(float64(b.study.Studio.DiscountRate), stay.At, whole, onceLines[:], laterOnce[:]))
}

// ownTime is the own time of a year at an owned machine.
func ownTime(at func(capital.Line, int) float64, t int) float64 {
	return at(capital.OwnTime, t) + at(capital.Care, t) + at(capital.Routine, t) + at(capital.Learning, t)
}

// running enters what a year's work at an owned machine takes. What follows the
// work falls on the months as its hours do, the rest evenly.
func (b *books) running(stay *alternative.Stay, t int, pace alternative.Pace) {
	year, table := t-1, &stay.Table
	hours := &even
	if year == b.shown {
		hours = b.calendar.hours(alternative.UsesOf(b.study, b.plan, b.owned[year], stay.Machine), pace, year)
	}
	abrasive := 0.0
	if wear := stay.Profile.Wear[year]; wear > 0 {
		abrasive = table[capital.Wear][t] * stay.Profile.Abrasives[year] / wear
	}
	b.paid(year, Upkeep, table[capital.Upkeep][t], &even)
	b.paid(year, Insurance, table[capital.Insurance][t]+table[capital.Other][t], &even)
	b.paid(year, Edges, table[capital.Wear][t]-abrasive, hours)
	b.paid(year, Abrasives, abrasive, hours)
	b.paid(year, Energy, table[capital.Energy][t], hours)
	b.paid(year, Energy, table[capital.Demand][t], &even)
	b.paid(year, Floor, table[capital.Floor][t], &even)
	b.paid(year, Sold, table[capital.Sold][t], &even)
	b.cost(year, OwnTime, table[capital.OwnTime][t]+table[capital.Care][t]+table[capital.Learning][t], hours)
	b.cost(year, OwnTime, table[capital.Routine][t], &even)
}

// Lines that are paid when a machine is bought, and those that follow until it is
// sold: once for each machine of a chain, or once for all of them.
var (
	turnLines = [...]capital.Line{capital.Price, capital.SalesTax, capital.Moving, capital.Borrowed}
	laterTurn = [...]capital.Line{capital.Interest, capital.Principal, capital.Resale, capital.RiggingOut}
	onceLines = [...]capital.Line{capital.Fixtures, capital.Start}
	laterOnce = [...]capital.Line{capital.FixturesBack}
)

// turn enters the buying, paying back and selling of one machine: bought on the
// first day of a year, sold on the last.
func (b *books) turn(stay *alternative.Stay, machine *model.Machine, turn capital.Turn, rate float64) {
	at := func(line capital.Line, t int) float64 { return stay.Table[line][t] }
	lent := -at(capital.Borrowed, turn.From)
	b.cash(turn.From, Purchase, at(capital.Price, turn.From)+at(capital.SalesTax, turn.From)+at(capital.Moving, turn.From), &first)
	b.cash(turn.From, Borrowed, -lent, &first)
	b.cash(turn.To-1, Resale, at(capital.Resale, turn.To)+at(capital.RiggingOut, turn.To), &last)
	for t := turn.From + 1; t <= turn.To; t++ {
		b.repaid(t-1, at(capital.Interest, t)+at(capital.Principal, t), lent, &machine.Loan, t-turn.From)
	}
	b.spread(turn, recovery(rate, at, turn, turnLines[:], laterTurn[:]))
}

// repaid enters a year of a loan, a payment a month; what is still owed when the
// machine is sold is paid back in December.
func (b *books) repaid(year int, amount, lent float64, loan *model.Loan, age int) {
	if lent == 0 {
		return
	}
	b.years[year].Cash[Repaid] += amount
	if year != b.shown {
		return
	}
	monthly := timevalue.Payment(float64(loan.APR)/12, float64(loan.Months), lent)
	for m := range b.months {
		if 12*(age-1)+m < int(loan.Months) {
			b.months[m].Cash[Repaid] += monthly
			amount -= monthly
		}
	}
	b.months[11].Cash[Repaid] += amount
}

// recovery is the equal amount at the end of each year of a turn that some lines
// are worth: those of its purchase and those of the years that follow.
//
// Source: capital recovery, as in timevalue.EquivalentAnnual.
func recovery(rate float64, at func(capital.Line, int) float64, turn capital.Turn, bought, later []capital.Line) float64 {
	flows := make([]float64, turn.To-turn.From+1)
	for _, line := range bought {
		flows[0] += at(line, turn.From)
	}
	for t := turn.From + 1; t <= turn.To; t++ {
		for _, line := range later {
			flows[t-turn.From] += at(line, t)
		}
	}
	return timevalue.EquivalentAnnual(rate, float64(turn.To-turn.From), timevalue.PresentValue(rate, flows))
}

// spread enters an equal cost of each year of a turn.
func (b *books) spread(turn capital.Turn, yearly float64) {
	for t := turn.From; t < turn.To; t++ {
		b.cost(t, Recovery, yearly, &even)
	}
}
