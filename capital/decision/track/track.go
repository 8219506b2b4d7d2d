// Package track holds a logbook against the study: what minutes, invoices, lives of
// edges, rework and jobs came to beside what the study says, how surely, what has
// drifted, and which inputs the evidence is strong enough to change. Entries are taken
// one by one; what is kept grows with the study's nouns, the items in use, the days
// and the months, and not with the lines.
package track

import (
	"math"
	"strings"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/track/evidence"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// Level is the confidence of the intervals that are told, and Sure the one with which
// the study's figure must lie outside before it is said to be off: with dozens of
// figures side by side, one in ten would be off by chance.
const (
	Level = 0.9
	Sure  = 0.99
)

// Estimate is a figure with its interval at Level, where there is evidence enough for
// one.
type Estimate struct {
	Value     float64
	Low, High float64
	Known     bool // whether Low and High mean something

	sure evidence.Interval // at Sure
}

// estimated is a figure with both its intervals.
func estimated(value float64, interval func(level float64) (evidence.Interval, bool)) Estimate {
	usual, known := interval(Level)
	sure, _ := interval(Sure)
	return Estimate{value, usual.Low, usual.High, known, sure}
}

// known is an interval that is always known.
func known(interval func(level float64) evidence.Interval) func(float64) (evidence.Interval, bool) {
	return func(level float64) (evidence.Interval, bool) { return interval(level), true }
}

// leastOff is how far off a figure must be, as a share, to be worth a word, however
// surely it is known.
const leastOff = 0.01

// Excludes tells whether x surely is not the true figure, and not for a trifle.
func (e Estimate) Excludes(x float64) bool { return e.Known && surelyOff(e.Value, e.sure, x) }

func surelyOff(value float64, sure evidence.Interval, x float64) bool {
	return !sure.Holds(x) && math.Abs(value-x) >= leastOff*math.Abs(x)
}

// Result is what a logbook says of a study.
type Result struct {
	Study       *model.Study
	Lines       int
	First, Last quantity.Date // "" without lines
	Years       float64       // from the first day to the last, both counted

	Machines []Machine
	Visits   []Visits
	Wear     []Wear
	Jobs     []Jobs
	Drift    []Drift

	Suggestions []Suggestion
	LeftOut     []LeftOut
}

// LeftOut is how many lines had no part in a figure, and why.
type LeftOut struct {
	Lines int
	Why   string
}

// Tracker takes the entries of one logbook.
type Tracker struct {
	study *model.Study
	plan  *work.Plan // as in the study
	bare  *work.Plan // the same with no handling at all: what cutting takes

	lines     int
	backwards int
	span      span
	dates     dates
	leftOut   map[string]int

	cells    map[cell]*prediction
	machines []*machineSums
	shops    []*shopSums
	jobs     []*jobSums
	worn     map[string]*subject
}

// New begins to compare a logbook with a study, which is not changed.
func New(study *model.Study) *Tracker {
	t := &Tracker{
		study: study, plan: work.New(study), bare: work.New(withoutHandling(study)),
		leftOut: map[string]int{}, cells: map[cell]*prediction{}, worn: map[string]*subject{},
	}
	for range study.JobTypes {
		t.jobs = append(t.jobs, newJobSums())
	}
	rent := alternative.RentOf(study, t.plan, make([]bool, len(study.Machines)))
	for shop := range study.Shops {
		t.shops = append(t.shops, newShopSums(t, shop, rent.Members[shop]))
	}
	for e := range study.Edges {
		t.worn[study.Edges[e].Key] = t.newEdge(e)
	}
	for a := range study.Abrasives {
		t.worn[study.Abrasives[a].Key] = t.newAbrasive(a)
	}
	return t
}

// Add takes one entry. Its keys are those of the study, as logbook.Read sees to when
// it is given the study; a line whose keys are not is left out and counted.
func (t *Tracker) Add(entry logbook.Entry) error {
	day := t.dates.day(entry.Date)
	if t.lines > 0 && day < t.span.last {
		t.backwards++
	}
	t.lines++
	t.span.add(day)
	switch entry.Kind {
	case logbook.Work:
		t.addWork(&entry, t.dates.month)
	case logbook.Visit:
		t.addVisit(&entry, day, t.dates.month)
	case logbook.Use, logbook.Sharpen, logbook.Replace, logbook.Buy:
		t.addWear(&entry, t.dates.month)
	case logbook.Done, logbook.Rework:
		t.addJobs(&entry, t.dates.month)
	}
	return nil
}

// leave counts a line that has no part in a figure.
func (t *Tracker) leave(why string) { t.leftOut[why]++ }

// span is the first and the last day.
type span struct {
	first, last int
	any         bool
}

func (s *span) add(day int) {
	if !s.any || day < s.first {
		s.first = day
	}
	if !s.any || day > s.last {
		s.last = day
	}
	s.any = true
}

// days counts the days from the first to the last, both in it.
func (s *span) days() float64 {
	if !s.any {
		return 0
	}
	return float64(s.last - s.first + 1)
}

// dates keeps what the last date was: neighbouring lines often have the same.
type dates struct {
	last  quantity.Date
	at    int // days since 1970-01-01
	month int // months since year 0
}

func (d *dates) day(date quantity.Date) int {
	if date != d.last {
		d.last, d.at, d.month = quantity.Date(strings.Clone(string(date))), date.Day(), monthOf(date)
	}
	return d.at
}

// monthOf counts the months of a date that was read from year 0.
func monthOf(date quantity.Date) int {
	if len(date) < len("2027-03") {
		return 0
	}
	digits := func(text quantity.Date) int {
		n := 0
		for i := range len(text) {
			n = 10*n + int(text[i]-'0')
		}
		return n
	}
	return 12*digits(date[:4]) + digits(date[5:7]) - 1
}

// withoutHandling is the study with machines that cut and do nothing else.
func withoutHandling(study *model.Study) *model.Study {
	twin := study.Clone()
	still := func(a *model.Ability) { a.HandlingPerPass, a.HandlingHeavy, a.Turning = 0, 0, 0 }
	for s := range twin.Shops {
		for m := range twin.Shops[s].Machines {
			still(&twin.Shops[s].Machines[m].Ability)
		}
	}
	for i := range twin.Tools {
		still(&twin.Tools[i].Ability)
	}
	for i := range twin.Machines {
		still(&twin.Machines[i].Ability)
	}
	return twin
}
