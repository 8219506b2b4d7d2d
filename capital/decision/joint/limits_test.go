package joint_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/joint"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// cost is the present cost of owning the given machines.
func cost(s *model.Study, machines ...int) float64 {
	owned := make([]bool, len(s.Machines))
	for _, m := range machines {
		owned[m] = true
	}
	return alternative.Evaluate(s, work.New(s), owned).Present
}

func decide(s *model.Study) joint.Result { return joint.Decide(s, work.New(s)) }

// round is the study in round figures with an inch-wide gap between what its two
// machines save alone and together: the trip.
func TestTwoMachinesTogetherSpareTheTripThatEachAloneDoesNot(t *testing.T) {
	s := studygen.Round()
	result := decide(s)
	none, planer, sander, both := cost(s), cost(s, 0), cost(s, 1), cost(s, 0, 1)
	assert.InDeltaSlice(t, []float64{none - planer, none - sander}, result.Alone, 1e-6)
	assert.InDelta(t, planer-both, result.After[0][1], 1e-6)
	assert.InDelta(t, sander-both, result.After[1][0], 1e-6)
	// A trip a job less: 20 × (drive, loading and the way) a year, after tax of nothing.
	assert.Greater(t, result.After[0][1], result.Alone[1]+20*20*2)
	assert.InDelta(t, result.Alone[0]+result.After[0][1], result.Alone[1]+result.After[1][0], 1e-6, "the same in either order")
}

func TestASharedFixtureIsPaidOnce(t *testing.T) {
	s := studygen.Round()
	bare := []float64{cost(s), cost(s, 0), cost(s, 1), cost(s, 0, 1)}
	s.Studio.FloorCost = 100
	floor := []float64{cost(s), cost(s, 0), cost(s, 1), cost(s, 0, 1)}
	require.InDeltaSlice(t, bare, floor, 1e-9, "no floor in the round study")
	s.Fixtures = []model.Fixture{{Key: "collector", Price: 1000, Area: 2, Resale: 0.1}}
	s.Machines[0].Fixtures, s.Machines[1].Fixtures = []string{"collector"}, []string{"collector"}
	// 1000 today, 2 m² at 100 for three years at 10 %, 100 back at the end; no tax.
	once := 1000 + 200*(1/1.1+1/1.21+1/1.331) - 100/1.331
	assert.InDeltaSlice(t, []float64{bare[0], bare[1] + once, bare[2] + once, bare[3] + once},
		[]float64{cost(s), cost(s, 0), cost(s, 1), cost(s, 0, 1)}, 1e-6)
	s.Studio.Budget, s.Studio.FloorFree = 14000, 2
	result := decide(s)
	require.Len(t, result.Choices, 4, "4000 + 9000 + 1000 of money and 2 m² hold both")
	s.Studio.Budget = 13999
	assert.Len(t, decide(s).Choices, 3)
	s.Studio.Budget, s.Studio.FloorFree = 14000, 1.99
	assert.Len(t, decide(s).Choices, 1)
}

func TestRelationsAreKept(t *testing.T) {
	s := studygen.Round()
	s.Machines[1].Excludes = []string{s.Machines[0].Key}
	assert.Len(t, decide(s).Choices, 3)
	s.Machines[1].Excludes, s.Machines[1].Needs = nil, []string{s.Machines[0].Key}
	result := decide(s)
	assert.Len(t, result.Choices, 3)
	for _, choice := range result.Choices {
		assert.False(t, choice.Owned[1] && !choice.Owned[0])
	}
}

// Motors of 2.3 and 4.6 kW at 230 V, with nothing lost in them: 10 and 20 A.
func TestAsManyMachinesDrawAsThereArePeople(t *testing.T) {
	for _, row := range []struct {
		name   string
		people quantity.Count
		amps   quantity.Current
		sets   int
	}{
		{"both at once fit", 2, 30, 4},
		{"both at once do not fit, each does", 2, 29, 3},
		{"one person runs one at a time", 1, 29, 4},
		{"the larger does not fit", 1, 19, 2},
	} {
		s := studygen.Round()
		s.Studio.Volts, s.Studio.Phases, s.Studio.People, s.Studio.Amps = 230, 1, row.people, row.amps
		s.Machines[0].Motor, s.Machines[1].Motor = 2300, 4000
		s.Machines[1].ExtraPower = 600
		result := decide(s)
		assert.Len(t, result.Choices, row.sets, row.name)
		assert.True(t, result.Draw.Limited, row.name)
		assert.Equal(t, int(row.people), result.Draw.AtOnce, row.name)
		assert.False(t, result.Draw.Over(), row.name)
	}
}

