package capital_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/published"
)

func TestEveryFormulaNamesItsSource(t *testing.T) {
	for _, folder := range []string{"depreciation", "economiclife", "loan", "timevalue", "upkeep"} {
		missing, err := published.Unsourced(os.DirFS(folder))
		require.NoError(t, err, folder)
		assert.Empty(t, missing, folder)
	}
}
