package capital

import (
	"math"

	"shopstint/model"
)

// Turn is one machine of a chain of replacements: bought at the end of year From
// (0: today), sold at the end of year To.
type Turn struct{ From, To int }

// Turns lists the machines that follow each other while one is owned.
func (o *Ownership) Turns() []Turn {
	var turns []Turn
	for t := o.from; t < o.to; t++ {
		if o.boughtAt(t) {
			turns = append(turns, Turn{From: t})
		}
		if o.soldAt(t + 1) {
			turns[len(turns)-1].To = t + 1
		}
	}
	return turns
}

// Replacing is what putting the next machine in the place of one costs, kept so
// many years since the end of year bought, at the prices of then: the new one
// moved in with its sales tax, and what the old one fetches once moved out. It
// runs so many hours a year. Amounts are in money of the year of replacement.
//
// Source: as OwnBetween.
func Replacing(study *model.Study, machine *model.Machine, hoursPerYear float64, bought, kept int) (paid, fetched float64) {
	at := bought + kept
	paid = priceAt(study, machine, at)*(1+float64(machine.SalesTax)) +
		float64(machine.Delivery+machine.Rigging)*math.Pow(1+float64(study.Growth.Machines), float64(at))
	fetched = priceAt(study, machine, bought)*ValueShare(machine, float64(kept), hoursPerYear) - float64(machine.RiggingOut)
	return paid, fetched
}
