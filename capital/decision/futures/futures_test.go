package futures_test

import (
	"context"
	"encoding/json"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital"
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/futures"
	"shopstint/capital/decision/joint"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

func draw(t *testing.T, s *model.Study, options futures.Options) *futures.Result {
	t.Helper()
	result, err := futures.Draw(context.Background(), s, options)
	require.NoError(t, err)
	return result
}

func TestAStudyWithoutRangesAndScatterGivesTheSingleDecisionExactly(t *testing.T) {
	for seed, s := range studygen.Studies(20) {
		s.Origins, s.Correlations = nil, nil
		differences := single.Differences(s)
		result := draw(t, s, futures.Options{Most: 500, Steady: true})
		assert.True(t, result.Certainty)
		assert.True(t, result.Met)
		assert.Zero(t, result.Drawn)
		assert.Zero(t, result.Perfect, "nothing is left to be known")
		assert.Len(t, result.Choices, len(futures.Choices(s))-len(result.Left))
		for _, choice := range result.Choices {
			if owned(choice.Owned) != 1 {
				continue
			}
			m := slices.Index(choice.Owned, true)
			want := differences[m]
			assert.InDelta(t, want, choice.Difference.Mean.Value, 1e-9*math.Max(1, math.Abs(choice.Typical)), "seed %d, machine %d", seed, m)
			assert.InDelta(t, choice.Typical, choice.Cost.Mean.Value, 1e-12*choice.Typical, "seed %d, machine %d", seed, m)
			assert.Zero(t, choice.Difference.Deviation.Value)
			assert.Equal(t, [3]float64{}, [3]float64{choice.Cheapest.Error, choice.Regret.Error, choice.Cost.Mean.Error}, "nothing was drawn")
			assert.Equal(t, want > 0, choice.Better == chance.Estimate{Value: 1}, "seed %d, machine %d", seed, m)
			for _, percentile := range choice.Difference.Percentiles {
				assert.InDelta(t, want, percentile.Value, 1e-9*math.Max(1, math.Abs(choice.Typical)))
			}
		}
	}
}

func owned(set []bool) int {
	count := 0
	for _, has := range set {
		if has {
			count++
		}
	}
	return count
}

func TestASetThatMayNotBeOwnedIsNoChoice(t *testing.T) {
	s := demoStudy(t)
	s.Studio.Amps = 1000
	free := draw(t, s, futures.Options{Seed: 1, Most: 256, Workers: 2})
	require.Empty(t, free.Left)
	require.Len(t, free.Choices, 64)
	dearest := free.Choices[free.Best].Owned
	require.Greater(t, owned(dearest), 1)
	e := alternative.Evaluate(s, work.New(s), dearest)
	cash := 0.0
	for _, owner := range e.Owner {
		cash += owner.Table[capital.Net][0]
	}
	s.Studio.Budget = quantity.Money(cash - 1)
	held := draw(t, s, futures.Options{Seed: 1, Most: 256, Workers: 2})
	assert.Len(t, held.Choices, 64-len(held.Left))
	wins := 0.0
	for _, choice := range held.Choices {
		assert.NotEqual(t, dearest, choice.Owned)
		wins += choice.Cheapest.Value
	}
	assert.InDelta(t, 1, wins, 1e-9, "some allowed set is cheapest in each future")
	assert.Equal(t, held.Choices[held.Best].Regret, held.Perfect)
	out := slices.IndexFunc(held.Left, func(one futures.LeftOut) bool { return slices.Equal(one.Owned, dearest) })
	require.GreaterOrEqual(t, out, 0)
	assert.Equal(t, []string{joint.Money}, held.Left[out].Because)
	for _, choice := range held.Choices {
		same := slices.IndexFunc(free.Choices, func(one futures.Choice) bool { return slices.Equal(one.Owned, choice.Owned) })
		assert.Equal(t, free.Choices[same].Cost, choice.Cost, "the futures of a choice do not depend on what is left out")
		assert.LessOrEqual(t, choice.Regret.Value, free.Choices[same].Regret.Value)
	}
}

func TestWhereNothingMayBeOwnedRentingIsTheOneChoice(t *testing.T) {
	s := demoStudy(t)
	s.Studio.Budget = 1
	result := draw(t, s, futures.Options{Seed: 1, Most: 128})
	require.Len(t, result.Choices, 1)
	assert.Len(t, result.Left, 63)
	assert.True(t, result.Met)
	assert.Equal(t, 1.0, result.Choices[0].Cheapest.Value)
	assert.Zero(t, result.Perfect.Value)
	for _, one := range result.Inputs {
		assert.Zero(t, one.Worth.Value, one.Path)
	}
}

func TestOneSeedGivesTheSameBytesOnAnyNumberOfWorkers(t *testing.T) {
	s := studygen.Study(0)
	bytes := func(seed uint64, workers int) string {
		text, err := json.Marshal(draw(t, s, futures.Options{Seed: seed, Most: 1500, Workers: workers}))
		require.NoError(t, err)
		return string(text)
	}
	first := bytes(1, 1)
	for _, workers := range []int{2, 8} {
		assert.Equal(t, first, bytes(1, workers), "%d workers", workers)
	}
	assert.NotEqual(t, first, bytes(2, 2))
}

func TestDrawingEndsWhenTheErrorIsSmallAndElseSaysThatItIsNot(t *testing.T) {
	s := demoStudy(t)
	sets := futures.Choices(s)[:1+len(s.Machines)]
	var told []int
	result := draw(t, s, futures.Options{Seed: 1, Most: 20_000, Workers: 2, Sets: sets, Progress: func(drawn int) { told = append(told, drawn) }})
	require.True(t, result.Met)
	assert.Less(t, result.Futures, 20_000)
	for _, choice := range result.Choices[1:] {
		assert.LessOrEqual(t, choice.Difference.Mean.Error, 0.1*choice.Band)
	}
	assert.Equal(t, result.Futures, told[len(told)-1])
	s.Studio.CloseCall = 1e-9
	assert.False(t, draw(t, s, futures.Options{Seed: 1, Most: 1100, Sets: sets}).Met)
}

func TestAnInterruptedRunSaysSo(t *testing.T) {
	s := demoStudy(t)
	s.Studio.CloseCall = 1e-9 // never precise
	ctx, cancel := context.WithCancel(context.Background())
	_, err := futures.Draw(ctx, s, futures.Options{Most: 100_000, Workers: 2, Progress: func(int) { cancel() }, Sets: futures.Choices(s)[:2]})
	assert.ErrorIs(t, err, futures.ErrInterrupted)
	assert.ErrorContains(t, err, "after 1024 of them")
	_, err = futures.Draw(ctx, demoStudy(t), futures.Options{Most: 64})
	assert.ErrorIs(t, err, futures.ErrInterrupted)
	assert.ErrorIs(t, err, context.Canceled)
}

func TestChoicesAreRentingEachAloneAndThenTheOtherSets(t *testing.T) {
	s := &model.Study{Machines: make([]model.Machine, 3)}
	sets := futures.Choices(s)
	require.Len(t, sets, 8)
	assert.Equal(t, []bool{false, false, false}, sets[0])
	assert.Equal(t, []bool{false, true, false}, sets[2])
	seen := map[[3]bool]bool{}
	for _, set := range sets {
		seen[[3]bool(set)] = true
	}
	assert.Len(t, seen, 8)
	s.Machines = make([]model.Machine, 9)
	assert.Len(t, futures.Choices(s), 10, "more than eight: no combinations")
}

func TestTheFiguresOfTheFuturesFitEachOther(t *testing.T) {
	for seed, s := range studygen.Studies(8) {
		result := draw(t, s, futures.Options{Seed: uint64(seed), Most: 700, Workers: 2})
		wins, leastRegret := 0.0, math.Inf(1)
		for _, choice := range result.Choices {
			wins += choice.Cheapest.Value
			leastRegret = math.Min(leastRegret, choice.Regret.Value)
			assert.GreaterOrEqual(t, choice.Regret.Value, 0.0)
			p := choice.Cost.Percentiles
			assert.True(t, p[0].Value <= p[1].Value && p[1].Value <= p[2].Value && p[2].Value <= p[3].Value && p[3].Value <= p[4].Value)
			if choice.Years != nil {
				assert.InEpsilon(t, p[2].Value, choice.Years[len(choice.Years)-1].Median, 0.01, "the last year has all the cost")
			}
			last := math.Inf(-1)
			for _, point := range choice.Curve {
				assert.GreaterOrEqual(t, point.Difference, last)
				last = point.Difference
			}
		}
		assert.InDelta(t, 1, wins, 1e-9, "some choice is cheapest in each future")
		assert.Equal(t, leastRegret, result.Perfect.Value, "knowing all is worth the least regret")
		for _, one := range result.Inputs {
			assert.LessOrEqual(t, one.Worth.Value, result.Perfect.Value+4*(result.Perfect.Error+one.Worth.Error), "no input is worth more than all: %s", one.Path)
		}
	}
}

func TestAHighRangeOfAnInputMovesTheMeanAsTheEngineSays(t *testing.T) {
	s := studygen.Study(5)
	s.Origins, s.Correlations = map[string]model.Origin{}, nil
	result := draw(t, s, futures.Options{Steady: true, Most: 64})
	s.Origins["studio.labour_rate"] = model.Origin{HasRange: true, Low: float64(s.Studio.LabourRate), High: 3 * float64(s.Studio.LabourRate), Shape: model.ShapeUniform}
	uncertain := draw(t, s, futures.Options{Steady: true, Most: 4000, Seed: 8})
	twin := s.Clone()
	twin.Studio.LabourRate *= quantity.MoneyPerHour(2) // the middle, as cost is linear in it
	middle := draw(t, twin, futures.Options{Steady: true, Most: 64, Sets: futures.Choices(s)[:1]})
	assert.Less(t, result.Choices[0].Typical, middle.Choices[0].Typical)
	assert.InDelta(t, middle.Choices[0].Typical, uncertain.Choices[0].Cost.Mean.Value, 4*uncertain.Choices[0].Cost.Mean.Error+1)
}

func TestARangeOrCorrelationThatCannotBeIsNamed(t *testing.T) {
	s := studygen.Study(1)
	s.Correlations = nil
	s.Origins["studio.labour_rate"] = model.Origin{HasRange: true, Low: 0, High: 90, Shape: model.ShapeLognormal}
	_, err := futures.Draw(context.Background(), s, futures.Options{Most: 64})
	assert.ErrorContains(t, err, "studio.labour_rate")
	s = studygen.Study(1)
	span := model.Origin{HasRange: true, Low: 0.01, High: 0.05}
	for _, path := range []string{"growth.rental", "growth.travel", "growth.labour"} {
		s.Origins[path] = span
	}
	s.Growth.Rental, s.Growth.Travel, s.Growth.Labour = 0.03, 0.03, 0.03
	s.Correlations = []model.Correlation{{A: "growth.rental", B: "growth.travel", Rho: 1}, {A: "growth.travel", B: "growth.labour", Rho: 1}, {A: "growth.rental", B: "growth.labour", Rho: -1}}
	_, err = futures.Draw(context.Background(), s, futures.Options{Most: 64})
	assert.ErrorContains(t, err, "correlations")
}

// A top that grows too thick for the saw cannot be cut in that future.
func TestFuturesInWhichSomeWorkFitsNoMachineAreCounted(t *testing.T) {
	s := studygen.Round()
	s.Origins["studio.labour_rate"] = model.Origin{HasRange: true, Low: 50, High: 70}
	sound := draw(t, s, futures.Options{Most: 256})
	assert.Positive(t, sound.Futures)
	assert.Zero(t, sound.Lacking)
	s.Origins["job_types.top.pieces.top.thickness"] = model.Origin{HasRange: true, Low: 0.05, High: 0.4, Shape: model.ShapeUniform}
	thick := draw(t, s, futures.Options{Most: 256})
	assert.Greater(t, thick.Lacking, thick.Futures/2)
	assert.Less(t, thick.Lacking, thick.Futures)
}
