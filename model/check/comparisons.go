package check

import (
	"fmt"
	"iter"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

// ways runs over every way of every comparison.
func ways(study *model.Study) iter.Seq2[string, compared] {
	return func(yield func(string, compared) bool) {
		for c := range study.Comparisons {
			comparison := &study.Comparisons[c]
			for w := range comparison.Ways {
				path := "comparisons." + comparison.Key + ".ways." + comparison.Ways[w].Key
				if !yield(path, compared{comparison, &comparison.Ways[w]}) {
					return
				}
			}
		}
	}
}

// compared is a way with the comparison it belongs to.
type compared struct {
	of *model.Comparison
	*model.Way
}

func workIsCounted(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for _, one := range study.Comparisons {
		path := "comparisons." + one.Key
		switch {
		case one.YearlyLength > 0 && one.YearlyArea > 0:
			list = append(list, found(path+".yearly_area", "is given and yearly_length as well, and the work is counted by one of them", "take one of them out"))
		case one.YearlyLength == 0 && one.YearlyArea == 0:
			list = append(list, problem.Problem{Path: path, What: path + " does not say how much work a year brings",
				Right: "give yearly_length, such as 300 m, or yearly_area, such as 200 m²"})
		case one.ByArea() && one.PieceLength > 0:
			list = append(list, countedOtherwise(path+".piece_length", "area", "piece_area"))
		case !one.ByArea() && one.PieceArea > 0:
			list = append(list, countedOtherwise(path+".piece_area", "length", "piece_length"))
		}
	}
	return list
}

func countedOtherwise(path, counted, instead string) problem.Problem {
	return found(path, "is given, and the work is counted by "+counted, "give "+instead)
}

func waysAreSeveral(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for _, one := range study.Comparisons {
		if len(one.Ways) == 1 {
			list = append(list, found("comparisons."+one.Key+".ways", "has one way", "give at least two, or take the comparison out"))
		}
	}
	return list
}

func waysRunTheirKind(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, way := range ways(study) {
		switch {
		case way.of.Amount() == 0 || way.of.YearlyLength > 0 && way.of.YearlyArea > 0: // another rule's
		case way.of.ByArea() && way.Edge != "":
			list = append(list, countedOtherwise(path+".edge", "area", "abrasives, or count the work by length"))
		case way.of.ByArea() && way.Feed > 0 && !assumed(study, path+".feed"):
			list = append(list, countedOtherwise(path+".feed", "area", "area_time"))
		case !way.of.ByArea() && len(way.Abrasives) > 0:
			list = append(list, countedOtherwise(path+".abrasives", "length", "edge, or count the work by area"))
		case !way.of.ByArea() && way.AreaTime > 0 && !assumed(study, path+".area_time"):
			list = append(list, countedOtherwise(path+".area_time", "length", "feed"))
		}
	}
	return list
}

func waysHaveAPace(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, way := range ways(study) {
		if way.PieceTime > 0 {
			continue
		}
		if !way.of.ByArea() && way.Edge != "" && way.Feed <= 0 {
			list = append(list, paceless(study, path+".feed", quantity.DimSpeed))
		}
		if way.of.ByArea() && len(way.Abrasives) > 0 && way.AreaTime <= 0 {
			list = append(list, paceless(study, path+".area_time", quantity.DimAreaTime))
		}
	}
	return list
}

func paceless(study *model.Study, path string, dim quantity.Dimension) problem.Problem {
	return found(path, fmt.Sprintf("is %s, and the way takes no time for a piece either", show(study, dim, 0)), "give more than zero, such as "+dim.Example())
}

func piecesHaveSize(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, way := range ways(study) {
		if !way.NeedsPiece() || way.of.Piece() > 0 || way.of.Amount() == 0 {
			continue
		}
		key, size := ".piece_time", "piece_length"
		if way.PieceTime == 0 {
			key = ".rework_share"
		}
		if way.of.ByArea() {
			size = "piece_area"
		}
		list = append(list, found(path+key, "is counted by the piece, and the comparison has no size of piece", "give "+size+" in comparisons."+way.of.Key))
	}
	return list
}

func waysBuyOnce(study *model.Study) []problem.Problem {
	var list []problem.Problem
	for path, way := range ways(study) {
		if way.Machine == "" {
			continue
		}
		for _, own := range []struct {
			key    string
			amount quantity.Money
		}{{".price", way.Price}, {".resale", way.Resale}, {".yearly_upkeep", way.YearlyUpkeep}} {
			if own.amount > 0 && !assumed(study, path+own.key) {
				list = append(list, found(path+own.key, "is given beside machine: "+way.Machine+", which has its own", "take one of the two out"))
			}
		}
	}
	return list
}
