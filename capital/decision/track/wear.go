package track

import (
	"math"
	"slices"
	"strings"

	"shopstint/capital/decision/track/evidence"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/wear/life"
)

// Measure is what the run of an edge or abrasive is counted in.
type Measure int

// The measures of a run. Inside, lengths are metres, areas square metres and hours
// seconds.
const (
	NoMeasure Measure = iota // nothing was run yet
	ByLength
	ByArea
	ByHours
)

// Wear is what one kind of edge or abrasive cost, and how long it lasted. Runs of the
// lives are brought to plain hardwood and to a new edge, as the study's own life is.
type Wear struct {
	Path, Name string
	Edge       bool // and not an abrasive
	Measure    Measure

	Ended, Damaged, Going float64 // lives
	Sharpened, Replaced   float64 // of those ended
	LeftOut               float64 // lives that began before the logbook

	Run       float64  // as it was run
	Paid      float64  // purchases used up and sharpenings
	Cost      Estimate // paid for each metre, square metre or second
	StudyCost float64  // in the study, on the same work; 0 where it has none in this measure

	Study, StudyLow, StudyHigh float64 // the study's life and its range; none by hours
	Assumed                    bool    // that range is the usual one: half to twice the life
	FromLog                    bool    // for the study's own is from a logbook that this one overlaps

	Curve       []life.Step
	Median      float64 // of the curve; 0 where it does not come down that far
	Weibull     *life.Weibull
	Mean, Shape Estimate // of that fit
	Sudden      life.Exponential
	SuddenMean  Estimate
	Fits        Fit
	Dull        Estimate     // mean life where damage had not ended any; known with damage and dull ends
	Belief      *life.Belief // prior and lives until dull together; nil by hours
	Lasts       Estimate     // its middle: the life until dull

	ByDamage    Estimate // share of lives that damage ended
	StudyDamage float64  // the same in the study

	Bought     float64  // new ones that were paid for
	Priced     float64  // of those sharpened, the ones whose price was written
	Sharpening Estimate // paid for one, errand included
	Price      Estimate // paid for a new one
}

// Fit says which fit is to be preferred.
type Fit int

// The fits.
const (
	NoFit   Fit = iota // no life has ended
	Wearing            // Weibull, with the lesser criterion of Akaike
	Sudden             // exponential, likewise or for want of the other
)

// subject is what is kept of one kind of edge or abrasive.
type subject struct {
	path, name string
	edge       *model.Edge
	abrasive   *model.Abrasive
	factors    []float64 // life against plain hardwood, by job type
	mix        float64   // of the study's own work, for lines without a job

	measure  Measure
	items    map[string]*item
	all      tally // damage ends a life
	dull     tally // damage is only where it was last looked at
	damaged  float64
	leftOut  float64
	run      float64
	plain    float64 // the same in plain hardwood
	sharpens float64
	replaced float64
	costs    evidence.Ratio // a pair for each life that ended: run and what its end cost
	edgeWork evidence.Ratio // what was paid for each sharpening
	price    evidence.Ratio // what was paid for each new one
	months   map[int]*ends
}

// ends counts what happened in a month.
type ends struct{ run, ended float64 }

// item is one edge or abrasive in use.
type item struct {
	known     bool    // the life in hand began in the logbook
	run       float64 // of it, plain and as new
	real      float64 // as it was run
	sharpened float64 // times since new
	price     float64 // 0 where it is not known
	usedUp    float64 // of the price, as a share, by lives that ended
}

// Lines that have no part in a life.
const (
	otherMeasure = "its run is in another measure than the lines before it"
	noRun        = "nothing was run on it"
	noSuchWear   = "the study has no such edge or abrasive, or it is none to be sharpened"
)

func (t *Tracker) newEdge(at int) *subject {
	edge := &t.study.Edges[at]
	s := &subject{path: "edges." + edge.Key, name: nameOr(edge.Name, edge.Key), edge: edge}
	s.begin(t.study, func(m *model.Material) float64 { return float64(m.EdgeLife) })
	s.mix = t.mixOf(s)
	return s
}

func (t *Tracker) newAbrasive(at int) *subject {
	abrasive := &t.study.Abrasives[at]
	s := &subject{path: "abrasives." + abrasive.Key, name: nameOr(abrasive.Name, abrasive.Key), abrasive: abrasive}
	s.begin(t.study, func(m *model.Material) float64 { return float64(m.AbrasiveLife) })
	s.mix = t.mixOf(s)
	return s
}

// addWear takes a line about an edge or an abrasive. What else was bought has no part
// in a comparison.
func (t *Tracker) addWear(entry *logbook.Entry, month int) {
	s, ok := t.worn[entry.Subject]
	if !ok {
		if entry.Kind != logbook.Buy {
			t.leave(noSuchWear)
		}
		return
	}
	switch {
	case entry.Kind == logbook.Sharpen && s.edge == nil:
		t.leave(noSuchWear)
	case entry.Kind == logbook.Buy:
		s.buy(entry)
	case entry.Kind == logbook.Use:
		s.use(t, entry, month)
	default:
		s.end(t, entry, month)
	}
}

// at finds or makes the item that a line is about.
func (s *subject) at(entry *logbook.Entry) *item {
	one, ok := s.items[entry.Item]
	if !ok {
		one = &item{}
		s.items[strings.Clone(entry.Item)] = one
	}
	return one
}

// buy takes a purchase. With a label a new item begins: what was in use under that
// label is last seen, and its price is used up. Without one it is stock, and begins what
// is in use only when nothing was.
func (s *subject) buy(entry *logbook.Entry) {
	price := float64(entry.Amount) / entry.Jobs
	s.price.Add(entry.Jobs, float64(entry.Amount))
	before, used := s.items[entry.Item]
	switch {
	case entry.Item == "" && used:
		return
	case used && before.run > 0:
		s.costs.Add(before.real, (1-before.usedUp)*s.priceOf(before))
		s.close(before, false, false)
	}
	*s.at(entry) = item{known: true, price: price}
}

