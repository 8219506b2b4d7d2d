// Package model holds the nouns of a study: what a studio, a shop, a machine,
// an edge, a material and a job type are. It prices nothing and reads nothing.
//
// Every input is a field of one of these structs. The field's tags are the one
// place that says how the input is called in a study (key), what it means
// (about), between which limits it makes sense (least, most, above), which
// words it may be (oneof) and which list a reference points into (ref). The
// fixed says that a workbook cannot take the input live ("zero": not from
// zero), show:"h" that a duration is shown in hours, chosen:"yes" that the owner
// decides it, so that no future draws it from its range, aside:"yes" that no
// answer hangs on it, so that neither futures nor ranges move it. The
// readers, the workbook's input sheet and the sensitivity all walk these tags
// (see Walk), so a new input needs one new field.
package model

import (
	"shopstint/model/money"
	"shopstint/model/quantity"
)

// Study is one question with everything needed to answer it.
type Study struct {
	Title     string         `key:"title" about:"name of the study, shown on every page"`
	Currency  string         `key:"currency" about:"ISO 4217 code of the money in this study" need:"yes"`
	Units     string         `key:"units" oneof:"metric inch" about:"unit system used for showing" need:"yes"`
	StartYear quantity.Count `key:"start_year" least:"1990" most:"2200" whole:"yes" about:"calendar year of the first year of work"`
	Studio    Studio         `key:"studio"`
	Growth    Growth         `key:"growth"`
	Shops     []Shop         `key:"shops" need:"yes"`
	Tools     []Tool         `key:"tools"`
	Machines  []Machine      `key:"machines" need:"yes"`
	Fixtures  []Fixture      `key:"fixtures"`
	Edges     []Edge         `key:"edges"`
	Abrasives []Abrasive     `key:"abrasives"`
	Materials []Material     `key:"materials"`
	JobTypes  []JobType      `key:"job_types" need:"yes"`
	DatedJobs []DatedJob     `key:"dated_jobs"`

	Comparisons []Comparison `key:"comparisons"`

	Correlations []Correlation `key:"correlations"`

	// Origins tells, by path, where each value came from and its range. A path
	// that is absent was given in the study, without a range.
	Origins map[string]Origin `key:"-"`
	// Money is the parsed currency with its decimal places.
	Money money.Currency `key:"-"`
}

// Origin tells where a value came from.
type Origin struct {
	Assumed  bool    // not in the study: taken from the embedded defaults
	HasRange bool    // Low and High mean something
	Low      float64 // in the field's own unit (SI inside, as the field)
	High     float64
	Shape    string // how the range is read, one of Shapes; "" is the first of them
	Note     string // the owner's remark
	Source   string // who says so
}

// Shapes of a range: how low, value and high are read when futures are drawn.
const (
	ShapePERT       = "pert"       // least, likely and greatest; a smooth hill
	ShapeTriangular = "triangular" // least, likely and greatest; straight flanks
	ShapeUniform    = "uniform"    // least and greatest, all between equally likely
	ShapeNormal     = "normal"     // one in twenty is under low, one in twenty over high
	ShapeLognormal  = "lognormal"  // the same, with the long tail upwards
)

// Shapes lists the shapes of a range, the usual one first. It is a table of constants.
var Shapes = []string{ShapePERT, ShapeTriangular, ShapeUniform, ShapeNormal, ShapeLognormal}

// Correlation says that two inputs with ranges tend to go together when futures
// are drawn.
type Correlation struct {
	Key string         `key:"-"`
	A   string         `key:"a" need:"yes" fixed:"yes" about:"path of one input that has a range"`
	B   string         `key:"b" need:"yes" fixed:"yes" about:"path of another"`
	Rho quantity.Count `key:"rho" need:"yes" fixed:"yes" least:"-1" most:"1" about:"how strongly: 1 always together, 0 not at all, -1 always against each other"`
}

