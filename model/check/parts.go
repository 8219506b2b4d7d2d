package check

import (
	"iter"
	"strings"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

// found builds the one problem that most rules report.
func found(path, what, right string) problem.Problem {
	return problem.Problem{Path: path, What: path + " " + what, Right: right}
}

// operation is an operation with the job type it belongs to.
type operation struct {
	job *model.JobType
	*model.Operation
}

// geometry tells whether the minutes come from the geometry, not from a watch.
func (o operation) geometry() bool { return o.Measured == 0 }

// needs tells whether the operation, or its fallback, is of one of the classes.
func (o operation) needs(classes ...string) bool {
	for _, class := range classes {
		if class == o.Class || class == o.Fallback {
			return true
		}
	}
	return false
}

func operations(study *model.Study) iter.Seq2[string, operation] {
	return func(yield func(string, operation) bool) {
		for j := range study.JobTypes {
			job := &study.JobTypes[j]
			for o := range job.Operations {
				path := "job_types." + job.Key + ".operations." + job.Operations[o].Key
				if !yield(path, operation{job, &job.Operations[o]}) {
					return
				}
			}
		}
	}
}

// abilities runs over every machine there is: hired, own and candidate.
func abilities(study *model.Study) iter.Seq2[string, *model.Ability] {
	return func(yield func(string, *model.Ability) bool) {
		for path, hired := range hiredMachines(study) {
			if !yield(path, &hired.Ability) {
				return
			}
		}
		for t := range study.Tools {
			if !yield("tools."+study.Tools[t].Key, &study.Tools[t].Ability) {
				return
			}
		}
		for path, candidate := range candidates(study) {
			if !yield(path, &candidate.Ability) {
				return
			}
		}
	}
}

func hiredMachines(study *model.Study) iter.Seq2[string, *model.HiredMachine] {
	return func(yield func(string, *model.HiredMachine) bool) {
		for s := range study.Shops {
			shop := &study.Shops[s]
			for m := range shop.Machines {
				if !yield("shops."+shop.Key+".machines."+shop.Machines[m].Key, &shop.Machines[m]) {
					return
				}
			}
		}
	}
}

func candidates(study *model.Study) iter.Seq2[string, *model.Machine] {
	return func(yield func(string, *model.Machine) bool) {
		for m := range study.Machines {
			if !yield("machines."+study.Machines[m].Key, &study.Machines[m]) {
				return
			}
		}
	}
}

func tariffs(study *model.Study) iter.Seq2[string, *model.Tariff] {
	return func(yield func(string, *model.Tariff) bool) {
		for s := range study.Shops {
			if !yield("shops."+study.Shops[s].Key+".tariff", &study.Shops[s].Tariff) {
				return
			}
		}
	}
}

// assumed tells whether the input was not in the study.
func assumed(study *model.Study, path string) bool { return study.Origins[path].Assumed }

// said returns the input that the owner wrote, or the first when none was: a
// contradiction with a default belongs where it can be mended.
func said(study *model.Study, path, other string) string {
	if assumed(study, path) && !assumed(study, other) {
		return other
	}
	return path
}

// show writes a value in the study's own units.
func show(study *model.Study, dim quantity.Dimension, value float64) string {
	system := quantity.Metric
	if study.Units == quantity.Inch.String() {
		system = quantity.Inch
	}
	return quantity.Format(dim, value, system)
}

// words lists texts as a choice: "a, b or c".
func words(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " or " + list[last]
}
