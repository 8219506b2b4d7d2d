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

	stabs               []float64 // least days that meet the windows from this job on, if it is still to do
	load, linear, units []float64 // sums over the jobs from this one on
	companions          [][]companion
	short               []bool // whether some companion stands beyond what a mask can hold
	slots               []store
	arena               []step
	groups              [][]int // of the best plan, by place
	best, near          float64
	nodes               int
	broken              error
}

// prepare sorts the jobs and sums up what the bound needs.
func prepare(problem *Problem) *sweep {
	n := len(problem.Jobs)
	s := &sweep{problem: problem, price: problem.Price, order: byDue(problem.Jobs), jobs: make([]Job, n)}
	for place, index := range s.order {
		s.jobs[place] = problem.Jobs[index]
	}
	s.load, s.linear, s.units, s.stabs = make([]float64, n+1), make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)
	for i := n - 1; i >= 0; i-- {
		job := &s.jobs[i]
		s.load[i] = s.load[i+1] + s.weight(job)
		s.linear[i], s.units[i] = s.linear[i+1]+job.Linear, s.units[i+1]+job.Units
		after := i + 1
		for after < n && s.jobs[after].Ready <= job.Due {
			after++
		}
		s.stabs[i] = 1 + s.stabs[after]
	}
	return s
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

// visits is how many visits the jobs from place first on need at least, first
// being still to do and taken the load of later ones that are done: enough days
// to meet every window, enough visits to carry the load.
//
// Source: least points that stab a set of intervals, by earliest end: J. Kleinberg
// and E. Tardos, Algorithm Design, 2006, section 4.1 (interval scheduling).
func (s *sweep) visits(first int, taken float64) float64 {
	if s.problem.Capacity == 0 {
		return s.stabs[first]
	}
	return max(s.stabs[first], math.Ceil((s.load[first]-taken)/s.problem.Capacity-1e-9))
}

// bound is the least cost of the jobs from place first on without those that
// are done, whose sums are taken away.
func (s *sweep) bound(first int, load, linear, units float64) float64 {
	floor := &s.problem.Floor
	rest := s.units[first] - units
	if floor.Whole {
		rest = math.Ceil(rest - 1e-9)
	}
	return floor.Visit*s.visits(first, load) + s.linear[first] - linear + floor.Unit*rest
}

// promise is bound without rounding to whole visits and units: what tells apart
// which of two states has made more of what it paid.
func (s *sweep) promise(first int, load, linear, units float64) float64 {
	floor := &s.problem.Floor
	visits := s.stabs[first]
	if s.problem.Capacity > 0 {
		visits = max(visits, (s.load[first]-load)/s.problem.Capacity)
	}
	return floor.Visit*visits + s.linear[first] - linear + floor.Unit*(s.units[first]-units)
}
