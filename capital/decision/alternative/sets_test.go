package alternative_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

// anySets are some sets of machines of a study, the empty one first.
func anySets(rng *rand.Rand, machines, count int) [][]bool {
	sets := make([][]bool, count)
	for s := range sets {
		sets[s] = make([]bool, machines)
		for m := range sets[s] {
			sets[s][m] = s > 0 && rng.IntN(2) == 0
		}
	}
	return sets
}

func anyPace(rng *rand.Rand, jobs, years int) alternative.Pace {
	pace := make(alternative.Pace, jobs)
	for j := range pace {
		for range years {
			pace[j] = append(pace[j], 2*rng.Float64())
		}
	}
	return pace
}

func TestManySetsAtOnceCostWhatEachCostsAlone(t *testing.T) {
	inducted, members := 0, 0
	for seed, s := range studygen.Studies(60) {
		rng := rand.New(rand.NewPCG(uint64(seed), 1))
		plan, horizon := work.New(s), int(s.Studio.Horizon)
		sets := alternative.SetsOf(s, plan, anySets(rng, len(s.Machines), 7))
		pricer, costs, years := sets.Pricer(horizon), make([]float64, 7), make([]float64, horizon+1)
		for range 2 { // what is left from before must not count
			pace := anyPace(rng, len(s.JobTypes), horizon)
			pricer.Present(s, plan, pace, costs)
			for i, owned := range sets.Owned {
				want := alternative.EvaluateAt(s, plan, owned, pace)
				assert.InDelta(t, want.Present, costs[i], 1e-9*math.Max(1, math.Abs(want.Present)), "seed %d, set %v", seed, owned)
				pricer.Years(i, years)
				for year, amount := range yearsOf(s, &want, pace) {
					assert.InDelta(t, amount, years[year], 1e-9*math.Max(1, math.Abs(want.Present)), "seed %d, set %v, year %d", seed, owned, year)
				}
				inducted += boolToInt(want.Rent.Induction > 0)
				members += boolToInt(want.Rent.Fee > 0)
			}
			s.Growth.Rental += 0.01
			s.Studio.LabourRate *= 1.1
			plan.Again(s)
		}
	}
	assert.Positive(t, inducted, "some sets pay an induction")
	assert.Positive(t, members, "some sets join")
}

// yearsOf is what a set costs by year from 0, after tax and in present worth.
func yearsOf(s *model.Study, set *alternative.Evaluation, pace alternative.Pace) []float64 {
	years, worth := make([]float64, int(s.Studio.Horizon)+1), 1-float64(s.Studio.TaxRate)
	for t, rented := range set.Rent.YearsAt(s, pace) {
		worth /= 1 + float64(s.Studio.DiscountRate)
		years[t+1] += rented.Sum() * worth
	}
	for _, owner := range set.Owner {
		for t, amount := range owner.Table[capital.Present] {
			years[t] += amount
		}
	}
	return years
}

func boolToInt(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// Two planers could do the first step of all, and two sanders the next: the later one has
// the work only where the earlier is not owned.
func TestEverySetOfMachinesThatStandInForEachOtherIsPricedAsAlone(t *testing.T) {
	for _, collector := range []bool{false, true} {
		s := studygen.Round()
		planer, sander := s.Machines[0], s.Machines[1]
		planer.Key, planer.Price = "planer_two", 3000
		sander.Key, sander.Price = "belt_two", 5000
		planer.Feed *= 2
		s.Machines = append(s.Machines, planer, sander)
		if collector {
			s.Fixtures = []model.Fixture{{Key: "collector", Price: 900, Resale: 0.5}}
			s.Machines[1].Fixtures, s.Machines[2].Fixtures = []string{"collector"}, []string{"collector"}
		}
		owned := make([][]bool, 16)
		for set := range owned {
			for m := range 4 {
				owned[set] = append(owned[set], set>>m&1 == 1)
			}
		}
		plan, costs := work.New(s), make([]float64, len(owned))
		pace := alternative.SteadyPace(s, 3)
		alternative.SetsOf(s, plan, owned).Pricer(3).Present(s, plan, pace, costs)
		for set, has := range owned {
			assert.InDelta(t, alternative.Evaluate(s, plan, has).Present, costs[set], 1e-6, "%v", has)
		}
		assert.Greater(t, costs[5], costs[1], "the second planer has nothing to do beside the first")
	}
}
