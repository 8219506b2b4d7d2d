package study

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"shopstint/model"
	"shopstint/model/problem"
)

// Text is what stands in one place of a form; blank with an empty Text.
type Text struct {
	Text  string
	Place problem.Place
}

// Entry is one input of a form: its path and the texts that stand for it. A
// value, low and high are written with their unit, as in a study. An entry
// without any text says where the input would stand, and that the members on
// its path exist. A path that ends in a member or a list is such an entry too.
type Entry struct {
	Path    string
	Which   problem.Place // where the form names the member
	Named   problem.Place // where the form names the input
	Value   Text
	Low     Text
	High    Text
	Shape   Text
	Note    Text
	Source  Text
	Refused bool // already reported as unreadable: given, yet of no known value
	Assumed bool // the value is one that the program once assumed
}

// Form is a study as a list of entries, with what its reader found wrong
// before. Home is where problems go that stand nowhere else.
type Form struct {
	Name    string
	Home    problem.Place
	Entries []Entry
	Found   problem.List
	// Known, if any, adds what the form's reader knows beside the entries, once
	// their values are read and before the rules of the whole study are looked at.
	Known func(*model.Study)
}

// LoadForm reads a study from a form as Load reads it from a text: by the same
// rules, with the same problems, each at the place of the entry that it is about.
// Members stand in the order in which the entries first name them.
func LoadForm(form Form) (*model.Study, Places, problem.List) {
	r := newReader(form.Name)
	r.home, r.said, r.known = form.Home, formWording, form.Known
	r.cells = map[*yaml.Node]problem.Place{}
	r.problems = slices.Clone(form.Found)
	sheet := layout{reader: r, blank: map[string]problem.Place{}, entered: map[string]problem.Place{}}
	for _, e := range form.Entries {
		if e.Assumed && e.Value.Text != "" {
			r.assumed = append(r.assumed, e.Path)
		}
	}
	study := r.finish(sheet.tree(form.Entries))
	if len(r.problems) > 0 {
		for i := range r.problems {
			p := &r.problems[i]
			_, given := r.places[p.Path]
			if at, ok := sheet.blank[p.Path]; ok && !given {
				p.Place = at
			}
		}
		return nil, r.places, r.problems.Sorted()
	}
	return study, r.places, nil
}

// layout turns entries into the tree of nodes that the reader reads.
type layout struct {
	*reader
	blank   map[string]problem.Place // where inputs would stand that are not given
	entered map[string]problem.Place // where each path was named first
}

func (l *layout) tree(entries []Entry) *yaml.Node {
	root := l.node(yaml.MappingNode, "", l.home)
	for i := range entries {
		l.enter(root, &entries[i])
	}
	return root
}

func (l *layout) node(kind yaml.Kind, text string, at problem.Place) *yaml.Node {
	node := &yaml.Node{Kind: kind, Value: text}
	l.cells[node] = at
	return node
}

// enter puts one entry into the tree.
func (l *layout) enter(root *yaml.Node, e *Entry) {
	if first, twice := l.entered[e.Path]; twice {
		l.problems = append(l.problems, problem.Problem{
			Path: e.Path, Place: e.Named, Also: []problem.Place{first},
			What: e.Path + " comes twice", Right: "keep one of the rows",
		})
		return
	}
	l.entered[e.Path] = e.Named
	content, given := l.content(e)
	if !given {
		l.blank[e.Path] = e.Value.Place
	}
	l.descend(root, e, content, given)
}

// descend walks down the path, making what is not there yet, and hangs the
// content on its end. An entry that gives nothing makes its members only.
func (l *layout) descend(at *yaml.Node, e *Entry, content *yaml.Node, given bool) {
	parts := strings.Split(e.Path, ".")
	kind := reflect.TypeFor[model.Study]()
	for i, part := range parts {
		last := i == len(parts)-1
		below := typeBelow(kind, part)
		switch {
		case last && given:
			l.give(at, part, e, content, below)
			return
		case !given && !holdsKeys(below), last && kind.Kind() == reflect.Struct:
			return
		}
		at = l.child(at, part, e.Which, below)
		kind = below
	}
}

