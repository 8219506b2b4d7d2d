package main

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Most changes of a package go into one build of it, each behind its number, so that
// trying one is running a test program that is there already:
//
//	a + b    becomes    func() float64 { if theChange == 7 { return a - b }; return a + b }()
//
// A change where no call can stand, as in the declaration of a constant, is built by
// itself.

// chooser reads the number of the change from a file: what tests start, as scripts do
// the command, is not given their environment.
const chooser = `package %s

import (
	"os"
	"strconv"
)

var theChange = func() int {
	text, _ := os.ReadFile(%q)
	n, _ := strconv.Atoi(string(text))
	return n
}()
`

// chosen is where the number stands.
func (s *switched) chosen() string { return filepath.Join(s.folder, "change") }

// site is the smallest part of a file that can become a choice.
type site struct {
	from, to int    // bytes of the file
	result   string // the type of the expression; empty for a statement
	inner    []*site
	choices  map[int]string // by number of the change
}

// switched is a package built with all its changes, and the tests built on it.
type switched struct {
	folder, overlay string
	numbers         map[string]int // of the changes in it, by their text
	programs        map[string]string
	took            map[string]time.Duration // by a package's tests, with no change
}

// number returns the number of a change, 0 where it is not in the build.
func (s *switched) number(c change) int { return s.numbers[c.String()] }

// buildAll builds a package with all the changes that can be chosen at run time.
func buildAll(p listed, changes []change, folder string) (*switched, error) {
	files, trees, pkg, info, err := typed(p)
	if err != nil {
		return nil, err
	}
	s := &switched{folder: folder, overlay: filepath.Join(folder, "switched.json"), numbers: map[string]int{}, programs: map[string]string{}, took: map[string]time.Duration{}}
	replaced := map[string]string{}
	for path, tree := range trees {
		src, sites := []byte(nil), map[ast.Node]*site{}
		for i, c := range changes {
			if c.file != path {
				continue
			}
			src = c.src
			if place, ok := placeOf(c, tree, files, pkg, info, sites); ok {
				place.choices[i+1] = string(slices.Concat(src[place.from:c.from], []byte(c.text), src[c.to:place.to]))
				s.numbers[c.String()] = i + 1
			}
		}
		if len(sites) == 0 {
			continue
		}
		out := filepath.Join(folder, fmt.Sprintf("switched%d.go", len(replaced)))
		if err := os.WriteFile(out, []byte(written(src, nested(sites))), 0o600); err != nil {
			return nil, err
		}
		replaced[path] = out
	}
	out := filepath.Join(folder, "chooser.go")
	replaced[filepath.Join(p.Dir, "mutate_chooser.go")] = out
	told, err := json.Marshal(map[string]map[string]string{"Replace": replaced})
	if err != nil {
		return nil, err
	}
	return s, cmp.Or(os.WriteFile(out, fmt.Appendf(nil, chooser, pkg.Name(), s.chosen()), 0o600), os.WriteFile(s.overlay, told, 0o600))
}

// program returns the test program of a package on this build.
func (s *switched) program(p listed) (string, error) {
	if path, ok := s.programs[p.ImportPath]; ok {
		return path, nil
	}
	path := filepath.Join(s.folder, fmt.Sprintf("tests%d", len(s.programs)))
	out, err := exec.Command("go", "test", "-c", "-vet=off", "-ldflags=-s -w", "-overlay", s.overlay, "-o", path, p.ImportPath).CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("%s with a choice of changes: %w\n%s", p.name(), err, out)
	}
	s.programs[p.ImportPath] = path
	return path, nil
}

// limit is how long a package's tests may take before they have noticed.
func (s *switched) limit(p listed) time.Duration {
	if took, known := s.took[p.ImportPath]; known {
		return max(10*time.Second, 10*took)
	}
	return 10 * time.Minute
}

// passes tells whether a package's tests notice nothing of the change with a number,
// where 0 is none.
func (s *switched) passes(number int, p listed, only string) (bool, error) {
	program, err := s.program(p)
	if err != nil {
		return false, err
	}
	if err := os.WriteFile(s.chosen(), []byte(strconv.Itoa(number)), 0o600); err != nil {
		return false, err
	}
	limit, release := context.WithTimeout(context.Background(), s.limit(p))
	defer release()
	command := exec.CommandContext(limit, program, append([]string{"-test.failfast", "-test.paniconexit0", "-test.run=" + only}, p.flags()...)...)
	command.Dir = p.Dir
	command.Env = append(os.Environ(), "SHOPSTINT_NO_OFFICE=1", "PWD="+p.Dir)
	begun := time.Now()
	passed := command.Run() == nil
	if number == 0 {
		s.took[p.ImportPath] = time.Since(begun)
	}
	return passed, nil
}

// typed reads a package with its types.
func typed(p listed) (*token.FileSet, map[string]*ast.File, *types.Package, *types.Info, error) {
	out, err := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}}\t{{.Export}}", p.ImportPath).Output()
	if err != nil {
		return nil, nil, nil, nil, fmt.Errorf("go list -export %s: %w", p.ImportPath, err)
	}
	exports := map[string]string{}
	for line := range strings.Lines(string(out)) {
		path, export, _ := strings.Cut(strings.TrimSpace(line), "\t")
		exports[path] = export
	}
	files, trees, all := token.NewFileSet(), map[string]*ast.File{}, []*ast.File(nil)
	for _, name := range p.GoFiles {
		path := filepath.Join(p.Dir, name)
		tree, err := parser.ParseFile(files, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, nil, nil, nil, err
		}
		trees[path], all = tree, append(all, tree)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	config := types.Config{Importer: importer.ForCompiler(files, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })}
	pkg, err := config.Check(p.ImportPath, files, all, info)
	return files, trees, pkg, info, err
}

