package wear_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/wear"
	"shopstint/model/work"
)

const digits = 1e-9 // tolerance: last digits only

func of(s *model.Study) wear.Result { return wear.Of(s, work.New(s)) }

// Source of the worked examples in this file: common practice, no source; every
// number is worked out beside its line.

func TestAYearOfKnivesOnAPlanerWorkedByHand(t *testing.T) {
	s := studygen.Round()
	knives := &s.Edges[0]
	knives.Turnaround, knives.ChangeTime, knives.DullFeed = 73, quantity.Minutes(30), 0.2
	item := of(s).Edges[0]
	require.Equal(t, "knives", item.Key)
	require.Len(t, item.Uses, 1, "the shop's rate pays for the shop's knives")
	use := item.Uses[0]
	assert.Equal(t, "machines.planer_own", use.Path(s))
	// 8 passes of 2.4 m, 20 times a year, with knives of four lives of 4000 m.
	assert.InDelta(t, 384, use.Run, digits)
	assert.InDelta(t, 384, use.Plain, digits)
	assert.InDelta(t, 384.0/6/60, use.Hours, digits, "at 6 m/min")
	assert.InDelta(t, 384.0/16000, use.New, digits)
	assert.InDelta(t, 3*384.0/16000, use.Sharpened, digits)
	assert.InDelta(t, 9.6, use.Cost, digits, "0.025 a metre")
	assert.InDelta(t, 0.048*60, use.ChangeCost, digits, "0.096 changes of half an hour at 60 an hour")
	// Dull at 80 % of the feed is a quarter more time; half of that in the mean.
	assert.InDelta(t, use.Hours/8, use.DullTime, digits)
	assert.InDelta(t, 60*use.Hours/8, use.DullCost, digits)
	// A fifth of 0.072 sharpenings is away in the mean: a second spare would wait for one in ten thousand.
	assert.InDelta(t, 0.0144, use.Away, digits)
	assert.Equal(t, 1, use.Spares)
	// A change is 400 ÷ 4 lives and 30 of time; a metre takes 1/360 h, 1/6 money, and a quarter more after 4000 m.
	assert.InDelta(t, 130, use.Change, digits)
	assert.InEpsilon(t, math.Sqrt(2*130/(1.0/6/4/4000)), use.Best, digits)
	assert.Zero(t, use.Saved, "longer than until it is dull")
}

func TestAReworkAndAHarderMaterialWearMore(t *testing.T) {
	s := studygen.Round()
	before := of(s)
	s.Materials[0].EdgeLife, s.Materials[0].AbrasiveLife = 0.5, 0.25
	s.JobTypes[0].ReworkChance = 0.3
	after := of(s)
	knives := after.Edges[0].Uses[0]
	assert.InDelta(t, 384, knives.Run, digits, "the planing is not repeated")
	assert.InDelta(t, 768, knives.Plain, digits, "half the life")
	assert.InDelta(t, 2000, after.Edges[0].Materials[0].Full, digits)
	assert.InDelta(t, 0.05, after.Edges[0].Materials[0].Cost, digits)
	belt, was := after.Abrasives[0].Uses[0], before.Abrasives[0].Uses[0]
	assert.InDelta(t, 1.3*was.Run, belt.Run, digits, "sanded 1.3 times")
	assert.InDelta(t, 4*1.3*was.Cost, belt.Cost, digits)
}

