package workbook_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/ways"
	"shopstint/model"
	"shopstint/model/studygen"
	"shopstint/reports/workbook/recalc"
)

// TestTheSheetOfWaysIsTheEngines recalculates the sheet for a generated study some of
// whose ways have a machine; that of the demo is recalculated with its whole workbook.
func TestTheSheetOfWaysIsTheEngines(t *testing.T) {
	drawn, seed := studygen.Study(0), uint64(0)
	for ; !hasMachine(drawn.Comparisons); seed++ {
		require.Less(t, seed, uint64(50), "no generated study has a way with a machine")
		drawn = studygen.Study(seed + 1)
	}
	file := saved(t, "drawn.xlsx", drawn)
	cached, formulas := recalc.Cached(t, file)
	got := recalc.LibreOffice(t).Recalculate(t, file)[0]
	differences, tally := recalc.Differences(cached, recalc.Formulas{"Ways": formulas["Ways"]}, got, tolerance)
	assert.Empty(t, differences, "seed %d", seed)
	assert.Greater(t, tally.Numbers, 80, "seed %d", seed)
}

func hasMachine(comparisons []model.Comparison) bool {
	for i := range comparisons {
		for k := range comparisons[i].Ways {
			if comparisons[i].Ways[k].Machine != "" {
				return true
			}
		}
	}
	return false
}

func TestTheSheetOfWaysNamesTheCheapestOfEachComparison(t *testing.T) {
	s := demoStudy(t)
	cached, _ := recalc.Cached(t, saved(t, "demo.xlsx", s))
	var all []string
	for _, value := range cached["Ways"] {
		all = append(all, value.Text)
	}
	for _, r := range ways.Compare(s) {
		assert.Contains(t, strings.Join(all, "\n"), s.Comparisons[r.Comparison].Ways[r.Best].Name)
	}
}
