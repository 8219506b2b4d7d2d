package life_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/conformance"
	"shopstint/model/published"
)

func TestLivesAgreeWithPublishedCases(t *testing.T) { conformance.Hold(t, "model/wear/life") }

func TestEveryFormulaNamesItsSource(t *testing.T) {
	missing, err := published.Unsourced(os.DirFS("."))
	require.NoError(t, err)
	assert.Empty(t, missing)
}
