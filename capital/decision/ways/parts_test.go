package ways_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/ways"
	"shopstint/model"
)

// Source of the worked examples below: common practice, no source.

// A fifth of the feed lost at the end is a quarter more time there; evenly worn that is
// an eighth in the mean.
func TestAnEdgeThatSlowsIsHalfSlowedInTheMean(t *testing.T) {
	assert.InDelta(t, 1, ways.Slowing(0, 0), 1e-9)
	assert.InDelta(t, 1.125, ways.Slowing(0.2, 0), 1e-3)
	assert.Less(t, ways.Slowing(0.2, 0.5), 1.125, "where edges end sooner, less is run dull")
	// With half of the lives ended by damage at an even rate of ln 2 a life, the mean age of what
	// runs is ∫ t exp(−t ln 2) ÷ ∫ exp(−t ln 2) over a life: 1 ÷ ln 2 − 1.
	assert.InDelta(t, 1+0.25*(1/math.Ln2-1), ways.Slowing(0.2, 0.5), 1e-4)
}

func TestMinutesAreChangesTimesTheirTimeAndMoneyIsMinutesAtTheRateOfAnHour(t *testing.T) {
	s := trade()
	for i, one := range ways.Compare(s)[0].Ways {
		edge, ok := model.Find(s.Edges, s.Comparisons[0].Ways[i].Edge)
		require.True(t, ok)
		require.Positive(t, edge.ChangeTime)
		given := &s.Comparisons[0].Ways[i]
		speed := given.Feed.MetresPerMinute() * float64(s.Materials[0].FeedFactor)
		assert.Greater(t, one.Slowing, 1.0)
		assert.InEpsilon(t, float64(given.Passes)/speed*one.Slowing, one.Running, 1e-12)
		assert.InEpsilon(t, one.Changes*edge.ChangeTime.Minutes(), one.Change, 1e-12)
		assert.InEpsilon(t, one.Minutes()*float64(s.Studio.LabourRate), 60*one.PerUnit[ways.Labour], 1e-12)
	}
}

func TestTheMinutesOfAnAreaAreSlowedByWornAbrasives(t *testing.T) {
	s := trade()
	for i, one := range ways.Compare(s)[2].Ways {
		assert.InEpsilon(t, float64(s.Comparisons[2].Ways[i].AreaTime)/60*one.Slowing, one.Running, 1e-12)
	}
}

func TestWaysThatDifferInOneOfTheirTwoPartsDoNotCross(t *testing.T) {
	low, dearToKeep, dearToUse := ways.Line{Fixed: 100, Unit: 1}, ways.Line{Fixed: 120, Unit: 1}, ways.Line{Fixed: 100, Unit: 2}
	for _, dear := range []ways.Line{dearToKeep, dearToUse} {
		outcome, at := ways.BreakEven(low, dear)
		assert.Equal(t, ways.FirstAlways, outcome)
		assert.Zero(t, at)
		outcome, at = ways.BreakEven(dear, low)
		assert.Equal(t, ways.SecondAlways, outcome)
		assert.Zero(t, at)
	}
	outcome, at := ways.BreakEven(low, low)
	assert.Equal(t, ways.Same, outcome)
	assert.Zero(t, at)
}

func TestAWayBesideItselfIsNeitherBelowNorAbove(t *testing.T) {
	s := trade()
	s.Comparisons[0].Ways[1] = s.Comparisons[0].Ways[0]
	pair := ways.Compare(s)[0].Pairs[0]
	assert.Equal(t, ways.Same, pair.Outcome)
	assert.Equal(t, []int{-1, -1, -1}, []int{pair.Below, pair.Above, pair.Dearer})
}

func TestTheNextBestIsTheBestOfTheOthersAndABreakEvenIsToldInHoursToo(t *testing.T) {
	crossings, repaid := 0, 0
	for _, s := range append(compared(), trade()) {
		for _, r := range ways.Compare(s) {
			for i := range r.Ways {
				if i != r.Best {
					assert.LessOrEqual(t, r.Ways[r.Next].Yearly, r.Ways[i].Yearly)
				}
			}
			assert.NotEqual(t, r.Best, r.Next)
			amount := s.Comparisons[r.Comparison].Amount()
			for _, pair := range r.Pairs {
				if pair.Outcome == ways.Crossing {
					crossings++
					assert.InDelta(t, pair.At*r.Ways[pair.Above].Running, 60*pair.Hours, 1e-9*math.Max(1, pair.Hours))
				}
				if pair.Repaid {
					repaid++
					dear := &r.Ways[pair.Dearer]
					cheap := &r.Ways[pair.First+pair.Second-pair.Dearer]
					running := func(w *ways.Way) float64 { return w.Line.Unit*amount + w.Kept.Upkeep + w.Kept.Housing }
					years := pair.RepayAt / amount
					assert.InEpsilon(t, dear.Outlay-cheap.Outlay, years*(running(cheap)-running(dear)), 1e-9)
				}
			}
		}
	}
	assert.Greater(t, crossings, 5)
	assert.Greater(t, repaid, 5)
}

func TestTheFixturesOfAMachineArePaidWithItAndComeBackInPart(t *testing.T) {
	kept := func(change func(*model.Machine)) ways.Kept {
		s := trade()
		s.Machines[0].FixturesResale = 0.25
		change(&s.Machines[0])
		return ways.Compare(s)[1].Ways[1].Kept
	}
	before := kept(func(*model.Machine) {})
	moved := kept(func(m *model.Machine) { m.Delivery, m.Rigging = m.Delivery+30, m.Rigging+70 })
	assert.InDelta(t, before.Paid+100, moved.Paid, 1e-9)
	for _, change := range []func(*model.Machine){
		func(m *model.Machine) { m.Wiring += 400 }, func(m *model.Machine) { m.Converter += 400 },
		func(m *model.Machine) { m.DustCollection += 400 }, func(m *model.Machine) { m.Compressor += 400 },
	} {
		after := kept(change)
		assert.InDelta(t, before.Paid+400, after.Paid, 1e-9)
		assert.InDelta(t, before.Back+100, after.Back, 1e-9)
	}
}
