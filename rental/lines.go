package rental

import (
	"shopstint/model"
	"shopstint/model/money"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// post fills in the shop's invoice. Supplements go on machine time after the
// member's reduction; tax goes on the sum of the posted lines.
func post(visit *Visit, currency money.Currency, trip Trip, member Membership) {
	tariff := &trip.Shop.Tariff
	time := min(visit.Clock, visit.WithHalfDay, visit.WholeDays)
	visit.MachineTime = currency.Round(time)
	visit.Member = -currency.Round(time * MemberSaving(tariff, member))
	net := visit.MachineTime + visit.Member
	visit.Operator = currency.Round(visit.Billed.Hours() * float64(tariff.OperatorRate))
	if trip.AfterHours {
		visit.AfterHours = currency.Round(net * float64(tariff.AfterHours))
	}
	if trip.Resin {
		visit.Resin = currency.Round(net * float64(tariff.ResinSupplement))
	}
	visit.Wear = currency.Round(wear(trip))
	visit.Handling = currency.Round(float64(tariff.HandlingCharge))
	charges := net + visit.Operator + visit.AfterHours + visit.Resin + visit.Wear + visit.Handling
	visit.Tax = currency.Round(charges * float64(tariff.SalesTax))
	visit.Shop = charges + visit.Tax
}

// MemberSaving returns the share of machine time that a membership takes off:
// the included hours first, the reduction on the rest.
func MemberSaving(tariff *model.Tariff, member Membership) float64 {
	if !member.Joined {
		return 0
	}
	return 1 - (1-float64(tariff.MemberDiscount))*(1-member.Included)
}

func wear(trip Trip) float64 {
	total := 0.0
	for q, use := range trip.Uses {
		machine := &trip.Shop.Machines[q]
		total += use.Area*float64(machine.SurchargePerArea) + use.Minutes.Hours()*float64(machine.SurchargePerHour)
	}
	return total
}

// travel prices the vehicle. A load beyond its payload takes more round trips.
func travel(visit *Visit, studio *model.Studio, currency money.Currency, trip Trip) {
	load := float64(trip.JobMass) * trip.Jobs
	visit.RoundTrips = max(1, work.StepsUp(load, float64(studio.Vehicle.Payload)))
	distance := 2 * visit.RoundTrips * trip.Shop.Distance.Kilometres()
	visit.Vehicle = currency.Round(distance * float64(studio.Vehicle.Cost))
	visit.Tolls = currency.Round(visit.RoundTrips * float64(trip.Shop.Tolls))
	visit.Damage = currency.Round(float64(trip.Shop.Tariff.DamageAllowance))
	visit.Travel = visit.Vehicle + visit.Tolls + visit.Damage
}

// labour prices the owner's side: as many of the own people ride along as the
// heaviest piece needs, hired helpers load what they cannot.
func labour(visit *Visit, studio *model.Studio, currency money.Currency, trip Trip) {
	visit.Crew, visit.Helpers = Hands(studio, trip.Heaviest)
	loading := trip.Loading * quantity.Duration(trip.Jobs)
	driving := 2 * quantity.Duration(visit.RoundTrips) * trip.Shop.DriveTime
	visit.OwnTime = quantity.Duration(visit.Crew) * (driving + trip.Shop.Waiting + loading + visit.Billed)
	visit.OwnCost = currency.Round(visit.OwnTime.Hours() * float64(studio.LabourRate))
	visit.HelperCost = currency.Round(loading.Hours() * visit.Helpers * float64(studio.HelperRate))
	visit.Labour = visit.OwnCost + visit.HelperCost
}

// Hands returns how many own people and how many hired helpers a piece needs.
func Hands(studio *model.Studio, heaviest quantity.Mass) (crew, helpers float64) {
	persons := work.Persons(heaviest, studio.LiftLimit)
	crew = min(float64(studio.People), persons)
	return crew, persons - crew
}
