package intake_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/intake"
	"shopstint/model/intake/typed"
	"shopstint/model/starter"
)

// The fuzzer of forms begins with these, the first page down to its mark; SHOPSTINT_UPDATE=1 writes them anew.
func TestTheFormsThatAreFuzzedAreTheFormsThatAreWritten(t *testing.T) {
	varied, err := os.ReadFile("../../model/intake/testdata/typed/varied.yaml")
	require.NoError(t, err)
	for name, src := range map[string][]byte{"short": starter.Short(), "varied": varied} {
		read, places := loaded(t, name, src)
		text, err := typed.Text(written(t, read, places, true), func(sheet string, row []string) bool {
			return sheet != intake.ReadMe || slices.Contains(row, intake.FormMark)
		})
		require.NoError(t, err)
		path := filepath.Join("../../model/intake/testdata/typed", "form_"+name+".txt")
		if os.Getenv("SHOPSTINT_UPDATE") != "" {
			require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		}
		kept, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, text, string(kept), "run again with SHOPSTINT_UPDATE=1")
	}
}
