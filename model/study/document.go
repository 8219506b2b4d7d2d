package study

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"go.yaml.in/yaml/v3"

	"shopstint/model/problem"
)

// document returns the mapping that the file holds, or nil after reporting why
// there is none.
func (r *reader) document(src []byte) *yaml.Node {
	text, f := plain(src)
	if f != nil {
		return r.fail(f)
	}
	documents, err := parse(text)
	if err != nil {
		return r.fail(syntaxFault(text, err))
	}
	if len(documents) > 1 {
		r.refuse("", documents[1], "a second document begins here", "write one study in a file; take the line --- out")
	}
	root := documents[0].Content[0]
	if !r.inspect(root, 1) {
		return nil
	}
	if root.Kind != yaml.MappingNode {
		if !r.refused[root] {
			r.refuse("", root, "the study is "+kindOf(root), "write keys with their values, such as currency: EUR")
		}
		return nil
	}
	return root
}

func (r *reader) fail(f *fault) *yaml.Node {
	r.problems = append(r.problems, problem.Problem{Place: r.at(f.line, f.column), What: f.what, Right: f.right})
	return nil
}

// parse reads every document of the text as nodes; nothing is resolved.
func parse(text string) (documents []*yaml.Node, err error) {
	// The parser is not ours: should it ever panic on hostile text, that is a
	// file which cannot be read, not a program that falls over.
	defer func() {
		if recover() != nil {
			err = errors.New("unknown trouble")
		}
	}()
	decoder := yaml.NewDecoder(strings.NewReader(text))
	for {
		document := &yaml.Node{}
		switch err := decoder.Decode(document); {
		case errors.Is(err, io.EOF):
			return some(documents)
		case err != nil:
			return nil, err
		}
		documents = append(documents, document)
	}
}

// some refuses a file of comments only.
func some(documents []*yaml.Node) ([]*yaml.Node, error) {
	if len(documents) == 0 {
		return nil, errNothing
	}
	return documents, nil
}

var errNothing = errors.New("no document")

// inspect reports, in the whole tree, the parts of the format that a study does
// not use: they can make a small file mean something huge, or hide what it means.
// It is false for a tree too deep to go on with.
func (r *reader) inspect(node *yaml.Node, depth int) bool {
	switch {
	case node.Kind == yaml.AliasNode || node.Anchor != "":
		r.refuse("", node, fmt.Sprintf("an anchor or alias (%s) stands here", quoted(anchorText(node))), "anchors and aliases are not read; write the value out")
		r.refused[node] = node.Kind == yaml.AliasNode
	case node.Tag == "!!merge":
		r.refuse("", node, `the merge key "<<" stands here`, "merge keys are not read; write the keys out")
	case node.Style&yaml.TaggedStyle != 0:
		r.refuse("", node, "the tag "+quoted(node.Tag)+" stands here", "tags are not read; leave it out")
	}
	if depth > mostDepth {
		r.refuse("", node, fmt.Sprintf("more than %d mappings and lists stand within each other", mostDepth), "a study is not that deep")
		return false
	}
	for _, child := range node.Content {
		if !r.inspect(child, depth+1) {
			return false
		}
	}
	return true
}

func anchorText(node *yaml.Node) string {
	if node.Kind == yaml.AliasNode {
		return "*" + node.Value
	}
	return "&" + node.Anchor
}

// kindOf says in plain words what a node is.
func kindOf(node *yaml.Node) string {
	switch {
	case node.Kind == yaml.SequenceNode:
		return "a list"
	case node.Kind == yaml.MappingNode:
		return "a mapping of keys"
	case isEmpty(node):
		return "empty"
	}
	return "the single value " + quoted(node.Value)
}

// isEmpty tells whether a key stands without a value.
func isEmpty(node *yaml.Node) bool { return node.Kind == yaml.ScalarNode && node.Tag == "!!null" }
