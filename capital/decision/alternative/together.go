package alternative

import (
	"slices"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
	"shopstint/rental"
)

// Errand is what jobs of one type do at their shop when some machines are owned,
// by the shop's machines.
type Errand struct {
	Job     int
	Once    []quantity.Duration // set-up of operations, once a visit
	Each    []quantity.Duration // minutes of one job
	Area    []float64           // m² of one job
	Changes []Change
	Pieces  []int // that ride along, as indexes of the job type's

	mass, heaviest quantity.Mass
	resin          bool
}

// Change is the changing of a shop's machine to a grit, once a visit.
type Change struct {
	Machine int
	Grit    string
	Minutes quantity.Duration
}

// ErrandOf gathers what jobs of a type do at their shop when the given machines
// are owned. Without pieces they have no way there.
func ErrandOf(study *model.Study, plan *work.Plan, owned []bool, job int) Errand {
	machines := len(study.Shops[work.ShopOf(study, job)].Machines)
	errand := Errand{Job: job, Once: make([]quantity.Duration, machines), Each: make([]quantity.Duration, machines), Area: make([]float64, machines)}
	errand.mass, errand.heaviest = Masses(study, job)
	errand.resin = work.MaterialOf(study, job).Resin
	used := kept(plan, owned)
	for i := plan.Jobs[job].First; i < plan.Jobs[job].End; i++ {
		row := &plan.Rows[i]
		if !used[i] || row.Site != work.AtShop {
			continue
		}
		if !slices.Contains(errand.Pieces, row.Piece) {
			errand.Pieces = append(errand.Pieces, row.Piece)
		}
		errand.Each[row.Machine] += row.Minutes()
		errand.Area[row.Machine] += row.Area
		errand.Once[row.Machine] += row.PerVisit - errand.change(study, row)
	}
	return errand
}

// change keeps the changing to a row's grit apart and returns it.
func (e *Errand) change(study *model.Study, row *work.Row) quantity.Duration {
	if row.Grit < 0 {
		return 0
	}
	kind, operation, _, _ := row.Parts(study)
	one := Change{row.Machine, operation.Grits[row.Grit].Key, row.Ability(study).GritChange / quantity.Duration(work.Sharing(kind, operation))}
	for i := range e.Changes {
		if known := &e.Changes[i]; known.Machine == one.Machine && known.Grit == one.Grit {
			known.Minutes += one.Minutes
			return one.Minutes
		}
	}
	e.Changes = append(e.Changes, one)
	return one.Minutes
}

// Together is one visit to a shop with jobs of several types: so many of each
// errand. The minutes add up; a machine is set up once, and a grit that several
// types need is changed to once. Resin or after hours on one job make the whole
// visit one, since the shop's clock does not tell them apart. With one type it is
// the visit that RentOf prices.
//
// Source: common practice, no source.
func Together(study *model.Study, shop int, errands []Errand, counts []int) rental.Trip {
	at := &study.Shops[shop]
	trip := rental.Trip{Shop: at, Uses: make([]rental.Use, len(at.Machines)), Jobs: 1}
	var changes []Change
	for i := range errands {
		if counts[i] == 0 {
			continue
		}
		errand, kind, count := &errands[i], &study.JobTypes[errands[i].Job], quantity.Duration(counts[i])
		trip.JobMass += errand.mass * quantity.Mass(count)
		trip.Heaviest = max(trip.Heaviest, errand.heaviest)
		trip.Loading += kind.LoadingTime * count
		trip.Resin, trip.AfterHours = trip.Resin || errand.resin, trip.AfterHours || kind.AfterHours
		for q := range trip.Uses {
			trip.Uses[q].Minutes += errand.Once[q] + count*errand.Each[q]
			trip.Uses[q].Area += float64(count) * errand.Area[q]
		}
		changes = longest(changes, errand.Changes)
	}
	for _, one := range changes {
		trip.Uses[one.Machine].Minutes += one.Minutes
	}
	for q := range trip.Uses {
		if trip.Uses[q].Minutes > 0 {
			trip.Uses[q].Minutes += at.Machines[q].Setup
		}
	}
	return trip
}

// longest keeps, for each grit on each machine, the longest changing that any
// type needs.
func longest(list, more []Change) []Change {
	for _, one := range more {
		at := slices.IndexFunc(list, func(known Change) bool { return known.Machine == one.Machine && known.Grit == one.Grit })
		switch {
		case at < 0:
			list = append(list, one)
		default:
			list[at].Minutes = max(list[at].Minutes, one.Minutes)
		}
	}
	return list
}
