package studygen

import (
	"reflect"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"shopstint/model"
	"shopstint/model/quantity"
)

// YAML writes a study as its owner would: the given inputs with their ranges,
// every figure in the units of the system, assumed inputs left out. Read back in
// the study's own system every given input is the same; in the other one it is
// the same but for the last digit.
func YAML(s *model.Study, system quantity.System) []byte {
	w := writer{study: s, system: system, root: mapping(), bare: bareMembers(s)}
	model.Walk(s, w.leaf)
	text, err := yaml.Marshal(w.root)
	if err != nil {
		return nil // a tree of mappings, lists and texts can always be written
	}
	return text
}

type writer struct {
	study  *model.Study
	system quantity.System
	root   *yaml.Node
	bare   map[string]bool
}

// bareMembers finds the members that were assumed as a whole: something that a
// member must have is not given.
func bareMembers(s *model.Study) map[string]bool {
	bare := map[string]bool{}
	model.Walk(s, func(leaf model.Leaf) {
		if leaf.Has("need") && s.Origins[leaf.Path].Assumed {
			bare[above(leaf.Path)] = true
		}
	})
	return bare
}

func above(path string) string { return path[:max(0, strings.LastIndexByte(path, '.'))] }

func (w *writer) leaf(leaf model.Leaf) {
	if w.bare[above(leaf.Path)] {
		return
	}
	at, key := w.at(leaf)
	if at == nil || w.study.Origins[leaf.Path].Assumed {
		return
	}
	value := w.value(leaf)
	switch {
	case value == nil:
	case at.Kind == yaml.SequenceNode:
		at.Content = append(at.Content, value)
	default:
		put(at, key, value)
	}
}

// at finds or makes the mapping or table in which a leaf stands, and its key.
func (w *writer) at(leaf model.Leaf) (*yaml.Node, string) {
	parts := strings.Split(leaf.Path, ".")
	if leaf.Has("scalar") {
		parts = parts[:len(parts)-1] // 80: 0.6 mm, for 80: {stock: 0.6 mm}
	}
	node := w.root
	for i, part := range parts[:len(parts)-1] {
		row := i == len(parts)-2 && part == "value_table"
		if row && w.study.Origins[leaf.Path].Assumed {
			return nil, ""
		}
		next := find(node, part)
		if next == nil {
			next = mapping()
			if row {
				next.Kind = yaml.SequenceNode
			}
			put(node, part, next)
		}
		node = next
	}
	return node, parts[len(parts)-1]
}

// value writes a leaf; nil where there is nothing to write.
func (w *writer) value(leaf model.Leaf) *yaml.Node {
	if dim, ok := leaf.Dimension(); ok {
		return w.quantity(leaf, dim)
	}
	switch leaf.Value.Kind() {
	case reflect.Bool:
		return scalar(map[bool]string{true: "yes", false: "no"}[leaf.Value.Bool()])
	case reflect.Slice:
		list := &yaml.Node{Kind: yaml.SequenceNode, Style: yaml.FlowStyle}
		for i := range leaf.Value.Len() {
			list.Content = append(list.Content, scalar(leaf.Value.Index(i).String()))
		}
		return list
	}
	switch text := leaf.Value.String(); {
	case leaf.Path == "units":
		return scalar(w.system.String())
	case text == "":
		return nil
	default:
		return words(text)
	}
}

func (w *writer) quantity(leaf model.Leaf, dim quantity.Dimension) *yaml.Node {
	origin, known := w.study.Origins[leaf.Path]
	show := func(x float64) *yaml.Node { return scalar(quantity.Format(dim, x, w.system)) }
	if !known {
		return show(leaf.Number())
	}
	node := mapping()
	node.Style = yaml.FlowStyle
	put(node, "value", show(leaf.Number()))
	if origin.HasRange {
		put(node, "low", show(origin.Low))
		put(node, "high", show(origin.High))
	}
	if origin.Shape != "" {
		put(node, "shape", scalar(origin.Shape))
	}
	if origin.Note != "" {
		put(node, "note", words(origin.Note))
	}
	if origin.Source != "" {
		put(node, "source", words(origin.Source))
	}
	return node
}

func mapping() *yaml.Node { return &yaml.Node{Kind: yaml.MappingNode} }

func scalar(text string) *yaml.Node { return &yaml.Node{Kind: yaml.ScalarNode, Value: text} }

// words are quoted where they could be read as something else.
func words(text string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text}
}

func find(node *yaml.Node, key string) *yaml.Node {
	for i := 0; i+1 < len(node.Content); i += 2 {
		if node.Content[i].Value == key {
			return node.Content[i+1]
		}
	}
	return nil
}

func put(node *yaml.Node, key string, value *yaml.Node) {
	name := scalar(key)
	if _, err := strconv.Atoi(key); err == nil {
		name.Tag = "!!int" // a grit: 80, not "80"
	}
	node.Content = append(node.Content, name, value)
}
