package joint_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital/decision/joint"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

func TestASetIsForbiddenWhenOneOfTheLimitsIsBroken(t *testing.T) {
	allowedSets, forbidden := 0, map[string]int{}
	for seed, s := range population() {
		plan := work.New(s)
		allowance := joint.AllowanceOf(s, plan)
		for _, e := range allSets(s, plan) {
			because := allowance.Forbids(e.Owned)
			assert.Equal(t, allowed(s, &e), len(because) == 0, "seed %d: %v", seed, e.Owned)
			for _, one := range because {
				forbidden[one]++
			}
			if len(because) == 0 {
				allowedSets++
			}
		}
	}
	assert.Positive(t, allowedSets)
	for _, because := range []string{joint.Money, joint.Floor, joint.Supply, joint.Excluded, joint.Needed} {
		assert.Positive(t, forbidden[because], because)
	}
}

func TestEveryReasonThatForbidsASetIsGiven(t *testing.T) {
	s := studygen.Round()
	forbids := func(owned ...bool) []string { return joint.AllowanceOf(s, work.New(s)).Forbids(owned) }
	assert.Empty(t, forbids(true, true), "a study without limits")
	s.Studio.Budget = 12_999
	assert.Equal(t, []string{joint.Money}, forbids(true, true), "4000 + 9000")
	s.Machines[0].Excludes = []string{s.Machines[1].Key}
	assert.Equal(t, []string{joint.Money, joint.Excluded}, forbids(true, true))
	assert.Empty(t, forbids(true, false))
	s.Machines[0].Needs = []string{s.Machines[1].Key}
	assert.Equal(t, []string{joint.Needed}, forbids(true, false))
	s.Studio.Amps, s.Studio.Volts, s.Studio.Phases = 9, 230, 1
	s.Machines[0].Motor = quantity.Power(2300)
	assert.Equal(t, []string{joint.Supply, joint.Needed}, forbids(true, false))
	assert.Empty(t, forbids(false, false))
}

func TestAHandfulOfFloorAndOfMoneyAreLimitsToo(t *testing.T) {
	s := studygen.Round()
	forbids := func(owned ...bool) []string { return joint.AllowanceOf(s, work.New(s)).Forbids(owned) }
	s.Studio.FloorFree = 0.9
	s.Machines[0].FootprintLength, s.Machines[0].FootprintWidth, s.Machines[0].FloorShare = 1, 1, 1
	assert.Equal(t, []string{joint.Floor}, forbids(true, false))
	s.Studio.FloorFree, s.Studio.Budget = 0, 0.9
	assert.Equal(t, []string{joint.Money}, forbids(true, false))
	assert.Empty(t, forbids(false, false))
}
