// Package study reads a study from YAML, strictly: every key is known, every
// value has its unit and lies within its limits, and every problem is reported
// in one run with the line and column where it stands.
//
// The keys, limits and words come from the tags of package model; nothing here
// knows the name of an input, save the two that change how others are read
// (units and currency).
package study

import (
	"maps"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"shopstint/model"
	"shopstint/model/check"
	"shopstint/model/defaults"
	"shopstint/model/money"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

// Places tells where each given path stands: a value by its own place, a
// mapping or a list by its key. Paths that were not given are absent.
type Places map[string]problem.Place

// At is where a path stands, or the nearest given thing around it; false where
// nothing of it was given.
func (p Places) At(path string) (problem.Place, bool) {
	for ; path != ""; path = path[:max(0, strings.LastIndexByte(path, '.'))] {
		if place, ok := p[path]; ok {
			return place, true
		}
	}
	return problem.Place{}, false
}

// Load reads a study, fills in what it does not say and checks it as a whole.
// Name is the file's name in the problems. With any problem the study is nil,
// the list is sorted, and each problem lies within the file; the places are
// those of what was given. Load never fails in any other way.
func Load(name string, src []byte) (*model.Study, Places, problem.List) {
	r := newReader(name)
	study := r.load(src)
	if len(r.problems) > 0 {
		return nil, r.places, r.problems.Sorted()
	}
	return study, r.places, nil
}

// load returns what could be read, filled in and checked, or nil where the file
// holds nothing to read.
func (r *reader) load(src []byte) *model.Study {
	root := r.document(src)
	if root == nil {
		return nil
	}
	return r.finish(root)
}

// finish reads the tree, fills in what it does not say and checks the whole.
func (r *reader) finish(root *yaml.Node) *model.Study {
	study := r.study(root)
	for _, path := range r.assumed {
		origin := study.Origins[path]
		origin.Assumed = true
		study.Origins[path] = origin
	}
	defaults.Fill(study, r.given)
	if r.known != nil {
		r.known(study)
	}
	for _, found := range check.Without(study, slices.Sorted(maps.Keys(r.unread))) {
		r.found(found)
	}
	if len(r.problems) == 0 {
		for _, found := range check.Fits(study) {
			r.found(found)
		}
	}
	return study
}

// found keeps a problem of the study as a whole, with its place in the file.
func (r *reader) found(found problem.Problem) {
	found.Place = r.placeOf(found.Path)
	r.problems = append(r.problems, found)
}

// study reads the whole mapping; units and currency first, since they say how
// the rest is to be understood and shown.
func (r *reader) study(root *yaml.Node) *model.Study {
	study := &model.Study{Origins: r.origins}
	r.system, _ = quantity.ParseSystem(scalarUnder(root, "units"))
	if currency, err := money.ParseCurrency(scalarUnder(root, "currency")); err == nil {
		r.currency = currency.Code()
	}
	r.structure("", root, root, structOf(study))
	study.Money = r.money
	return study
}

// scalarUnder returns the text of a key of the mapping, "" without.
func scalarUnder(mapping *yaml.Node, key string) string {
	for i := 0; i < len(mapping.Content); i += 2 {
		if mapping.Content[i].Value == key && mapping.Content[i+1].Kind == yaml.ScalarNode {
			return mapping.Content[i+1].Value
		}
	}
	return ""
}
