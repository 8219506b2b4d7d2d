// Package cells reads the cells of a workbook that comes from a stranger: their
// values, how they are formatted, formulas, merged ranges. Everything it takes
// in is bounded before it is held: parts, unpacked bytes, sheets, rows, columns.
// Nothing is calculated, executed or fetched. It knows no word of the trade.
//
// It reads the format as a stream, and not through the library that writes our
// workbooks, which unfolds a sheet to its farthest cell before it can be asked.
package cells

import "strconv"

// Bounds of what is read.
const (
	MostUnpacked = 64 << 20 // bytes of all parts together
	MostPart     = 16 << 20 // bytes of one part
	MostParts    = 2000
	MostSheets   = 60
	MostRows     = 40000
	MostColumns  = 60
	MostText     = 1000 // bytes of one cell that are kept
)

// Kind is what a cell holds.
type Kind int

// The kinds of content. A Fault is an error value, a Formula any formula: its
// cached value is not looked at.
const (
	Empty Kind = iota
	Number
	Text
	Logical
	Fault
	Formula
)

// Cell is one cell. Text holds a text, an error value, a formula without its
// "=", or the number as it stands in the file.
type Cell struct {
	Kind    Kind
	Number  float64 // of a Number; 1 or 0 of a Logical
	Text    string
	Percent bool // formatted as a percentage
	Date    bool // formatted as a date or a time of day
}

// Place is a cell's row and column, both from 1.
type Place struct{ Row, Col int }

// Area is a rectangle of cells, corners included.
type Area struct{ First, Last Place }

// Sheet is one sheet. Cells without content are left out. Beyond is a cell
// outside the bounds that holds something, if there is one.
type Sheet struct {
	Name   string
	Cells  map[Place]Cell
	Merged []Area
	Rows   int // the last row that holds something
	Beyond *Place
}

// Book is a workbook. Its dates are numbers of days since the end of 1899, or
// since the first of 1904.
type Book struct {
	Sheets    []Sheet
	Since1904 bool
}

// Trouble is why a file cannot be read as a workbook, for its owner.
type Trouble struct{ What, Right string }

// String is the name of a place: B4.
func (p Place) String() string { return Column(p.Col) + strconv.Itoa(p.Row) }

// String is a range: B4:C9.
func (a Area) String() string { return a.First.String() + ":" + a.Last.String() }

// Column names a column counted from 1: 28 is AB. Below 1 it is empty.
func Column(col int) string {
	name := ""
	for ; col > 0; col = (col - 1) / 26 {
		name = string(rune('A'+(col-1)%26)) + name
	}
	return name
}

// placeOf reads "B4"; ok is false for anything else.
func placeOf(ref string) (at Place, ok bool) {
	i := 0
	for ; i < len(ref) && i < 4 && 'A' <= ref[i] && ref[i] <= 'Z'; i++ {
		at.Col = at.Col*26 + int(ref[i]-'A') + 1
	}
	row, err := strconv.ParseUint(ref[i:], 10, 31)
	at.Row = int(row)
	return at, err == nil && at.Col > 0 && at.Row > 0
}
