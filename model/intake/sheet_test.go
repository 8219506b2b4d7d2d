package intake

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/intake/cells"
	"shopstint/model/quantity"
	"shopstint/model/study"
)

// sheet builds a sheet from rows of texts, numbers and cells; nil is an empty cell.
func sheet(name string, rows ...[]any) cells.Sheet {
	s := cells.Sheet{Name: name, Cells: map[cells.Place]cells.Cell{}}
	for i, row := range rows {
		for j, content := range row {
			cell := cells.Cell{}
			switch content := content.(type) {
			case nil:
				continue
			case string:
				cell = cells.Cell{Kind: cells.Text, Text: content}
			case float64:
				cell = cells.Cell{Kind: cells.Number, Number: content, Text: fmt.Sprint(content)}
			case cells.Cell:
				cell = content
			}
			s.Cells[cells.Place{Row: i + 1, Col: j + 1}] = cell
			s.Rows = i + 1
		}
	}
	return s
}

var headings = []any{HeadWhich, HeadInput, HeadValue, HeadUnit, HeadLow, HeadHigh, HeadShape, HeadNote, HeadSource}

// formOf reads one sheet of the form; what it finds is "cell: what".
func formOf(s cells.Sheet) (entries []study.Entry, found []string) {
	form := readForm("f.xlsx", &cells.Book{Sheets: []cells.Sheet{s}})
	for _, p := range form.Found {
		found = append(found, p.Place.Cell+": "+p.What)
	}
	return form.Entries, found
}

func TestARowOfTheFormIsAnEntryWithItsCells(t *testing.T) {
	entries, found := formOf(sheet("Machines", []any{"Machines"}, headings,
		[]any{"planer36", "price", 4200.0, nil, 4000.0, "4500", "uniform", "quoted", "dealer"},
		[]any{"planer36", "feed", "20 ft/min", nil, nil, nil, nil, nil, nil},
		[]any{nil, nil, nil, nil, nil, nil, nil, nil, nil},
		[]any{"planer36", "age", cells.Cell{Kind: cells.Number, Number: 3}, "years"},
	))
	assert.Empty(t, found)
	require.Len(t, entries, 4, "the list itself and three rows")
	assert.Equal(t, "machines", entries[0].Path)
	price := entries[1]
	assert.Equal(t, "machines.planer36.price", price.Path)
	assert.Equal(t, []string{"4200", "4000", "4500", "uniform", "quoted", "dealer"},
		[]string{price.Value.Text, price.Low.Text, price.High.Text, price.Shape.Text, price.Note.Text, price.Source.Text})
	assert.Equal(t, []string{"C3", "E3", "F3", "G3", "A3", "B3"},
		[]string{price.Value.Place.Cell, price.Low.Place.Cell, price.High.Place.Cell, price.Shape.Place.Cell, price.Which.Cell, price.Named.Cell})
	assert.False(t, price.Refused)
	assert.Equal(t, "20 ft/min", entries[2].Value.Text)
	assert.Equal(t, "3 years", entries[3].Value.Text)
	assert.Equal(t, "C6", entries[3].Value.Place.Cell)
}

func TestABareNumberIsPutRightInTheCellOfItsUnit(t *testing.T) {
	entries, _ := formOf(sheet("Machines", headings,
		[]any{"planer36", "feed", 6.0, nil, 5.0},
		[]any{"planer36", "price", 6.0},
		[]any{"planer36", "feed", "six"},
		[]any{"planer36", "peak_load", cells.Cell{Kind: cells.Number, Number: 0.75, Percent: true}},
		[]any{"planer36", "feed", cells.Cell{Kind: cells.Number, Number: 0.75, Percent: true}},
		[]any{"planer36", "peak_load", cells.Cell{Kind: cells.Number, Number: 0.75, Percent: true}, "%"},
		[]any{"planer36", "peak_load", cells.Cell{Kind: cells.Number, Number: 1.0 / 3, Percent: true}},
	))
	var said []string
	for _, e := range entries[1:] {
		said = append(said, e.Value.Place.Cell+" "+e.Value.Text)
	}
	assert.Equal(t, []string{"D2 6", "C3 6", "C4 six", "C5 75 %", "C6 75 %", "C7 75 %", "C8 0.3333333333333333"}, said)
	assert.Equal(t, "E2", entries[1].Low.Place.Cell, "told once")
}

