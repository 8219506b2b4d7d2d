package intake

import (
	"reflect"
	"strconv"
	"strings"

	"shopstint/model"
	"shopstint/model/problem"
)

// branch is a list that stands within a member.
type branch struct {
	key  string
	kind reflect.Type // of its members
}

// inputsOf lists the inputs of a struct and the lists in it.
func inputsOf(kind reflect.Type, prefix string) (inputs []Input, lists []branch) {
	for i := range kind.NumField() {
		f := kind.Field(i)
		key := f.Tag.Get("key")
		within, isSlice := f.Type, f.Type.Kind() == reflect.Slice
		switch {
		case key == "" || key == "-":
			continue
		case key == ",inline":
			key = ""
		case isSlice && f.Type.Elem().Kind() == reflect.Struct:
			lists = append(lists, branch{key, f.Type.Elem()})
			continue
		case isSlice && f.Type.Elem().Kind() != reflect.String:
			inputs = append(inputs, Input{prefix + key, f.Tag, f.Type.Elem(), true})
			continue
		case within.Kind() != reflect.Struct:
			inputs = append(inputs, Input{prefix + key, f.Tag, f.Type, false})
			continue
		}
		below := prefix
		if key != "" {
			below += key + separatorOfPaths
		}
		more, branches := inputsOf(within, below)
		inputs, lists = append(inputs, more...), append(lists, branches...)
	}
	return inputs, lists
}

// schema is what a member of one kind may hold.
type schema struct {
	inputs []Input
	lists  []branch
}

// catalogue remembers the schemas of one reading.
type catalogue map[reflect.Type]schema

func (c catalogue) of(kind reflect.Type) schema {
	known, ok := c[kind]
	if !ok {
		known.inputs, known.lists = inputsOf(kind, "")
		c[kind] = known
	}
	return known
}

// Inputs lists the inputs of the members of a list of the study, or of a list
// within it, by the keys of the lists alone: "job_types.operations". The empty
// list is the study itself. It is nil for a list that does not exist.
func Inputs(list string) []Input {
	kind := reflect.TypeFor[model.Study]()
	for _, key := range strings.FieldsFunc(list, func(r rune) bool { return r == '.' }) {
		below, ok := catalogue{}.branch(kind, key)
		if !ok {
			return nil
		}
		kind = below
	}
	inputs, _ := inputsOf(kind, "")
	return inputs
}

func (c catalogue) branch(kind reflect.Type, key string) (reflect.Type, bool) {
	for _, one := range c.of(kind).lists {
		if one.key == key {
			return one.kind, true
		}
	}
	return nil, false
}

// Splitter gives a function that takes the path of an input apart into the words
// of a row of the form: the sheet's part, which member it is about, and the
// input's name there.
func Splitter() func(path string) (part Part, which, input string) { return catalogue{}.split }

func (c catalogue) split(path string) (part Part, which, input string) {
	words := strings.Split(path, separatorOfPaths)
	kind := reflect.TypeFor[model.Study]()
	var members []string
	at := 0
	for at+1 < len(words) {
		below, ok := c.branch(kind, words[at])
		if !ok {
			break
		}
		members, kind, at = append(members, words[at+1]), below, at+2
	}
	for _, one := range Parts() {
		if len(members) > 0 && one.List == words[0] {
			return one, strings.Join(members, partsOfPath), strings.Join(words[at:], separatorOfPaths)
		}
	}
	if len(words) == 1 {
		return Parts()[0], sectionOfStudy, path
	}
	return Parts()[0], words[0], strings.Join(words[1:], separatorOfPaths)
}

// at finds an input by its path.
func (c catalogue) at(path string) (Input, bool) {
	part, which, name := c.split(path)
	_, input, known, ok := c.locate(part, strings.Split(which, partsOfPath), name)
	return input, known && ok
}

// candidate is a member that a row may be about.
type candidate struct {
	path string
	kind reflect.Type
}

// members lists what "big_shop / planer36" may be in a list of the study: none when
// there is nothing so deep.
func (c catalogue) members(list string, which []string) []candidate {
	study := reflect.TypeFor[model.Study]()
	kind, ok := c.branch(study, list)
	if !ok {
		return nil
	}
	found := []candidate{{list + separatorOfPaths + which[0], kind}}
	for _, key := range which[1:] {
		var below []candidate
		for _, above := range found {
			for _, list := range c.of(above.kind).lists {
				below = append(below, candidate{above.path + separatorOfPaths + list.key + separatorOfPaths + key, list.kind})
			}
		}
		found = below
	}
	return found
}

// find looks for an input by its name; a row of a table is found by its number.
func find(inputs []Input, name string) (Input, bool) {
	table, row := cutLast(name)
	for _, one := range inputs {
		if one.Name == name && !one.Rows {
			return one, true
		}
		if _, err := strconv.Atoi(row); one.Rows && one.Name == table && err == nil {
			return one, true
		}
	}
	return Input{}, false
}

func cutLast(name string) (before, after string) {
	at := strings.LastIndex(name, separatorOfPaths)
	if at < 0 {
		return name, ""
	}
	return name[:at], name[at+1:]
}

// locate turns the words of a row into a path. An input that does not exist
// gets the path where it is likeliest meant, for the reader to refuse it.
func (c catalogue) locate(p Part, which []string, name string) (path string, input Input, known, ok bool) {
	candidates := c.members(p.List, which)
	if p.List == "" {
		candidates = sections(which)
	}
	likely, nearness := -1, false
	for i, one := range candidates {
		inputs := c.of(one.kind).inputs
		if input, known := find(inputs, name); known {
			return joined(one.path, name), input, true, true
		}
		if _, near := problem.Nearest(name, namesOf(inputs)); likely < 0 || near && !nearness {
			likely, nearness = i, near
		}
	}
	if likely < 0 {
		return "", Input{}, false, false
	}
	return joined(candidates[likely].path, name), Input{}, false, true
}

func joined(path, name string) string {
	return strings.TrimPrefix(path+separatorOfPaths+name, separatorOfPaths)
}

func namesOf(inputs []Input) []string {
	names := make([]string, len(inputs))
	for i, one := range inputs {
		names[i] = one.Name
	}
	return names
}

// sections are what the sheet of the study's own inputs may speak of.
func sections(which []string) []candidate {
	study := reflect.TypeFor[model.Study]()
	if len(which) != 1 {
		return nil
	}
	if which[0] == sectionOfStudy {
		return []candidate{{"", study}}
	}
	for i := range study.NumField() {
		if f := study.Field(i); f.Type.Kind() == reflect.Struct && f.Tag.Get("key") == which[0] {
			return []candidate{{which[0], f.Type}}
		}
	}
	return nil
}

// sectionNames lists the sections by name.
func sectionNames() []string {
	names := []string{sectionOfStudy}
	study := reflect.TypeFor[model.Study]()
	for i := range study.NumField() {
		if f := study.Field(i); f.Type.Kind() == reflect.Struct && f.Tag.Get("key") != "-" {
			names = append(names, f.Tag.Get("key"))
		}
	}
	return names
}
