package recalc_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/reports/workbook/grid"
	"shopstint/reports/workbook/recalc"
)

// sumFile writes a sheet with 2, 3 and a sum that is cached as given.
func sumFile(t *testing.T, cached any) string {
	t.Helper()
	b := &grid.Book{Author: "grid"}
	s := b.Add("Sums")
	s.Set(1, 1, grid.Cell{Value: 2})
	s.Set(2, 1, grid.Cell{Value: 3.0, Style: grid.Style{Bold: true}})
	s.Set(3, 1, grid.Cell{Formula: "A1+A2", Value: cached})
	file := filepath.Join(t.TempDir(), "sum.xlsx")
	out, err := os.Create(file)
	require.NoError(t, err)
	require.NoError(t, b.Write(out))
	require.NoError(t, out.Close())
	return file
}

// judged runs a check on a test of its own and tells whether it failed.
func judged(t *testing.T, check func(testing.TB)) bool {
	t.Helper()
	inner := &innerTest{TB: t}
	done := make(chan struct{})
	go func() {
		defer close(done)
		check(inner)
	}()
	<-done
	return inner.failed
}

// innerTest keeps a failure to itself.
type innerTest struct {
	testing.TB
	failed bool
}

func (i *innerTest) Errorf(string, ...any) { i.failed = true }
func (i *innerTest) FailNow()              { i.failed = true; runtime.Goexit() }
func (i *innerTest) Fatalf(string, ...any) { i.FailNow() }

func TestBothProgramsReplaceAStaleCachedValue(t *testing.T) {
	stale := sumFile(t, 999.0)
	cached, formulas := recalc.Cached(t, stale)
	programs := map[string]recalc.Sheets{
		"LibreOffice": recalc.LibreOffice(t).Recalculate(t, stale)[0],
		"gnumeric":    recalc.Gnumeric(t, stale)[0],
	}
	for program, got := range programs {
		assert.Equal(t, recalc.Value{Kind: recalc.Numeric, Number: 5}, got["Sums"]["A3"], program)
		assert.True(t, judged(t, func(tb testing.TB) { recalc.Compare(tb, cached, formulas, got, 1e-9) }), program)
	}
}

func TestManyFilesKeepTheirOrder(t *testing.T) {
	got := recalc.LibreOffice(t).Recalculate(t, sumFile(t, "stale"), sumFile(t, true), sumFile(t, nil))
	require.Len(t, got, 3)
	for _, sheets := range got {
		assert.Equal(t, 5.0, sheets["Sums"]["A3"].Number)
	}
}

func TestAnEditReachesTheFormulasAndKeepsTheFile(t *testing.T) {
	file := sumFile(t, 5.0)
	got := recalc.LibreOffice(t).RecalculateEdited(t, file, []recalc.Edit{{Sheet: "Sums", Cell: "A2", Value: 40.5}, {Sheet: "Sums", Cell: "A1", Value: 1}})
	assert.Equal(t, 41.5, got["Sums"]["A3"].Number)
	cached, _ := recalc.Cached(t, file)
	assert.Equal(t, 5.0, cached["Sums"]["A3"].Number)
}

func TestAnEditThatCannotBeMadeFails(t *testing.T) {
	office, file := recalc.LibreOffice(t), sumFile(t, 5.0)
	for name, edit := range map[string]recalc.Edit{
		"formula": {Sheet: "Sums", Cell: "A3", Value: 1.0},
		"empty":   {Sheet: "Sums", Cell: "B1", Value: 1.0},
		"sheet":   {Sheet: "None", Cell: "A1", Value: 1.0},
		"type":    {Sheet: "Sums", Cell: "A1", Value: []int{1}},
	} {
		assert.True(t, judged(t, func(tb testing.TB) { office.RecalculateEdited(tb, file, []recalc.Edit{edit}) }), name)
	}
}

func TestABrokenFileFailsAlthoughTheExitCodeIsZero(t *testing.T) {
	office := recalc.LibreOffice(t)
	file := filepath.Join(t.TempDir(), "broken.xlsx")
	whole, err := os.ReadFile(sumFile(t, 5.0))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, whole[:len(whole)/2], 0o600))
	assert.True(t, judged(t, func(tb testing.TB) { office.Recalculate(tb, file) }))
}

func TestAFormulaThatGnumericCannotParseFails(t *testing.T) {
	if _, err := exec.LookPath("ssconvert"); err != nil && os.Getenv("SHOPSTINT_NO_OFFICE") == "1" {
		t.Skip("gnumeric's ssconvert is not installed and SHOPSTINT_NO_OFFICE=1")
	}
	b := &grid.Book{}
	b.Add("A").Set(1, 1, grid.Cell{Formula: "1+*2", Value: 3.0})
	file := filepath.Join(t.TempDir(), "bad.xlsx")
	out, err := os.Create(file)
	require.NoError(t, err)
	require.NoError(t, b.Write(out))
	require.NoError(t, out.Close())
	assert.True(t, judged(t, func(tb testing.TB) { recalc.Gnumeric(tb, file) }))
}

func TestDifferencesNameTheCellAndBothValues(t *testing.T) {
	number := func(x float64) recalc.Value { return recalc.Value{Kind: recalc.Numeric, Number: x} }
	text := func(s string) recalc.Value { return recalc.Value{Kind: recalc.Textual, Text: s} }
	fault := recalc.Value{Kind: recalc.Fault, Text: "#DIV/0!"}
	cases := []struct {
		name       string
		want, have recalc.Value
		same       bool
	}{
		{"equal", number(3), number(3), true},
		{"last digits", number(1e12), number(1e12 + 100), true}, // 1e-10 relative
		{"beyond the tolerance", number(1e12), number(1e12 + 2000), false},
		{"below the floor", number(0), number(5e-10), true},
		{"above the floor", number(0), number(2e-9), false},
		{"text", text("a"), text("a"), true},
		{"other text", text("a"), text("b"), false},
		{"empty text and nothing", text(""), recalc.Value{}, true},
		{"text for a number", number(3), text("3"), false},
		{"fault on both sides", fault, fault, false},
		{"nothing on both sides", recalc.Value{}, recalc.Value{}, false},
		{"nothing recalculated", number(3), recalc.Value{}, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			formulas := recalc.Formulas{"S": {"B10": "A1"}}
			found, tally := recalc.Differences(recalc.Sheets{"S": {"B10": c.want}}, formulas, recalc.Sheets{"S": {"B10": c.have}}, 1e-9)
			assert.Equal(t, 1, tally.Total())
			assert.Equal(t, c.same, len(found) == 0, found)
			if !c.same {
				assert.Equal(t, fmt.Sprintf("S!B10: cached %v, recalculated %v: =A1", c.want, c.have), found[0])
			}
		})
	}
}

func TestAFileWithoutFormulasFails(t *testing.T) {
	assert.True(t, judged(t, func(tb testing.TB) { recalc.Compare(tb, recalc.Sheets{}, recalc.Formulas{}, recalc.Sheets{}, 1e-9) }))
}

func TestAMissingProgramFailsUnlessTheEnvironmentAllowsIt(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	t.Setenv("SHOPSTINT_NO_OFFICE", "")
	assert.True(t, judged(t, func(tb testing.TB) { recalc.LibreOffice(tb) }))
}
