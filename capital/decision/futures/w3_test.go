package futures_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/mathext"

	"shopstint/model/chance"
)

// The workload W3: 8 machines, 20 job types, 10 years; every future draws how
// work and rental prices move, the jobs of each type and year, the minutes of
// each type on each machine and the resale of each machine, and prices all 256
// sets. It is how fast this can be where a study's engine is not asked: money in
// cents, minutes in whole numbers, one visit a job.
const (
	w3Machines, w3Types, w3Years = 8, 20, 10
	w3Sets                       = 1 << w3Machines
	w3Block                      = 256
)

// splitMix is the generator of the instance: G. L. Steele, D. Lea and C. H.
// Flood, Fast Splittable Pseudorandom Number Generators, 2014.
type splitMix uint64

func (s *splitMix) below(k int) int {
	*s += 0x9E3779B97F4A7C15
	z := uint64(*s)
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return int((z ^ z>>31) >> 11 % uint64(k))
}

type w3Job struct {
	need    []int     // machines
	minutes []float64 // on each
	jobs    int       // in the first year
}

type w3 struct {
	price, area, hourly [w3Machines]float64
	jobs                []w3Job
	pert                [w3Cells + 1]float64 // quantiles of the minutes' factor
	counts              [w3Types][]alias     // for each sixteenth of growth; types with as many jobs share one
	byShare             []uint8              // types in proportion to their jobs
	discount, running   [w3Years]float64
	atEnd               float64
	scattered           []w3Table
}

// w3Table says where the 2^s figures of a job type stand among those of all sets.
type w3Table struct{ at [32]uint8 }

func newW3(seed uint64) *w3 {
	r, w := splitMix(seed), &w3{}
	for m := range w3Machines {
		w.price[m] = float64((30 + r.below(771)) * 1000)
		w.area[m] = float64(5 + r.below(56))
		w.hourly[m] = float64(1 + r.below(12))
	}
	for range w3Types {
		count, order := min(w3Machines, 1+r.below(5)), []int{0, 1, 2, 3, 4, 5, 6, 7}
		job := w3Job{}
		for i := range count {
			q := i + r.below(w3Machines-i)
			order[i], order[q] = order[q], order[i]
			job.need = append(job.need, order[i])
		}
		for range count {
			job.minutes = append(job.minutes, float64(5+r.below(116)))
		}
		job.jobs = max(1, (1+r.below(w3Machines*5/4))*3/5)
		w.jobs = append(w.jobs, job)
	}
	w.prepare()
	return w
}

func (w *w3) prepare() {
	for i := range w.pert {
		w.pert[i] = 0.7 + 1.1*mathext.InvRegIncBeta(1+4*0.3/1.1, 1+4*0.8/1.1, float64(i)/w3Cells)
	}
	for t := range w3Years {
		w.discount[t] = math.Pow(1.06, -float64(t+1))
		w.running[t] = w.discount[t] * math.Pow(1.02, float64(t))
	}
	w.atEnd = math.Pow(1.06, -w3Years)
	known := map[int][]alias{}
	for j, job := range w.jobs {
		for range job.jobs {
			w.byShare = append(w.byShare, uint8(j))
		}
		if known[job.jobs] == nil {
			known[job.jobs] = aliases(float64(job.jobs))
		}
		w.counts[j] = known[job.jobs]
		table := w3Table{}
		for q := range 1 << len(job.need) {
			for i, m := range job.need {
				if q>>i&1 == 1 {
					table.at[q] |= 1 << uint(m)
				}
			}
		}
		w.scattered = append(w.scattered, table)
	}
}

const (
	w3Cells  = 4096
	w3Growth = 128 // sixteenths of growth that have a table
)

// alias is a Poisson distribution as a table of Walker: as many columns as a
// power of two, each with one or two counts in it.
//
// Source: A. J. Walker, An Efficient Method for Generating Discrete Random
// Variables with General Distributions, 1977; made by M. D. Vose, 1991.
type alias struct {
	bits    uint
	columns []aliasColumn
}

