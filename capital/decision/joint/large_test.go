package joint_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/model/work"
)

// offers is the demo with several offers of each machine, a little dearer,
// narrower and slower each.
func offers(t *testing.T, machines int) *model.Study {
	t.Helper()
	s, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	kinds := s.Machines
	s.Machines = nil
	for i := range machines {
		machine := kinds[i%len(kinds)]
		step := float64(i / len(kinds))
		machine.Key = fmt.Sprintf("%s_%d", machine.Key, i)
		machine.Price *= quantity.Money(1 - 0.03*step)
		machine.Feed *= quantity.Speed(1 - 0.04*step)
		machine.MaxWidth *= quantity.Length(1 - 0.06*step)
		s.Machines = append(s.Machines, machine)
	}
	return s
}

func TestDozensOfOffersAreDecidedAndProven(t *testing.T) {
	limited := func(s *model.Study) { s.Studio.Budget, s.Studio.FloorFree, s.Studio.Amps = 45000, 40, 150 }
	inducted := func(s *model.Study) {
		for m := range s.Shops[0].Machines {
			s.Shops[0].Machines[m].Inducted = false
		}
		s.Shops[0].Tariff.InductionFee = 900
	}
	discounted := func(s *model.Study) { s.Shops[0].Tariff.MembershipFee, s.Shops[0].Tariff.MemberDiscount = 150, 0.2 }
	for _, row := range []struct {
		name     string
		machines int
		change   func(*model.Study)
		limits   int
	}{
		{"as it is", 14, func(*model.Study) {}, 1},
		{"as it is", 24, func(*model.Study) {}, 1},
		{"limited", 24, limited, 3},
		{"limited", 40, limited, 3},
		{"inductions", 24, inducted, 1},
		{"a membership without hours", 24, discounted, 1},
	} {
		s := offers(t, row.machines)
		row.change(s)
		plan := work.New(s)
		result := joint.Decide(s, plan)
		assert.True(t, result.GapKnown, row.name)
		assert.Zero(t, result.Gap, row.name)
		assert.Len(t, result.Limits, row.limits)
		for i, choice := range result.Choices {
			assert.InDelta(t, alternative.Evaluate(s, plan, choice.Owned).Present, choice.Present, 1e-6, row.name)
			assert.GreaterOrEqual(t, choice.Present, result.Choices[max(0, i-1)].Present, row.name)
		}
		assertNoNeighbourIsCheaper(t, s, plan, &result)
	}
}

// assertNoNeighbourIsCheaper changes one machine of the best set at a time.
func assertNoNeighbourIsCheaper(t *testing.T, s *model.Study, plan *work.Plan, result *joint.Result) {
	t.Helper()
	best := result.Choices[0]
	for m := range s.Machines {
		owned := slices.Clone(best.Owned)
		owned[m] = !owned[m]
		if e := alternative.Evaluate(s, plan, owned); allowed(s, &e) {
			assert.GreaterOrEqual(t, e.Present, best.Present-1e-6, "machine %d", m)
		}
	}
}

// Included hours tie all job types together: what is found is priced exactly, and
// how far from the best it may be is said.
func TestAMembershipWithHoursAmongDozensOfOffersHasAGapThatIsSaid(t *testing.T) {
	s := offers(t, 24)
	s.Shops[0].Tariff.MembershipFee, s.Shops[0].Tariff.MembershipTime = 150, quantity.Hours(4)
	plan := work.New(s)
	result := joint.Decide(s, plan)
	assert.True(t, result.GapKnown)
	assert.Positive(t, result.Gap)
	assert.False(t, result.Ranked)
	require.Len(t, result.Limits, 1)
	assert.False(t, result.Limits[0].Known)
	assertNoNeighbourIsCheaper(t, s, plan, &result)
}

func BenchmarkDecide(b *testing.B) {
	s, _, _ := study.Load(demo.Name, demo.Study())
	plan := work.New(s)
	for b.Loop() {
		joint.Decide(s, plan)
	}
}
