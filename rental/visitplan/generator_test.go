package visitplan_test

import (
	"cmp"
	"math"
	"slices"

	"shopstint/rental/visitplan"
)

// splitMix is the generator of random numbers of the benchmark's instances.
//
// Source: G. L. Steele, D. Lea and C. H. Flood, Fast Splittable Pseudorandom
// Number Generators, OOPSLA 2014.
type splitMix uint64

func (s *splitMix) next() uint64 {
	*s += 0x9E3779B97F4A7C15
	z := uint64(*s)
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return z ^ z>>31
}

func (s *splitMix) below(k int) int { return int((s.next() >> 11) % uint64(k)) }

// errand is a job of an instance with one amount of minutes.
type errand struct{ ready, due, minutes, load int }

// errands draws N jobs over 6 days a job, at most a year.
func errands(n int, seed uint64, loads bool) []errand {
	r := splitMix(seed + 4000)
	list := make([]errand, n)
	for i := range list {
		ready := r.below(min(365, 6*n))
		due := ready + 3 + r.below(28)
		list[i] = errand{ready, due, 10 + 5*r.below(23), 1 + r.below(40)}
		if !loads {
			list[i].load = 0
		}
	}
	slices.SortFunc(list, func(a, b errand) int {
		return cmp.Or(cmp.Compare(a.due, b.due), cmp.Compare(a.ready, b.ready), cmp.Compare(a.minutes, b.minutes), cmp.Compare(a.load, b.load))
	})
	return list
}

// byMinutes prices a visit by the sum of its minutes.
type byMinutes struct {
	minutes []int // by kind
	cost    func(minutes int) float64
}

func (p *byMinutes) Add(contents uint64, kind int) uint64 { return contents + uint64(p.minutes[kind]) }
func (p *byMinutes) Of(contents uint64) float64           { return p.cost(int(contents)) }

// blocks is 30-minute blocks at so much each, at least two, and the travel.
func blocks(block, travel float64) func(int) float64 {
	return func(minutes int) float64 {
		return travel + block*math.Max(2, math.Ceil(float64(minutes)/30))
	}
}

// problemOf makes a problem of errands under a cost by minutes with its floor:
// fixed for each visit, and so much for each unit of minutes.
func problemOf(list []errand, capacity float64, cost func(int) float64, floor visitplan.Floor, unit float64) *visitplan.Problem {
	price := &byMinutes{cost: cost}
	problem := &visitplan.Problem{Price: price, Capacity: capacity, Floor: floor, Monotone: true}
	kinds := map[[2]int]int{}
	for _, e := range list {
		key := [2]int{e.minutes, e.load}
		kind, known := kinds[key]
		if !known {
			kind = len(kinds)
			kinds[key] = kind
			price.minutes = append(price.minutes, e.minutes)
		}
		job := visitplan.Job{Ready: e.ready, Due: e.due, Kind: kind, Load: float64(e.load)}
		if unit > 0 {
			job.Units = float64(e.minutes) / unit
		}
		problem.Jobs = append(problem.Jobs, job)
	}
	return problem
}

// trips is the benchmark's problem: blocks of 14.00 in cents and the travel, and
// with loads a vehicle that takes 100.
func trips(n int, seed uint64, loads bool, travel float64) *visitplan.Problem {
	capacity := 0.0
	if loads {
		capacity = 100
	}
	return problemOf(errands(n, seed, loads), capacity, blocks(1400, travel), visitplan.Floor{Visit: travel, Unit: 1400, Whole: true}, 30)
}
