package futures_test

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
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

type w3Job struct {
	need    []uint8   // machines
	minutes []float64 // on each
	jobs    int       // in the first year
	at      [32]uint8 // by machines that are not owned: the set of the others that are
}

type w3 struct {
	price, area, hourly [w3Machines]float64
	jobs                []w3Job
	minutes             *pert
	counts              [w3Growth][w3Classes]alias // for each sixteenth of growth
	extra               alias                      // jobs of all types that a whole sixteenth more brings
	classes             [w3Types]uint8             // job types with as many jobs share their tables
	byShare             []uint8                    // types in proportion to their jobs
	growth, rental      *lognormal                 // from a year to the next
	resale              *lognormal
	visit               [64]float64 // by blocks
	discount, running   [w3Years]float64
	space               [w3Machines]float64
	atEnd               float64
}

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
			job.need = append(job.need, uint8(order[i]))
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
	w.minutes = pertOf()
	w.growth, w.rental, w.resale = lognormalOf(0.04, 0.12), lognormalOf(0.03, 0.04), lognormalOf(math.Log(0.30)-0.35*0.35/2, 0.35)
	floor := 0.0
	for t := range w3Years {
		w.discount[t] = math.Pow(1.06, -float64(t+1))
		w.running[t] = w.discount[t] * math.Pow(1.02, float64(t))
		floor += w.running[t]
	}
	for m, area := range w.area {
		w.space[m] = area * 1200 * floor
	}
	w.atEnd = math.Pow(1.06, -w3Years)
	for blocks := 1; blocks < len(w.visit); blocks++ {
		w.visit[blocks] = float64(max(2, blocks)*1400 + 2200)
	}
	w.tabulate()
	for j := range w.jobs {
		job := &w.jobs[j]
		for q := range 1 << len(job.need) {
			for i, m := range job.need {
				if q>>i&1 == 0 {
					job.at[q] |= 1 << m
				}
			}
		}
	}
}

// tabulate makes the tables of counts, by growth and then by class.
func (w *w3) tabulate() {
	var classes []int
	for j := range w.jobs {
		job := &w.jobs[j]
		w.byShare = append(w.byShare, bytes.Repeat([]byte{uint8(j)}, job.jobs)...)
		if !slices.Contains(classes, job.jobs) {
			classes = append(classes, job.jobs)
		}
		w.classes[j] = uint8(slices.Index(classes, job.jobs))
	}
	var means []float64
	for sixteenths := range w3Growth {
		for class := range w3Classes {
			jobs := 0
			if class < len(classes) {
				jobs = classes[class]
			}
			means = append(means, float64(jobs*sixteenths)/16)
		}
	}
	tables := aliasesOf(append(means, float64(len(w.byShare))/16))
	for at := range means {
		w.counts[at/w3Classes][at%w3Classes] = tables[at]
	}
	w.extra = tables[len(means)]
}

const (
	w3Growth  = 128 // sixteenths of growth that have a table
	w3Classes = 8   // different numbers of jobs at most
)

// w3Sums is what is gathered of a block; each stands on cache lines of its own.
type w3Sums struct {
	sum, square [w3Sets]float64
	wins        [w3Sets]int
	best        float64
	futures     int
	_           [128]byte
}

// run draws futures in blocks, each from its own stream, on some workers. The
// sums of the blocks are added in their order: the same on any number of workers.
func (w *w3) run(seed uint64, futures, workers int) *w3Sums {
	blocks := make([]w3Sums, (futures+w3Block-1)/w3Block)
	var next atomic.Int64
	var group sync.WaitGroup
	for range workers {
		group.Go(func() {
			desk := &w3Desk{w3: w}
			for {
				block := int(next.Add(1)) - 1
				if block >= len(blocks) {
					return
				}
				desk.stream = streamOf(seed, uint64(block))
				for range min(w3Block, futures-block*w3Block) {
					desk.future(&blocks[block])
				}
			}
		})
	}
	group.Wait()
	all := &w3Sums{}
	for b := range blocks {
		all.add(&blocks[b])
	}
	return all
}

func (s *w3Sums) add(more *w3Sums) {
	for set := range w3Sets {
		s.sum[set] += more.sum[set]
		s.square[set] += more.square[set]
		s.wins[set] += more.wins[set]
	}
	s.best += more.best
	s.futures += more.futures
}

