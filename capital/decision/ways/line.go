package ways

import (
	"math"

	"shopstint/capital/timevalue"
)

// Line is what a way costs: Fixed a year whatever the work, and Unit for each
// metre or square metre of it.
type Line struct {
	Fixed float64 // money a year
	Unit  float64 // money a metre or square metre
}

// Yearly returns what an amount of work costs in a year.
func (l Line) Yearly(amount float64) float64 { return l.Fixed + l.Unit*amount }

// Outcome says how the yearly costs of two ways lie to each other over all
// amounts of work above zero.
type Outcome int

// The outcomes of a pair. Crossing is the only one with a break-even.
const (
	Same Outcome = iota // both cost the same at any amount
	FirstAlways
	SecondAlways
	Crossing
)

// BreakEven compares two ways over all amounts of work. Where the costs cross,
// at is the amount at which they agree: the difference of what is fixed over
// the difference of what each unit costs. Below it the way with less fixed cost
// is cheaper, above it the other one. It is 0 without a crossing.
//
// Source: R. Gutierrez and N. Dalsted, Break-Even Method of Investment Analysis,
// Colorado State University Extension, Fact Sheet 3.759: F ÷ (S − V).
func BreakEven(first, second Line) (outcome Outcome, at float64) {
	fixed, unit := Apart(first.Fixed, second.Fixed), Apart(second.Unit, first.Unit)
	switch {
	case fixed == 0 && unit == 0:
		return Same, 0
	case fixed <= 0 && unit >= 0:
		return FirstAlways, 0
	case fixed >= 0 && unit <= 0:
		return SecondAlways, 0
	}
	return Crossing, fixed / unit
}

// dust is the share of two figures by which they may differ and are still the
// same: what adding up in another order leaves.
const dust = 1e-9

// Apart is the difference of two figures, 0 where it is dust.
func Apart(a, b float64) float64 {
	if math.Abs(a-b) <= dust*(math.Abs(a)+math.Abs(b)) {
		return 0
	}
	return a - b
}

// Recovery returns what a purchase costs a year, so that at the rate it pays
// itself back over the years kept: the price less the present worth of the
// resale, times A/P. Before tax.
//
// Source: C. S. Park, Contemporary Engineering Economics, capital recovery with
// return (from memory, page not seen).
func Recovery(rate, years, price, resale float64) float64 {
	return timevalue.EquivalentAnnual(rate, years, price-resale*timevalue.DiscountFactor(rate, years))
}
