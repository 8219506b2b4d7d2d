package visitplan

import "math"

// Runs cuts the numbers 0 … n-1 into runs so that the sum of their costs is
// least. Run is asked for every first ≤ last with last rising and, for each
// last, first falling; more is false where no run with an earlier first can be.
// Starts holds the first number of each run. The cost is +Inf where no cut can
// be. Among cuts of one cost the longest last runs win.
//
// Source: H. M. Wagner and T. M. Whitin, Dynamic Version of the Economic Lot
// Size Model, Management Science 5(1), 1958.
func Runs(n int, run func(first, last int) (cost float64, more bool)) (cost float64, starts []int) {
	least, from := make([]float64, n+1), make([]int, n+1)
	for last := range n {
		best := math.Inf(1)
		for first := last; first >= 0; first-- {
			price, more := run(first, last)
			if total := least[first] + price; total <= best {
				best, from[last+1] = total, first
			}
			if !more {
				break
			}
		}
		least[last+1] = best
	}
	if math.IsInf(least[n], 1) {
		return least[n], nil
	}
	for end := n; end > 0; end = from[end] {
		starts = append(starts, from[end])
	}
	for i, j := 0, len(starts)-1; i < j; i, j = i+1, j-1 {
		starts[i], starts[j] = starts[j], starts[i]
	}
	return least[n], starts
}

// consecutive takes the best grouping of jobs that are neighbours by due date
// for the best known one.
func (s *sweep) consecutive() {
	var ready int
	var load float64
	var contents uint64
	cost, starts := Runs(len(s.jobs), func(first, last int) (float64, bool) {
		job := &s.jobs[first]
		if first == last {
			ready, load, contents = job.Ready, 0, 0
		}
		ready, load = max(ready, job.Ready), load+job.Load
		if ready > job.Due || first < last && s.over(load) {
			return math.Inf(1), false
		}
		contents = s.price.Add(contents, job.Kind)
		price := s.price.Of(contents)
		return price, !math.IsInf(price, 1)
	})
	s.best, s.groups = cost, make([][]int, len(starts))
	for i, first := range starts {
		end := len(s.jobs)
		if i+1 < len(starts) {
			end = starts[i+1]
		}
		for at := first; at < end; at++ {
			s.groups[i] = append(s.groups[i], at)
		}
	}
	s.near = nearness * cost
}

// Case is one of the cases in which consecutive groups are proven best.
type Case int

// The proven cases.
const (
	// LinearCost: put every job on the latest visit day that is not after its
	// due date. Its window holds some visit day, so that day is not before it is
	// ready; groups now follow the due dates, and visits are not more.
	LinearCost Case = iota + 1
	// OneKind: jobs of one kind whose order by readiness is their order by due
	// date. Two that are visited in the other order can change places.
	OneKind
	// ConcaveCost: the same order of windows and a concave cost: moving one of two
	// crossing jobs spreads the two sums, which costs no more.
	ConcaveCost
	// OneWindow: a day on which every job can be done and a cost that grouping
	// never raises: one visit.
	OneWindow
)

// provenCase finds the case in which the groups by consecutive are best.
//
// Source: exchange arguments, no source; tested against all groupings of small problems.
func provenCase(s *sweep) (Case, bool) {
	limited := s.problem.Capacity > 0
	switch shape := s.problem.Shape; {
	case shape >= Linear && !limited:
		return LinearCost, true
	case s.oneKind() && s.agreeable():
		return OneKind, true
	case shape >= Concave && !limited && s.agreeable():
		return ConcaveCost, true
	case shape >= Subadditive && !limited && s.oneWindow():
		return OneWindow, true
	}
	return 0, false
}

func (s *sweep) oneKind() bool {
	for i := range s.jobs {
		if s.jobs[i].Kind != s.jobs[0].Kind {
			return false
		}
	}
	return true
}

// agreeable tells whether who is ready earlier is not due later. Jobs stand by
// due date and then by readiness.
func (s *sweep) agreeable() bool {
	for i := 1; i < len(s.jobs); i++ {
		if s.jobs[i].Ready < s.jobs[i-1].Ready {
			return false
		}
	}
	return true
}

func (s *sweep) oneWindow() bool {
	for i := range s.jobs {
		if s.jobs[i].Ready > s.jobs[0].Due {
			return false
		}
	}
	return true
}
