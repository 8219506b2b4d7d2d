// Package rental prices a visit to the shop: what the shop bills on its clock,
// line by line, and what the visit costs the owner beside it.
package rental

import (
	"math"

	"shopstint/model"
	"shopstint/model/money"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// Use is what a visit does on one of the shop's machines. The zero value is a
// machine left alone.
type Use struct {
	Minutes quantity.Duration // set-up, grit changes, running and handling
	Area    float64           // m² passed
}

// Trip is one visit to be priced.
type Trip struct {
	Shop       *model.Shop
	Uses       []Use // one for each of the shop's machines
	Jobs       float64
	JobMass    quantity.Mass     // all pieces of one job
	Heaviest   quantity.Mass     // heaviest piece
	Loading    quantity.Duration // both ends, for one job
	Resin      bool
	AfterHours bool
}

// Membership is what a studio's membership does to machine time.
type Membership struct {
	Joined bool
	// Included is the share of the year's paid time that the membership's
	// monthly hours cover.
	Included float64
}

// How a visit's machine time was bought.
const (
	ByBlock   = "block"
	ByHalfDay = "half day"
	ByDay     = "day"
)

// Visit is a priced visit. Money is posted: each line is rounded to the
// currency's smallest unit, so that sums of lines are exact. A visit without
// machine minutes costs nothing: nobody drives.
type Visit struct {
	Billed quantity.Duration // on the shop's clock, cleaning included
	Paid   quantity.Duration // after minimum block and increments
	Uses   []Use             // as in the trip, by machine of the shop
	Days   float64           // whole days in it, where a day is on offer
	By     string            // block, half day or day

	Clock, WithHalfDay, WholeDays float64 // the three ways to buy the time, unrounded; +Inf where not offered

	MachineTime, Member, Operator, AfterHours, Resin, Wear, Handling, Tax float64
	Shop                                                                  float64 // invoice total

	RoundTrips             float64
	Vehicle, Tolls, Damage float64
	Travel                 float64

	Crew, Helpers float64           // own people riding along; hired hands for lifting
	OwnTime       quantity.Duration // drive, wait, load and machine time of all the crew
	OwnCost       float64           // what that time is worth
	HelperCost    float64
	Labour        float64 // OwnCost + HelperCost
	Total         float64 // Shop + Travel + Labour
}

// Price prices one visit.
//
// Source: common practice, no source: minimum block, then increments rounded
// up, once a visit; the cheapest of block, half day and day.
func Price(studio *model.Studio, currency money.Currency, trip Trip, member Membership) Visit {
	visit := Visit{Uses: trip.Uses}
	if visit.Billed = billed(trip); visit.Billed == 0 {
		return visit
	}
	buyTime(&visit, trip)
	post(&visit, currency, trip, member)
	travel(&visit, studio, currency, trip)
	labour(&visit, studio, currency, trip)
	visit.Total = visit.Shop + visit.Travel + visit.Labour
	return visit
}

// billed sums the shop's wall clock. Cleaning runs on the one clock of the
// whole shop, or on the clock of every machine used.
func billed(trip Trip) quantity.Duration {
	var total quantity.Duration
	for _, use := range trip.Uses {
		total += clockMinutes(trip.Shop, use)
	}
	if total > 0 && trip.Shop.Tariff.Basis == model.WholeShop {
		total += trip.Shop.Cleaning
	}
	return total
}

func clockMinutes(shop *model.Shop, use Use) quantity.Duration {
	if use.Minutes > 0 && shop.Tariff.Basis == model.PerMachine {
		return use.Minutes + shop.Cleaning
	}
	return use.Minutes
}

// Block returns the time charged for minutes on one clock: the minimum block,
// then increments rounded up.
func Block(tariff *model.Tariff, minutes quantity.Duration) quantity.Duration {
	if minutes <= 0 {
		return 0
	}
	beyond := max(0, minutes-tariff.MinimumBlock)
	return tariff.MinimumBlock + quantity.Duration(work.StepsUp(float64(beyond), float64(tariff.Increment)))*tariff.Increment
}

// buyTime finds the cheapest way to buy the visit's time.
func buyTime(visit *Visit, trip Trip) {
	tariff := &trip.Shop.Tariff
	clock, rate := clockCharge(visit, trip)
	rest := func(minutes quantity.Duration) float64 {
		steps := work.StepsUp(float64(max(0, minutes)), float64(tariff.Increment))
		return steps * float64(tariff.Increment) / 3600 * rate
	}
	days := 0.0
	if tariff.DayPrice > 0 {
		days = math.Floor(math.Round(float64(visit.Billed/tariff.Day)*1e6) / 1e6)
	}
	visit.Days = days
	left := visit.Billed - quantity.Duration(days)*tariff.Day
	paidDays := days * float64(tariff.DayPrice)
	visit.Clock, visit.WithHalfDay, visit.WholeDays = clock, math.Inf(1), math.Inf(1)
	if tariff.HalfDayPrice > 0 {
		visit.WithHalfDay = paidDays + float64(tariff.HalfDayPrice) + rest(left-tariff.HalfDay)
	}
	if tariff.DayPrice > 0 {
		visit.WholeDays = paidDays + float64(tariff.DayPrice)
	}
	if days > 0 {
		visit.WholeDays = min(visit.WholeDays, paidDays+rest(left))
	}
	visit.By = cheapest(visit)
}

// clockCharge returns the charge by block and increment, and the rate at which
// time beyond a half day or a day is charged: the dearest machine in use.
func clockCharge(visit *Visit, trip Trip) (charge, rate float64) {
	tariff := &trip.Shop.Tariff
	if tariff.Basis == model.WholeShop {
		visit.Paid = Block(tariff, visit.Billed)
		return visit.Paid.Hours() * float64(tariff.HourlyRate), float64(tariff.HourlyRate)
	}
	for q, use := range trip.Uses {
		paid := Block(tariff, clockMinutes(trip.Shop, use))
		visit.Paid += paid
		charge += paid.Hours() * float64(trip.Shop.Machines[q].HourlyRate)
		if paid > 0 {
			rate = max(rate, float64(trip.Shop.Machines[q].HourlyRate))
		}
	}
	return charge, rate
}

func cheapest(visit *Visit) string {
	switch min(visit.Clock, visit.WithHalfDay, visit.WholeDays) {
	case visit.Clock:
		return ByBlock
	case visit.WithHalfDay:
		return ByHalfDay
	default:
		return ByDay
	}
}