func TestAUnitThatIsTypedCountsBeforeTheOneBesideIt(t *testing.T) {
	for _, row := range []struct {
		value any
		unit  string
		want  string
	}{
		{6.0, "m/min", "6 m/min"},
		{"6", "m/min", "6 m/min"},
		{"6 m/min", "m/min", "6 m/min"},
		{"6 m/min", "ft/min", "6 m/min"},
		{"6 m/min", "", "6 m/min"},
		{"six", "m/min", "six m/min"},
		{nil, "m/min", ""},
	} {
		entries, found := formOf(sheet("Machines", headings, []any{"planer36", "feed", row.value, row.unit, nil, nil, nil, "a note"}))
		assert.Empty(t, found, "%v", row)
		assert.Equal(t, row.want, entries[1].Value.Text, "%v", row)
		assert.False(t, entries[1].Refused)
	}
}

func TestNumbersAreWrittenWithoutAnExponentWhereThatIsShort(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 1e21: "1000000000000000000000", 1.1e21: "1.1e+21", 1e-9: "0.000000001", 0.9e-9: "9e-10", -2e-10: "-2e-10", -1.5: "-1.5"} {
		assert.Equal(t, want, digits(x))
	}
}

func TestWhatNoCellMayHoldIsToldThere(t *testing.T) {
	formula, fault, date := cells.Cell{Kind: cells.Formula, Text: "1+1"}, cells.Cell{Kind: cells.Fault, Text: "#N/A"}, cells.Cell{Kind: cells.Number, Number: 45000, Date: true}
	entries, found := formOf(sheet("Machines", headings,
		[]any{"planer36", "price", formula},
		[]any{"planer36", "feed", 6.0, fault},
		[]any{"planer36", "max_width", 6.0, "mm", date},
		[]any{"planer36", "name", "big", "mm", 1.0, nil, nil, formula},
		[]any{formula, "price", 6.0},
		[]any{"planer36", fault, 6.0},
	))
	assert.ElementsMatch(t, []string{
		"C2: machines.planer36.price is a formula", "D3: the unit of machines.planer36.feed is the error #N/A",
		"E4: machines.planer36.max_width.low is a date or a time of day", "H5: machines.planer36.name.note is a formula",
		`D5: machines.planer36.name has the unit "mm" and is no figure`, "A6: the name of the machine is a formula", "B7: the name of the input is the error #N/A",
	}, found)
	for _, e := range entries[1:] {
		assert.True(t, e.Refused, e.Path)
	}
	assert.Equal(t, "1", entries[4].Low.Text, "the reader refuses a range of a name")
}

func TestARowSaysWhichAndWhat(t *testing.T) {
	entries, found := formOf(sheet("Jobs", headings,
		[]any{"dining", nil, 4.0},
		[]any{nil, "per_year", nil, nil, nil, nil, nil, nil, "a source"},
		[]any{"dining", "per_year"},
		[]any{"dining", nil},
		[]any{nil, "per_year"},
		[]any{"dining / top", "length", "2 m"},
		[]any{"dining/sand/80", "stock", "1 mm"},
		[]any{"dining / a / b / c", "stock", "1 mm"},
		[]any{"dining / top", "lenght", "2 m"},
	))
	assert.Equal(t, []string{"B2: the row gives a value and names no input", "A3: the row does not say which job type it is about", `A9: "dining / a / b / c" is no job type`}, found)
	var paths []string
	for _, e := range entries {
		paths = append(paths, e.Path)
	}
	assert.Equal(t, []string{"job_types", "job_types.dining.per_year", "job_types.dining.pieces.top.length", "job_types.dining.operations.sand.grits.80.stock", "job_types.dining.pieces.top.lenght"}, paths)

	entries, found = formOf(sheet(StudySheet, headings, []any{"study", "title", "loft"}, []any{"studio", "labour_rate", 60.0}, []any{"studoi", "people", 2.0}, []any{"studio / x", "people", 2.0}))
	assert.Equal(t, []string{`A4: "studoi" is no section`, `A5: "studio / x" is no section`}, found)
	form := readForm("f.xlsx", &cells.Book{Sheets: []cells.Sheet{sheet(StudySheet, headings, []any{"studoi", "people", 2.0}), sheet("Edges", headings, []any{"a / b", "price", 2.0})}})
	assert.Equal(t, []string{`did you mean "studio"?`, "write its key"}, []string{form.Found[0].Right, form.Found[1].Right})
	assert.Equal(t, "title", entries[0].Path)
	assert.Equal(t, "studio.labour_rate", entries[1].Path)
}

