// Package sensitivity reckons one machine's answer in a case: the study with a
// few chosen inputs moved together, all else as planned. It is what the
// workbook's cases, tornado and two-way tables show.
package sensitivity

import (
	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// Lever is an input that a case may move. None of them changes the minutes
// that the work takes.
type Lever int

// The levers, in the order in which they are shown. Those that stand for many
// inputs at once are given as times what is planned.
const (
	Work         Lever = iota // jobs a year of every type, times
	Rates                     // price of machine time at every shop, times
	MinimumBlock              // of the shop that the machine's work goes to
	Increment                 //
	Distance                  //
	DriveTime                 //
	VehicleCost               //
	LabourRate                //
	Price                     // of the machine
	YearsKept                 // whole years, at least 1
	Resale                    // what it fetches when sold, times
	Upkeep                    // times
	Installation              // delivery, rigging in, wiring, converter, dust, air: times
	FloorCost                 //
	EnergyPrice               //
	Consumables               // price of edges, sharpening and abrasives, times
	DiscountRate              //
	TaxRate                   //
	RentalGrowth              // yearly growth of shop prices
	Levers                    // number of levers
)

// lever is what is said of a lever. A path with * takes the key of the machine,
// one with @ that of its shop; without a path it is given as times.
type lever struct{ label, path string }

var catalogue = [Levers]lever{
	Work:         {"jobs a year, times", ""},
	Rates:        {"shop's rates, times", ""},
	MinimumBlock: {"minimum block", "shops.@.tariff.minimum_block"},
	Increment:    {"increment", "shops.@.tariff.increment"},
	Distance:     {"distance, one way", "shops.@.distance"},
	DriveTime:    {"drive, one way", "shops.@.drive_time"},
	VehicleCost:  {"vehicle, by distance", "studio.vehicle.cost"},
	LabourRate:   {"value of an own hour", "studio.labour_rate"},
	Price:        {"price", "machines.*.price"},
	YearsKept:    {"years kept", "machines.*.years_kept"},
	Resale:       {"resale, times", ""},
	Upkeep:       {"upkeep, times", ""},
	Installation: {"moving in, wiring, dust, air, times", ""},
	FloorCost:    {"floor cost", "studio.floor_cost"},
	EnergyPrice:  {"electricity", "studio.energy_price"},
	Consumables:  {"edges and abrasives, times", ""},
	DiscountRate: {"discount rate", "studio.discount_rate"},
	TaxRate:      {"tax rate", "studio.tax_rate"},
	RentalGrowth: {"yearly growth of shop prices", "growth.rental"},
}

// Label names a lever in words.
func (l Lever) Label() string { return catalogue[l].label }

// Times tells whether a lever is given as times what is planned.
func (l Lever) Times() bool { return catalogue[l].path == "" }

// Path is the input that a lever moves, for a machine and its shop given by
// their keys; empty for one that is given as times.
func (l Lever) Path(machine, shop string) string {
	path := ""
	for _, r := range catalogue[l].path {
		switch r {
		case '*':
			path += machine
		case '@':
			path += shop
		default:
			path += string(r)
		}
	}
	return path
}

// Case is a value for every lever: SI, money, shares, or times.
type Case [Levers]float64

// ShopOf returns the shop to which most of a machine's work would go: that of
// the first job type that owning the machine can change, else the first shop.
func ShopOf(study *model.Study, plan *work.Plan, machine int) int {
	for job, reached := range reach(study, plan, machine) {
		if reached {
			return work.ShopOf(study, job)
		}
	}
	return 0
}

func reach(study *model.Study, plan *work.Plan, machine int) []bool {
	owned := make([]bool, len(study.Machines))
	owned[machine] = true
	reached := make([]bool, len(study.JobTypes))
	for job := range reached {
		reached[job] = alternative.Reaches(study, plan, owned, job)
	}
	return reached
}

// planned is the case of the study as it stands.
func planned(study *model.Study, machine, shop int) Case {
	var all Case
	for l := range all {
		all[l] = 1
	}
	for l, field := range fields(study, machine, shop) {
		all[l] = *field
	}
	all[YearsKept] = float64(study.Machines[machine].YearsKept)
	return all
}

// fields are the inputs behind the levers that are not given as times.
func fields(study *model.Study, machine, shop int) map[Lever]*float64 {
	at, studio, candidate := &study.Shops[shop], &study.Studio, &study.Machines[machine]
	return map[Lever]*float64{
		MinimumBlock: (*float64)(&at.Tariff.MinimumBlock), Increment: (*float64)(&at.Tariff.Increment),
		Distance: (*float64)(&at.Distance), DriveTime: (*float64)(&at.DriveTime),
		VehicleCost: (*float64)(&studio.Vehicle.Cost), LabourRate: (*float64)(&studio.LabourRate),
		Price: (*float64)(&candidate.Price), YearsKept: (*float64)(&candidate.YearsKept),
		FloorCost: (*float64)(&studio.FloorCost), EnergyPrice: (*float64)(&studio.EnergyPrice),
		DiscountRate: (*float64)(&studio.DiscountRate), TaxRate: (*float64)(&studio.TaxRate),
		RentalGrowth: (*float64)(&study.Growth.Rental),
	}
}

// scaled are the inputs that a lever given as times multiplies.
func scaled(study *model.Study, machine int) [Levers][]*float64 {
	var lists [Levers][]*float64
	add := func(l Lever, field *quantity.Money) { lists[l] = append(lists[l], (*float64)(field)) }
	for j := range study.JobTypes {
		lists[Work] = append(lists[Work], (*float64)(&study.JobTypes[j].PerYear))
	}
	for s := range study.Shops {
		shop := &study.Shops[s]
		lists[Rates] = append(lists[Rates], (*float64)(&shop.Tariff.HourlyRate))
		add(Rates, &shop.Tariff.HalfDayPrice)
		add(Rates, &shop.Tariff.DayPrice)
		for q := range shop.Machines {
			lists[Rates] = append(lists[Rates], (*float64)(&shop.Machines[q].HourlyRate))
		}
	}
	candidate := &study.Machines[machine]
	lists[Upkeep] = []*float64{(*float64)(&candidate.UpkeepShare), (*float64)(&candidate.RepairFactor)}
	for _, field := range []*quantity.Money{&candidate.Delivery, &candidate.Rigging, &candidate.Wiring, &candidate.Converter, &candidate.DustCollection, &candidate.Compressor} {
		add(Installation, field)
	}
	for e := range study.Edges {
		add(Consumables, &study.Edges[e].Price)
		add(Consumables, &study.Edges[e].SharpeningPrice)
		add(Consumables, &study.Edges[e].Errand)
	}
	for a := range study.Abrasives {
		add(Consumables, &study.Abrasives[a].Price)
	}
	return lists
}
