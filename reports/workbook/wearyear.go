package workbook

import (
	"fmt"
	"math"

	"shopstint/model/wear"
	"shopstint/reports/workbook/grid"
)

// Columns of a year of an edge or abrasive on a machine.
const (
	yearKey = iota + 1
	yearMachine
	yearRun
	yearPlain
	yearHours
	yearNew
	yearSharpened
	yearChanges
	yearCost
	yearChangeTime
	yearChangeCost
	yearDullTime
	yearDullCost
	yearSpares
	yearFull
	yearBest
	yearSaved
	wearYearColumns
)

// Columns of the steps to the spare sets and to the best time to change.
const (
	stepAway  = iota + 3
	stepRate  // damage by the unit of run
	stepOne   // what a change costs
	stepRise  // by how much each unit of run makes the next one dearer
	stepUsed  // mean age at each unit of a life, added up
	stepAim   // change × rate² ÷ rise
	stepFirst // first guess of the run in lives of damage
	stepLast  = stepFirst + newtons
	stepWait  = stepLast + 1 // chance that so many or more are away, from 1
)

const (
	newtons   = 3  // of Newton's steps, which leave no error that shows from the first guess on
	mostAway  = 10 // chances that are written out; more spares than that are not counted
	untilDead = 20.72326583694641
)

// more is what the sheet says of more spares than it counts.
var more = fmt.Sprintf("over %d", mostAway)

// wearYear shows a year of each edge and abrasive on each machine that runs it.
// Twin of wear.Of.
func (b *book) wearYear(*grid.Sheet) {
	w := &b.wear
	p := page{w.sheet}
	uses := 0
	w.items(func(_ int, item *wear.Item, _ string, _ bool) { uses += len(item.Uses) })
	w.steps = w.year + uses + 4
	p.band(w.year-3, wearYearColumns-1, "A year of each, on each machine that runs it and whose edges and abrasives the studio pays for")
	p.text(w.year-2, 1, "A candidate as if it alone were owned and did all that it can take; a tool as it works when the rest is rented. Own time is one person's. It is not in the cost of a metre, and in the owning of a machine it is part of the care.", lead)
	p.headers(w.year-1, "key", "on", "m or m² a year", "the same in plain hardwood", "hours of cutting or rubbing", "new ones", "sharpenings", "changes", "money a year", "hours to change", "their worth", "hours lost dull", "their worth",
		"spare sets", "m or m² until dull", "best to change after", "saves a year")
	p.band(w.steps-3, wearYearColumns-1, "Steps to the spare sets and to the best time to change")
	p.text(w.steps-2, 1, fmt.Sprintf("Fewer than one change in twenty is to wait for a set that is away. A change is best where the next metre costs as much as the mean one: the run u, in lives of damage, solves u-1+exp(-u) = change × rate² / rise (Newton's method, %d steps).", newtons), lead)
	titles := []string{"key", "on", "away on the average", "damage a m or m²", "a change", "rise by dullness", "age, added up", "aim", "first u"}
	for range newtons {
		titles = append(titles, "next u")
	}
	for k := range mostAway {
		titles = append(titles, fmt.Sprintf("%d or more away", k+1))
	}
	p.headers(w.steps-1, titles...)
	at, step := w.year, w.steps
	w.items(func(from int, item *wear.Item, in string, edge bool) {
		for i := range item.Uses {
			f := wearLine{b: b, p: p, item: item, use: &item.Uses[i], in: in, edge: edge, from: from, at: at, step: step}
			f.names()
			f.year()
			f.steps()
			f.best()
			at, step = at+1, step+1
		}
	})
	w.sheet.Print.Area = span(1, 1, w.steps-4, wearYearColumns-1)
}

// wearLine writes one item on one machine: its year, and the steps to it.
type wearLine struct {
	b              *book
	p              page
	item           *wear.Item
	use            *wear.Use
	in             string
	edge           bool
	from, at, step int // rows of the item, of the year and of its steps
}

