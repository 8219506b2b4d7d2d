package single

import (
	"math"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// What a break-even is looked for in.
const (
	InJobs     = "jobs a year"
	InHours    = "hours a year"
	InRate     = "shop prices"
	InPrice    = "price"
	InDistance = "distance"
	InKept     = "years kept"
)

// BreakEven is where the answer changes along one quantity, all else as in the
// study. In jobs and hours the whole mix of work is scaled; along shop prices
// the hourly rates, half-day and day prices move together; along the distance
// the drive time moves with it.
type BreakEven struct {
	In        string
	Dimension quantity.Dimension
	Now       float64   // as in the study
	Crossings []float64 // every change of sign, ascending; empty when there is none
	From, To  float64   // where it was looked for
}

// Looked-for ranges: from nothing to this many times today's value.
const (
	mostWork  = 6
	mostRate  = 6
	mostPrice = 4
	mostAway  = 10
)

// breakEvens finds every crossing of one machine along all six quantities.
func breakEvens(study *model.Study, plan *work.Plan, result *Result) []BreakEven {
	shop := shopOf(study, result)
	machine := &study.Machines[result.Machine]
	list := alongWork(&result.Curve, result)
	list = append(list,
		along(InRate, quantity.DimMoneyPerHour, hourly(shop), mostRate, func(scale float64) float64 {
			return rentMoved(study, plan, result, func(s *model.Study) { scaleRates(s, scale) })
		}),
		along(InPrice, quantity.DimMoney, float64(machine.Price), mostPrice, func(scale float64) float64 {
			return priceMoved(study, result, scale)
		}),
		along(InDistance, quantity.DimDistance, float64(shop.Distance), mostAway, func(scale float64) float64 {
			return rentMoved(study, plan, result, func(s *model.Study) { scaleDistance(s, scale) })
		}),
		alongYears(study, result),
	)
	return list
}

// alongWork gives the same crossings in jobs and in running hours a year.
func alongWork(curve *Curve, result *Result) []BreakEven {
	scales := Crossings(curve.Difference, 0, mostWork, curve.Kinks(mostWork))
	hours := 0.0
	if len(result.Owner.Profile.Hours) > 0 {
		hours = result.Owner.Profile.Hours[0]
	}
	return []BreakEven{
		scaled(InJobs, quantity.DimCount, result.Jobs, mostWork, scales),
		scaled(InHours, quantity.DimDuration, hours*3600, mostWork, scales),
	}
}

// scaled reports crossings found in multiples of today's value. Where that
// value is nothing there is nothing to scale.
func scaled(in string, dim quantity.Dimension, now, most float64, scales []float64) BreakEven {
	found := BreakEven{In: in, Dimension: dim, Now: now, To: most * now}
	if now == 0 {
		return found
	}
	for _, scale := range scales {
		found.Crossings = append(found.Crossings, scale*now)
	}
	return found
}

func along(in string, dim quantity.Dimension, now, most float64, difference func(scale float64) float64) BreakEven {
	return scaled(in, dim, now, most, Crossings(difference, 0, most, nil))
}

// alongYears finds between which whole numbers of years kept the answer
// changes; a crossing is the first number of years on the other side.
func alongYears(study *model.Study, result *Result) BreakEven {
	machine := study.Machines[result.Machine]
	found := BreakEven{In: InKept, Dimension: quantity.DimYears, Now: float64(machine.YearsKept), From: 1, To: float64(study.Studio.Horizon)}
	last := 0.0
	for kept := 1.0; kept <= found.To; kept++ {
		machine.YearsKept = quantity.Years(kept)
		difference := result.Saved - ownPresent(study, &machine, result)
		if kept > 1 && last*difference < 0 {
			found.Crossings = append(found.Crossings, kept)
		}
		last = difference
	}
	return found
}

// rentMoved returns the difference when only the rented side changes.
func rentMoved(study *model.Study, plan *work.Plan, result *Result, move func(*model.Study)) float64 {
	moved := *study
	moved.Shops = append([]model.Shop(nil), study.Shops...)
	move(&moved)
	return rentedScene(&moved, plan).savedBy(result.Machine) - result.Owning
}

func priceMoved(study *model.Study, result *Result, scale float64) float64 {
	machine := study.Machines[result.Machine]
	machine.Price = quantity.Money(float64(machine.Price) * scale)
	return result.Saved - ownPresent(study, &machine, result)
}

func scaleRates(study *model.Study, scale float64) {
	for s := range study.Shops {
		shop := &study.Shops[s]
		shop.Tariff.HourlyRate *= quantity.MoneyPerHour(scale)
		shop.Tariff.HalfDayPrice *= quantity.Money(scale)
		shop.Tariff.DayPrice *= quantity.Money(scale)
		shop.Machines = append([]model.HiredMachine(nil), shop.Machines...)
		for m := range shop.Machines {
			shop.Machines[m].HourlyRate *= quantity.MoneyPerHour(scale)
		}
	}
}

func scaleDistance(study *model.Study, scale float64) {
	for s := range study.Shops {
		study.Shops[s].Distance *= quantity.Distance(scale)
		study.Shops[s].DriveTime *= quantity.Duration(scale)
	}
}

// shopOf is the shop of the first job type that the machine changes, or the
// first shop.
func shopOf(study *model.Study, result *Result) *model.Shop {
	for i := range result.Curve.Jobs {
		if job := &result.Curve.Jobs[i]; job.moves() {
			return &study.Shops[work.ShopOf(study, job.Job)]
		}
	}
	return &study.Shops[0]
}

// hourly is the rate by which shop prices are named: of the whole shop, or of
// its dearest machine.
func hourly(shop *model.Shop) float64 {
	if shop.Tariff.Basis == model.WholeShop {
		return float64(shop.Tariff.HourlyRate)
	}
	rate := 0.0
	for i := range shop.Machines {
		rate = math.Max(rate, float64(shop.Machines[i].HourlyRate))
	}
	return rate
}
