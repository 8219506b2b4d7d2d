package intake

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/intake/cells"
	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/model/starter"
	"shopstint/model/study"
)

// The columns of the input sheet here.
const (
	inPath = iota
	inValue
	inUnit
	inLow
	inHigh
	inShape
	inStatus
	inFrom
	inSolved
	inNote
)

// solved is the input sheet of a study, as it is written: a row for each input.
func solved(t *testing.T) (*model.Study, [][]any) {
	t.Helper()
	read, _, problems := study.Load("start.yaml", starter.Short())
	require.Empty(t, problems)
	rows := [][]any{{"Inputs of the study"}, {DecisionInput, HeadValue, HeadUnit, HeadLow, HeadHigh, HeadShape, DecisionStatus, DecisionFrom, DecisionSolved, DecisionNote}, {"studio", "its owner's side"}}
	model.Walk(read, func(leaf model.Leaf) {
		origin := read.Origins[leaf.Path]
		row := []any{leaf.Path, Solved(leaf, quantity.Metric), "", nil, nil, nil, StatusGiven, nil, Solved(leaf, quantity.Metric), nil}
		if origin.Assumed {
			row[inStatus] = StatusAssumed
		}
		row[inFrom], row[inNote] = remark(origin), origin.Note
		if dim, ok := leaf.Dimension(); ok {
			values := []float64{leaf.Number()}
			if origin.HasRange {
				values = append(values, origin.Low, origin.High)
			}
			numbers, unit := quantity.Written(dim, quantity.Metric, values...)
			row[inValue], row[inUnit] = numbers[0], unit
			if dim == quantity.DimShare && unit == "" {
				row[inUnit] = shareUnit
			}
			if dim.IsMoney() {
				row[inUnit] = strings.TrimSpace(read.Currency + " " + unit)
			}
			if origin.HasRange {
				row[inLow], row[inHigh] = numbers[1], numbers[2]
			}
		}
		rows = append(rows, row)
	})
	return read, rows
}

func remark(origin model.Origin) string {
	if origin.Note == "" || origin.Source == "" {
		return origin.Source + origin.Note
	}
	return origin.Source + betweenRemarks + origin.Note
}

func decided(rows [][]any) (*Book, problem.List) {
	return loadDecision("d.xlsx", &cells.Book{Sheets: []cells.Sheet{sheet("Answer"), sheet(DecisionSheet, rows...)}})
}

// rowOf is the row of an input, to be edited.
func rowOf(t *testing.T, rows [][]any, path string) []any {
	t.Helper()
	at := slices.IndexFunc(rows, func(row []any) bool { return row[inPath] == path })
	require.GreaterOrEqual(t, at, 0, path)
	return rows[at]
}

func TestAnUneditedSheetIsTheStudyThatWasSolved(t *testing.T) {
	want, rows := solved(t)
	book, problems := decided(rows)
	require.Empty(t, problems)
	assert.Empty(t, book.Edits)
	assert.Equal(t, want.Machines, book.Study.Machines)
	assert.Equal(t, want.Studio, book.Solved.Studio)
	for _, path := range slices.Sorted(maps.Keys(want.Origins)) {
		was, is := want.Origins[path], book.Study.Origins[path]
		assert.Equal(t, [3]any{was.Assumed, was.HasRange, was.Source}, [3]any{is.Assumed, is.HasRange, is.Source}, path)
		assert.InDelta(t, was.Low, is.Low, 1e-9*(1+was.High), path)
		assert.InDelta(t, was.High, is.High, 1e-9*(1+was.High), path)
		assert.Equal(t, was.Note, is.Note, path)
	}
}

func TestAnEditedInputIsGivenAndTheOtherStudyIsAsItWas(t *testing.T) {
	was, rows := solved(t)
	edit := rowOf(t, rows, "studio.labour_rate")
	require.Equal(t, StatusAssumed, edit[inStatus])
	require.NotNil(t, edit[inLow])
	edit[inValue] = 61.5
	book, problems := decided(rows)
	require.Empty(t, problems)
	require.Len(t, book.Edits, 1)
	assert.Equal(t, "studio.labour_rate", book.Edits[0].Path)
	assert.Equal(t, edit[inSolved], book.Edits[0].Was)
	assert.Equal(t, "61.5 per h", book.Edits[0].Now)
	assert.InDelta(t, 61.5, float64(book.Study.Studio.LabourRate), 1e-12)
	assert.InDelta(t, float64(was.Studio.LabourRate), float64(book.Solved.Studio.LabourRate), 0)
	assert.False(t, book.Study.Origins["studio.labour_rate"].Assumed)
	assert.False(t, book.Study.Origins["studio.labour_rate"].HasRange, "the range was about what was assumed")
	assert.True(t, book.Solved.Origins["studio.labour_rate"].HasRange)
}

