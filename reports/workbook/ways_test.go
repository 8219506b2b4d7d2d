package workbook_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/ways"
	"shopstint/model/studygen"
	"shopstint/reports/workbook/recalc"
)

// TestTheSheetOfWaysIsTheEngines recalculates the sheet for the demo and for some
// generated studies whose ways run edges and abrasives, with machines and without.
func TestTheSheetOfWaysIsTheEngines(t *testing.T) {
	files, machines := []string{saved(t, "demo.xlsx", demoStudy(t))}, 0
	for seed := uint64(0); len(files) < 4; seed++ {
		s := studygen.Study(seed)
		if len(s.Comparisons) == 0 {
			continue
		}
		for _, one := range s.Comparisons {
			for i := range one.Ways {
				machines += len(one.Ways[i].Machine)
			}
		}
		files = append(files, saved(t, fmt.Sprintf("study%d.xlsx", seed), s))
	}
	require.Positive(t, machines)
	office := recalc.LibreOffice(t)
	for i := range files {
		got := office.Recalculate(t, files[i])[0] // one by one: the program has a time limit
		cached, formulas := recalc.Cached(t, files[i])
		differences, tally := recalc.Differences(cached, recalc.Formulas{"Ways": formulas["Ways"]}, got, tolerance)
		assert.Empty(t, differences, files[i])
		assert.Greater(t, tally.Numbers, 80, files[i])
	}
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
