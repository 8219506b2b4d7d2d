package capital

import (
	"shopstint/capital/economiclife"
	"shopstint/model"
)

// Life is the economic life of a machine: what it costs a year, before tax and
// without a loan, by the number of years it is kept.
type Life struct {
	Operating    []float64 // running costs by age, from 1
	Value        []float64 // market value less moving it out, by age
	Annual       []float64 // equivalent annual cost by years kept
	Best         int       // years kept at the least annual cost
	Least        float64
	StillFalling bool // the least cost stands at the end of the curve
}

// EconomicLife reckons the cost curve for years kept from 1 to the length of
// the profile. Fixtures and the start are left out: they stay when the machine
// is replaced.
//
// Source: L. Blank and A. Tarquin, Engineering Economy, economic service life
// (least equivalent annual worth over all lives).
func EconomicLife(study *model.Study, machine *model.Machine, profile Profile) Life {
	years := len(profile.Hours)
	life := Life{Operating: make([]float64, years), Value: make([]float64, years)}
	price, area := float64(machine.Price), FloorArea(study, machine, profile.Longest)
	before := price
	for k := 1; k <= years; k++ {
		costs := RunningCosts(study, machine, profile, Year{T: k, Age: k, Before: before, Area: area})
		for _, line := range running {
			if line != Sold && line != Learning {
				life.Operating[k-1] += costs[line]
			}
		}
		before = price * ValueShare(machine, float64(k), profile.Hours[0])
		life.Value[k-1] = before - float64(machine.RiggingOut)
	}
	paid := price*(1+float64(machine.SalesTax)) + float64(machine.Delivery+machine.Rigging)
	life.Annual = economiclife.EquivalentAnnualCosts(float64(study.Studio.DiscountRate), paid, life.Operating, life.Value)
	life.Best, life.Least = economiclife.Best(life.Annual)
	life.StillFalling = life.Best == years
	return life
}
