package check

import (
	"slices"

	"shopstint/model"
	"shopstint/model/problem"
)

// rentable tells whether the job's shop or an own tool offers a class.
func rentable(study *model.Study, job *model.JobType, class string) bool {
	for t := range study.Tools {
		if study.Tools[t].Class == class {
			return true
		}
	}
	shop := max(0, model.Index(study.Shops, job.Shop))
	for s := range study.Shops {
		if s != shop {
			continue
		}
		for m := range study.Shops[s].Machines {
			if study.Shops[s].Machines[m].Class == class {
				return true
			}
		}
	}
	return false
}

// buyable tells whether a candidate takes over a class of work.
func buyable(study *model.Study, class string) bool {
	for _, candidate := range study.Machines {
		if slices.Contains(candidate.Does, class) {
			return true
		}
	}
	return false
}

func someMachineDoes(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		if !rentable(study, o.job, o.Class) && !buyable(study, o.Class) {
			list = append(list, found(path+".class", "is "+o.Class+", and neither its shop nor a tool nor a candidate does that",
				"add such a machine to the job's shop or to tools, or change the class"))
		}
	}
	return list
}

func eachCanBeRented(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		way := rentable(study, o.job, o.Class) || (o.Fallback != "" && rentable(study, o.job, o.Fallback))
		if !way && buyable(study, o.Class) {
			list = append(list, found(path+".class", "is "+o.Class+", which only a candidate does, so that it cannot be rented",
				"add such a machine to the job's shop or to tools, or give a fallback that one of them does"))
		}
	}
	return list
}

func fallbackDiffers(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		if o.Fallback != "" && o.Fallback == o.Class {
			list = append(list, found(path+".fallback", "is "+o.Fallback+", the same as its class", "name another class, or leave fallback out"))
		}
	}
	return list
}

func someMachineFallsBack(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		if o.Fallback != "" && o.Fallback != o.Class && !rentable(study, o.job, o.Fallback) {
			list = append(list, found(path+".fallback", "is "+o.Fallback+", and neither its shop nor a tool does that",
				"add such a machine to the job's shop or to tools, or leave fallback out"))
		}
	}
	return list
}
