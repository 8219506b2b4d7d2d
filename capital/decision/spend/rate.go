package spend

import (
	"slices"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/timevalue"
)

// Rate is what an hour of an owned machine costs, before tax: the present cost of
// owning it over its discounted hours, so that the same amount for every hour pays
// for all of it.
type Rate struct {
	Machine int
	Hours   float64 // of its first year
	PerYear float64 // equal amount a year, own time left out
	Owning  float64 // per hour: the purchase spread, insurance, floor, routine
	Running float64 // per hour: upkeep, energy, edges and abrasives, less what hours sold bring
	Time    float64 // per hour: own time at the machine, for its care and for learning it
}

// Without is the rate without own time, and With is with it.
func (r *Rate) Without() float64 { return r.Owning + r.Running }

// With is the rate with own time.
func (r *Rate) With() float64 { return r.Owning + r.Running + r.Time }

// rates lists the rate of every machine that is owned and used, for its first stay.
//
// Source: machine rate as owning plus operating cost an hour, with the purchase by
// capital recovery (the time value method), as in ASABE EP496, Agricultural
// Machinery Management; levelled over the hours by discounting both.
func (s *Spend) rates() {
	seen := map[int]bool{}
	for i := range s.Course.Stays {
		stay := &s.Course.Stays[i]
		if seen[stay.Machine] {
			continue
		}
		seen[stay.Machine] = true
		if rate, ok := s.rate(stay); ok {
			s.Rates = append(s.Rates, rate)
		}
	}
}

func (s *Spend) rate(stay *alternative.Stay) (Rate, bool) {
	rate, years := float64(s.Study.Studio.DiscountRate), stay.To-stay.From
	present := func(at func(t int) float64) float64 {
		flows := make([]float64, years+1)
		for t := range flows {
			flows[t] = at(stay.From + t)
		}
		return timevalue.PresentValue(rate, flows)
	}
	lines := func(list ...capital.Line) float64 {
		return present(func(t int) float64 {
			sum := 0.0
			for _, line := range list {
				sum += stay.Table[line][t]
			}
			return sum
		})
	}
	hours := lines(capital.Running)
	if hours == 0 {
		return Rate{}, false
	}
	learned := capital.LearningTime(s.Study, &s.Study.Machines[stay.Machine], stay.From)
	owning := lines(capital.Price, capital.SalesTax, capital.Moving, capital.Fixtures, capital.Start, capital.Borrowed, capital.Interest,
		capital.Principal, capital.Resale, capital.RiggingOut, capital.FixturesBack, capital.Insurance, capital.Other, capital.Floor) - learned
	owning += s.sharedFixtures(stay) * timevalue.AnnuityFactor(rate, float64(years))
	running := lines(capital.Upkeep, capital.Energy, capital.Demand, capital.Wear, capital.Sold)
	own := lines(capital.OwnTime, capital.Care, capital.Routine, capital.Learning) + learned
	return Rate{
		Machine: stay.Machine, Hours: stay.Profile.Hours[stay.From], PerYear: timevalue.EquivalentAnnual(rate, float64(years), owning+running),
		Owning: owning / hours, Running: running / hours, Time: own / hours,
	}, true
}

// sharedFixtures is the part of fixtures that it shares with other owned machines,
// as an equal amount a year: by the hours that each of them runs.
//
// Source: common practice, no source.
func (s *Spend) sharedFixtures(stay *alternative.Stay) float64 {
	rate, sum := float64(s.Study.Studio.DiscountRate), 0.0
	for i := range s.Course.Fixtures {
		fixture := &s.Course.Fixtures[i]
		sharers := alternative.Sharers(s.Study, s.Study.Fixtures[fixture.Fixture].Key)
		if !slices.Contains(sharers, stay.Machine) || stay.From < fixture.From || stay.From >= fixture.To {
			continue
		}
		all := 0.0
		for k := range s.Course.Stays {
			if other := &s.Course.Stays[k]; slices.Contains(sharers, other.Machine) && other.From < fixture.To && other.To > fixture.From {
				all += other.Profile.Hours[other.From]
			}
		}
		if all == 0 {
			continue
		}
		flows := make([]float64, fixture.To-fixture.From+1)
		for t := range flows {
			for _, line := range [...]capital.Line{capital.Fixtures, capital.FixturesBack, capital.Floor} {
				flows[t] += fixture.At(line, fixture.From+t)
			}
		}
		yearly := timevalue.EquivalentAnnual(rate, float64(len(flows)-1), timevalue.PresentValue(rate, flows))
		sum += yearly * stay.Profile.Hours[stay.From] / all
	}
	return sum
}
