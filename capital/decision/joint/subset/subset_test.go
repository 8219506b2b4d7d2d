package subset

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// anything draws a small problem with groups, limits, a peak and relations.
func anything(t *rapid.T, most int) *Problem {
	p := &Problem{Items: rapid.IntRange(1, most).Draw(t, "items")}
	mask := rapid.Custom(func(t *rapid.T) uint64 {
		mask := uint64(0)
		for range rapid.IntRange(1, 4).Draw(t, "size") {
			mask |= 1 << rapid.IntRange(0, p.Items-1).Draw(t, "item")
		}
		return mask
	})
	for range rapid.IntRange(0, 8).Draw(t, "terms") {
		term := Term{When: rapid.SliceOfN(mask, 0, 4).Draw(t, "when")}
		for range 1 << len(term.When) {
			term.Cost = append(term.Cost, float64(rapid.IntRange(-50, 50).Draw(t, "cost")))
		}
		p.Terms = append(p.Terms, term)
	}
	for range rapid.IntRange(0, 2).Draw(t, "limits") {
		limit := Limit{When: rapid.SliceOfN(mask, 0, 6).Draw(t, "when"), Most: float64(rapid.IntRange(0, 30).Draw(t, "most"))}
		for range limit.When {
			limit.Weight = append(limit.Weight, float64(rapid.IntRange(0, 12).Draw(t, "weight")))
		}
		p.Limits = append(p.Limits, limit)
	}
	pairs := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) [2]int {
		return [2]int{rapid.IntRange(0, p.Items-1).Draw(t, "a"), rapid.IntRange(0, p.Items-1).Draw(t, "b")}
	}), 0, 2)
	p.Excludes, p.Needs = pairs.Draw(t, "excludes"), pairs.Draw(t, "needs")
	if rapid.Bool().Draw(t, "peaked") {
		p.Peak = Peak{AtOnce: rapid.IntRange(1, 3).Draw(t, "at once"), Most: float64(rapid.IntRange(0, 30).Draw(t, "most"))}
		for range p.Items {
			p.Peak.Draw = append(p.Peak.Draw, float64(rapid.IntRange(0, 20).Draw(t, "draw")))
		}
	}
	return p
}

// brute lists the cheapest allowed sets by pricing all.
func brute(p *Problem, count int) []Set {
	found := best{count: count}
	for set := range uint64(1) << p.Items {
		if p.Allows(set) {
			found.offer(Set{set, p.Cost(set)})
		}
	}
	return found.sets
}

func assertCheapest(t *rapid.T, p *Problem, count int, answer Answer) {
	want := brute(p, count)
	require.Len(t, answer.Sets, len(want))
	for i, set := range answer.Sets {
		assert.InDelta(t, want[i].Cost, set.Cost, 1e-9)
		assert.InDelta(t, p.Cost(set.Items), set.Cost, 1e-9)
		assert.True(t, p.Allows(set.Items))
		for _, other := range answer.Sets[:i] {
			assert.NotEqual(t, other.Items, set.Items)
		}
	}
	assert.True(t, answer.Proven)
	if len(want) == count {
		assert.InDelta(t, want[count-1].Cost, answer.Bound, 1e-9)
	} else {
		assert.True(t, math.IsInf(answer.Bound, 1))
	}
}

func TestPricingEverySetFindsTheCheapest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, count := anything(t, 7), rapid.IntRange(1, 6).Draw(t, "count")
		assertCheapest(t, p, count, everySet(p).cheapest(count))
	})
}

func TestBranchAndBoundFindsTheCheapest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, count := anything(t, 9), rapid.IntRange(1, 6).Draw(t, "count")
		assertCheapest(t, p, count, branched(p, count, 1<<20))
	})
}

// The bound of a search that was cut short still holds.
func TestASearchCutShortSaysWhatItLeftOpen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, most := anything(t, 9), rapid.IntRange(0, 5).Draw(t, "branches")
		answer := branched(p, 1, most)
		assert.LessOrEqual(t, answer.Looked, most)
		want := brute(p, 1)
		if answer.Proven {
			assertCheapest(t, p, 1, answer)
			return
		}
		if len(want) > 0 {
			assert.LessOrEqual(t, answer.Bound, want[0].Cost+1e-9)
		}
		for _, set := range answer.Sets {
			assert.True(t, p.Allows(set.Items))
		}
	})
}

func TestTheNextStepOfALimitIsTheLeastThatHelps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anything(t, 8)
		now := brute(p, 1)
		if len(p.Limits) == 0 && p.Peak.AtOnce == 0 || len(now) == 0 {
			return
		}
		limit := rapid.IntRange(ThePeak, len(p.Limits)-1).Draw(t, "limit")
		free := p.freed(limit)
		want := math.Inf(1)
		for set := range uint64(1) << p.Items {
			if free.Allows(set) && p.Cost(set) < now[0].Cost-1e-6 {
				want = min(want, p.usedOf(limit, set))
			}
		}
		for _, step := range []Step{
			NextStep(p, limit, now[0].Cost, 1<<20),
			branchedStep(p, limit, now[0].Cost-dust(now[0].Cost), 1<<20),
		} {
			assert.True(t, step.Proven)
			assert.True(t, want == step.Most || math.Abs(want-step.Most) < 1e-6, "%v, not %v", want, step.Most)
		}
	})
}

// Twenty-four machines in groups that do the same work, as a studio compares
// offers: bounds must see that one of a group is enough.
func TestManyOffersOfTheSameKindAreDecided(t *testing.T) {
	d := &dice{7}
	p := &Problem{Items: 24}
	for m := range 24 {
		p.Terms = append(p.Terms, Term{[]uint64{1 << m}, []float64{0, float64(300 + d.below(300))}})
	}
	for range 12 {
		term := Term{When: []uint64{}, Cost: make([]float64, 8)}
		for kind := range 3 {
			from := d.below(5)
			term.When = append(term.When, (1<<8-1)>>from<<from<<(8*kind))
		}
		for at := range term.Cost {
			minutes := 0
			for kind := range 3 {
				if at>>kind&1 == 0 {
					minutes += 40 + 10*kind
				}
			}
			term.Cost[at] = float64(visit(minutes)) / 100 * 6
		}
		p.Terms = append(p.Terms, term)
	}
	answer := Cheapest(p, 5, 1<<20)
	require.True(t, answer.Proven)
	assert.Less(t, answer.Looked, 20000)
	want := byKind(p)
	assert.InDelta(t, want, answer.Sets[0].Cost, 1e-9)
}

// byKind prices at most one offer of each kind with the others; a second one only costs.
func byKind(p *Problem) float64 {
	least := math.Inf(1)
	for a := range 9 {
		for b := range 9 {
			for c := range 9 {
				set := uint64(1)<<a>>1 | uint64(1)<<b>>1<<8 | uint64(1)<<c>>1<<16
				least = min(least, p.Cost(set))
			}
		}
	}
	return least
}

// Where not even owning nothing is allowed there is no set, and no next step of
// another limit helps.
func TestWhereNothingIsAllowedThereIsNoSet(t *testing.T) {
	for _, machines := range []int{8, 14} {
		p := instance(machines, 20, 1, true)
		p.Limits[0].Most = -1
		answer := Cheapest(p, 3, 1<<20)
		assert.Empty(t, answer.Sets)
		assert.True(t, answer.Proven)
		assert.True(t, math.IsInf(answer.Bound, 1))
		step := NextStep(p, 1, 1e12, 1<<20)
		assert.True(t, step.Proven)
		assert.True(t, math.IsInf(step.Most, 1))
	}
}
