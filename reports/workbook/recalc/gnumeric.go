package recalc

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Gnumeric has gnumeric load, calculate and save every file, and reads the cells back. A formula that it cannot
// parse fails the test: gnumeric only says so in passing.
func Gnumeric(t testing.TB, files ...string) []Sheets {
	t.Helper()
	need(t, "ssconvert", "gnumeric")
	require.NotEmpty(t, files, "no file to calculate")
	var out []Sheets
	dir := t.TempDir()
	for i, file := range files {
		made := filepath.Join(dir, fmt.Sprintf("%04d.xlsx", i))
		said := run(t, "ssconvert", "--recalc", file, made)
		require.False(t, strings.Contains(said, "Invalid expression"), "gnumeric cannot parse a formula of %s:\n%s", file, said)
		require.FileExists(t, made, "gnumeric did not convert %s:\n%s", file, said)
		sheets, _ := Cached(t, made)
		out = append(out, sheets)
	}
	return out
}
