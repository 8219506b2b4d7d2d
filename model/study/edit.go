package study

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"shopstint/model"
)

// Change is a new figure for one input of a study.
type Change struct {
	Path      string // "edges.small_blade.life"
	Value     string // as a study writes it: "130 m"
	Low, High string // its range, likewise; both "" to leave the range as it is
	Source    string // who says so; "" to leave it as it is
}

// Edit returns the text of a study with some figures changed, and everything else
// byte for byte as it was: comments, order, blank lines, line ends. An input that
// the study did not give gets a line of its own beside its neighbours. The result
// is a study that loads; what cannot be changed in this way is an error that says
// what to write by hand, and then nothing is changed. Name is the file's name in
// the errors.
func Edit(name string, src []byte, changes []Change) ([]byte, error) {
	text := string(src)
	for _, change := range changes {
		edited, err := edit(text, change)
		if err != nil {
			return nil, fmt.Errorf("could not change %s in %s: %w", change.Path, name, err)
		}
		text = edited
	}
	if _, _, problems := Load(name, []byte(text)); len(problems) > 0 {
		return nil, fmt.Errorf("could not change %s: with the new figures it would be wrong: %w", name, problems)
	}
	return []byte(text), nil
}

// edit makes one change.
func edit(text string, change Change) (string, error) {
	page, err := open(text)
	if err != nil {
		return "", err
	}
	found := page.find(strings.Split(change.Path, "."))
	switch {
	case len(found.missing) > 0:
		err = page.add(found, change)
	case found.node.Kind == yaml.MappingNode:
		err = page.reword(found.node, change)
	default:
		err = page.replace(found.node, change.inFull())
	}
	return page.text(), err
}

