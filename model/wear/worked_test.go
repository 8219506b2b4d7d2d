package wear_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/wear"
	"shopstint/model/work"
)

// Source of the worked examples in this file: common practice, no source; every
// number is worked out beside its line.

func TestABeltsYearWorkedByHand(t *testing.T) {
	s := studygen.Round()
	belt := &s.Abrasives[0]
	require.Equal(t, "belt80", belt.Key)
	belt.ChangeTime, belt.DullFeed, belt.SuddenShare = quantity.Minutes(6), 0.5, 0
	item := of(s).Abrasives[0]
	assert.InDelta(t, 800, item.Full, digits)
	assert.InDelta(t, 800, item.Mean, digits)
	assert.InDelta(t, 0.1, item.Cost, digits)
	assert.Equal(t, work.EdgeSpan{Lives: 1, Run: 800, Cost: 80}, item.Span, "it has one life")
	require.Len(t, item.Uses, 1)
	use := item.Uses[0]
	// 4 passes of 2.4 m by 0.9 m: 8.64 m², sanded 20 times a year at 5 m/min.
	assert.InDelta(t, 172.8, use.Run, digits)
	assert.InDelta(t, 20*4*2.4/5/60, use.Hours, digits)
	assert.InDelta(t, 0.216, use.New, digits)
	assert.InDelta(t, 0.216, use.Changes, digits)
	assert.InDelta(t, 17.28, use.Cost, digits)
	assert.InDelta(t, 0.0216, use.ChangeTime, digits, "6 minutes each")
	assert.InDelta(t, 1.296, use.ChangeCost, digits, "at 60 an hour")
	// Half the pace is lost at the end: as much time again there, half of that in the mean.
	assert.InDelta(t, use.Hours/2, use.DullTime, digits)
	assert.InDelta(t, 30*use.Hours, use.DullCost, digits)
	assert.InDelta(t, 86, use.Change, digits, "80 and 6 minutes")
	assert.Zero(t, use.Sharpened)
	assert.Zero(t, use.Away)
	assert.Zero(t, use.Spares)
}

func TestKnivesChangedBeforeTheyAreDullSaveWhatTheRateSays(t *testing.T) {
	s := studygen.Round()
	s.Edges[0].ChangeTime, s.Edges[0].DullFeed = quantity.Minutes(30), 0.5
	use := of(s).Edges[0].Uses[0]
	// A metre takes 1/360 h, at half the feed twice that: after 4000 m 1/6 money more.
	const change, rise = 130.0, 1.0 / 6 / 4000
	assert.InEpsilon(t, rise, use.Rise, digits)
	best := math.Sqrt(2 * change / rise) // 2498 m
	assert.InEpsilon(t, best, use.Best, digits)
	assert.InEpsilon(t, 384*(change/4000+rise*4000/2-rise*best), use.Saved, digits)
}

func TestWhereDullnessTakesNoTimeAnEdgeIsChangedWhenItIsDull(t *testing.T) {
	s := studygen.Round()
	item := of(s).Edges[0]
	use := item.Uses[0]
	assert.InDelta(t, item.Full, use.Best, 0)
	assert.Zero(t, use.DullTime)
	assert.Zero(t, use.Rise)
	assert.Zero(t, use.Saved)
}

// Source: the share that ends suddenly is 1 − exp(−rate × full).
func TestDamageComesAtTheRateOfItsShare(t *testing.T) {
	assert.InEpsilon(t, 0.01, wear.Rate(1-1/math.E, 100), digits)
	s := studygen.Round()
	s.Edges[0].SuddenShare, s.Edges[0].DamageSpends = 0.5, 0
	item := of(s).Edges[0]
	assert.InEpsilon(t, math.Ln2/4000, item.Rate, digits)
	assert.InEpsilon(t, 4000*0.5/math.Ln2, item.Mean, digits, "(1 − ½) ÷ rate")
	assert.InDelta(t, 1, item.Sound, digits)
}

func TestAnEdgeThatLosesLifeIsDullSoonerInTheMean(t *testing.T) {
	s := studygen.Round()
	s.Edges[0].LifeLost = 0.5
	// 1 + ½ + ¼ + ⅛ of 4000 m in four lives.
	assert.InEpsilon(t, 4000*1.875/4, of(s).Edges[0].Full, digits)
}

