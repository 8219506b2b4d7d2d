package conformance

import (
	"shopstint/model"
	"shopstint/model/published"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/rental"
	"shopstint/rental/visitplan"
)

func rentalRooms() []Room {
	return []Room{
		{"rental", map[string]published.WorkOut{"unitcost": unitCost}},
		{"rental/visitplan", map[string]published.WorkOut{"lotsizing": lotSizing}},
	}
}

// HourInTheRoom is a study of one job, planed for an hour in a room that is rented
// by the hour without a minimum.
func HourInTheRoom(rate float64) *model.Study {
	s := studygen.Round()
	shop, job := &s.Shops[0], &s.JobTypes[0]
	shop.Tariff.HourlyRate, shop.Tariff.MinimumBlock, shop.Machines[0].Setup = quantity.MoneyPerHour(rate), 0, 0
	job.Operations = job.Operations[:1]
	job.Operations[0].Measured = quantity.Minutes(60)
	return s
}

// unitCost spreads what an hour in the room is billed at.
func unitCost(in *published.Inputs) worked {
	s := HourInTheRoom(in.Number("rent_per_hour"))
	trip := rental.Trip{Shop: &s.Shops[0], Jobs: 1, Uses: []rental.Use{{Minutes: quantity.Minutes(60)}, {}}}
	visit := rental.Price(&s.Studio, s.Money, trip, rental.Membership{})
	return worked{"per_unit": {visit.Shop / in.Number("units_per_hour")}}
}

// lots makes every run of periods one lot: set up in its first period, held
// until each period's demand.
func lots(demand, setup []float64, holding float64) (float64, []int) {
	carried, waiting := 0.0, 0.0
	return visitplan.Runs(len(demand), func(first, last int) (float64, bool) {
		if first == last {
			carried, waiting = 0, 0
		}
		waiting += carried // what comes later waits one period more
		carried += demand[first]
		return setup[first] + holding*waiting, true
	})
}

func lotSizing(in *published.Inputs) worked {
	demand, setup, holding := in.List("demand"), in.List("setup"), in.Number("holding")
	if in.Err() != nil {
		return nil
	}
	cost, starts := lots(demand, setup, holding)
	size, through, toGo := make([]float64, len(demand)), []float64{}, []float64{}
	for i, start := range starts {
		end := len(demand)
		if i+1 < len(starts) {
			end = starts[i+1]
		}
		for _, amount := range demand[start:end] {
			size[start] += amount
		}
	}
	for t := range demand {
		until, _ := lots(demand[:t+1], setup[:t+1], holding)
		from, _ := lots(demand[t:], setup[t:], holding)
		through, toGo = append(through, until), append(toGo, from)
	}
	return worked{"cost": {cost}, "lots": size, "through": through, "togo": toGo}
}
