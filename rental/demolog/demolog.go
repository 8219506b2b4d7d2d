// Package demolog makes the logbook of the demo study: what its invented studio
// would have written down in eleven months in which things did not go quite as
// the study says. Only tests import it.
//
// The truth behind the lines is in the constants here, so that whoever compares
// the logbook with the study can be held to them. All else is as in the study.
package demolog

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"

	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// Seed is the seed of the demo's logbook.
const Seed = 20261031

// First and last day of the logbook, and the day from which the shop asks more.
const (
	FirstDay = quantity.Date("2025-12-01")
	LastDay  = quantity.Date("2026-10-30")
	RateDay  = quantity.Date("2026-05-04")
)

// What was so in truth. Times and chances beside the study's; a life is the
// mean of a Weibull distribution, as a multiple of the study's life in plain
// hardwood and in metres or square metres as they were run, whatever the wood.
const (
	Sanding  = 1.15 // running time of the wide-belt sander
	Handling = 1.35 // handling per pass at the planer
	Sled     = 0.90 // running time of the router sled
	Noise    = 0.06 // standard deviation of the logarithm of each measured time

	NewRate = 160.0 // an hour at the shop from RateDay on, 80 per 30 min; before it as in the study

	ReworkRiver = 0.45 // share of river tops done again

	SmallBlade = 0.50
	RailBlade  = 0.60
	FlushBit   = 1.25
	Belt80     = 0.15 // an own belt, on wood with resin only
	Disc180    = 1.40

	Shape  = 2.5  // of all these distributions
	Damage = 0.15 // share of lives that damage cuts short, evenly over the life

	Sharpening = 34.0 // paid for sharpening a blade, the errand included
)

// The rail saw was lent by a neighbour for these months.
const (
	railFrom = quantity.Date("2026-04-01")
	railTo   = quantity.Date("2026-08-31")
)

// writer makes the entries day by day.
type writer struct {
	rng     *rand.Rand
	study   *model.Study
	plan    *work.Plan // by the study
	truth   *work.Plan // with the true handling
	day     quantity.Date
	worn    map[string]*wear
	entries []logbook.Entry
}

// Entries makes the logbook of a study, which must be the demo's; the same for
// the same seed.
func Entries(study *model.Study, seed uint64) []logbook.Entry {
	w := &writer{rng: rand.New(rand.NewPCG(seed, 1)), study: study, plan: work.New(study), truth: trueWork(study)}
	w.beginWear()
	for _, visit := range w.visits() {
		w.day = visit.day
		w.visit(visit)
	}
	slices.SortStableFunc(w.entries, func(a, b logbook.Entry) int { return a.Date.Day() - b.Date.Day() })
	return w.entries
}

// trueWork is the work with the planer's true handling.
func trueWork(study *model.Study) *work.Plan {
	study = study.Clone()
	for s := range study.Shops {
		for m := range study.Shops[s].Machines {
			if machine := &study.Shops[s].Machines[m]; machine.Class == model.Planer {
				machine.HandlingPerPass *= Handling
				machine.HandlingHeavy *= Handling
			}
		}
	}
	return work.New(study)
}

// visit is one planned visit, or the work of one on which nobody drives.
type visit struct {
	day    quantity.Date
	job    int
	aboard int
	rework bool
}

// visits spreads the jobs of each type over the time, in visits with as many
// aboard as the study says.
func (w *writer) visits() []visit {
	var all []visit
	first, last := FirstDay.Day(), LastDay.Day()
	for job := range w.study.JobTypes {
		kind := &w.study.JobTypes[job]
		jobs := int(math.Round(float64(kind.PerYear) * float64(last-first) / 365))
		aboard := int(kind.JobsPerVisit)
		times := (jobs + aboard - 1) / aboard
		for v := range times {
			day := first + int((float64(v)+w.rng.Float64())*float64(last-first)/float64(times))
			all = append(all, visit{quantity.DateOf(openDay(day)), job, min(aboard, jobs-v*aboard), false})
		}
	}
	slices.SortStableFunc(all, func(a, b visit) int { return a.day.Day() - b.day.Day() })
	return all
}

// openDay is the day, or the Monday behind a weekend.
func openDay(day int) int {
	switch quantity.Weekday(day) {
	case 6:
		return day + 2
	case 0:
		return day + 1
	}
	return day
}

func (w *writer) add(e logbook.Entry) {
	e.Date = w.day
	if e.Jobs == 0 {
		e.Jobs = 1
	}
	w.entries = append(w.entries, e)
}

// noisy is a measured time: the true one with its noise, in whole minutes.
func (w *writer) noisy(seconds float64) quantity.Duration {
	return quantity.Duration(math.Round(seconds*math.Exp(Noise*w.rng.NormFloat64())/60) * 60)
}

// tenths rounds what a person reads off a rule to a tenth.
func tenths(value float64) float64 { return math.Round(value*10) / 10 }

// visit writes what one visit and the work around it leave in the logbook.
func (w *writer) visit(v visit) {
	kind := &w.study.JobTypes[v.job]
	steps := w.steps(v)
	for _, step := range steps {
		if w.rng.Float64() < step.written {
			w.add(step.entry)
		}
		w.wearBy(step)
	}
	w.atShop(v)
	if v.rework {
		return
	}
	w.add(logbook.Entry{Kind: logbook.Done, Job: kind.Key, Jobs: float64(v.aboard), Given: logbook.HasJobs})
	for range v.aboard {
		if w.rng.Float64() < reworkChance(kind) {
			w.rework(v)
		}
	}
}

func reworkChance(kind *model.JobType) float64 {
	if kind.Key == "river_dining" {
		return ReworkRiver
	}
	return float64(kind.ReworkChance)
}

// rework writes that one job was done again, and the visit that it took.
func (w *writer) rework(v visit) {
	kind := &w.study.JobTypes[v.job]
	day, days := w.day, 2+w.rng.IntN(4)
	w.add(logbook.Entry{Kind: logbook.Rework, Job: kind.Key, Operation: "sand", Minutes: quantity.Duration(days * 24 * 3600), Given: logbook.HasMinutes,
		Note: "filled, cured, sanded again"})
	if again := openDay(day.Day() + days); w.rng.Float64() < float64(kind.ReworkVisits) && again <= LastDay.Day() {
		w.day = quantity.DateOf(again)
		w.visit(visit{w.day, v.job, 1, true})
		w.day = day
	}
}

// number is a key for one of several alike.
func number(n int) string { return strconv.Itoa(n) }
