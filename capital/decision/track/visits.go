package track

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"strings"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/track/evidence"
	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
	"shopstint/model/work"
	"shopstint/rental"
)

// Visits is what visits to one shop came to: invoices beside what the study's tariff
// makes of their minutes. How long visits take is not compared: some are to do a job
// again, and a logbook does not tell them from others.
type Visits struct {
	Shop, Name string
	Lines      int
	Compared   int      // invoices that could be priced
	Priced     float64  // by the study's tariff
	Paid       float64  // as invoiced
	Ratio      Estimate // paid for each priced

	// The rate that invoices by the block imply: an amount an hour where the whole
	// shop has one rate, else a share of the study's rates.
	Hourly bool
	Study  float64 // the study's own
	Days   []RateDay
	Steps  []RateStep
	Now    Estimate // the middle since the last step; the interval holds the middle nine tenths of the days
	Since  int      // days behind it
}

// RateDay is the rate that the invoices of one day imply.
type RateDay struct {
	Date quantity.Date
	Rate float64
}

// RateStep is a changed tariff.
type RateStep struct {
	Date          quantity.Date // the first day at the new rate
	Before, After float64
	P             float64 // the probability of such a step by chance
}

// Chances of a step that is none, and the least step that is told.
const (
	StepChance = 0.01
	LeastStep  = 0.01
)

// shopSums is what the visits to one shop add up to.
type shopSums struct {
	shop     int
	member   rental.Membership
	errands  []alternative.Errand // by job type; without pieces those of other shops
	mixed    bool                 // visits whose jobs are not told can be priced
	planned  map[plannedKey]rental.Trip
	lines    int
	invoices evidence.Ratio
	months   map[int]*evidence.Ratio
	days     map[int]*dayRate
}

type plannedKey struct{ job, jobs int }

// dayRate sums the rates that a day's invoices imply.
type dayRate struct{ n, sum float64 }

func newShopSums(t *Tracker, shop int, member rental.Membership) *shopSums {
	at := &t.study.Shops[shop]
	s := &shopSums{
		shop: shop, member: member, errands: make([]alternative.Errand, len(t.study.JobTypes)),
		planned: map[plannedKey]rental.Trip{}, months: map[int]*evidence.Ratio{}, days: map[int]*dayRate{},
	}
	none := make([]bool, len(t.study.Machines))
	resin, late := false, false
	for job := range t.study.JobTypes {
		if work.ShopOf(t.study, job) != shop {
			continue
		}
		s.errands[job] = alternative.ErrandOf(t.study, t.plan, none, job)
		if len(s.errands[job].Pieces) == 0 {
			continue
		}
		kind := &t.study.JobTypes[job]
		resin, late = resin || work.MaterialOf(t.study, job).Resin, late || kind.AfterHours
	}
	s.mixed = at.Tariff.Basis == model.WholeShop &&
		(at.Tariff.ResinSupplement == 0 || !resin) && (at.Tariff.AfterHours == 0 || !late) && !surcharged(at)
	return s
}

func yes(told bool) int {
	if told {
		return 1
	}
	return 0
}

// surcharged tells whether what is paid hangs on which machine was used.
func surcharged(shop *model.Shop) bool {
	return slices.ContainsFunc(shop.Machines, func(m model.HiredMachine) bool { return m.SurchargePerArea > 0 || m.SurchargePerHour > 0 })
}

// Lines that have no part in a comparison of visits.
const (
	noInvoice    = "a visit without both its minutes and its invoice cannot be priced"
	severalTypes = "a visit that does not name the one job type aboard is not priced where supplements hang on it"
	notTheShop   = "the study sends jobs of that type to another shop, or has no work for them there"
)

// addVisit takes a visit's minutes and its invoice.
func (t *Tracker) addVisit(entry *logbook.Entry, day, month int) {
	shop := model.Index(t.study.Shops, entry.Subject)
	if shop < 0 {
		t.leave(notTheShop)
		return
	}
	s := t.shops[shop]
	s.lines++
	trip, ok := t.tripOf(s, entry)
	if !ok {
		return
	}
	if !entry.Given.Has(logbook.HasMinutes|logbook.HasAmount) || entry.Minutes <= 0 {
		t.leave(noInvoice)
		return
	}
	visit := rental.Price(&t.study.Studio, t.study.Money, trip, s.member)
	paid := float64(entry.Amount)
	s.invoices.Add(visit.Shop, paid)
	add(s.months, month, visit.Shop, paid)
	if factor, ok := factorOf(&t.study.Shops[shop].Tariff, &visit, paid); ok {
		at, known := s.days[day]
		if !known {
			at = &dayRate{}
			s.days[day] = at
		}
		at.n++
		at.sum += factor
	}
}

// tripOf is the visit as the study would have it, brought to the minutes that it
// took.
func (t *Tracker) tripOf(s *shopSums, entry *logbook.Entry) (rental.Trip, bool) {
	if entry.Job == "" {
		if !s.mixed {
			t.leave(severalTypes)
		}
		// Such a visit is priced where it does not matter on which machines the time goes.
		return s.scaled(t.study, rental.Trip{Shop: &t.study.Shops[s.shop], Jobs: entry.Jobs}, nil, entry.Minutes), s.mixed
	}
	job := model.Index(t.study.JobTypes, entry.Job)
	if job < 0 || len(s.errands[job].Pieces) == 0 {
		t.leave(notTheShop)
		return rental.Trip{}, false
	}
	planned := t.plannedTrip(s, plannedKey{job, max(1, int(math.Round(entry.Jobs)))})
	minutes := make([]float64, len(planned.Uses))
	for m, use := range planned.Uses {
		minutes[m] = float64(use.Minutes)
	}
	return s.scaled(t.study, planned, minutes, entry.Minutes), true
}

