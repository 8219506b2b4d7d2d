package alternative

import (
	"math"

	"shopstint/model"
	"shopstint/model/work"
)

// Factors turn first-year amounts of one job type into their present cost over
// the horizon, after tax: each category grows with the work and with its own
// price growth, and is paid at the end of each year.
type Factors struct{ Shop, Travel, Labour, Wear float64 }

// FactorsOf returns the factors of a job type.
//
// Source: present worth of a geometric gradient, e.g. C. S. Park, Contemporary
// Engineering Economics, gradient series; summed year by year.
func FactorsOf(study *model.Study, job int) Factors {
	growth := &study.Growth
	of := func(price float64) float64 {
		return presentFactor(study, float64(study.JobTypes[job].Growth), price)
	}
	return Factors{
		Shop:   of(float64(growth.Rental)),
		Travel: of(float64(growth.Travel)),
		Labour: of(float64(growth.Labour)),
		Wear:   of(float64(growth.Consumables)),
	}
}

// Present returns the present cost over the horizon, after tax, of a job type
// with those factors.
func (j *JobRent) Present(factors Factors) float64 {
	return j.Shop*factors.Shop + j.Travel*factors.Travel + (j.Labour+j.Bench.Labour)*factors.Labour + j.Bench.Wear*factors.Wear
}

func presentFactor(study *model.Study, work, price float64) float64 {
	ratio := (1 + work) * (1 + price)
	sum, step, discount := 0.0, 1.0, 1+float64(study.Studio.DiscountRate)
	for range int(study.Studio.Horizon) {
		step /= discount
		sum += step
		step *= ratio
	}
	return sum * (1 - float64(study.Studio.TaxRate))
}

// Year is the rented and bench side of one year, before tax. The last three are
// parts of others and are not added up.
type Year struct {
	Shop, Travel, Labour, BenchLabour, BenchWear, Fee, Induction float64

	Helpers        float64 // of Labour: hired hands
	BenchAbrasives float64 // of BenchWear: what is not edges
	InductionOwn   float64 // of Induction: own time
}

// Sum adds the lines up.
func (y Year) Sum() float64 {
	return y.Shop + y.Travel + y.Labour + y.BenchLabour + y.BenchWear + y.Fee + y.Induction
}

// Years lays the rent out over the horizon; element 0 is year 1.
func (r *Rent) Years(study *model.Study) []Year {
	return r.YearsAt(study, SteadyPace(study, int(study.Studio.Horizon)))
}

// YearsAt is Years where the work comes at a pace of its own.
func (r *Rent) YearsAt(study *model.Study, pace Pace) []Year {
	years := make([]Year, int(study.Studio.Horizon))
	for t := range years {
		years[t] = r.year(study, pace, t)
	}
	years[0].Induction = r.Induction
	years[0].InductionOwn = r.InductionHours * float64(study.Studio.LabourRate)
	return years
}

func (r *Rent) year(study *model.Study, pace Pace, t int) Year {
	sum := r.Part(study, pace, t, func(int) float64 { return 1 })
	sum.Fee = r.Fee * math.Pow(1+float64(study.Growth.Rental), float64(t))
	return sum
}

// Part is what a part of the jobs of year t costs, where share gives that part by
// job type; 0 is the first year. Fees and inductions, which follow no job, are not
// in it.
//
// Source: common practice, no source.
func (r *Rent) Part(study *model.Study, pace Pace, t int, share func(job int) float64) Year {
	var sum Year
	for i := range r.Jobs {
		job := r.Jobs[i].Job
		r.Jobs[i].addTo(&sum, pace[job][t]*share(job))
	}
	sum.grow(study, t)
	return sum
}

// addTo adds what the job type costs in a year with so many times the work of
// the first one, at first-year prices.
func (r *JobRent) addTo(sum *Year, more float64) {
	sum.Shop += r.Shop * more
	sum.Travel += r.Travel * more
	sum.Labour += r.Labour * more
	sum.BenchLabour += r.Bench.Labour * more
	sum.BenchWear += r.Bench.Wear * more
	sum.Helpers += r.Helpers * more
	sum.BenchAbrasives += r.Bench.Abrasives * more
}

