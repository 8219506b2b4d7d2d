package track

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"shopstint/capital/decision/track/evidence"
	"shopstint/model"
	"shopstint/model/quantity"
)

// Suggestion is a new figure for one input, where the logbook speaks clearly against
// the one in the study, or knows it much more narrowly. Figures are in the input's own
// unit, SI inside.
type Suggestion struct {
	Path      string
	Dimension quantity.Dimension
	Old       float64
	Ranged    bool // whether the study has a range
	OldLow    float64
	OldHigh   float64
	New       float64
	Low, High float64
	Ground    Ground
	Count     int      // lines, lives, days or jobs that it rests on
	Seen      Estimate // what was seen: a factor, a mean life, a rate, a share, a price
}

// Ground is what a suggestion rests on.
type Ground int

// The grounds.
const (
	OfMinutes     Ground = iota // measured work; Seen is the factor
	OfCutting                   // the same, of its cutting alone
	OfHandling                  // the same, of its handling alone
	OfLives                     // ends of lives and the study's range together
	OfInvoices                  // days with invoices
	OfRework                    // jobs done
	OfJobs                      // jobs done
	OfSharpenings               // sharpenings paid
	OfPurchases                 // purchases
	OfDamage                    // ends of lives; Seen is the share by damage
)

// What evidence must be for a suggestion.
const (
	leastLines   = 5    // of measured work
	leastCovered = 330  // days, for jobs a year
	narrowed     = 0.6  // a life's interval against the study's range
	closest      = 0.01 // half of the narrowest range that is suggested, as a share
)

// suggester collects suggestions for one study.
type suggester struct {
	study  *model.Study
	inputs map[string]model.Leaf
	list   []Suggestion
}

// suggest reads what a result says against the study.
func (t *Tracker) suggest(r *Result) []Suggestion {
	s := &suggester{study: t.study, inputs: map[string]model.Leaf{}}
	model.Walk(t.study, func(leaf model.Leaf) { s.inputs[leaf.Path] = leaf })
	for i := range r.Machines {
		s.ofMinutes(&r.Machines[i])
		s.ofSetup(&r.Machines[i])
	}
	t.ofMeasured(s)
	for i := range r.Visits {
		s.ofInvoices(&r.Visits[i])
	}
	for i := range r.Wear {
		s.ofWear(&r.Wear[i])
	}
	for i := range r.Jobs {
		s.ofJobs(&r.Jobs[i], t.span.days())
	}
	return s.list
}

// add suggests a figure, held to the limits of its input and with a range of some
// width around it.
func (s *suggester) add(path string, seen Estimate, low, value, high float64, ground Ground, count int) {
	leaf, ok := s.inputs[path]
	if !ok {
		return
	}
	dimension, ok := leaf.Dimension()
	if !ok {
		return
	}
	low, high = min(low, value*(1-closest)), max(high, value*(1+closest))
	least, most := limit(leaf, dimension, "least", math.Inf(-1)), limit(leaf, dimension, "most", math.Inf(1))
	within := func(x float64) float64 { return min(max(x, least), most) }
	origin := s.study.Origins[path]
	one := Suggestion{
		Path: path, Dimension: dimension, Old: leaf.Number(), Ranged: origin.HasRange, OldLow: origin.Low, OldHigh: origin.High,
		New: within(value), Low: within(low), High: within(high), Ground: ground, Count: count, Seen: seen,
	}
	if one.Low < one.High {
		s.list = append(s.list, one)
	}
}

// limit reads a limit from an input's tags.
func limit(leaf model.Leaf, dimension quantity.Dimension, name string, without float64) float64 {
	text := leaf.Tag.Get(name)
	if text == "" {
		return without
	}
	value, _, err := quantity.Parse(dimension, text)
	if err != nil {
		return without
	}
	return value
}

// scale suggests an input times a factor; nothing stays nothing.
func (s *suggester) scale(path string, by Estimate, ground Ground, count int) {
	old := s.inputs[path].Number()
	s.add(path, by, old*by.Low, old*by.Value, old*by.High, ground, count)
}

// ofSetup moves the set-up of a machine, where its lines are of that alone.
func (s *suggester) ofSetup(m *Machine) {
	for _, one := range m.Operations {
		if one.Key == Setup && m.PlainSetup && one.Lines >= leastLines && one.Ratio.Excludes(1) {
			s.scale(m.Path+".setup", one.Ratio, OfMinutes, one.Lines)
		}
	}
}

// ofMinutes moves feed or time by area for the cutting, and the handling, by the lines
// that are reckoned from them.
func (s *suggester) ofMinutes(m *Machine) {
	if m.Reckoned.Lines < leastLines {
		return
	}
	var cutting, handling Estimate
	groundOfCutting, groundOfHandling := OfCutting, OfHandling
	of := func(value float64, interval evidence.Interval) Estimate {
		return Estimate{Value: value, Low: interval.Low, High: interval.High, Known: true}
	}
	switch m.Bias {
	case Unsplit:
		cutting, handling = m.Reckoned.Ratio, m.Reckoned.Ratio
		groundOfCutting, groundOfHandling = OfMinutes, OfMinutes
	case Alike:
		cutting = of(m.Factors.Alike, m.Factors.OfAlike)
		handling = cutting
		groundOfCutting, groundOfHandling = OfMinutes, OfMinutes
	case InCutting:
		cutting = of(m.Factors.OnlyA, m.Factors.OfOnlyA)
	case InHandling:
		handling = of(m.Factors.OnlyB, m.Factors.OfOnlyB)
	case InBoth:
		cutting, handling = of(m.Factors.A, m.Factors.OfA), of(m.Factors.B, m.Factors.OfB)
	}
	if cutting.Known && cutting.Low > 0 {
		if s.byArea(m.Path) {
			s.scale(m.Path+".area_time", cutting, groundOfCutting, m.Reckoned.Lines)
		} else {
			s.slower(m.Path+".feed", cutting, groundOfCutting, m.Reckoned.Lines)
		}
	}
	for _, one := range []struct {
		key  string
		used bool
	}{{".handling_per_pass", m.Light}, {".handling_heavy", m.Heavy}, {".turning", m.Turned}} {
		if one.used && handling.Known && handling.Low > 0 {
			s.scale(m.Path+one.key, handling, groundOfHandling, m.Reckoned.Lines)
		}
	}
}