func TestAnEdgeWearsWhereItWorks(t *testing.T) {
	s := studygen.Round()
	ash := s.Materials[0]
	ash.Key, ash.EdgeLife = "ash", 0.8
	s.Materials = append(s.Materials, ash)
	second := s.JobTypes[0]
	second.Key, second.Material, second.Shop = "shelf", "ash", "yard"
	s.JobTypes = append(s.JobTypes, second)
	yard := s.Shops[0]
	yard.Key, yard.Machines = "yard", append([]model.HiredMachine(nil), s.Shops[0].Machines...)
	s.Shops = append(s.Shops, yard)
	s.Shops[0].Machines[0].Consumables, yard.Machines[0].Consumables = "own", "own"

	item := of(s).Edges[0]
	var paths []string
	for _, use := range item.Uses {
		paths = append(paths, use.Path(s))
	}
	assert.Equal(t, []string{"machines.planer_own", "shops.mill.machines.planer", "shops.yard.machines.planer"}, paths, "a place for each machine")
	for i, want := range []struct{ run, plain float64 }{{768, 384 + 480}, {384, 384}, {384, 480}} { // ash: 384 ÷ 0.8
		assert.InDelta(t, want.run, item.Uses[i].Run, digits, paths[i])
		assert.InDelta(t, want.plain, item.Uses[i].Plain, digits, paths[i])
	}
	assert.Equal(t, []wear.InMaterial{{Material: 0, Full: 4000, Cost: 0.025}, {Material: 1, Full: 3200, Cost: 0.03125}}, item.Materials)

	s.JobTypes[1].PerYear, s.JobTypes[0].Material = 0, ""
	item = of(s).Edges[0]
	assert.Equal(t, []wear.InMaterial{{Material: 0, Full: 4000, Cost: 0.025}}, item.Materials, "no order in ash; who says no material works the first")

	s.JobTypes[0].Pieces[0].Width = 2
	for _, use := range of(s).Edges[0].Uses {
		assert.Zero(t, use.Run, "%s: too wide for it", use.Path(s))
		assert.Zero(t, use.DullTime+use.Saved, "and so nothing of it is dull")
		assert.InDelta(t, 4000, use.Best, 0)
	}
}

func TestAnEdgeThatRunsLittleWorksInItsMaterialAndOneThatRunsNotInNone(t *testing.T) {
	s := studygen.Round()
	s.JobTypes[0].PerYear = 0.01
	assert.Len(t, of(s).Edges[0].Materials, 1)
	s.Edges = append(s.Edges, model.Edge{Key: "bit", Price: 40, Life: 100})
	s.Tools[2].Edge, s.JobTypes[0].Operations[0].Class, s.JobTypes[0].Operations[0].Fallback = "bit", model.RouterSled, ""
	assert.Len(t, of(s).Edges[2].Materials, 1)
	s.Tools[2].Stride = 0
	assert.Empty(t, of(s).Edges[2].Materials)
}

// A rework goes to the shop as often as it needs a visit, and is done at the studio
// whenever it comes.
func TestAReworkWearsTheShopsBeltOnlyOnAVisit(t *testing.T) {
	s := studygen.Round()
	s.Shops[0].Machines[1].Consumables = "own"
	s.JobTypes[0].ReworkChance, s.JobTypes[0].ReworkVisits = 0.3, 0.5
	for _, use := range of(s).Abrasives[0].Uses {
		times := map[work.Site]float64{work.AtShop: 1.15, work.AtStudio: 1.3}[use.Site]
		assert.InDelta(t, times*172.8, use.Run, digits, use.Path(s))
	}
	s.JobTypes[0].Operations[1].Repeat = false
	for _, use := range of(s).Abrasives[0].Uses {
		assert.InDelta(t, 172.8, use.Run, digits, "%s: nothing is repeated", use.Path(s))
	}
}

func TestNothingIsAwayWhereNothingIsSharpened(t *testing.T) {
	assert.Zero(t, wear.Spares(-1))
	assert.Equal(t, 1, wear.Spares(1e-9), "one at least, where any is ever away")
}
