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

	after []sums // over the jobs from this place on
	cuts  []cut

	companions [][]companion
	lists      [][]visit // by leader; nil where they are not listed
	short      []bool    // whether some companion stands beyond what a mask can hold
	slots      []store
	arena      []step

	groups     [][]int // of the best plan, by place
	best, near float64
	nodes      int
	fault      error
}

// sums are what some jobs add to the bound: their parts of its linear and unit
// costs, and their load in visits.
type sums struct{ linear, units, share float64 }

func (a sums) plus(b sums) sums {
	return sums{a.linear + b.linear, a.units + b.units, a.share + b.share}
}

func (a sums) less(b sums) sums {
	return sums{a.linear - b.linear, a.units - b.units, a.share - b.share}
}

// sumsOf are those of one job. A job heavier than a visit may be fills one.
func (s *sweep) sumsOf(job *Job) sums {
	one := sums{linear: job.Linear, units: job.Units}
	if s.problem.Capacity > 0 {
		one.share = min(1, job.Load/s.problem.Capacity)
	}
	return one
}

// cut parts the jobs from one place on: those due by the day of place upto, and
// those that are ready only after it. No visit serves both.
type cut struct {
	empty  bool // without a job
	upto   int
	share  float64 // of the first part, in visits
	beyond float64 // of all jobs after the first part, in visits
	after  float64 // visits that the second part needs at least
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
	s.after, s.cuts = make([]sums, n+1), make([]cut, n+1)
	s.cuts[n] = cut{empty: true, upto: n}
	later := make([]float64, n) // visits of the jobs that are ready after the due date of this one
	for i := n - 1; i >= 0; i-- {
		job := &s.jobs[i]
		s.after[i] = s.after[i+1].plus(s.sumsOf(job))
		next := s.bestCut(i+1, job.Due, later)
		later[i] = next.visits(next.share)
		s.cuts[i] = s.bestCut(i, math.MinInt, later)
		s.cuts[i].beyond = s.after[s.cuts[i].upto+1].share
	}
}

// bestCut finds the cut that proves the most visits for the jobs from place
// first on that are ready after a day: enough for the load up to some due date,
// and then for what is ready only after it. One visit has room for any job.
//
// Source: for single jobs the greedy stabbing of intervals by earliest end, J.
// Kleinberg and E. Tardos, Algorithm Design, 2006, section 4.1; with loads, no source.
func (s *sweep) bestCut(first, day int, later []float64) cut {
	best, share := cut{empty: true}, 0.0
	for j := first; j < len(s.jobs); j++ {
		if s.jobs[j].Ready <= day {
			continue
		}
		share += s.sumsOf(&s.jobs[j]).share
		one := cut{upto: j, share: share, after: later[j]}
		now, before := one.visits(one.share), best.visits(best.share)
		if best.empty || now > before || now == before && one.room() < best.room() {
			best = one
		}
	}
	return best
}

// visits is how many visits a cut proves when jobs of so much load, in visits,
// are left of its first part; none where that has no job.
func (c *cut) visits(left float64) float64 {
	if c.empty {
		return 0
	}
	return c.after + max(1, math.Ceil(left-1e-9))
}

// room is how much of the last of a cut's visits stays free, in visits: the
// less, the more load can be done before the cut proves a visit less.
func (c *cut) room() float64 { return c.visits(c.share) - c.after - c.share }

// over tells whether a visit of two jobs or more is too heavy.
func (s *sweep) over(load float64) bool {
	return s.problem.Capacity > 0 && load > s.problem.Capacity*(1+1e-9)
}

// remaining is the load, in visits, of the jobs still to do in the first part of the
// cut at a place: all that is left, without what is left after that part.
func (s *sweep) remaining(first int, done mask, share float64) float64 {
	if s.problem.Capacity == 0 {
		return 0
	}
	c := &s.cuts[first]
	share -= c.beyond
	for place, far := c.upto+1, done.down(c.upto-first); far != (mask{}); {
		step, rest := far.lowest()
		place, far = place+step, rest
		share += s.after[place-1].share - s.after[place].share
	}
	return share
}

// rest is the least cost of the jobs still to do: place first is the first of
// them, left those of the cut there. Exact leaves whole units broken, which sums
// over visits need.
func (s *sweep) rest(first int, left float64, todo sums) (bound, exact float64) {
	floor := &s.problem.Floor
	exact = floor.Visit*s.cuts[first].visits(left) + todo.linear + floor.Unit*todo.units
	return exact + s.broken(todo.units), exact
}

// broken is what the unit begun costs beyond its part: a sum of whole units is paid.
func (s *sweep) broken(units float64) float64 {
	if !s.problem.Floor.Whole {
		return 0
	}
	return s.problem.Floor.Unit * (math.Ceil(units-1e-9) - units)
}

// promise is what is added to exact to leave the last visit of the cut broken as
// well: it tells apart which of two states has made more of what it paid.
func (s *sweep) promise(first int, left float64) float64 {
	if s.cuts[first].empty {
		return 0
	}
	return s.problem.Floor.Visit * (max(1, left) - max(1, math.Ceil(left-1e-9)))
}

// whole is the least cost of all jobs.
func (s *sweep) whole() (bound, exact float64) {
	return s.rest(0, s.remaining(0, mask{}, s.after[0].share), s.after[0])
}
