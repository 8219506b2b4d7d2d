package studygen

import (
	"slices"

	"shopstint/model"
)

// wearInputs are drawn after all others, so that the rest of a seed's study
// does not hang on how many of them there are.
var wearInputs = []string{
	"edges.size_lost", "edges.size_spare", "edges.sudden_share", "edges.damage_spends", "edges.turnaround", "edges.change_time", "edges.dull_feed",
	"abrasives.sudden_share", "abrasives.change_time", "abrasives.dull_feed",
}

func isWear(path string) bool { return slices.Contains(wearInputs, Stem(path)) }

// wear draws how edges and abrasives end, and now and then adds an abrasive that
// is only compared with the one of its grit.
func (d *dice) wear() {
	if first := d.study.Abrasives[0]; d.chance(0.3) {
		path := "abrasives.compared"
		d.study.Abrasives = append(d.study.Abrasives, model.Abrasive{Key: "compared", Class: first.Class, Grit: first.Grit, OnlyCompared: true})
		for _, field := range []string{".class", ".grit", ".only_compared"} {
			d.frame[path+field], d.given[path+field] = true, true
		}
	}
	d.fill()
	model.Walk(d.study, func(leaf model.Leaf) {
		if isWear(leaf.Path) {
			d.draw(leaf)
		}
	})
}
