package model

import "shopstint/model/quantity"

// Shop is a bigger shop that sells time on its machines.
type Shop struct {
	Key       string            `key:"-"`
	Name      string            `key:"name" about:"what the studio calls it"`
	Distance  quantity.Distance `key:"distance" least:"0 km" most:"2000 km" need:"yes" about:"one way"`
	DriveTime quantity.Duration `key:"drive_time" least:"0 min" most:"1440 min" about:"one way"`
	Tolls     quantity.Money    `key:"tolls" least:"0" most:"1000000" about:"tolls and parking each round trip"`
	Waiting   quantity.Duration `key:"waiting" least:"0 min" most:"1440 min" about:"own waiting at the shop each visit, not billed"`
	Cleaning  quantity.Duration `key:"cleaning" least:"0 min" most:"480 min" about:"sweeping up each visit, billed as it is on the shop's clock"`
	OpenDays  []string          `key:"open_days" fixed:"yes" oneof:"mon tue wed thu fri sat sun" about:"days of the week on which it is open"`
	LeadTime  quantity.Count    `key:"lead_time" least:"0" most:"365" whole:"yes" fixed:"yes" about:"days between booking and visit"`
	Tariff    Tariff            `key:"tariff"`
	Machines  []HiredMachine    `key:"machines" need:"yes"`
}

// Tariff bases: one clock for the whole machine room, or one clock a machine.
const (
	WholeShop  = "whole_shop"
	PerMachine = "per_machine"
)

// Tariff is what the shop charges. A price of zero means that it is not offered.
type Tariff struct {
	Basis           string                 `key:"basis" fixed:"yes" oneof:"whole_shop per_machine" about:"one rate for the machine room, or a rate and a clock for each machine"`
	HourlyRate      quantity.MoneyPerHour  `key:"hourly_rate" least:"0" most:"10000000 per h" about:"rate of the whole machine room"`
	MinimumBlock    quantity.Duration      `key:"minimum_block" least:"0 min" most:"1440 min" about:"least time charged each visit"`
	Increment       quantity.Duration      `key:"increment" above:"0 min" most:"1440 min" about:"step in which time after the minimum block is charged, rounded up"`
	HalfDayPrice    quantity.Money         `key:"half_day_price" least:"0" most:"10000000" about:"machine room for a half day (0: not offered)"`
	HalfDay         quantity.Duration      `key:"half_day" above:"0 min" most:"1440 min" about:"length of a half day"`
	DayPrice        quantity.Money         `key:"day_price" least:"0" most:"10000000" about:"machine room for a day (0: not offered)"`
	Day             quantity.Duration      `key:"day" above:"0 min" most:"1440 min" about:"length of a day"`
	OperatorRate    quantity.MoneyPerHour  `key:"operator_rate" least:"0" most:"10000000 per h" about:"the shop's operator, on top of machine time (0: included or not needed)"`
	AfterHours      quantity.Share         `key:"after_hours" least:"0 %" most:"300 %" about:"supplement on machine time outside opening hours"`
	ResinSupplement quantity.Share         `key:"resin_supplement" least:"0 %" most:"500 %" about:"supplement on machine time for resin-filled pieces"`
	HandlingCharge  quantity.Money         `key:"handling_charge" least:"0" most:"1000000" about:"receiving, fork-lift or storage each visit"`
	DamageAllowance quantity.Money         `key:"damage_allowance" least:"0" most:"1000000" about:"expected damage charge each visit (metal in wood, nicked knives)"`
	MembershipFee   quantity.MoneyPerMonth `key:"membership_fee" fixed:"zero" least:"0" most:"10000000 per month" about:"membership, paid the whole year (0: not offered)"`
	MembershipTime  quantity.Duration      `key:"membership_time" show:"h" least:"0 min" most:"60000 min" about:"time included each month, lost when not used"`
	MemberDiscount  quantity.Share         `key:"member_discount" least:"0 %" most:"100 %" about:"members' reduction on machine time"`
	InductionFee    quantity.Money         `key:"induction_fee" least:"0" most:"1000000" about:"one-off induction for each machine not yet inducted on"`
	InductionTime   quantity.Duration      `key:"induction_time" show:"h" least:"0 min" most:"2880 min" about:"own time for each induction"`
	SalesTax        quantity.Share         `key:"sales_tax" least:"0 %" most:"50 %" about:"tax on the shop's charges that the studio cannot reclaim"`
}

// HiredMachine is one machine of a shop, used by the visit.
type HiredMachine struct {
	Key              string `key:"-"`
	Name             string `key:"name" about:"what it is"`
	Ability          `key:",inline"`
	HourlyRate       quantity.MoneyPerHour        `key:"hourly_rate" least:"0" most:"10000000 per h" about:"rate of this machine, where each machine has its own clock"`
	SurchargePerArea quantity.MoneyPerSquareMetre `key:"surcharge_per_area" least:"0" most:"1000000 per m2" about:"belt surcharge by area passed"`
	SurchargePerHour quantity.MoneyPerHour        `key:"surcharge_per_hour" least:"0" most:"10000000 per h" about:"belt or knife surcharge by machine time"`
	Inducted         bool                         `key:"inducted" fixed:"yes" about:"whether the induction is behind you"`
}

func (s Shop) key() string         { return s.Key }
func (m HiredMachine) key() string { return m.Key }
