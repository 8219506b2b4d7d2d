package demolog

import (
	"math"

	"shopstint/model"
	"shopstint/model/logbook"
	"shopstint/model/quantity"
	"shopstint/model/work"
	"shopstint/rental"
)

// step is an operation, or one grit of it, as it was done.
type step struct {
	entry   logbook.Entry
	written float64 // how likely the owner took the time
	class   string
	edge    string
	grit    string
	metres  float64
	area    float64
}

// steps gathers the work of a visit's jobs by operation and grit.
func (w *writer) steps(v visit) []step {
	var steps []step
	at := map[string]int{}
	rows, truth := w.plan.Of(v.job), w.truth.Of(v.job)
	for i := range rows {
		row := &rows[i]
		kind, operation, _, _ := row.Parts(w.study)
		if !row.Used || v.rework && !operation.Repeat {
			continue
		}
		name, grit := operation.Key, ""
		if row.Grit >= 0 {
			grit = operation.Grits[row.Grit].Key
			name += "/" + grit
		}
		if _, found := at[name]; !found {
			at[name] = len(steps)
			steps = append(steps, w.begun(row, kind, operation, name, grit, v))
		}
		s := &steps[at[name]]
		s.entry.Minutes += truth[i].Run * pace(s.class) * quantity.Duration(v.aboard)
		s.metres += row.Metres * float64(v.aboard)
		s.area += row.Area * float64(v.aboard)
	}
	for i := range steps {
		w.finish(&steps[i])
	}
	return steps
}

func (w *writer) begun(row *work.Row, kind *model.JobType, operation *model.Operation, name, grit string, v visit) step {
	ability := row.Ability(w.study)
	s := step{class: ability.Class, edge: ability.Edge, grit: grit, written: 0.22}
	s.entry = logbook.Entry{Kind: logbook.Work, Subject: w.machineOf(row), Job: kind.Key, Operation: name, Jobs: float64(v.aboard), Given: logbook.HasJobs | logbook.HasMinutes}
	if v.aboard == 1 {
		s.entry.Given = logbook.HasMinutes
	}
	switch s.class {
	case model.WideBelt:
		s.written = 0.15
	case model.Orbital:
		s.written = 0.06
	}
	if operation.Class == model.TrackSaw && w.day >= railFrom && w.day <= railTo {
		s.entry.Subject, s.edge, s.written = "rail_saw", "rail_blade", 0.8
	}
	return s
}

// finish puts noise on the time and the run into the line.
func (w *writer) finish(s *step) {
	s.entry.Minutes = max(60, w.noisy(float64(s.entry.Minutes)))
	if s.entry.Subject == "rail_saw" { // one pass less: it reaches through
		s.metres, s.entry.Minutes = s.metres/2, max(60, quantity.Duration(math.Round(float64(s.entry.Minutes)/2/60)*60))
	}
	if s.metres, s.area = tenths(s.metres), tenths(s.area); s.grit == "" && s.metres > 0 && s.class != model.RouterSled {
		s.entry.Length = quantity.Distance(s.metres)
		s.entry.Given |= logbook.HasLength
	}
}

// pace is the true running time beside the study's.
func pace(class string) quantity.Duration {
	switch class {
	case model.WideBelt:
		return Sanding
	case model.RouterSled:
		return Sled
	}
	return 1
}

func (w *writer) machineOf(row *work.Row) string {
	switch row.Site {
	case work.AtShop:
		return w.study.Shops[work.ShopOf(w.study, row.Job)].Machines[row.Machine].Key
	case work.AtBench:
		return w.study.Tools[row.Machine].Key
	}
	return w.study.Machines[row.Machine].Key
}

// atShop writes the visit itself, with the invoice of the time that it took.
func (w *writer) atShop(v visit) {
	shop := w.study.Shops[work.ShopOf(w.study, v.job)] // a copy: its rate changes
	if w.day >= RateDay {
		shop.Tariff.HourlyRate = NewRate
	}
	trip := rental.Trip{Shop: &shop, Uses: make([]rental.Use, len(shop.Machines)), Jobs: float64(v.aboard), Resin: work.MaterialOf(w.study, v.job).Resin}
	rows, truth := w.plan.Of(v.job), w.truth.Of(v.job)
	for i := range rows {
		row := &rows[i]
		_, operation, _, _ := row.Parts(w.study)
		if !row.Used || row.Site != work.AtShop || v.rework && !operation.Repeat {
			continue
		}
		class := row.Ability(w.study).Class
		trip.Uses[row.Machine].Minutes += row.PerVisit + (truth[i].Run*pace(class)+row.PerJob)*quantity.Duration(v.aboard)
		trip.Uses[row.Machine].Area += row.Area * float64(v.aboard)
	}
	for m := range trip.Uses {
		if trip.Uses[m].Minutes > 0 {
			trip.Uses[m].Minutes = w.noisy(float64(trip.Uses[m].Minutes + shop.Machines[m].Setup))
		}
	}
	priced := rental.Price(&w.study.Studio, w.study.Money, trip, rental.Membership{})
	if priced.Billed == 0 {
		return
	}
	e := logbook.Entry{Kind: logbook.Visit, Subject: shop.Key, Job: w.study.JobTypes[v.job].Key, Jobs: float64(v.aboard),
		Minutes: priced.Billed, Amount: quantity.Money(priced.Shop), Given: logbook.HasMinutes | logbook.HasAmount | logbook.HasJobs}
	if v.rework {
		e.Note = "rework"
	}
	w.add(e)
}
