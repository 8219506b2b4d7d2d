package jsonout

import (
	"encoding/json"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/reports"
)

func spendWritten(t *testing.T, said *reports.Spending) string {
	t.Helper()
	var out strings.Builder
	require.NoError(t, WriteSpending(&out, said))
	return out.String()
}

func TestEveryKeyOfSpendingIsInItsDocComment(t *testing.T) {
	source, err := os.ReadFile("spend.go")
	require.NoError(t, err)
	comment, _, found := strings.Cut(string(source), "const SpendShape")
	require.True(t, found)
	said := &reports.Spending{
		Years: reports.SpendTable{Lines: []reports.SpendLine{{Key: "rental"}}}, Events: make([]reports.SpendEvent, 1),
		Due:      []reports.DueItem{{Days: make([]reports.DueDay, 1)}},
		Reserves: make([]reports.Reserve, 1), Rates: make([]reports.HourRate, 1),
	}
	keys := regexp.MustCompile(`"([a-z_]+)":`).FindAllStringSubmatch(spendWritten(t, said), -1)
	require.Greater(t, len(keys), 40)
	for _, key := range keys {
		assert.Contains(t, comment, `"`+key[1]+`"`)
	}
}

// Sums and ranges stand beside the lines, and what is not there is null or [].
func TestSumsStandBesideTheLinesOfSpending(t *testing.T) {
	said := &reports.Spending{Years: reports.SpendTable{Lines: []reports.SpendLine{
		{Key: "rental", In: reports.InBoth, Amounts: []float64{1, 2}}, {Key: "cash", In: reports.SumCash, Amounts: []float64{3, 4}},
		{Key: "cash_low", In: reports.Beside, Amounts: []float64{2, 3}},
	}}}
	var document map[string]any
	require.NoError(t, json.Unmarshal([]byte(spendWritten(t, said)), &document))
	years, ok := document["years"].(map[string]any)
	require.True(t, ok)
	assert.Equal(t, []any{3.0, 4.0}, years["cash"])
	assert.Equal(t, []any{2.0, 3.0}, years["cash_low"])
	assert.Nil(t, years["cost_low"])
	assert.Len(t, years["lines"], 1)
	assert.Equal(t, []any{}, document["machines"])
	assert.Nil(t, document["seed"])
}
