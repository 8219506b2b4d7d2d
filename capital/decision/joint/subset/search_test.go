package subset

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// agrees tells whether a set goes with what a search has decided.
func (s *search) agrees(set uint64) bool {
	for v, is := range s.net.yeses(set) {
		if s.state[v] != open && (s.state[v] == yes) != is {
			return false
		}
	}
	return true
}

// assertDecided holds a search against all sets: those that keep the limits and go with what
// was decided are all still to be found, none of them below the bound.
func assertDecided(t require.TestingT, s *search, before []uint64, v int, way int8, possible bool) (left []uint64) {
	for _, set := range before {
		if (way == yes) != s.net.yeses(set)[v] {
			continue
		}
		require.True(t, possible, "%b was left to find", set)
		require.True(t, s.agrees(set), "%b was left to find", set)
		require.LessOrEqual(t, s.bound, s.net.p.Cost(set)+1e-6, "the bound of %b", set)
		left = append(left, set)
	}
	return left
}

// Items are decided in any order. What follows from a decision is what all sets say that go
// with it, and with all items decided the bound is the cost.
func TestWhatFollowsFromADecisionHoldsForEverySetThatIsLeft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anything(t, 8)
		n := netOf(p)
		n.sweep(1) // from here on the tables hold all costs
		if rapid.Bool().Draw(t, "tightened") {
			n.tighten(&best{count: 1}, efforts[0])
		}
		s := searchIn(n, 0)
		s.ceiling = math.Inf(1)
		begin, at := s.mark(), append([]int{}, s.at...)
		var left []uint64
		for set := range uint64(1) << p.Items {
			if p.Allows(set) {
				left = append(left, set)
			}
		}
		possible := true
		for _, v := range rapid.Permutation(items(p.Items)).Draw(t, "order") {
			way := int8(rapid.IntRange(0, 1).Draw(t, "way"))
			possible = possible && s.decide(v, way)
			left = assertDecided(t, s, left, v, way, possible)
		}
		if possible {
			assertComplete(t, s)
		}
		s.back(begin)
		assert.Equal(t, begin, s.mark())
		assert.Equal(t, at, s.at)
		for v := range s.state {
			assert.Equal(t, open, s.state[v])
		}
		assert.InDeltaSlice(t, make([]float64, len(s.used)), s.used, 1e-9)
	})
}

func items(count int) []int {
	list := make([]int, count)
	for m := range list {
		list[m] = m
	}
	return list
}

// assertComplete holds a search with all items decided against the problem.
func assertComplete(t require.TestingT, s *search) {
	assert.True(t, s.net.p.related(s.set), "%b keeps the relations and the peak", s.set)
	assert.InDelta(t, s.net.p.Cost(s.set), s.bound+s.unused(), 1e-6)
	for v, is := range s.net.yeses(s.set) {
		assert.Equal(t, map[bool]int8{false: no, true: yes}[is], s.state[v], "variable %d", v)
	}
	for i, used := range s.used {
		assert.InDelta(t, s.net.p.Limits[i].Used(s.set), used, 1e-9)
	}
}

// Items 0 and 1 exclude each other, 2 needs 3 and 3 needs 0.
func TestRelationsDecideAtOnce(t *testing.T) {
	p := &Problem{Items: 5, Excludes: [][2]int{{0, 1}}, Needs: [][2]int{{2, 3}, {3, 0}}}
	for _, row := range []struct {
		name     string
		v        int
		way      int8
		possible bool
		state    []int8
		already  []int // decided as a no
	}{
		{"0 keeps 1 out", 0, yes, true, []int8{yes, no, open, open, open}, nil},
		{"1 keeps 0 out, and with it 3 and 2", 1, yes, true, []int8{no, yes, no, no, open}, nil},
		{"2 brings 3 and 0", 2, yes, true, []int8{yes, no, yes, yes, open}, nil},
		{"without 0 there is no 3 and no 2", 0, no, true, []int8{no, open, no, no, open}, nil},
		{"without 1 nothing follows", 1, no, true, []int8{open, no, open, open, open}, nil},
		{"without 2 nothing follows", 2, no, true, []int8{open, open, no, open, open}, nil},
		{"4 has no relation", 4, yes, true, []int8{open, open, open, open, yes}, nil},
		{"2 cannot be without 0", 2, yes, false, nil, []int{0}},
		{"3 cannot be without 0", 3, yes, false, nil, []int{0}},
		{"a second no says nothing new", 0, no, true, []int8{no, open, no, no, open}, []int{0}},
		{"a no cannot be a yes", 0, yes, false, nil, []int{0}},
	} {
		s := searchIn(netOf(p), 0)
		s.ceiling = math.Inf(1)
		for _, v := range row.already {
			require.True(t, s.decide(v, no), row.name)
		}
		assert.Equal(t, row.possible, s.decide(row.v, row.way), row.name)
		if row.possible {
			assert.Equal(t, row.state, s.state, row.name)
		}
	}
}

