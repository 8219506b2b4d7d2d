package recalc

import (
	_ "embed"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"shopstint/reports/workbook/grid"
)

// driver works LibreOffice. To read the cells there takes a tenth of the time of
// saving a workbook and reading that.
//
//go:embed drive.py
var driver []byte

// Edit is what a reader types into a cell: a float64, int, string or bool.
type Edit struct {
	Sheet string `json:"sheet"`
	Cell  string `json:"cell"`
	Value any    `json:"value"`
}

// CopiedRow is a row of a sheet that a reader copies over another one.
type CopiedRow struct {
	Sheet string `json:"sheet"`
	From  int    `json:"from"`
	To    int    `json:"to"`
}

// round is what is done to a workbook before its cells are read.
type round struct {
	Copy  *CopiedRow `json:"copy"`
	Edits []Edit     `json:"edits"`
}

// driven is a workbook and what is done to it, each round on the file as it was.
type driven struct {
	File   string  `json:"file"`
	Rounds []round `json:"rounds"`
}

// Recalculate has LibreOffice load and calculate every file in one start, and reads the cells.
func (o *Office) Recalculate(t testing.TB, files ...string) []Sheets {
	t.Helper()
	var books []driven
	for _, file := range files {
		books = append(books, driven{file, make([]round, 1)})
	}
	return slices.Concat(o.drive(t, books)...)
}

// RecalculateEdited has LibreOffice open the file, types the edits and reads the calculated cells. Only cells of the
// used area that hold no formula can be edited. The file stays as it is.
func (o *Office) RecalculateEdited(t testing.TB, file string, edits []Edit) Sheets {
	t.Helper()
	return o.RecalculateEach(t, file, [][]Edit{edits})[0]
}

// RecalculateEach does the same for many sets of edits, each on the unedited workbook, which is opened once.
func (o *Office) RecalculateEach(t testing.TB, file string, sets [][]Edit) []Sheets {
	t.Helper()
	var rounds []round
	for _, edits := range sets {
		rounds = append(rounds, round{Edits: edits})
	}
	return o.drive(t, []driven{{file, rounds}})[0]
}

// RecalculateCopied copies a row first, and then types the edits, which may be into the copy.
func (o *Office) RecalculateCopied(t testing.TB, file string, row CopiedRow, edits []Edit) Sheets {
	t.Helper()
	return o.drive(t, []driven{{file, []round{{&row, edits}}}})[0][0]
}

// read is a sheet as the driver writes it down: texts, numbers and nothing, and the places of errors, where row and
// column count from 0.
type read struct {
	Rows   [][]any  `json:"rows"`
	Faults [][3]any `json:"faults"`
}

// drive gives the cells of each workbook after each round.
func (o *Office) drive(t testing.TB, books []driven) [][]Sheets {
	t.Helper()
	need(t, "soffice", "libreoffice-calc-nogui")
	need(t, "/usr/bin/python3", "python3-uno")
	for _, book := range books {
		for _, round := range book.Rounds {
			for _, edit := range round.Edits {
				require.NoError(t, edit.typable())
			}
		}
	}
	dir := t.TempDir()
	script, order, made := filepath.Join(dir, "drive.py"), filepath.Join(dir, "order.json"), filepath.Join(dir, "made.json")
	require.NoError(t, os.WriteFile(script, driver, 0o600))
	text, err := json.Marshal(map[string]any{"profile": o.profile, "made": made, "books": books})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(order, text, 0o600))
	said := run(t, "/usr/bin/python3", script, order)
	answer, err := os.ReadFile(made)
	require.NoError(t, err, said)
	var got [][]map[string]read
	require.NoError(t, json.Unmarshal(answer, &got), said)
	require.Len(t, got, len(books), said)
	out := make([][]Sheets, len(books))
	for i, rounds := range got {
		require.Len(t, rounds, len(books[i].Rounds), said)
		cached, _ := Cached(t, books[i].File)
		for _, sheets := range rounds {
			out[i] = append(out[i], valuesOf(sheets, cached))
		}
	}
	return out
}

// valuesOf gives each cell its kind. LibreOffice tells a logical value as the
// number that it is to it; what the file holds says where one stands.
func valuesOf(sheets map[string]read, cached Sheets) Sheets {
	out := Sheets{}
	for name, sheet := range sheets {
		out[name] = map[string]Value{}
		for r, row := range sheet.Rows {
			for c, held := range row {
				ref := grid.Ref(r+1, c+1)
				if v := valueOf(held, cached[name][ref].Kind); v.Kind != Empty {
					out[name][ref] = v
				}
			}
		}
		for _, fault := range sheet.Faults {
			row, column := fault[0].(float64), fault[1].(float64)
			out[name][grid.Ref(int(row)+1, int(column)+1)] = Value{Kind: Fault, Text: fault[2].(string)}
		}
	}
	return out
}

func valueOf(held any, cached Kind) Value {
	switch held := held.(type) {
	case float64:
		if cached == Logical && (held == 0 || held == 1) {
			return Value{Kind: Logical, Number: held}
		}
		return Value{Kind: Numeric, Number: held}
	case string:
		if held != "" {
			return Value{Kind: Textual, Text: held}
		}
	}
	return Value{}
}
