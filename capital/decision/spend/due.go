package spend

import (
	"math"
	"slices"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/quantity"
)

// Due is when one edge or abrasive at one machine falls due, counted from a day on
// which it is fresh.
type Due struct {
	Worn
	From quantity.Date // the day on which it is fresh
	// Sharpen and Renew are the first days on which it is dull, or spent; "" where
	// that lies beyond the study. An abrasive, and an edge that cannot be
	// sharpened, has no first one.
	Sharpen, Renew quantity.Date
	Year           float64 // of its length or area that is run in the twelve months from then
	Sharpenings    int     // in those twelve months
	Renewals       int
	Months         [12]DueMonth // from then
	Days           []DueDay     // the first of them, in order
}

// DueDay is a day on which an edge is sharpened, or it or an abrasive is renewed.
type DueDay struct {
	On    quantity.Date
	Renew bool
}

// DueMonth is how often it falls due in one of the months that follow each other
// from the day on which it is fresh.
type DueMonth struct{ Sharpenings, Renewals int }

// MostDays is how many days of one edge or abrasive are listed.
const MostDays = 24

// Event is a day on which something happens to a machine.
type Event struct {
	On      quantity.Date
	Machine int
	Fixture int // that several machines share, by its index in the study, paid with the machine; -1 for the machine itself
	What    string
	Amount  float64 // that leaves the account, less what is borrowed, in money of then; negative where it comes in
}

// What happens to a machine.
const (
	Bought   = "bought"
	Replaced = "replaced"
	Parted   = "sold"
	PaidBack = "loan paid back"
)

// due lists what falls due, by the first day on which it does.
func (s *Spend) due(pace alternative.Pace, calendar *calendar) {
	start := s.startDay(calendar)
	for _, worn := range wornOf(s.Study, s.Plan, s.Owned, pace, calendar) {
		if one := dueOf(worn, calendar, start); one.Year > 0 {
			s.Due = append(s.Due, one)
		}
	}
	for i := range s.Course.Stays {
		s.happens(&s.Course.Stays[i], calendar)
	}
	for i := range s.Course.Fixtures {
		s.fixtureHappens(&s.Course.Fixtures[i], calendar)
	}
	slices.SortStableFunc(s.Due, func(a, b Due) int { return a.next() - b.next() })
	slices.SortStableFunc(s.Events, func(a, b Event) int { return a.On.Day() - b.On.Day() })
}

// next is the day on which it falls due first; what does not within the study comes last.
func (d *Due) next() int {
	next := math.MaxInt32
	for _, date := range [...]quantity.Date{d.Sharpen, d.Renew} {
		if date != "" {
			next = min(next, date.Day())
		}
	}
	return next
}

// startDay is the day from which is counted: today, but not before the study begins.
func (s *Spend) startDay(calendar *calendar) int {
	start := calendar.dayOf(0, 0)
	if s.Today != "" {
		start = max(start, s.Today.Day())
	}
	return start
}

// dueOf follows one edge or abrasive from a day, or from the day on which its
// machine is bought where that is later.
//
// Source: common practice, no source: work as even as its months allow.
func dueOf(worn Worn, calendar *calendar, start int) Due {
	for t, had := range worn.Had {
		if had {
			start = max(start, calendar.dayOf(t, 0))
			break
		}
	}
	run := runOf(&worn, calendar, start)
	due := Due{Worn: worn, From: quantity.DateOf(start), Year: run.until(monthsOn(start, 12))}
	times := len(worn.Lives)
	cycle := 0.0
	for _, life := range worn.Lives {
		cycle += life
	}
	due.Renew = run.dateOf(cycle)
	if times > 1 {
		due.Sharpen = run.dateOf(worn.Lives[0])
	}
	turns := 0
	for m := range due.Months {
		before := turns
		turns = worn.turns(run.until(monthsOn(start, m+1)))
		due.Months[m].Renewals = turns/times - before/times
		due.Months[m].Sharpenings = turns - before - due.Months[m].Renewals
		due.Renewals += due.Months[m].Renewals
		due.Sharpenings += due.Months[m].Sharpenings
	}
	for k := 1; k <= min(turns, MostDays); k++ {
		due.Days = append(due.Days, DueDay{run.dateOf(worn.after(k)), k%times == 0})
	}
	return due
}

// monthsOn is the day so many months after another: its last day where the month is
// too short.
func monthsOn(day, months int) int {
	at := timeOf(day)
	on := at.AddDate(0, months, 0)
	if on.Day() != at.Day() { // it went on into the month behind
		on = on.AddDate(0, 0, -on.Day())
	}
	return day + int(on.Sub(at).Hours()/24)
}

// happens lists what happens to one owned machine, with the money of that day:
// buying and replacing less what is borrowed, selling as what comes in. What the
// study ends with is no event of its own.
func (s *Spend) happens(stay *alternative.Stay, calendar *calendar) {
	machine, paid := &s.Study.Machines[stay.Machine], stay.Paid()
	for i, turn := range stay.Turns() {
		what, amount := Replaced, paid[turn.From]
		if i == 0 {
			what, amount = Bought, amount-capital.LearningTime(s.Study, machine, stay.From)
		}
		s.happen(calendar.dayOf(turn.From, 0), Event{Machine: stay.Machine, Fixture: -1, What: what, Amount: amount})
		if stay.Table[capital.Borrowed][turn.From] != 0 {
			s.happen(loanEnd(calendar, turn, int(machine.Loan.Months)), Event{Machine: stay.Machine, Fixture: -1, What: PaidBack})
		}
	}
	if stay.To < len(s.Years) {
		fetched := stay.Table[capital.Resale][stay.To] + stay.Table[capital.RiggingOut][stay.To] + stay.Table[capital.FixturesBack][stay.To]
		s.happen(calendar.dayOf(stay.To, 0)-1, Event{Machine: stay.Machine, Fixture: -1, What: Parted, Amount: fetched})
	}
}

// fixtureHappens lists the buying and selling of a fixture that machines share.
func (s *Spend) fixtureHappens(stay *alternative.FixtureStay, calendar *calendar) {
	s.happen(calendar.dayOf(stay.From, 0), Event{Machine: stay.Payer, Fixture: stay.Fixture, What: Bought, Amount: stay.Paid})
	if stay.To < len(s.Years) {
		s.happen(calendar.dayOf(stay.To, 0)-1, Event{Machine: stay.Payer, Fixture: stay.Fixture, What: Parted, Amount: stay.At(capital.FixturesBack, stay.To)})
	}
}

func (s *Spend) happen(day int, event Event) {
	event.On = quantity.DateOf(day)
	s.Events = append(s.Events, event)
}

// loanEnd is the last day of the month in which a loan is paid back: its last
// payment, or the sale of the machine.
func loanEnd(calendar *calendar, turn capital.Turn, months int) int {
	return calendar.dayOf(turn.From, min(months, 12*(turn.To-turn.From))) - 1
}

// EdgeOf returns the edge that is due, nil for an abrasive.
func (d *Due) EdgeOf(study *model.Study) *model.Edge {
	if d.Edge < 0 {
		return nil
	}
	return &study.Edges[d.Edge]
}
