package ways

import (
	"shopstint/capital"
	"shopstint/model"
)

// Kept is what a way has bought and keeps: what that costs a year, whatever the
// work. Money.
type Kept struct {
	Paid     float64 // laid out at first
	Back     float64 // comes back in the end
	Years    float64 // kept so long
	Recovery float64 // a year: what is paid less what comes back, with the discount rate
	Upkeep   float64 // a year, in the mean of the years kept
	Housing  float64 // a year: insurance, permits, floor, demand for current, own care each month
	Stock    float64 // worth of the edges or abrasives in the drawer
	Interest float64 // a year: what the money in them would earn
}

// Yearly returns what it all costs a year.
func (k *Kept) Yearly() float64 { return k.Recovery + k.Upkeep + k.Housing + k.Interest }

// buy fills in what is bought for a way and what lies in the drawer.
//
// Source: fixed costs as in ASABE EP496, Agricultural Machinery Management: capital
// recovery, and insurance on the mean of price and remaining value.
func (w *Way) buy(study *model.Study, comparison *model.Comparison, given *model.Way) {
	rate := float64(study.Studio.DiscountRate)
	w.Kept = Kept{Paid: float64(given.Price), Back: float64(given.Resale), Years: float64(given.YearsKept), Upkeep: float64(given.YearlyUpkeep)}
	if machine, ok := model.Find(study.Machines, given.Machine); ok {
		w.buyMachine(study, &machine, comparison)
	}
	first := firstSet(study, given)
	w.Kept.Stock = first * float64(given.Spares)
	w.Kept.Interest = w.Kept.Stock * rate
	w.Kept.Recovery = Recovery(rate, w.Kept.Years, w.Kept.Paid, w.Kept.Back)
	w.Outlay = w.Kept.Paid + w.Kept.Stock + first
}

// firstSet is the price of the edge, or of one of each abrasive.
func firstSet(study *model.Study, given *model.Way) float64 {
	sum := 0.0
	if edge, ok := model.Find(study.Edges, given.Edge); ok {
		sum += float64(edge.Price)
	}
	for _, key := range given.Abrasives {
		abrasive, _ := model.Find(study.Abrasives, key)
		sum += float64(abrasive.Price)
	}
	return sum
}

// buyMachine takes what is bought from a machine of the study, all its work
// being that of the comparison. Its learning, its loan, hours sold to others and
// fixtures that it shares are left out.
func (w *Way) buyMachine(study *model.Study, machine *model.Machine, comparison *model.Comparison) {
	years, k := int(machine.YearsKept), &w.Kept
	machine.Fixtures = nil
	price, fixtures := float64(machine.Price), float64(machine.Wiring+machine.Converter+machine.DustCollection+machine.Compressor)
	back := price * capital.ValueShare(machine, float64(years), w.Hours)
	k.Years = float64(years)
	k.Paid = price*(1+float64(machine.SalesTax)) + float64(machine.Delivery+machine.Rigging) + fixtures
	k.Back = back - float64(machine.RiggingOut) + fixtures*float64(machine.FixturesResale)
	hours := make([]float64, years)
	for t := range hours {
		hours[t] = w.Hours
	}
	k.Upkeep = 0
	for t := range hours {
		k.Upkeep += capital.Repair(machine, hours, t+1, t+1) / float64(years)
	}
	year := capital.Year{T: 1, Age: 1, Before: (price + back) / 2, Area: capital.FloorArea(study, machine, comparison.PieceLength)}
	costs := capital.RunningCosts(study, machine, capital.Profile{Hours: []float64{1}, OwnHours: []float64{0}, Wear: []float64{0}}, year)
	k.Housing = costs[capital.Insurance] + costs[capital.Other] + costs[capital.Floor] + costs[capital.Demand] + costs[capital.Routine]
	w.Power, w.Care = costs[capital.Energy], float64(machine.CareShare)
}
