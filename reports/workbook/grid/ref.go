package grid

import (
	"strconv"
	"strings"
)

// The limits of the file format.
const (
	maxRows    = 1 << 20
	maxColumns = 1 << 14
)

// ColumnName gives the letters of a column counted from 1: 28 is "AB". Below 1 it is empty.
func ColumnName(col int) string {
	var letters [8]byte
	at := len(letters)
	for col > 0 && at > 0 {
		at--
		letters[at] = byte('A' + (col-1)%26)
		col = (col - 1) / 26
	}
	return string(letters[at:])
}

// Ref gives the relative reference of a cell: Ref(3, 2) is "B3".
func Ref(row, col int) string {
	return ColumnName(col) + strconv.Itoa(row)
}

// AbsRef gives the absolute reference of a cell: AbsRef(3, 2) is "$B$3".
func AbsRef(row, col int) string {
	return "$" + ColumnName(col) + "$" + strconv.Itoa(row)
}

// SheetRef gives the absolute reference of a cell on a sheet: `'Inputs'!$B$3`.
func SheetRef(sheet string, row, col int) string {
	return quoteSheet(sheet) + "!" + AbsRef(row, col)
}

// RangeRef gives the absolute reference of a block of cells on a sheet: `'Inputs'!$B$3:$B$9`.
func RangeRef(sheet string, row1, col1, row2, col2 int) string {
	return SheetRef(sheet, row1, col1) + ":" + AbsRef(row2, col2)
}

// Quote writes a text as a formula holds it: Quote(`6" belt`) is `"6"" belt"`.
func Quote(text string) string {
	return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
}

func quoteSheet(name string) string {
	return "'" + strings.ReplaceAll(name, "'", "''") + "'"
}

// place is a cell's row and column, counted from 1.
type place struct{ row, col int }

// block is a rectangle of cells, corners included.
type block struct{ first, last place }

// parseCell reads "B3" or "$B$3".
func parseCell(ref string) (place, bool) {
	rest := strings.TrimPrefix(ref, "$")
	letters := 0
	col := 0
	for letters < len(rest) && letters < 4 && 'A' <= rest[letters] && rest[letters] <= 'Z' {
		col = col*26 + int(rest[letters]-'A') + 1
		letters++
	}
	digits := strings.TrimPrefix(rest[letters:], "$")
	row, err := strconv.ParseUint(digits, 10, 32)
	if letters == 0 || err != nil || digits[0] == '+' {
		return place{}, false
	}
	at := place{int(row), col}
	return at, at.inside()
}

func (p place) inside() bool {
	return p.row >= 1 && p.row <= maxRows && p.col >= 1 && p.col <= maxColumns
}

// parseBlock reads "B3" or "B3:D9", with or without dollar signs.
func parseBlock(ref string) (block, bool) {
	from, to, isRange := strings.Cut(ref, ":")
	first, ok := parseCell(from)
	if !ok || !isRange {
		return block{first, first}, ok
	}
	last, ok := parseCell(to)
	return block{first, last}, ok && first.row <= last.row && first.col <= last.col
}

// splitSheet takes `'Inputs'!$B$4` apart into the bare sheet name and the rest. Without a sheet ok is false.
func splitSheet(ref string) (sheet, rest string, ok bool) {
	at := strings.LastIndexByte(ref, '!')
	if at <= 0 {
		return "", ref, false
	}
	sheet = ref[:at]
	if len(sheet) > 1 && sheet[0] == '\'' && sheet[len(sheet)-1] == '\'' {
		sheet = strings.ReplaceAll(sheet[1:len(sheet)-1], "''", "'")
	}
	return sheet, ref[at+1:], true
}
