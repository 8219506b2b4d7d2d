package joint_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/joint"
	"shopstint/capital/timevalue"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// setOf is the number under which allSets lists a set.
func setOf(machines []int) int {
	set := 0
	for _, m := range machines {
		set |= 1 << m
	}
	return set
}

// What machines are worth to each other, and every comparison of two sets, are
// differences of what the one evaluator says of them.
func TestEveryComparisonIsTheDifferenceOfTwoEvaluations(t *testing.T) {
	calls, several := 0, 0
	for seed, s := range population()[:60] {
		plan := work.New(s)
		all := allSets(s, plan)
		cost := func(set int) float64 { return all[set].Present }
		result := joint.Decide(s, plan)
		best := setOf(result.Choices[0].Machines)
		dust := studygen.Dust(cost(0))
		for m := range s.Machines {
			assert.InDelta(t, cost(0)-cost(1<<m), result.Alone[m], dust, "seed %d", seed)
			assert.InDelta(t, cost(best&^(1<<m))-cost(best|1<<m), result.InBest[m], dust, "seed %d", seed)
			for other := range s.Machines {
				if other != m {
					several++
					assert.InDelta(t, cost(1<<m)-cost(1<<m|1<<other), result.After[m][other], dust, "seed %d", seed)
				}
			}
		}
		single := 0
		for m := range s.Machines {
			if cost(1<<m) < cost(single) && allowed(s, &all[1<<m]) {
				single = 1 << m
			}
		}
		assert.InDelta(t, cost(single), result.Single.Present, dust, "seed %d", seed)
		annual := func(present float64) float64 {
			return timevalue.EquivalentAnnual(float64(s.Studio.DiscountRate), float64(s.Studio.Horizon), present)
		}
		for _, choice := range append(result.Choices, result.Single, result.Rented) {
			at := setOf(choice.Machines)
			assert.InDelta(t, cost(0)-cost(at), choice.Saving, dust, "seed %d", seed)
			assert.InDelta(t, cost(at)-cost(best), choice.Over, dust, "seed %d", seed)
			assert.InDelta(t, annual(choice.Saving), choice.SavingAnnual, dust, "seed %d", seed)
			assert.InDelta(t, annual(choice.Over), choice.OverAnnual, dust, "seed %d", seed)
			cash, area, amps := use(s, &all[at])
			assert.InDelta(t, cash, choice.Cash, dust, "seed %d", seed)
			assert.InDelta(t, area, choice.Area, 1e-9, "seed %d", seed)
			assert.InDelta(t, amps, choice.Amps, 1e-9, "seed %d", seed)
			owning := choice.Owning - result.Choices[0].Owning
			renting := choice.Renting - result.Choices[0].Renting
			larger := math.Max(math.Abs(owning), math.Abs(renting))
			if near := math.Abs(owning+renting) - float64(s.Studio.CloseCall)*larger; at != best && math.Abs(near) > dust {
				assert.Equal(t, near < 0, choice.Close, "seed %d: too close to call within the study's share of the larger of the two", seed)
				calls++
			}
			assert.False(t, at == best && choice.Close, "no set is close to itself")
		}
		known := !s.Origins["studio.amps"].Assumed && !s.Origins["studio.volts"].Assumed && !s.Origins["studio.phases"].Assumed
		assert.Equal(t, known, result.Draw.Limited, "seed %d", seed)
		assert.InDelta(t, float64(s.Studio.Amps), result.Draw.Free, 0, "seed %d", seed)
		assert.Equal(t, int(s.Studio.People), result.Draw.AtOnce, "seed %d", seed)
	}
	assert.Greater(t, calls, 100)
	assert.Greater(t, several, 100)
}

// A membership without included hours is a fee and a reduction: each set is priced as
// a member and as none, and the cheapest set is proven.
func TestAMembershipWithoutHoursLeavesNoGap(t *testing.T) {
	joined := 0
	for seed, made := range population()[:60] {
		s := made.Clone()
		for shop := range s.Shops {
			tariff := &s.Shops[shop].Tariff
			tariff.MembershipFee, tariff.MemberDiscount, tariff.MembershipTime = quantity.MoneyPerMonth(5+10*float64(seed%4)), 0.4, 0
		}
		plan := work.New(s)
		least := math.Inf(1)
		for _, e := range allSets(s, plan) {
			if allowed(s, &e) {
				least = min(least, e.Present)
				for _, member := range e.Rent.Members {
					if member.Joined {
						joined++
					}
				}
			}
		}
		result := joint.Decide(s, plan)
		require.NotEmpty(t, result.Choices)
		assert.InDelta(t, least, result.Choices[0].Present, studygen.Dust(least), "seed %d", seed)
		assert.Zero(t, result.Gap, "seed %d", seed)
	}
	assert.Greater(t, joined, 10)
}

func TestALimitBelowOneIsALimit(t *testing.T) {
	for seed, made := range population()[:20] {
		for _, limit := range []func(*model.Study){
			func(s *model.Study) { s.Studio.FloorFree = 0.9 }, func(s *model.Study) { s.Studio.Budget = 0.9 },
		} {
			s := made.Clone()
			s.Studio.FloorFree, s.Studio.Budget = 0, 0
			limit(s)
			plan := work.New(s)
			all, least := allSets(s, plan), math.Inf(1)
			for i := range all {
				if allowed(s, &all[i]) {
					least = min(least, all[i].Present)
				}
			}
			best := joint.Decide(s, plan).Choices[0]
			assert.True(t, allowed(s, &all[setOf(best.Machines)]), "seed %d", seed)
			assert.InDelta(t, least, best.Present, studygen.Dust(least), "seed %d", seed)
		}
	}
}
