package alternative

import (
	"math"
	"slices"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/work"
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

// SupplyKnown tells whether the study itself says what the supply is. What was
// only assumed forbids nothing; it is a warning beside the answer.
//
// Source: common practice, no source.
func SupplyKnown(study *model.Study) bool {
	return !slices.ContainsFunc([]string{"studio.amps", "studio.volts", "studio.phases"}, func(path string) bool {
		return study.Origins[path].Assumed
	})
}

// Relations lists which machines exclude and need which: each pair is a machine
// and the one that it excludes or needs, by their index in the study.
//
// Source: common practice, no source.
func Relations(study *model.Study) (excludes, needs [][2]int) {
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

// Sharers lists the machines that name a fixture, in study order.
func Sharers(study *model.Study, fixture string) []int {
	var list []int
	for m := range study.Machines {
		if slices.Contains(study.Machines[m].Fixtures, fixture) {
			list = append(list, m)
		}
	}
	return list
}
