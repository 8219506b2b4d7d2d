package work_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

const seeds = 80

func TestEveryStepIsDoneOnceWhenEverythingIsRented(t *testing.T) {
	for seed, s := range studygen.Studies(seeds) {
		plan := work.New(s)
		done := make([]int, plan.Steps)
		for i := range plan.Rows {
			row := &plan.Rows[i]
			if row.Used {
				done[row.Step]++
				assert.True(t, row.Fit.OK(), "seed %d row %d", seed, i)
				assert.NotEqual(t, work.AtStudio, row.Site, "seed %d row %d", seed, i)
			}
		}
		for _, times := range done {
			assert.Equal(t, 1, times, "seed %d", seed)
		}
	}
}

func TestRowsComeInTheOrderOfJobsAndSteps(t *testing.T) {
	for seed, s := range studygen.Studies(seeds) {
		plan := work.New(s)
		at := 0
		for job := range plan.Jobs {
			require.Equal(t, at, plan.Jobs[job].First, "seed %d", seed)
			for _, row := range plan.Of(job) {
				require.Equal(t, job, row.Job, "seed %d", seed)
			}
			at = plan.Jobs[job].End
		}
		require.Len(t, plan.Rows, at, "seed %d", seed)
		for i := 1; i < len(plan.Rows); i++ {
			step := plan.Rows[i].Step - plan.Rows[i-1].Step
			require.GreaterOrEqual(t, step, 0, "seed %d row %d", seed, i)
		}
	}
}

// figures are what a row reckons, none of which may be negative or no number.
func figures(row *work.Row) []float64 {
	return []float64{float64(row.Depth), row.Passes, float64(row.Run), float64(row.PerJob), float64(row.PerVisit), row.Metres, row.Area, row.Wear}
}

func TestNoFigureIsNegativeOrNoNumber(t *testing.T) {
	for seed, s := range studygen.Studies(seeds) {
		plan := work.New(s)
		for i := range plan.Rows {
			for _, x := range figures(&plan.Rows[i]) {
				assert.False(t, math.IsNaN(x) || math.IsInf(x, 0) || x < 0, "seed %d row %d: %v", seed, i, figures(&plan.Rows[i]))
			}
		}
	}
}

// grown compares the rows of a study with those of a harder one: no time and no
// wear may fall.
func grown(t *testing.T, population []*model.Study, what string, harder func(*model.Study)) {
	t.Helper()
	rose := false
	for seed, made := range population {
		s := made.Clone()
		before := work.New(s)
		harder(s)
		after := work.New(s)
		require.Len(t, after.Rows, len(before.Rows))
		for i := range before.Rows {
			was, is := figures(&before.Rows[i]), figures(&after.Rows[i])
			for k := 1; k < len(was); k++ { // the depth of a pass may fall
				assert.GreaterOrEqual(t, is[k], was[k]*(1-1e-12), "%s, seed %d row %d: %v became %v", what, seed, i, was, is)
			}
			rose = rose || is[2] > was[2]
		}
	}
	assert.True(t, rose, "%s never cost a minute", what)
}

func TestMoreOrHarderWorkIsNeverFaster(t *testing.T) {
	population := studygen.Studies(seeds)
	operations := func(s *model.Study, change func(*model.Operation)) {
		for j := range s.JobTypes {
			for o := range s.JobTypes[j].Operations {
				change(&s.JobTypes[j].Operations[o])
			}
		}
	}
	pieces := func(s *model.Study, change func(*model.Piece)) {
		for j := range s.JobTypes {
			for p := range s.JobTypes[j].Pieces {
				change(&s.JobTypes[j].Pieces[p])
			}
		}
	}
	grown(t, population, "a longer piece", func(s *model.Study) { pieces(s, func(p *model.Piece) { p.Length *= 1.3 }) })
	grown(t, population, "a wider piece", func(s *model.Study) { pieces(s, func(p *model.Piece) { p.Width *= 1.3 }) })
	grown(t, population, "one piece more", func(s *model.Study) { pieces(s, func(p *model.Piece) { p.Count++ }) })
	grown(t, population, "more stock", func(s *model.Study) {
		operations(s, func(o *model.Operation) {
			o.Stock *= 1.7
			for g := range o.Grits {
				o.Grits[g].Stock *= 1.7
			}
		})
	})
	grown(t, population, "longer cuts", func(s *model.Study) { operations(s, func(o *model.Operation) { o.CutLength *= 1.2 }) })
	grown(t, population, "one cut more", func(s *model.Study) { operations(s, func(o *model.Operation) { o.Cuts += min(1, o.Cuts) }) })
	grown(t, population, "pieces fed one by one", func(s *model.Study) { operations(s, func(o *model.Operation) { o.ButtFeed = false }) })
	grown(t, population, "slower stock", func(s *model.Study) {
		for m := range s.Materials {
			s.Materials[m].FeedFactor *= 0.7
			s.Materials[m].DepthFactor *= 0.7
			s.Materials[m].EdgeLife *= 0.7
			s.Materials[m].AbrasiveLife *= 0.7
			// A slower feed lets the motor go deeper; harder stock takes that back.
			s.Materials[m].PlaningEnergy /= 0.7
			s.Materials[m].SandingEnergy /= 0.7
		}
	})
}