// inFull writes the figure with all that is known of it.
func (c Change) inFull() string {
	parts := []string{"value: " + inFlow(c.Value)}
	for _, part := range c.besides() {
		parts = append(parts, part[0]+": "+part[1])
	}
	if len(parts) == 1 {
		return inFlow(c.Value)
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// besides are the keys that a change sets beside the value.
func (c Change) besides() [][2]string {
	var parts [][2]string
	if c.Low != "" || c.High != "" {
		parts = append(parts, [2]string{"low", inFlow(c.Low)}, [2]string{"high", inFlow(c.High)})
	}
	if c.Source != "" {
		parts = append(parts, [2]string{"source", inQuotes(c.Source)})
	}
	return parts
}

// inFlow quotes what could be read as something else between braces.
func inFlow(text string) string {
	if text == "" || strings.ContainsAny(text, "\"'#:{}[],") || strings.ContainsAny(text[:1], "&*!|>%@`?") {
		return inQuotes(text)
	}
	return text
}

func inQuotes(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", " ", "\r", " ", "\t", " ").Replace(text) + `"`
}

// page is the text of a study as lines, with the tree that the parser makes of it.
type page struct {
	mark  string // of byte order, where the text begins with one
	end   string // how lines end
	lines []string
	root  *yaml.Node
}

func open(text string) (*page, error) {
	body := strings.TrimPrefix(text, "\ufeff")
	readable, _ := plain([]byte(text)) // nothing of what is no text, and nothing is no study
	p := &page{mark: text[:len(text)-len(body)], end: "\n", lines: strings.SplitAfter(body, "\n")}
	if strings.Contains(body, "\r\n") {
		p.end = "\r\n"
	}
	documents, err := parse(readable)
	if err != nil || len(documents) != 1 || documents[0].Content[0].Kind != yaml.MappingNode {
		return nil, errors.New("the file is no study that can be read")
	}
	p.root = documents[0].Content[0]
	return p, nil
}

func (p *page) text() string { return p.mark + strings.Join(p.lines, "") }

// reach is how far a path could be followed: the last node, and the keys that it
// lacks.
type reach struct {
	node    *yaml.Node
	missing []string
}

// find follows a path from the root. A grit may be written as its sole input.
func (p *page) find(path []string) reach {
	sole, _ := soleInput(reflect.ValueOf(model.Grit{}))
	at := p.root
	for i, key := range path {
		next := child(at, key)
		if next == nil && key == sole.key && (at.Kind == yaml.ScalarNode || looksRanged(at)) {
			return reach{node: at}
		}
		if next == nil {
			return reach{at, path[i:]}
		}
		at = next
	}
	return reach{node: at}
}

// child is the value of a key of a mapping, or a row of a table.
func child(node *yaml.Node, key string) *yaml.Node {
	if row, err := strconv.Atoi(key); node.Kind == yaml.SequenceNode && err == nil && row > 0 && row <= len(node.Content) {
		return node.Content[row-1]
	}
	for i := 0; node.Kind == yaml.MappingNode && i < len(node.Content); i += 2 {
		if node.Content[i].Value == key {
			return node.Content[i+1]
		}
	}
	return nil
}

// span is where a single value stands in its line, in bytes.
type span struct{ line, from, to int }

var errByHand = errors.New("its value is written over several lines or in an unusual way; write the new one by hand")

// spanOf finds the bytes of a single value that stands on one line. The parser
// tells where a value begins, in letters, and not where it ends.
func (p *page) spanOf(node *yaml.Node) (span, error) {
	if node.Line > len(p.lines) { // nothing is written for it, at the end of the file
		return span{}, errByHand
	}
	line := p.lines[node.Line-1]
	from := byteAt(line, node.Column-1)
	length := written(line[from:], node)
	if length == 0 {
		return span{}, errByHand
	}
	return span{node.Line - 1, from, from + length}, nil
}

// byteAt is where a letter of a line begins.
func byteAt(line string, letters int) int {
	for at := range line {
		if letters == 0 {
			return at
		}
		letters--
	}
	return len(line)
}

// written is how many bytes a value takes up at the beginning of a text; 0 when it
// is not wholly there.
func written(text string, node *yaml.Node) int {
	switch {
	case node.Style&yaml.SingleQuotedStyle != 0:
		quoted := "'" + strings.ReplaceAll(node.Value, "'", "''") + "'"
		if strings.HasPrefix(text, quoted) {
			return len(quoted)
		}
	case node.Style&yaml.DoubleQuotedStyle != 0:
		return closing(text)
	case strings.HasPrefix(text, node.Value):
		return len(node.Value)
	}
	return 0
}

// closing is where a text in double quotes ends on its line.
func closing(text string) int {
	for at := 1; at < len(text); at++ {
		switch text[at] {
		case '\\':
			at++
		case '"':
			return at + 1
		}
	}
	return 0
}

// replace puts a new value in the place of a single one.
func (p *page) replace(node *yaml.Node, value string) error {
	at, err := p.spanOf(node)
	if err != nil {
		return err
	}
	line := p.lines[at.line]
	p.lines[at.line] = line[:at.from] + value + line[at.to:]
	return nil
}

// reword changes a value that stands with what is known of it.
func (p *page) reword(node *yaml.Node, change Change) error {
	value := child(node, "value")
	if value == nil {
		return errByHand
	}
	var absent [][2]string
	edits := []rewording{{value, inFlow(change.Value)}}
	for _, part := range change.besides() {
		if there := child(node, part[0]); there != nil {
			edits = append(edits, rewording{there, part[1]})
		} else {
			absent = append(absent, part)
		}
	}
	return p.rewordAll(node, edits, absent)
}

// rewording is a new text for a value that is there.
type rewording struct {
	node *yaml.Node
	text string
}

// rewordAll makes the edits from the end of the text to its beginning; what is
// absent is put behind the last of them.
func (p *page) rewordAll(node *yaml.Node, edits []rewording, absent [][2]string) error {
	slices.SortFunc(edits, func(a, b rewording) int {
		return cmp.Or(cmp.Compare(b.node.Line, a.node.Line), cmp.Compare(b.node.Column, a.node.Column))
	})
	if err := p.behind(node, edits[0].node, absent); err != nil {
		return err
	}
	for _, one := range edits {
		if err := p.replace(one.node, one.text); err != nil {
			return err
		}
	}
	return nil
}

// behind writes keys behind a value of a mapping: between its braces, or on lines
// of their own.
func (p *page) behind(node, value *yaml.Node, parts [][2]string) error {
	if len(parts) == 0 {
		return nil
	}
	at, err := p.spanOf(value)
	if err != nil {
		return err
	}
	line := p.lines[at.line]
	if node.Style&yaml.FlowStyle != 0 {
		var more bytes.Buffer
		for _, part := range parts {
			fmt.Fprintf(&more, ", %s: %s", part[0], part[1])
		}
		p.lines[at.line] = line[:at.to] + more.String() + line[at.to:]
		return nil
	}
	p.insert(at.line+1, node.Content[0].Column-1, parts)
	return nil
}

// insert writes keys on lines of their own before a line.
func (p *page) insert(before, indent int, parts [][2]string) {
	if last := len(p.lines) - 1; before > last {
		p.lines[last] += p.end
	}
	var more []string
	for _, part := range parts {
		more = append(more, strings.Repeat(" ", indent)+part[0]+": "+part[1]+p.end)
	}
	p.lines = append(p.lines[:before], append(more, p.lines[before:]...)...)
}

// add writes an input that the study did not give into the nearest mapping around
// it: behind a neighbour that is a single value, or else in front of the first.
func (p *page) add(at reach, change Change) error {
	node := at.node
	if node.Kind != yaml.MappingNode || looksRanged(node) {
		return errors.New("the study has no place for it; write it by hand")
	}
	part := [2]string{at.missing[0], nested(at.missing[1:], change.inFull())}
	if neighbour := p.neighbour(node); neighbour != nil {
		return p.behind(node, neighbour, [][2]string{part})
	}
	if node.Style&yaml.FlowStyle != 0 {
		p.first(node, part)
		return nil
	}
	p.insert(node.Content[0].Line-1, node.Content[0].Column-1, [][2]string{part})
	return nil
}

// nested puts a value under keys between braces.
func nested(keys []string, value string) string {
	for i := len(keys) - 1; i >= 0; i-- {
		value = "{" + keys[i] + ": " + value + "}"
	}
	return value
}

// neighbour is the last single value of a mapping that stands wholly on one line;
// nil when there is none.
func (p *page) neighbour(node *yaml.Node) *yaml.Node {
	for i := len(node.Content) - 2; i >= 0; i -= 2 {
		value := node.Content[i+1]
		if _, err := p.spanOf(value); err == nil {
			return value
		}
	}
	return nil
}

// first writes a key in front of all others between braces.
func (p *page) first(node *yaml.Node, part [2]string) {
	line := p.lines[node.Line-1]
	behind := byteAt(line, node.Column) // the brace
	separator := ", "
	if len(node.Content) == 0 {
		separator = ""
	}
	p.lines[node.Line-1] = line[:behind] + part[0] + ": " + part[1] + separator + line[behind:]
}
