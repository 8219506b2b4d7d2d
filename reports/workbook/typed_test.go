package workbook_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/intake"
	"shopstint/model/intake/typed"
	"shopstint/model/starter"
	"shopstint/model/study"
)

// thinned keeps the given inputs of a sheet of inputs, those of members that are
// assumed as a whole, and each sixteenth of the other assumed ones: a fuzzer gets
// further with a small sheet.
func thinned() func(sheet string, row []string) bool {
	assumed := 0
	return func(sheet string, row []string) bool {
		if sheet != intake.DecisionSheet {
			return false
		}
		if slices.Contains(row, intake.StatusAssumed) && !strings.Contains(row[0], ".assumed_") {
			assumed++
			return assumed%16 == 0
		}
		return len(row) > 8
	}
}

// The fuzzer of decision workbooks begins with these; SHOPSTINT_UPDATE=1 writes them anew.
func TestTheDecisionWorkbooksThatAreFuzzedAreThoseThatAreWritten(t *testing.T) {
	varied, err := os.ReadFile("../../model/intake/testdata/typed/varied.yaml")
	require.NoError(t, err)
	for name, src := range map[string][]byte{"short": starter.Short(), "varied": varied} {
		read, _, problems := study.Load(name, src)
		require.Empty(t, problems)
		text, err := typed.Text(written(t, read), thinned())
		require.NoError(t, err)
		path := filepath.Join("../../model/intake/testdata/typed", "decision_"+name+".txt")
		if os.Getenv("SHOPSTINT_UPDATE") != "" {
			require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		}
		kept, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, text, string(kept), "run again with SHOPSTINT_UPDATE=1")
	}
}
