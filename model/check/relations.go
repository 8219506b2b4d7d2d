package check

import (
	"fmt"
	"slices"

	"shopstint/model"
	"shopstint/model/problem"
)

func relationsAreToOthers(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, m := range candidates(study) {
		if slices.Contains(m.Excludes, m.Key) {
			list = append(list, found(path+".excludes", "names the machine itself", "name other machines, or leave it out"))
		}
		if slices.Contains(m.Needs, m.Key) {
			list = append(list, found(path+".needs", "names the machine itself", "name other machines, or leave it out"))
		}
	}
	return list
}

// needsCanBeMet: two machines that a machine needs, at first or second hand, must
// not exclude each other, or it could never be owned.
func needsCanBeMet(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, m := range candidates(study) {
		if len(m.Needs) == 0 {
			continue
		}
		all := neededBy(study, m.Key)
		if a, b, clash := clashing(study, all); clash {
			list = append(list, found(path+".needs", fmt.Sprintf("asks for %s and %s together, which exclude each other", a, b),
				"take one of them out of needs, or out of excludes"))
		}
	}
	return list
}

// neededBy lists a machine and all that it needs, at first hand or later.
func neededBy(study *model.Study, key string) []string {
	all := []string{key}
	for i := 0; i < len(all); i++ {
		m, _ := model.Find(study.Machines, all[i])
		for _, more := range m.Needs {
			if !slices.Contains(all, more) {
				all = append(all, more)
			}
		}
	}
	return all
}

// clashing finds two machines of a list of which one excludes the other.
func clashing(study *model.Study, list []string) (a, b string, clash bool) {
	for _, key := range list {
		m, _ := model.Find(study.Machines, key)
		for _, other := range m.Excludes {
			if other != key && slices.Contains(list, other) {
				return key, other, true
			}
		}
	}
	return "", "", false
}
