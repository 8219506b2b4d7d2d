package work_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/studygen"
	"shopstint/model/work"
)

func TestASuddenEndTakesWhatTheExponentialLawSays(t *testing.T) {
	assert.InDelta(t, 1, work.Kept(0), 0)
	assert.InEpsilon(t, 1-5e-7, work.Kept(1e-6), 1e-9, "half a small share")
	rapid.Check(t, func(t *rapid.T) {
		share := rapid.Float64Range(1e-4, 0.95).Draw(t, "share that ends suddenly")
		law := distuv.Exponential{Rate: -math.Log1p(-share)} // over a run of 1
		assert.InEpsilon(t, quad.Fixed(law.Survival, 0, 1, 40, quad.Legendre{}, 0), work.Kept(share), 1e-10)
	})
}

// share is none, or one that an owner could mean.
func share(most float64) *rapid.Generator[float64] {
	return rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(1e-4, most))
}

func TestAnEdgeIsFollowedLifeByLifeUntilItIsSpent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edge := &model.Edge{
			Price: 100, Life: 1000, SharpeningPrice: quantity.Money(rapid.Float64Range(0, 50).Draw(t, "sharpening")), Errand: 7,
			Sharpenings:  quantity.Count(rapid.IntRange(0, 9).Draw(t, "sharpenings")),
			LifeLost:     quantity.Share(share(0.5).Draw(t, "life lost")),
			SuddenShare:  quantity.Share(share(0.95).Draw(t, "sudden")),
			DamageSpends: quantity.Share(share(1).Draw(t, "spends")),
		}
		const digits = 1e-7 // a sum of powers of what is almost 1 loses some
		left, life, lives, sharpened := 1.0, 1.0, 0.0, 0.0
		for n := 0; ; n++ {
			lives += left * life
			if n == int(edge.Sharpenings) {
				break
			}
			left *= 1 - float64(edge.SuddenShare)*float64(edge.DamageSpends)
			sharpened += left
			life *= 1 - float64(edge.LifeLost)
		}
		span := work.SpanOf(edge)
		assert.InEpsilon(t, lives, span.Lives, digits)
		assert.InDelta(t, sharpened, span.Sharpened, digits)
		assert.InEpsilon(t, 1000*lives*work.Kept(float64(edge.SuddenShare)), span.Run, digits)
		assert.InEpsilon(t, (100+sharpened*(float64(edge.SharpeningPrice)+7))/span.Run, work.EdgeCost(edge), digits)
	})
}

func TestTheSizeOfAnEdgeMayEndItsUseBeforeItsNumberOfSharpeningsDoes(t *testing.T) {
	for _, row := range []struct {
		lost, spare quantity.Length
		usable      float64
		bySize      bool
	}{
		{0.00015, 0.0003, 2, true},   // twice, exactly
		{0.00015, 0.000299, 1, true}, // not quite twice
		{0.00015, 0.0001, 0, true},
		{0.00015, 0.01, 5, false},
		{0.00015, 0, 5, false}, // does not bind
		{0, 0.0003, 5, false},
		{0.0001, 0.0005, 5, false}, // both at once
	} {
		span := work.SpanOf(&model.Edge{Life: 100, Sharpenings: 5, SizeLost: row.lost, SizeSpare: row.spare})
		assert.InDelta(t, row.usable, span.Usable, 0, "%v of %v", row.lost, row.spare)
		assert.Equal(t, row.bySize, span.BySize, "%v of %v", row.lost, row.spare)
		assert.InDelta(t, row.usable+1, span.Lives, 1e-12)
	}
}

func TestDamageNeverMakesAMetreCheaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edge := model.Edge{Price: 100, Life: 100, Sharpenings: 4, SharpeningPrice: quantity.Money(rapid.Float64Range(0, 20).Draw(t, "sharpening"))}
		whole := work.EdgeCost(&edge)
		edge.SuddenShare = quantity.Share(rapid.Float64Range(0, 0.95).Draw(t, "sudden"))
		assert.GreaterOrEqual(t, work.EdgeCost(&edge), whole*(1-1e-9))
		abrasive := model.Abrasive{Price: 60, Life: 800, SuddenShare: edge.SuddenShare}
		assert.GreaterOrEqual(t, work.AbrasiveCost(&abrasive), 0.075*(1-1e-9))
	})
}

func TestNoStepRunsAnAbrasiveThatIsOnlyCompared(t *testing.T) {
	s := studygen.Round()
	before := work.New(s)
	mesh := s.Abrasives[0]
	mesh.Key, mesh.Price, mesh.OnlyCompared = "mesh", 999, true
	s.Abrasives = append([]model.Abrasive{mesh}, s.Abrasives...)
	found, ok := work.FindAbrasive(s, mesh.Class, "80")
	require.True(t, ok)
	assert.Equal(t, "belt80", found.Key)
	assert.Equal(t, before, work.New(s))
	s.Abrasives = s.Abrasives[:1]
	_, ok = work.FindAbrasive(s, mesh.Class, "80")
	assert.False(t, ok)
}
