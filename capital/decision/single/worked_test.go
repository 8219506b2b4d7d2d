package single_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

func decide(s *model.Study) []single.Result {
	plan := work.New(s)
	rented := alternative.RentOf(s, plan, make([]bool, len(s.Machines)))
	return single.DecideAll(s, plan, &rented)
}

func breakEvenIn(t *testing.T, result *single.Result, in string) single.BreakEven {
	t.Helper()
	for _, found := range result.BreakEvens {
		if found.In == in {
			return found
		}
	}
	require.Fail(t, "no break-even", in)
	return single.BreakEven{}
}

// The planer of the round study. Source: common practice, no source; every
// number is worked out beside its line.
func TestOneDecisionWorkedByHand(t *testing.T) {
	const annuity = 1/1.1 + 1/1.21 + 1/1.331
	s := studygen.Round()
	result := decide(s)[0]
	// Of a visit of 225 + 20 + 344 the belt alone is 150 + 20 + 291.60: 127.40 saved, 20 times a year.
	assert.InDeltaSlice(t, []float64{0, 2548, 2548, 2548}, result.Avoided, 1e-6)
	assert.InDelta(t, 2548*annuity, result.Saved, 1e-6)
	// 4000, then 4 % upkeep, knives of 0.48 × 20 and 2 × 26.2 min × 20 at 60 an hour; 2268 back.
	assert.InDeltaSlice(t, []float64{-4000, 1330.4, 1330.4, 3598.4}, result.Flows, 1e-6)
	owning := 4000 + 1217.6*annuity - 2268/1.331
	assert.InDelta(t, owning, result.Owning, 1e-6)
	assert.InDelta(t, 1012.5, result.Difference, 0.5, "6336.5 − 5324.0")
	assert.InDelta(t, result.Difference/annuity, result.Annual, 1e-6)
	assert.InDelta(t, result.Saved/annuity, result.SavedAnnual, 1e-6)
	assert.InDelta(t, owning/annuity, result.OwningAnnual, 1e-6)
	assert.InDelta(t, 4000, result.CashNeeded, 1e-6)
	assert.InDelta(t, 20, result.Jobs, 0)
	assert.InDelta(t, owning/(20*annuity), result.PerJob, 1e-6)
	assert.InDelta(t, owning/(20*26.2/60*annuity), result.PerHour, 1e-6)
	// 2660.80 are back after two years, 1339.20 of 3598.40 in the third.
	assert.True(t, result.Payback.SimpleOK)
	assert.InDelta(t, 2+1339.2/3598.4, result.Payback.Simple, 1e-9)
	assert.Equal(t, single.Buy, result.Verdict)
	assert.Equal(t, "buy", result.Verdict.String())
	assert.InDelta(t, 0.05*result.Saved, result.Band, 1e-6, "5 % of the dearer side")
	require.Len(t, result.Returns, 1)
	assert.InDelta(t, 0.2153, result.Returns[0], 0.00005, "1330.40 ÷ 1.2153 + 1330.40 ÷ 1.2153² + 3598.40 ÷ 1.2153³ = 4000")
}

func TestTheBreakEvensOfOneDecisionWorkedByHand(t *testing.T) {
	const annuity = 1/1.1 + 1/1.21 + 1/1.331
	result := decide(studygen.Round())[0]
	fixed := 4000 + 160*annuity - 2268/1.331
	// Each job saves 127.40 and costs 0.48 of knives and 52.4 min of own time.
	jobs := fixed / ((127.4 - 0.48 - 52.4) * annuity)
	found := breakEvenIn(t, &result, single.InJobs)
	assert.InDelta(t, 20, found.Now, 0)
	require.Len(t, found.Crossings, 1)
	assert.InDelta(t, jobs, found.Crossings[0], 1e-9)
	hours := breakEvenIn(t, &result, single.InHours)
	assert.InDelta(t, jobs*26.2*60, hours.Crossings[0], 1e-6, "26.2 min a job")
	// The price and what is fetched for it move together; upkeep stays on the price of a new one.
	price := (result.Saved - 1217.6*annuity) / (1 - 0.567/1.331)
	found = breakEvenIn(t, &result, single.InPrice)
	require.Len(t, found.Crossings, 1)
	assert.InDelta(t, price, found.Crossings[0], 1e-6)
	// Half an hour less a visit at 150: 75 of the 127.40 move with the rate.
	rate := 150 * (1 - result.Difference/(20*75*annuity))
	found = breakEvenIn(t, &result, single.InRate)
	require.Len(t, found.Crossings, 1)
	assert.InDelta(t, rate, found.Crossings[0], 0.05, "visits are posted to the cent: 0.01 on half an hour is 0.02 an hour")
	// The drive stays, for the belt: distance decides nothing here.
	assert.Empty(t, breakEvenIn(t, &result, single.InDistance).Crossings)
}

func TestASmallDifferenceIsTooCloseToCall(t *testing.T) {
	s := studygen.Round()
	difference := decide(s)[0].Difference
	saved := decide(s)[0].Saved
	for _, row := range []struct {
		share float64
		want  single.Verdict
	}{
		{difference/saved + 0.001, single.TooClose}, {difference/saved - 0.001, single.Buy}, {0, single.Buy},
	} {
		s.Studio.CloseCall = quantity.Share(row.share)
		assert.Equal(t, row.want, decide(s)[0].Verdict, "at %v", row.share)
	}
	s.Machines[0].Price = 40000
	assert.Equal(t, single.KeepRenting, decide(s)[0].Verdict)
	assert.Equal(t, "keep renting", single.KeepRenting.String())
	assert.Equal(t, "too close to call", single.TooClose.String())
}

func TestASwingTellsWhetherTheAnswerFlips(t *testing.T) {
	s := studygen.Round()
	s.Origins["machines.planer_own.price"] = model.Origin{HasRange: true, Low: 3000, High: 9000}
	s.Origins["studio.tax_rate"] = model.Origin{HasRange: true, Low: 0, High: 0}
	result := decide(s)[0]
	require.Len(t, result.Swings, 1, "a range without width is no swing")
	swing := result.Swings[0]
	assert.Equal(t, "machines.planer_own.price", swing.Path)
	assert.InDelta(t, 4000, swing.Value, 0)
	// Each more of price costs 1 − 56.7 % ÷ 1.331.
	slope := 1 - 0.567/1.331
	assert.InDelta(t, result.Difference+1000*slope, swing.AtLow, 1e-6)
	assert.InDelta(t, result.Difference-5000*slope, swing.AtHigh, 1e-6)
	assert.InDelta(t, 6000*slope, swing.Size(), 1e-6)
	assert.True(t, swing.Flips(result.Difference))
	assert.False(t, swing.Assumed)
}

// Measured minutes take the place of the geometry, grit by grit: between nothing
// and something the steps of a job are other ones.
func TestASwingFromGeometryToMeasuredMinutesIsReckonedOnItsOwnSteps(t *testing.T) {
	s := studygen.Round()
	s.Origins["job_types.top.operations.sand.measured"] = model.Origin{HasRange: true, Low: 0, High: 600}
	results := decide(s)
	measured := s.Clone()
	measured.JobTypes[0].Operations[1].Measured = 600
	for m, want := range single.Differences(measured) {
		require.Len(t, results[m].Swings, 1)
		assert.InDelta(t, results[m].Difference, results[m].Swings[0].AtLow, 1e-6)
		assert.InDelta(t, want, results[m].Swings[0].AtHigh, 1e-6)
	}
}
