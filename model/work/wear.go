package work

import (
	"math"
	"strconv"

	"shopstint/model"
)

// EdgeCost returns what a metre of cut in plain hardwood costs: a new edge and
// all its sharpenings over all the metres they give, each sharpening giving
// less than the one before.
//
// Source: common practice, no source.
func EdgeCost(edge *model.Edge) float64 {
	times := float64(edge.Sharpenings)
	cost := float64(edge.Price) + times*(float64(edge.SharpeningPrice)+float64(edge.Errand))
	return cost / (float64(edge.Life) * lives(times, float64(edge.LifeLost)))
}

// lives sums the geometric series of lives: 1 + (1−loss) + (1−loss)² + …
func lives(sharpenings, loss float64) float64 {
	if loss == 0 {
		return sharpenings + 1
	}
	return (1 - math.Pow(1-loss, sharpenings+1)) / loss
}

// AbrasiveCost returns what a square metre passed in plain hardwood costs.
//
// Source: common practice, no source.
func AbrasiveCost(abrasive *model.Abrasive) float64 {
	return float64(abrasive.Price) / float64(abrasive.Life)
}

// FindAbrasive returns the abrasive of a class and grit.
func FindAbrasive(study *model.Study, class, grit string) (*model.Abrasive, bool) {
	for i := range study.Abrasives {
		abrasive := &study.Abrasives[i]
		if abrasive.Class == class && strconv.Itoa(int(abrasive.Grit)) == grit {
			return abrasive, true
		}
	}
	return nil, false
}

// wearCost prices a row's wear where the studio pays for it. A sanding step
// wears its abrasive; every other step wears the machine's edge.
func wearCost(study *model.Study, ability *model.Ability, material *model.Material, row *Row) float64 {
	if ability.Consumables != "own" {
		return 0
	}
	if row.Grit >= 0 {
		grit := study.JobTypes[row.Job].Operations[row.Operation].Grits[row.Grit].Key
		if abrasive, ok := FindAbrasive(study, ability.Class, grit); ok {
			return row.Area * AbrasiveCost(abrasive) / float64(material.AbrasiveLife)
		}
		return 0
	}
	if edge, ok := model.Find(study.Edges, ability.Edge); ok {
		return row.Metres * EdgeCost(&edge) / float64(material.EdgeLife)
	}
	return 0
}
