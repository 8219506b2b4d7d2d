package defaults

import (
	"fmt"

	"shopstint/model"
	"shopstint/model/quantity"
)

// addComparison gives a way the class of what it runs.
func addComparison(parts map[string]subject, study *model.Study, comparison *model.Comparison) {
	path := "comparisons." + comparison.Key
	parts[path] = subject{at: "comparisons"}
	for i := range comparison.Ways {
		parts[path+".ways."+comparison.Ways[i].Key] = subject{at: "comparisons.ways", class: classOfWay(study, comparison, &comparison.Ways[i])}
	}
}

// classOfWay is the class of the machine that runs the way's edge or abrasives.
// An edge that no machine runs, since it is only compared, goes by another way of
// the same work.
func classOfWay(study *model.Study, comparison *model.Comparison, way *model.Way) string {
	for _, key := range way.Abrasives {
		if abrasive, ok := model.Find(study.Abrasives, key); ok {
			return abrasive.Class
		}
	}
	machines := abilities(study)
	if class := edge(machines, way.Edge).class; way.Edge == "" || class != "" {
		return class
	}
	for i := range comparison.Ways {
		if class := edge(machines, comparison.Ways[i].Edge).class; comparison.Ways[i].Edge != "" && class != "" {
			return class
		}
	}
	return ""
}

// wayOf gives a way what follows from what it runs.
func (f *filling) wayOf(leaf model.Leaf) {
	comparison, ok := model.Find(f.study.Comparisons, keyAt(leaf.Path, 3))
	way, found := model.Find(comparison.Ways, keyAt(leaf.Path, 1))
	if !ok || !found {
		return
	}
	part, _ := f.partOf(leaf.Path)
	f.study.Origins[leaf.Path] = model.Origin{Assumed: true}
	switch leaf.Key() {
	case "feed":
		f.pace(leaf, part.class, way.Edge != "", 1)
	case "area_time":
		f.pace(leaf, part.class, len(way.Abrasives) > 0, float64(len(way.Abrasives))*float64(way.Passes))
	case "spares":
		f.spares(leaf, &way)
	case "yearly_upkeep":
		f.upkeepOf(leaf, part.class, &way)
	}
}

// pace is that of a machine of the class, times a number of passes; nothing for
// a way that runs nothing.
func (f *filling) pace(leaf model.Leaf, class string, runs bool, times float64) {
	source := "it runs nothing of that kind"
	entry, ok := f.find(subject{at: "any_machine", class: class}, leaf.Key())
	dim, measured := leaf.Dimension()
	if runs && ok && measured {
		typical, _, _ := entry.numbers(dim)
		leaf.SetNumber(typical * times)
		source = "as for a machine of class " + class + ": " + entry.Source
	}
	f.hold(leaf, source)
}

// spares are one edge where it is sent away to be sharpened, so that work goes on.
func (f *filling) spares(leaf model.Leaf, way *model.Way) {
	edge, ok := model.Find(f.study.Edges, way.Edge)
	source := "bought when one is spent"
	if ok && edge.Sharpenings > 0 && edge.SharpeningPrice > 0 {
		leaf.SetNumber(1)
		source = "one works while the other is away to be sharpened"
	}
	f.hold(leaf, source)
}

// upkeepOf is the usual share of the price.
func (f *filling) upkeepOf(leaf model.Leaf, class string, way *model.Way) {
	part := subject{at: "machines", class: class, when: func(string) string { return "new" }}
	entry, ok := f.find(part, "upkeep_share")
	if !ok {
		return
	}
	share, _, _ := entry.numbers(quantity.DimShare)
	leaf.SetNumber(share * float64(way.Price))
	f.hold(leaf, fmt.Sprintf("%.3g %% of its price: %s", 100*share, entry.Source))
}