func TestAPeakForbidsAtOnceWhatDrawsMore(t *testing.T) {
	for _, atOnce := range []int{1, 2} {
		s := searchIn(netOf(&Problem{Items: 2, Peak: Peak{Draw: []float64{3, 4}, AtOnce: atOnce, Most: 6}}), 0)
		s.ceiling = math.Inf(1)
		require.True(t, s.decide(0, yes))
		assert.Equal(t, atOnce == 1, s.decide(1, yes))
	}
}

// A group of three in a limit: its variable is a yes with the first yes, and a no with the
// last no.
func TestAGroupIsKnownAsSoonAsItsItemsTell(t *testing.T) {
	p := &Problem{Items: 3, Limits: []Limit{{When: []uint64{0b111}, Weight: []float64{5}, Most: 9}}}
	s := searchIn(netOf(p), 0)
	s.ceiling = math.Inf(1)
	begin := s.mark()
	require.True(t, s.decide(1, yes))
	assert.Equal(t, []int8{open, yes, open, yes}, s.state)
	assert.InDelta(t, 5, s.used[0], 0)
	s.back(begin)
	require.True(t, s.decide(1, no))
	require.True(t, s.decide(0, no))
	assert.Equal(t, []int8{no, no, open, open}, s.state)
	require.True(t, s.decide(2, no))
	assert.Equal(t, []int8{no, no, no, no}, s.state)
	assert.Zero(t, s.used[0])
}

// The least entries of 5, 8, 9 and 2: the first variable is the last digit.
func TestAPartialTableIsTheLeastOfWhatIsLeft(t *testing.T) {
	assert.Equal(t, []float64{5, 8, 5, 9, 2, 2, 5, 2, 2}, partial([]float64{5, 8, 9, 2}, 2))
	assert.Equal(t, []float64{7}, partial([]float64{7}, 0))
}

func TestALowerLimitAsksForLess(t *testing.T) {
	p := &Problem{Items: 1, Limits: []Limit{{When: []uint64{1}, Weight: []float64{5}, Most: 9}}, Peak: Peak{Draw: []float64{4}, AtOnce: 1, Most: 9}}
	s := searchIn(netOf(p), 0)
	s.lower(0, math.Inf(1))
	s.lower(ThePeak, math.Inf(1))
	assert.InDelta(t, 9, s.most[0], 0, "no use is known yet")
	assert.InDelta(t, 9, s.peak, 0)
	s.lower(0, 5)
	s.lower(ThePeak, 4)
	assert.False(t, within(5, s.most[0]), "as much does not do")
	assert.True(t, within(5-1e-6, s.most[0]))
	assert.False(t, within(4, s.peak))
	assert.True(t, within(4-1e-6, s.peak))
}

