package study

import (
	"go.yaml.in/yaml/v3"

	"shopstint/model"
	"shopstint/model/money"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

// reader collects what one file gives and what is wrong with it.
type reader struct {
	file     string
	system   quantity.System
	currency string // "" when there is none that can be read
	money    money.Currency
	places   Places
	origins  map[string]model.Origin
	unread   paths                        // paths that were meant but could not be read
	refused  map[*yaml.Node]bool          // nodes already reported, not to be looked into
	cells    map[*yaml.Node]problem.Place // where a node stands that is no part of a text
	assumed  []string                     // paths of values that the program once assumed
	home     problem.Place                // where what stands nowhere is reported
	said     wording
	known    func(*model.Study) // adds what is known beside the values; nil for nothing
	problems problem.List
}

// paths are some paths of a study.
type paths map[string]struct{}

func (p paths) add(path string) { p[path] = struct{}{} }

// wording is what messages call the parts of a study, which differs between a
// text and a form.
type wording struct {
	key    string // what names an input
	member string // what a list needs
}

var (
	textWording = wording{key: "key", member: " with at least one key below it"}
	formWording = wording{key: "input", member: " with at least one row"}
)

func newReader(file string) *reader {
	return &reader{
		file:    file,
		places:  Places{},
		origins: map[string]model.Origin{},
		unread:  paths{},
		refused: map[*yaml.Node]bool{},
		home:    problem.Place{File: file, Line: 1, Column: 1},
		said:    textWording,
	}
}

// given tells whether the study says something readable at the path.
func (r *reader) given(path string) bool {
	_, ok := r.places[path]
	_, lost := r.unread[path]
	return ok && !lost
}

// placeOf returns where a path stands, or the nearest given thing around it.
func (r *reader) placeOf(path string) problem.Place {
	if place, ok := r.places.At(path); ok {
		return place
	}
	return r.home
}

func (r *reader) at(line, column int) problem.Place {
	return problem.Place{File: r.file, Line: line, Column: column}
}

// place is where a node stands. The parser gives none to a node it made up,
// such as the missing value at the very end.
func (r *reader) place(node *yaml.Node) problem.Place {
	if cell, ok := r.cells[node]; ok {
		return cell
	}
	return r.at(max(1, node.Line), max(1, node.Column))
}

// refuse reports a problem at a node.
func (r *reader) refuse(path string, node *yaml.Node, what, right string) {
	r.problems = append(r.problems, problem.Problem{Path: path, Place: r.place(node), What: what, Right: right})
}

// lose reports a value that could not be read, so that nothing which follows
// from it is reported as well.
func (r *reader) lose(path string, node *yaml.Node, what, right string) {
	r.refuse(path, node, what, right)
	r.unread.add(path)
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// nameOf is how a path is called in a message; the root has no name.
func nameOf(path string) string {
	if path == "" {
		return "the study"
	}
	return path
}
