// Package wear says what every edge and abrasive of a study costs by the metre
// and the square metre, and what a year of it takes: new ones, sharpenings, spare
// sets, and the owner's time for changes and for working with what grows dull.
package wear

import (
	"math"

	"shopstint/model"
	"shopstint/model/wear/change"
	"shopstint/model/work"
)

// Result is every edge and abrasive of a study, in the study's order.
type Result struct{ Edges, Abrasives []Item }

// Item is an edge, measured in metres run, or an abrasive, in square metres
// passed. Money is in the study's currency and of the first year.
type Item struct {
	Key, Name string
	Price     float64       // of a new one
	Life      float64       // run until dull when new, in plain hardwood
	Sound     float64       // share that can be sharpened again after a life; 0 of an abrasive
	Span      work.EdgeSpan // from new to spent; an abrasive has one life
	Cost      float64       // by the unit in plain hardwood: what the decision uses
	Full      float64       // run of a mean life until dull, in plain hardwood
	Mean      float64       // the same with what damage takes away
	Sudden    float64       // share of lives that end by damage
	Rate      float64       // how often damage comes by the unit of run, in plain hardwood

	Materials []InMaterial
	Uses      []Use
}

// InMaterial is an item in one of the materials that the study works with it.
type InMaterial struct {
	Material int     // index in the study
	Full     float64 // run of a mean life until dull
	Cost     float64 // by the unit
}

// Use is a year of an item on one machine: on a candidate as if that machine
// alone were owned, elsewhere as work is done when all else is rented.
type Use struct {
	Site    work.Site
	Shop    int // index of the shop, AtShop
	Machine int // index in the shop's machines, the tools or the candidates

	Run   float64 // m or m² a year
	Plain float64 // the same as it wears: in plain hardwood
	Hours float64 // in which it cuts or rubs, with the feeds of the study

	New, Sharpened, Changes float64 // a year
	Cost                    float64 // money a year: new ones and sharpenings
	ChangeTime, ChangeCost  float64 // own hours a year to change it, and their worth
	DullTime, DullCost      float64 // own hours a year that dullness takes more, and their worth
	Spares                  int     // beside the one in the machine, so that work seldom waits
	Away                    float64 // mean number away for sharpening

	Change float64 // what one change costs: a mean share of the item and own time
	Rise   float64 // by how much each unit of run makes the next one dearer by dullness
	Best   float64 // run after which a change costs least, in plain hardwood; +Inf: when damage comes
	Saved  float64 // money and own time a year where sooner than dull is best
}

// Of reckons all edges and abrasives of a study on its plan.
func Of(study *model.Study, plan *work.Plan) Result {
	loads := loadsOf(study, plan)
	var result Result
	for i := range study.Edges {
		result.Edges = append(result.Edges, edge(study, &study.Edges[i], loads[&study.Edges[i]]))
	}
	for i := range study.Abrasives {
		result.Abrasives = append(result.Abrasives, abrasive(study, &study.Abrasives[i], loads[&study.Abrasives[i]]))
	}
	return result
}

// habits are what an item asks of its owner, whatever it is.
type habits struct {
	changeHours, turnaround, dullFeed, labour float64
}

func edge(study *model.Study, edge *model.Edge, loads []load) Item {
	span := work.SpanOf(edge)
	item := Item{
		Key: edge.Key, Name: edge.Name, Price: float64(edge.Price), Life: float64(edge.Life), Sound: work.Sound(edge), Span: span, Cost: work.EdgeCost(edge), Sudden: float64(edge.SuddenShare),
		Full: float64(edge.Life) * span.Lives / (1 + span.Sharpened),
	}
	item.fill(study, loads, habits{edge.ChangeTime.Hours(), float64(edge.Turnaround), float64(edge.DullFeed), float64(study.Studio.LabourRate)},
		func(material *model.Material) float64 { return float64(material.EdgeLife) })
	return item
}

func abrasive(study *model.Study, abrasive *model.Abrasive, loads []load) Item {
	item := Item{
		Key: abrasive.Key, Name: abrasive.Name, Price: float64(abrasive.Price), Life: float64(abrasive.Life), Cost: work.AbrasiveCost(abrasive), Sudden: float64(abrasive.SuddenShare), Full: float64(abrasive.Life),
		Span: work.EdgeSpan{Lives: 1, Run: work.AbrasiveRun(abrasive), Cost: float64(abrasive.Price)},
	}
	item.fill(study, loads, habits{changeHours: abrasive.ChangeTime.Hours(), dullFeed: float64(abrasive.DullFeed), labour: float64(study.Studio.LabourRate)},
		func(material *model.Material) float64 { return float64(material.AbrasiveLife) })
	return item
}

func (item *Item) fill(study *model.Study, loads []load, habits habits, life func(*model.Material) float64) {
	item.Mean = item.Full * work.Kept(item.Sudden)
	item.Rate = Rate(item.Sudden, item.Full)
	for m := range study.Materials {
		factor := life(&study.Materials[m])
		if worksIn(loads, m) {
			item.Materials = append(item.Materials, InMaterial{m, item.Full * factor, item.Cost / factor})
		}
	}
	for i := range loads {
		item.Uses = append(item.Uses, item.use(&loads[i], habits))
	}
}

// Rate returns how often damage comes by the unit of run, when the share of lives
// that it ends before a full run is 1 − exp(−rate × full).
//
// Source: the exponential distribution, as in work.Kept.
func Rate(share, full float64) float64 { return -math.Log1p(-share) / full }

func worksIn(loads []load, material int) bool {
	for i := range loads {
		if loads[i].materials[material] {
			return true
		}
	}
	return false
}

// use follows an item through a year on one machine. Dullness grows evenly from
// none to the feed that is lost at the end of a life, and on behind it. The time
// of one person counts. Where dullness takes no time, it is changed when dull.
//
// Source: common practice, no source; the run to change after by change.Best.
func (item *Item) use(load *load, habits habits) Use {
	use := load.Use
	use.New = use.Plain / item.Span.Run
	use.Sharpened = use.New * item.Span.Sharpened
	use.Changes = use.New + use.Sharpened
	use.Cost = use.New * item.Span.Cost
	use.ChangeTime = use.Changes * habits.changeHours
	use.ChangeCost = use.ChangeTime * habits.labour
	use.Away = use.Sharpened * habits.turnaround / daysInYear
	use.Spares = Spares(use.Away)
	use.Change = item.Span.Cost/(1+item.Span.Sharpened) + habits.changeHours*habits.labour
	use.Best = item.Full
	if use.Plain == 0 {
		return use
	}
	// A sharp edge takes Hours ÷ Plain for each unit, a dull one that much ÷ (1 − share lost).
	slower := use.Hours / use.Plain * habits.dullFeed / (1 - habits.dullFeed) / item.Full
	life := change.Sudden(item.Rate)
	use.DullTime = use.Plain * change.Rate(change.Costs{Rise: slower}, life, item.Full)
	use.DullCost = use.DullTime * habits.labour
	use.Rise = slower * habits.labour
	costs := change.Costs{Change: use.Change, Rise: use.Rise}
	if use.Rise > 0 {
		use.Best = change.Best(costs, life)
	}
	if use.Best < item.Full {
		use.Saved = use.Plain * (change.Rate(costs, life, item.Full) - change.Rate(costs, life, use.Best))
	}
	return use
}
