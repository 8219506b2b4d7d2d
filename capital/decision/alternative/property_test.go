package alternative_test

import (
	"math"
	"math/rand/v2"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/money"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

const seeds = 80

// population makes the studies once; tests that change one take clones.
var population = sync.OnceValue(func() []*model.Study { return studygen.Studies(seeds) })

func TestTheVisitsOfAYearCarryAllItsJobs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		batch := rapid.IntRange(1, 12).Draw(t, "batch")
		jobs := rapid.OneOf(rapid.Float64Range(0, 500), rapid.Map(rapid.IntRange(0, 500), func(n int) float64 { return float64(n) })).Draw(t, "jobs")
		counts := alternative.Counts(jobs, batch)
		sum, visits := 0.0, 0.0
		for k, count := range counts {
			assert.GreaterOrEqual(t, count, 0.0)
			sum += float64(k+1) * count
			visits += count
		}
		assert.InDelta(t, jobs, sum, 1e-5, "whole numbers are told to a millionth, times the batch") // 12 × 1e-6 / 2
		assert.GreaterOrEqual(t, visits, jobs/float64(batch)-1e-5)
		assert.Less(t, visits, jobs/float64(batch)+1)
	})
}

func TestOwningNothingIsRentingEverything(t *testing.T) {
	for seed, s := range population() {
		plan := work.New(s)
		none := alternative.Evaluate(s, plan, set(s))
		rent := alternative.RentOf(s, plan, set(s))
		assert.Equal(t, rent, none.Rent, "seed %d", seed)
		assert.InDelta(t, rent.Present(s), none.Present, 0, "seed %d", seed)
		assert.Empty(t, none.Owner, "seed %d", seed)
	}
}

// sets draws some sets of owned machines, every single one and all of them among them.
func sets(s *model.Study, seed int) [][]bool {
	rng := rand.New(rand.NewPCG(uint64(seed), 2))
	list := [][]bool{set(s)}
	all := set(s)
	for m := range s.Machines {
		list = append(list, set(s, m))
		all[m] = true
	}
	list = append(list, all)
	for range 3 {
		some := set(s)
		for m := range some {
			some[m] = rng.IntN(2) == 0
		}
		list = append(list, some)
	}
	return list
}

func TestWhatASetCostsIsItsRentAndItsMachines(t *testing.T) {
	for seed, s := range population() {
		plan := work.New(s)
		for _, owned := range sets(s, seed) {
			result := alternative.Evaluate(s, plan, owned)
			sum := result.Rent.Present(s)
			for _, owner := range result.Owner {
				assert.True(t, owned[owner.Machine], "seed %d", seed)
				sum += owner.Present
			}
			assert.InDelta(t, sum, result.Present, studygen.Dust(sum), "seed %d %v", seed, owned)
		}
	}
}

func TestThePresentCostOfRentIsItsLinesTimesTheirFactors(t *testing.T) {
	for seed, s := range population() {
		plan := work.New(s)
		for _, owned := range sets(s, seed) {
			rent := alternative.RentOf(s, plan, owned)
			sum := rent.Fixed(s)
			for _, job := range rent.Jobs {
				factors := alternative.FactorsOf(s, job.Job)
				sum += job.Shop*factors.Shop + job.Travel*factors.Travel + (job.Labour+job.Bench.Labour)*factors.Labour + job.Bench.Wear*factors.Wear
			}
			assert.InDelta(t, sum, rent.Present(s), studygen.Dust(sum), "seed %d %v", seed, owned)
		}
	}
}

func TestEveryStepIsDoneOnceWhoeverOwnsWhat(t *testing.T) {
	for seed, s := range population() {
		plan := work.New(s)
		for _, owned := range sets(s, seed) {
			minutes := 0.0
			for m, has := range owned {
				if !has {
					continue
				}
				for _, use := range alternative.UsesOf(s, plan, owned, m) {
					minutes += use.PerJob.Minutes()
				}
			}
			anything := false
			for i := range plan.Rows {
				row := &plan.Rows[i]
				anything = anything || row.Site == work.AtStudio && owned[row.Machine] && row.Fit.OK() && row.Minutes() > 0
			}
			if !anything {
				continue
			}
			assert.Positive(t, minutes, "seed %d %v", seed, owned)
			before, after := alternative.RentOf(s, plan, set(s)), alternative.RentOf(s, plan, owned)
			for job := range before.Jobs {
				for k := range before.Jobs[job].Visits {
					assert.LessOrEqual(t, float64(after.Jobs[job].Visits[k].Billed), float64(before.Jobs[job].Visits[k].Billed)*(1+1e-12),
						"seed %d %v job %d: owning adds no minute at the shop", seed, owned, job)
				}
				assert.LessOrEqual(t, after.Jobs[job].Bench.Hours, before.Jobs[job].Bench.Hours*(1+1e-12), "seed %d %v", seed, owned)
			}
		}
	}
}