// plannedTrip is a visit with so many jobs of one type aboard.
func (t *Tracker) plannedTrip(s *shopSums, key plannedKey) rental.Trip {
	trip, known := s.planned[key]
	if !known {
		trip = alternative.Together(t.study, s.shop, s.errands[key.job:key.job+1], []int{key.jobs})
		s.planned[key] = trip
	}
	return trip
}

// scaled spreads the minutes on the shop's clock over its machines as they are
// planned. Sweeping up, which is on the clock too, is taken off first.
func (s *shopSums) scaled(study *model.Study, trip rental.Trip, shares []float64, clock quantity.Duration) rental.Trip {
	shop := &study.Shops[s.shop]
	total, used := 0.0, 0
	for _, share := range shares {
		total += share
		if share > 0 {
			used++
		}
	}
	running := float64(clock)
	if shop.Tariff.Basis == model.WholeShop {
		used = 1
	}
	// A visit shorter than the sweeping has run all the same: one second.
	running = max(1, running-float64(used)*float64(shop.Cleaning))
	uses := make([]rental.Use, len(shop.Machines))
	for m := range uses {
		switch {
		case total > 0:
			uses[m].Minutes = quantity.Duration(running * shares[m] / total)
		case m == 0:
			uses[m].Minutes = quantity.Duration(running)
		}
		if m < len(trip.Uses) {
			uses[m].Area = trip.Uses[m].Area
		}
	}
	trip.Uses = uses
	return trip
}

// factorOf is what an invoice says of the rate: what is left of it for the time,
// for each unit that the study's rate makes of that time. Half days and days have
// prices of their own and say nothing of it.
//
// Source: common practice, no source: rental.Price turned round.
func factorOf(tariff *model.Tariff, visit *rental.Visit, paid float64) (float64, bool) {
	timely := visit.MachineTime + visit.Member + visit.AfterHours + visit.Resin
	if visit.By != rental.ByBlock || timely <= 0 {
		return 0, false
	}
	left := paid/(1+float64(tariff.SalesTax)) - visit.Operator - visit.Wear - visit.Handling
	return left / timely, left > 0
}

func (t *Tracker) visitResults() []Visits {
	var results []Visits
	for _, s := range t.shops {
		if s.lines == 0 {
			continue
		}
		shop := &t.study.Shops[s.shop]
		v := Visits{
			Shop: shop.Key, Name: nameOr(shop.Name, shop.Key), Lines: s.lines, Compared: int(s.invoices.N),
			Priced: s.invoices.Should, Paid: s.invoices.Was,
			Hourly: shop.Tariff.Basis == model.WholeShop, Study: 1,
		}
		if s.invoices.N > 0 {
			v.Ratio = estimated(s.invoices.Value(), s.invoices.Interval)
		}
		if v.Hourly {
			v.Study = float64(shop.Tariff.HourlyRate)
		}
		s.rates(&v)
		results = append(results, v)
	}
	slices.SortFunc(results, func(a, b Visits) int { return strings.Compare(a.Shop, b.Shop) })
	return results
}

// rates fills in the rates by day and where they step.
func (s *shopSums) rates(v *Visits) {
	for _, day := range slices.Sorted(maps.Keys(s.days)) {
		at := s.days[day]
		v.Days = append(v.Days, RateDay{quantity.DateOf(day), at.sum / at.n * v.Study})
	}
	v.Days = gathered(v.Days, evidence.MostFigures)
	figures := make([]float64, len(v.Days))
	for i, day := range v.Days {
		figures[i] = day.Rate
	}
	first := 0
	for _, step := range evidence.Steps(figures, StepChance, LeastStep) {
		v.Steps = append(v.Steps, RateStep{v.Days[step.At].Date, step.Before, step.After, step.P})
		first = step.At
	}
	latest := slices.Clone(figures[first:])
	if v.Since = len(latest); v.Since == 0 {
		return
	}
	slices.SortFunc(latest, cmp.Compare[float64])
	at := func(share float64) float64 { return latest[int(math.Round(share*float64(len(latest)-1)))] }
	v.Now = Estimate{Value: evidence.Median(latest), Low: at(0.05), High: at(0.95), Known: v.Since >= leastDays}
}

// leastDays is how few days tell a rate.
const leastDays = 4

// gathered brings neighbouring days together until there are at most so many: each
// run of days becomes its middle one, so that one day far off stays one.
func gathered(days []RateDay, most int) []RateDay {
	each := max(1, (len(days)+most-1)/most)
	var fewer []RateDay
	for part := range slices.Chunk(days, each) {
		rates := make([]float64, len(part))
		for i, day := range part {
			rates[i] = day.Rate
		}
		fewer = append(fewer, RateDay{part[0].Date, evidence.Median(rates)})
	}
	return fewer
}
