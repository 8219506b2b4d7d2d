package model

import "shopstint/model/quantity"

// Words that choose a method.
const (
	UpkeepShare       = "share"       // a share of the replacement price each year
	UpkeepAccumulated = "accumulated" // price × RF1·(h/1000)^RF2 over life, as in ASABE D497

	ResaleDeclining      = "declining"       // first-year share, then a retained share each year
	ResaleTable          = "table"           // shares by year of age
	ResaleRemainingValue = "remaining_value" // (C1 − C2·√years − C3·√hours a year)², as in ASABE D497

	TaxNone              = "none"
	TaxStraightLine      = "straight_line"
	TaxDecliningBalance  = "declining_balance" // with switch to straight line
	TaxSumOfYears        = "sum_of_years"
	TaxUnitsOfProduction = "units_of_production"
	TaxHalfYear          = "us_half_year"   // US GDS percentage table, half-year convention
	TaxMidQuarter        = "us_mid_quarter" // US GDS percentage table, mid-quarter convention
)

// Machine is a candidate: a machine the studio could buy.
type Machine struct {
	Key       string `key:"-"`
	Name      string `key:"name" about:"what it is"`
	Condition string `key:"condition" fixed:"yes" oneof:"new used" about:"new or used"`
	Ability   `key:",inline"`
	Excludes  []string `key:"excludes" ref:"machines" fixed:"yes" about:"machines that are not owned beside it"`
	Needs     []string `key:"needs" ref:"machines" fixed:"yes" about:"machines without which it is not owned"`
	Fixtures  []string `key:"fixtures" ref:"fixtures" fixed:"yes" about:"fixtures it needs, paid once by all machines that share them"`
	Does      []string `key:"does" fixed:"yes" oneof:"planer wide_belt panel_saw track_saw router router_sled orbital other" about:"classes of work it takes over (its own class when not said)"`

	Price          quantity.Money    `key:"price" need:"yes" least:"0" most:"100000000" about:"what the seller asks, before tax"`
	NewPrice       quantity.Money    `key:"new_price" least:"0" most:"100000000" about:"price of a new one like it, base of upkeep"`
	SalesTax       quantity.Share    `key:"sales_tax" least:"0 %" most:"50 %" about:"tax on the price that the studio cannot reclaim"`
	Delivery       quantity.Money    `key:"delivery" least:"0" most:"10000000" about:"freight and lift-gate"`
	Rigging        quantity.Money    `key:"rigging" least:"0" most:"10000000" about:"moving it in"`
	RiggingOut     quantity.Money    `key:"rigging_out" least:"0" most:"10000000" about:"moving it out again when sold"`
	Wiring         quantity.Money    `key:"wiring" least:"0" most:"10000000" about:"circuit for it; an allowance, an electrician decides"`
	Converter      quantity.Money    `key:"converter" least:"0" most:"10000000" about:"phase converter where the supply does not suit; an allowance"`
	DustCollection quantity.Money    `key:"dust_collection" least:"0" most:"10000000" about:"collector and ducts for it; an allowance"`
	Compressor     quantity.Money    `key:"compressor" least:"0" most:"10000000" about:"compressed air for it"`
	Training       quantity.Money    `key:"training" least:"0" most:"1000000" about:"course or instruction"`
	TrainingTime   quantity.Duration `key:"training_time" show:"h" least:"0 min" most:"20000 min" about:"own time to learn it"`
	FirstEdges     quantity.Count    `key:"first_edges" chosen:"yes" least:"0" most:"50" whole:"yes" about:"edge sets bought with it, spares included"`
	FirstAbrasives quantity.Money    `key:"first_abrasives" least:"0" most:"1000000" about:"first stock of belts or discs"`
	LearningShare  quantity.Share    `key:"learning_share" least:"0 %" most:"200 %" about:"extra own time on it in the first year"`
	FixturesResale quantity.Share    `key:"fixtures_resale" least:"0 %" most:"100 %" about:"share of wiring, converter, dust and air cost that comes back at the end"`

	Age       quantity.Years    `key:"age" least:"0 years" most:"60 years" about:"age when bought"`
	Hours     quantity.Duration `key:"hours" show:"h" least:"0 h" most:"200000 h" about:"running hours when bought"`
	YearsKept quantity.Years    `key:"years_kept" chosen:"yes" least:"1 year" most:"30 years" whole:"yes" about:"years until it is sold or replaced"`
	LifeHours quantity.Duration `key:"life_hours" show:"h" above:"1 h" most:"200000 h" about:"running hours in its whole life"`

	Resale         string           `key:"resale" fixed:"yes" oneof:"declining table remaining_value" about:"how its value falls"`
	FirstYearValue quantity.Share   `key:"first_year_value" above:"0 %" most:"100 %" about:"share of the new price kept after the first year"`
	YearlyValue    quantity.Share   `key:"yearly_value" above:"0 %" most:"100 %" about:"share of the value kept in each later year"`
	ValueTable     []quantity.Share `key:"value_table" least:"0 %" most:"100 %" about:"share of the price kept after 1, 2, 3 … years"`
	ValueC1        quantity.Count   `key:"value_c1" least:"0" most:"2" about:"remaining value: start"`
	ValueC2        quantity.Count   `key:"value_c2" least:"0" most:"2" about:"remaining value: loss with the root of years"`
	ValueC3        quantity.Count   `key:"value_c3" least:"0" most:"2" about:"remaining value: loss with the root of hours a year"`

	Upkeep       string            `key:"upkeep" fixed:"yes" oneof:"share accumulated" about:"how upkeep is reckoned"`
	UpkeepShare  quantity.Share    `key:"upkeep_share" least:"0 %" most:"100 %" about:"yearly upkeep as a share of the new price"`
	UpkeepRise   quantity.Share    `key:"upkeep_rise" least:"0 %" most:"50 %" about:"yearly rise of that share as the machine ages"`
	RepairFactor quantity.Count    `key:"repair_factor" least:"0" most:"10" about:"accumulated repair: factor RF1"`
	RepairPower  quantity.Count    `key:"repair_power" above:"0" most:"5" about:"accumulated repair: power RF2"`
	CareShare    quantity.Share    `key:"care_share" least:"0 %" most:"200 %" about:"own care as a share of running time"`
	CarePerMonth quantity.Duration `key:"care_per_month" least:"0 min" most:"10000 min" about:"own care each month, whatever the hours"`
	Insurance    quantity.Share    `key:"insurance" least:"0 %" most:"20 %" about:"yearly, on the remaining value"`
	PropertyTax  quantity.Share    `key:"property_tax" least:"0 %" most:"20 %" about:"yearly, on the remaining value"`
	YearlyOther  quantity.Money    `key:"yearly_other" least:"0" most:"10000000" about:"permits, inspections, compliance each year"`

	MachinePhases   quantity.Count   `key:"machine_phases" least:"1" most:"3" about:"phases its motor needs: 1 or 3"`
	MeanLoad        quantity.Share   `key:"mean_load" least:"0 %" most:"100 %" about:"mean load of the motor over the running time"`
	Efficiency      quantity.Share   `key:"efficiency" above:"10 %" most:"100 %" about:"efficiency of the motor"`
	PowerFactor     quantity.Share   `key:"power_factor" above:"10 %" most:"100 %" about:"power factor of the motor"`
	ExtraPower      quantity.Power   `key:"extra_power" least:"0 kW" most:"100 kW" about:"collector and compressor drawn with it"`
	DemandMonths    quantity.Count   `key:"demand_months" least:"0" most:"12" about:"months of the year in which it raises the highest draw"`
	DustAir         quantity.AirFlow `key:"dust_air" least:"0 m3/h" most:"50000 m3/h" about:"air flow that its manual asks for at the hood: a note for whoever plans the collector, nothing is reckoned from it"`
	FootprintLength quantity.Length  `key:"footprint_length" least:"0 mm" most:"20 m" about:"along the feed (0: put away after use)"`
	FootprintWidth  quantity.Length  `key:"footprint_width" least:"0 mm" most:"20 m" about:"across the feed"`
	FloorShare      quantity.Share   `key:"floor_share" least:"0 %" most:"100 %" about:"share of its working floor that nothing else uses"`

	HoursSold quantity.Duration     `key:"hours_sold" show:"h" least:"0 h" most:"8760 h" about:"hours sold to others each year"`
	SoldRate  quantity.MoneyPerHour `key:"sold_rate" least:"0" most:"10000000 per h" about:"price of an hour sold"`
	SoldCost  quantity.Share        `key:"sold_cost" least:"0 %" most:"100 %" about:"share of that income that its insurance, wear and scheduling take"`

	Tax  Depreciation `key:"tax"`
	Loan Loan         `key:"loan"`
}

