package grid_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"shopstint/reports/workbook/grid"
	"shopstint/reports/workbook/recalc"
)

// sharing is a book with a column that shares a formula and a cell that is an array.
func sharing(t *testing.T) string {
	t.Helper()
	book := grid.Book{Title: "shared", Created: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
	s := book.Add("S")
	s.Protected, s.Open = true, true
	doubled := s.Down(1, 2, 3, "$A1*2+$A$1")
	for i := range 3 {
		s.Set(1+i, 1, grid.Cell{Value: 1.26 * float64(i+1)})
		doubled.Set(i, 2*1.26*float64(i+1)+1.26, grid.Style{})
	}
	s.Set(5, 1, grid.Cell{Formula: "SUMPRODUCT(ROUND($A$1:$A$3,1))", Array: true, Value: 1.3 + 2.5 + 3.8})
	var content bytes.Buffer
	require.NoError(t, book.Write(&content))
	path := filepath.Join(t.TempDir(), "shared.xlsx")
	require.NoError(t, os.WriteFile(path, content.Bytes(), 0o600))
	return path
}

func TestASharedFormulaIsReadInEveryCellByThreePrograms(t *testing.T) {
	file := sharing(t)
	cached, formulas := recalc.Cached(t, file)
	assert.Len(t, formulas["S"], 4)
	recalc.Compare(t, cached, formulas, recalc.LibreOffice(t).Recalculate(t, file)[0], 1e-12)
	recalc.Compare(t, cached, formulas, recalc.Gnumeric(t, file)[0], 1e-12)
	f, err := excelize.OpenFile(file)
	require.NoError(t, err)
	formula, err := f.GetCellFormula("S", "B3")
	require.NoError(t, err)
	assert.Equal(t, "$A3*2+$A$1", formula)
}

func TestEmptyCellsOfAnOpenSheetMayBeFilled(t *testing.T) {
	f, err := excelize.OpenFile(sharing(t))
	require.NoError(t, err)
	column, err := f.GetColStyle("S", "B")
	require.NoError(t, err)
	style, err := f.GetStyle(column)
	require.NoError(t, err)
	assert.False(t, style.Protection.Locked, "an empty cell takes what is typed")
}
