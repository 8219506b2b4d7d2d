package spend

import (
	"math"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/timevalue"
)

// Reserve is what to set aside each month so that the next machine, or fixture, can
// be paid when the one of today is given up.
type Reserve struct {
	Machine int     // whose it is; the payer of a shared fixture
	Fixture int     // by its index in the study; -1 for a machine, or its own fixtures
	Own     bool    // the fixtures that this machine alone has
	Years   int     // from the day it is bought
	Price   float64 // of the next, moved in and taxed, in money of then
	Fetched float64 // what the old one brings, moving out paid
	Monthly float64 // set aside at the end of each month
}

// reserves lists what to set aside for the machines of the study's first purchase
// of each: machines for as long as one is kept, fixtures until the last is sold.
//
// Source: sinking fund, as in timevalue.SinkingFund.
func (s *Spend) reserves() {
	seen := map[int]bool{}
	for i := range s.Course.Stays {
		stay := &s.Course.Stays[i]
		if seen[stay.Machine] {
			continue
		}
		seen[stay.Machine] = true
		machine := &s.Study.Machines[stay.Machine]
		one := Reserve{Machine: stay.Machine, Fixture: -1, Years: int(machine.YearsKept)}
		one.Price, one.Fetched = capital.Replacing(s.Study, machine, stay.Profile.Hours[stay.From], stay.From, one.Years)
		s.setAside(one)
		if paid := stay.Table[capital.Fixtures][stay.From]; paid > 0 {
			s.fixtures(Reserve{Machine: stay.Machine, Fixture: -1, Own: true}, stay.From, stay.To, paid, stay.Table[capital.FixturesBack][stay.To])
		}
	}
	for i := range s.Course.Fixtures {
		stay := &s.Course.Fixtures[i]
		s.shared(stay)
	}
}

func (s *Spend) shared(stay *alternative.FixtureStay) {
	s.fixtures(Reserve{Machine: stay.Payer, Fixture: stay.Fixture}, stay.From, stay.To, stay.Paid, stay.At(capital.FixturesBack, stay.To))
}

// fixtures grow in price as machines do.
func (s *Spend) fixtures(one Reserve, from, to int, paid, back float64) {
	one.Years = to - from
	one.Price = paid * math.Pow(1+float64(s.Study.Growth.Machines), float64(one.Years))
	one.Fetched = -back
	s.setAside(one)
}

func (s *Spend) setAside(one Reserve) {
	months := float64(12 * one.Years)
	one.Monthly = timevalue.SinkingFund(timevalue.PeriodRate(float64(s.Savings), 12), months, math.Max(0, one.Price-one.Fetched))
	s.Reserves = append(s.Reserves, one)
}
