// Package alternative says what one set of owned machines costs over the
// horizon, the rest of the work rented. It is the one evaluator: whoever asks
// which machines to own asks it, so that all answers price alike.
package alternative

import (
	"math"
	"slices"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
	"shopstint/rental"
)

// JobRent is what one job type costs in its first year beside owned machines:
// its visits to the shop and its hours on the studio's own tools.
type JobRent struct {
	Job         int
	Visits      []rental.Visit // by jobs aboard, from 1
	Counts      []float64      // visits of each kind in the first year
	Rework      rental.Visit   // one visit that repeats what a rework repeats
	ReworkCount float64

	Shop, Travel, Labour float64 // first year, posted visit by visit
	Helpers              float64 // of Labour: hired hands for lifting
	Paid                 float64 // hours
	TimeCharge           float64 // machine time before any member's reduction
	Bench                BenchUse
}

// BenchUse is work on the studio's own tools in the first year.
type BenchUse struct {
	Hours  float64
	Labour float64
	Wear   float64
	// Abrasives are the part of Wear that is not edges.
	Abrasives float64
}

// Rent is the rented and bench side of one alternative.
type Rent struct {
	Jobs      []JobRent           // every job type, in study order
	Members   []rental.Membership // by shop
	Fee       float64             // membership fees of a year, sales tax included
	Induction float64             // one-off: fees with tax, and own time

	InductionFees  float64 // the part of Induction that is invoiced
	InductionHours float64 // own hours in it
	InductionOwn   float64 // what those are worth
}

// Fill says how jobs fill visits: so many full ones, so many jobs aboard the
// last, and the share of years in which the last takes one more. Whole jobs
// fill whole visits; a fractional number of jobs is an average of the two whole
// numbers beside it.
//
// Source: common practice, no source.
func Fill(jobs float64, batch int) (full float64, aboard int, share float64) {
	full = math.Floor(math.Round(jobs/float64(batch)*1e6) / 1e6)
	rest := math.Max(0, jobs-full*float64(batch))
	aboard = int(math.Floor(math.Round(rest*1e6) / 1e6))
	return full, aboard, math.Max(0, rest-float64(aboard))
}

// Counts says how many visits a year carry 1, 2 … batch jobs.
//
// Source: common practice, no source.
func Counts(jobs float64, batch int) []float64 {
	full, aboard, share := Fill(jobs, batch)
	counts := make([]float64, batch)
	counts[batch-1] = full
	if aboard > 0 {
		counts[aboard-1] += 1 - share
	}
	if aboard < batch {
		counts[aboard] += share
	}
	return counts
}

// kept tells, for each row of the plan, whether it still does its step when
// the given machines are owned.
func kept(plan *work.Plan, owned []bool) []bool {
	used := make([]bool, len(plan.Rows))
	keep(plan, owned, work.Span{First: 0, End: len(plan.Rows)}, used)
	return used
}

// keep fills in a span of what kept returns. The rows of a step follow each
// other, its candidates first.
func keep(plan *work.Plan, owned []bool, span work.Span, used []bool) {
	step, taken := -1, false
	for i := span.First; i < span.End; i++ {
		row := &plan.Rows[i]
		if row.Step != step {
			step, taken = row.Step, false
		}
		if row.Site == work.AtStudio {
			taken = taken || owned[row.Machine] && row.Fit.OK()
		}
		used[i] = row.Used && !taken
	}
}

// Doing tells, for each row of the plan, whether it does its step when the given
// machines are owned: the first owned machine that takes the piece, else the way
// that is rented or the studio's own.
//
// Source: common practice, no source.
func Doing(plan *work.Plan, owned []bool) []bool {
	doing, step := kept(plan, owned), -1
	for i := range plan.Rows {
		row := &plan.Rows[i]
		if row.Site == work.AtStudio && row.Step != step && owned[row.Machine] && row.Fit.OK() {
			doing[i], step = true, row.Step
		}
	}
	return doing
}

// RentOf prices the rented and bench side when the given machines are owned.
func RentOf(study *model.Study, plan *work.Plan, owned []bool) Rent {
	return RentBeside(study, plan, nil, owned)
}

