package budget

import (
	"shopstint/capital/decision/alternative"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/work"
)

// Owned is what the job costs on a candidate, were it owned alone: its share of
// the present cost of owning, after tax, by the running hours.
type Owned struct {
	Machine int
	Hours   float64 // running hours of the job on it, reworks included
	PerHour float64 // cost of a running hour over the horizon
	Cost    float64 // Hours × PerHour
	PerJob  float64 // cost of a job, the mean of all job types that use it
}

// owned lists the candidates that would do some work of the job.
func owned(study *model.Study, job int) []Owned {
	var list []Owned
	plan := work.New(study)
	rented := alternative.RentOf(study, plan, make([]bool, len(study.Machines)))
	for m := range study.Machines {
		result := single.Decide(study, plan, &rented, m)
		for _, use := range result.Owner.Uses {
			if hours := use.PerJob.Hours(); use.Job == job && hours > 0 {
				list = append(list, Owned{m, hours, result.PerHour, hours * result.PerHour, result.PerJob})
			}
		}
	}
	return list
}