func TestAnInputThatIsMisspeltIsPutWhereItIsNearest(t *testing.T) {
	for name, want := range map[string]string{"lenght": "job_types.dining.pieces.top.lenght", "cut_lenght": "job_types.dining.operations.top.cut_lenght", "colour of it": "job_types.dining.pieces.top.colour of it"} {
		path, _, known, ok := catalogue{}.locate(Parts()[8], []string{"dining", "top"}, name)
		assert.False(t, known)
		assert.True(t, ok)
		assert.Equal(t, want, path)
	}
	_, input, known, ok := catalogue{}.locate(Parts()[3], []string{"planer36"}, "value_table.3")
	assert.True(t, known && ok && input.Rows)
	for _, name := range []string{"value_table", "value_table.three", "price.3"} {
		_, _, known, _ := catalogue{}.locate(Parts()[3], []string{"planer36"}, name)
		assert.False(t, known, name)
	}
	assert.Equal(t, []string{"study", "studio", "growth"}, sectionNames())
}

func TestASheetHasItsHeadings(t *testing.T) {
	machines := func(rows ...[]any) []string {
		_, found := formOf(sheet("Machines", rows...))
		return found
	}
	without := func(heading string) []any {
		var row []any
		for _, one := range headings {
			if one != heading {
				row = append(row, one)
			}
		}
		return row
	}
	assert.Empty(t, machines())
	assert.Equal(t, []string{"A1: the sheet Machines has no row of headings"}, machines([]any{"planer36", "price", 4000.0}))
	assert.Empty(t, machines(without(HeadShape)), "forms of before ranges had a shape")
	assert.Equal(t, []string{`A1: the sheet Machines has no column "unit"`}, machines(without(HeadUnit)))
	assert.Equal(t, []string{`A1: the sheet Machines has no column "which"`}, machines(without(HeadWhich)))
	assert.Equal(t, []string{`A1: the sheet Machines has no column "value"`}, machines(without(HeadValue)))
	assert.Equal(t, []string{"A1: the sheet Machines has no row of headings"}, machines(without(HeadInput)))
	assert.Empty(t, machines([]any{"input"}, headings), "a word above the headings")
	low := make([][]any, mostAbove-1)
	assert.Empty(t, machines(append(low, headings)...), "thirty rows are looked at")
	assert.NotEmpty(t, machines(append(make([][]any, mostAbove), headings)...))
	_, found := formOf(sheet("Machnes", []any{"x"}))
	assert.Equal(t, []string{`A1: unknown sheet "Machnes"`}, found)
	for _, harmless := range []cells.Sheet{sheet("Table 1"), sheet(ReadMe, []any{"words"})} {
		_, found = formOf(harmless)
		assert.Empty(t, found, "an empty sheet, and the first page")
	}
	beyond := sheet("Table 1")
	beyond.Beyond = &cells.Place{Row: 9, Col: 99}
	_, found = formOf(beyond)
	assert.Len(t, found, 1)
	beyond.Name = "Machines"
	_, found = formOf(beyond)
	assert.Equal(t, []string{"CU9: something stands beyond the part of the sheet that is read"}, found)
}

func TestMergedCellsOverRowsOfInputsAreRefused(t *testing.T) {
	rows := [][]any{headings, {"planer36", "price", 1.0}, {"planer36", "age", 1.0, "years"}, {"planer36", "feed", 1.0, "m/s"}, {nil, nil, 2.0}}
	rows[0] = append(append([]any(nil), headings...), nil, HeadAbout) // K, which is not read
	for _, row := range []struct {
		first, last cells.Place
		refused     []string // paths
	}{
		{cells.Place{Row: 1, Col: 3}, cells.Place{Row: 1, Col: 4}, nil}, // over the headings
		{cells.Place{Row: 2, Col: 10}, cells.Place{Row: 3, Col: 11}, nil},
		{cells.Place{Row: 2, Col: 9}, cells.Place{Row: 2, Col: 11}, []string{"machines.planer36.price"}},
		{cells.Place{Row: 2, Col: 1}, cells.Place{Row: 3, Col: 1}, []string{"machines.planer36.price", "machines.planer36.age"}},
		{cells.Place{Row: 4, Col: 3}, cells.Place{Row: 9, Col: 3}, []string{"machines.planer36.feed"}},
	} {
		s := sheet("Machines", rows...)
		s.Merged = []cells.Area{{First: row.first, Last: row.last}}
		entries, found := formOf(s)
		var refused []string
		for _, e := range entries {
			if e.Refused {
				refused = append(refused, e.Path)
			}
		}
		assert.Equal(t, row.refused, refused, "%v", s.Merged)
		told := 0
		for _, what := range found {
			if what == s.Merged[0].First.String()+": the cells "+s.Merged[0].String()+" are merged" {
				told++
			}
		}
		assert.Equal(t, len(row.refused) > 0, told == 1, "%v", s.Merged)
	}
}

