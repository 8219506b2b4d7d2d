package alternative

import (
	"slices"

	"shopstint/capital"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
	"shopstint/rental"
)

// JobUse is what one job type does on one owned machine.
type JobUse struct {
	Job          int
	PerJob       quantity.Duration // running time of one job, set-up and reworks included
	Crew         float64           // own people at the machine
	Wear         float64           // edges and abrasives of one job, reworks included
	Abrasives    float64           // of Wear, what abrasives cost
	Metres, Area float64           // worn by one job
	Hours        float64           // running hours of the first year
}

// UsesOf lists what each job type does on machine m when the given machines
// are owned; the first owned machine that takes a piece does the step. Job
// types that never use it are left out.
func UsesOf(study *model.Study, plan *work.Plan, owned []bool, m int) []JobUse {
	var uses []JobUse
	for job := range study.JobTypes {
		if use, ok := UseOf(study, plan, owned, m, job); ok {
			uses = append(uses, use)
		}
	}
	return uses
}

// UseOf is what one job type does on machine m when the given machines are
// owned; false when it never uses it.
func UseOf(study *model.Study, plan *work.Plan, owned []bool, m, job int) (JobUse, bool) {
	kind := &study.JobTypes[job]
	use := JobUse{Job: job}
	setups, listed, last := 0.0, false, -1
	for i := plan.Jobs[job].First; i < plan.Jobs[job].End; i++ {
		row := &plan.Rows[i]
		if row.Site != work.AtStudio || !owned[row.Machine] {
			continue
		}
		listed = listed || row.Machine == m
		if row.Step == last || !row.Fit.OK() {
			continue
		}
		last = row.Step
		if row.Machine != m {
			continue
		}
		times := work.TimesDone(kind, row)
		setups = max(setups, times)
		use.PerJob += quantity.Duration(times) * (row.Minutes() + row.PerVisit)
		use.Wear += times * row.Wear
		use.Abrasives += times * abrasivesOf(row)
		use.Metres += times * row.Metres
		use.Area += times * row.Area
	}
	use.PerJob += quantity.Duration(setups) * study.Machines[m].Setup
	use.Crew = crewOf(study, m, job)
	use.Hours = float64(kind.PerYear) * use.PerJob.Hours()
	return use, listed
}

// abrasivesOf is the part of a row's wear that an abrasive is: a sanding step wears
// nothing else, and every other step wears an edge.
func abrasivesOf(row *work.Row) float64 {
	if row.Grit < 0 {
		return 0
	}
	return row.Wear
}

// crewOf returns how many own people work at machine m on a job type: one at a
// hand-held machine, else as many of them as the heaviest piece needs.
func crewOf(study *model.Study, m, job int) float64 {
	if model.HandHeld(study.Machines[m].Class) {
		return 1
	}
	_, heaviest := Masses(study, job)
	crew, _ := rental.Hands(&study.Studio, heaviest)
	return crew
}

// ProfileOf lays a machine's first-year work out over years years, each job
// type growing by its own rate.
func ProfileOf(study *model.Study, uses []JobUse, years int) capital.Profile {
	return profileAt(study, uses, SteadyPace(study, years), years)
}

func profileAt(study *model.Study, uses []JobUse, pace Pace, years int) capital.Profile {
	profile := capital.Profile{
		Hours: make([]float64, years), OwnHours: make([]float64, years), Wear: make([]float64, years), Abrasives: make([]float64, years),
		Longest: LongestPiece(study),
	}
	for _, use := range uses {
		kind := &study.JobTypes[use.Job]
		wear, abrasives := float64(kind.PerYear)*use.Wear, float64(kind.PerYear)*use.Abrasives
		for t, growth := range pace[use.Job][:years] {
			profile.Hours[t] += use.Hours * growth
			profile.OwnHours[t] += use.Hours * use.Crew * growth
			profile.Wear[t] += wear * growth
			profile.Abrasives[t] += abrasives * growth
		}
	}
	return profile
}

// LongestPiece returns the longest piece of any job type.
func LongestPiece(study *model.Study) quantity.Length {
	longest := quantity.Length(0)
	for j := range study.JobTypes {
		for p := range study.JobTypes[j].Pieces {
			longest = max(longest, study.JobTypes[j].Pieces[p].Length)
		}
	}
	return longest
}

// Ownership is one owned machine on its work.
type Ownership struct {
	Machine int
	Uses    []JobUse
	Profile capital.Profile // over the horizon
	capital.Ownership
}

// OwnerOf reckons machine m on its work when the given machines are owned. A
// fixture that several of them share is paid, and written off, with the first.
func OwnerOf(study *model.Study, plan *work.Plan, owned []bool, m int) Ownership {
	return ownerAt(study, plan, owned, m, SteadyPace(study, int(study.Studio.Horizon)))
}

func ownerAt(study *model.Study, plan *work.Plan, owned []bool, m int, pace Pace) Ownership {
	uses := UsesOf(study, plan, owned, m)
	profile := profileAt(study, uses, pace, int(study.Studio.Horizon))
	machine := &study.Machines[m]
	if len(machine.Fixtures) > 0 {
		paying := *machine
		paying.Fixtures = PaidBy(study, owned, m)
		machine = &paying
	}
	return Ownership{Machine: m, Uses: uses, Profile: profile, Ownership: capital.Own(study, machine, profile)}
}

// PaidBy lists the fixtures of machine m that no machine before it pays for when
// the given machines are owned.
func PaidBy(study *model.Study, owned []bool, m int) []string {
	var list []string
	for _, fixture := range study.Machines[m].Fixtures {
		if !slices.ContainsFunc(earlierSharers(study, fixture, m), func(other int) bool { return owned[other] }) {
			list = append(list, fixture)
		}
	}
	return list
}

// earlierSharers lists the machines before m that share a fixture.
func earlierSharers(study *model.Study, fixture string, m int) []int {
	return slices.DeleteFunc(Sharers(study, fixture), func(other int) bool { return other >= m })
}
