package joint

import (
	"math"
	"slices"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint/subset"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// What a limit is on.
const (
	Money  = "money"  // that leaves on the day of purchase
	Floor  = "floor"  // m², with infeed, outfeed and clearance
	Supply = "supply" // amperes
)

// MachineDraw returns the supply current in amperes that a machine is planned
// with, 0 for one that is moved by hand, which runs from a socket that the
// studio has.
//
// Motor at full load and collector with it, at the voltage and on the phases
// that it can use; on a three-phase supply a single-phase motor stands between a
// phase and neutral, and all of them count as on the same phase. A planning
// figure: nameplate, local codes and an electrician decide.
//
// Source: motor current as in work.MotorCurrent; the rest is common practice, no source.
func MachineDraw(study *model.Study, machine *model.Machine) float64 {
	studio := &study.Studio
	if model.HandHeld(machine.Class) {
		return 0
	}
	phases, volts := studio.Phases, studio.Volts
	if studio.Phases > 1 && machine.MachinePhases <= 1 {
		phases, volts = 1, volts/quantity.Voltage(math.Sqrt(3))
	}
	factor := float64(machine.PowerFactor)
	motor := work.MotorCurrent(machine.Motor, volts, float64(machine.Efficiency), factor, float64(phases))
	extra := work.MotorCurrent(machine.ExtraPower, volts, 1, factor, float64(phases))
	return float64(motor + extra)
}

// draws gives the supply that machines ask for: as many run at once as the
// studio has own people, the ones that draw most.
func draws(study *model.Study) subset.Peak {
	peak := subset.Peak{AtOnce: int(study.Studio.People), Most: float64(study.Studio.Amps)}
	for m := range study.Machines {
		peak.Draw = append(peak.Draw, MachineDraw(study, &study.Machines[m]))
	}
	return peak
}

// supplyKnown tells whether the study itself says what the supply is. What was
// only assumed forbids nothing; it is a warning beside the answer.
func supplyKnown(study *model.Study) bool {
	return !slices.ContainsFunc([]string{"studio.amps", "studio.volts", "studio.phases"}, func(path string) bool {
		return study.Origins[path].Assumed
	})
}

// resources are what sets use of money and floor, whether limited or not.
func (b *builder) resources() (money, floor subset.Limit) {
	alone := make([]bool, len(b.study.Machines))
	use := func(when uint64, cash, area float64) {
		money.When, money.Weight = append(money.When, when), append(money.Weight, max(0, cash))
		floor.When, floor.Weight = append(floor.When, when), append(floor.Weight, max(0, area))
	}
	for m := range b.study.Machines {
		alone[m] = true
		owner := alternative.OwnerOf(b.study, b.plan, alone, m)
		alone[m] = false
		cash, area := owner.Table[capital.Net][0], owner.Area
		for _, fixture := range capital.Shared(b.study, &b.study.Machines[m]) {
			cash -= float64(fixture.Price)
			area -= float64(fixture.Area)
		}
		use(1<<m, cash, area)
	}
	for f := range b.study.Fixtures {
		fixture := &b.study.Fixtures[f]
		if sharers := b.sharers(fixture.Key); sharers != 0 {
			use(sharers, float64(fixture.Price), float64(fixture.Area))
		}
	}
	money.Most, floor.Most = float64(b.study.Studio.Budget), float64(b.study.Studio.FloorFree)
	return money, floor
}

// relations lists which machines exclude and need which.
func relations(study *model.Study) (excludes, needs [][2]int) {
	pairs := func(m int, keys []string) (list [][2]int) {
		for _, key := range keys {
			if other := model.Index(study.Machines, key); other >= 0 && other != m {
				list = append(list, [2]int{m, other})
			}
		}
		return list
	}
	for m := range study.Machines {
		excludes = append(excludes, pairs(m, study.Machines[m].Excludes)...)
		needs = append(needs, pairs(m, study.Machines[m].Needs)...)
	}
	return excludes, needs
}
