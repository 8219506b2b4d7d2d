package intake

import (
	"math"
	"strconv"
	"strings"

	"shopstint/model/intake/cells"
	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/model/study"
)

// sheetReader reads the cells of one sheet and collects what is wrong with them.
type sheetReader struct {
	file      string
	sheet     *cells.Sheet
	since1904 bool // as in the book
	found     problem.List
}

func (s *sheetReader) place(at cells.Place) problem.Place {
	return problem.Place{File: s.file, Sheet: s.sheet.Name, Cell: at.String()}
}

func (s *sheetReader) refuse(at cells.Place, path, what, right string) {
	s.found = append(s.found, problem.Problem{Path: path, Place: s.place(at), What: what, Right: right})
}

// cell returns the cell of a column, which is 0 for a column that is not there.
func (s *sheetReader) cell(row, col int) cells.Cell {
	return s.sheet.Cells[cells.Place{Row: row, Col: col}]
}

// readable refuses what no cell of a form may hold. The name is how the message
// calls what should stand there.
func (s *sheetReader) readable(at cells.Place, path, name string, cell cells.Cell) bool {
	switch {
	case cell.Kind == cells.Formula:
		s.refuse(at, path, name+" is a formula", "type the value itself: what a formula last came to is not taken on trust")
	case cell.Kind == cells.Fault:
		s.refuse(at, path, name+" is the error "+cell.Text, "type the value, or empty the cell")
	case cell.Date:
		s.refuse(at, path, name+" is a date or a time of day", "a spreadsheet program makes one of 5/8 or 0:42: format the cell as text or number and type 5/8 as 0.625, 0:42 as 42 min, a day as 2027-03-14")
	default:
		return true
	}
	return false
}

// dateOf is a cell as a date: a spreadsheet program makes a number of days of
// what was typed as one. Other cells are taken as they are. ok is false for a
// time of day, and for a number that is no day.
//
// Source: ECMA-376-1:2016, 18.17.4.1, date conversion for serial date-times.
func dateOf(cell cells.Cell, since1904 bool) (text string, ok bool) {
	if !cell.Date {
		return plainText(cell), true
	}
	if date, err := quantity.ParseDate(cell.Text); err == nil { // a cell may hold a date as text
		return string(date), true
	}
	zero := quantity.Date("1899-12-30").Day()
	if since1904 {
		zero = quantity.Date("1904-01-01").Day()
	}
	if cell.Number != math.Trunc(cell.Number) || cell.Number < 1 || cell.Number > 1e6 {
		return "", false
	}
	return string(quantity.DateOf(zero + int(cell.Number))), true
}

// plainText is a cell as text: a number in its shortest digits.
func plainText(cell cells.Cell) string {
	switch {
	case cell.Kind == cells.Number && cell.Percent:
		return seen(cell.Number)
	case cell.Kind == cells.Number:
		return digits(cell.Number)
	}
	return strings.TrimSpace(cell.Text)
}

// seen writes a cell that is formatted as a percentage as it is seen, or as the
// bare share where only that is exact.
func seen(share float64) string {
	text := quantity.Format(quantity.DimShare, share, quantity.Metric)
	if back, _, err := quantity.Parse(quantity.DimShare, text); err == nil && back == share {
		return text
	}
	return digits(share)
}

// digits writes a number without an exponent where that stays short.
func digits(x float64) string {
	if size := math.Abs(x); x != 0 && (size > 1e21 || size < 1e-9) {
		return strconv.FormatFloat(x, 'g', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// figure joins a number with its unit into the text that a study would have. A
// text may bring a unit of its own, which then counts: the one beside it was there
// before it was typed.
func figure(dim quantity.Dimension, cell cells.Cell, unit string) string {
	text := plainText(cell)
	switch {
	case text == "":
		return ""
	case cell.Kind == cells.Number && cell.Percent && unit == percent:
		return text
	case cell.Kind == cells.Number || unit == "":
		return strings.TrimSpace(text + " " + unit)
	case isFigure(dim, text+" "+unit):
		return text + " " + unit
	case isFigure(dim, text):
		return text
	}
	return text + " " + unit
}

const percent = "%"

func isFigure(dim quantity.Dimension, text string) bool {
	_, _, err := quantity.Parse(dim, text)
	return err == nil
}

// figureAt reads a cell that holds a figure. A bare number that lacks its unit is
// put right in the cell of the unit, if there is one.
func (s *sheetReader) figureAt(at, unitAt cells.Place, path, name string, dim quantity.Dimension, unit string) (read study.Text, ok bool) {
	read.Place = s.place(at)
	cell := s.cell(at.Row, at.Col)
	if !s.readable(at, path, name, cell) {
		return read, false
	}
	read.Text = figure(dim, cell, unit)
	if unitAt.Col > 0 && unit == "" && cell.Kind == cells.Number && !cell.Percent && !isFigure(dim, read.Text) {
		read.Place = s.place(unitAt)
	}
	return read, true
}
