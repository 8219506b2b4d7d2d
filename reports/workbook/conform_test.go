package workbook

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/conformance"
	"shopstint/model/published"
	"shopstint/reports/workbook/grid"
)

// TestEveryPublishedCaseComesOutOfTheEngineAndOfTheWorkbook holds the engine, and
// the formulas of the workbook that carry a case, to every published figure. With
// -v it prints them by source.
func TestEveryPublishedCaseComesOutOfTheEngineAndOfTheWorkbook(t *testing.T) {
	cases := conformance.Cases(t)
	files, err := conformance.Files(cases)
	require.NoError(t, err)
	engine, err := conformance.Engine(cases)
	require.NoError(t, err)
	var sheet map[string]published.Tally
	t.Run("recalculated by LibreOffice", func(t *testing.T) {
		sheet = throughTheWorkbook(t, files)
	})
	t.Log("\n" + conformance.Table(files, engine, sheet))
}

// throughTheWorkbook counts what the workbook carries, by file.
func throughTheWorkbook(t *testing.T, files []published.File) map[string]published.Tally {
	t.Helper()
	d := &desk{t: t, sheet: &grid.Sheet{Name: sheetPublished}, row: 1, solved: map[string]int{}}
	entries, methods := map[string]*entry{}, map[string]bool{}
	for _, file := range files {
		method := conformance.MethodOf(file)
		for _, one := range file.Cases {
			lay := carries[method]
			if lay == nil {
				continue
			}
			c := d.begin(&published.Inputs{Case: one})
			made := lay(c)
			require.NoError(t, c.in.Err())
			require.Empty(t, c.b.missing, one.ID)
			if made != nil {
				entries[file.Path+one.ID], methods[method] = made, true
			}
		}
	}
	assert.Equal(t, slices.Sorted(maps.Keys(carries)), slices.Sorted(maps.Keys(methods)), "a method that says it is carried has a case that is")
	return d.held(files, entries)
}

// held recalculates the sheet and compares each entry with its case.
func (d *desk) held(files []published.File, entries map[string]*entry) map[string]published.Tally {
	d.t.Helper()
	found := d.recalculated()
	counted := map[string]published.Tally{}
	var misses []error
	for _, file := range files {
		for _, one := range file.Cases {
			made := entries[file.Path+one.ID]
			if made == nil {
				continue
			}
			got, err := made.read(found)
			if err == nil {
				var tally published.Tally
				tally, err = one.Only(got).Hold(got)
				assert.NotZero(d.t, tally.Figures, one.ID)
				counted[file.Path] = counted[file.Path].Add(tally)
			}
			if err != nil {
				misses = append(misses, fmt.Errorf("%s, %s: %w", file.Path, one.ID, err))
			}
		}
	}
	require.NoError(d.t, errors.Join(misses...))
	var total published.Tally
	for _, tally := range counted {
		total = total.Add(tally)
	}
	assert.GreaterOrEqual(d.t, total.Figures, 400, "figures that the workbook carries")
	return counted
}
