package ways_test

import (
	"math"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/capital"
	"shopstint/capital/decision/ways"
	"shopstint/model"
	"shopstint/model/defaults"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/model/studygen"
)

func demoStudy(t testing.TB) *model.Study {
	loaded, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	return loaded
}

// compared are generated studies that have comparisons, made once.
var compared = sync.OnceValue(func() []*model.Study {
	return slices.DeleteFunc(studygen.Studies(120), func(s *model.Study) bool { return len(s.Comparisons) == 0 })
})

func generated(t *rapid.T) *model.Study { return rapid.SampledFrom(compared()).Draw(t, "study") }

func TestPartsAddUpToWhatAYearCosts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := generated(t)
		for _, r := range ways.Compare(s) {
			amount := s.Comparisons[r.Comparison].Amount()
			for i := range r.Ways {
				w := &r.Ways[i]
				assert.InEpsilon(t, w.Yearly+1, amount*w.Unit()+1, 1e-9)
				for part, money := range w.PerUnit {
					assert.False(t, math.IsNaN(money) || money < 0 && ways.Part(part) != ways.Equipment, "part %d: %v", part, money)
				}
			}
			for i := range r.Ways {
				assert.GreaterOrEqual(t, r.Ways[i].Yearly, r.Ways[r.Best].Yearly)
			}
			assert.GreaterOrEqual(t, r.Saving(), 0.0)
		}
	})
}

func TestTheOrderOfWaysChangesNoAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := generated(t)
		before := ways.Compare(s)[0]
		twin := s.Clone()
		list := twin.Comparisons[0].Ways
		last := len(list) - 1
		list[0], list[last] = list[last], list[0]
		after := ways.Compare(twin)[0]
		assert.InEpsilon(t, before.Ways[before.Best].Yearly+1, after.Ways[after.Best].Yearly+1, 1e-12)
		a, b := pairOf(&before, 0, last), pairOf(&after, 0, last)
		assert.InDelta(t, a.At, b.At, 1e-9*a.At)
		swapped := map[int]int{0: last, last: 0, -1: -1}
		assert.Equal(t, swapped[a.Below], b.Below)
		assert.Equal(t, swapped[a.Above], b.Above)
		assert.Equal(t, swapped[a.Dearer], b.Dearer)
		assert.InDelta(t, a.RepayAt, b.RepayAt, 1e-9*a.RepayAt)
	})
}

func pairOf(r *ways.Result, first, second int) ways.Pair {
	for _, pair := range r.Pairs {
		if pair.First == first && pair.Second == second {
			return pair
		}
	}
	return ways.Pair{}
}

func TestAnotherCurrencyScalesCostsAndMovesNoBreakEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := generated(t)
		factor := rapid.Float64Range(0.01, 100).Draw(t, "factor")
		twin := s.Clone()
		model.Walk(twin, func(leaf model.Leaf) {
			if dim, ok := leaf.Dimension(); ok && dim.IsMoney() {
				leaf.SetNumber(factor * leaf.Number())
			}
		})
		after := ways.Compare(twin)
		for i, before := range ways.Compare(s) {
			for w := range before.Ways {
				for part, money := range before.Ways[w].PerUnit {
					assert.InDelta(t, factor*money, after[i].Ways[w].PerUnit[part], 1e-9*factor*math.Abs(money))
				}
			}
			for p, pair := range before.Pairs {
				assert.Equal(t, pair.Outcome, after[i].Pairs[p].Outcome)
				assert.InDelta(t, pair.At, after[i].Pairs[p].At, 1e-6*pair.At)
			}
		}
	})
}

func TestAWayThatAsksMoreOfEverythingNeverWins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := generated(t).Clone()
		one := &s.Comparisons[0]
		worse := one.Ways[0]
		worse.Key = "worse"
		worse.LifeFactor /= 2
		worse.Feed, worse.AreaTime = worse.Feed/2, worse.AreaTime*2
		worse.PieceTime, worse.ReworkTime, worse.ReworkCost = 2*worse.PieceTime, 2*worse.ReworkTime, 2*worse.ReworkCost
		worse.Spares++
		one.Ways = []model.Way{one.Ways[0], worse}
		r := ways.Compare(s)[0]
		pair := r.Pairs[0]
		assert.Equal(t, 0, r.Best)
		assert.Contains(t, []ways.Outcome{ways.FirstAlways, ways.Same}, pair.Outcome)
	})
}

