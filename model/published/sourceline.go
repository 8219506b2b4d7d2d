package published

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"slices"
	"strings"
)

// Unsourced returns the names, sorted, of the exported functions and methods
// in the Go files of a package's folder whose doc comment has no line that
// begins with "Source:". Test files are left out. A folder without any
// exported function is an error, since nothing was checked.
func Unsourced(folder fs.FS) ([]string, error) {
	paths, err := fs.Glob(folder, "*.go")
	if err != nil {
		return nil, fmt.Errorf("source lines: %w", err)
	}
	var missing []string
	exported := 0
	for _, name := range paths {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		functions, err := exportedFunctions(folder, name)
		if err != nil {
			return nil, err
		}
		exported += len(functions)
		for _, function := range functions {
			if !hasSourceLine(function.Doc) {
				missing = append(missing, function.Name.Name)
			}
		}
	}
	if exported == 0 {
		return nil, errors.New("source lines: the folder has no exported function; it would have at least one")
	}
	slices.Sort(missing)
	return missing, nil
}

func exportedFunctions(folder fs.FS, name string) ([]*ast.FuncDecl, error) {
	content, err := fs.ReadFile(folder, name)
	if err != nil {
		return nil, fmt.Errorf("source lines: %w", err)
	}
	file, err := parser.ParseFile(token.NewFileSet(), name, content, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil {
		return nil, fmt.Errorf("source lines: %w", err)
	}
	var functions []*ast.FuncDecl
	for _, declared := range file.Decls {
		if function, ok := declared.(*ast.FuncDecl); ok && function.Name.IsExported() {
			functions = append(functions, function)
		}
	}
	return functions, nil
}

func hasSourceLine(doc *ast.CommentGroup) bool {
	return slices.ContainsFunc(strings.Split(doc.Text(), "\n"), func(line string) bool {
		return strings.HasPrefix(line, "Source: ") && len(strings.TrimSpace(line)) > len("Source:")
	})
}
