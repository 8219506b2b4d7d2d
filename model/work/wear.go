package work

import (
	"math"
	"strconv"

	"shopstint/model"
)

// EdgeSpan is what an edge gives and costs from new to spent, as expected before
// it is known when damage ends a life. Lives count in whole ones: one that a
// sharpening shortened to 90 % is 0.9 of a life.
type EdgeSpan struct {
	Usable    float64 // sharpenings that its number and its size allow
	BySize    bool    // whether its size allows fewer than its number
	Sharpened float64 // sharpenings that it has before it is spent
	Lives     float64 // lives that run until dull, before damage shortens them
	Run       float64 // m from new to spent, in plain hardwood
	Cost      float64 // a new edge and its sharpenings with their errands
}

// SpanOf follows an edge from new to spent. After each life it is sharpened if
// its number and size allow and damage has not spent it.
//
// Source: common practice, no source; the run of a life by Kept.
func SpanOf(edge *model.Edge) EdgeSpan {
	span := EdgeSpan{Usable: float64(edge.Sharpenings)}
	if edge.SizeLost > 0 && edge.SizeSpare > 0 {
		bySize := math.Floor(math.Round(float64(edge.SizeSpare)/float64(edge.SizeLost)*1e6) / 1e6)
		span.BySize = bySize < span.Usable
		span.Usable = math.Min(bySize, span.Usable)
	}
	sound := Sound(edge)
	span.Sharpened = sound * series(sound, span.Usable-1)
	span.Lives = series(sound*(1-float64(edge.LifeLost)), span.Usable)
	span.Run = float64(edge.Life) * span.Lives * Kept(float64(edge.SuddenShare))
	span.Cost = float64(edge.Price) + span.Sharpened*(float64(edge.SharpeningPrice)+float64(edge.Errand))
	return span
}

// Sound returns the share of edges that can be sharpened again after a life.
func Sound(edge *model.Edge) float64 {
	return 1 - float64(edge.SuddenShare)*float64(edge.DamageSpends)
}

// series is 1 + ratio + ratio² + … up to the given power; 0 below power 0.
func series(ratio, power float64) float64 {
	if ratio == 1 {
		return power + 1
	}
	return (1 - math.Pow(ratio, power+1)) / (1 - ratio)
}

// almostNone is a share below which half of it is what damage takes, to the last
// digits; a logarithm of so little has fewer.
const almostNone = 1e-6

// Kept returns what remains of the run to dullness when the given share of lives
// ends sooner, by damage that comes at random and has no memory: at a rate r
// over the run L the share is 1 − exp(−r·L) and the mean run (1 − exp(−r·L))/r.
//
// Source: mean of an exponential variable cut off at L; Barlow and Proschan,
// Mathematical Theory of Reliability (1965), chapter 4, age replacement.
func Kept(suddenShare float64) float64 {
	if suddenShare < almostNone {
		return 1 - suddenShare/2
	}
	return -suddenShare / math.Log1p(-suddenShare)
}

// EdgeCost returns what a metre of cut in plain hardwood costs: a new edge and
// its sharpenings over all the metres that they give.
func EdgeCost(edge *model.Edge) float64 {
	span := SpanOf(edge)
	return span.Cost / span.Run
}

// AbrasiveRun returns the square metres that one passes in plain hardwood until
// it is spent or damaged.
func AbrasiveRun(abrasive *model.Abrasive) float64 {
	return float64(abrasive.Life) * Kept(float64(abrasive.SuddenShare))
}

// AbrasiveCost returns what a square metre passed in plain hardwood costs.
func AbrasiveCost(abrasive *model.Abrasive) float64 {
	return float64(abrasive.Price) / AbrasiveRun(abrasive)
}

// FindAbrasive returns the abrasive of a class and grit that steps run: the first
// that is not only compared.
func FindAbrasive(study *model.Study, class, grit string) (*model.Abrasive, bool) {
	for i := range study.Abrasives {
		abrasive := &study.Abrasives[i]
		if abrasive.Class == class && !abrasive.OnlyCompared && strconv.Itoa(int(abrasive.Grit)) == grit {
			return abrasive, true
		}
	}
	return nil, false
}

// Wears returns what a row wears: the abrasive of its grit, or the machine's edge.
// Both are nil where it wears none, or where the shop's rate pays for it.
func (r Row) Wears(study *model.Study) (*model.Edge, *model.Abrasive) {
	ability := r.Ability(study)
	if ability.Consumables != "own" {
		return nil, nil
	}
	if r.Grit >= 0 {
		grit := study.JobTypes[r.Job].Operations[r.Operation].Grits[r.Grit].Key
		abrasive, _ := FindAbrasive(study, ability.Class, grit)
		return nil, abrasive
	}
	if i := model.Index(study.Edges, ability.Edge); i >= 0 {
		return &study.Edges[i], nil
	}
	return nil, nil
}

// Worn returns how far a row runs what it wears, in metres, or m² for an abrasive,
// and what its material makes of a life in plain hardwood.
func (r Row) Worn(study *model.Study) (run, life float64) {
	material := MaterialOf(study, r.Job)
	if r.Grit >= 0 {
		return r.Area, float64(material.AbrasiveLife)
	}
	return r.Metres, float64(material.EdgeLife)
}

// wearCost prices a row's wear where the studio pays for it.
func wearCost(study *model.Study, row *Row) float64 {
	run, life := row.Worn(study)
	switch edge, abrasive := row.Wears(study); {
	case edge != nil:
		return run * EdgeCost(edge) / life
	case abrasive != nil:
		return run * AbrasiveCost(abrasive) / life
	}
	return 0
}