// give hangs a value under its key. The key of an input that exists stands where
// its value stands: there it is put right.
func (l *layout) give(at *yaml.Node, key string, e *Entry, content *yaml.Node, kind reflect.Type) {
	named := e.Named
	if kind != nil {
		named = e.Value.Place
	}
	if kind != nil && !kind.Implements(reflect.TypeFor[model.Measured]()) && content.Kind == yaml.MappingNode {
		content = l.plainWord(e, content)
	}
	l.put(at, key, named, content)
}

// plainWord takes the value out of a mapping and refuses what stands beside it.
func (l *layout) plainWord(e *Entry, content *yaml.Node) *yaml.Node {
	value := l.node(yaml.ScalarNode, "", e.Value.Place)
	l.refused[value] = true
	for i := 0; i < len(content.Content); i += 2 {
		key := content.Content[i]
		if key.Value == rangedKeys[0] {
			value = content.Content[i+1]
			continue
		}
		l.refuse(e.Path, key, fmt.Sprintf("%s has a %s", e.Path, key.Value), "only figures keep a range, a note or a source; take it out")
	}
	return value
}

// typeBelow is the type under a key of a struct or the member of a list; nil
// where there is none.
func typeBelow(kind reflect.Type, key string) reflect.Type {
	switch {
	case kind == nil:
	case kind.Kind() == reflect.Slice:
		return kind.Elem()
	case kind.Kind() == reflect.Struct:
		for _, f := range fieldsOf(reflect.New(kind).Elem()) {
			if f.key == key {
				return f.value.Type()
			}
		}
	}
	return nil
}

// holdsKeys tells whether a value of the type is written as keys: a struct or a
// list of structs, and no table.
func holdsKeys(kind reflect.Type) bool {
	if kind != nil && kind.Kind() == reflect.Slice {
		kind = kind.Elem()
	}
	return kind != nil && kind.Kind() == reflect.Struct
}

// child finds or makes the node under a key.
func (l *layout) child(at *yaml.Node, key string, named problem.Place, kind reflect.Type) *yaml.Node {
	if at.Kind == yaml.MappingNode {
		for i := 0; i < len(at.Content); i += 2 {
			if at.Content[i].Value == key {
				return at.Content[i+1]
			}
		}
	}
	form := yaml.MappingNode
	if kind != nil && kind.Kind() == reflect.Slice && !holdsKeys(kind) {
		form = yaml.SequenceNode
	}
	child := l.node(form, "", named)
	l.put(at, key, named, child)
	return child
}

// put hangs content under a key, or as the next row of a table.
func (l *layout) put(at *yaml.Node, key string, named problem.Place, content *yaml.Node) {
	switch at.Kind {
	case yaml.SequenceNode:
		if next := strconv.Itoa(len(at.Content) + 1); key != next {
			l.refuse("", content, fmt.Sprintf("row %s of a table stands where row %s is due", quoted(key), next), "number the rows from 1 on without a gap")
			l.refused[content] = true
		}
		at.Content = append(at.Content, content)
	case yaml.MappingNode:
		at.Content = append(at.Content, l.node(yaml.ScalarNode, key, named), content)
	}
}

// content is the value alone, or a mapping with its range and remarks.
func (l *layout) content(e *Entry) (content *yaml.Node, given bool) {
	if e.Refused {
		node := l.node(yaml.ScalarNode, e.Value.Text, e.Value.Place)
		l.refused[node] = true
		return node, true
	}
	mapping := l.node(yaml.MappingNode, "", e.Value.Place)
	for i, text := range [...]Text{e.Value, e.Low, e.High, e.Shape, e.Note, e.Source} {
		if text.Text != "" {
			mapping.Content = append(mapping.Content, l.node(yaml.ScalarNode, rangedKeys[i], text.Place), l.node(yaml.ScalarNode, text.Text, text.Place))
		}
	}
	if len(mapping.Content) == 2 && e.Value.Text != "" {
		return mapping.Content[1], true
	}
	return mapping, len(mapping.Content) > 0
}