// use puts a run on an item.
func (s *subject) use(t *Tracker, entry *logbook.Entry, month int) {
	one := s.at(entry)
	if !s.put(one, entry, t.study, month) {
		t.leave(otherMeasure)
	}
}

// put adds the run of a line to an item; false when it is in another measure.
func (s *subject) put(one *item, entry *logbook.Entry, study *model.Study, month int) bool {
	measure, run := runOf(entry)
	if measure == NoMeasure {
		return true
	}
	if s.measure == NoMeasure {
		s.measure = measure
	}
	if measure != s.measure {
		return false
	}
	plain := run / s.factorOf(study, entry.Job)
	one.real += run
	one.run += plain / s.freshness(one)
	s.run += run
	s.plain += plain
	s.month(month).run += plain
	return true
}

func runOf(entry *logbook.Entry) (Measure, float64) {
	switch {
	case entry.Given.Has(logbook.HasLength):
		return ByLength, float64(entry.Length)
	case entry.Given.Has(logbook.HasArea):
		return ByArea, float64(entry.Area)
	case entry.Given.Has(logbook.HasHours):
		return ByHours, float64(entry.Hours)
	}
	return NoMeasure, 0
}

// factorOf is how long it lasts on the wood of a job against plain hardwood: by the
// job that the line names, else on the mix of the study's own work.
func (s *subject) factorOf(study *model.Study, job string) float64 {
	if at := model.Index(study.JobTypes, job); at >= 0 {
		return s.factors[at]
	}
	return s.mix
}

// freshness is the part of a new one's life that is left after so many sharpenings.
func (s *subject) freshness(one *item) float64 {
	if s.edge == nil {
		return 1
	}
	return math.Pow(1-float64(s.edge.LifeLost), one.sharpened)
}

func (s *subject) month(month int) *ends {
	at, ok := s.months[month]
	if !ok {
		at = &ends{}
		s.months[month] = at
	}
	return at
}

// end takes a sharpening or a replacement: one life of an item is over. A run on the
// line itself is the life's where there were no lines of use.
func (s *subject) end(t *Tracker, entry *logbook.Entry, month int) {
	one := s.at(entry)
	why := noRun
	if one.run == 0 {
		if measure, _ := runOf(entry); measure != NoMeasure {
			one.known = true
		}
		if !s.put(one, entry, t.study, month) {
			why = otherMeasure
		}
	}
	lost := entry.Reason == logbook.Lost
	ran := one.run > 0
	if !ran {
		t.leave(why)
	}
	real := one.real
	s.close(one, !lost, entry.Reason == logbook.Damage)
	if ran && !lost {
		s.month(month).ended++
	}
	cost := s.costOf(one, entry)
	if ran {
		s.costs.Add(real, cost)
	}
}

// close ends the life in hand, or leaves it where it was last looked at.
func (s *subject) close(one *item, ended, damaged bool) {
	switch {
	case one.run <= 0:
	case !one.known:
		s.leftOut++
	default:
		s.all.add(one.run, ended)
		s.dull.add(one.run, ended && !damaged)
		if ended && damaged {
			s.damaged++
		}
	}
	one.run, one.real = 0, 0
}

// costOf is what the end of a life cost: the sharpening and its part of the price, or
// what is left of the price. The item goes on sharpened, or new.
func (s *subject) costOf(one *item, entry *logbook.Entry) float64 {
	if entry.Kind == logbook.Sharpen {
		paid := float64(s.edge.SharpeningPrice + s.edge.Errand)
		if entry.Given.Has(logbook.HasAmount) {
			paid = float64(entry.Amount)
			s.edgeWork.Add(1, paid)
		}
		share := min(1-one.usedUp, 1/s.livesOfOne())
		one.usedUp += share
		one.sharpened++
		one.known = true
		s.sharpens++
		return paid + share*s.priceOf(one)
	}
	cost := (1 - one.usedUp) * s.priceOf(one)
	s.replaced++
	*one = item{known: true}
	if entry.Given.Has(logbook.HasAmount) {
		one.price = float64(entry.Amount)
		s.price.Add(1, one.price)
	}
	return cost
}

// livesOfOne is how many lives one has in the study, the new one's included.
func (s *subject) livesOfOne() float64 {
	if s.edge == nil {
		return 1
	}
	return 1 + float64(s.edge.Sharpenings)
}

// priceOf is what an item cost: as it was bought, else the mean of what was, else as
// in the study.
func (s *subject) priceOf(one *item) float64 {
	switch {
	case one.price > 0:
		return one.price
	case s.price.N > 0:
		return s.price.Value()
	case s.edge != nil:
		return float64(s.edge.Price)
	}
	return float64(s.abrasive.Price)
}

// study's life in the measure of the runs; 0 where it has none.
func (s *subject) studyLife() float64 {
	switch {
	case s.edge != nil && s.measure != ByArea && s.measure != ByHours:
		return float64(s.edge.Life)
	case s.abrasive != nil && s.measure != ByLength && s.measure != ByHours:
		return float64(s.abrasive.Life)
	}
	return 0
}

// sortedItems lists the items by label, so that sums do not hang on a map's order.
func (s *subject) sortedItems() []*item {
	labels := make([]string, 0, len(s.items))
	for label := range s.items {
		labels = append(labels, label)
	}
	slices.Sort(labels)
	items := make([]*item, len(labels))
	for i, label := range labels {
		items[i] = s.items[label]
	}
	return items
}
