// Package capital reckons what owning a machine costs, year by year: buying,
// paying back, running, keeping, taxing and selling it, with replacements to
// the horizon.
package capital

import (
	"shopstint/model"
	"shopstint/model/quantity"
)

// Line names one row of an ownership table. Costs are positive, income and
// relief negative; memo lines are not added up.
type Line int

// The lines in the order in which they are shown.
const (
	Age          Line = iota // memo: years since it was bought
	Value                    // memo: what it would fetch at the end of the year
	Running                  // memo: running hours of the studio's own work
	Price                    // paid to the seller
	SalesTax                 //
	Moving                   // delivery and rigging in
	Fixtures                 // wiring, converter, dust collection, compressed air, what is shared
	Start                    // instruction, first edges and abrasives
	Borrowed                 // received from the lender (negative)
	Interest                 //
	Principal                // paid back, with what is owed when it is sold
	Owed                     // memo: balance of the loan at the end of the year
	Upkeep                   //
	Insurance                // with property tax
	Other                    // permits, inspections
	Floor                    //
	Energy                   //
	Demand                   //
	Wear                     // edges and abrasives
	OwnTime                  // own time at the machine
	Care                     // own time for cleaning and greasing, by running hours
	Routine                  // own time for care each month, whatever the hours
	Learning                 // slower first year
	Sold                     // hours sold to others, net (negative)
	Resale                   // (negative)
	RiggingOut               //
	FixturesBack             // (negative)
	TaxShare                 // memo: share of the basis deducted
	Deducted                 // memo: tax depreciation
	Book                     // memo: not yet deducted at the end of the year, before a sale
	Gain                     // memo: gain on disposal
	Tax                      // tax effect of all of it (relief negative)
	Net                      // sum of the lines above that are not memo
	Discount                 // memo: discount factor
	Present                  // Net × Discount
	Lines                    // number of lines
)

// costs are the lines that Net adds up.
var costs = [...]Line{Price, SalesTax, Moving, Fixtures, Start, Borrowed, Interest, Principal, Upkeep, Insurance, Other,
	Floor, Energy, Demand, Wear, OwnTime, Care, Routine, Learning, Sold, Resale, RiggingOut, FixturesBack, Tax}

// running are the costs of a year's work that are deducted in that year.
var running = [...]Line{Interest, Upkeep, Insurance, Other, Floor, Energy, Demand, Wear, OwnTime, Care, Routine, Learning, Sold}

// Profile is the work one machine does, by year from 1; element 0 is year 1.
// Money and hours are at first-year prices.
type Profile struct {
	Hours    []float64 // running hours
	OwnHours []float64 // hours of own people at it
	Wear     []float64 // edges and abrasives
	// Abrasives are the part of Wear that is not edges. Nothing is reckoned from
	// them; nil where nobody asks.
	Abrasives []float64
	Longest   quantity.Length
}

// Ownership is the cost of owning one machine: Table[line][t] for t = 0 (today)
// to the horizon.
type Ownership struct {
	Table   [Lines][]float64
	Area    float64 // m² of floor, fixtures included
	Present float64 // present cost after tax, today

	from, to int // bought at the end of year from, sold for good at the end of year to
}

// Own reckons the ownership of one machine from today to the horizon, for the
// work in the profile, which must cover the horizon.
//
// Source: after-tax cash flow as in C. S. Park, Contemporary Engineering
// Economics (after-tax cash flow analysis); fixed and operating cost lines as
// in ASABE EP496 and D497.
func Own(study *model.Study, machine *model.Machine, profile Profile) Ownership {
	return OwnBetween(study, machine, profile, 0, int(study.Studio.Horizon))
}

// OwnBetween is Own for a machine that is bought at the end of year from (0:
// today), replaced as the study says, and sold for good at the end of year to,
// which must lie after from and not beyond the horizon. Years outside cost
// nothing; the profile covers the horizon all the same. What is paid once is
// paid at the prices of year from.
//
// Source: as Own.
func OwnBetween(study *model.Study, machine *model.Machine, profile Profile, from, to int) Ownership {
	horizon := int(study.Studio.Horizon)
	owned := Ownership{Area: FloorArea(study, machine, profile.Longest), from: from, to: to}
	cells := make([]float64, int(Lines)*(horizon+1))
	for line := range owned.Table {
		owned.Table[line] = cells[line*(horizon+1) : (line+1)*(horizon+1) : (line+1)*(horizon+1)]
	}
	ages(owned.Table[Age][from:to+1], int(machine.YearsKept))
	values(&owned, study, machine, profile)
	purchases(&owned, study, machine)
	borrowing(&owned, machine)
	operating(&owned, study, machine, profile)
	disposals(&owned, study, machine)
	taxes(&owned, study, machine, profile)
	addUp(&owned, float64(study.Studio.DiscountRate))
	return owned
}

// ages counts the years since the machine at work was bought.
func ages(age []float64, kept int) {
	for t := 1; t < len(age); t++ {
		age[t] = float64((t-1)%kept + 1)
	}
}

// boughtAt tells whether a machine is bought at the end of year t: the first
// one and every replacement.
func (o *Ownership) boughtAt(t int) bool { return t == o.from || o.soldAt(t) && t < o.to }

// soldAt tells whether a machine is sold at the end of year t.
func (o *Ownership) soldAt(t int) bool {
	return t == o.to || t > o.from && t < o.to && o.Table[Age][t+1] == 1
}

// addUp sums the lines of each year and discounts them.
func addUp(owned *Ownership, rate float64) {
	factor := 1.0
	for t := range owned.Table[Net] {
		sum := 0.0
		for _, line := range costs {
			sum += owned.Table[line][t]
		}
		owned.Table[Net][t] = sum
		owned.Table[Discount][t] = factor
		owned.Table[Present][t] = sum * factor
		owned.Present += sum * factor
		factor /= 1 + rate
	}
}

// FloorArea returns the floor in m² that a machine takes: its footprint, the
// longest piece and clearance at both ends, clearance on both sides, times the
// share that nothing else uses. A machine that is put away takes none. The floor
// of the fixtures that it pays for comes on top.
//
// Source: common practice, no source.
func FloorArea(study *model.Study, machine *model.Machine, longest quantity.Length) float64 {
	area := 0.0
	if machine.FootprintLength > 0 {
		length := float64(machine.FootprintLength + 2*(longest+study.Studio.EndClearance))
		width := float64(machine.FootprintWidth + 2*study.Studio.SideClearance)
		area = length * width * float64(machine.FloorShare)
	}
	for _, fixture := range Shared(study, machine) {
		area += float64(fixture.Area)
	}
	return area
}

// RunningCost adds up what a year's work costs and is deducted in that year:
// interest, upkeep, floor, energy, edges, own time and the like.
func (o *Ownership) RunningCost(t int) float64 {
	sum := 0.0
	for _, line := range running {
		sum += o.Table[line][t]
	}
	return sum
}

// Paid returns the money that each year begins with paying: what buying and
// replacing the machine costs on the day, less what is borrowed for it. Element
// 0 is today. A machine traded in is not set against it.
func (o *Ownership) Paid() []float64 {
	paid := make([]float64, len(o.Table[Price]))
	for t := range paid {
		for _, line := range [...]Line{Price, SalesTax, Moving, Fixtures, Start, Borrowed} {
			paid[t] += o.Table[line][t]
		}
	}
	return paid
}
