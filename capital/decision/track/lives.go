package track

import (
	"maps"
	"math"
	"slices"
	"strings"

	"shopstint/capital/decision/track/evidence"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/wear/life"
	"shopstint/model/work"
)

// tally keeps lives: each by itself up to mostLives, and beyond that by their runs
// rounded to a part in a thousand, so that what is kept does not grow with the lines.
type tally struct {
	ended, going float64
	single       []life.Observation
	grouped      [2]map[int]float64 // by the step of a run's logarithm: those going, those ended
}

const (
	mostLives = 1000
	perStep   = 0.001
)

func (t *tally) add(run float64, ended bool) {
	if ended {
		t.ended++
	} else {
		t.going++
	}
	if len(t.single) < mostLives {
		t.single = append(t.single, life.Observation{Run: run, Ended: ended, Count: 1})
		return
	}
	grouped := &t.grouped[yes(ended)]
	if *grouped == nil {
		*grouped = map[int]float64{}
	}
	(*grouped)[int(math.Round(math.Log(run)/perStep))]++
}

// lives lists them, the grouped ones in the order of their runs: sums in the order of a
// map would differ in their last digit.
func (t *tally) lives() []life.Observation {
	lives := slices.Clone(t.single)
	for i, grouped := range t.grouped {
		for _, step := range slices.Sorted(maps.Keys(grouped)) {
			lives = append(lives, life.Observation{Run: math.Exp(float64(step) * perStep), Ended: i == yes(true), Count: grouped[step]})
		}
	}
	return lives
}

// begin sets an empty subject up with the factors of every job type's material.
func (s *subject) begin(study *model.Study, factor func(*model.Material) float64) {
	s.items, s.months = map[string]*item{}, map[int]*ends{}
	s.factors = make([]float64, len(study.JobTypes))
	for job := range study.JobTypes {
		s.factors[job] = factor(work.MaterialOf(study, job))
	}
}

// mixOf is the factor of a run spread over the study's work as it is done now: metres
// run ÷ metres in plain hardwood. Where nothing of that work is paid by the studio, all
// work that could run on it counts.
func (t *Tracker) mixOf(s *subject) float64 {
	for _, ours := range []bool{true, false} {
		run, plain := 0.0, 0.0
		for i := range t.plan.Rows {
			row := &t.plan.Rows[i]
			if ours && (!row.Used || row.Ability(t.study).Consumables != "own") || !s.runsIn(t.study, row) {
				continue
			}
			metres, factor := row.Worn(t.study)
			each := float64(t.study.JobTypes[row.Job].PerYear) * metres
			run += each
			plain += each / factor
		}
		if plain > 0 {
			return run / plain
		}
	}
	return 1
}

// runsIn tells whether a step runs on the edge or the abrasive.
func (s *subject) runsIn(study *model.Study, row *work.Row) bool {
	ability := row.Ability(study)
	if s.edge != nil {
		return row.Grit < 0 && ability.Edge == s.edge.Key
	}
	if row.Grit < 0 {
		return false
	}
	grit := study.JobTypes[row.Job].Operations[row.Operation].Grits[row.Grit].Key
	found, ok := work.FindAbrasive(study, ability.Class, grit)
	return ok && found.Key == s.abrasive.Key
}

// Scatter of lives until dull that is believed before any was seen.
//
// Source: common practice, no source: coefficient of variation 0.25 to 0.5.
const (
	variationLow  = 0.25
	variationHigh = 0.5
)

// usualRange is how far the life of an input without a range may be off, as a factor.
const usualRange = 2.0

// wearResults brings every subject that has lines to its figures, in the order of the
// study.
func (t *Tracker) wearResults() []Wear {
	var results []Wear
	for e := range t.study.Edges {
		results = t.addWearResult(results, t.worn[t.study.Edges[e].Key])
	}
	for a := range t.study.Abrasives {
		results = t.addWearResult(results, t.worn[t.study.Abrasives[a].Key])
	}
	return results
}

func (t *Tracker) addWearResult(results []Wear, s *subject) []Wear {
	if len(s.items) == 0 {
		return results
	}
	w := Wear{
		Path: s.path, Name: s.name, Edge: s.edge != nil, Measure: s.measure, Damaged: s.damaged,
		Sharpened: s.sharpens, Replaced: s.replaced, Bought: s.price.Should, Priced: s.edgeWork.N, Run: s.run, Study: s.studyLife(),
	}
	all, dull := s.all, s.dull
	all.single, dull.single = slices.Clone(all.single), slices.Clone(dull.single)
	w.LeftOut = s.leftOut
	for _, one := range s.sortedItems() {
		switch {
		case one.run > 0 && one.known:
			all.single = append(all.single, life.Observation{Run: one.run, Count: 1})
			dull.single = append(dull.single, life.Observation{Run: one.run, Count: 1})
			all.going++
		case one.run > 0:
			w.LeftOut++
		}
	}
	w.Ended, w.Going = all.ended, all.going
	if w.StudyDamage = s.studyDamage(); w.Ended > 0 {
		w.ByDamage = estimated(w.Damaged/w.Ended, known(func(level float64) evidence.Interval { return evidence.Proportion(w.Damaged, w.Ended, level) }))
	}
	t.lifeOf(&w, s, all.lives(), dull.lives())
	s.costsOf(&w)
	return append(results, w)
}

