package grid_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/reports/workbook/recalc"
)

func TestThePrintHasEveryPageAndNoNarrowColumn(t *testing.T) {
	pdf, pages := recalc.LibreOffice(t).PDF(t, writtenFile(t, sample()), t.TempDir())
	assert.Equal(t, 3, pages)
	text := recalc.Text(t, pdf)
	assert.NotContains(t, text, "###")
	assert.Contains(t, text, "Where buying & renting meet")
	assert.Contains(t, text, "Page 2 of 3")
	assert.Len(t, recalc.Pages(t, pdf, t.TempDir(), 30), 3)
}