// A machine that is bought for a way costs what its economic life says, where
// nothing grows and nothing is insured.
func TestAMachineCostsAsMuchAsItsEconomicLifeSays(t *testing.T) {
	s := demoStudy(t).Clone()
	s.Growth = model.Growth{}
	saw := &s.Machines[model.Index(s.Machines, "rail_saw")]
	saw.Insurance, saw.PropertyTax, saw.UpkeepRise = 0, 0, 0
	r := ways.Compare(s)[1]
	deep := &r.Ways[1]
	profile := capital.Profile{}
	for range int(saw.YearsKept) {
		profile.Hours = append(profile.Hours, deep.Hours)
		profile.OwnHours, profile.Wear = append(profile.OwnHours, 0), append(profile.Wear, 0)
	}
	life := capital.EconomicLife(s, saw, profile)
	work := deep.Hours * (deep.Power + deep.Care*float64(s.Studio.LabourRate))
	assert.InEpsilon(t, life.Annual[len(life.Annual)-1], deep.Kept.Yearly()-deep.Kept.Interest+work, 1e-9)
}

// trade is a study of our own numbers. Source of each below: common practice,
// no source.
func trade() *model.Study {
	s := &model.Study{Currency: "USD", Units: "metric",
		Machines:  []model.Machine{{Key: "large_saw", Ability: model.Ability{Class: model.TrackSaw}, Price: 1200, YearsKept: 6}},
		Tools:     []model.Tool{{Key: "router", Ability: model.Ability{Class: model.Router, Edge: "straight"}}},
		Materials: []model.Material{{Key: "resin", Resin: true}},
		Edges: []model.Edge{
			{Key: "straight", Price: 35, Life: 14}, {Key: "spiral", Price: 110, Life: 160, Sharpenings: 2, SharpeningPrice: 22, Errand: 12},
			{Key: "small_blade", Price: 80, Life: 150, Sharpenings: 5, SharpeningPrice: 22}, {Key: "large_blade", Price: 120, Life: 100, Sharpenings: 5, SharpeningPrice: 28},
		},
		Abrasives: []model.Abrasive{
			{Key: "paper150", Class: model.Orbital, Grit: 150, Price: 0.6, Life: 1.2}, {Key: "paper220", Class: model.Orbital, Grit: 220, Price: 0.6, Life: 2},
			{Key: "mesh150", Class: model.Orbital, Grit: 150, Price: 1.4, Life: 3, OnlyCompared: true}, {Key: "mesh220", Class: model.Orbital, Grit: 220, Price: 1.4, Life: 5, OnlyCompared: true},
		},
		Comparisons: []model.Comparison{
			{Key: "flush", Material: "resin", YearlyLength: 210, PieceLength: 7, Ways: []model.Way{
				{Key: "straight", Edge: "straight", Feed: quantity.MetresPerMinute(1)}, {Key: "spiral", Edge: "spiral", Feed: quantity.MetresPerMinute(1)}}},
			{Key: "cuts", Material: "resin", YearlyLength: 400, PieceLength: 7, Ways: []model.Way{
				{Key: "several", Edge: "small_blade", Passes: 4, Feed: quantity.MetresPerMinute(1.8)}, {Key: "deep", Edge: "large_blade", Feed: quantity.MetresPerMinute(0.8), Machine: "large_saw"}}},
			{Key: "grits", Material: "resin", YearlyArea: 200, PieceArea: 5, Ways: []model.Way{
				{Key: "paper", Abrasives: []string{"paper150", "paper220"}, AreaTime: 14 * 60},
				{Key: "last", Abrasives: []string{"paper150", "mesh220"}, AreaTime: 13.6 * 60, Price: 25, YearsKept: 1},
				{Key: "mesh", Abrasives: []string{"mesh150", "mesh220"}, AreaTime: 14.4 * 60, Price: 25, YearsKept: 1}}},
			{Key: "faults", Material: "resin", YearlyArea: 60, PieceArea: 3, WaitingRate: 0.5, Ways: []model.Way{
				{Key: "resin", ReworkShare: 0.6, ReworkTime: 15 * 60, ReworkCost: 2, ReworkWait: 24 * 3600}, {Key: "instant", ReworkShare: 0.6, ReworkTime: 12 * 60, ReworkCost: 3, ReworkWait: 60}}},
		},
	}
	given := map[string]bool{"edges.straight.sharpenings": true}
	model.Walk(s, func(leaf model.Leaf) { given[leaf.Path] = given[leaf.Path] || !leaf.Value.IsZero() })
	defaults.Fill(s, func(path string) bool { return given[path] })
	return s
}

