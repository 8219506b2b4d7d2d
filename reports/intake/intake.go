// Package intake writes a study as a workbook to be filled in: one row an input,
// with its value, unit, range, note and source, what is assumed when it is left
// empty, and what it means. Package model/intake reads it back; the layout stands
// there.
package intake

import (
	"fmt"
	"io"
	"strings"
	"time"

	"shopstint/model"
	layout "shopstint/model/intake"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/reports/workbook/grid"
)

// Options are what the caller decides about the file.
type Options struct {
	Short   bool      // only the inputs that the study gives
	Created time.Time // written into the file's properties
}

// Write writes the form of a study. Places are those of its reading: they tell
// what it gives itself, which is filled in; all else is empty, with what is assumed
// beside it. The same study gives the same bytes.
func Write(w io.Writer, s *model.Study, places study.Places, options Options) error {
	system, err := quantity.ParseSystem(s.Units)
	if err != nil {
		return fmt.Errorf("could not lay out the form: %w", err)
	}
	b := book{study: s, system: system, places: places, short: options.Short, inputs: map[string][]layout.Input{}, out: &grid.Book{
		Title: titleOf(s), Subject: "Rent by the hour or own: the study, to be filled in", Author: "shopstint", Created: options.Created,
	}}
	b.readMe(b.out.Add(layout.ReadMe))
	groups := b.groups()
	for _, part := range layout.Parts() {
		if list := groups[part.Sheet]; len(list) > 0 {
			b.sheet(b.out.Add(part.Sheet), part, list)
		}
	}
	if err := b.out.Write(w); err != nil {
		return fmt.Errorf("could not write the form: %w", err)
	}
	return nil
}

func titleOf(s *model.Study) string {
	if s.Title != "" {
		return s.Title
	}
	return "rent or own"
}

// book is a form in the making.
type book struct {
	out    *grid.Book
	study  *model.Study
	system quantity.System
	places study.Places
	short  bool
	inputs map[string][]layout.Input // by list: what its members may have
}

// entry is one row of the form: an input, and the leaf that holds it, if the
// study has it.
type entry struct {
	layout.Input
	path  string
	leaf  *model.Leaf
	given bool
}

// group is the rows of one member, or of one section of the study.
type group struct {
	which   string
	name    string // what the owner calls it
	pattern bool   // rows to be filled in for a new member
	entries []entry
}

// groups lists the groups of each sheet in the order of the study.
func (b *book) groups() map[string][]group {
	groups, lists := map[string][]group{}, b.members()
	for _, part := range layout.Parts() {
		for _, one := range lists[part.Sheet] {
			if b.short {
				one.entries = givenOnly(part, one.entries)
			}
			if len(one.entries) > 0 {
				groups[part.Sheet] = append(groups[part.Sheet], one)
			}
		}
		if len(groups[part.Sheet]) == 0 && !b.short {
			groups[part.Sheet] = []group{patternOf(part)}
		}
	}
	return groups
}

// members groups every input of the study itself.
func (b *book) members() map[string][]group {
	split, belongs := layout.Splitter(), study.Belongs(b.study, b.places)
	at := map[string]int{} // by sheet and which: the group's place
	lists := map[string][]group{}
	model.Walk(b.study, func(leaf model.Leaf) {
		part, which, name := split(leaf.Path)
		if !belongs(leaf.Path) {
			return
		}
		list := listOf(leaf.Path, name)
		key := part.Sheet + "!" + list + "!" + which
		i, known := at[key]
		if !known {
			i = len(lists[part.Sheet])
			at[key] = i
			lists[part.Sheet] = append(lists[part.Sheet], group{which: which})
		}
		one := &lists[part.Sheet][i]
		b.add(one, list, name, leaf)
	})
	return lists
}

// listOf is the path of a member's list without the keys of members, such as
// job_types.operations; "" for the study's own inputs.
func listOf(path, name string) string {
	words := strings.Split(strings.TrimSuffix(strings.TrimSuffix(path, name), "."), ".")
	if len(words) < 2 {
		return ""
	}
	var lists []string
	for i := 0; i < len(words); i += 2 {
		lists = append(lists, words[i])
	}
	return strings.Join(lists, ".")
}

// add puts a leaf into its group. A table without rows gets an empty first row,
// in its place before the input that follows it.
func (b *book) add(to *group, list, name string, leaf model.Leaf) {
	if name == "name" {
		to.name = leaf.Value.String()
	}
	prefix := strings.TrimSuffix(leaf.Path, name)
	for _, one := range b.tablesBefore(list, name) {
		if len(to.entries) > 0 && !strings.HasPrefix(to.entries[len(to.entries)-1].Name, one.Name+".") {
			one.Name += ".1"
			to.entries = append(to.entries, entry{Input: one, path: prefix + one.Name})
		}
	}
	input := layout.Input{Name: name, Tag: leaf.Tag, Kind: leaf.Value.Type()}
	_, there := b.places[leaf.Path]
	to.entries = append(to.entries, entry{input, leaf.Path, &leaf, there && !b.study.Origins[leaf.Path].Assumed})
}

// tablesBefore lists the tables that stand right before an input.
func (b *book) tablesBefore(list, name string) []layout.Input {
	if b.inputs[list] == nil {
		b.inputs[list] = layout.Inputs(list)
	}
	var tables []layout.Input
	for _, one := range b.inputs[list] {
		switch {
		case one.Rows:
			tables = append(tables, one)
		case one.Name == name:
			return tables
		default:
			tables = nil
		}
	}
	return nil
}

// givenOnly keeps what a study gives; a member of which it gives nothing keeps an
// empty row, which names it.
func givenOnly(part layout.Part, entries []entry) []entry {
	var given []entry
	for _, one := range entries {
		if one.given {
			given = append(given, one)
		}
	}
	if len(given) == 0 && part.List != "" {
		return entries[:1]
	}
	return given
}

// patternOf is an empty group for a list that the study does not have.
func patternOf(part layout.Part) group {
	pattern := group{pattern: true, name: "a first " + part.Member + ": write its key into the first column of each row"}
	for _, input := range layout.Inputs(part.List) {
		if input.Rows {
			input.Name += ".1"
		}
		pattern.entries = append(pattern.entries, entry{Input: input})
	}
	return pattern
}