func (f *wearLine) of(field string) string  { return f.b.in(f.in + "." + field) }
func (f *wearLine) one(column int) string   { return cell(f.from, column) }
func (f *wearLine) it(column int) string    { return cell(f.at, column) }
func (f *wearLine) aside(column int) string { return cell(f.step, column) }

func (f *wearLine) put(column int, formula string, value any, format string) {
	f.p.calc(f.at, column, formula, value, numbers(format))
}

func (f *wearLine) names() {
	for _, at := range [...]int{f.at, f.step} {
		f.p.text(at, yearKey, f.item.Key, plain)
		f.p.text(at, yearMachine, f.use.Path(f.b.study), plain)
	}
}

func (f *wearLine) year() {
	u, item, machine := f.use, f.in, f.use.Path(f.b.study)
	labour := f.b.in("studio.labour_rate")
	f.put(yearRun, f.b.yearOf(timeYear, item, machine), u.Run, asNumber)
	f.put(yearPlain, f.b.yearOf(timePlain, item, machine), u.Plain, asNumber)
	f.put(yearHours, f.b.yearOf(timeHours, item, machine), u.Hours, asNumber)
	f.put(yearNew, f.it(yearPlain)+"/"+f.one(wearRun), u.New, asNumber)
	f.put(yearSharpened, f.it(yearNew)+"*"+f.one(wearSharpened), u.Sharpened, asNumber)
	f.put(yearChanges, f.it(yearNew)+"+"+f.it(yearSharpened), u.Changes, asNumber)
	f.put(yearCost, f.it(yearNew)+"*"+f.one(wearSpent), u.Cost, asMoney)
	f.put(yearChangeTime, f.it(yearChanges)+"*"+f.of("change_time")+"/60", u.ChangeTime, asNumber)
	f.put(yearChangeCost, f.it(yearChangeTime)+"*"+labour, u.ChangeCost, asMoney)
	f.put(yearDullTime, fmt.Sprintf("%s*%s/(1-%s)/%s*%s/%s", f.it(yearHours), f.of("dull_feed"), f.of("dull_feed"), f.one(wearFull), f.aside(stepUsed), f.one(wearMean)), u.DullTime, asNumber)
	f.put(yearDullCost, f.it(yearDullTime)+"*"+labour, u.DullCost, asMoney)
	f.spares()
	f.put(yearFull, f.one(wearFull), f.item.Full, asNumber)
}

func (f *wearLine) spares() {
	if !f.edge {
		f.put(yearSpares, "0", 0, asCount)
		return
	}
	var count any = float64(f.use.Spares)
	if f.use.Spares > mostAway {
		count = more
	}
	f.put(yearSpares, fmt.Sprintf("IF(%s<=0,0,IF(%s>=0.05,\"%s\",1+COUNTIF(%s,\">=0.05\")))", f.aside(stepAway), f.aside(stepWait+mostAway-1), more,
		span(f.step, stepWait, f.step, stepWait+mostAway-1)), count, asCount)
}

