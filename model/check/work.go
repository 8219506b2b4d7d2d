package check

import (
	"fmt"
	"slices"
	"strconv"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

func sandingHasGrits(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		if o.geometry() && o.needs(model.WideBelt, model.Orbital) && len(o.Grits) == 0 {
			list = append(list, found(path+".grits", "is missing, and sanding goes grit by grit",
				"give grits with what each takes off, such as {80: 0.6 mm, 120: 0.1 mm}, or measured minutes"))
		}
	}
	return list
}

func planingHasStock(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		if o.geometry() && o.needs(model.Planer, model.RouterSled) && o.Stock <= 0 && len(o.Grits) == 0 {
			list = append(list, found(path+".stock", "is missing or zero, and the passes come from it",
				"give the thickness to take off each face, such as 3 mm, or measured minutes"))
		}
	}
	return list
}

func sawingHasCuts(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		if !o.geometry() || !o.needs(lineCuts...) {
			continue
		}
		if o.CutLength <= 0 {
			list = append(list, found(path+".cut_length", "is missing or zero, and the minutes come from it", "give the length of one cut, such as 2.4 m or 8 ft, or measured minutes"))
		}
		if o.Cuts <= 0 {
			list = append(list, found(path+".cuts", "is missing or zero, and the minutes come from it", "give the number of cuts on each piece, such as 2, or measured minutes"))
		}
	}
	return list
}

func otherIsMeasured(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		if o.geometry() && o.needs(model.Other) {
			list = append(list, found(path+".measured", "is missing or zero, and class other has no geometry to reckon from", "give the measured time for each piece, such as 12 min"))
		}
	}
	return list
}

func gritsRunFine(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		for i := 1; i < len(o.Grits); i++ {
			if before, now := gritNumber(o.Grits[i-1]), gritNumber(o.Grits[i]); now <= before {
				list = append(list, found(path+".grits."+o.Grits[i].Key, fmt.Sprintf("comes after grit %d", before), "write the grits from coarse to fine"))
			}
		}
	}
	return list
}

func gritNumber(grit model.Grit) int {
	number, err := strconv.Atoi(grit.Key)
	if err != nil {
		return 0 // readers take digits only; a study made otherwise sorts it first
	}
	return number
}

func gritsHaveAbrasives(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		for _, class := range []string{model.WideBelt, model.Orbital} {
			if o.geometry() && o.needs(class) {
				list = append(list, gritsWithout(study, path, class, o.Grits)...)
			}
		}
	}
	return list
}

func gritsWithout(study *model.Study, path, class string, grits []model.Grit) []problem.Problem {
	var list []problem.Problem
	for _, grit := range grits {
		known := slices.ContainsFunc(study.Abrasives, func(a model.Abrasive) bool {
			return a.Class == class && !a.OnlyCompared && int(a.Grit) == gritNumber(grit)
		})
		if !known {
			list = append(list, found(path+".grits."+grit.Key, fmt.Sprintf("has no abrasive of grit %s for class %s", grit.Key, class),
				fmt.Sprintf("add one under abrasives with class: %s and grit: %s", class, grit.Key)))
		}
	}
	return list
}

func pieceRemains(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, o := range operations(study) {
		off := float64(removed(o)) * float64(o.Faces)
		for _, piece := range o.job.Pieces {
			works := o.Piece == "" || o.Piece == piece.Key
			if works && o.geometry() && !o.needs(lineCuts...) && off > 0 && off >= float64(piece.Thickness) {
				list = append(list, problem.Problem{Path: path, What: fmt.Sprintf("%s takes %s off the faces of %s, which is %s thick", path,
					show(study, quantity.DimLength, off), piece.Key, show(study, quantity.DimLength, float64(piece.Thickness))),
					Right: "take off less than the thickness"})
			}
		}
	}
	return list
}

// removed is the thickness an operation takes off each face: grit by grit where
// it has grits, else its stock.
func removed(o operation) quantity.Length {
	if len(o.Grits) == 0 {
		return o.Stock
	}
	var sum quantity.Length
	for _, grit := range o.Grits {
		sum += grit.Stock
	}
	return sum
}

func reworkRepeats(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for _, job := range study.JobTypes {
		path := "job_types." + job.Key + ".rework_chance"
		repeats := slices.ContainsFunc(job.Operations, func(o model.Operation) bool { return o.Repeat })
		if job.ReworkChance > 0 && !assumed(study, path) && !repeats && job.ReworkVisits == 0 {
			list = append(list, found(path, "is "+show(study, quantity.DimShare, float64(job.ReworkChance))+", and no operation is repeated and no visit is needed",
				"say repeat: yes on an operation, or leave rework_chance out"))
		}
	}
	return list
}
