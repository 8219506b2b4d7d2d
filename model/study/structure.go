package study

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

// field is one key that a mapping may have.
type field struct {
	key   string
	tag   reflect.StructTag
	value reflect.Value
}

func structOf(study *model.Study) reflect.Value { return reflect.ValueOf(study).Elem() }

// fieldsOf lists the keys of a struct, embedded ones in their place.
func fieldsOf(value reflect.Value) []field {
	var list []field
	kind := value.Type()
	for i := range kind.NumField() {
		tag := kind.Field(i).Tag
		switch key := tag.Get("key"); key {
		case "-", "":
		case ",inline":
			list = append(list, fieldsOf(value.Field(i))...)
		default:
			list = append(list, field{key, tag, value.Field(i)})
		}
	}
	return list
}

func keysOf(fields []field) []string {
	list := make([]string, len(fields))
	for i, f := range fields {
		list[i] = f.key
	}
	return list
}

// structure reads a mapping into a struct. The key node is where the mapping is
// named, for what is missing in it.
func (r *reader) structure(path string, key, node *yaml.Node, value reflect.Value) {
	if r.refused[node] {
		r.unread.add(path)
		return
	}
	fields := fieldsOf(value)
	if node.Kind != yaml.MappingNode && !isEmpty(node) {
		r.lose(path, node, fmt.Sprintf("%s is %s", nameOf(path), kindOf(node)), "write its keys below it, such as "+fields[0].key)
		return
	}
	meant := map[string]bool{}
	for name, content := range r.pairs(path, node) {
		r.pair(path, name, content, fields, meant)
	}
	r.missing(path, key, fields, meant)
}

// pair reads one key and its value; meant collects the keys that were given or
// are the likely meaning of a misspelt one.
func (r *reader) pair(path string, name, content *yaml.Node, fields []field, meant map[string]bool) {
	i := slices.IndexFunc(fields, func(f field) bool { return f.key == name.Value })
	if i >= 0 {
		meant[name.Value] = true
		r.field(join(path, name.Value), name, content, fields[i])
		return
	}
	known := keysOf(fields)
	what := "unknown " + r.said.key + " " + quoted(name.Value)
	if path != "" {
		what += " in " + path
	}
	right := problem.Suggest(name.Value, known)
	if isCutOff(name, content) {
		what, right = cutOff(name, path), cutOffRight
	}
	r.refuse(path, name, what, right)
	if near, ok := problem.Nearest(name.Value, known); ok {
		meant[near] = true
		r.unread.add(join(path, near))
	}
}

// isCutOff tells whether a key is the end of a number that a decimal comma has cut
// in braces, as of {price: 4500,50}.
func isCutOff(name, content *yaml.Node) bool {
	return isEmpty(content) && content.Value == "" && name.Value != "" && name.Value[0] >= '0' && name.Value[0] <= '9'
}

func cutOff(name *yaml.Node, path string) string {
	return quoted(name.Value) + " in " + nameOf(path) + " stands behind a comma, which ends a value in braces"
}

const cutOffRight = "use a point for decimals and nothing between thousands"

// missing reports the inputs that must be given and were not.
func (r *reader) missing(path string, key *yaml.Node, fields []field, meant map[string]bool) {
	for _, f := range fields {
		if f.tag.Get("need") != "yes" || meant[f.key] || hasDefault(f) {
			continue
		}
		full := join(path, f.key)
		r.refuse(full, key, fmt.Sprintf("%s has no %s", nameOf(path), f.key), "give "+f.key+r.sample(f))
		r.unread.add(full)
	}
}

// hasDefault: a job whose size is not said has an assumed piece.
func hasDefault(f field) bool { return f.value.Type() == reflect.TypeFor[[]model.Piece]() }

// sample shows what a field may look like.
func (r *reader) sample(f field) string {
	if measured, ok := f.value.Interface().(model.Measured); ok {
		return r.figure(measured.Dimension(), f)
	}
	switch {
	case f.value.Kind() == reflect.Slice:
		return r.said.member
	case f.tag.Get("oneof") != "":
		return ": " + choice(strings.Fields(f.tag.Get("oneof")))
	case isDate(f.value):
		return ", such as " + quantity.DateExample
	case f.tag.Get("ref") != "":
		return ": a key of " + f.tag.Get("ref")
	case f.key == "currency":
		return ", such as EUR or USD"
	}
	return ": " + f.tag.Get("about")
}

// figure shows a value with its unit, and for a bare number what it may be.
func (r *reader) figure(dim quantity.Dimension, f field) string {
	if dim == quantity.DimCount {
		return r.limitsOf(dim, f).interval()
	}
	return ", such as " + dim.Example()
}

// valueFor tells what to do about a key without a value.
func (r *reader) valueFor(f field) string {
	if f.tag.Get("need") == "yes" {
		return "give one" + r.sample(f)
	}
	return "give one, or leave the key out"
}

// choice lists words as "a, b or c".
func choice(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " or " + list[last]
}

// field reads one value of any kind.
func (r *reader) field(path string, key, node *yaml.Node, f field) {
	r.places[path] = r.place(node)
	if node.Kind != yaml.ScalarNode || isEmpty(node) {
		r.places[path] = r.place(key)
	}
	switch kind := f.value.Kind(); {
	case kind == reflect.Struct:
		r.structure(path, key, node, f.value)
	case r.refused[node]:
		r.unread.add(path)
	case kind == reflect.Slice:
		r.list(path, key, node, f)
	case isEmpty(node):
		r.lose(path, key, path+" has no value", r.valueFor(f))
	default:
		r.leaf(path, node, f)
	}
}

func (r *reader) list(path string, key, node *yaml.Node, f field) {
	switch f.value.Type().Elem().Kind() {
	case reflect.Struct:
		r.members(path, key, node, f)
	case reflect.String:
		r.words(path, key, node, f)
	default:
		r.rows(path, key, node, f)
	}
}

// leaf reads a single value.
func (r *reader) leaf(path string, node *yaml.Node, f field) {
	if measured, ok := f.value.Interface().(model.Measured); ok {
		r.quantity(path, node, measured.Dimension(), f)
		return
	}
	if node.Kind != yaml.ScalarNode {
		r.lose(path, node, path+" is "+kindOf(node), "write a single value behind the colon")
		return
	}
	switch {
	case path == "currency":
		r.readCurrency(path, node, f)
	case f.value.Kind() == reflect.Bool:
		r.flag(path, node, f)
	case isDate(f.value):
		r.date(path, node, f)
	default:
		r.word(path, node, f)
	}
}

// displayIn tells how limits are shown: as the study shows its figures.
func (r *reader) displayIn(dim quantity.Dimension, si float64) string {
	return quantity.Format(dim, si, r.system)
}
