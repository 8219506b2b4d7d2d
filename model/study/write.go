package study

import (
	"bytes"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"shopstint/model"
	"shopstint/model/quantity"
)

// Write writes a study as Load reads it: what was given, with ranges, notes and
// sources, in the order of the study and in its own units; what is assumed is left
// out, unless something else would be assumed now, as after an edit of a decision
// workbook. Read back every input is the same to the last digit. Places are those
// of its reading, which tell what was given. Comment stands on top.
func Write(s *model.Study, places Places, comment string) ([]byte, error) {
	text, err := write(s, places, comment, nil)
	if err != nil {
		return nil, err
	}
	if kept := otherwiseAssumed(s, text); len(kept) > 0 {
		return write(s, places, comment, kept)
	}
	return text, nil
}

// otherwiseAssumed lists the assumed inputs that would not be assumed like this
// again for the study in a text.
func otherwiseAssumed(s *model.Study, text []byte) map[string]bool {
	again, _, _ := Load("", text)
	if again == nil {
		return nil // whoever reads it is told
	}
	now := map[string]any{}
	model.Walk(again, func(leaf model.Leaf) { now[leaf.Path] = leaf.Value.Interface() })
	kept := map[string]bool{}
	model.Walk(s, func(leaf model.Leaf) {
		if value, there := now[leaf.Path]; there && s.Origins[leaf.Path].Assumed && !reflect.DeepEqual(value, leaf.Value.Interface()) {
			kept[leaf.Path] = true
		}
	})
	return kept
}

// write writes what was given, and what is to be kept beside it.
func write(s *model.Study, places Places, comment string, kept map[string]bool) ([]byte, error) {
	system, err := quantity.ParseSystem(s.Units)
	if err != nil {
		return nil, fmt.Errorf("could not write the study: %w", err)
	}
	w := writer{study: s, system: system, places: places, kept: kept}
	root := w.keys("", structOf(s))
	if root.Content != nil {
		root.Content[0].HeadComment = comment
	}
	for i := 0; i < len(root.Content); i += 2 {
		if about := sectionComment(root.Content[i].Value); about != "" {
			root.Content[i].HeadComment = about
		}
	}
	var text bytes.Buffer
	encoder := yaml.NewEncoder(&text)
	encoder.SetIndent(2)
	if err := encoder.Encode(root); err != nil {
		return nil, fmt.Errorf("could not write the study: %w", err)
	}
	return text.Bytes(), nil
}

// sectionComment says in a line what a section of a study holds.
func sectionComment(key string) string {
	switch key {
	case "studio":
		return "The owner's side: people, vehicle, floor, supply, tax."
	case "growth":
		return "How prices grow in a year."
	case "shops":
		return "The bigger shops, what they charge and what they let."
	case "tools":
		return "What the studio owns already and keeps."
	case "machines":
		return "What the studio could buy."
	case "fixtures":
		return "What machines share and is paid for once."
	case "edges":
		return "Lives are for plain hardwood."
	case "dated_jobs":
		return "Orders with their dates, for: shopstint visits"
	case "comparisons":
		return "Ways of doing the same work, for: shopstint wear"
	case "job_types":
		return "The work of a year: rough sizes, as a piece comes to the machine."
	}
	return ""
}

type writer struct {
	study  *model.Study
	system quantity.System
	places Places
	kept   map[string]bool // assumed values that are written all the same
}

// keys writes the given fields of a struct.
func (w *writer) keys(path string, value reflect.Value) *yaml.Node {
	node := &yaml.Node{Kind: yaml.MappingNode}
	for _, f := range fieldsOf(value) {
		if content := w.field(join(path, f.key), f); content != nil {
			node.Content = append(node.Content, keyNode(f.key), content)
		}
	}
	return node
}

// keyNode is a key of a mapping; a grit is a bare number.
func keyNode(key string) *yaml.Node {
	node := &yaml.Node{Kind: yaml.ScalarNode, Value: key}
	if _, err := strconv.Atoi(key); err == nil {
		node.Tag = "!!int"
	}
	return node
}

// field writes one field; nil where nothing of it is given.
func (w *writer) field(path string, f field) *yaml.Node {
	switch kind := f.value.Kind(); {
	case kind == reflect.Struct:
		if node := w.keys(path, f.value); node.Content != nil {
			return node
		}
		return nil
	case kind == reflect.Slice && f.value.Type().Elem().Kind() == reflect.Struct:
		return w.list(path, f.value)
	case kind == reflect.Slice && f.value.Type().Elem().Kind() != reflect.String:
		return w.table(path, f)
	case !w.given(path):
		return nil
	}
	return w.value(path, f.value)
}