// aliasColumn is, in its upper 24 bits, up to which part of the rest of the draw
// it is the column's own count, and in its lower 8 the other count.
type aliasColumn uint32

func aliases(jobs float64) []alias {
	list := make([]alias, w3Growth)
	for g := range list {
		list[g] = aliasOf(jobs * float64(g) / 16)
	}
	return list
}

func aliasOf(mean float64) alias {
	a := alias{bits: 4}
	for float64(int(1)<<a.bits) < mean+10*math.Sqrt(mean)+12 {
		a.bits++
	}
	n := 1 << a.bits
	a.columns = make([]aliasColumn, n)
	chances, p := make([]float64, n), math.Exp(-mean)
	for k := range chances {
		chances[k] = p * float64(n)
		p *= mean / float64(k+1)
	}
	var small, large []int
	for k, c := range chances {
		if c < 1 {
			small = append(small, k)
		} else {
			large = append(large, k)
		}
	}
	for len(small) > 0 && len(large) > 0 {
		s, l := small[len(small)-1], large[len(large)-1]
		small = small[:len(small)-1]
		a.columns[s] = aliasColumn(uint32(chances[s]*(1<<24))<<8 | uint32(l))
		if chances[l] -= 1 - chances[s]; chances[l] < 1 {
			large, small = large[:len(large)-1], append(small, l)
		}
	}
	for _, k := range append(small, large...) {
		a.columns[k] = aliasColumn(1<<32 - 1<<8 | uint32(k))
	}
	return a
}

func (a *alias) draw(u uint32) float64 {
	own := u >> (32 - a.bits)
	column := uint32(a.columns[own])
	if u<<(a.bits&31) < column&^255 {
		return float64(own)
	}
	return float64(column & 255)
}

// w3Sums is what a worker gathers; each stands on cache lines of its own.
type w3Sums struct {
	sum, square [w3Sets]float64
	wins        [w3Sets]int
	best        float64
	futures     int
	_           [128]byte
}

// run draws futures in blocks, each from its own stream, on some workers. Sums
// of blocks are added in the order of the workers' blocks: counts are the same on
// any number of workers, means but for rounding.
func (w *w3) run(seed uint64, futures, workers int) *w3Sums {
	parts := make([]*w3Sums, workers)
	var next atomic.Int64
	var group sync.WaitGroup
	for i := range parts {
		parts[i] = &w3Sums{}
		group.Go(func() {
			desk := &w3Desk{w3: w}
			desk.rng = rand.New(&desk.pcg)
			for {
				block := next.Add(1) - 1
				if int(block)*w3Block >= futures {
					return
				}
				desk.pcg.Seed(seed, uint64(block))
				for range min(w3Block, futures-int(block)*w3Block) {
					desk.future(parts[i])
				}
			}
		})
	}
	group.Wait()
	for _, part := range parts[1:] {
		for s := range w3Sets {
			parts[0].sum[s] += part.sum[s]
			parts[0].square[s] += part.square[s]
			parts[0].wins[s] += part.wins[s]
		}
		parts[0].best += part.best
		parts[0].futures += part.futures
	}
	return parts[0]
}

type w3Desk struct {
	*w3
	pcg    rand.PCG
	rng    *rand.Rand       // of the same stream
	rental [w3Types]float64 // jobs, discounted at the rental price of their year
	own    [w3Types]float64 // jobs, discounted at the running cost of their year
	cost   [w3Sets]float64
}

