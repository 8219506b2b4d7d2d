package visitplan

import "math"

// Alone is the cost of one visit for every job.
func Alone(problem *Problem) float64 {
	total := 0.0
	for _, job := range problem.Jobs {
		total += problem.Price.Of(problem.Price.Add(0, job.Kind))
	}
	return total
}

// ByDueDate is the cost, and the number, of visits on every due date with all
// that is due then; what one visit cannot hold goes on a further one.
func ByDueDate(problem *Problem) (cost float64, visits int) {
	s := prepare(problem)
	var contents uint64
	var load, price float64
	for i := range s.jobs {
		job := &s.jobs[i]
		with := s.price.Add(contents, job.Kind)
		load += job.Load
		if i == 0 || job.Due != s.jobs[i-1].Due || s.over(load) || math.IsInf(s.price.Of(with), 1) {
			cost, visits = cost+price, visits+1
			with, load = s.price.Add(0, job.Kind), job.Load
		}
		contents, price = with, s.price.Of(with)
	}
	return cost + price, visits
}
