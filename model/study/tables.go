package study

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"shopstint/model/problem"
)

// mostRows is how many rows a table may have: a value a year.
const mostRows = 60

// rows reads a table: a list of values, numbered from 1.
func (r *reader) rows(path string, key, node *yaml.Node, f field) {
	if node.Kind != yaml.SequenceNode {
		r.lose(path, key, path+" is "+kindOf(node), "write a list, such as [70 %, 60 %, 52 %]")
		return
	}
	if len(node.Content) > mostRows {
		r.lose(path, key, fmt.Sprintf("%s has %d rows", path, len(node.Content)), fmt.Sprintf("give at most %d", mostRows))
		return
	}
	f.value.Set(reflect.MakeSlice(f.value.Type(), len(node.Content), len(node.Content)))
	for i, row := range node.Content {
		r.field(join(path, strconv.Itoa(i+1)), row, row, field{"", f.tag, f.value.Index(i)})
	}
}

// words reads a list of words, or one text of words with spaces between.
func (r *reader) words(path string, key, node *yaml.Node, f field) {
	list := node.Content
	switch node.Kind {
	case yaml.ScalarNode:
		list = nil
		for _, word := range strings.Fields(node.Value) {
			part := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: word, Line: node.Line, Column: node.Column}
			if cell, ok := r.cells[node]; ok {
				r.cells[part] = cell
			}
			list = append(list, part)
		}
	case yaml.MappingNode:
		r.lose(path, key, path+" is "+kindOf(node), "write a list of words, such as "+sampleWords(f))
		return
	}
	var words []string
	seen := map[string]bool{}
	for _, node := range list {
		if word, ok := r.listedWord(path, node, f, seen); ok {
			words = append(words, word)
		}
	}
	f.value.Set(reflect.ValueOf(words))
}

// sampleWords shows a list of the words that a field takes.
func sampleWords(f field) string {
	if f.tag.Get("oneof") == "" {
		return "[first_key, second_key]"
	}
	return "[planer, wide_belt]"
}

func (r *reader) listedWord(path string, node *yaml.Node, f field, seen map[string]bool) (string, bool) {
	oneof := f.tag.Get("oneof")
	known := strings.Fields(oneof)
	switch {
	case r.refused[node]:
		r.unread.add(path)
	case node.Kind != yaml.ScalarNode:
		r.lose(path, node, fmt.Sprintf("an entry of %s is %s", path, kindOf(node)), "write one word")
	case oneof == "" && !memberKey.MatchString(node.Value):
		r.lose(path, node, fmt.Sprintf("%s has %s, which is no key of a member", path, quoted(node.Value)), "write the keys that the study gives its members")
	case oneof != "" && !contains(known, node.Value):
		r.lose(path, node, fmt.Sprintf("%s has %s", path, quoted(node.Value)), problem.Suggest(node.Value, known))
	case seen[node.Value]:
		r.refuse(path, node, fmt.Sprintf("%s has %s twice", path, quoted(node.Value)), "keep one of them")
	default:
		seen[node.Value] = true
		return node.Value, true
	}
	return "", false
}