// given tells whether the study says a value itself.
func (w *writer) given(path string) bool {
	_, there := w.places[path]
	return there && !w.study.Origins[path].Assumed || w.kept[path]
}

// list writes the members that the study names.
func (w *writer) list(path string, list reflect.Value) *yaml.Node {
	node := &yaml.Node{Kind: yaml.MappingNode}
	for i := range list.Len() {
		member := list.Index(i)
		key := member.FieldByName("Key").String()
		if !named(w.study, w.places, join(path, key), member) {
			continue
		}
		content := w.keys(join(path, key), member)
		if f, ok := soleInput(member); ok && len(content.Content) == 2 && content.Content[0].Value == f.key {
			content = content.Content[1]
		}
		node.Content = append(node.Content, keyNode(key), content)
	}
	if len(node.Content) == 0 {
		return nil
	}
	return node
}

// named tells whether the study itself names a member of a list: it stands in it
// and nothing that it must have is assumed. Others are there because the method
// needs them. Member is the member at the path.
func named(s *model.Study, places Places, path string, member reflect.Value) bool {
	if _, there := places[path]; !there {
		return false
	}
	for _, f := range fieldsOf(member) {
		if f.tag.Get("need") == "yes" && s.Origins[join(path, f.key)].Assumed {
			return false
		}
	}
	return true
}

// Belongs gives a function that tells by the path of an input whether it is part
// of the study itself, and not of a member that is there because the method needs
// one.
func Belongs(s *model.Study, places Places) func(path string) bool {
	foreign := map[string]bool{}
	var look func(path string, value reflect.Value)
	look = func(path string, value reflect.Value) {
		for _, f := range fieldsOf(value) {
			if kind := f.value.Type(); f.value.Kind() != reflect.Slice || kind.Elem().Kind() != reflect.Struct {
				continue
			}
			for i := range f.value.Len() {
				member := f.value.Index(i)
				at := join(join(path, f.key), member.FieldByName("Key").String())
				foreign[at] = !named(s, places, at, member)
				look(at, member)
			}
		}
	}
	look("", structOf(s))
	return func(path string) bool {
		for ; path != ""; path = path[:max(0, strings.LastIndexByte(path, '.'))] {
			if foreign[path] {
				return false
			}
		}
		return true
	}
}

func (w *writer) table(path string, f field) *yaml.Node {
	node := &yaml.Node{Kind: yaml.SequenceNode, Style: yaml.FlowStyle}
	for i := range f.value.Len() {
		row := join(path, strconv.Itoa(i+1))
		if !w.given(row) {
			break
		}
		node.Content = append(node.Content, w.value(row, f.value.Index(i)))
	}
	if len(node.Content) == 0 {
		return nil
	}
	return node
}

// value writes a single value, alone or with what is known about it.
func (w *writer) value(path string, value reflect.Value) *yaml.Node {
	if measured, ok := value.Interface().(model.Measured); ok {
		return w.figure(path, measured.Dimension(), value.Float())
	}
	switch value.Kind() {
	case reflect.Bool:
		return plainNode(map[bool]string{true: "yes", false: "no"}[value.Bool()])
	case reflect.Slice:
		node := &yaml.Node{Kind: yaml.SequenceNode, Style: yaml.FlowStyle}
		for i := range value.Len() {
			node.Content = append(node.Content, wordNode(value.Index(i).String()))
		}
		return node
	}
	if isDate(value) {
		return plainNode(value.String())
	}
	return wordNode(value.String())
}

func (w *writer) figure(path string, dim quantity.Dimension, value float64) *yaml.Node {
	origin := w.study.Origins[path]
	figures := []float64{value}
	if origin.HasRange {
		figures = append(figures, origin.Low, origin.High)
	}
	numbers, unit := quantity.Written(dim, w.system, figures...)
	node := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
	for i, number := range numbers {
		node.Content = append(node.Content, plainNode(rangedKeys[i]), plainNode(strings.TrimSpace(number+" "+unit)))
	}
	for i, remark := range []string{origin.Shape, origin.Note, origin.Source} {
		if remark != "" {
			node.Content = append(node.Content, plainNode(rangedKeys[3+i]), wordNode(remark))
		}
	}
	if len(node.Content) == 2 {
		return node.Content[1]
	}
	return node
}

func plainNode(text string) *yaml.Node { return &yaml.Node{Kind: yaml.ScalarNode, Value: text} }

// wordNode is quoted where it could be read as something else.
func wordNode(text string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text}
}