// RentBeside is RentOf where the alternative that owns nothing is at hand: job
// types that no owned machine could take cost the same in both. A membership
// ties all job types together, so then everything is priced afresh.
func RentBeside(study *model.Study, plan *work.Plan, rented *Rent, owned []bool) Rent {
	used := kept(plan, owned)
	jobs := make([]JobRent, len(study.JobTypes))
	for job := range study.JobTypes {
		if rented != nil && !Reaches(study, plan, owned, job) {
			jobs[job] = rented.Jobs[job]
			continue
		}
		jobs[job] = rentJob(study, plan, used, job, rental.Membership{})
	}
	return gather(study, plan, used, jobs)
}

// RentFrom is RentOf where each job type was priced beside the same machines by
// JobRentOf. It keeps the jobs.
func RentFrom(study *model.Study, plan *work.Plan, owned []bool, jobs []JobRent) Rent {
	return gather(study, plan, kept(plan, owned), jobs)
}

// gather adds what job types have in common: memberships, which price them
// afresh, and inductions.
func gather(study *model.Study, plan *work.Plan, used []bool, jobs []JobRent) Rent {
	rent := Rent{Jobs: jobs, Members: make([]rental.Membership, len(study.Shops))}
	if MembershipOffered(study) && join(study, &rent) {
		for job := range study.JobTypes {
			rent.Jobs[job] = rentJob(study, plan, used, job, rent.Members[work.ShopOf(study, job)])
		}
	}
	rent.induct(study, plan, used)
	return rent
}

// RentAgain is RentOf for a study of which only one job type has changed since
// before was priced for the same owned machines.
func RentAgain(study *model.Study, plan *work.Plan, before *Rent, owned []bool, job int) Rent {
	if MembershipOffered(study) {
		return RentOf(study, plan, owned)
	}
	used := kept(plan, owned)
	rent := *before
	rent.Jobs = slices.Clone(before.Jobs)
	rent.Jobs[job] = rentJob(study, plan, used, job, rental.Membership{})
	rent.induct(study, plan, used)
	return rent
}

// RentLike prices the given job types alone, with the memberships and fees of
// another rent: for studies with prices or amounts of work moved, where the
// memberships stay as planned. Job types that are left out cost nothing.
func RentLike(study *model.Study, plan *work.Plan, like *Rent, owned, wanted []bool) Rent {
	used := kept(plan, owned)
	rent := Rent{Jobs: make([]JobRent, len(study.JobTypes)), Members: like.Members, Fee: like.Fee}
	for job := range rent.Jobs {
		rent.Jobs[job].Job = job
		if wanted[job] {
			rent.Jobs[job] = rentJob(study, plan, used, job, like.Members[work.ShopOf(study, job)])
		}
	}
	rent.induct(study, plan, used)
	return rent
}

// JobRentOf prices one job type beside the given machines, for a member of its
// shop or, with no membership, for anyone.
func JobRentOf(study *model.Study, plan *work.Plan, owned []bool, job int, member rental.Membership) JobRent {
	return rentJob(study, plan, keptOf(plan, owned, job), job, member)
}

// keptOf is kept for the rows of one job type.
func keptOf(plan *work.Plan, owned []bool, job int) []bool {
	used := make([]bool, len(plan.Rows))
	keep(plan, owned, plan.Jobs[job], used)
	return used
}

// Reaches tells whether owning the given machines can change what a job type
// rents: one of them could do a step of it, or a membership ties all together.
func Reaches(study *model.Study, plan *work.Plan, owned []bool, job int) bool {
	if MembershipOffered(study) {
		return true
	}
	for _, row := range plan.Of(job) {
		if row.Site == work.AtStudio && owned[row.Machine] {
			return true
		}
	}
	return false
}

// rentJob prices one job type's visits and bench hours.
func rentJob(study *model.Study, plan *work.Plan, used []bool, job int, member rental.Membership) JobRent {
	return priceJob(study, plan, used, job, member, true)
}