// Fixture is what several machines share and the studio pays for once: a dust
// collector with its ducts, a compressor, a circuit.
type Fixture struct {
	Key    string         `key:"-"`
	Name   string         `key:"name" about:"what it is"`
	Price  quantity.Money `key:"price" need:"yes" least:"0" most:"10000000" about:"what it costs, set up and connected; an allowance"`
	Area   quantity.Area  `key:"area" least:"0 m2" most:"1000 m2" about:"floor it takes"`
	Resale quantity.Share `key:"resale" least:"0 %" most:"100 %" about:"share of its price that comes back at the end"`
}

func (f Fixture) key() string { return f.Key }

// Depreciation is how the tax authority lets the price be deducted.
type Depreciation struct {
	Method    string         `key:"method" fixed:"yes" oneof:"none straight_line declining_balance sum_of_years units_of_production us_half_year us_mid_quarter" about:"method; ask a tax adviser"`
	Life      quantity.Years `key:"life" least:"1 year" most:"40 years" whole:"yes" fixed:"yes" about:"recovery period, or class of the percentage table"`
	Factor    quantity.Count `key:"factor" least:"1" most:"3" about:"declining balance: 2 for double, 1.5 for one and a half"`
	Salvage   quantity.Share `key:"salvage" least:"0 %" most:"100 %" about:"share of the basis never deducted"`
	Quarter   quantity.Count `key:"quarter" least:"1" most:"4" whole:"yes" fixed:"yes" about:"quarter of purchase, for the mid-quarter table"`
	FirstYear quantity.Share `key:"first_year" least:"0 %" most:"100 %" about:"share written off in the first year"`
}

// Loan is how the purchase is paid when not in cash.
type Loan struct {
	Share  quantity.Share `key:"share" least:"0 %" most:"100 %" about:"share of the price that is borrowed"`
	APR    quantity.Share `key:"apr" least:"0 %" most:"60 %" about:"yearly rate, charged monthly"`
	Months quantity.Count `key:"months" least:"1" most:"360" whole:"yes" about:"equal monthly payments"`
}

func (m Machine) key() string { return m.Key }
