package roadmap

import (
	"math/bits"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// atTheRoot is a search that has moved its prices and has a roadmap.
func atTheRoot(t *testing.T, p *instance) (*search, domain) {
	t.Helper()
	s := newSearch(newClimb(newRelaxation(p)), p.forbidden(), enough)
	d := p.wholeDomain()
	require.True(t, s.root(d))
	require.NotNil(t, s.found)
	return s, d
}

func TestTheBestRoadmapIsNearItselfAndMostYearsAreSettledThere(t *testing.T) {
	for _, seed := range []uint64{3, 5, 7} {
		p := benchmark(16, seed, seed == 5)
		s, _ := atTheRoot(t, p)
		near, count := s.near(p.wholeDomain()), 0
		owned := make([]uint32, len(p.machines))
		for _, span := range s.found {
			owned[span.machine] |= years(span.from, span.to)
		}
		for m := range owned {
			assert.Zero(t, owned[m]&near.never[m])
			assert.Zero(t, near.always[m]&^owned[m])
			count += bits.OnesCount32(near.never[m] | near.always[m])
		}
		assert.Greater(t, count, len(owned)*p.years/2, "seed %d", seed)
		assert.Less(t, count, len(owned)*p.years, "seed %d", seed)
	}
}

func TestAGuessGivesNothingUpAndMovesNoPrice(t *testing.T) {
	cheaper, stopped := 0, 0
	for _, seed := range []uint64{3, 6, 27, 31} {
		s, d := atTheRoot(t, benchmark(24, seed, false))
		prices, mean, most, before, work := slices.Clone(s.climb.prices), slices.Clone(s.climb.mean), s.most, s.upper, s.climb.work
		s.guess(d)
		assert.Equal(t, prices, s.climb.prices)
		assert.Equal(t, mean, s.climb.mean)
		assert.Equal(t, most, s.most)
		assert.Equal(t, infinite, s.bound)
		assert.LessOrEqual(t, s.upper, before)
		if s.upper < before {
			cheaper++
		}
		if s.climb.work-work >= work/2 {
			stopped++
		}
	}
	assert.Positive(t, cheaper, "some guess helps")
	assert.Positive(t, stopped, "some guess comes to its limit")
}
