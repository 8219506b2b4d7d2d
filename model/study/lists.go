package study

import (
	"fmt"
	"iter"
	"reflect"
	"regexp"
	"strings"

	"go.yaml.in/yaml/v3"

	"shopstint/model"
	"shopstint/model/problem"
)

// mostMembers is how many members a keyed list may have, by its key.
func mostMembers(list string) int {
	switch list {
	case "shops":
		return 10
	case "job_types":
		return 200
	case "pieces", "grits", "ways":
		return 12
	case "operations":
		return 30
	case "edges", "abrasives", "materials":
		return 100
	case "dated_jobs":
		return 400
	}
	return 40 // machines, candidates and hired, and tools
}

// listOf is the key of the list at a path.
func listOf(path string) string { return path[strings.LastIndexByte(path, '.')+1:] }

var (
	memberKey = regexp.MustCompile(`^[a-z][a-z0-9_]{0,31}$`)
	gritKey   = regexp.MustCompile(`^[1-9][0-9]{1,3}$`)
)

// pairs runs over the keys of a mapping and their values, each key once: a key
// that comes twice is reported where it comes again.
func (r *reader) pairs(path string, node *yaml.Node) iter.Seq2[*yaml.Node, *yaml.Node] {
	return func(yield func(name, content *yaml.Node) bool) {
		first := map[string]*yaml.Node{}
		for i := 0; i < len(node.Content); i += 2 {
			name, content := node.Content[i], node.Content[i+1]
			if r.readableKey(path, name, first) && !yield(name, content) {
				return
			}
		}
	}
}

func (r *reader) readableKey(path string, name *yaml.Node, first map[string]*yaml.Node) bool {
	switch earlier := first[name.Value]; {
	case r.refused[name] || name.Tag == "!!merge":
		r.unread.add(path)
		return false
	case name.Kind != yaml.ScalarNode:
		r.lose(path, name, fmt.Sprintf("a key in %s is %s", nameOf(path), kindOf(name)), "write one word in front of the colon")
		return false
	case earlier != nil:
		also := []problem.Place{r.place(earlier)}
		r.problems = append(r.problems, problem.Problem{
			Path: join(path, name.Value), Place: r.place(name), Also: also,
			What:  fmt.Sprintf("the key %s comes twice in %s", quoted(name.Value), nameOf(path)),
			Right: "keep one of them",
		})
		return false
	}
	first[name.Value] = name
	return true
}

// members reads a mapping of keys to members, in the order written.
func (r *reader) members(path string, key, node *yaml.Node, f field) {
	if node.Kind != yaml.MappingNode && !isEmpty(node) {
		r.lose(path, node, fmt.Sprintf("%s is %s", path, kindOf(node)), "write a key of your own for each, with its fields below it")
		return
	}
	members := reflect.Zero(f.value.Type())
	for name, content := range r.pairs(path, node) {
		if members.Len() == mostMembers(listOf(path)) {
			break // reported by countMembers
		}
		if !r.goodKey(path, name, f) {
			continue
		}
		member := reflect.New(f.value.Type().Elem()).Elem()
		member.FieldByName("Key").SetString(name.Value)
		r.member(join(path, name.Value), name, content, member)
		members = reflect.Append(members, member)
	}
	f.value.Set(members) // an empty list is as none
	r.countMembers(path, key, len(node.Content)/2, f)
}

// countMembers keeps a list within its bounds.
func (r *reader) countMembers(path string, key *yaml.Node, count int, f field) {
	if most := mostMembers(listOf(path)); count > most {
		r.lose(path, key, fmt.Sprintf("%s has %d members", path, count), fmt.Sprintf("give at most %d", most))
	}
	if count == 0 && f.tag.Get("need") == "yes" && !hasDefault(f) {
		r.lose(path, key, path+" has no member", "give at least one, with a key of your own and its fields below it")
	}
}

// goodKey judges the name that the user gives a member. A member under a bad
// name cannot be referred to, so the whole list counts as not fully read.
func (r *reader) goodKey(path string, name *yaml.Node, f field) bool {
	form, right := memberKey, "use small letters, digits and _, beginning with a letter, at most 32 characters"
	if f.value.Type().Elem() == reflect.TypeFor[model.Grit]() {
		form, right = gritKey, "use the grit number, such as 80"
	}
	if form.MatchString(name.Value) {
		return true
	}
	r.lose(path, name, fmt.Sprintf("%s in %s is no key for a member", quoted(name.Value), path), right)
	return false
}

// member reads one member. Where its only input may stand for the whole, as the
// stock of a grit, a plain value or a value with its range is that input.
func (r *reader) member(path string, name, content *yaml.Node, member reflect.Value) {
	r.places[path] = r.place(name)
	if f, ok := soleInput(member); ok && !isEmpty(content) && (content.Kind == yaml.ScalarNode || looksRanged(content)) {
		r.field(join(path, f.key), name, content, f)
		return
	}
	r.structure(path, name, content, member)
}

func soleInput(member reflect.Value) (field, bool) {
	for _, f := range fieldsOf(member) {
		if f.tag.Get("scalar") == "yes" {
			return f, true
		}
	}
	return field{}, false
}

// looksRanged tells whether a mapping is a value with its range.
func looksRanged(node *yaml.Node) bool {
	for i := 0; node.Kind == yaml.MappingNode && i < len(node.Content); i += 2 {
		if contains(rangedKeys, node.Content[i].Value) {
			return true
		}
	}
	return false
}
