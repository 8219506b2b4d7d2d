package check

import (
	"errors"
	"fmt"
	"math"

	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/problem"
)

func rangesFitTheirShape(study *model.Study) []problem.Problem {
	var list []problem.Problem
	model.Walk(study, func(leaf model.Leaf) {
		origin := study.Origins[leaf.Path]
		dim, measured := leaf.Dimension()
		if origin.Shape == "" || !measured || origin.Low == origin.High {
			return
		}
		is := chance.Range{Value: leaf.Number(), Low: origin.Low, High: origin.High, Shape: origin.Shape, Least: math.Inf(-1), Most: math.Inf(1)}
		switch fault := chance.Fault(is); {
		case fault == "":
		case origin.Shape == model.ShapeLognormal && origin.Low <= 0:
			list = append(list, found(leaf.Path, fault, "give a low above zero, or another shape"))
		default:
			list = append(list, found(leaf.Path, fault, "give the value "+show(study, dim, chance.Middle(is))+", or another shape"))
		}
	})
	return list
}

// ranged lists by path the inputs that futures draw from a range.
func ranged(study *model.Study) (inputs map[string]int, paths []string) {
	inputs = map[string]int{}
	model.Walk(study, func(leaf model.Leaf) {
		if _, ok := chance.Ranged(study, leaf); ok {
			inputs[leaf.Path] = len(paths)
			paths = append(paths, leaf.Path)
		}
	})
	return inputs, paths
}

func correlationsTieRanges(study *model.Study) []problem.Problem {
	if len(study.Correlations) == 0 {
		return nil
	}
	var list []problem.Problem
	inputs, paths := ranged(study)
	for _, one := range study.Correlations {
		for _, end := range [...]struct{ key, path string }{{"a", one.A}, {"b", one.B}} {
			if _, ok := inputs[end.path]; !ok && end.path != "" {
				list = append(list, found("correlations."+one.Key+"."+end.key, fmt.Sprintf("is %q, which is no input that is drawn from a range", end.path), drawn(end.path, paths)))
			}
		}
	}
	return list
}

// drawn tells what a path that is drawn from no range could have been: hundreds
// are, so they are not all offered.
func drawn(path string, paths []string) string {
	if near, ok := problem.Nearest(path, paths); ok {
		return "did you mean \"" + near + "\"?"
	}
	return "name an input with low and high that the owner does not decide, such as studio.labour_rate"
}

func correlationsTieTwo(study *model.Study) []problem.Problem {
	var list []problem.Problem
	earlier := map[[2]string]string{}
	for _, one := range study.Correlations {
		path, pair := "correlations."+one.Key, [2]string{min(one.A, one.B), max(one.A, one.B)}
		switch first, twice := earlier[pair]; {
		case one.A == one.B:
			list = append(list, found(path+".b", fmt.Sprintf("is %q, as a is", one.B), "name another input"))
		case twice:
			list = append(list, found(path, "ties the inputs that correlations."+first+" ties", "keep one of them"))
		}
		earlier[pair] = one.Key
	}
	return list
}

func correlationsAgree(study *model.Study) []problem.Problem {
	inputs, _ := ranged(study)
	var list []chance.Correlation
	for _, one := range study.Correlations {
		a, knownA := inputs[one.A]
		b, knownB := inputs[one.B]
		if !knownA || !knownB || a == b {
			return nil // another rule tells that
		}
		list = append(list, chance.Correlation{A: a, B: b, Rho: float64(one.Rho)})
	}
	var contradiction *chance.Contradiction
	if _, err := chance.NewCopula(list); !errors.As(err, &contradiction) {
		return nil
	}
	name, last := "", ""
	for _, one := range study.Correlations {
		for _, path := range []string{one.A, one.B} {
			if inputs[path] == contradiction.Figure {
				name, last = path, one.Key
			}
		}
	}
	return []problem.Problem{found("correlations."+last+".rho", "cannot hold together with the others that tie "+name,
		"bring some of them nearer to 0: two inputs that go with a third go with each other")}
}
