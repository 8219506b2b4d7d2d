package problem

import (
	"cmp"
	"strconv"
	"strings"
)

// Place is where a value stands: in a text file by line and column, both from
// 1 with 0 for unknown, or in a workbook by sheet and cell.
type Place struct {
	File         string
	Line, Column int
	Sheet, Cell  string
}

// String is "file:line:column" or "file!Sheet!B4", as far as it is known; the
// zero Place is "".
func (p Place) String() string {
	if p.Sheet != "" || p.Cell != "" {
		return joinKnown("!", p.File, p.Sheet, p.Cell)
	}
	if p.Line <= 0 {
		return p.File
	}
	line, column := strconv.Itoa(p.Line), ""
	if p.Column > 0 {
		column = strconv.Itoa(p.Column)
	}
	return joinKnown(":", p.File, line, column)
}

// compare puts places in reading order: file, line, column, then sheet and
// cell row by row.
func (p Place) compare(q Place) int {
	return cmp.Or(
		cmp.Compare(p.File, q.File),
		cmp.Compare(p.Line, q.Line),
		cmp.Compare(p.Column, q.Column),
		cmp.Compare(p.Sheet, q.Sheet),
		compareCells(p.Cell, q.Cell),
	)
}

// compareCells puts B4 before A10 and Z1 before AA1.
func compareCells(a, b string) int {
	columnA, rowA := splitCell(a)
	columnB, rowB := splitCell(b)
	return cmp.Or(
		cmp.Compare(len(rowA), len(rowB)), cmp.Compare(rowA, rowB),
		cmp.Compare(len(columnA), len(columnB)), cmp.Compare(columnA, columnB),
	)
}

func splitCell(cell string) (column, row string) {
	column = strings.TrimRight(cell, "0123456789")
	return column, cell[len(column):]
}

func joinKnown(sign string, parts ...string) string {
	known := parts[:0]
	for _, part := range parts {
		if part != "" {
			known = append(known, part)
		}
	}
	return strings.Join(known, sign)
}
