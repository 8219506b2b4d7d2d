package futures_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/mathext"

	"shopstint/model/chance"
)

// splitMix is the generator of the instance, and of a block's draws: G. L. Steele,
// D. Lea and C. H. Flood, Fast Splittable Pseudorandom Number Generators, 2014.
type splitMix uint64

func (s *splitMix) next() uint64 {
	*s += 0x9E3779B97F4A7C15
	z := uint64(*s)
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return z ^ z>>31
}

func (s *splitMix) below(k int) int { return int(s.next() >> 11 % uint64(k)) }

// streamOf is the stream of a block.
func streamOf(seed, block uint64) splitMix { return splitMix(rand.NewPCG(seed, block).Uint64()) }

// alias is a Poisson distribution as a table of Walker: as many columns as a
// power of two, each with one or two counts in it. A column of 32 bits is up to
// which part of the rest of the draw it is the column's own count; its lower 8
// bits are also the other count.
//
// Source: A. J. Walker, An Efficient Method for Generating Discrete Random
// Variables with General Distributions, 1977; made by M. D. Vose, 1991.
type alias struct {
	columns *[mostColumns]uint32 // those behind 1<<bits are another table's
	bits    uint8
}

const mostColumns = 256

// aliasesOf makes the tables of some means, one behind the other in memory.
func aliasesOf(means []float64) []alias {
	list, starts, all := make([]alias, len(means)), make([]int, len(means)), []uint32{}
	for i, mean := range means {
		chances := poissonOf(mean)
		list[i].bits, starts[i] = uint8(math.Log2(float64(len(chances)))), len(all)
		all = append(all, columnsOf(chances)...)
	}
	all = append(all, make([]uint32, mostColumns)...)
	for i := range list {
		list[i].columns = (*[mostColumns]uint32)(all[starts[i]:])
	}
	return list
}

// poissonOf lists the chances of counts up to where they are nothing any more: a
// power of two of them.
func poissonOf(mean float64) []float64 {
	chances, left := []float64{}, 1.0
	for p := math.Exp(-mean); left > 1e-11 || len(chances) < 16 || len(chances)&(len(chances)-1) != 0; p *= mean / float64(len(chances)) {
		chances = append(chances, p)
		left -= p
	}
	return chances
}

func columnsOf(chances []float64) []uint32 {
	columns, part := make([]uint32, len(chances)), slices.Clone(chances)
	var small, large []int
	for k := range part {
		part[k] *= float64(len(part))
		if part[k] < 1 {
			small = append(small, k)
		} else {
			large = append(large, k)
		}
	}
	for len(small) > 0 && len(large) > 0 {
		s, l := small[len(small)-1], large[len(large)-1]
		small = small[:len(small)-1]
		columns[s] = uint32(part[s]*(1<<24))<<8 | uint32(l)
		if part[l] -= 1 - part[s]; part[l] < 1 {
			large, small = large[:len(large)-1], append(small, l)
		}
	}
	for _, k := range append(small, large...) {
		columns[k] = math.MaxUint32&^255 | uint32(k)
	}
	return columns
}

func (a *alias) draw(u uint32) float64 {
	own := u >> (-a.bits & 31)
	column := a.columns[uint8(own)]
	count := column & 255
	if u<<(a.bits&31) < column { // no jump: as good as a coin
		count = own
	}
	return float64(count)
}

// lognormal is a lognormal distribution as a table of quantiles with straight
// lines between; the outermost cells are left to the formula.
type lognormal struct {
	mean, deviation float64 // of the logarithm
	at              [logCells + 1]float64
}

const logCells, logOuter = 1024, 8

func lognormalOf(mean, deviation float64) *lognormal {
	l := &lognormal{mean: mean, deviation: deviation}
	for i := 1; i < logCells; i++ {
		l.at[i] = math.Exp(mean + deviation*chance.Score(float64(i)/logCells))
	}
	return l
}

