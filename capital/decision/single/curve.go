package single

import (
	"math"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/upkeep"
	"shopstint/model"
	"shopstint/rental"
)

// Curve is the present worth of saving and of owning as the work is scaled:
// every job type's yearly number by the same factor. Tax depreciation, resale
// and memberships stay as planned.
type Curve struct {
	Jobs  []JobCurve
	Fixed float64 // owning, whatever the work
	Work  float64 // owning, in proportion to the work
	Floor float64 // saved whatever the work: fees and inductions avoided

	study   *model.Study
	owner   *alternative.Ownership
	machine *model.Machine
}

// JobCurve is one job type's part in what is saved. Saved[k] is the present
// worth of no longer driving one visit a year with k jobs aboard; Saved[0] is 0.
type JobCurve struct {
	Job     int
	PerYear float64
	Saved   []float64
	PerJob  float64 // saved on each job a year: reworks and bench work
}

// curveOf builds the curve of a decided machine.
func curveOf(study *model.Study, rented *alternative.Rent, result *Result) Curve {
	curve := Curve{study: study, owner: &result.Owner, machine: &study.Machines[result.Machine]}
	for job := range study.JobTypes {
		before, after := &rented.Jobs[job], &result.Rent.Jobs[job]
		curve.Jobs = append(curve.Jobs, jobCurve(study, before, after))
	}
	curve.Floor = rented.Fixed(study) - result.Rent.Fixed(study)
	keep := 1 - float64(study.Studio.TaxRate)
	for _, line := range [...]capital.Line{capital.Energy, capital.Wear, capital.OwnTime, capital.Care, capital.Learning} {
		curve.Work += keep * presentOf(&result.Owner, line)
	}
	curve.Fixed = result.Owning - curve.Work - curve.Upkeep(1)
	return curve
}

func presentOf(owner *alternative.Ownership, line capital.Line) float64 {
	sum := 0.0
	for t, amount := range owner.Table[line] {
		sum += amount * owner.Table[capital.Discount][t]
	}
	return sum
}

func jobCurve(study *model.Study, before, after *alternative.JobRent) JobCurve {
	kind := &study.JobTypes[before.Job]
	factors := alternative.FactorsOf(study, before.Job)
	part := JobCurve{Job: before.Job, PerYear: float64(kind.PerYear), Saved: make([]float64, len(before.Visits)+1)}
	for k := range before.Visits {
		part.Saved[k+1] = VisitPresent(&before.Visits[k], factors) - VisitPresent(&after.Visits[k], factors)
	}
	reworks := float64(kind.ReworkChance) * float64(kind.ReworkVisits)
	part.PerJob = reworks * (VisitPresent(&before.Rework, factors) - VisitPresent(&after.Rework, factors))
	if part.PerYear > 0 {
		labour := before.Bench.Labour - after.Bench.Labour
		wear := before.Bench.Wear - after.Bench.Wear
		part.PerJob += (labour*factors.Labour + wear*factors.Wear) / part.PerYear
	}
	return part
}

// moves tells whether owning the machine changes what the job type costs.
func (j *JobCurve) moves() bool {
	for _, saved := range j.Saved {
		if saved != 0 {
			return true
		}
	}
	return j.PerJob != 0
}

// VisitPresent is the present cost, after tax, of driving one such visit every
// year, growing with the work.
func VisitPresent(visit *rental.Visit, factors alternative.Factors) float64 {
	return visit.Shop*factors.Shop + visit.Travel*factors.Travel + visit.Labour*factors.Labour
}

// At returns what one job type saves at a number of jobs a year.
func (j *JobCurve) At(jobs float64) float64 {
	batch := len(j.Saved) - 1
	full, aboard, share := alternative.Fill(jobs, batch)
	partial := 0.0
	if aboard < batch {
		partial = (1-share)*j.Saved[aboard] + share*j.Saved[aboard+1]
	}
	return full*j.Saved[batch] + partial + jobs*j.PerJob
}

// Saving returns the present worth saved when the work is scaled.
func (c *Curve) Saving(scale float64) float64 {
	sum := c.Floor
	for i := range c.Jobs {
		sum += c.Jobs[i].At(scale * c.Jobs[i].PerYear)
	}
	return sum
}

// Owning returns the present cost of owning when the work is scaled.
func (c *Curve) Owning(scale float64) float64 {
	return c.Fixed + scale*c.Work + c.Upkeep(scale)
}

// Upkeep returns the present cost of upkeep when the work is scaled:
// accumulated repairs follow the hours, a share of the price does not.
func (c *Curve) Upkeep(scale float64) float64 {
	table := &c.owner.Table
	keep := 1 - float64(c.study.Studio.TaxRate)
	if c.machine.Upkeep != model.UpkeepAccumulated {
		return keep * presentOf(c.owner, capital.Upkeep)
	}
	start, sum := c.machine.Hours.Hours(), 0.0
	for t := 1; t < len(table[capital.Age]); t++ {
		after := capital.HoursSoFar(c.machine, c.owner.Profile.Hours, t, int(table[capital.Age][t])) - start
		before := after - c.owner.Profile.Hours[t-1]
		grown := math.Pow(1+float64(c.study.Growth.Upkeep), float64(t-1)) * table[capital.Discount][t]
		sum += grown * (c.repair(start+scale*after) - c.repair(start+scale*before))
	}
	return keep * sum
}

func (c *Curve) repair(hours float64) float64 {
	return upkeep.AccumulatedRepair(float64(c.machine.NewPrice), float64(c.machine.RepairFactor), float64(c.machine.RepairPower), hours)
}

// Difference is Saving − Owning: positive favours buying.
func (c *Curve) Difference(scale float64) float64 { return c.Saving(scale) - c.Owning(scale) }

// Kinks lists the scales up to most at which the staircase has a corner: where
// a job type that shares visits has a whole number of jobs.
func (c *Curve) Kinks(most float64) []float64 {
	var kinks []float64
	for i := range c.Jobs {
		job := &c.Jobs[i]
		if len(job.Saved) <= 2 || job.PerYear == 0 || !job.moves() {
			continue
		}
		for k := 1.0; k < most*job.PerYear; k++ {
			kinks = append(kinks, k/job.PerYear)
		}
	}
	return kinks
}
