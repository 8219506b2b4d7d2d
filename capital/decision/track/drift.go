package track

import "shopstint/capital/decision/track/evidence"

// Drift is one figure of the last twelve months, the last line's month included,
// beside the same of the twelve before.
type Drift struct {
	What        DriftOf
	Path, Name  string // of the machine, shop, job type, edge or abrasive
	Before, Now float64
	P           float64 // the probability of such a difference by chance
	Told        bool    // more than chance, all differences looked at together
}

// DriftOf says which figure drifted.
type DriftOf int

// The figures.
const (
	DriftMinutes  DriftOf = iota // actual minutes for each predicted
	DriftInvoices                // paid for each priced
	DriftJobs                    // jobs a year
	DriftRework                  // share of jobs done again
	DriftWear                    // ends of lives for each unit of run in plain hardwood
)

// window is a span of months: its days, as far as the logbook reaches.
type window struct {
	first, last int // months
	days        float64
}

// leastBefore is how many days the months before must have for a comparison.
const leastBefore = 90

// windows returns the last twelve months and the twelve before; false where the
// logbook does not reach far enough back.
func (t *Tracker) windows() (now, before window, ok bool) {
	if !t.span.any {
		return now, before, false
	}
	last := monthOf(dateOf(t.span.last))
	now, before = window{first: last - 11, last: last}, window{first: last - 23, last: last - 12}
	start := firstDayOf(now.first)
	now.days = float64(t.span.last - start + 1)
	before.days = float64(start - max(t.span.first, firstDayOf(before.first)))
	return now, before, before.days >= leastBefore
}

// drift compares both windows figure by figure.
func (t *Tracker) drift() []Drift {
	now, before, ok := t.windows()
	if !ok {
		return nil
	}
	var found []Drift
	for _, m := range t.machines {
		found = addRatios(found, DriftMinutes, m.path, m.name, m.months, now, before)
	}
	for s, shop := range t.shops {
		at := &t.study.Shops[s]
		found = addRatios(found, DriftInvoices, "shops."+at.Key, nameOr(at.Name, at.Key), shop.months, now, before)
	}
	for job, sums := range t.jobs {
		kind := &t.study.JobTypes[job]
		path, name := "job_types."+kind.Key, nameOr(kind.Name, kind.Key)
		doneNow, doneBefore := sumOver(sums.done, now), sumOver(sums.done, before)
		found = addRates(found, Drift{What: DriftJobs, Path: path, Name: name}, doneNow, now.days/daysOfYear, doneBefore, before.days/daysOfYear)
		againNow, againBefore := min(doneNow, sumOver(sums.again, now)), min(doneBefore, sumOver(sums.again, before))
		if doneNow > 0 && doneBefore > 0 && againNow+againBefore > 0 {
			found = append(found, Drift{
				What: DriftRework, Path: path, Name: name, Now: againNow / doneNow, Before: againBefore / doneBefore,
				P: evidence.SharesDiffer(whole(againNow), whole(doneNow), whole(againBefore), whole(doneBefore)),
			})
		}
	}
	for _, s := range t.subjects() {
		var ends, run [2]float64
		for i, w := range []window{now, before} {
			ends[i], run[i] = endsOver(s.months, w)
		}
		found = addRates(found, Drift{What: DriftWear, Path: s.path, Name: s.name}, ends[0], run[0], ends[1], run[1])
	}
	return told(found)
}

// told marks what is more than chance.
func told(found []Drift) []Drift {
	p := make([]float64, len(found))
	for i := range found {
		p[i] = found[i].P
	}
	for i, more := range evidence.Holm(p, chance) {
		found[i].Told = more
	}
	return found
}

func addRatios(found []Drift, what DriftOf, path, name string, months map[int]*evidence.Ratio, now, before window) []Drift {
	a, b := ratioOver(months, now), ratioOver(months, before)
	if p, ok := evidence.RatiosDiffer(a, b); ok {
		found = append(found, Drift{What: what, Path: path, Name: name, Now: a.Value(), Before: b.Value(), P: p})
	}
	return found
}

func addRates(found []Drift, one Drift, countNow, now, countBefore, before float64) []Drift {
	if now <= 0 || before <= 0 || countNow+countBefore == 0 {
		return found
	}
	one.Now, one.Before = countNow/now, countBefore/before
	one.P = evidence.RatesDiffer(countNow, now, countBefore, before)
	return append(found, one)
}

// ratioOver adds a window's months up, in their order: a sum in the order of a map
// would differ in its last digit from run to run.
func ratioOver(months map[int]*evidence.Ratio, w window) evidence.Ratio {
	var sum evidence.Ratio
	for month := w.first; month <= w.last; month++ {
		if at, ok := months[month]; ok {
			sum = sum.Plus(*at)
		}
	}
	return sum
}

func sumOver(months map[int]float64, w window) float64 {
	sum := 0.0
	for month := w.first; month <= w.last; month++ {
		sum += months[month]
	}
	return sum
}

// endsOver adds up a window's ends of lives and what was run.
func endsOver(months map[int]*ends, w window) (ended, run float64) {
	for month := w.first; month <= w.last; month++ {
		if at, ok := months[month]; ok {
			ended += at.ended
			run += at.run
		}
	}
	return ended, run
}
