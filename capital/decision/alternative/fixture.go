package alternative

import (
	"slices"

	"shopstint/capital"
	"shopstint/model"
	"shopstint/model/work"
)

// FixtureStay is one fixture that several machines name, owned from the end of
// year From (0: today) to the end of year To and paid with machine Payer.
type FixtureStay struct {
	Fixture, Payer int // by their index in the study
	From, To       int
	Paid           float64 // at the end of year From
	Present        float64 // of everything that it costs, after tax

	with, without capital.Ownership
}

// At is what the fixture adds to a line of its payer in a year, counted as in
// capital.Ownership.
func (f *FixtureStay) At(line capital.Line, t int) float64 {
	return f.with.Table[line][t] - f.without.Table[line][t]
}

// Shared tells whether several machines of the study name a fixture.
func Shared(study *model.Study, fixture string) bool { return len(Sharers(study, fixture)) > 1 }

// Unshared returns machine m with only those fixtures that no other one names.
func Unshared(study *model.Study, m int) model.Machine {
	machine := study.Machines[m]
	machine.Fixtures = slices.DeleteFunc(slices.Clone(machine.Fixtures), func(key string) bool { return Shared(study, key) })
	return machine
}

// FixtureBetween prices a fixture from the end of year from to the end of year
// to as a part of machine payer with the given work: what the machine costs
// with it, less what it costs without.
//
// Source: as capital.OwnBetween.
func FixtureBetween(study *model.Study, fixture, payer int, profile capital.Profile, from, to int) FixtureStay {
	machine := study.Machines[payer]
	machine.Fixtures = nil
	without := capital.OwnBetween(study, &machine, profile, from, to)
	machine.Fixtures = []string{study.Fixtures[fixture].Key}
	with := capital.OwnBetween(study, &machine, profile, from, to)
	return FixtureStay{
		Fixture: fixture, Payer: payer, From: from, To: to,
		Paid:    with.Table[capital.Fixtures][from] - without.Table[capital.Fixtures][from],
		Present: with.Present - without.Present,
		with:    with, without: without,
	}
}

// addFixture adds each unbroken run of years in which a machine that names the
// shared fixture f is owned.
func (c *Course) addFixture(study *model.Study, plan *work.Plan, owned [][]bool, pace Pace, f int) {
	sharers := Sharers(study, study.Fixtures[f].Key)
	if len(sharers) < 2 {
		return
	}
	payer := func(t int) int {
		return slices.IndexFunc(sharers, func(m int) bool { return owned[t][m] })
	}
	for from := 0; from < len(owned); from++ {
		first := payer(from)
		if first < 0 {
			continue
		}
		to := from + 1
		for to < len(owned) && payer(to) >= 0 {
			to++
		}
		profile, _ := profileBetween(study, plan, owned, pace, sharers[first], from, to)
		stay := FixtureBetween(study, f, sharers[first], profile, from, to)
		c.Fixtures = append(c.Fixtures, stay)
		c.Present += stay.Present
		from = to
	}
}
