package conformance

import (
	"fmt"

	"shopstint/capital"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/published"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
)

// Bare is a machine that costs its price and nothing else, in a study of its own.
func Bare(price, rate float64) (*model.Study, *model.Machine) {
	s := studygen.Round()
	s.Machines = s.Machines[:1]
	m := &s.Machines[0]
	m.Price, m.NewPrice, m.UpkeepShare = quantity.Money(price), quantity.Money(price), 0
	s.Studio.DiscountRate, s.Studio.FloorCost = quantity.Share(rate), 0
	return s, m
}

// same is the same work every year.
func same(years int, hours float64) capital.Profile {
	profile := capital.Profile{Hours: make([]float64, years), OwnHours: make([]float64, years), Wear: make([]float64, years)}
	for t := range years {
		profile.Hours[t] = hours
	}
	return profile
}

// Earning is the machine of an after-tax case: it earns the revenue as hours sold,
// pays the costs as other yearly costs and is sold at the horizon.
func Earning(in *published.Inputs) (*model.Study, *model.Machine) {
	s, m := Bare(in.Number("price"), in.Number("rate"))
	years := int(in.Number("sale_year"))
	s.Studio.Horizon, m.YearsKept = quantity.Years(years), quantity.Years(years)
	s.Studio.TaxRate = quantity.Share(in.Number("tax_rate"))
	m.HoursSold, m.SoldRate = quantity.Hours(1000), quantity.MoneyPerHour(in.Number("revenue")/1000)
	m.YearlyOther = quantity.Money(in.Number("costs"))
	m.Resale, m.ValueTable = model.ResaleTable, make([]quantity.Share, years)
	m.ValueTable[years-1] = quantity.Share(in.Number("sale") / in.Number("price"))
	if convention := in.Text("convention"); convention != "half-year" {
		in.Keep(fmt.Errorf("%s: no convention %q", in.Case, convention))
	}
	m.Tax = model.Depreciation{Method: model.TaxHalfYear, Life: quantity.Years(in.Number("class"))}
	return s, m
}

func afterTax(in *published.Inputs) worked {
	s, m := Earning(in)
	if in.Err() != nil {
		return nil
	}
	years := int(s.Studio.Horizon)
	owned := capital.Own(s, m, same(years, 0))
	flows := times(-1, owned.Table[capital.Net])
	gain := owned.Table[capital.Gain][years]
	return worked{
		"depreciation": owned.Table[capital.Deducted][1:],
		"book_value":   {owned.Table[capital.Book][years]},
		"gain":         {gain},
		"tax_on_gain":  {gain * float64(s.Studio.TaxRate)},
		"flows":        flows,
		"present":      {-owned.Present},
		"return":       timevalue.ReturnRates(flows),
	}
}

// keptYears takes the operating costs as wear and the market values as a table of
// resale.
func keptYears(in *published.Inputs) worked {
	s, m := Bare(in.Number("price"), in.Number("rate"))
	operating, market := in.List("operating"), in.List("market")
	m.Resale = model.ResaleTable
	for _, value := range market {
		m.ValueTable = append(m.ValueTable, quantity.Share(value/float64(m.Price)))
	}
	if in.Err() != nil {
		return nil
	}
	profile := same(len(operating), 0)
	profile.Wear = operating
	life := capital.EconomicLife(s, m, profile)
	return worked{
		"costs": life.Annual, "last": life.Annual[len(life.Annual)-1:],
		"life": {float64(life.Best)}, "cost": {life.Least},
	}
}

// ownershipCost runs the method the case names.
func ownershipCost(in *published.Inputs) worked {
	switch in.Text("method") {
	case "owning-cost worksheet":
		return worksheet(in)
	case "average investment":
		return averageInvestment(in)
	default:
		return unknown(in)
	}
}

// worksheet adds sales tax and freight to the price less its discount, and spreads
// all but salvage and tires over the machine's hours.
func worksheet(in *published.Inputs) worked {
	s, m := Bare(in.Number("list")*(1-in.Number("discount")), 0.1)
	hours := in.Number("hours_a_year")
	m.SalesTax, m.Delivery = quantity.Share(in.Number("sales_tax")), quantity.Money(in.Number("hundredweights")*in.Number("freight"))
	m.LifeHours, m.Tax.Method = quantity.Hours(in.Number("life_hours")), model.TaxUnitsOfProduction
	s.Studio.Horizon, m.YearsKept = 1, 1
	paid := func(owned *capital.Ownership) float64 {
		table := &owned.Table
		return table[capital.Price][0] + table[capital.SalesTax][0] + table[capital.Moving][0]
	}
	owned := capital.Own(s, m, same(1, hours))
	total := paid(&owned)
	m.Tax.Salvage = quantity.Share(in.Number("salvage_share") + in.Number("tires")*in.Number("tire_index")/total)
	owned = capital.Own(s, m, same(1, hours))
	return worked{
		"price": {owned.Table[capital.Price][0]}, "tax": {owned.Table[capital.SalesTax][0]}, "moving": {owned.Table[capital.Moving][0]}, "total": {paid(&owned)},
		"per_hour": {owned.Table[capital.Deducted][1] / hours},
	}
}

// averageInvestment charges interest as insurance is charged, on what the machine
// is worth at the beginning of each year, with a value that falls in a straight line.
func averageInvestment(in *published.Inputs) worked {
	s, m := Bare(in.Number("price"), 0.1)
	years, hours, salvage := int(in.Number("years")), in.Number("hours"), in.Number("salvage")/in.Number("price")
	s.Studio.Horizon, m.YearsKept, m.Insurance = quantity.Years(years), quantity.Years(years), quantity.Share(in.Number("rate"))
	m.Tax = model.Depreciation{Method: model.TaxStraightLine, Life: quantity.Years(years), Salvage: quantity.Share(salvage)}
	m.Resale = model.ResaleTable
	for year := 1; year <= years; year++ {
		m.ValueTable = append(m.ValueTable, quantity.Share(1-(1-salvage)*float64(year)/float64(years)))
	}
	if in.Err() != nil {
		return nil
	}
	table := capital.Own(s, m, same(years, hours)).Table
	interest, deducted := sum(table[capital.Insurance])/float64(years), table[capital.Deducted][1]
	return worked{
		"investment": {interest / in.Number("rate")}, "interest_an_hour": {interest / hours},
		"depreciation_an_hour": {deducted / hours}, "per_hour": {(interest + deducted) / hours},
	}
}
