package check

import (
	"fmt"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

func referencesExist(study *model.Study) []problem.Problem {
	var list []problem.Problem
	lists := map[string][]string{
		"edges":     keys(study.Edges, func(e model.Edge) string { return e.Key }),
		"abrasives": keys(study.Abrasives, func(a model.Abrasive) string { return a.Key }),
		"shops":     keys(study.Shops, func(s model.Shop) string { return s.Key }),
		"materials": keys(study.Materials, func(m model.Material) string { return m.Key }),
		"machines":  keys(study.Machines, func(m model.Machine) string { return m.Key }),
		"fixtures":  keys(study.Fixtures, func(f model.Fixture) string { return f.Key }),
		"job_types": keys(study.JobTypes, func(j model.JobType) string { return j.Key }),
	}
	model.Walk(study, func(leaf model.Leaf) {
		list = append(list, dangling(leaf, lists)...)
	})
	return list
}

func dangling(leaf model.Leaf, lists map[string][]string) []problem.Problem {
	into := leaf.Tag.Get("ref")
	if into == "" {
		return nil
	}
	names, several := leaf.Value.Interface().([]string)
	if name := leaf.Value.String(); !several && name != "" {
		names = []string{name}
	}
	var list []problem.Problem
	for _, name := range names {
		list = append(list, unknownName(leaf.Path, name, "the study's "+into, lists[into])...)
	}
	return list
}

// unknownName reports a name that is not among the known ones.
func unknownName(path, name, among string, known []string) []problem.Problem {
	for _, key := range known {
		if key == name {
			return nil
		}
	}
	what := fmt.Sprintf("is %q, which is not among %s", name, among)
	if len(known) == 0 {
		return []problem.Problem{found(path, what, "add it there, or leave this out")}
	}
	return []problem.Problem{found(path, what, problem.Suggest(name, known))}
}

func piecesExist(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		if o.Piece != "" {
			known := keys(o.job.Pieces, func(p model.Piece) string { return p.Key })
			list = append(list, unknownName(path+".piece", o.Piece, "the pieces of its job", known)...)
		}
	}
	return list
}

func keys[T any](members []T, key func(T) string) []string {
	list := make([]string, len(members))
	for i, member := range members {
		list[i] = key(member)
	}
	return list
}

func materialSaid(study *model.Study) []problem.Problem {
	var list []problem.Problem
	if len(study.Materials) < 2 {
		return nil
	}
	known := keys(study.Materials, func(m model.Material) string { return m.Key })
	for _, job := range study.JobTypes {
		if path := "job_types." + job.Key + ".material"; job.Material == "" || assumed(study, path) {
			list = append(list, problem.Problem{Path: path, What: "job_types." + job.Key + " names no material, and there are several",
				Right: "give material: " + words(known)})
		}
	}
	for _, comparison := range study.Comparisons {
		if path := "comparisons." + comparison.Key + ".material"; assumed(study, path) {
			list = append(list, found(path, "is not said, and there are several", "give material: "+words(known)))
		}
	}
	return list
}

func supplyPhases(study *model.Study) []problem.Problem {
	var list []problem.Problem
	judge := func(path string, phases quantity.Count) {
		if phases != 1 && phases != 3 {
			list = append(list, found(path, "is "+show(study, quantity.DimCount, float64(phases)), "give 1 or 3"))
		}
	}
	judge("studio.phases", study.Studio.Phases)
	for path, candidate := range candidates(study) {
		judge(path+".machine_phases", candidate.MachinePhases)
	}
	return list
}

// densityOnce: a specific gravity takes the place of the density, which would
// then be read and not used.
func densityOnce(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for _, material := range study.Materials {
		path := "materials." + material.Key
		if material.SpecificGravity > 0 && !assumed(study, path+".specific_gravity") && !assumed(study, path+".density") {
			list = append(list, found(path+".specific_gravity", fmt.Sprintf("is %s and density is %s, and only one can hold",
				show(study, quantity.DimCount, float64(material.SpecificGravity)), show(study, quantity.DimDensity, float64(material.Density))),
				"give one of the two"))
		}
	}
	return list
}