// Studio is the owner's side of the bargain.
type Studio struct {
	People        quantity.Count                   `key:"people" least:"1" most:"20" whole:"yes" about:"own people who can load, lift and feed"`
	LabourRate    quantity.MoneyPerHour            `key:"labour_rate" least:"0" most:"1000000 per h" about:"what an own hour is worth: what it would earn at the bench"`
	HelperRate    quantity.MoneyPerHour            `key:"helper_rate" least:"0" most:"1000000 per h" about:"a hired helper for lifting beyond the own people"`
	LiftLimit     quantity.Mass                    `key:"lift_limit" above:"1 kg" most:"60 kg" about:"mass counted for each person, to reckon how many must be paid; never a safe load"`
	HeavyOver     quantity.Mass                    `key:"heavy_over" above:"1 kg" most:"500 kg" about:"pieces over this mass take the heavy handling time"`
	Vehicle       Vehicle                          `key:"vehicle"`
	FloorCost     quantity.MoneyPerSquareMetreYear `key:"floor_cost" least:"0" most:"1000000 per m2 per year" about:"rent and charges of the studio's floor"`
	EndClearance  quantity.Length                  `key:"end_clearance" least:"0 mm" most:"5 m" about:"free floor beyond the longest piece at infeed and at outfeed"`
	SideClearance quantity.Length                  `key:"side_clearance" least:"0 mm" most:"5 m" about:"free floor on each side of a machine"`
	Phases        quantity.Count                   `key:"phases" least:"1" most:"3" about:"phases of the electrical supply: 1 or 3"`
	Volts         quantity.Voltage                 `key:"volts" above:"50 V" most:"1000 V" about:"supply voltage"`
	Amps          quantity.Current                 `key:"amps" above:"1 A" most:"2000 A" about:"supply current that is free for machines; an electrician tells"`
	Budget        quantity.Money                   `key:"purchase_budget" least:"0" most:"100000000" about:"money that may leave on the day of purchase for all machines bought together (0: no limit)"`
	FloorFree     quantity.Area                    `key:"floor_free" least:"0 m2" most:"100000 m2" about:"floor that is free for all machines bought together (0: no limit)"`
	EnergyPrice   quantity.MoneyPerKilowattHour    `key:"energy_price" least:"0" most:"100000 per kWh" about:"electricity, per unit used"`
	DemandCharge  quantity.MoneyPerKilowattMonth   `key:"demand_charge" least:"0" most:"1000000 per kW per month" about:"electricity, for the month's highest draw"`
	TaxRate       quantity.Share                   `key:"tax_rate" least:"0 %" most:"90 %" about:"tax on the next unit of profit; ask a tax adviser"`
	DiscountRate  quantity.Share                   `key:"discount_rate" chosen:"yes" least:"0 %" most:"60 %" about:"what money costs the studio in a year, price growth included"`
	Horizon       quantity.Years                   `key:"horizon" least:"1 year" most:"30 years" whole:"yes" fixed:"yes" about:"years the question looks ahead"`
	YearlyBudget  quantity.Money                   `key:"yearly_budget" least:"0" most:"1000000000" about:"money for machines in any one year of the roadmap (0: no limit)"`
	CloseCall     quantity.Share                   `key:"close_call" chosen:"yes" least:"0 %" most:"100 %" about:"a difference under this share of the dearer side is too close to call"`
}

// Vehicle carries the pieces to the shop and back.
type Vehicle struct {
	Cost      quantity.MoneyPerKilometre `key:"cost" least:"0" most:"1000000 per km" about:"running cost of the vehicle"`
	Payload   quantity.Mass              `key:"payload" above:"1 kg" most:"40000 kg" about:"mass one trip may carry"`
	BedLength quantity.Length            `key:"bed_length" above:"100 mm" most:"20 m" about:"longest piece the vehicle takes"`
}

// Growth is the yearly price growth by category.
type Growth struct {
	Rental      quantity.Share `key:"rental" least:"-20 %" most:"50 %" about:"yearly growth of shop prices"`
	Travel      quantity.Share `key:"travel" least:"-20 %" most:"50 %" about:"yearly growth of vehicle costs and tolls"`
	Labour      quantity.Share `key:"labour" least:"-20 %" most:"50 %" about:"yearly growth of the value of an hour"`
	Consumables quantity.Share `key:"consumables" least:"-20 %" most:"50 %" about:"yearly growth of edge, abrasive and sharpening prices"`
	Energy      quantity.Share `key:"energy" least:"-20 %" most:"50 %" about:"yearly growth of electricity prices"`
	Floor       quantity.Share `key:"floor" least:"-20 %" most:"50 %" about:"yearly growth of floor cost"`
	Upkeep      quantity.Share `key:"upkeep" least:"-20 %" most:"50 %" about:"yearly growth of repair, upkeep and permit prices"`
	Machines    quantity.Share `key:"machines" least:"-20 %" most:"50 %" about:"yearly growth of machine prices, for replacements"`
}

// Key returns the list key of one member; every list in a study is keyed.
type keyed interface{ key() string }

// Find returns the member of a keyed list with that key.
func Find[T keyed](list []T, key string) (T, bool) {
	for _, member := range list {
		if member.key() == key {
			return member, true
		}
	}
	var none T
	return none, false
}

// Index returns the place of the member with that key, or -1.
func Index[T keyed](list []T, key string) int {
	for i, member := range list {
		if member.key() == key {
			return i
		}
	}
	return -1
}