// scaleMoney multiplies every amount and rate of money in a study.
func scaleMoney(s *model.Study, factor float64) *model.Study {
	twin := s.Clone()
	model.Walk(twin, func(leaf model.Leaf) {
		if dim, ok := leaf.Dimension(); ok && dim.IsMoney() {
			leaf.SetNumber(leaf.Number() * factor)
		}
	})
	return twin
}

// rounding is what posting may put into the present cost of a study's rent: each
// visit has fifteen posted lines, half a unit off at most and supplements, tax
// and the other roundings on top (four times is ample for shares up to 60 %),
// and so have fees and inductions, once.
func rounding(s *model.Study, rent *alternative.Rent) float64 {
	unit := math.Pow10(-s.Money.Places())
	sum := 15 * unit * float64(len(s.Shops)*10)
	for i := range rent.Jobs {
		job := &rent.Jobs[i]
		factors := alternative.FactorsOf(s, job.Job)
		worst := max(factors.Shop, factors.Travel, factors.Labour)
		visits := job.ReworkCount
		for _, count := range job.Counts {
			visits += count
		}
		sum += 4 * 15 * unit / 2 * visits * worst
	}
	return sum
}

// Doubling every price doubles the cost, but for the rounding of each posted
// line; the currency here has four places, so that this is little. A membership
// that pays at one scale pays at the other, unless rounding alone decides, which
// no study here hangs on.
func TestPresentCostScalesWithAllPricesTogether(t *testing.T) {
	fine, err := money.ParseCurrency("CLF")
	require.NoError(t, err)
	for seed, made := range population() {
		s := made.Clone()
		s.Money = fine
		plan := work.New(s)
		for _, factor := range []float64{2, 10, 0.5} {
			twin := scaleMoney(s, factor)
			twinPlan := work.New(twin)
			for _, owned := range sets(s, seed) {
				once, scaled := alternative.Evaluate(s, plan, owned), alternative.Evaluate(twin, twinPlan, owned)
				allowed := (1+factor)*rounding(s, &once.Rent) + 1e-9*math.Abs(scaled.Present)
				assert.InDelta(t, factor*once.Present, scaled.Present, allowed, "seed %d %v times %v", seed, owned, factor)
			}
		}
	}
}

func TestNoJobsCostNothingToRent(t *testing.T) {
	for seed, made := range population() {
		s := made.Clone()
		for j := range s.JobTypes {
			s.JobTypes[j].PerYear = 0
		}
		rent := rentOf(s)
		assert.Zero(t, rent.Present(s), "seed %d", seed)
		assert.Zero(t, rent.Fee, "seed %d", seed)
		assert.Zero(t, rent.Induction, "seed %d", seed)
	}
}

func TestTheProfileOfAYearIsTheHoursAndTheWearOfItsJobs(t *testing.T) {
	for seed, s := range population() {
		plan := work.New(s)
		for m := range s.Machines {
			owner := alternative.OwnerOf(s, plan, set(s, m), m)
			for year := range owner.Profile.Hours {
				hours, own, wear, abrasives := 0.0, 0.0, 0.0, 0.0
				for _, use := range owner.Uses {
					jobs := float64(s.JobTypes[use.Job].PerYear) * math.Pow(1+float64(s.JobTypes[use.Job].Growth), float64(year))
					hours += jobs * use.PerJob.Hours()
					own += jobs * use.PerJob.Hours() * use.Crew
					wear += jobs * use.Wear
					abrasives += jobs * use.Abrasives
				}
				assert.InDelta(t, hours, owner.Profile.Hours[year], studygen.Dust(hours), "seed %d %d year %d", seed, m, year)
				assert.InDelta(t, own, owner.Profile.OwnHours[year], studygen.Dust(own), "seed %d %d year %d", seed, m, year)
				assert.InDelta(t, wear, owner.Profile.Wear[year], studygen.Dust(wear), "seed %d %d year %d", seed, m, year)
				assert.InDelta(t, abrasives, owner.Profile.Abrasives[year], studygen.Dust(wear), "seed %d %d year %d", seed, m, year)
				assert.LessOrEqual(t, abrasives, wear+studygen.Dust(wear), "abrasives are a part of what wears")
			}
		}
	}
}

func TestRentBesideIsRentOfWithLessToReckon(t *testing.T) {
	for seed, s := range population() {
		plan := work.New(s)
		rented := alternative.RentOf(s, plan, set(s))
		for _, owned := range sets(s, seed) {
			assert.Equal(t, alternative.RentOf(s, plan, owned), alternative.RentBeside(s, plan, &rented, owned), "seed %d %v", seed, owned)
		}
	}
}