type w3Desk struct {
	*w3
	stream splitMix
	rental [w3Types]float64    // jobs, discounted at the rental price of their year
	own    [w3Types]float64    // jobs, discounted at the running cost of their year
	owned  [w3Machines]float64 // cost of running each
	left   [32]int64           // parts of a block by machines not owned of those that a type needs
	rented [32]float64         // and what they cost
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
	clear(d.owned[:])
	for j := range d.jobs {
		d.rent(j)
	}
	for m := 0; m < w3Machines; m += 2 {
		u := d.stream.next()
		d.buy(m, uint32(u))
		d.buy(m+1, uint32(u>>32))
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

// buy adds what owning a machine costs.
func (d *w3Desk) buy(m int, u uint32) {
	left := min(0.9, d.resale.draw(u))
	d.cost[1<<m] += d.owned[m] + d.price[m]*(1-left*d.atEnd) + d.space[m]
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

// arrive draws the jobs of every type and year: by a table for the sixteenth of
// growth below, and the few that are missing: of those that a whole sixteenth
// would bring, each type in proportion, as many as there is growth of it.
//
// Source: thinning of a Poisson count, as in S. M. Ross, Introduction to
// Probability Models.
func (d *w3Desk) arrive() {
	clear(d.rental[:])
	clear(d.own[:])
	stream, growth, rental := d.stream, 1.0, 1.0
	for t := range w3Years {
		if t > 0 {
			u := stream.next()
			growth *= d.growth.draw(uint32(u))
			rental *= d.w3.rental.draw(uint32(u >> 32))
		}
		paid, running := d.discount[t]*rental, d.running[t]
		sixteenths := min(int(16*growth), w3Growth-1)
		tables := &d.counts[sixteenths]
		for j := 0; j < w3Types; j += 2 {
			u := stream.next()
			first := tables[d.classes[j]%w3Classes].draw(uint32(u))
			second := tables[d.classes[j+1]%w3Classes].draw(uint32(u >> 32))
			d.rental[j] += first * paid
			d.own[j] += first * running
			d.rental[j+1] += second * paid
			d.own[j+1] += second * running
		}
		d.more(&stream, 16*growth-float64(sixteenths), paid, running)
	}
	d.stream = stream
}

// more draws the jobs of a part of a sixteenth.
func (d *w3Desk) more(stream *splitMix, part, paid, running float64) {
	kept := int64(part * (1 << 32))
	for range int(d.extra.draw(uint32(stream.next()))) {
		u := stream.next()
		j := d.byShare[uint64(uint32(u))*uint64(len(d.byShare))>>32]
		keep := uint64((int64(u>>32) - kept) >> 63) // all ones or none: no jump, as good as a coin
		d.rental[j] += math.Float64frombits(math.Float64bits(paid) & keep)
		d.own[j] += math.Float64frombits(math.Float64bits(running) & keep)
	}
}

// rent draws the minutes of a job type and adds what it costs in every set.
func (d *w3Desk) rent(j int) {
	job, own := &d.jobs[j], d.own[j]*(30.0/blockParts)
	left, rented, size := &d.left, &d.rented, 1
	u := uint64(0)
	for i, m := range job.need {
		if u >>= 32; i&1 == 0 {
			u = d.stream.next()
		}
		t := int64(job.minutes[i]) * d.minutes.draw(uint32(u))
		d.owned[m%w3Machines] += d.hourly[m%w3Machines] * float64(t) * own
		for q := range size {
			left[(q+size)&31] = left[q&31] + t
		}
		size *= 2
	}
	rental := d.rental[j]
	if size == 2 {
		rented[1] = d.fare(left[1]) * rental
		rented[0] = -rented[1]
	} else {
		d.differ(size, rental)
	}
	for q, at := range job.at[:size] {
		d.cost[at] += rented[q&31]
	}
}

// differ turns the prices of a type into what each machine more changes, the
// first two machines at once and the others a run at a time. Prices are by the
// machines that are not owned, so that owning none is the last of them.
func (d *w3Desk) differ(size int, rental float64) {
	for low := 0; low < size; low += 4 {
		left, to := (*[4]int64)(d.left[low:low+4]), (*[4]float64)(d.rented[low:low+4])
		none, one, other, both := d.fare(left[0])*rental, d.fare(left[1])*rental, d.fare(left[2])*rental, d.fare(left[3])*rental
		to[0], to[1], to[2], to[3] = (none-one)-(other-both), one-both, other-both, both
	}
	for half := 4; half < size; half *= 2 {
		for low := 0; low < size; low += 2 * half {
			for i := low; i < low+half; i += 4 {
				a, b := (*[4]float64)(d.rented[i:i+4]), (*[4]float64)(d.rented[i+half:i+half+4])
				a[0], a[1], a[2], a[3] = a[0]-b[0], a[1]-b[1], a[2]-b[2], a[3]-b[3]
			}
		}
	}
}

// fare is what a visit of so many parts of a block costs.
func (d *w3Desk) fare(parts int64) float64 {
	return d.visit[(parts+blockParts-1)>>partBits&63]
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
	one := w.run(7, 5000, 1)
	assert.Equal(t, 5000, one.futures)
	for _, workers := range []int{2, 8} {
		assert.Equal(t, one, w.run(7, 5000, workers), "%d workers", workers)
	}
	assert.NotEqual(t, one.wins, w.run(8, 5000, 1).wins)
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
