package alternative_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/studygen"
)

func TestAMachinesDrawFollowsThePhases(t *testing.T) {
	s := studygen.Round()
	machine := &s.Machines[0]
	machine.Motor, s.Studio.Volts = 2300, 230
	s.Studio.Phases, machine.MachinePhases = 1, 1
	assert.InDelta(t, 10, alternative.MachineDraw(s, machine), 1e-9, "2300 W ÷ 230 V")
	machine.MachinePhases = 3
	assert.InDelta(t, 10, alternative.MachineDraw(s, machine), 1e-9, "through a converter, from the one phase")
	s.Studio.Phases = 3
	assert.InDelta(t, 10/math.Sqrt(3), alternative.MachineDraw(s, machine), 1e-9, "on each of three phases")
	machine.MachinePhases = 1
	assert.InDelta(t, 10*math.Sqrt(3), alternative.MachineDraw(s, machine), 1e-9, "between a phase and neutral: 2300 W ÷ (230 V ÷ √3)")
	machine.Class = model.TrackSaw
	assert.Zero(t, alternative.MachineDraw(s, machine), "from a socket that is there")
}

func TestASupplyIsKnownWhenAllThreeOfItsInputsAreGiven(t *testing.T) {
	s := studygen.Round()
	assert.True(t, alternative.SupplyKnown(s))
	for _, path := range []string{"studio.amps", "studio.volts", "studio.phases"} {
		s := studygen.Round()
		s.Origins[path] = model.Origin{Assumed: true}
		assert.False(t, alternative.SupplyKnown(s), path)
	}
}