func (l *lognormal) draw(u uint32) float64 {
	cell := u >> 22
	if cell-logOuter >= logCells-2*logOuter { // below the first as well, as it wraps round
		return l.exact(u)
	}
	low := l.at[cell]
	return low + (l.at[cell+1]-low)*(1.0/(1<<22))*float64(u&(1<<22-1))
}

func (l *lognormal) exact(u uint32) float64 {
	return math.Exp(l.mean + l.deviation*chance.Score((float64(u)+0.5)/(1<<32)))
}

// pert is the factor of the minutes, from 0.7 to 1.8 and mostly 1, as a table of
// quantiles with straight lines between, in whole parts of a block of 30 minutes.
type pert [pertCells + 1]uint32

const (
	pertCells  = 4096
	partBits   = 26 // a block is 1<<26 parts: some two millionths of a second
	blockParts = 1 << partBits
)

func pertOf() *pert {
	p := &pert{}
	for i := range p {
		p[i] = uint32((0.7 + 1.1*mathext.InvRegIncBeta(pertA, pertB, float64(i)/pertCells)) * blockParts / 30)
	}
	return p
}

const pertA, pertB = 1 + 4*0.3/1.1, 1 + 4*0.8/1.1

// draw gives the parts of a block for every minute in the mode.
func (p *pert) draw(u uint32) int64 {
	cell := u >> 20
	low := int64(p[cell])
	return low + (int64(p[cell+1])-low)*int64(u&(1<<20-1))>>20
}

func TestAnAliasTableIsItsDistribution(t *testing.T) {
	means := []float64{0, 0.25, 3, 17, 47.625}
	for i, a := range aliasesOf(means) {
		got := make([]float64, mostColumns)
		for own, column := range a.columns[:1<<a.bits] {
			part := float64(column) / (1 << 32)
			got[own] += part
			got[column&255] += 1 - part
		}
		p := math.Exp(-means[i])
		for k := range got {
			assert.InDelta(t, p, got[k]/float64(int(1)<<a.bits), 1e-7, "mean %v, count %d", means[i], k)
			p *= means[i] / float64(k+1)
		}
	}
}

// moments are the mean and the variance of draws at even steps of 32 bits: those
// of the distribution that the draws come from, but for the steps.
func moments(draw func(u uint32) float64) (mean, variance float64) {
	const step = 1 << 10
	sum, square, n := 0.0, 0.0, 0.0
	for u := uint64(step / 2); u < 1<<32; u += step {
		x := draw(uint32(u))
		sum, square, n = sum+x, square+x*x, n+1
	}
	return sum / n, square/n - sum/n*sum/n
}

func TestCountsOfATableHaveTheMeanAndVarianceOfPoisson(t *testing.T) {
	means := []float64{0.25, 3, 17, 47.625}
	for i, a := range aliasesOf(means) {
		mean, variance := moments(a.draw)
		assert.InEpsilon(t, means[i], mean, 1e-4)
		assert.InEpsilon(t, means[i], variance, 1e-3)
	}
}

func TestPricesOfATableHaveTheMeanAndVarianceOfALognormal(t *testing.T) {
	for _, deviation := range []float64{0.04, 0.12, 0.35} {
		mean, variance := moments(lognormalOf(0.03, deviation).draw)
		want := math.Exp(0.03 + deviation*deviation/2)
		assert.InEpsilon(t, want, mean, 1e-5)
		assert.InEpsilon(t, want*want*(math.Exp(deviation*deviation)-1), variance, 1e-4)
	}
}

func TestMinutesOfATableHaveTheMeanAndVarianceOfPERT(t *testing.T) {
	p := pertOf()
	mean, variance := moments(func(u uint32) float64 { return float64(p.draw(u)) * 30 / blockParts })
	assert.InEpsilon(t, (0.7+4+1.8)/6, mean, 2e-5)
	assert.InEpsilon(t, 1.1*1.1*pertA*pertB/(math.Pow(pertA+pertB, 2)*(pertA+pertB+1)), variance, 3e-4)
}
