package recalc

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Gnumeric has gnumeric load, calculate and save every file, and reads the cells back. A formula that it cannot
// parse fails the test: gnumeric only says so in passing.
func Gnumeric(t testing.TB, files ...string) []Sheets {
	t.Helper()
	require.NotEmpty(t, files, "no file to calculate")
	var out []Sheets
	for _, file := range files {
		sheets, _ := Cached(t, GnumericSaved(t, file))
		out = append(out, sheets)
	}
	return out
}

// GnumericSaved has gnumeric load, calculate and save a file, as a user does, and gives the path of what it saved.
func GnumericSaved(t testing.TB, file string) string {
	t.Helper()
	need(t, "ssconvert", "gnumeric")
	made := filepath.Join(t.TempDir(), "saved.xlsx")
	said := run(t, "ssconvert", "--recalc", file, made)
	require.False(t, strings.Contains(said, "Invalid expression"), "gnumeric cannot parse a formula of %s:\n%s", file, said)
	require.FileExists(t, made, "gnumeric did not convert %s:\n%s", file, said)
	return made
}
