// Command mutate changes one constant, sign or comparison of a package at a time
// and tells which changes the tests do not notice. The files stay as they are: the
// go tool is given an overlay.
//
//	go run ./.ci/mutate -n 40 ./capital/... ./rental/...
//
// With -deep a change that the package's own tests let pass is tried on the tests
// of all packages that import it. A change that does not compile is not counted.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

type options struct {
	n       int
	seed    uint64
	deep    bool
	timeout time.Duration
}

func main() {
	var o options
	flag.IntVar(&o.n, "n", 30, "changes tried in each package, drawn at random (0: all)")
	flag.Uint64Var(&o.seed, "seed", 1, "what is drawn")
	flag.BoolVar(&o.deep, "deep", false, "try what was let pass on the packages that import it")
	flag.DurationVar(&o.timeout, "timeout", 2*time.Minute, "a test that takes longer has noticed")
	flag.Parse()
	if err := o.run(flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

// listed is a package as the go tool sees it.
type listed struct {
	ImportPath, Dir string
	GoFiles         []string
	TestGoFiles     []string
	XTestGoFiles    []string
	Deps            []string
}

func (o options) run(patterns []string) error {
	packages, err := list(patterns)
	if err != nil {
		return err
	}
	everything, err := list([]string{"./..."})
	if err != nil {
		return err
	}
	folder, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	var tried, caught int
	for _, p := range packages {
		result, err := o.try(p, everything, folder)
		if err != nil {
			return err
		}
		tried, caught = tried+result.tried, caught+result.caught
		fmt.Printf("%-45s %s\n", p.ImportPath, result)
		for _, one := range result.survivors {
			fmt.Println("    let pass:", one)
		}
	}
	fmt.Printf("%-45s %s\n", "all", tally{tried: tried, caught: caught})
	return nil
}

func list(patterns []string) ([]listed, error) {
	out, err := exec.Command("go", append([]string{"list", "-json=ImportPath,Dir,GoFiles,TestGoFiles,XTestGoFiles,Deps"}, patterns...)...).Output()
	if err != nil {
		return nil, fmt.Errorf("go list %s: %w", strings.Join(patterns, " "), err)
	}
	var found []listed
	for decoder := json.NewDecoder(bytes.NewReader(out)); decoder.More(); {
		var p listed
		if err := decoder.Decode(&p); err != nil {
			return nil, err
		}
		found = append(found, p)
	}
	return found, nil
}

// tally counts what became of the changes of a package.
type tally struct {
	tried, caught int
	survivors     []string
}

func (t tally) String() string {
	if t.tried == 0 {
		return "nothing to change"
	}
	return fmt.Sprintf("%4d tried, %4d noticed, %5.1f %%", t.tried, t.caught, 100*float64(t.caught)/float64(t.tried))
}

func (o options) try(p listed, everything []listed, folder string) (tally, error) {
	changes, err := changesOf(p)
	if err != nil {
		return tally{}, err
	}
	random := rand.New(rand.NewPCG(o.seed, 0))
	random.Shuffle(len(changes), func(i, j int) { changes[i], changes[j] = changes[j], changes[i] })
	var result tally
	for _, change := range changes {
		if o.n > 0 && result.tried == o.n {
			break
		}
		overlay, ok := change.overlay(folder)
		if !ok || !builds(p, overlay) {
			continue
		}
		result.tried++
		switch {
		case len(p.TestGoFiles)+len(p.XTestGoFiles) > 0 && !o.passes(overlay, p.ImportPath):
			result.caught++
		case o.deep && !o.passes(overlay, importers(p, everything)...):
			result.caught++
		default:
			result.survivors = append(result.survivors, change.String())
		}
	}
	slices.Sort(result.survivors)
	return result, nil
}

// importers are the tested packages that import one, near or far, but for the
// command, whose tests take long.
func importers(p listed, everything []listed) []string {
	var found []string
	for _, other := range everything {
		tested := len(other.TestGoFiles)+len(other.XTestGoFiles) > 0
		if tested && slices.Contains(other.Deps, p.ImportPath) && !strings.Contains(other.ImportPath, "/cmd/") {
			found = append(found, other.ImportPath)
		}
	}
	return found
}

func builds(p listed, overlay string) bool {
	return exec.Command("go", "build", "-overlay", overlay, p.ImportPath).Run() == nil
}

// passes tells whether the tests of the packages notice nothing.
func (o options) passes(overlay string, packages ...string) bool {
	if len(packages) == 0 {
		return true
	}
	limit, release := context.WithTimeout(context.Background(), o.timeout*time.Duration(len(packages)))
	defer release()
	arguments := append([]string{"test", "-vet=off", "-failfast", "-timeout", o.timeout.String(), "-overlay", overlay}, packages...)
	command := exec.CommandContext(limit, "go", arguments...)
	command.Env = append(os.Environ(), "SHOPSTINT_NO_OFFICE=1")
	command.WaitDelay = time.Second
	return command.Run() == nil
}

// change is one edit of a file: bytes replaced by a text.
type change struct {
	file     string
	src      []byte
	place    token.Position
	from, to int
	text     string
}

func (c change) String() string {
	return fmt.Sprintf("%s:%d:%d: %s for %s", filepath.Base(c.file), c.place.Line, c.place.Column, c.text, c.src[c.from:c.to])
}

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
			if _, tag := node.(*ast.Field); tag {
				return false // types and tags are data
			}
			for _, text := range others(node) {
				from, to := span(node, files)
				changes = append(changes, change{path, src, files.Position(node.Pos()), from, to, text})
			}
			return true
		})
	}
	return changes, nil
}

// span is the part of a node that is replaced, in bytes of the file.
func span(node ast.Node, files *token.FileSet) (from, to int) {
	if binary, ok := node.(*ast.BinaryExpr); ok {
		at := files.Position(binary.OpPos).Offset
		return at, at + len(binary.Op.String())
	}
	return files.Position(node.Pos()).Offset, files.Position(node.End()).Offset
}

// swapped are the signs that take each other's place.
var swapped = map[token.Token][]string{
	token.ADD: {"-"}, token.SUB: {"+"}, token.MUL: {"/"}, token.QUO: {"*"},
	token.LSS: {"<=", ">"}, token.LEQ: {"<", ">"}, token.GTR: {">=", "<"}, token.GEQ: {">", "<"},
	token.EQL: {"!="}, token.NEQ: {"=="}, token.LAND: {"||"}, token.LOR: {"&&"},
}

// others are the texts that are tried in the place of a node.
func others(node ast.Node) []string {
	switch node := node.(type) {
	case *ast.BinaryExpr:
		return swapped[node.Op]
	case *ast.BasicLit:
		return otherNumber(node)
	case *ast.Ident:
		switch node.Name {
		case "true":
			return []string{"false"}
		case "false":
			return []string{"true"}
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
