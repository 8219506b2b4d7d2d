// Package single answers the question machine by machine: rent the work as
// now, or own this one machine and rent the rest. It asks package alternative
// what each side costs.
package single

import (
	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/work"
)

// Result is the answer for one machine. Present amounts are after tax, over
// the horizon, in money of today.
type Result struct {
	Machine int
	Rent    alternative.Rent      // what is still rented beside it
	Owner   alternative.Ownership // what owning it costs

	Avoided    []float64 // rented and bench cost saved, after tax, by year from 0
	Flows      []float64 // Avoided less the cost of owning, by year from 0
	Saved      float64   // present worth of what is saved
	Owning     float64   // present cost of owning
	Difference float64   // Saved − Owning: positive favours buying
	Annual     float64   // Difference as an equal amount each year

	CashNeeded      float64 // leaves the account on the day of purchase
	SavedAnnual     float64 // Saved as an equal amount each year
	OwningAnnual    float64 // Owning as an equal amount each year
	Jobs            float64 // jobs a year that use it
	PerHour, PerJob float64 // present cost over discounted hours and jobs; 0 without any
	Payback         Payback
	Returns         []float64 // every rate of return of Flows, ascending; none is possible
	Life            capital.Life

	Verdict    Verdict
	Band       float64 // |Difference| under this is too close to call
	Curve      Curve
	BreakEvens []BreakEven
	Swings     []Swing // inputs with a range, the largest swing first
}

// Payback is how long the purchase takes to come back; ok is false when it
// does not within the horizon.
type Payback struct {
	Simple, Discounted     float64
	SimpleOK, DiscountedOK bool
}

// LifeYears is how far the economic-life curve looks.
const LifeYears = 20

// Decide answers for one machine. Rented is the alternative that owns nothing.
//
// Source: present worth of the difference of two alternatives, as in C. S.
// Park, Contemporary Engineering Economics, comparing mutually exclusive alternatives.
func Decide(study *model.Study, plan *work.Plan, rented *alternative.Rent, machine int) Result {
	owned := only(study, machine)
	result := Result{Machine: machine, Rent: alternative.RentOf(study, plan, owned)}
	result.Owner = alternative.OwnerOf(study, plan, owned, machine)
	flows(&result, study, rented)
	figures(&result, study)
	result.Verdict, result.Band = Judge(study, result.Saved, result.Owning)
	long := alternative.ProfileOf(study, result.Owner.Uses, LifeYears)
	result.Life = capital.EconomicLife(study, &study.Machines[machine], long)
	return result
}

func only(study *model.Study, machine int) []bool {
	owned := make([]bool, len(study.Machines))
	owned[machine] = true
	return owned
}

// flows lays out what owning saves and costs, year by year.
func flows(result *Result, study *model.Study, rented *alternative.Rent) {
	before, after := rented.Years(study), result.Rent.Years(study)
	net := result.Owner.Table[capital.Net]
	result.Avoided = make([]float64, len(net))
	result.Flows = make([]float64, len(net))
	for t := range net {
		if t > 0 {
			result.Avoided[t] = (before[t-1].Sum() - after[t-1].Sum()) * (1 - float64(study.Studio.TaxRate))
		}
		result.Flows[t] = result.Avoided[t] - net[t]
	}
}

func figures(result *Result, study *model.Study) {
	rate, horizon := float64(study.Studio.DiscountRate), float64(study.Studio.Horizon)
	result.Saved = timevalue.PresentValue(rate, result.Avoided)
	result.Owning = result.Owner.Present
	result.Difference = result.Saved - result.Owning
	result.Annual = timevalue.EquivalentAnnual(rate, horizon, result.Difference)
	result.SavedAnnual = timevalue.EquivalentAnnual(rate, horizon, result.Saved)
	result.OwningAnnual = timevalue.EquivalentAnnual(rate, horizon, result.Owning)
	result.CashNeeded = result.Owner.Table[capital.Net][0]
	result.Jobs = jobsOn(study, result.Owner.Uses)
	result.PerHour, result.PerJob = unitCosts(result, study)
	result.Payback.Simple, result.Payback.SimpleOK = timevalue.SimplePayback(result.Flows)
	result.Payback.Discounted, result.Payback.DiscountedOK = timevalue.DiscountedPayback(rate, result.Flows)
	result.Returns = timevalue.ReturnRates(result.Flows)
}

// jobsOn counts the first year's jobs that run on a machine.
func jobsOn(study *model.Study, uses []alternative.JobUse) float64 {
	jobs := 0.0
	for _, use := range uses {
		if use.PerJob > 0 {
			jobs += float64(study.JobTypes[use.Job].PerYear)
		}
	}
	return jobs
}

// unitCosts spreads the present cost over the discounted hours and jobs.
func unitCosts(result *Result, study *model.Study) (perHour, perJob float64) {
	discount := result.Owner.Table[capital.Discount]
	hours := 0.0
	for t, h := range result.Owner.Profile.Hours {
		hours += h * discount[t+1]
	}
	if hours == 0 {
		return 0, 0
	}
	jobs := 0.0
	for _, use := range result.Owner.Uses {
		if use.PerJob > 0 {
			jobs += float64(study.JobTypes[use.Job].PerYear) * discountedGrowth(study, use.Job, discount)
		}
	}
	return result.Owning / hours, result.Owning / jobs
}

func discountedGrowth(study *model.Study, job int, discount []float64) float64 {
	sum, growth := 0.0, 1.0
	for t := 1; t < len(discount); t++ {
		sum += growth * discount[t]
		growth *= 1 + float64(study.JobTypes[job].Growth)
	}
	return sum
}