// byArea tells whether a machine is moved over the face, so that it has no feed.
func (s *suggester) byArea(path string) bool {
	leaf, ok := s.inputs[path+".class"]
	return ok && (leaf.Value.String() == model.Orbital || leaf.Value.String() == model.RouterSled)
}

// slower suggests a feed that takes so many times as long.
func (s *suggester) slower(path string, by Estimate, ground Ground, count int) {
	old := s.inputs[path].Number()
	s.add(path, by, old/by.High, old/by.Value, old/by.Low, ground, count)
}

// ofMeasured suggests minutes where the study has measured ones already.
func (t *Tracker) ofMeasured(s *suggester) {
	sums := map[[2]int]*evidence.Ratio{}
	for _, key := range t.sortedCells() {
		if known := t.cells[key]; known.measured {
			at, ok := sums[[2]int{known.job, known.at}]
			if !ok {
				at = &evidence.Ratio{}
				sums[[2]int{known.job, known.at}] = at
			}
			*at = at.Plus(known.lines)
		}
	}
	for job := range t.study.JobTypes {
		kind := &t.study.JobTypes[job]
		for o := range kind.Operations {
			sum, ok := sums[[2]int{job, o}]
			if !ok || sum.N < leastLines {
				continue
			}
			if ratio := estimated(sum.Value(), sum.Interval); ratio.Excludes(1) {
				s.scale("job_types."+kind.Key+".operations."+kind.Operations[o].Key+".measured", ratio, OfMinutes, int(sum.N))
			}
		}
	}
}

// sortedCells lists the cells in an order, so that sums do not hang on a map's.
func (t *Tracker) sortedCells() []cell {
	return slices.SortedFunc(maps.Keys(t.cells), func(a, b cell) int {
		return cmp.Or(cmp.Compare(a.subject, b.subject), cmp.Compare(a.job, b.job), cmp.Compare(a.operation, b.operation))
	})
}

// ofInvoices suggests the rate that the latest invoices imply, where the tariff has
// changed or the study's rate is not among what most days imply.
func (s *suggester) ofInvoices(v *Visits) {
	off := math.Abs(v.Now.Value-v.Study) >= leastOff*v.Study
	clear := len(v.Steps) > 0 || v.Study < v.Now.Low || v.Study > v.Now.High
	if v.Hourly && v.Now.Known && off && clear {
		s.add("shops."+v.Shop+".tariff.hourly_rate", v.Now, v.Now.Low, v.Now.Value, v.Now.High, OfInvoices, v.Since)
	}
}

// ofWear suggests a life, and what sharpening and new ones cost.
func (s *suggester) ofWear(w *Wear) {
	if w.Belief != nil && w.Ended-w.Damaged >= leastEnds && w.Belief.Told() {
		narrow := !w.FromLog && math.Log(w.Lasts.High/w.Lasts.Low) <= narrowed*math.Log(w.StudyHigh/w.StudyLow)
		if w.Lasts.Excludes(w.Study) || narrow {
			s.add(w.Path+".life", w.Lasts, w.Lasts.Low, w.Lasts.Value, w.Lasts.High, OfLives, int(w.Ended))
		}
	}
	if w.ByDamage.Excludes(w.StudyDamage) {
		s.add(w.Path+".sudden_share", w.ByDamage, w.ByDamage.Low, w.ByDamage.Value, w.ByDamage.High, OfDamage, int(w.Ended))
	}
	if w.Edge {
		errand := s.inputs[w.Path+".errand"].Number()
		if old := s.inputs[w.Path+".sharpening_price"].Number() + errand; w.Sharpening.Excludes(old) {
			s.add(w.Path+".sharpening_price", w.Sharpening, w.Sharpening.Low-errand, w.Sharpening.Value-errand, w.Sharpening.High-errand, OfSharpenings, int(w.Priced))
		}
	}
	if w.Price.Excludes(s.inputs[w.Path+".price"].Number()) {
		s.add(w.Path+".price", w.Price, w.Price.Low, w.Price.Value, w.Price.High, OfPurchases, int(w.Bought))
	}
}

// ofJobs suggests the chance of a rework and the jobs a year.
func (s *suggester) ofJobs(j *Jobs, days float64) {
	path := "job_types." + j.Key
	if j.Share.Excludes(j.Chance) {
		s.add(path+".rework_chance", j.Share, j.Share.Low, j.Share.Value, j.Share.High, OfRework, int(j.Done))
	}
	if days >= leastCovered && j.PerYear.Excludes(j.Study) {
		s.add(path+".per_year", j.PerYear, j.PerYear.Low, j.PerYear.Value, j.PerYear.High, OfJobs, int(j.Done))
	}
}