func TestASmallerMachineNeverTakesWhatABiggerOneRefuses(t *testing.T) {
	for seed, s := range studygen.Studies(seeds) {
		before := work.New(s)
		for m := range s.Machines {
			ability := &s.Machines[m].Ability
			ability.MaxWidth *= 0.8
			ability.MaxOpening *= 0.8
			ability.MostMass *= 0.8
			ability.LeastLength *= 1.25
		}
		after := work.New(s)
		for i := range before.Rows {
			assert.True(t, before.Rows[i].Fit.OK() || !after.Rows[i].Fit.OK(), "seed %d row %d", seed, i)
		}
	}
}

func TestStepsUpIsTheLeastNumberThatCoversTheAmount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := rapid.Float64Range(1e-4, 10).Draw(t, "step")
		amount := rapid.Float64Range(0, 1000).Draw(t, "amount") * step
		steps := work.StepsUp(amount, step)
		dust := 1e-6 * step // the inner rounding forgives this much
		assert.GreaterOrEqual(t, steps*step, amount-dust)
		assert.True(t, steps == 0 || (steps-1)*step < amount+dust, "%v steps of %v for %v", steps, step, amount)
		assert.InDelta(t, steps, math.Trunc(steps), 0)
	})
}

func TestAWholeNumberOfStepsIsNotRoundedUpByFloatDust(t *testing.T) {
	for n := 1.0; n <= 200; n++ {
		for _, step := range []float64{0.1, 0.0004, 0.3, 1.0 / 3, 0.0254 / 64} {
			sum := 0.0
			for range int(n) {
				sum += step
			}
			assert.InDelta(t, n, work.StepsUp(sum, step), 0, "%v times %v", n, step)
		}
	}
}

func TestAnEdgeThatLosesLifeCostsMoreByTheMetre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edge := model.Edge{
			Price: quantity.Money(rapid.Float64Range(1, 500).Draw(t, "price")), Life: quantity.Distance(rapid.Float64Range(50, 50000).Draw(t, "life")),
			Sharpenings: quantity.Count(rapid.IntRange(0, 15).Draw(t, "sharpenings")), SharpeningPrice: quantity.Money(rapid.Float64Range(0, 100).Draw(t, "sharpening")),
		}
		whole := work.EdgeCost(&edge)
		times := float64(edge.Sharpenings)
		assert.InEpsilon(t, (float64(edge.Price)+times*float64(edge.SharpeningPrice))/(float64(edge.Life)*(times+1)), whole, 1e-12)
		edge.LifeLost = quantity.Share(rapid.Float64Range(1e-6, 0.9).Draw(t, "lost"))
		assert.GreaterOrEqual(t, work.EdgeCost(&edge), whole*(1-1e-9))
		sum, life := 0.0, float64(edge.Life)
		for range int(times) + 1 {
			sum += life
			life *= 1 - float64(edge.LifeLost)
		}
		assert.InEpsilon(t, (float64(edge.Price)+times*float64(edge.SharpeningPrice))/sum, work.EdgeCost(&edge), 1e-9, "life by life")
	})
}

func TestTheMassOfAPieceFollowsItsMaterial(t *testing.T) {
	// 2.4 × 1 m × 60 mm of walnut at 610 kg/m³: 88 kg. Source: common practice, no source.
	slab := &model.Piece{Length: 2.4, Width: 1, Thickness: 0.06}
	assert.InDelta(t, 87.84, float64(work.PieceMass(slab, &model.Material{Density: 610})), 1e-9)
	assert.InDelta(t, 4, work.Persons(87.84, 23), 0, "87.84 ÷ 23 = 3.8")
	assert.InDelta(t, 1, work.Persons(5, 23), 0)
	assert.InDelta(t, 2, work.Persons(46, 23), 0, "exactly twice the limit is two people")
	gravity := &model.Material{Density: 610, SpecificGravity: 0.55, Moisture: 0.12}
	assert.InDelta(t, 616, float64(work.StockDensity(gravity)), 1e-9, "a specific gravity takes the density's place")
}

func TestReckoningAgainIsReckoningAnew(t *testing.T) {
	for seed, s := range studygen.Studies(seeds) {
		plan := work.New(s)
		model.Walk(s, func(leaf model.Leaf) {
			switch dim, measured := leaf.Dimension(); {
			case !measured || leaf.Has("fixed"):
			case dim == quantity.DimShare:
				leaf.SetNumber(leaf.Number() * 0.73) // stays a share
			default:
				leaf.SetNumber(leaf.Number() * 1.37) // what fitted may not fit now
			}
		})
		plan.Again(s)
		assert.Equal(t, work.New(s), plan, "seed %d", seed)
	}
}
