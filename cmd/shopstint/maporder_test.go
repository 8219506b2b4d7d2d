package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestNoResultHangsOnTheOrderOfAMap reads every loop over a map. A sum of floats differs in
// its last digit with the order of its terms, and a text is another text; a list is
// in no order until it is sorted.
func TestNoResultHangsOnTheOrderOfAMap(t *testing.T) {
	loops := 0
	for _, p := range typed(t) {
		for _, file := range p.files {
			for _, declared := range file.Decls {
				function, ok := declared.(*ast.FuncDecl)
				if !ok || function.Body == nil {
					continue
				}
				loops += p.unordered(function, func(at token.Pos, what string) { t.Errorf("%s: %s", p.set.Position(at), what) })
			}
		}
	}
	assert.Greater(t, loops, 20)
}

// TestAnOrderOfAMapIsFound holds the reading above to code that is wrong.
func TestAnOrderOfAMapIsFound(t *testing.T) {
	set := token.NewFileSet()
	from, _ := compiled(t, set, "maps", "slices")
	for code, want := range map[string]string{
		`func f(m map[int]float64) (x float64) { for _, v := range m { x += v }; return x }`:                                      "adds up",
		`func f(m map[int]float64) (x float64) { for _, v := range m { if v > 1 { x *= v } }; return x }`:                         "adds up",
		`func f(m map[int]float64) (x float64) { for _, v := range m { x = x + v }; return x }`:                                   "adds up",
		`func f(m map[int]string) (x string) { for _, v := range m { x += v }; return x }`:                                        "adds up",
		`func f(m map[int]int) (x []int) { for k := range m { x = append(x, k) }; return x }`:                                     "never sorted",
		`func f(m map[int]int) []int { return slices.Collect(maps.Keys(m)) }`:                                                     "never sorted",
		`func f(m map[int]int) []int { return slices.Sorted(maps.Keys(m)) }`:                                                      "",
		`func f(m map[int]int) (x []int) { for k := range m { x = append(x, k) }; slices.Sort(x); return x }`:                     "",
		`func f(m map[int]int) (n int) { for range m { n++ }; return n }`:                                                         "",
		`func f(m map[int]int) (n int) { for _, v := range m { n += v }; return n }`:                                              "",
		`func f(m map[int]float64, to []float64) { for k, v := range m { to[k] *= v } }`:                                          "",
		`func f(m [3]float64) (x float64) { for _, v := range m { x += v }; return x }`:                                           "",
		`func f(m map[int]float64, n map[int]float64) { for k, v := range m { n[k] = v; n[0] += v } }`:                            "adds up",
		`type T struct{ x []int; y float64 }; func f(m map[string]*T) { for _, v := range m { v.x = append(v.x, 1); v.y += 2 } }`: "",
		`type T map[string]float64; func f(m T) (x struct{ sum float64 }) { for _, v := range m { x.sum += v }; return }`:         "adds up",
	} {
		file, err := parser.ParseFile(set, "a.go", "package a\nimport (\"maps\"; \"slices\")\nvar _, _ = maps.Keys[map[int]int], slices.Sort[[]int]\n"+code, 0)
		require.NoError(t, err, code)
		info := newInfo()
		_, err = (&types.Config{Importer: from}).Check("a", set, []*ast.File{file}, info)
		require.NoError(t, err, code)
		var found string
		for _, declared := range file.Decls {
			if function, ok := declared.(*ast.FuncDecl); ok {
				(&typedPackage{set, info, nil}).unordered(function, func(_ token.Pos, what string) { found += what })
			}
		}
		assert.Equal(t, want != "", found != "", code)
		assert.Contains(t, found, want, code)
	}
}

// typedPackage is one of ours with the types of its expressions.
type typedPackage struct {
	set   *token.FileSet
	info  *types.Info
	files []*ast.File
}

// unordered tells where a function lets the order of a map show, and counts its loops over maps.
func (p *typedPackage) unordered(function *ast.FuncDecl, tell func(at token.Pos, what string)) (loops int) {
	sorts := false
	var lists []token.Pos
	ast.Inspect(function, func(node ast.Node) bool {
		switch node := node.(type) {
		case *ast.SelectorExpr:
			sorts = sorts || strings.HasPrefix(node.Sel.Name, "Sort")
			if used := p.info.Uses[node.Sel]; used != nil && used.Pkg() != nil && used.Pkg().Path() == "maps" && (used.Name() == "Keys" || used.Name() == "Values") {
				lists = append(lists, node.Pos())
				loops++
			}
		case *ast.RangeStmt:
			if _, ok := p.info.TypeOf(node.X).Underlying().(*types.Map); ok {
				loops++
				lists = append(lists, p.inLoop(node, tell)...)
			}
		}
		return true
	})
	for _, at := range lists {
		if !sorts {
			tell(at, "a list in the order of a map is never sorted")
		}
	}
	return loops
}

