package capital

import (
	"math"

	"shopstint/capital/loan"
	"shopstint/capital/upkeep"
	"shopstint/model"
	"shopstint/model/quantity"
)

// ValueShare returns the share of the price paid that a machine still fetches
// after some years of ownership, given its running hours a year.
//
// Source: declining value: common practice, no source; remaining value: ASABE
// D497, Agricultural Machinery Management Data, remaining value equation.
func ValueShare(machine *model.Machine, years, hoursPerYear float64) float64 {
	if years == 0 {
		return 1
	}
	switch machine.Resale {
	case model.ResaleTable:
		return float64(machine.ValueTable[min(int(years), len(machine.ValueTable))-1])
	case model.ResaleRemainingValue:
		return relative(machine, years, func(age float64) float64 {
			return upkeep.RemainingShare(float64(machine.ValueC1), float64(machine.ValueC2), float64(machine.ValueC3), age, hoursPerYear)
		})
	default:
		return relative(machine, years, func(age float64) float64 { return declining(machine, age) })
	}
}

// relative measures the value of a used machine against its value at the age
// at which it was bought.
func relative(machine *model.Machine, years float64, share func(age float64) float64) float64 {
	if machine.Age == 0 {
		return share(years)
	}
	start := share(float64(machine.Age))
	if start == 0 {
		return 0
	}
	return share(float64(machine.Age)+years) / start
}

// declining loses the first year's share evenly over that year, then a
// constant share of the value each year.
func declining(machine *model.Machine, age float64) float64 {
	first := float64(machine.FirstYearValue)
	if age < 1 {
		return 1 - (1-first)*age
	}
	return first * math.Pow(float64(machine.YearlyValue), age-1)
}

// values fills in what the machine at work would fetch at the end of each year.
func values(owned *Ownership, study *model.Study, machine *model.Machine, profile Profile) {
	copy(owned.Table[Running][owned.from+1:], profile.Hours[owned.from:owned.to])
	for t := owned.from; t <= owned.to; t++ {
		price := priceAt(study, machine, boughtIn(owned, t))
		owned.Table[Value][t] = price * ValueShare(machine, owned.Table[Age][t], profile.Hours[owned.from])
	}
}

// boughtIn returns the year at whose end the machine at work in year t was bought.
func boughtIn(owned *Ownership, t int) int { return t - int(owned.Table[Age][t]) }

// priceAt is the price of the machine, or of its replacement, in year t.
func priceAt(study *model.Study, machine *model.Machine, t int) float64 {
	return float64(machine.Price) * math.Pow(1+float64(study.Growth.Machines), float64(t))
}

// purchases fills in what buying costs. Fixtures and the start are paid once;
// a replacement pays its price, tax and moving again.
func purchases(owned *Ownership, study *model.Study, machine *model.Machine) {
	for t := owned.from; t <= owned.to; t++ {
		if !owned.boughtAt(t) {
			continue
		}
		price := priceAt(study, machine, t)
		owned.Table[Price][t] = price
		owned.Table[SalesTax][t] = price * float64(machine.SalesTax)
		owned.Table[Moving][t] = float64(machine.Delivery+machine.Rigging) * math.Pow(1+float64(study.Growth.Machines), float64(t))
	}
	owned.Table[Fixtures][owned.from] = fixtures(study, machine, owned.from) + shared(study, machine, owned.from, func(f model.Fixture) float64 { return 1 })
	owned.Table[Start][owned.from] = start(study, machine, owned.from)
}

// Shared lists the fixtures that a machine pays for: all that it names.
func Shared(study *model.Study, machine *model.Machine) []model.Fixture {
	var list []model.Fixture
	for _, key := range machine.Fixtures {
		if fixture, ok := model.Find(study.Fixtures, key); ok {
			list = append(list, fixture)
		}
	}
	return list
}

// shared sums a share of the prices of the fixtures that a machine pays for at
// the end of year t; they grow as its own do.
func shared(study *model.Study, machine *model.Machine, t int, of func(model.Fixture) float64) float64 {
	total := 0.0
	for _, fixture := range Shared(study, machine) {
		total += float64(fixture.Price) * of(fixture)
	}
	return total * math.Pow(1+float64(study.Growth.Machines), float64(t))
}

// fixtures are the machine's own. They grow in price as machines do.
func fixtures(study *model.Study, machine *model.Machine, t int) float64 {
	total := float64(machine.Wiring + machine.Converter + machine.DustCollection + machine.Compressor)
	return total * math.Pow(1+float64(study.Growth.Machines), float64(t))
}

// start is what makes a new machine ready for work, own learning time included.
// A course grows in price as machines do.
func start(study *model.Study, machine *model.Machine, t int) float64 {
	grow := func(share quantity.Share) float64 { return math.Pow(1+float64(share), float64(t)) }
	growth := &study.Growth
	total := float64(machine.Training)*grow(growth.Machines) + LearningTime(study, machine, t) + float64(machine.FirstAbrasives)*grow(growth.Consumables)
	if edge, ok := model.Find(study.Edges, machine.Edge); ok {
		total += float64(machine.FirstEdges) * float64(edge.Price) * grow(growth.Consumables)
	}
	return total
}

// LearningTime is the part of the start that is own time: what learning a machine
// that is bought at the end of year t takes, at the worth of an hour then.
//
// Source: by definition.
func LearningTime(study *model.Study, machine *model.Machine, t int) float64 {
	return machine.TrainingTime.Hours() * float64(study.Studio.LabourRate) * math.Pow(1+float64(study.Growth.Labour), float64(t))
}

// borrowing fills in the loan on each purchase. What is owed when a machine is
// sold is paid back from the sale.
func borrowing(owned *Ownership, machine *model.Machine) {
	if machine.Loan.Share == 0 {
		return
	}
	rate, months := float64(machine.Loan.APR)/12, int(machine.Loan.Months)
	for t := owned.from; t <= owned.to; t++ {
		if owned.boughtAt(t) {
			owned.Table[Borrowed][t] = -owned.Table[Price][t] * float64(machine.Loan.Share)
		}
		age := int(owned.Table[Age][t])
		if age == 0 {
			owned.Table[Owed][t] = -owned.Table[Borrowed][t]
			continue
		}
		lent := -owned.Table[Borrowed][boughtIn(owned, t)]
		owned.Table[Owed][t] = loan.Balance(lent, rate, months, 12*age)
		owned.Table[Interest][t] = loan.YearInterest(lent, rate, months, age)
		owned.Table[Principal][t] = loan.YearPrincipal(lent, rate, months, age)
		if owned.soldAt(t) {
			owned.Table[Principal][t] += owned.Table[Owed][t]
		}
	}
}

// disposals fills in the sale at each replacement and for good. Fixtures stay
// until the machine is sold for good.
func disposals(owned *Ownership, study *model.Study, machine *model.Machine) {
	for t := owned.from; t <= owned.to; t++ {
		if owned.soldAt(t) {
			owned.Table[Resale][t] = -owned.Table[Value][t]
			owned.Table[RiggingOut][t] = float64(machine.RiggingOut)
		}
	}
	back := fixtures(study, machine, owned.from) * float64(machine.FixturesResale)
	back += shared(study, machine, owned.from, func(f model.Fixture) float64 { return float64(f.Resale) })
	owned.Table[FixturesBack][owned.to] = -back
}
