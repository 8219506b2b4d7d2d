package roadmap

import (
	"fmt"
	"math"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tied is a benchmark's question with a floor for half of the machines, a supply for
// two of the first five and more of them later, two that exclude each other, one that
// needs another, and two followed by one item more.
func tied(n int, seed uint64, sell bool) *instance {
	p, r := benchmark(n, seed, sell), &splitMix{seed + 2000}
	dust := machine{again: true}
	for range p.years {
		own, paid := make([]float64, p.years+1), make([]float64, p.years)
		dust.own, dust.paid = append(dust.own, own), append(dust.paid, paid)
	}
	for from := range p.years {
		dust.paid[from][from] = 40000
		for to := range dust.own[from] {
			dust.own[from][to] = infinite
			if to > from {
				dust.own[from][to] = 40000 - 2000*float64(p.years-to)
			}
		}
	}
	p.machines = append(p.machines, dust)
	floor, total := room{}, 0.0
	for range p.machines {
		need := float64(5 + r.below(56))
		floor.need, total = append(floor.need, need), total+need
	}
	for t := range p.years {
		floor.most = append(floor.most, total/2+float64(5*t))
	}
	supply := room{need: make([]float64, n+1)}
	copy(supply.need, []float64{3, 4, 3, 5, 3})
	for t := range p.years {
		supply.most = append(supply.most, 8+float64(t)/2)
	}
	p.rooms = append(p.rooms, floor, supply)
	p.follow(n, []int{0, 3})
	p.exclude(1, 2)
	p.require(4, 5)
	p.tables, _ = merge(p.tables, slices.Clone(p.tables))
	return p
}

// counts are what a question took: parts looked at and work done for the best roadmap,
// and for the best that begins with another purchase.
type counts [4]int

func take(t *testing.T, p *instance) counts {
	s := &solver{p: p, climb: newClimb(newRelaxation(p))}
	best := s.best(p.wholeDomain(), infinite, benchEffort)
	require.InDelta(t, best.cost, best.bound, proven*best.cost)
	bundle, _ := firstOf(p, best.plan)
	other := s.otherFirst(bundle, infinite, benchEffort)
	require.InDelta(t, other.cost, other.bound, proven*other.cost)
	return counts{best.nodes, best.work, other.nodes, other.work}
}

// What the searches do is counted and does not hang on the machine. Whoever changes
// how they go sees here what that costs or saves, and writes the new figures.
func TestTheSearchesTakeAsManyPartsAndStepsAsTheyDid(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("a processor that fuses products into sums parts a question elsewhere")
	}
	for _, row := range []struct {
		name     string
		question func(machines int, seed uint64, sell bool) *instance
		machines int
		seed     uint64
		sell     bool
		took     counts
	}{
		{"free", benchmark, 8, 1, false, counts{42, 314844, 55, 551392}},
		{"free", benchmark, 12, 2, true, counts{510, 6448879, 655, 10304471}},
		{"free", benchmark, 16, 3, false, counts{64, 473895, 598, 3733724}},
		{"free", benchmark, 16, 3, true, counts{42, 639316, 549, 5069383}},
		{"free", benchmark, 24, 4, false, counts{236, 513382, 416, 1529169}},
		{"free", benchmark, 24, 4, true, counts{308, 991689, 597, 2692482}},
		{"tied", tied, 8, 1, false, counts{70, 386215, 2808, 3995785}},
		{"tied", tied, 8, 2, true, counts{6, 77945, 4, 205250}},
		{"tied", tied, 8, 3, false, counts{296, 269744, 690, 1454438}},
		{"tied", tied, 12, 2, false, counts{584, 4755982, 2492, 25735550}},
		{"tied", tied, 16, 1, true, counts{24, 380321, 69, 2487982}},
		{"tied", tied, 16, 2, false, counts{1, 307130, 24, 2838025}},
	} {
		name := fmt.Sprintf("%s: %d machines, seed %d, sell %t", row.name, row.machines, row.seed, row.sell)
		assert.Equal(t, row.took, take(t, row.question(row.machines, row.seed, row.sell)), name)
	}
}

// Prices that were led astray may say of every year left open that both answers make
// roadmaps cheaper; a question is parted at an open year all the same.
func TestAQuestionIsPartedAtAnOpenYearWhateverThePricesSay(t *testing.T) {
	p := benchmark(8, 1, true)
	s := newSearch(newClimb(newRelaxation(p)), p.forbidden(), enough)
	s.upper, s.climb.bound = 17_000, 0
	d := p.wholeDomain()
	for m := range d.never {
		d.never[m] = years(0, p.years)
	}
	d.never[5] ^= 1 << 7
	at := 5*p.years + 7
	s.climb.mean[at] = 1
	for _, said := range [][2]float64{{1e9, -1e9}, {infinite, math.NaN()}} {
		s.without[at], s.with[at] = said[0], said[1]
		m, year, own := s.branch(d)
		assert.Equal(t, [2]int{5, 7}, [2]int{m, year})
		assert.True(t, own)
	}
}
