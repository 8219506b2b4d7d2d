package subset

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// A walk keeps up what a set costs and uses; each step tells what the problem tells.
func TestAWalkTellsWhatEachStepChanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anything(t, 8)
		w := walkOn(p)
		assert.Zero(t, w.set, "it begins with nothing, which no limit forbids")
		for range rapid.IntRange(0, 30).Draw(t, "steps") {
			m := rapid.IntRange(0, p.Items-1).Draw(t, "item")
			assert.InDelta(t, p.Cost(w.set^1<<m)-p.Cost(w.set), w.change(m), 1e-9)
			assert.Equal(t, p.Allows(w.set), w.allows(), "%b", w.set)
			before := w.set
			w.flip(m)
			assert.Equal(t, before^1<<m, w.set)
		}
		set := rapid.Uint64Range(0, 1<<p.Items-1).Draw(t, "put")
		w.put(set)
		assert.Equal(t, set, w.set)
		for m := range p.Items {
			assert.InDelta(t, p.Cost(set^1<<m)-p.Cost(set), w.change(m), 1e-9)
		}
		assert.Equal(t, p.Allows(set), w.allows())
	})
}

// apart is a problem whose items cost and use what they do alone.
func apart(most float64, costs, weights []float64) *Problem {
	p := &Problem{Items: len(costs), Limits: []Limit{{Most: most}}}
	for m, cost := range costs {
		p.Terms = append(p.Terms, Term{[]uint64{1 << m}, []float64{0, cost}})
		p.Limits[0].When, p.Limits[0].Weight = append(p.Limits[0].When, 1<<m), append(p.Limits[0].Weight, weights[m])
	}
	return p
}

// By hand: all three use 11 of 6. What each saves for what it frees is 5, 10 and 1.2 for 5, 5
// and 1 of 6: the first is given up at the least, and the others fit.
func TestASetThatUsesTooMuchGivesUpWhatIsCheapestForWhatItFrees(t *testing.T) {
	w, found := walkOn(apart(6, []float64{-5, -10, -1.2}, []float64{5, 5, 1})), best{count: 1}
	w.put(0b111)
	assert.Equal(t, 0, w.cheapestDrop())
	assert.InDelta(t, 5.0/6, w.freed(0), 1e-12)
	assert.InDelta(t, 1.0/6, w.freed(2), 1e-12)
	w.repair(&found)
	assert.Equal(t, []Set{{0b110, -11.2}}, found.sets)
	assert.Equal(t, uint64(0b111), w.set, "it goes back to where it stood")

	again := best{count: 1}
	w.repair(&again)
	assert.Empty(t, again.sets, "a set is repaired once")

	w.put(0b011)
	w.repair(&again)
	assert.Equal(t, []Set{{0b110, -11.2}}, again.sets, "and the room that is left is used")
	w.put(0b001)
	assert.Zero(t, w.freed(0), "where no limit is broken nothing is freed")
}

// The one that saves 5 for 5 is given up, wherever it stands.
func TestTheCheapestDropIsFoundWhereverItStands(t *testing.T) {
	for at := range 3 {
		costs, weights := []float64{-10, -10, -10}, []float64{5, 5, 5}
		costs[at] = -5
		w := walkOn(apart(6, costs, weights))
		w.put(0b111)
		assert.Equal(t, at, w.cheapestDrop())
		w.put(0b111 &^ (1 << at))
		assert.NotEqual(t, at, w.cheapestDrop(), "it is not there to be given up")
	}
	w := walkOn(apart(6, []float64{-1, -10}, []float64{0, 9}))
	w.put(0b11)
	assert.Equal(t, 1, w.cheapestDrop(), "what frees nothing stays, however little it saves")
}

// Of two that do not fit together the dearer is given up for the cheaper, and only where
// that saves and is allowed.
func TestOneItemIsGivenUpForAnotherWhereThatSaves(t *testing.T) {
	for _, row := range []struct {
		name   string
		costs  []float64
		from   uint64
		better bool
		to     uint64
	}{
		{"the later is better", []float64{-5, -7, 3}, 0b001, true, 0b010},
		{"the earlier is better", []float64{-7, 3, -5}, 0b100, true, 0b001},
		{"neither", []float64{-7, -5, 3}, 0b001, false, 0b001},
		{"as good", []float64{-5, -5, -5}, 0b010, false, 0b010},
		{"nothing to give up", []float64{-5, -5, -5}, 0, false, 0},
	} {
		w := walkOn(apart(1, row.costs, []float64{1, 1, 1}))
		w.put(row.from)
		assert.Equal(t, row.better, w.betterSwap(), row.name)
		assert.Equal(t, row.to, w.set, row.name)
	}
	w := walkOn(apart(1, []float64{-5, -7}, []float64{1, 2}))
	w.put(0b01)
	assert.False(t, w.betterSwap(), "the better one is not allowed")
}

// Improving goes down by one item at a time, and by one for another where that is asked for.
func TestAWalkEndsWhereNoStepIsCheaper(t *testing.T) {
	for swap, want := range map[bool]Set{false: {0b001, -5}, true: {0b010, -7}} {
		w, found := walkOn(apart(1, []float64{-5, -7, 3}, []float64{1, 1, 1})), best{count: 1}
		w.improve(&found, swap)
		assert.Equal(t, []Set{want}, found.sets)
	}
	w, none := walkOn(apart(1, []float64{-5, -7, 3}, []float64{1, 1, 1})), best{count: 1}
	w.put(0b011)
	w.improve(&none, true)
	assert.Empty(t, none.sets, "a set that is not allowed is not offered")
}

// Where more than one set is wanted those beside the best are offered, as far as they are
// allowed; the walk of a search for one leaves them.
func TestSetsBesideTheBestAreOfferedWhereSeveralAreWanted(t *testing.T) {
	for count, want := range map[int][]Set{1: {{0b001, -5}}, 2: {{0b001, -5}, {0b101, -2}}, 5: {{0b001, -5}, {0b101, -2}, {0, 0}}} {
		w, found := walkOn(apart(2, []float64{-5, -7, 3}, []float64{1, 2, 1})), best{count: count}
		found.offer(Set{0b001, -5})
		w.neighbours(&found)
		assert.Equal(t, want, found.sets, "%d", count)
	}
	w, none := walkOn(apart(2, []float64{-5}, []float64{1})), best{count: 3}
	w.neighbours(&none)
	assert.Empty(t, none.sets)
}

// Under a price of 2 for each unit the first item, which saves 5 and uses 3, costs 1 more than
// it saves; the second still saves.
func TestUnderThePricesOfLimitsAWalkGoesToWhatIsCheapThere(t *testing.T) {
	p := apart(1, []float64{-5, -9, 1}, []float64{3, 4, 0})
	n, w := netOf(p), walkOn(p)
	n.multipliers[0] = 2
	w.put(0b101)
	w.relax(n)
	assert.Equal(t, uint64(0b010), w.set, "whatever the limit says")
	assert.Equal(t, []float64{0}, w.price, "prices hold for this walk only")
}
