package check

import (
	"fmt"
	"slices"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

var (
	facePasses = []string{model.Planer, model.WideBelt}
	lineCuts   = []string{model.PanelSaw, model.TrackSaw, model.Router}
	overFaces  = []string{model.RouterSled, model.Orbital}
)

// fed tells whether the minutes of a class come from its feed speed.
func fed(class string) bool {
	return slices.Contains(facePasses, class) || slices.Contains(lineCuts, class)
}

func fedMachinesFeed(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, ability := range abilities(study) {
		if fed(ability.Class) && ability.Feed <= 0 {
			list = append(list, zero(study, path, "feed", ability.Class, quantity.DimSpeed, "6 m/min or 20 ft/min"))
		}
	}
	return list
}

func fedMachinesTakeDepth(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, ability := range abilities(study) {
		if fed(ability.Class) && ability.DepthPerPass <= 0 {
			list = append(list, zero(study, path, "depth_per_pass", ability.Class, quantity.DimLength, "2 mm or 1/16 in"))
		}
	}
	return list
}

func movedMachinesTakeTime(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, ability := range abilities(study) {
		if slices.Contains(overFaces, ability.Class) && ability.AreaTime <= 0 {
			list = append(list, zero(study, path, "area_time", ability.Class, quantity.DimAreaTime, "4 min/m² or 0.4 min/ft²"))
		}
	}
	return list
}

// zero reports an input of zero from which the minutes of a class are reckoned.
func zero(study *model.Study, path, key, class string, dim quantity.Dimension, example string) problem.Problem {
	return found(path+"."+key, fmt.Sprintf("is %s, and the minutes of class %s come from it", show(study, dim, 0), class),
		"give more than zero, such as "+example)
}

func knifeMarksComplete(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, ability := range abilities(study) {
		speed, knives := path+".head_speed", path+".knives"
		if ability.HeadSpeed > 0 && ability.Knives == 0 && !assumed(study, speed) {
			list = append(list, found(speed, "is given and knives is 0", "give knives as well, or neither"))
		}
		if ability.Knives > 0 && ability.HeadSpeed == 0 && !assumed(study, knives) {
			list = append(list, found(knives, "is given and head_speed is 0 rpm", "give head_speed as well, or neither"))
		}
	}
	return list
}

func candidatesDoWork(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, candidate := range candidates(study) {
		if len(candidate.Does) == 0 {
			list = append(list, found(path+".does", "is empty",
				"name the classes of work it takes over: "+words(model.Classes)+"; or leave does out for its own class"))
		}
	}
	return list
}

// candidatesDoTheirKind: a saw cannot be timed over a face, nor a planer along cuts.
func candidatesDoTheirKind(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, candidate := range candidates(study) {
		for _, class := range candidate.Does {
			if class != model.Other && candidate.Class != model.Other && kindOf(class) != kindOf(candidate.Class) {
				list = append(list, found(path+".does", fmt.Sprintf("has %s, and a %s works %s", class, candidate.Class, kindOf(candidate.Class)),
					"name classes that work "+kindOf(candidate.Class)+", or give this work as class other with measured minutes"))
			}
		}
	}
	return list
}

// othersAreMeasured: class other has no geometry, so that work it took over
// would cost no minutes.
func othersAreMeasured(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, candidate := range candidates(study) {
		for _, class := range candidate.Does {
			if candidate.Class == model.Other && class != model.Other && reckoned(study, class) {
				list = append(list, found(path+".does", fmt.Sprintf("has %s, and class other has no geometry to reckon its minutes from", class),
					"say what class of machine it is, or give measured minutes for that work"))
			}
		}
	}
	return list
}

// reckoned tells whether the minutes of a class of work come from its geometry.
func reckoned(study *model.Study, class string) bool {
	for _, o := range operations(study) {
		if o.Class == class && o.geometry() {
			return true
		}
	}
	return false
}

func kindOf(class string) string {
	if slices.Contains(lineCuts, class) {
		return "along cuts"
	}
	return "over faces"
}