// future prices all sets in one future. Costs are first gathered as what owning
// one more machine of a set changes (Moebius form) and then summed over subsets.
//
// Source: F. Yates, The Design and Analysis of Factorial Experiments, 1937 (the
// sum over subsets, a machine at a time).
func (d *w3Desk) future(into *w3Sums) {
	d.arrive()
	clear(d.cost[:])
	owned := [w3Machines]float64{}
	for j := range d.jobs {
		d.rent(j, &owned)
	}
	for m := range owned {
		left := math.Min(0.9, 0.30*math.Exp(0.35*d.rng.NormFloat64()-0.35*0.35/2))
		d.cost[1<<m] += owned[m] + d.price[m]*(1-left*d.atEnd) + d.area[m]*1200*d.floor()
	}
	d.sumOverSubsets()
	best, least := 0, d.cost[0]
	for s, cost := range &d.cost {
		into.sum[s] += cost
		into.square[s] += cost * cost
		if cost < least {
			best, least = s, cost
		}
	}
	into.wins[best]++
	into.best += least
	into.futures++
}

// sumOverSubsets takes the first three machines eight sets at a time, and the
// others a run of sets at a time.
func (d *w3Desk) sumOverSubsets() {
	for low := 0; low < w3Sets; low += 8 {
		c := (*[8]float64)(d.cost[low : low+8])
		c01, c23, c45, c67 := c[0]+c[1], c[2]+c[3], c[4]+c[5], c[6]+c[7]
		c02, c0123, c46, c4567 := c[0]+c[2], c01+c23, c[4]+c[6], c45+c67
		c[1], c[2], c[3] = c01, c02, c0123
		c[5], c[6], c[7] = c01+c45, c02+c46, c0123+c4567
		c[4] += c[0]
	}
	for half := 8; half < w3Sets; half *= 2 {
		for low := 0; low < w3Sets; low += 2 * half {
			without, with := d.cost[low:low+half], d.cost[low+half:low+2*half]
			for i := 0; i+8 <= len(with); i += 8 {
				a, b := (*[8]float64)(without[i:i+8]), (*[8]float64)(with[i:i+8])
				b[0], b[1], b[2], b[3] = b[0]+a[0], b[1]+a[1], b[2]+a[2], b[3]+a[3]
				b[4], b[5], b[6], b[7] = b[4]+a[4], b[5]+a[5], b[6]+a[6], b[7]+a[7]
			}
		}
	}
}

func (d *w3Desk) floor() float64 {
	sum := 0.0
	for _, x := range d.running {
		sum += x
	}
	return sum
}

// arrive draws the jobs of every type and year: by a table for the sixteenth of
// growth below, and the few that are missing spread over the types.
func (d *w3Desk) arrive() {
	clear(d.rental[:])
	clear(d.own[:])
	growth, rental := 0.0, 0.0
	for t := range w3Years {
		if t > 0 {
			growth += 0.04 + 0.12*d.rng.NormFloat64()
			rental += 0.03 + 0.04*d.rng.NormFloat64()
		}
		more := math.Exp(growth)
		paid, running := d.discount[t]*math.Exp(rental), d.running[t]
		sixteenths := min(int(16*more), w3Growth-1)
		for j := 0; j < w3Types; j += 2 {
			u := d.pcg.Uint64()
			first := d.counts[j][sixteenths].draw(uint32(u))
			second := d.counts[j+1][sixteenths].draw(uint32(u >> 32))
			d.rental[j] += first * paid
			d.own[j] += first * running
			d.rental[j+1] += second * paid
			d.own[j+1] += second * running
		}
		missing := chance.Poisson(float64(len(d.byShare))*(more-float64(sixteenths)/16), d.rng.Float64())
		for range int(missing) {
			j := d.byShare[d.rng.IntN(len(d.byShare))]
			d.rental[j] += paid
			d.own[j] += running
		}
	}
}