// lifeOf fills in the curve, the fits and the belief.
func (t *Tracker) lifeOf(w *Wear, s *subject, all, dull []life.Observation) {
	w.Curve = life.Curve(all, Level)
	w.Median, _ = life.Median(w.Curve)
	sudden, err := life.FitExponential(all)
	w.Sudden = sudden
	if err == nil {
		w.Fits, w.SuddenMean = Sudden, within(sudden.Mean, sudden.Interval(Level))
	}
	if fit, err := life.Fit(all); err == nil && w.Ended >= leastEnds {
		w.Weibull = &fit
		w.Mean, w.Shape = within(fit.Mean(), fit.MeanInterval(Level)), within(fit.Shape, fit.ShapeInterval(Level))
		if fit.AIC() < sudden.AIC() {
			w.Fits = Wearing
		}
	}
	if fit, err := life.Fit(dull); err == nil && w.Damaged > 0 && w.Ended-w.Damaged >= leastEnds {
		w.Dull = within(fit.Mean(), fit.MeanInterval(Level))
	}
	if w.Study == 0 {
		return
	}
	w.StudyLow, w.StudyHigh = w.Study/usualRange, w.Study*usualRange
	w.Assumed = true
	origin := t.study.Origins[s.path+".life"]
	w.FromLog = t.counted(origin.Source)
	if origin.HasRange && origin.Low > 0 && origin.Low < origin.High && !w.FromLog {
		w.StudyLow, w.StudyHigh, w.Assumed = origin.Low, origin.High, false
	}
	prior := life.Prior{MeanLow: w.StudyLow, MeanHigh: w.StudyHigh, VariationLow: variationLow, VariationHigh: variationHigh}
	// The study's life is until dull: damage only says that it would have lasted longer.
	belief := life.Combine(dull, prior, Level)
	w.Belief = &belief
	sure := life.Combine(dull, prior, Sure)
	w.Lasts = Estimate{belief.Median, belief.Low, belief.High, true, evidence.Interval(sure.Interval)}
}

// SourceMark begins the source of an input that was taken from a logbook; the last day
// of that logbook follows.
const SourceMark = "logbook to "

// counted tells whether a source is a logbook that this one overlaps: what it said is
// in these lines too, and would count twice.
func (t *Tracker) counted(source string) bool {
	behind, ok := strings.CutPrefix(source, SourceMark)
	if !ok || len(behind) < len(quantity.DateExample) {
		return false
	}
	last, err := quantity.ParseDate(behind[:len(quantity.DateExample)])
	return err == nil && t.span.first <= last.Day()
}

// within is a figure with the one interval that is told.
func within(value float64, interval life.Interval) Estimate {
	return Estimate{Value: value, Low: interval.Low, High: interval.High, Known: true}
}

// leastEnds is how few lives must have ended for a fit with a shape of its own.
const leastEnds = 3

// costsOf fills in what was paid. Of what is in use, the price counts as far as it is
// used up: lives that ended, and the life in hand against the one that is believed.
func (s *subject) costsOf(w *Wear) {
	if w.Run > 0 {
		paid := s.costs.Was
		for _, one := range s.sortedItems() {
			share := min(1, one.run/w.mean())
			paid += share * min(1-one.usedUp, 1/s.livesOfOne()) * s.priceOf(one)
			paid += share * s.nextSharpening(one)
		}
		w.Paid = paid
		w.Cost = Estimate{Value: paid / w.Run}
		// How surely it is known is how the lives that ended scatter.
		if interval, known := s.costs.Interval(Level); known && s.costs.Value() > 0 {
			off := w.Cost.Value / s.costs.Value()
			w.Cost.Low, w.Cost.High, w.Cost.Known = interval.Low*off, interval.High*off, true
		}
		if w.Study > 0 {
			w.StudyCost = s.studyCost() * s.plain / s.run
		}
	}
	w.Sharpening, w.Price = paidFor(s.edgeWork), paidFor(s.price)
}

// studyDamage is the share of lives that damage ends in the study.
func (s *subject) studyDamage() float64 {
	if s.edge != nil {
		return float64(s.edge.SuddenShare)
	}
	return float64(s.abrasive.SuddenShare)
}

// nextSharpening is what the end of the life in hand will cost, beside the price.
func (s *subject) nextSharpening(one *item) float64 {
	switch {
	case s.edge == nil || one.sharpened >= float64(s.edge.Sharpenings):
		return 0
	case s.edgeWork.N > 0:
		return s.edgeWork.Value()
	}
	return float64(s.edge.SharpeningPrice + s.edge.Errand)
}

// studyCost is what the study reckons for a unit of run in plain hardwood.
func (s *subject) studyCost() float64 {
	if s.edge != nil {
		return work.EdgeCost(s.edge)
	}
	return work.AbrasiveCost(s.abrasive)
}

func paidFor(each evidence.Ratio) Estimate {
	if each.N == 0 {
		return Estimate{}
	}
	return estimated(each.Value(), each.Interval)
}

// mean is the mean life that is believed, or that was seen by hours: without end where
// none has ended.
func (w *Wear) mean() float64 {
	if w.Belief != nil {
		return w.Belief.Mean * work.Kept(w.StudyDamage)
	}
	return w.Sudden.Mean
}
