package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Sizes over which code has to be split. A longer function gives its reason in
// a line of its comment that begins with "long:".
const (
	longestFunction = 80
	longestFile     = 500
)

func TestFunctionsAndFilesStayShort(t *testing.T) {
	var lengths []int
	err := filepath.WalkDir(house, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") {
			return err
		}
		files := token.NewFileSet()
		file, err := parser.ParseFile(files, path, nil, parser.ParseComments)
		if err != nil {
			return err
		}
		assert.LessOrEqual(t, files.File(file.FileStart).LineCount(), longestFile, "%s is to be split", path)
		if strings.HasSuffix(path, "_test.go") {
			return nil // tables of cases may be as long as they have cases
		}
		for _, declared := range file.Decls {
			function, ok := declared.(*ast.FuncDecl)
			if !ok {
				continue
			}
			lines := files.Position(function.End()).Line - files.Position(function.Pos()).Line + 1
			lengths = append(lengths, lines)
			if !strings.Contains(function.Doc.Text(), "long: ") {
				assert.LessOrEqual(t, lines, longestFunction, "%s: %s", path, function.Name.Name)
			}
		}
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, len(lengths), 500)
	slices.Sort(lengths)
	ninth := lengths[len(lengths)*9/10]
	assert.LessOrEqual(t, ninth, 45, "nine in ten functions are under 45 lines")
	t.Logf("%d functions; median %d lines, nine in ten within %d, longest %d", len(lengths), lengths[len(lengths)/2], ninth, lengths[len(lengths)-1])
}
