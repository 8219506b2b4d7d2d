package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// change is one edit of a file: bytes replaced by a text.
type change struct {
	file     string
	src      []byte
	place    token.Position
	from, to int
	text     string
}

func (c change) String() string {
	return fmt.Sprintf("%s:%d:%d: %s: %s", filepath.Base(c.file), c.place.Line, c.place.Column, c.what(), c.line())
}

// what is the change alone: "<= for <".
func (c change) what() string { return fmt.Sprintf("%s for %s", c.text, c.src[c.from:c.to]) }

// line is the line of source, trimmed.
func (c change) line() string {
	begin := bytes.LastIndexByte(c.src[:c.from], '\n') + 1
	line, _, _ := bytes.Cut(c.src[begin:], []byte("\n"))
	return strings.TrimSpace(string(line))
}

func (c change) key(p listed) reasonKey { return reasonKey{p.name(), c.line(), c.what()} }

// overlay writes the changed file and tells the go tool to take it; false where
// the result is no Go.
func (c change) overlay(folder string) (string, bool) {
	changed := slices.Concat(c.src[:c.from], []byte(c.text), c.src[c.to:])
	if _, err := format.Source(changed); err != nil {
		return "", false
	}
	file, overlay := filepath.Join(folder, "changed.go"), filepath.Join(folder, "overlay.json")
	told, err := json.Marshal(map[string]map[string]string{"Replace": {c.file: file}})
	if err != nil || os.WriteFile(file, changed, 0o600) != nil || os.WriteFile(overlay, told, 0o600) != nil {
		return "", false
	}
	return overlay, true
}

func changesOf(p listed) ([]change, error) {
	var changes []change
	for _, name := range p.GoFiles {
		path := filepath.Join(p.Dir, name)
		src, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		files := token.NewFileSet()
		tree, err := parser.ParseFile(files, path, src, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		ast.Inspect(tree, func(node ast.Node) bool {
			if bare(node) {
				return false
			}
			from, to := span(node)
			for _, text := range others(node) {
				place := files.Position(from)
				changes = append(changes, change{path, src, place, place.Offset, files.Position(to).Offset, text})
			}
			return true
		})
	}
	return changes, nil
}

// bare are the nodes in which no change could be noticed: types, tags, room made in
// advance, and infinity.
func bare(node ast.Node) bool {
	switch node := node.(type) {
	case *ast.Field:
		return true
	case *ast.CallExpr:
		switch called := node.Fun.(type) {
		case *ast.Ident:
			return called.Name == "make" && len(node.Args) == 3
		case *ast.SelectorExpr:
			return called.Sel.Name == "Inf"
		}
	}
	return false
}

// span is the part of a node that is replaced.
func span(node ast.Node) (from, to token.Pos) {
	sign := func(at token.Pos, sign token.Token) (from, to token.Pos) {
		return at, at + token.Pos(len(sign.String()))
	}
	switch node := node.(type) {
	case *ast.BinaryExpr:
		return sign(node.OpPos, node.Op)
	case *ast.AssignStmt:
		return sign(node.TokPos, node.Tok)
	case *ast.UnaryExpr:
		return sign(node.OpPos, node.Op)
	case nil:
		return token.NoPos, token.NoPos
	}
	return node.Pos(), node.End()
}

// swapped are the signs that take each other's place.
var swapped = map[token.Token][]string{
	token.ADD: {"-"}, token.SUB: {"+"}, token.MUL: {"/"}, token.QUO: {"*"},
	token.LSS: {"<=", ">"}, token.LEQ: {"<", ">"}, token.GTR: {">=", "<"}, token.GEQ: {">", "<"},
	token.EQL: {"!="}, token.NEQ: {"=="}, token.LAND: {"||"}, token.LOR: {"&&"},
	token.ADD_ASSIGN: {"-="}, token.SUB_ASSIGN: {"+="}, token.MUL_ASSIGN: {"/="}, token.QUO_ASSIGN: {"*="},
}

// renamed are the words that take each other's place.
var renamed = map[string]string{
	"true": "false", "false": "true", "min": "max", "max": "min", "Min": "Max", "Max": "Min", "Floor": "Ceil", "Ceil": "Floor",
}

// others are the texts that are tried in the place of a node.
func others(node ast.Node) []string {
	switch node := node.(type) {
	case *ast.BinaryExpr:
		return swapped[node.Op]
	case *ast.AssignStmt:
		return swapped[node.Tok]
	case *ast.UnaryExpr:
		if node.Op == token.SUB || node.Op == token.NOT {
			return []string{""}
		}
	case *ast.BasicLit:
		return otherNumber(node)
	case *ast.Ident:
		if other, ok := renamed[node.Name]; ok {
			return []string{other}
		}
	}
	return nil
}

func otherNumber(literal *ast.BasicLit) []string {
	if literal.Kind != token.INT && literal.Kind != token.FLOAT {
		return nil
	}
	if whole, err := strconv.ParseInt(literal.Value, 0, 64); err == nil {
		return []string{strconv.FormatInt(whole+1, 10)}
	}
	if figure, err := strconv.ParseFloat(literal.Value, 64); err == nil {
		return []string{strconv.FormatFloat(figure*1.5+0.25, 'g', -1, 64)}
	}
	return nil
}