// placeOf finds or makes the site of a change; false where it can have none.
func placeOf(c change, tree *ast.File, files *token.FileSet, pkg *types.Package, info *types.Info, sites map[ast.Node]*site) (*site, bool) {
	base := files.File(tree.Pos()).Pos(0)
	path := pathTo(tree, base+token.Pos(c.from), base+token.Pos(c.to))
	node, ok := chosenNode(path, info)
	if !ok {
		return nil, false
	}
	place := sites[node]
	if place == nil {
		place = &site{from: int(node.Pos() - base), to: int(node.End() - base), choices: map[int]string{}}
		if expression, ok := node.(ast.Expr); ok {
			place.result = types.TypeString(types.Default(info.Types[expression].Type), func(other *types.Package) string {
				if other == pkg {
					return ""
				}
				return other.Name()
			})
		}
	}
	text := string(slices.Concat(c.src[place.from:c.from], []byte(c.text), c.src[c.to:place.to]))
	if !compiles(place, text, files, pkg, node.Pos()) {
		return nil, false
	}
	sites[node] = place
	return place, true
}

// compiles tells whether a text can be returned in the place of a site.
func compiles(place *site, text string, files *token.FileSet, pkg *types.Package, at token.Pos) bool {
	function := "func() { " + text + " }"
	if place.result != "" {
		function = "func() " + place.result + " { return (" + text + ") }"
	}
	expression, err := parser.ParseExpr(function)
	return err == nil && types.CheckExpr(files, pkg, at, expression, nil) == nil
}

// pathTo lists the nodes around a part of the file, innermost first.
func pathTo(tree *ast.File, from, to token.Pos) []ast.Node {
	var path []ast.Node
	ast.Inspect(tree, func(node ast.Node) bool {
		around := node != nil && node.Pos() <= from && to <= node.End()
		if around {
			path = append(path, node)
		}
		return around
	})
	slices.Reverse(path)
	return path
}

// chosenNode is the innermost node around a change that can become a choice: a
// statement, or the largest expression that is a constant with it.
func chosenNode(path []ast.Node, info *types.Info) (ast.Node, bool) {
	node := path[0]
	if _, name := node.(*ast.Ident); name && len(path) > 2 {
		for _, outer := range path[1:3] {
			if call, ok := outer.(*ast.CallExpr); ok && (call.Fun == path[0] || call.Fun == path[1]) {
				node = call
			}
		}
	}
	for i, outer := range path {
		switch outer := outer.(type) {
		case ast.Expr:
			if info.Types[outer].Value != nil {
				node = outer
			}
			if pair, ok := outer.(*ast.KeyValueExpr); ok && i > 0 && pair.Key == path[i-1] {
				return nil, false
			}
			if _, ok := outer.(*ast.ArrayType); ok {
				return nil, false
			}
			if element, ok := outer.(*ast.IndexExpr); ok && i > 0 && element.Index == path[i-1] && info.Types[element.Index].Value != nil {
				return nil, false // where an index beyond an array does not compile
			}
		case *ast.GenDecl:
			if outer.Tok == token.CONST {
				return nil, false
			}
		}
	}
	return node, fits(node, path, info)
}

// fits tells whether a choice can stand in the place of a node.
func fits(node ast.Node, path []ast.Node, info *types.Info) bool {
	switch node := node.(type) {
	case *ast.AssignStmt:
		at := slices.Index(path, ast.Node(node))
		switch path[at+1].(type) {
		case *ast.BlockStmt, *ast.CaseClause:
			return true
		}
		return false
	case ast.Expr:
		return info.Types[node].IsValue() && info.Types[node].Type != nil
	}
	return false
}

// nested puts the sites of a file into each other; the outermost are returned.
func nested(sites map[ast.Node]*site) []*site {
	var all, outermost, open []*site
	for _, one := range sites {
		all = append(all, one)
	}
	slices.SortFunc(all, func(a, b *site) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(b.to, a.to)) })
	for _, one := range all {
		for len(open) > 0 && open[len(open)-1].to < one.to {
			open = open[:len(open)-1]
		}
		if len(open) == 0 {
			outermost = append(outermost, one)
		} else {
			outer := open[len(open)-1]
			outer.inner = append(outer.inner, one)
		}
		open = append(open, one)
	}
	return outermost
}

// written is the file with its choices.
func written(src []byte, sites []*site) string {
	return between(src, 0, len(src), sites)
}

func between(src []byte, from, to int, sites []*site) string {
	var out strings.Builder
	for _, one := range sites {
		out.Write(src[from:one.from])
		out.WriteString(one.text(src))
		from = one.to
	}
	out.Write(src[from:to])
	return out.String()
}

func (s *site) text(src []byte) string {
	var out strings.Builder
	original := between(src, s.from, s.to, s.inner)
	if s.result == "" {
		out.WriteString("switch theChange {")
		for number, text := range s.choices {
			fmt.Fprintf(&out, " case %d: %s;", number, text)
		}
		return out.String() + " default: " + original + " }"
	}
	fmt.Fprintf(&out, "func() %s { switch theChange {", s.result)
	for number, text := range s.choices {
		fmt.Fprintf(&out, " case %d: return (%s);", number, text)
	}
	return out.String() + " }; return (" + original + ") }()"
}
