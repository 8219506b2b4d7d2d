package conformance

import (
	"fmt"

	"shopstint/capital/decision/futures"
	"shopstint/capital/decision/single"
	"shopstint/capital/decision/ways"
	"shopstint/capital/timevalue"
	"shopstint/model/chance"
	"shopstint/model/published"
)

func decisionRooms() []Room {
	return []Room{
		{"capital/decision/single", map[string]published.WorkOut{"breakeven": curveCrossing}},
		{"capital/decision/ways", map[string]published.WorkOut{"breakeven": linesCrossing}},
		{"capital/decision/futures", map[string]published.WorkOut{"information": information}},
	}
}

// curveCrossing looks for where owning and renting cost the same in a year.
func curveCrossing(in *published.Inputs) worked {
	fixed, own, rent := curveFixed(in), in.Number("own_rate"), in.Number("rent_rate")
	saving := func(units float64) float64 { return units*(rent-own) - fixed }
	crossings := single.Crossings(saving, 0, 10000, nil)
	got := worked{"break_even": crossings}
	if in.Has("units") {
		got["saving"] = []float64{saving(in.Number("units"))}
	}
	return got
}

// curveFixed is the cost of a year whatever the work: as given, or the recovery of
// the price less what it fetches, and the yearly cost.
func curveFixed(in *published.Inputs) float64 {
	if in.Has("fixed_a_year") {
		return in.Number("fixed_a_year")
	}
	rate, years := in.Number("rate"), in.Number("years")
	net := in.Number("price") - in.Number("salvage")*timevalue.DiscountFactor(rate, years)
	return timevalue.EquivalentAnnual(rate, years, net) + in.Number("yearly")
}

// linesCrossing takes owning and renting as two ways: one with a fixed cost, one
// without.
func linesCrossing(in *published.Inputs) worked {
	own, hired := ways.Line{Unit: in.Number("own_rate")}, ways.Line{Unit: in.Number("rent_rate")}
	if in.Has("fixed_a_year") {
		own.Fixed = in.Number("fixed_a_year")
	} else {
		own.Fixed = ways.Recovery(in.Number("rate"), in.Number("years"), in.Number("price"), in.Number("salvage")) + in.Number("yearly")
	}
	outcome, at := ways.BreakEven(own, hired)
	if outcome != ways.Crossing {
		in.Keep(fmt.Errorf("%s: no crossing", in.Case))
	}
	got := worked{"break_even": {at}}
	if in.Has("units") {
		units := in.Number("units")
		got["saving"] = []float64{hired.Yearly(units) - own.Yearly(units)}
	}
	return got
}

// information weighs choices by what each brings in each of two equally likely
// outcomes; the last choice is to do nothing.
func information(in *published.Inputs) worked {
	var costs [][]float64
	for _, name := range []string{"large", "small", "none"} {
		brought := in.List(name)
		if in.Err() != nil {
			return nil
		}
		row := make([]float64, chance.PerBlock)
		for i := range row {
			row[i] = -brought[i%len(brought)]
		}
		costs = append(costs, row)
	}
	got, least := worked{}, 0.0
	for c, choice := range futures.Weigh(costs, make([]float64, len(costs))) {
		got["expected"] = append(got["expected"], -choice.Cost.Mean.Value)
		if c == 0 || choice.Regret.Value < least {
			least = choice.Regret.Value
		}
	}
	got["perfect"] = []float64{least}
	return got
}