func (f *wearLine) steps() {
	u, item := f.use, f.item
	put := func(column int, formula string, value float64) {
		f.p.calc(f.step, column, formula, value, numbers("0.0000000"))
	}
	if f.edge {
		put(stepAway, f.it(yearSharpened)+"*"+f.of("turnaround")+"/365", u.Away)
		for k := range mostAway {
			put(stepWait+k, fmt.Sprintf("IF(%[1]s<=0,0,1-POISSON(%[2]d,%[1]s,1))", f.aside(stepAway), k), wear.Waits(k+1, u.Away))
		}
	}
	put(stepRate, fmt.Sprintf("-LN(1-%s)/%s", f.of("sudden_share"), f.one(wearFull)), item.Rate)
	put(stepOne, fmt.Sprintf("%s/(1+%s)+%s/60*%s", f.one(wearSpent), f.one(wearSharpened), f.of("change_time"), f.b.in("studio.labour_rate")), u.Change)
	put(stepRise, fmt.Sprintf("IF(%[1]s=0,0,%[2]s/%[1]s*%[3]s/(1-%[3]s)/%[4]s*%[5]s)", f.it(yearPlain), f.it(yearHours), f.of("dull_feed"), f.one(wearFull), f.b.in("studio.labour_rate")), u.Rise)
	v := "(" + f.aside(stepRate) + "*" + f.one(wearFull) + ")"
	put(stepUsed, fmt.Sprintf("IF(%[1]s<0.05,%[2]s^2*(1/2-%[1]s/3+%[1]s^2/8-%[1]s^3/30+%[1]s^4/144-%[1]s^5/840),(1-EXP(-%[1]s)*(1+%[1]s))/%[3]s^2)", v, f.one(wearFull), f.aside(stepRate)), usedOf(item))
	aim := 0.0
	if u.Rise > 0 {
		aim = u.Change * item.Rate * item.Rate / u.Rise
	}
	put(stepAim, fmt.Sprintf("IF(%[1]s=0,0,%[2]s*%[3]s^2/%[1]s)", f.aside(stepRise), f.aside(stepOne), f.aside(stepRate)), aim)
	guess := math.Sqrt(2*aim) + aim/3
	put(stepFirst, fmt.Sprintf("SQRT(2*%[1]s)+%[1]s/3", f.aside(stepAim)), guess)
	for i := range newtons {
		guess = newton(guess, aim)
		at := f.aside(stepFirst + i)
		put(stepFirst+i+1, fmt.Sprintf("IF(%[1]s=0,0,%[1]s-(IF(%[1]s<0.05,%[1]s^2/2-%[1]s^3/6+%[1]s^4/24-%[1]s^5/120+%[1]s^6/720,%[1]s-1+EXP(-%[1]s))-%[2]s)/(1-EXP(-%[1]s)))", at, f.aside(stepAim)), guess)
	}
}

// usedOf is the mean age at each unit of a life, added up: the integral of x·exp(−rate·x)
// over a full life, by its series where the difference of two numbers would lose digits.
func usedOf(item *wear.Item) float64 {
	v := item.Rate * item.Full
	if v < 0.05 {
		return item.Full * item.Full * (1.0/2 - v/3 + v*v/8 - math.Pow(v, 3)/30 + math.Pow(v, 4)/144 - math.Pow(v, 5)/840)
	}
	return (1 - math.Exp(-v)*(1+v)) / (item.Rate * item.Rate)
}

// newton is one step towards u − 1 + exp(−u) = aim.
func newton(u, aim float64) float64 {
	if u == 0 {
		return 0
	}
	value := u - 1 + math.Exp(-u)
	if u < 0.05 {
		value = u*u/2 - math.Pow(u, 3)/6 + math.Pow(u, 4)/24 - math.Pow(u, 5)/120 + math.Pow(u, 6)/720
	}
	return u - (value-aim)/(1-math.Exp(-u))
}

// best writes the run after which a change costs least and what it saves against
// waiting until the edge is dull: where the best run is the longer one, nothing.
func (f *wearLine) best() {
	u := f.use
	var best any = u.Best
	if math.IsInf(u.Best, 1) {
		best = "damage"
	}
	f.put(yearBest, fmt.Sprintf("IF(%[1]s<=0,%[2]s,IF(%[3]s<=0,0,IF(%[4]s=0,SQRT(2*%[3]s/%[1]s),IF(%[5]s>%[6]v,\"damage\",%[5]s/%[4]s))))",
		f.aside(stepRise), f.one(wearFull), f.aside(stepOne), f.aside(stepRate), f.aside(stepLast), untilDead), best, asNumber)
	f.put(yearSaved, fmt.Sprintf("IF(ISNUMBER(%[1]s),IF(%[1]s<%[2]s,%[3]s*((%[4]s+%[5]s*%[6]s)/%[7]s-%[5]s*%[1]s),0),0)",
		f.it(yearBest), f.it(yearFull), f.it(yearPlain), f.aside(stepOne), f.aside(stepRise), f.aside(stepUsed), f.one(wearMean)), u.Saved, asMoney)
}