// grow raises each category by its own price growth over t years.
func (y *Year) grow(study *model.Study, t int) {
	growth := &study.Growth
	grow := func(share float64) float64 { return math.Pow(1+share, float64(t)) }
	y.Shop *= grow(float64(growth.Rental))
	y.Travel *= grow(float64(growth.Travel))
	y.Labour *= grow(float64(growth.Labour))
	y.BenchLabour *= grow(float64(growth.Labour))
	y.BenchWear *= grow(float64(growth.Consumables))
	y.Helpers *= grow(float64(growth.Labour))
	y.BenchAbrasives *= grow(float64(growth.Consumables))
}

// Year is what the job type costs in one year; 0 is the first.
func (r *JobRent) Year(study *model.Study, t int) Year {
	var sum Year
	r.addTo(&sum, math.Pow(1+float64(study.JobTypes[r.Job].Growth), float64(t)))
	sum.grow(study, t)
	return sum
}

// Present returns the present cost after tax of the rented and bench side.
func (r *Rent) Present(study *model.Study) float64 {
	return r.PresentAt(study, SteadyPace(study, int(study.Studio.Horizon)))
}

// PresentAt is Present where the work comes at a pace of its own.
func (r *Rent) PresentAt(study *model.Study, pace Pace) float64 {
	present, factor := 0.0, 1.0
	for _, year := range r.YearsAt(study, pace) {
		factor /= 1 + float64(study.Studio.DiscountRate)
		present += year.Sum() * factor
	}
	return present * (1 - float64(study.Studio.TaxRate))
}

// Fixed returns the part of the present cost that does not follow the number
// of jobs: membership fees and inductions.
func (r *Rent) Fixed(study *model.Study) float64 {
	fee := r.Fee * presentFactor(study, 0, float64(study.Growth.Rental))
	return fee + r.Induction*FirstYear(study)
}

// FirstYear is the present cost, after tax, of a unit of money paid in the first
// year.
func FirstYear(study *model.Study) float64 {
	return (1 - float64(study.Studio.TaxRate)) / (1 + float64(study.Studio.DiscountRate))
}

// Pace is how much work there is: by job type and year from the first, the
// jobs of that year over the jobs a year that the study gives. Visits keep the
// mix of full and part loads that those jobs fill.
type Pace [][]float64

// SteadyPace is the pace of a study whose jobs grow evenly, each type by its own
// rate, and never scatter.
//
// Source: common practice, no source: geometric growth.
func SteadyPace(study *model.Study, years int) Pace {
	pace := make(Pace, len(study.JobTypes))
	cells := make([]float64, len(pace)*years)
	for job := range pace {
		pace[job] = cells[job*years : (job+1)*years : (job+1)*years]
	}
	pace.Steady(study)
	return pace
}

// Steady makes it the steady pace of a study with as many job types.
//
// Source: common practice, no source: geometric growth.
func (p Pace) Steady(study *model.Study) {
	for job := range p {
		for t := range p[job] {
			p[job][t] = math.Pow(1+float64(study.JobTypes[job].Growth), float64(t))
		}
	}
}

// Evaluation is one set of owned machines on the study's work.
type Evaluation struct {
	Owned   []bool
	Rent    Rent
	Owner   []Ownership // the owned machines only
	Present float64     // present cost of everything, after tax
}

// Evaluate prices one set of owned machines: the one answer that every
// question about sets is built on.
func Evaluate(study *model.Study, plan *work.Plan, owned []bool) Evaluation {
	return EvaluateAt(study, plan, owned, SteadyPace(study, int(study.Studio.Horizon)))
}

// EvaluateAt is Evaluate where the work comes at a pace of its own.
func EvaluateAt(study *model.Study, plan *work.Plan, owned []bool, pace Pace) Evaluation {
	result := Evaluation{Owned: owned, Rent: RentOf(study, plan, owned)}
	result.Present = result.Rent.PresentAt(study, pace)
	for m, has := range owned {
		if !has {
			continue
		}
		owner := ownerAt(study, plan, owned, m, pace)
		result.Owner = append(result.Owner, owner)
		result.Present += owner.Present
	}
	return result
}
