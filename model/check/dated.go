package check

import (
	"fmt"

	"shopstint/model"
	"shopstint/model/problem"
)

func shopsOpen(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for _, shop := range study.Shops {
		if len(shop.OpenDays) == 0 {
			list = append(list, found("shops."+shop.Key+".open_days", "names no day, so the shop is closed all week", "give its days, such as [mon, tue, wed, thu, fri]"))
		}
	}
	return list
}

func dueAfterReady(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for _, dated := range study.DatedJobs {
		if dated.Due.Day() < dated.Ready.Day() {
			list = append(list, found("dated_jobs."+dated.Key+".due", fmt.Sprintf("is %s, and the job is ready on %s", dated.Due, dated.Ready),
				"give a due date on or after "+string(dated.Ready)))
		}
	}
	return list
}

func datedJobsFew(study *model.Study) []problem.Problem {
	total := 0
	for _, dated := range study.DatedJobs {
		total += dated.Number()
	}
	if total <= model.MostDated {
		return nil
	}
	return []problem.Problem{found("dated_jobs", fmt.Sprintf("counts %d jobs", total), fmt.Sprintf("plan at most %d at a time", model.MostDated))}
}
