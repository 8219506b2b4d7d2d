package cells_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/intake/cells"
)

// Source: ECMA-376-1:2016, 18.8.30, number formats that are known without a code,
// those of East Asian dates included.
func TestAFormatWithoutACodeIsADateByItsNumber(t *testing.T) {
	const most = 60
	var styles, row strings.Builder
	for id := range most {
		fmt.Fprintf(&styles, `<xf numFmtId="%d"/>`, id)
		fmt.Fprintf(&row, `<c s="%d"><v>1</v></c>`, id)
	}
	got, trouble := read(packed(t, part{"xl/workbook.xml", oneBook}, part{"xl/_rels/workbook.xml.rels", oneRels},
		part{"xl/styles.xml", head + `<styleSheet><cellXfs>` + styles.String() + `</cellXfs></styleSheet>`},
		part{"xl/worksheets/sheet1.xml", head + `<worksheet><sheetData><row>` + row.String() + `</row></sheetData></worksheet>`}))
	require.Nil(t, trouble)
	var dates, percents []int
	for id := range most {
		cell := got.Sheets[0].Cells[cells.Place{Row: 1, Col: id + 1}]
		require.Equal(t, cells.Number, cell.Kind)
		if cell.Date {
			dates = append(dates, id)
		}
		if cell.Percent {
			percents = append(percents, id)
		}
	}
	assert.Equal(t, []int{9, 10}, percents)
	assert.Equal(t, []int{
		14, 15, 16, 17, 18, 19, 20, 21, 22, 27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 45, 46, 47, 50, 51, 52, 53, 54, 55, 56, 57, 58,
	}, dates)
}

// Source: ECMA-376-1:2016, 22.9.2.19, escaped characters: _x, four hexadecimal digits, _.
func TestAWrittenSignIsReadWhereverItStands(t *testing.T) {
	for written, want := range map[string]string{
		"_x0041_": "A", "_x0041_line": "Aline", "a_x0041_": "aA", "_x0041__x0042_": "AB", "_x005F_x0041_": "_x0041_",
		"_x004_": "_x004_", "_x00zz_": "_x00zz_", "_x0041-": "_x0041-", "_x_x0041_": "_xA", "x": "x",
	} {
		got, trouble := read(book(t, `<sheetData><row><c t="str"><v>`+written+`</v></c></row></sheetData>`))
		require.Nil(t, trouble)
		assert.Equal(t, want, got.Sheets[0].Cells[cells.Place{Row: 1, Col: 1}].Text, written)
	}
}

func TestACellStandsWhereItSaysOrBehindTheLast(t *testing.T) {
	got, trouble := read(book(t, `<sheetData>
		<row r="5"><c r="BH5"><v>1</v></c><c><v>2</v></c></row>
		<row><c><v>3</v></c><c><v>4</v></c></row>
		<row><c t="b"><v>0</v></c><c><v>1e999</v></c><c t="d"><v>2027-03-12</v></c><c s="-1"><v>5</v></c><c t="s"><v>-1</v></c><c t="s"><v>2</v></c></row>
		</sheetData>`))
	require.Nil(t, trouble)
	sheet := got.Sheets[0]
	found := map[string]cells.Cell{}
	for at, cell := range sheet.Cells {
		found[at.String()] = cell
	}
	missing := cells.Cell{Kind: cells.Fault, Text: "a text that is not in the file"}
	assert.Equal(t, map[string]cells.Cell{
		"BH5": {Kind: cells.Number, Number: 1, Text: "1"}, "A6": {Kind: cells.Number, Number: 3, Text: "3"}, "B6": {Kind: cells.Number, Number: 4, Text: "4"},
		"A7": {Kind: cells.Logical, Text: "FALSE"}, "B7": {Kind: cells.Fault, Text: "1e999"}, "C7": {Kind: cells.Number, Text: "2027-03-12", Date: true},
		"D7": {Kind: cells.Number, Number: 5, Text: "5"}, "E7": missing, "F7": missing,
	}, found)
	assert.Equal(t, &cells.Place{Row: 5, Col: 61}, sheet.Beyond, "sixty columns are read")
	assert.Equal(t, 7, sheet.Rows)
}

func TestColumnsAreNamedAsSpreadsheetsDo(t *testing.T) {
	for col, want := range map[int]string{0: "", 1: "A", 26: "Z", 27: "AA", 52: "AZ", 53: "BA", 702: "ZZ", 703: "AAA", 18278: "ZZZ"} {
		assert.Equal(t, want, cells.Column(col))
	}
}

func TestABookThatStandsElsewhereIsFoundByTheListOfParts(t *testing.T) {
	sheet := part{"xl/worksheets/sheet1.xml", head + `<worksheet><sheetData><row><c><v>1</v></c></row></sheetData></worksheet>`}
	parts := []part{
		{"_rels/.rels", `<Relationships><Relationship Id="a" Type="x/other" Target="xl/worksheets/sheet1.xml"/><Relationship Id="b" Type="x/officeDocument" Target="xl/book.bin"/><Relationship Id="c" Type="x/officeDocument" Target="xl/none.xml"/><Relationship Id="d" Type="x/officeDocument" Target="word/document.xml"/><Relationship Id="r" Type="x/officeDocument" Target="/xl/book.xml"/></Relationships>`},
		{"xl/book.xml", oneBook}, {"xl/book.bin", "x"}, {"word/document.xml", "<d/>"}, {"xl/_rels/book.xml.rels", oneRels}, sheet,
	}
	got, trouble := read(packed(t, parts...))
	require.Nil(t, trouble)
	assert.Len(t, got.Sheets[0].Cells, 1)
	_, trouble = read(packed(t, parts[1:]...))
	require.NotNil(t, trouble, "nothing tells where it is")
}
