package capital

import (
	"shopstint/capital/depreciation"
	"shopstint/model"
)

// taxes fills in depreciation, gain on disposal and the tax effect of each
// year. Costs are deducted in the year they fall in, the start in the first one.
func taxes(owned *Ownership, study *model.Study, machine *model.Machine, profile Profile) {
	table := &owned.Table
	var schedule []float64
	var basis float64
	for t := owned.from + 1; t <= owned.to; t++ {
		bought, age := boughtIn(owned, t), int(table[Age][t])
		before := table[Book][t-1]
		if age == 1 {
			basis = table[Price][bought] + table[SalesTax][bought] + table[Moving][bought] + table[Fixtures][bought]
			schedule = Schedule(machine, profile.Hours[bought:])
			before = basis
		}
		table[TaxShare][t] = taxShare(&machine.Tax, schedule, age, owned.soldAt(t))
		table[Deducted][t] = basis * table[TaxShare][t]
		table[Book][t] = before - table[Deducted][t]
		if owned.soldAt(t) {
			table[Gain][t] = -table[Resale][t] - table[FixturesBack][t] - table[RiggingOut][t] - table[Book][t]
		}
		table[Tax][t] = -float64(study.Studio.TaxRate) * (deductions(owned, t) - table[Gain][t])
	}
}

// deductions sums what lowers the taxable profit of a year.
func deductions(owned *Ownership, t int) float64 {
	sum := owned.Table[Deducted][t]
	for _, line := range running {
		sum += owned.Table[line][t]
	}
	if t == owned.from+1 {
		sum += owned.Table[Start][owned.from]
	}
	return sum
}

// taxShare returns the share of the basis deducted in a year of age: a share
// written off at once in the first year, the method's share of the rest, and
// only part of it in the year of sale where the convention says so.
func taxShare(tax *model.Depreciation, schedule []float64, age int, sold bool) float64 {
	share := 0.0
	if age <= len(schedule) {
		share = schedule[age-1] * (1 - float64(tax.FirstYear))
	}
	if age < len(schedule) && sold {
		share *= SaleYearShare(tax)
	}
	if age == 1 && tax.Method != model.TaxNone {
		share += float64(tax.FirstYear)
	}
	return share
}

// Schedule returns the shares of the basis that the machine's tax method
// deducts by year of age, for the running hours of those years.
//
// Source: the methods of package depreciation.
func Schedule(machine *model.Machine, hours []float64) []float64 {
	tax := &machine.Tax
	life, salvage := int(tax.Life), float64(tax.Salvage)
	switch tax.Method {
	case model.TaxStraightLine:
		return depreciation.StraightLine(life, salvage)
	case model.TaxDecliningBalance:
		return depreciation.DecliningBalance(life, salvage, float64(tax.Factor))
	case model.TaxSumOfYears:
		return depreciation.SumOfYears(life, salvage)
	case model.TaxUnitsOfProduction:
		return depreciation.UnitsOfProduction(hours, UnitsLeft(machine), salvage)
	case model.TaxHalfYear:
		return published(depreciation.HalfYear(life))
	case model.TaxMidQuarter:
		return published(depreciation.MidQuarter(life, int(tax.Quarter)))
	}
	return nil
}

// published drops the error of a class without a table: such a class was
// refused when the study was checked, and deducts nothing here.
func published(table []float64, err error) []float64 {
	if err != nil {
		return nil
	}
	return table
}

// UnitsLeft returns the running hours over which units of production spreads
// the basis: the machine's life less what it had run when bought.
func UnitsLeft(machine *model.Machine) float64 {
	return machine.LifeHours.Hours() - machine.Hours.Hours()
}

// SaleYearShare returns the share of the year's deduction that the method's
// convention allows in the year of sale. Sales happen at the end of a year, in
// its fourth quarter.
//
// Source: IRS Publication 946, How To Depreciate Property, disposition before the end of the recovery period.
func SaleYearShare(tax *model.Depreciation) float64 {
	convention := depreciation.FullYear
	switch tax.Method {
	case model.TaxHalfYear:
		convention = depreciation.HalfYearly
	case model.TaxMidQuarter:
		convention = depreciation.MidQuarterly
	}
	share, err := depreciation.DisposalShare(convention, 4)
	if err != nil {
		return 1 // cannot be: the fourth quarter exists in every convention
	}
	return share
}
