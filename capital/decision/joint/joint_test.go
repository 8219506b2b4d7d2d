package joint_test

import (
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint"
	"shopstint/model"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

const seeds = 120

// population makes the studies once; tests that change one take clones.
var population = sync.OnceValue(func() []*model.Study { return studygen.Studies(seeds) })

// allSets lists every set of a study's machines with its evaluation.
func allSets(s *model.Study, plan *work.Plan) []alternative.Evaluation {
	var list []alternative.Evaluation
	for set := range 1 << len(s.Machines) {
		owned := make([]bool, len(s.Machines))
		for m := range owned {
			owned[m] = set>>m&1 != 0
		}
		list = append(list, alternative.Evaluate(s, plan, owned))
	}
	return list
}

// use sums what a set needs of money, floor and supply.
func use(s *model.Study, e *alternative.Evaluation) (cash, area, amps float64) {
	var draws []float64
	for _, owner := range e.Owner {
		cash += owner.Table[capital.Net][0]
		area += owner.Area
		draws = append(draws, alternative.MachineDraw(s, &s.Machines[owner.Machine]))
	}
	slices.Sort(draws)
	for _, draw := range draws[max(0, len(draws)-int(s.Studio.People)):] {
		amps += draw
	}
	return cash, area, amps
}

// allowed keeps the limits and relations of a study, in its own words.
func allowed(s *model.Study, e *alternative.Evaluation) bool {
	owns := func(key string) bool { return e.Owned[model.Index(s.Machines, key)] }
	for _, owner := range e.Owner {
		machine := &s.Machines[owner.Machine]
		lacks := func(key string) bool { return !owns(key) }
		if slices.ContainsFunc(machine.Excludes, owns) || slices.ContainsFunc(machine.Needs, lacks) {
			return false
		}
	}
	cash, area, amps := use(s, e)
	known := !s.Origins["studio.amps"].Assumed && !s.Origins["studio.volts"].Assumed && !s.Origins["studio.phases"].Assumed
	within := func(used, most float64) bool { return most == 0 || used <= most*(1+1e-9) }
	return within(cash, float64(s.Studio.Budget)) && within(area, float64(s.Studio.FloorFree)) &&
		(!known || within(amps, float64(s.Studio.Amps)))
}

func TestTheJointChoiceIsTheCheapestOfAllSets(t *testing.T) {
	bound := map[string]int{}
	for seed, s := range population() {
		plan := work.New(s)
		var costs []float64
		for _, e := range allSets(s, plan) {
			if allowed(s, &e) {
				costs = append(costs, e.Present)
			}
		}
		slices.Sort(costs)
		result := joint.Decide(s, plan)
		require.Len(t, result.Choices, min(joint.Shown, len(costs)), "seed %d", seed)
		for i, choice := range result.Choices {
			assert.InDelta(t, costs[i], choice.Present, studygen.Dust(costs[i]), "seed %d place %d", seed, i)
			again := alternative.Evaluate(s, plan, choice.Owned)
			assert.True(t, allowed(s, &again), "seed %d", seed)
			assert.InDelta(t, again.Present, choice.Present, studygen.Dust(costs[i]), "seed %d", seed)
		}
		assert.True(t, result.GapKnown && result.Ranked, "seed %d", seed)
		assert.Zero(t, result.Gap, "seed %d", seed)
		for _, limit := range result.Limits {
			if limit.Binds {
				bound[limit.On]++
			}
		}
	}
	for _, on := range []string{joint.Money, joint.Floor, joint.Supply} {
		assert.Positive(t, bound[on], "no study is bound by %s", on)
	}
}
