package conformance

import (
	"fmt"

	"shopstint/capital/depreciation"
	"shopstint/capital/economiclife"
	"shopstint/capital/loan"
	"shopstint/capital/upkeep"
	"shopstint/model/published"
)

func capitalRooms() []Room {
	return []Room{
		{"capital/depreciation", map[string]published.WorkOut{"depreciation": depreciated}},
		{"capital/economiclife", map[string]published.WorkOut{"economiclife": economicLife}},
		{"capital/loan", map[string]published.WorkOut{"loan": loans}},
		{"capital/timevalue", map[string]published.WorkOut{"timevalue": timeValue, "machinerate": timeValue}},
		{"capital/upkeep", map[string]published.WorkOut{"upkeep": upkept}},
		{"capital", map[string]published.WorkOut{"aftertax": afterTax, "economiclife": keptYears, "ownershipcost": ownershipCost}},
	}
}

// depreciated gives the schedule of the method the case names in percent and,
// where there is a cost, in money.
func depreciated(in *published.Inputs) worked {
	cost := 100.0
	if in.Has("cost") {
		cost = in.Number("cost")
	}
	shares, err := schedule(in, cost)
	in.Keep(err)
	if in.Err() != nil {
		return nil
	}
	amounts := times(cost, shares)
	got := worked{
		"percent":    times(100, shares),
		"deductions": amounts,
		"first":      amounts[:1],
		"last":       amounts[len(amounts)-1:],
		"total":      {sum(amounts)},
		"book":       {cost - sum(amounts)},
	}
	if in.Has("from") {
		got["between"] = []float64{sum(amounts[int(in.Number("from")):int(in.Number("to"))])}
	}
	return got
}

// schedule gives the method's share of the cost for each year.
func schedule(in *published.Inputs, cost float64) ([]float64, error) {
	life := func() int { return int(in.Number("life")) }
	salvage := func() float64 { return in.Number("salvage") / cost }
	switch method := in.Text("method"); method {
	case "half-year":
		return depreciation.HalfYear(int(in.Number("class")))
	case "mid-quarter":
		return depreciation.MidQuarter(int(in.Number("class")), int(in.Number("quarter")))
	case "straight line half-year":
		return depreciation.StraightLineHalfYear(life()), nil
	case "straight line":
		return depreciation.StraightLine(life(), salvage()), nil
	case "sum of years":
		return depreciation.SumOfYears(life(), salvage()), nil
	case "declining balance":
		return depreciation.DecliningBalance(life(), salvage(), in.Number("factor")), nil
	case "declining balance without switch":
		return depreciation.DecliningBalanceNoSwitch(life(), salvage(), in.Number("factor")), nil
	case "units of production":
		return depreciation.UnitsOfProduction(in.List("units"), in.Number("total_units"), salvage()), nil
	default:
		return nil, fmt.Errorf("%s: no method %q", in.Case, method)
	}
}

func times(factor float64, shares []float64) []float64 {
	out := make([]float64, len(shares))
	for i, share := range shares {
		out[i] = factor * share
	}
	return out
}

func sum(amounts []float64) float64 {
	total := 0.0
	for _, amount := range amounts {
		total += amount
	}
	return total
}

func economicLife(in *published.Inputs) worked {
	rate, price, operating, market := in.Number("rate"), in.Number("price"), in.List("operating"), in.List("market")
	if in.Err() != nil {
		return nil
	}
	costs := economiclife.EquivalentAnnualCosts(rate, price, operating, market)
	life, cost := economiclife.Best(costs)
	return worked{"costs": costs, "last": costs[len(costs)-1:], "life": {float64(life)}, "cost": {cost}}
}

// terms are a case's loan.
type terms struct {
	principal, rate float64
	months          int
}

func (l terms) balance(paid int) float64 { return loan.Balance(l.principal, l.rate, l.months, paid) }

func (l terms) interest(month int) float64 { return l.rate * l.balance(month-1) }

func (l terms) repaid(month int) float64 { return l.balance(month-1) - l.balance(month) }

// loans gives every figure the case has the inputs for.
func loans(in *published.Inputs) worked {
	l := terms{in.Number("principal"), in.Number("yearly_rate") / 12, int(in.Number("months"))}
	got := worked{}
	if in.Has("at") {
		for _, at := range in.List("at") {
			month := int(at)
			got["balances"] = append(got["balances"], l.balance(month))
			got["interests"] = append(got["interests"], l.interest(month))
			got["principals"] = append(got["principals"], l.repaid(month))
		}
	}
	if in.Has("from") {
		interest, principal := 0.0, 0.0
		for month := int(in.Number("from")); month <= int(in.Number("to")); month++ {
			interest += l.interest(month)
			principal += l.repaid(month)
		}
		got["sum_interest"], got["sum_principal"] = []float64{interest}, []float64{principal}
	}
	if in.Has("year") {
		year := int(in.Number("year"))
		got["year_interest"] = []float64{loan.YearInterest(l.principal, l.rate, l.months, year)}
		got["year_principal"] = []float64{loan.YearPrincipal(l.principal, l.rate, l.months, year)}
	}
	return got
}

func upkept(in *published.Inputs) worked {
	switch method := in.Text("method"); method {
	case "repair":
		hours := in.List("hours")
		for i, at := range hours {
			hours[i] = upkeep.AccumulatedRepair(in.Number("price"), in.Number("rf1"), in.Number("rf2"), at)
		}
		return worked{"repair": hours}
	case "remaining share":
		ages := in.List("ages")
		for i, age := range ages {
			ages[i] = upkeep.RemainingShare(in.Number("c1"), in.Number("c2"), in.Number("c3"), age, in.Number("hours_a_year"))
		}
		return worked{"shares": ages}
	default:
		return unknown(in)
	}
}