// priceJob is rentJob, which shows every kind of visit, or without the kinds
// that the first year does not have.
func priceJob(study *model.Study, plan *work.Plan, used []bool, job int, member rental.Membership, all bool) JobRent {
	kind := &study.JobTypes[job]
	rent := JobRent{Job: job, Counts: Counts(float64(kind.PerYear), int(kind.JobsPerVisit))}
	rent.Visits = make([]rental.Visit, len(rent.Counts))
	for k, count := range rent.Counts {
		if count > 0 || all {
			trip := tripOf(study, plan, used, job, float64(k+1), false)
			rent.Visits[k] = rental.Price(&study.Studio, study.Money, trip, member)
			rent.add(&rent.Visits[k], count)
		}
	}
	rent.ReworkCount = float64(kind.PerYear) * float64(kind.ReworkChance) * float64(kind.ReworkVisits)
	if kind.Repeats() && (rent.ReworkCount > 0 || all) {
		rent.Rework = rental.Price(&study.Studio, study.Money, tripOf(study, plan, used, job, 1, true), member)
		rent.add(&rent.Rework, rent.ReworkCount)
	}
	rent.Bench = benchOf(study, plan, used, job)
	return rent
}

func (r *JobRent) add(visit *rental.Visit, count float64) {
	r.Shop += count * visit.Shop
	r.Travel += count * visit.Travel
	r.Labour += count * visit.Labour
	r.Helpers += count * visit.HelperCost
	r.Paid += count * visit.Paid.Hours()
	r.TimeCharge += count * visit.MachineTime
}

// tripOf gathers what a visit with some jobs aboard does at the shop. A rework
// visit repeats only the operations that a rework repeats.
func tripOf(study *model.Study, plan *work.Plan, used []bool, job int, aboard float64, rework bool) rental.Trip {
	kind := &study.JobTypes[job]
	shop := &study.Shops[work.ShopOf(study, job)]
	trip := rental.Trip{Shop: shop, Uses: make([]rental.Use, len(shop.Machines)), Jobs: aboard, AfterHours: kind.AfterHours, Loading: kind.LoadingTime}
	trip.JobMass, trip.Heaviest = Masses(study, job)
	trip.Resin = work.MaterialOf(study, job).Resin
	for i := plan.Jobs[job].First; i < plan.Jobs[job].End; i++ {
		row := &plan.Rows[i]
		if !used[i] || row.Site != work.AtShop || rework && !kind.Operations[row.Operation].Repeat {
			continue
		}
		use := &trip.Uses[row.Machine]
		use.Minutes += row.PerVisit + quantity.Duration(aboard)*row.Minutes()
		use.Area += aboard * row.Area
	}
	for q := range trip.Uses {
		if trip.Uses[q].Minutes > 0 {
			trip.Uses[q].Minutes += shop.Machines[q].Setup
		}
	}
	return trip
}

// Masses returns the mass of one job and of its heaviest piece.
func Masses(study *model.Study, job int) (total, heaviest quantity.Mass) {
	material := work.MaterialOf(study, job)
	for i := range study.JobTypes[job].Pieces {
		piece := &study.JobTypes[job].Pieces[i]
		mass := work.PieceMass(piece, material)
		total += mass * quantity.Mass(piece.Count)
		heaviest = max(heaviest, mass)
	}
	return total, heaviest
}

// benchOf sums the first year's hours on own tools, repeats included; a tool is
// set up once a job, and again for a rework that repeats its step. One person
// works at the bench.
func benchOf(study *model.Study, plan *work.Plan, used []bool, job int) BenchUse {
	kind := &study.JobTypes[job]
	var bench BenchUse
	setups := make([]float64, len(study.Tools))
	for i := plan.Jobs[job].First; i < plan.Jobs[job].End; i++ {
		row := &plan.Rows[i]
		if !used[i] || row.Site != work.AtBench {
			continue
		}
		times := work.TimesDone(kind, row)
		setups[row.Machine] = max(setups[row.Machine], times)
		bench.Hours += float64(kind.PerYear) * times * (row.Minutes() + row.PerVisit).Hours()
		bench.Wear += float64(kind.PerYear) * times * row.Wear
		bench.Abrasives += float64(kind.PerYear) * times * abrasivesOf(row)
	}
	for t, times := range setups {
		bench.Hours += float64(kind.PerYear) * times * study.Tools[t].Setup.Hours()
	}
	bench.Labour = bench.Hours * float64(study.Studio.LabourRate)
	return bench
}