// Fact of the trade: a straight flush-trim bit is spent after about one large top,
// a spiral one serves many and is then resharpened. Source: common practice, no source.
func TestAStraightBitLastsOneLargeTopAndASpiralOneMany(t *testing.T) {
	// Around 2.44 by 1.04 m, 64 mm thick: 6.96 m, trimmed over the whole depth. A straight bit takes 12 mm
	// at a time, so 6 rounds or 42 m; a spiral one 25 mm, so 3 rounds or 21 m. Resin halves the life.
	const straightTop, spiralTop, resin = 6 * 6.96, 3 * 6.96, 0.5
	straight := &model.Edge{Price: 38, Life: 90, Sharpenings: 1, SizeLost: 0.00015, SizeSpare: 0.0001, SuddenShare: 0.2, DamageSpends: 0.6, SharpeningPrice: 16, Errand: 12}
	span := work.SpanOf(straight)
	assert.True(t, span.BySize, "one sharpening takes more than its bearing allows")
	assert.InDelta(t, 1, span.Run*resin/straightTop, 0.25, "tops that a straight bit serves until it is spent")
	spiral := &model.Edge{Price: 115, Life: 220, Sharpenings: 3, SizeLost: 0.00015, SizeSpare: 0.0004, SuddenShare: 0.2, DamageSpends: 0.6, SharpeningPrice: 24, Errand: 12}
	span = work.SpanOf(spiral)
	life := span.Run / (1 + span.Sharpened)
	assert.Greater(t, life*resin/spiralTop, 4.0, "tops until it is resharpened")
	assert.Greater(t, span.Run*resin/spiralTop, 10.0, "tops until it is spent")
	assert.Less(t, work.EdgeCost(spiral)*spiralTop, work.EdgeCost(straight)*straightTop, "and a top costs less of it")
}

func TestWhatIsSpentInAYearIsWhatTheDecisionPays(t *testing.T) {
	for seed, s := range studygen.Studies(30) {
		result := of(s)
		for _, list := range [][]wear.Item{result.Edges, result.Abrasives} {
			for _, item := range list {
				for _, use := range item.Uses {
					assert.InDelta(t, use.Plain*item.Cost, use.Cost, 1e-9*(1+use.Cost), "seed %d %s", seed, item.Key)
					assert.InDelta(t, use.Changes*item.Mean, use.Plain, 1e-9*(1+use.Plain), "seed %d %s: a change for each life", seed, item.Key)
					assert.False(t, math.IsNaN(use.Best) || math.IsNaN(use.Saved) || use.Saved < 0, "seed %d %s", seed, item.Key)
					assert.Equal(t, use.Away == 0, use.Spares == 0, "seed %d %s", seed, item.Key)
				}
			}
		}
	}
}

func TestSparesAreTheFewestThatKeepNineteenInTwentyChangesFromWaiting(t *testing.T) {
	assert.Equal(t, 0, wear.Spares(0))
	// One away in the mean: 1 − exp(−1)·(1 + 1 + 1/2) = 8.0 % of changes find three away or more, 1.9 % four.
	assert.InDelta(t, 0.080301, wear.Waits(3, 1), 1e-6)
	assert.Equal(t, 4, wear.Spares(1))
	rapid.Check(t, func(t *rapid.T) {
		away := rapid.Float64Range(1e-6, 40).Draw(t, "away")
		spares := wear.Spares(away)
		assert.Less(t, wear.Waits(spares, away), wear.Seldom)
		assert.True(t, spares == 1 || wear.Waits(spares-1, away) >= wear.Seldom)
		none := 1 - distuv.Poisson{Lambda: away}.Prob(0)
		assert.InDelta(t, none, wear.Waits(1, away), 1e-9)
	})
}

// Palm: the number away is Poisson whatever the law of the time away. Here it is
// drawn: sharpenings come at random, each away for a time that is even or fixed.
func TestTheNumberAwayIsAPoissonNumberWhateverTheTimeAway(t *testing.T) {
	const away, spares = 0.8, 2
	for name, stay := range map[string]func(u float64) float64{
		"fixed": func(float64) float64 { return 1 }, "even": func(u float64) float64 { return 2 * u },
	} {
		rng := distuv.Uniform{Min: 0, Max: 1, Src: rand.NewPCG(7, 7)}
		var back []float64
		now, waits, changes := 0.0, 0, 400000
		for range changes {
			now += -math.Log(rng.Rand()) / away
			still := back[:0]
			for _, at := range back {
				if at > now {
					still = append(still, at)
				}
			}
			if back = still; len(back) >= spares {
				waits++
			}
			back = append(back, now+stay(rng.Rand()))
		}
		assert.InDelta(t, wear.Waits(spares, away), float64(waits)/float64(changes), 0.004, name)
	}
}