func TestAWorkbookIsKnownByItsMark(t *testing.T) {
	marked := func(row, col int, text string) cells.Sheet {
		s := sheet(ReadMe)
		s.Cells[cells.Place{Row: row, Col: col}] = cells.Cell{Kind: cells.Text, Text: text}
		return s
	}
	for _, place := range []cells.Place{{Row: 1, Col: 1}, {Row: 30, Col: 30}, {Row: 4, Col: 2}} {
		mark, at := markOf(&cells.Book{Sheets: []cells.Sheet{sheet("Machines"), marked(place.Row, place.Col, " "+FormMark+" ")}})
		assert.Equal(t, FormMark, mark)
		assert.Equal(t, place.String(), at.Cell)
	}
	for _, place := range []cells.Place{{Row: 31, Col: 1}, {Row: 1, Col: 31}} {
		mark, _ := markOf(&cells.Book{Sheets: []cells.Sheet{marked(place.Row, place.Col, FormMark)}})
		assert.Empty(t, mark)
	}
	mark, _ := markOf(&cells.Book{Sheets: []cells.Sheet{sheet("Machines", []any{FormMark}), sheet(DecisionSheet, []any{FormMark})}})
	assert.Empty(t, mark, "each on a sheet of its own kind")
	assert.Equal(t, []string{DecisionSheet}, worthReading([]string{"Answer", DecisionSheet}))
	assert.Len(t, worthReading([]string{ReadMe, DecisionSheet}), 2)
	assert.Contains(t, foreign("f", &cells.Book{Sheets: []cells.Sheet{sheet(StudySheet)}}).What, "has lost the mark of the form")
	assert.Contains(t, foreign("f", &cells.Book{Sheets: []cells.Sheet{sheet(DecisionSheet)}}).What, "does not say what it was solved for")
	assert.Contains(t, foreign("f", &cells.Book{Sheets: []cells.Sheet{sheet("Table 1")}}).What, "is no study")
}

func TestADateOfTheFormIsReadAsADay(t *testing.T) {
	entries, found := formOf(sheet("Dated jobs", headings,
		[]any{"a", "ready", cells.Cell{Kind: cells.Number, Number: 46458, Date: true}},
		[]any{"a", "due", "2027-03-12"},
		[]any{"b", "due", cells.Cell{Kind: cells.Number, Number: 46458.5, Date: true}},
		[]any{"c", "due", cells.Cell{Kind: cells.Formula, Text: "TODAY()", Date: true}},
		[]any{"d", "ready", cells.Cell{Kind: cells.Number, Number: 1, Date: true}},
		[]any{"e", "ready", cells.Cell{Kind: cells.Number, Number: 1e6, Date: true}},
		[]any{"f", "ready", cells.Cell{Kind: cells.Number, Number: 1e6 + 1, Date: true}},
	))
	assert.Equal(t, "2027-03-12", entries[1].Value.Text)
	assert.Equal(t, "2027-03-12", entries[2].Value.Text)
	assert.Equal(t, []string{"C4: dated_jobs.b.due is a date or a time of day", "C5: dated_jobs.c.due is a formula", "C8: dated_jobs.f.ready is a date or a time of day"}, found)
	assert.Equal(t, "1899-12-31", entries[5].Value.Text)
	assert.Equal(t, "4637-11-26", entries[6].Value.Text, "a million days")
}

func TestALengthIsAFigureAndANameIsNone(t *testing.T) {
	dim, ok := Inputs("job_types.pieces")[1].Dimension()
	assert.True(t, ok)
	assert.Equal(t, quantity.DimLength, dim)
	_, ok = Inputs("job_types")[0].Dimension()
	assert.False(t, ok)
	assert.Equal(t, "yes", YesNo(true))
	assert.Equal(t, "no", YesNo(false))
}