// inLoop tells what is added up in the order of a map, and returns where lists grow. What
// belongs to the loop's own key or value is reached once.
func (p *typedPackage) inLoop(loop *ast.RangeStmt, tell func(at token.Pos, what string)) (lists []token.Pos) {
	ast.Inspect(loop.Body, func(node ast.Node) bool {
		switch node := node.(type) {
		case *ast.CallExpr:
			if name, ok := node.Fun.(*ast.Ident); ok && name.Name == "append" && !ofTheLoop(node.Args[0], loop) {
				lists = append(lists, node.Pos())
			}
		case *ast.AssignStmt:
			if len(node.Lhs) == 1 && p.grows(node) && p.inexact(node.Lhs[0]) && !ofTheLoop(node.Lhs[0], loop) {
				tell(node.Pos(), "adds up in the order of a map")
			}
		}
		return true
	})
	return lists
}

// grows tells whether an assignment adds to what was there.
func (p *typedPackage) grows(assign *ast.AssignStmt) bool {
	if assign.Tok != token.ASSIGN {
		return assign.Tok != token.DEFINE
	}
	sum, ok := assign.Rhs[0].(*ast.BinaryExpr)
	return ok && (types.ExprString(sum.X) == types.ExprString(assign.Lhs[0]) || types.ExprString(sum.Y) == types.ExprString(assign.Lhs[0]))
}

// inexact tells whether the order of its terms shows in a sum.
func (p *typedPackage) inexact(of ast.Expr) bool {
	basic, ok := p.info.TypeOf(of).Underlying().(*types.Basic)
	return ok && basic.Info()&(types.IsFloat|types.IsString|types.IsComplex) != 0
}

// ofTheLoop tells whether a place stands under the loop's key or in its value.
func ofTheLoop(place ast.Expr, loop *ast.RangeStmt) bool {
	is := func(expr, own ast.Expr) bool {
		name, ok := expr.(*ast.Ident)
		other, known := own.(*ast.Ident)
		return ok && known && name.Name == other.Name
	}
	switch place := place.(type) {
	case *ast.IndexExpr:
		return is(place.Index, loop.Key) || ofTheLoop(place.X, loop)
	case *ast.SelectorExpr:
		return is(place.X, loop.Value) || ofTheLoop(place.X, loop)
	}
	return false
}

// compiled imports packages from the build cache, as a compiler does.
func compiled(t *testing.T, set *token.FileSet, patterns ...string) (from types.Importer, ours []builtPackage) {
	t.Helper()
	command := exec.Command("go", append([]string{"list", "-export", "-deps", "-json=ImportPath,Export,Dir,GoFiles"}, patterns...)...)
	var stderr bytes.Buffer
	command.Stderr = &stderr
	out, err := command.Output()
	require.NoError(t, err, stderr.String())
	exports := map[string]string{}
	for decoder := json.NewDecoder(bytes.NewReader(out)); ; {
		var one builtPackage
		if err := decoder.Decode(&one); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
		exports[one.ImportPath] = one.Export
		if strings.HasPrefix(one.ImportPath, module) {
			ours = append(ours, one)
		}
	}
	return importer.ForCompiler(set, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) }), ours
}

type builtPackage struct {
	ImportPath, Export, Dir string
	GoFiles                 []string
}

// typed reads all packages of ours, without their tests.
func typed(t *testing.T) (found []typedPackage) {
	t.Helper()
	set := token.NewFileSet()
	from, ours := compiled(t, set, module+"...")
	for _, one := range ours {
		p := typedPackage{set: set, info: newInfo()}
		for _, name := range one.GoFiles {
			file, err := parser.ParseFile(set, filepath.Join(one.Dir, name), nil, 0)
			require.NoError(t, err)
			p.files = append(p.files, file)
		}
		_, err := (&types.Config{Importer: from}).Check(one.ImportPath, set, p.files, p.info)
		require.NoError(t, err)
		found = append(found, p)
	}
	require.Greater(t, len(found), 20)
	return found
}

func newInfo() *types.Info {
	return &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}
}
