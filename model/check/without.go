package check

import (
	"strings"

	"shopstint/model"
	"shopstint/model/problem"
)

// Without is Study for a study of which some inputs could not be read: the
// paths in unread, "" for the whole. A problem that rests on one of them is left
// out, since it may only follow from that.
//
// Source: common practice, no source.
func Without(study *model.Study, unread []string) []problem.Problem {
	var kept []problem.Problem
	missing := gather(unread)
	for _, rule := range Rules {
		for _, found := range rule.Check(study) {
			if !missing.under(found.Path, rule.Reads) {
				kept = append(kept, found)
			}
		}
	}
	return kept
}

// tree holds unread paths part by part, so that a hostile study with thousands
// of them costs no more than it is long.
type tree struct {
	unread bool
	next   map[string]*tree
}

func gather(paths []string) *tree {
	root := &tree{}
	for _, path := range paths {
		at := root
		for part := range strings.SplitSeq(path, ".") {
			if path == "" {
				break
			}
			at = at.child(part)
		}
		at.unread = true
	}
	return root
}

func (t *tree) child(part string) *tree {
	if t.next == nil {
		t.next = map[string]*tree{}
	}
	if t.next[part] == nil {
		t.next[part] = &tree{}
	}
	return t.next[part]
}

// under tells whether a finding at path rests on an unread input: the path
// itself, or one that the rule reads, of this member where the pattern runs
// along the path.
func (t *tree) under(path string, reads []string) bool {
	if t.holds(strings.Split(path, ".")) {
		return true
	}
	for _, pattern := range reads {
		if t.holds(bind(pattern, path)) {
			return true
		}
	}
	return false
}

// holds tells whether the input, or something around it, is unread.
func (t *tree) holds(input []string) bool {
	switch {
	case t == nil:
		return false
	case t.unread:
		return true
	case len(input) == 0:
		return false
	case input[0] != "*":
		return t.next[input[0]].holds(input[1:])
	}
	for _, next := range t.next {
		if next.holds(input[1:]) {
			return true
		}
	}
	return false
}

// bind puts the path's own keys for the leading stars of a pattern that runs
// along it: machines.*.class on machines.planer20.feed is machines.planer20.class.
func bind(pattern, path string) []string {
	parts, own := strings.Split(pattern, "."), strings.Split(path, ".")
	for i := range min(len(parts), len(own)) {
		if parts[i] == "*" {
			parts[i] = own[i]
		}
		if parts[i] != own[i] {
			break
		}
	}
	return parts
}
