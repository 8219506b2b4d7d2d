package capital

import (
	"math"

	"shopstint/capital/upkeep"
	"shopstint/model"
	"shopstint/model/work"
)

// Year is one year of a machine at work: the t-th year ahead, the age-th since
// it was bought, what it was worth when the year began and the floor it takes.
type Year struct {
	T, Age int
	Before float64 // value at the start of the year
	Area   float64 // m²
	New    bool    // nobody has worked with it before
}

// operating fills in the costs of each year's work.
func operating(owned *Ownership, study *model.Study, machine *model.Machine, profile Profile) {
	for t := owned.from + 1; t <= owned.to; t++ {
		year := Year{T: t, Age: int(owned.Table[Age][t]), Before: valueBefore(owned, t), Area: owned.Area, New: t == owned.from+1}
		costs := RunningCosts(study, machine, profile, year)
		for _, line := range running {
			if line != Interest {
				owned.Table[line][t] = costs[line]
			}
		}
	}
}

// RunningCosts returns the costs of one year's work, each escalated by its own
// category; the first year is at today's prices. Lines that are no running
// cost stay zero.
//
// Source: cost lines as in ASABE EP496, Agricultural Machinery Management.
func RunningCosts(study *model.Study, machine *model.Machine, profile Profile, year Year) [Lines]float64 {
	grow := func(share float64) float64 { return math.Pow(1+share, float64(year.T-1)) }
	growth, studio := &study.Growth, &study.Studio
	hours := profile.Hours[year.T-1]
	energy, upkeepGrowth := grow(float64(growth.Energy)), grow(float64(growth.Upkeep))
	labour := grow(float64(growth.Labour)) * float64(studio.LabourRate)
	costs := [Lines]float64{
		Upkeep:    Repair(machine, profile.Hours, year.T, year.Age) * upkeepGrowth,
		Insurance: year.Before * float64(machine.Insurance+machine.PropertyTax),
		Other:     float64(machine.YearlyOther) * upkeepGrowth,
		Floor:     year.Area * float64(studio.FloorCost) * grow(float64(growth.Floor)),
		Energy:    hours * drawn(machine, float64(machine.MeanLoad)) * float64(studio.EnergyPrice) * energy,
		Demand:    drawn(machine, 1) * float64(studio.DemandCharge) * float64(machine.DemandMonths) * energy,
		Wear:      profile.Wear[year.T-1] * grow(float64(growth.Consumables)),
		OwnTime:   profile.OwnHours[year.T-1] * labour,
		Care:      hours * float64(machine.CareShare) * labour,
		Routine:   12 * machine.CarePerMonth.Hours() * labour,
		Sold:      -machine.HoursSold.Hours() * float64(machine.SoldRate) * (1 - float64(machine.SoldCost)) * grow(float64(growth.Rental)),
	}
	if year.New {
		costs[Learning] = costs[OwnTime] * float64(machine.LearningShare)
	}
	return costs
}

// WorkCosts returns the part of the running costs of year t that is in
// proportion to the work: energy, wear, own time at the machine and for its
// care, in money of that year and before tax.
//
// Source: as RunningCosts.
func WorkCosts(study *model.Study, machine *model.Machine, profile Profile, t int) float64 {
	costs := RunningCosts(study, machine, profile, Year{T: t})
	return costs[Energy] + costs[Wear] + costs[OwnTime] + costs[Care]
}

// valueBefore is what the machine was worth when the year began; a machine
// that was just bought is worth its price.
func valueBefore(owned *Ownership, t int) float64 {
	if owned.Table[Age][t] == 1 {
		return owned.Table[Price][t-1]
	}
	return owned.Table[Value][t-1]
}

// Repair returns upkeep in year t at today's prices, for a machine in its
// age-th year that ran hours[i] in year i+1.
//
// Source: accumulated repair: ASABE D497, Agricultural Machinery Management
// Data, repair and maintenance equation; share of price: common practice, no source.
func Repair(machine *model.Machine, hours []float64, t, age int) float64 {
	price := float64(machine.NewPrice)
	if machine.Upkeep == model.UpkeepAccumulated {
		after := HoursSoFar(machine, hours, t, age)
		rf1, rf2 := float64(machine.RepairFactor), float64(machine.RepairPower)
		return upkeep.AccumulatedRepair(price, rf1, rf2, after) - upkeep.AccumulatedRepair(price, rf1, rf2, after-hours[t-1])
	}
	old := float64(machine.Age) + float64(age) - 1
	return price * float64(machine.UpkeepShare) * math.Pow(1+float64(machine.UpkeepRise), old)
}

// HoursSoFar returns the running hours in the life of the machine at the end
// of year t, its age-th with the studio.
func HoursSoFar(machine *model.Machine, hours []float64, t, age int) float64 {
	total := machine.Hours.Hours()
	for _, h := range hours[t-age : t] {
		total += h
	}
	return total
}

// drawn returns the kilowatts drawn at a share of the motor's rating, with the
// collector and compressor that run beside it.
func drawn(machine *model.Machine, load float64) float64 {
	return (work.InputPower(machine.Motor, load, float64(machine.Efficiency)) + machine.ExtraPower).Kilowatts()
}
