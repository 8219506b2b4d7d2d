// Package studygen makes studies for tests: valid, filled and varied, the same
// for the same seed. Only tests import it.
package studygen

import (
	"math/rand/v2"

	"shopstint/model"
	"shopstint/model/defaults"
	"shopstint/model/quantity"
)

// Study returns the study of a seed: every input has a value within its limits,
// the rules of a whole study hold, and every step can be rented or done with an
// own tool. Two in three studies leave some inputs to their assumed values; all
// have ranges on some.
func Study(seed uint64) *model.Study {
	d := &dice{
		rng:    rand.New(rand.NewPCG(seed, 0x5eed)),
		study:  &model.Study{},
		ranges: map[string]model.Origin{},
		frame:  map[string]bool{},
		given:  map[string]bool{},
	}
	d.say = pick(d, 1, 0.8, 0.5)
	d.bench = d.chance(0.8)
	d.members()
	model.Walk(d.study, func(leaf model.Leaf) {
		d.frame[leaf.Path] = !leaf.Value.IsZero()
		d.given[leaf.Path] = d.frame[leaf.Path]
	})
	d.fill()
	model.Walk(d.study, func(leaf model.Leaf) {
		if !isWear(leaf.Path) {
			d.draw(leaf)
		}
	})
	d.settle()
	d.fill()
	d.house()
	d.wear()
	d.compare()
	d.fill()
	if seed%3 == 0 {
		d.correlate()
	}
	return d.study
}

// correlate ties the first two inputs that are drawn from a given range.
func (d *dice) correlate() {
	var paths []string
	model.Walk(d.study, func(leaf model.Leaf) {
		if _, given := d.ranges[leaf.Path]; given && len(paths) < 2 && !leaf.Has("chosen") && !leaf.Has("fixed") && d.study.Origins[leaf.Path].Low < d.study.Origins[leaf.Path].High {
			paths = append(paths, leaf.Path)
		}
	})
	if len(paths) == 2 {
		d.study.Correlations = []model.Correlation{{Key: "pair", A: paths[0], B: paths[1], Rho: -0.6}}
	}
}

// Studies returns the studies of the seeds from 0, in their order: the index of
// a study is its seed.
func Studies(count int) []*model.Study {
	list := make([]*model.Study, count)
	for seed := range list {
		list[seed] = Study(uint64(seed))
	}
	return list
}

// dice is one study in the making.
type dice struct {
	rng    *rand.Rand
	study  *model.Study
	system quantity.System
	say    float64                 // chance that an input is given
	bench  bool                    // whether the studio has tools of its own
	ranges map[string]model.Origin // of given inputs
	frame  map[string]bool         // inputs that the shape of the study fixes
	given  map[string]bool         // inputs that are not left to their assumed values
}

// fill gives the inputs that are left out their assumed values, which follow
// from the given ones: it runs again, from nothing, whenever those have changed.
func (d *dice) fill() {
	model.Walk(d.study, func(leaf model.Leaf) {
		if !d.given[leaf.Path] {
			leaf.Value.SetZero()
		}
	})
	d.study.Origins = map[string]model.Origin{}
	for path, origin := range d.ranges {
		d.study.Origins[path] = origin
	}
	defaults.Fill(d.study, func(path string) bool { return d.given[path] })
}

// chance is true as often as the share says.
func (d *dice) chance(share float64) bool { return d.rng.Float64() < share }

// between returns a whole number from least to most.
func (d *dice) between(least, most int) int { return least + d.rng.IntN(most-least+1) }

func pick[T any](d *dice, list ...T) T { return list[d.rng.IntN(len(list))] }

// some returns a part of the list, in its order.
func some[T any](d *dice, share float64, list ...T) []T {
	var part []T
	for _, one := range list {
		if d.chance(share) {
			part = append(part, one)
		}
	}
	return part
}