// rent draws the minutes of a job type and adds what it costs in every set.
func (d *w3Desk) rent(j int, owned *[w3Machines]float64) {
	job, table := &d.jobs[j], &d.scattered[j]
	var minutes, cost [32]float64 // by machines owned of those it needs
	all := 0.0
	for i, m := range job.need {
		u := d.pcg.Uint64() >> 32
		cell, part := u>>20, float64(u&(1<<20-1))/(1<<20)
		t := job.minutes[i] * (d.pert[cell] + part*(d.pert[cell+1]-d.pert[cell]))
		owned[m] += d.hourly[m] * t * d.own[j]
		minutes[1<<i] = t
		all += t
	}
	size := 1 << len(job.need)
	rental := d.rental[j]
	cost[0] = visit(all) * rental
	for q := 1; q < size-1; q++ {
		t := minutes[q&(q-1)&31] + minutes[q&-q&31]
		minutes[q&31] = t
		cost[q&31] = visit(all-t) * rental
	}
	cost[size-1] = 0
	for half := 1; half < size; half *= 2 {
		for low := 0; low < size; low += 2 * half {
			for i := low; i < low+half; i++ {
				cost[(i+half)&31] -= cost[i&31]
			}
		}
	}
	for q, at := range table.at[:size] {
		d.cost[at] += cost[q&31]
	}
}

// visit is what one visit of some minutes costs.
func visit(minutes float64) float64 {
	steps := int(minutes * (1.0 / 30))
	if float64(steps*30) < minutes {
		steps++
	}
	return float64(max(2, steps)*1400 + 2200)
}

// The check figures are those of three programs that agree within their sampling
// error: 7.02 million for renting all, deviation 1.61 million; 6.086 million for
// owning all, 0.173 million, best in 53 %; 5.829 million with perfect information.
func TestTheWorkloadW3GivesItsCheckFigures(t *testing.T) {
	const futures = 40_000
	sums := newW3(1).run(1, futures, 2)
	mean := func(s int) float64 { return sums.sum[s] / futures }
	deviation := func(s int) float64 { return math.Sqrt(sums.square[s]/futures - mean(s)*mean(s)) }
	assert.Equal(t, futures, sums.futures)
	assert.InDelta(t, 7.02e6, mean(0), 4*1.61e6/math.Sqrt(futures)+5e3)
	assert.InDelta(t, 1.61e6, deviation(0), 0.04e6)
	assert.InDelta(t, 6.086e6, mean(w3Sets-1), 4*0.173e6/math.Sqrt(futures)+5e2)
	assert.InDelta(t, 0.173e6, deviation(w3Sets-1), 0.003e6)
	assert.InDelta(t, 0.53, float64(sums.wins[w3Sets-1])/futures, 0.015)
	assert.InDelta(t, 5.829e6, sums.best/futures, 5e3)
}

func TestTheWorkloadW3DoesNotDependOnTheWorkers(t *testing.T) {
	w := newW3(2)
	one, three := w.run(7, 5000, 1), w.run(7, 5000, 3)
	assert.Equal(t, one.wins, three.wins)
	assert.InEpsilon(t, one.best, three.best, 1e-12)
}

func TestAnAliasTableIsItsDistribution(t *testing.T) {
	for _, mean := range []float64{0, 0.25, 3, 17, 47.625} {
		a := aliasOf(mean)
		got := make([]float64, 1<<a.bits)
		for own, column := range a.columns {
			least := float64(column>>8) / (1 << 24)
			got[own] += least
			got[column&255] += 1 - least
		}
		p := math.Exp(-mean)
		for k := range got {
			assert.InDelta(t, p, got[k]/float64(len(got)), 1e-7, "mean %v, count %d", mean, k)
			p *= mean / float64(k+1)
		}
	}
}

// BenchmarkW3 draws 100,000 futures.
func BenchmarkW3(b *testing.B) {
	w := newW3(1)
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("%d workers", workers), func(b *testing.B) {
			drawn := 0
			for b.Loop() {
				drawn += w.run(1, 100_000, workers).futures
			}
			b.ReportMetric(float64(drawn)/b.Elapsed().Seconds(), "futures/s")
		})
	}
}
