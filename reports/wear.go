package reports

import (
	"math"
	"strings"

	"shopstint/model"
	"shopstint/model/quantity"
	"shopstint/model/wear"
	"shopstint/model/work"
)

// Wear is what edges and abrasives cost and what a year of them takes. Money is in
// Currency, before tax and at first-year prices.
type Wear struct {
	Currency         string
	Edges, Abrasives []WearItem
	Comparisons      []Comparison // ways of doing the same work; the caller adds them

	Title, InWords, Length, Area string // what it is about; the units of the figures in words
	Notes                        []string
	Caution                      string
}

// WearItem is an edge, by the metre, or an abrasive, by the square metre.
type WearItem struct {
	wear.Item

	Materials []WearMaterial
	Years     []WearYear

	EndsBySize       bool
	Cost, Dull, Span string // in words: of a unit; run until dull and from new to spent
	End              string // what ends its use
	MaterialsInWords string // "" where the study works nothing with it
}

// WearMaterial is an item in one of the study's materials.
type WearMaterial struct {
	Key string
	wear.InMaterial
}

// WearYear is a year of an item on one machine.
type WearYear struct {
	Path string // of the machine
	wear.Use

	Idle                                bool // nothing that the machine can take wears it
	Heading, Work, Spares, Time, Moment string
}

// WearOf words the wear of a study.
func WearOf(study *model.Study, result wear.Result, numbers Numbers) Wear {
	system, err := quantity.ParseSystem(study.Units)
	if err != nil {
		system = quantity.Metric
	}
	w := wearWording{wording{study: study, system: system, numbers: numbers}}
	out := Wear{
		Currency: study.Money.Code(), Title: "edges and abrasives of " + w.title(), Length: w.unit(true), Area: w.unit(false),
		InWords: "each is followed from new to spent in plain hardwood, with the damage that comes on the way; what a " + w.unit(true) + " or a " + w.unit(false) +
			" then costs is what the answer uses",
		Notes: wearNotes[:], Caution: EdgeCaution,
	}
	for i := range result.Edges {
		out.Edges = append(out.Edges, w.item(&result.Edges[i], true))
	}
	for i := range result.Abrasives {
		out.Abrasives = append(out.Abrasives, w.item(&result.Abrasives[i], false))
	}
	return out
}

// wearNotes are the doubts beside the figures.
var wearNotes = [...]string{
	"a year on a candidate is as if it alone were owned and did all that it can take; on a tool it is what the tool does when the rest is rented",
	"own time is one person's and stands beside the money: where a machine is owned, the answer has it in its own care, so add it to no answer",
	"feeds count as those of a sharp edge; what dullness takes is not in the answer, so a feed from a logbook may hold some of it already",
	"spare sets stand beside the one in the machine: with them fewer than one change in twenty waits for a set that is away",
	"running on beyond dull is judged by time and price alone; burns, chipped grain and the force that it takes are for the eye and the manual to judge",
}

// wearWording writes runs and costs of edges and of abrasives.
type wearWording struct{ wording }

// unit names what edges or abrasives are counted in.
func (w wearWording) unit(edge bool) string {
	name := "m²"
	if edge {
		name = "m"
	}
	if w.system == quantity.Inch {
		name = strings.NewReplacer("m", "ft").Replace(name)
	}
	return name
}

const metresInFoot = 0.3048

// size is how many metres or square metres the unit has.
func (w wearWording) size(edge bool) float64 {
	switch {
	case w.system != quantity.Inch:
		return 1
	case edge:
		return metresInFoot
	default:
		return metresInFoot * metresInFoot
	}
}

// run writes metres or square metres.
func (w wearWording) run(x float64, edge bool) string {
	return w.number(x/w.size(edge)) + " " + w.unit(edge)
}

func (w wearWording) item(item *wear.Item, edge bool) WearItem {
	out := WearItem{
		Item: *item, EndsBySize: item.Span.BySize, Cost: w.number(item.Cost * w.size(edge)), Dull: w.run(item.Full, edge), Span: w.run(item.Span.Run, edge),
		End: "one life",
	}
	out.Name = nameOr(item.Name, item.Key)
	if edge {
		out.End = w.counted(item.Span.Usable, "sharpening")
		if item.Span.BySize {
			out.End += ", by its size"
		}
	}
	var costs []string
	for _, one := range item.Materials {
		material := &w.study.Materials[one.Material]
		out.Materials = append(out.Materials, WearMaterial{material.Key, one})
		costs = append(costs, nameOr(material.Name, material.Key)+" "+w.number(one.Cost*w.size(edge)))
	}
	if len(costs) > 0 {
		out.MaterialsInWords = "in " + strings.Join(costs, ", ") + " a " + w.unit(edge)
	}
	for i := range item.Uses {
		out.Years = append(out.Years, w.year(&out, &item.Uses[i], edge))
	}
	return out
}

func (w wearWording) year(item *WearItem, use *wear.Use, edge bool) WearYear {
	out := WearYear{Path: use.Path(w.study), Use: *use, Idle: use.Plain == 0}
	out.Heading = item.Name + ", " + w.machine(use)
	out.Work = w.run(use.Run, edge) + " a year wear it like " + w.run(use.Plain, edge) + " of plain hardwood: " + w.number(use.New) + " new"
	if use.Sharpened > 0 {
		out.Work += " and " + w.counted(use.Sharpened, "sharpening")
	}
	out.Work += ", " + w.amount(use.Cost) + " a year"
	if use.Spares > 0 {
		out.Spares = "keep " + w.counted(float64(use.Spares), "spare set")
	}
	out.Time = "own time: " + w.number(use.ChangeTime) + " h a year for changes and " + w.number(use.DullTime) + " h lost to dullness, worth " + w.amount(use.ChangeCost+use.DullCost)
	out.Moment = w.moment(item, use, edge)
	return out
}

// moment says when to change an edge.
func (w wearWording) moment(item *WearItem, use *wear.Use, edge bool) string {
	dull := w.run(item.Full, edge)
	switch {
	case use.Saved > 0:
		return "change it after " + w.run(use.Best, edge) + ", before it is dull at " + dull + ": that saves " + w.amount(use.Saved) + " a year of money and time"
	case math.IsInf(use.Best, 1):
		return "change it when it is dull, after " + dull + "; time and price alone would have it run until damage comes"
	case use.Best > item.Full*(1+1e-9):
		return "change it when it is dull, after " + dull + "; time and price alone would have it run on to " + w.run(use.Best, edge)
	}
	return "change it when it is dull, after " + dull
}

// machine names the machine of a use.
func (w wearWording) machine(use *wear.Use) string {
	switch use.Site {
	case work.AtShop:
		shop := &w.study.Shops[use.Shop]
		machine := &shop.Machines[use.Machine]
		return nameOr(machine.Name, machine.Key) + " of " + nameOr(shop.Name, shop.Key)
	case work.AtBench:
		tool := &w.study.Tools[use.Machine]
		return nameOr(tool.Name, tool.Key)
	}
	machine := &w.study.Machines[use.Machine]
	return nameOr(machine.Name, machine.Key) + ", if owned"
}