// A supply that is only assumed forbids nothing and is a warning instead.
func TestAnAssumedSupplyForbidsNothing(t *testing.T) {
	for _, path := range []string{"studio.amps", "studio.volts", "studio.phases"} {
		s := studygen.Round()
		s.Studio.Amps = 1
		s.Machines[0].Motor, s.Machines[1].Motor = 2300, 2300
		require.Len(t, decide(s).Choices, 1)
		s.Origins = map[string]model.Origin{path: {Assumed: true}}
		result := decide(s)
		assert.Len(t, result.Choices, 4, path)
		assert.False(t, result.Draw.Limited)
		assert.Equal(t, len(result.Choices[0].Machines) > 0, result.Draw.Over(), path)
	}
}

// The step of a limit is the least at which something cheaper is allowed, and its
// gain what the cheapest set at that step saves.
func TestMoreOfALimitIsWorthWhatTheNextSetSaves(t *testing.T) {
	steps := 0
	for seed, s := range population() {
		plan := work.New(s)
		result := joint.Decide(s, plan)
		for _, limit := range result.Limits {
			without := *s
			without.Studio.Budget, without.Studio.FloorFree, without.Studio.Amps = s.Studio.Budget, s.Studio.FloorFree, s.Studio.Amps
			switch limit.On {
			case joint.Money:
				without.Studio.Budget = 0
			case joint.Floor:
				without.Studio.FloorFree = 0
			case joint.Supply:
				without.Studio.Amps = 1e9
			}
			needed, gain := math.Inf(1), 0.0
			used := func(e *alternative.Evaluation) float64 {
				cash, area, amps := use(s, e)
				return map[string]float64{joint.Money: cash, joint.Floor: area, joint.Supply: amps}[limit.On]
			}
			sets := allSets(s, plan)
			cheaper := func(e *alternative.Evaluation) bool {
				return e.Present < result.Choices[0].Present-studygen.Dust(e.Present) && allowed(&without, e)
			}
			for i := range sets {
				if cheaper(&sets[i]) {
					needed = min(needed, used(&sets[i]))
				}
			}
			for i := range sets {
				if cheaper(&sets[i]) && used(&sets[i]) <= needed*(1+1e-9) {
					gain = max(gain, result.Choices[0].Present-sets[i].Present)
				}
			}
			require.Equal(t, !math.IsInf(needed, 1), limit.Binds, "seed %d %s", seed, limit.On)
			if limit.Binds {
				steps++
				assert.InDelta(t, needed, limit.Most+limit.More, studygen.Dust(needed), "seed %d %s", seed, limit.On)
				assert.InDelta(t, gain, limit.Gain, studygen.Dust(result.Rented.Present), "seed %d %s", seed, limit.On)
				assert.True(t, limit.Proven)
			}
		}
	}
	assert.Greater(t, steps, 5)
}

func TestADrawThatJustFitsTheSupplyIsNotOverIt(t *testing.T) {
	assert.False(t, joint.Draw{Amps: 100, Free: 100}.Over())
	assert.True(t, joint.Draw{Amps: 100.5, Free: 100}.Over())
	assert.False(t, joint.Draw{Amps: 100.5, Free: 100, Limited: true}.Over(), "the choice kept to it")
}

func TestWhatASetCostsIsRentingAndOwning(t *testing.T) {
	s := studygen.Round()
	plan := work.New(s)
	result := joint.Decide(s, plan)
	require.NotEmpty(t, result.Choices)
	for _, choice := range result.Choices {
		owning := 0.0
		for _, owner := range alternative.Evaluate(s, plan, choice.Owned).Owner {
			owning += owner.Present
		}
		assert.InDelta(t, owning, choice.Owning, 1e-6, "%v", choice.Machines)
		assert.InDelta(t, choice.Present, choice.Renting+choice.Owning, 1e-6, "%v", choice.Machines)
		assert.Equal(t, len(choice.Machines) > 0, choice.Owning > 0, "%v", choice.Machines)
	}
}
