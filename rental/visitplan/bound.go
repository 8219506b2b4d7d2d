package visitplan

import "math"

// nearness is the part of the cost under which two sums of the same amounts in
// another order count as equal.
const nearness = 1e-10

// sweep is one problem made ready: jobs by due date, and what the bound and the
// search look up.
type sweep struct {
	problem *Problem
	price   Price
	order   []int // by place: index in the problem
	jobs    []Job // by due date, readiness and kind

	linear, units []float64 // sums over the jobs from this one on
	cuts          []cut

	companions [][]companion
	short      []bool // whether some companion stands beyond what a mask can hold
	slots      []store
	arena      []step

	groups     [][]int // of the best plan, by place
	best, near float64
	nodes      int
	broken     error
}

// cut parts the jobs from one place on: those due by the day of place upto, and
// those that are ready only after it. No visit serves both.
type cut struct {
	upto  int
	load  float64 // of the first part
	after float64 // visits that the second part needs at least
}

// prepare sorts the jobs.
func prepare(problem *Problem) *sweep {
	s := &sweep{problem: problem, price: problem.Price, order: byDue(problem.Jobs), jobs: make([]Job, len(problem.Jobs))}
	for place, index := range s.order {
		s.jobs[place] = problem.Jobs[index]
	}
	return s
}

// sumUp lays out what the bound looks up.
func (s *sweep) sumUp() {
	n := len(s.jobs)
	s.linear, s.units, s.cuts = make([]float64, n+1), make([]float64, n+1), make([]cut, n+1)
	s.cuts[n].upto = n
	later := make([]float64, n) // visits of the jobs that are ready after the due date of this one
	for i := n - 1; i >= 0; i-- {
		job := &s.jobs[i]
		s.linear[i], s.units[i] = s.linear[i+1]+job.Linear, s.units[i+1]+job.Units
		later[i] = s.visits(s.bestCut(i+1, job.Due, later), 0)
		s.cuts[i] = s.bestCut(i, math.MinInt, later)
	}
}

// bestCut finds the cut that proves the most visits for the jobs from place
// first on that are ready after a day: enough for the load up to some due date,
// and then for what is ready only after it. One visit has room for any job.
//
// Source: for single jobs the greedy stabbing of intervals by earliest end, J.
// Kleinberg and E. Tardos, Algorithm Design, 2006, section 4.1; with loads, no source.
func (s *sweep) bestCut(first, day int, later []float64) cut {
	best, load := cut{upto: len(s.jobs)}, 0.0
	for j := first; j < len(s.jobs); j++ {
		if s.jobs[j].Ready <= day {
			continue
		}
		load += s.weight(&s.jobs[j])
		one := cut{j, load, later[j]}
		now, before := s.visits(one, 0), s.visits(best, 0)
		if best.upto == len(s.jobs) || now > before || now == before && s.room(one) < s.room(best) {
			best = one
		}
	}
	return best
}

// visits is how many visits a cut proves when jobs of its first part with so
// much load are done, at least one of its jobs being still to do.
func (s *sweep) visits(c cut, done float64) float64 {
	if c.upto == len(s.jobs) {
		return 0
	}
	return c.after + max(1, math.Ceil(s.share(c.load-done)-1e-9))
}

// room is how much of the last of a cut's visits stays free, in visits: the
// less, the more load can be done before the cut proves a visit less.
func (s *sweep) room(c cut) float64 { return s.visits(c, 0) - c.after - s.share(c.load) }

// share is a load in visits.
func (s *sweep) share(load float64) float64 {
	if s.problem.Capacity == 0 {
		return 0
	}
	return load / s.problem.Capacity
}

// weight is a job's part of the capacity; a job heavier than a visit may be
// fills one.
func (s *sweep) weight(job *Job) float64 {
	if s.problem.Capacity > 0 {
		return min(job.Load, s.problem.Capacity)
	}
	return 0
}

// over tells whether a visit of two jobs or more is too heavy.
func (s *sweep) over(load float64) bool {
	return s.problem.Capacity > 0 && load > s.problem.Capacity*(1+1e-9)
}

// rest is the least cost of the jobs from place first on without those that are
// done, whose sums are taken away; first is still to do. Exact leaves whole units
// broken, which sums over visits need; promise leaves visits broken as well: it
// tells apart which of two states has made more of what it paid.
func (s *sweep) rest(first int, load, linear, units float64) (bound, exact, promise float64) {
	floor, c := &s.problem.Floor, s.cuts[first]
	left := s.units[first] - units
	visits := s.visits(c, load)
	exact = floor.Visit*visits + s.linear[first] - linear + floor.Unit*left
	bound, promise = exact, exact
	if floor.Whole {
		bound += floor.Unit * (math.Ceil(left-1e-9) - left)
	}
	if first < len(s.jobs) {
		promise += floor.Visit * (c.after + max(1, s.share(c.load-load)) - visits)
	}
	return bound, exact, promise
}
