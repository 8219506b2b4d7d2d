package subset

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// By hand: items 0, 1 and 2; the first term is 1 with item 0 and 10 more with 1 or 2, the
// second a constant.
func TestCostAndUseAreSumsOverTheGroupsThatASetHasAnItemOf(t *testing.T) {
	p := &Problem{Items: 3, Terms: []Term{
		{When: []uint64{0b001, 0b110}, Cost: []float64{0, 1, 10, 11}},
		{Cost: []float64{100}},
	}}
	limit := &Limit{When: []uint64{0b001, 0b110, 0b100}, Weight: []float64{3, 5, 7}, Most: 8}
	for set, want := range []struct{ cost, used float64 }{
		{100, 0}, {101, 3}, {110, 5}, {111, 8}, {110, 12}, {111, 15}, {110, 12}, {111, 15},
	} {
		assert.InDelta(t, want.cost, p.Cost(uint64(set)), 0, "%03b", set)
		assert.InDelta(t, want.used, limit.Used(uint64(set)), 0, "%03b", set)
	}
}

// Items that draw 5, 9, 2 and 7: with two at once the two that draw most.
func TestThePeakIsTheSumOfTheLargestDraws(t *testing.T) {
	for _, row := range []struct {
		set    uint64
		atOnce int
		want   float64
	}{
		{0, 2, 0}, {0b0001, 2, 5}, {0b1000, 2, 7}, {0b0101, 2, 7}, {0b0111, 2, 14}, {0b1111, 2, 16},
		{0b1111, 1, 9}, {0b1101, 1, 7}, {0b1101, 3, 14}, {0b1101, 9, 14},
	} {
		peak := Peak{Draw: []float64{5, 9, 2, 7}, AtOnce: row.atOnce}
		assert.InDelta(t, row.want, peak.Drawn(row.set), 0, "%04b, %d at once", row.set, row.atOnce)
	}
}

func TestASetIsAllowedUpToEachLimitAndWithinTheRelations(t *testing.T) {
	weights := func(most float64) []Limit {
		return []Limit{{When: []uint64{1, 2, 4}, Weight: []float64{1, 2, 4}, Most: most}}
	}
	for _, row := range []struct {
		name    string
		p       Problem
		allowed []bool // by set
	}{
		{"no limit", Problem{}, []bool{true, true, true, true, true, true, true, true}},
		{"a limit", Problem{Limits: weights(4)}, []bool{true, true, true, true, true, false, false, false}},
		{"two limits", Problem{Limits: append(weights(4), weights(2)...)}, []bool{true, true, true, false, false, false, false, false}},
		{"nothing allowed but nothing", Problem{Limits: weights(0)}, []bool{true, false, false, false, false, false, false, false}},
		{"0 and 2 exclude each other", Problem{Excludes: [][2]int{{0, 2}}}, []bool{true, true, true, true, true, false, true, false}},
		{"0 needs 2", Problem{Needs: [][2]int{{0, 2}}}, []bool{true, false, true, false, true, true, true, true}},
		{"a peak", Problem{Peak: Peak{Draw: []float64{1, 2, 4}, AtOnce: 2, Most: 5}}, []bool{true, true, true, true, true, true, false, false}},
		{"a peak of one", Problem{Peak: Peak{Draw: []float64{1, 2, 4}, AtOnce: 1, Most: 3}}, []bool{true, true, true, true, false, false, false, false}},
		{"no peak where none runs", Problem{Peak: Peak{Draw: []float64{1, 2, 4}, Most: 0}}, []bool{true, true, true, true, true, true, true, true}},
	} {
		row.p.Items = 3
		e := everySet(&row.p)
		for set, want := range row.allowed {
			assert.Equal(t, want, row.p.Allows(uint64(set)), "%s: %03b", row.name, set)
			assert.Equal(t, want, e.allows(set), "%s: %03b", row.name, set)
		}
	}
}

func TestWhatRoundingAddsBreaksNoLimit(t *testing.T) {
	tenth, fifth := 0.1, 0.2 // a sum of constants would be exact
	assert.True(t, within(tenth+fifth, 0.3))
	assert.True(t, within(3e6+1e-4, 3e6))
	assert.False(t, within(3e6+1, 3e6))
	assert.True(t, within(0, 0))
	assert.False(t, within(1e-12, 0))
}

func TestTheBestSetsAreKeptByCostAndThenByItems(t *testing.T) {
	found := best{count: 3}
	assert.True(t, math.IsInf(found.ceiling(), 1), "anything is of use as long as there is room")
	for _, set := range []Set{{5, 20}, {4, 10}, {3, 20}, {4, 10}, {9, 30}} {
		found.offer(set)
	}
	assert.Equal(t, []Set{{4, 10}, {3, 20}, {5, 20}}, found.sets)
	assert.InDelta(t, 20, found.ceiling(), 1e-6)
	assert.Less(t, found.ceiling(), 20.0, "one as dear is of no use")
	found.offer(Set{7, 15})
	assert.Equal(t, []Set{{4, 10}, {7, 15}, {3, 20}}, found.sets)
}

// Lifting a limit lets every set pass it: all weights together are below it.
func TestAProblemThatIsFreedOfALimitKeepsTheOthers(t *testing.T) {
	p := &Problem{Items: 2, Peak: Peak{Draw: []float64{3, 4}, AtOnce: 2, Most: 4}, Limits: []Limit{
		{When: []uint64{1, 2}, Weight: []float64{0.4, 0.6}, Most: 0.5}, {When: []uint64{1, 2}, Weight: []float64{20, 30}, Most: 20},
	}}
	for limit, allowed := range map[int][]bool{
		ThePeak: {true, true, false, false}, 0: {true, true, false, false}, 1: {true, true, false, false},
	} {
		free := p.freed(limit)
		for set, want := range allowed {
			assert.Equal(t, want, free.Allows(uint64(set)), "limit %d, set %b", limit, set)
			assert.GreaterOrEqual(t, []float64{free.Peak.Most, free.Limits[0].Most, free.Limits[1].Most}[limit+1], p.usedOf(limit, uint64(set)))
		}
	}
	assert.InDelta(t, 0.5, p.Limits[0].Most, 0, "the problem stays as it is")
}