// A straight bit is spent after one large top of 7 m in wood with resin (14 m,
// halved by resin and cut short by damage); a spiral costs three times as much,
// lasts eleven times as long and is sharpened twice.
func TestASpiralBitPaysFromTheFirstTopsOn(t *testing.T) {
	s := trade()
	r := ways.Compare(s)[0]
	straight, spiral := &r.Ways[0], &r.Ways[1]
	assert.InDelta(t, 1, 7*straight.Changes, 0.25, "about one bit a top")
	assert.Equal(t, 1, r.Best)
	assert.Greater(t, straight.PerUnit[ways.Wear], 4*spiral.PerUnit[ways.Wear])
	pair := r.Pairs[0]
	require.Equal(t, ways.Crossing, pair.Outcome, "the spiral in the drawer is money tied up")
	assert.Equal(t, 1, pair.Above)
	assert.Less(t, pair.At, 7.0, "less than a top a year")
	require.True(t, pair.Repaid)
	tops := pair.RepayAt / 7
	assert.Greater(t, tops, 4.0)
	assert.Less(t, tops, 8.0, "what a spiral and its spare cost more is back after some tops")
}

// One deep pass takes the place of three to four: the large saw is slower in
// the cut and needs one pass.
func TestADeepPassPaysFromSomeLengthAYearOn(t *testing.T) {
	r := ways.Compare(trade())[1]
	pair := r.Pairs[0]
	require.Equal(t, ways.Crossing, pair.Outcome)
	assert.Equal(t, []int{0, 1}, []int{pair.Below, pair.Above})
	assert.Greater(t, pair.At, 150.0)
	assert.Less(t, pair.At, 600.0)
	assert.Less(t, r.Ways[1].Running, r.Ways[0].Running)
}

// Mesh is kept for the last grit: there it clogs less and saves time; on all
// grits it costs time, and its pad saver is paid either way.
func TestMeshIsRightForTheLastGritAlone(t *testing.T) {
	r := ways.Compare(trade())[2]
	assert.Equal(t, 1, r.Best)
	last := pairOf(&r, 0, 1)
	require.Equal(t, ways.Crossing, last.Outcome)
	assert.Less(t, last.At, 200.0)
	assert.Equal(t, 1, last.Above)
	all := pairOf(&r, 1, 2)
	assert.Equal(t, 1, all.Above, "mesh for the last grit stays ahead of mesh for all")
}

func TestWaitingForACureIsToldInDaysAndPricedWhenItHasAPrice(t *testing.T) {
	s := trade()
	r := ways.Compare(s)[3]
	assert.InDelta(t, 60.0/3*0.6, r.Ways[0].Waited, 1e-9, "twenty tops, six in ten wait a day")
	assert.Less(t, r.Ways[1].Waited, 0.05)
	assert.Equal(t, 1, r.Best)
	s.Comparisons[3].WaitingRate = 0
	free := ways.Compare(s)[3]
	assert.InDelta(t, r.Ways[0].Waited, free.Ways[0].Waited, 0, "the days are the same")
	assert.InDelta(t, 12*24*0.5, r.Ways[0].Yearly-free.Ways[0].Yearly, 1e-9)
}