func TestTheRangeOfAGivenInputTakesTheEditedValueIn(t *testing.T) {
	for _, row := range []struct {
		shape, kept       string
		low, now, high    float64 // times the value that was solved for
		wantLow, wantHigh float64
	}{
		{model.ShapeTriangular, model.ShapeTriangular, 0.8, 0.5, 1.5, 0.5, 1.5},
		{model.ShapeTriangular, model.ShapeTriangular, 0.8, 2, 1.5, 0.8, 2},
		{model.ShapeNormal, "", 0.8, 0.9, 1.2, 0.8, 1.2},
		{model.ShapeLognormal, "", 0.5, 3, 2, 0.5, 3},
	} {
		was, rows := solved(t)
		edit, value := rowOf(t, rows, "studio.labour_rate"), float64(was.Studio.LabourRate)
		edit[inStatus], edit[inShape], edit[inLow], edit[inHigh] = StatusGiven, row.shape, row.low*value, row.high*value
		edit[inValue] = row.now * value
		book, problems := decided(rows)
		require.Empty(t, problems)
		origin := book.Study.Origins["studio.labour_rate"]
		assert.InDelta(t, row.wantLow*value, origin.Low, 1e-9)
		assert.InDelta(t, row.wantHigh*value, origin.High, 1e-9)
		assert.Equal(t, row.kept, origin.Shape, "a value that need not be in the middle is read as usual")
		before := book.Solved.Origins["studio.labour_rate"]
		assert.Equal(t, row.shape, before.Shape)
		assert.InDelta(t, row.low*value, before.Low, 1e-9)
		assert.InDelta(t, row.high*value, before.High, 1e-9)
	}
}

func TestWhatCannotBeReadOfTheInputSheetIsToldAtItsCell(t *testing.T) {
	formula := cells.Cell{Kind: cells.Formula, Text: "1+1"}
	for _, row := range []struct {
		change func(edit []any)
		column string
		what   string
	}{
		{func(e []any) { e[inValue] = nil }, "B", "studio.labour_rate has no value"},
		{func(e []any) { e[inValue] = formula }, "B", "studio.labour_rate is a formula"},
		{func(e []any) { e[inLow] = formula }, "D", "the range of studio.labour_rate cannot be read"},
		{func(e []any) { e[inHigh] = formula }, "D", "the range of studio.labour_rate cannot be read"},
		{func(e []any) { e[inLow] = nil }, "D", "the range of studio.labour_rate cannot be read"},
		{func(e []any) { e[inHigh] = "much" }, "D", "the range of studio.labour_rate cannot be read"},
		{func(e []any) { e[inNote] = "asked\ntwice" }, "J", "the note of studio.labour_rate runs over several lines"},
		{func(e []any) { e[inFrom] = "a\x7fletter" }, "H", "the source of studio.labour_rate has the control character U+007F"},
		{func(e []any) { e[inLow] = -3.0 }, "D", "the range of studio.labour_rate ends at -3 per h"},
		{func(e []any) { e[inLow] = 95.5 }, "D", "the range of studio.labour_rate does not hold 60 per h, for which the workbook was solved"},
		{func(e []any) { e[inHigh] = 12.0 }, "D", "the range of studio.labour_rate does not hold 60 per h, for which the workbook was solved"},
	} {
		_, rows := solved(t)
		row.change(rowOf(t, rows, "studio.labour_rate"))
		_, problems := decided(rows)
		require.Len(t, problems, 1, row.what)
		assert.Equal(t, row.what, problems[0].What)
		assert.Equal(t, row.column, strings.TrimRight(problems[0].Place.Cell, "0123456789"), row.what)
	}
	_, rows := solved(t)
	rows[1][inNote] = "remarks"
	_, problems := decided(rows)
	require.NotEmpty(t, problems)
	assert.Equal(t, "the sheet Inputs has lost a heading", problems[0].What)
	assert.Equal(t, "A1", problems[0].Place.Cell)
	rows[1][inNote], rows[1][inShape] = DecisionNote, nil
	_, problems = decided(rows)
	assert.Empty(t, problems, "workbooks of before ranges had a shape")
	_, rows = solved(t)
	rowOf(t, rows, "title")[inValue] = formula
	_, problems = decided(rows)
	require.Len(t, problems, 1)
	assert.Equal(t, "title is a formula", problems[0].What)
	_, rows = solved(t)
	rowOf(t, rows, "studio.labour_rate")[inValue] = -5.0
	_, problems = decided(rows)
	require.Len(t, problems, 1, "an edited value is held to its limits")
	assert.Equal(t, "studio.labour_rate", problems[0].Path)
}