// Costs alone: item 0 saves 5, item 1 costs 3, item 2 saves 9. Without a ceiling all are open
// and the one whose other way is dearest goes first, by its cheap way. Below a ceiling of −10,
// four above the bound of −14, only item 1 is open to doubt.
func TestTheItemThatMovesTheBoundMostIsTriedFirst(t *testing.T) {
	p := &Problem{Items: 3, Terms: []Term{
		{[]uint64{1}, []float64{0, -5}}, {[]uint64{2}, []float64{0, 3}}, {[]uint64{4}, []float64{0, -9}},
	}}
	n := netOf(p)
	n.sweep(1)
	s := searchIn(n, 0)
	require.InDelta(t, -14, s.bound, 1e-12)
	s.ceiling = math.Inf(1)
	item, first, ok := s.choose()
	assert.True(t, ok)
	assert.Equal(t, 2, item)
	assert.Equal(t, yes, first)

	s.ceiling = -10
	item, first, ok = s.choose()
	assert.True(t, ok)
	assert.Equal(t, 1, item)
	assert.Equal(t, no, first)
	assert.Equal(t, []int8{yes, open, yes}, s.state)

	for _, forced := range []struct {
		ceiling float64
		state   []int8
	}{
		{-11, []int8{yes, no, yes}}, // as dear as the ceiling is of no use
		{-9, []int8{yes, open, yes}},
		{-5, []int8{open, open, yes}},
	} {
		other := searchIn(n, 0)
		other.ceiling = forced.ceiling
		_, _, ok = other.choose()
		assert.True(t, ok)
		assert.Equal(t, forced.state, other.state, "%v", forced.ceiling)
	}

	s.ceiling = -12
	item, _, ok = s.choose()
	assert.True(t, ok)
	assert.Equal(t, -1, item, "none is open")
	assert.Equal(t, uint64(0b101), s.set)
}

// An item whose ways cost 2 and 3 goes before one of 1 and 12, which count as 2.3 and 2.2, and
// behind one of 1.9 and 12, which count as 3.1.
func TestTheEasierWayCountsTenTimesAsMuchAsTheOther(t *testing.T) {
	for want, easier := range []float64{1, 1.9} {
		p := &Problem{Items: 3, Terms: []Term{
			{[]uint64{1, 4}, []float64{0, 2, 0, 2}}, {[]uint64{1, 4}, []float64{3, 0, 3, 0}},
			{[]uint64{2, 4}, []float64{0, easier, 0, easier}}, {[]uint64{2, 4}, []float64{12, 0, 12, 0}},
		}}
		s := searchIn(netOf(p), 0)
		s.ceiling = math.Inf(1)
		item, first, ok := s.choose()
		assert.True(t, ok)
		assert.Equal(t, want, item)
		assert.Equal(t, yes, first)
		s.ceiling = 5 // below it the dearer way counts as the room of 5, so that the second is 1.9 + 0.5 at most
		item, _, ok = s.choose()
		assert.True(t, ok)
		assert.Equal(t, 0, item)
	}
}

// Item 1 costs 4 without and 4 with, as each is dearer in one of its tables: no set is below a
// ceiling of 4.
func TestAnItemWithoutAWayLeftEndsTheBranch(t *testing.T) {
	p := &Problem{Items: 2, Terms: []Term{{[]uint64{1, 2}, []float64{0, 0, 4, 4}}, {[]uint64{1, 2}, []float64{4, 4, 0, 0}}}}
	s := searchIn(netOf(p), 0)
	require.Zero(t, s.bound)
	s.ceiling = 4
	_, _, ok := s.choose()
	assert.False(t, ok)
	s.ceiling = 4.5
	_, _, ok = s.choose()
	assert.True(t, ok)
}

// Both items are forced by the ceiling, and what follows from the first contradicts the second.
func TestAForcedItemWhoseConsequencesCannotBeEndsTheBranch(t *testing.T) {
	costs := func(first, second float64) []Term {
		return []Term{{[]uint64{1}, []float64{0, first}}, {[]uint64{2}, []float64{0, second}}}
	}
	for _, p := range []Problem{
		{Items: 2, Terms: costs(-5, -5), Excludes: [][2]int{{0, 1}}}, // either, where both are needed
		{Items: 2, Terms: costs(5, -5), Needs: [][2]int{{1, 0}}},     // the second without the first
	} {
		n := netOf(&p)
		n.sweep(1)
		s := searchIn(n, 0)
		s.ceiling = s.bound + 3
		_, _, ok := s.choose()
		assert.False(t, ok)
	}
}
