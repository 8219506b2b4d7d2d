// Package grid writes plain cells as one .xlsx workbook: live formulas with their cached values, styles, names,
// validations, conditional formats, notes, links, page set-up, protection and charts. It knows no domain.
// The same Book gives the same bytes, every time and in every time zone.
//
// # How the file is made
//
// Package excelize makes the package around the cells: styles, names, validations, notes, page set-up, relations.
// The cells of each sheet (sheetData), the charts and their anchors are written here and put in place by the zip hook.
// Three routes were measured with the book of BenchmarkWrite (12 sheets, 6,000 formulas, 6,000 constants,
// 400 names, 8 charts; one core, Go 1.26):
//
//	A  cell by cell, the hook types the cached values        105 ms   29.6 MB allocated
//	B  stream writer, numbers still cut to 15 digits        21.5 ms   11.4 MB allocated
//	C  cells written here, put into empty sheets (this one)   18 ms    7.6 MB allocated, all checks included
//
// Route C is also the simplest to keep right: constants and cached values keep all digits of a float64
// (A leaves cached numbers as text and B cuts to 15 digits without a hook), text is inline and never a formula, and nothing set late is lost.
package grid

import "time"

// Book is a workbook as plain data. Created is the time written into the file's properties, passed in by the caller.
type Book struct {
	Title   string
	Subject string
	Author  string // also written as the program that made the file
	Created time.Time
	Sheets  []*Sheet
	Names   []Name
}

// Name is a defined name of the whole workbook. Ref is what it stands for, without "=": `'Inputs'!$B$4`.
type Name struct {
	Name    string
	Ref     string
	Comment string
}

// Sheet is one page of cells. Rows and columns count from 1. There are no merged cells, on purpose: they break
// sorting, copying and the reading of columns.
type Sheet struct {
	Name        string
	TabColor    string          // RRGGBB, "" for none
	Columns     []float64       // widths in characters from column A on; 0 keeps the standard width
	Heights     map[int]float64 // row heights in points; every other row fits its content
	Cells       []Placed        // in any order; a place given twice is an error of Write
	Freeze      string          // first cell that scrolls, such as "B3"; "" freezes nothing
	Print       Print
	Validations []Validation
	Conditions  []Condition
	Charts      []Chart
	Links       []Link
	Protected   bool // without a password; cells with Style.Unlocked stay open
	Open        bool // on a protected sheet, the empty cells of the columns in use stay open too
	GridLines   bool // shown on the screen
	Zoom        int  // percent, 10 to 400; 0 means 100

	groups int
}

// Placed is a cell and its place. The cell is pointed to, so that a growing
// sheet moves little.
type Placed struct {
	Row, Col int
	*Cell
}

// Cell is what stands in one place.
//
// Without a Formula, Value is a constant: float64 (finite), int (at most 2^53 in size), string, bool, or nil for an
// empty styled cell. With a Formula (no leading "="), Value is the cached result; there NaN and infinities become
// the error #NUM!, and nil means that none is known.
type Cell struct {
	Formula string
	Value   any
	Style   Style
	Note    string // shown on hovering
	Array   bool   // the formula is worked out element by element, whatever its functions

	group *group // cells with one formula between them
}

// group is a run of cells in one column that share a formula: it is written
// once, at the first of them, and read as copied down by the others.
type group struct {
	id    int
	cells string // A1:A9
	first *Cell
}

// live tells whether a cell is calculated.
func (c *Cell) live() bool { return c.Formula != "" || c.group != nil }

// Print is the page set-up.
type Print struct {
	Landscape bool
	FitWide   int    // pages across, 0 for as many as needed
	FitTall   int    // pages down, 0 for as many as needed; both 0 leaves the scale at 100 %
	TitleRows int    // rows 1 to TitleRows are repeated on every page
	Breaks    []int  // rows with which a new page begins, from 2 on
	Area      string // range such as "A1:F60", "" for all
	Footer    string // codes of the format: &L left, &C centre, &R right, &P page, &N pages
	Paper     int    // code of the format; 0 means 9, which is A4
}

// Validation limits what may be typed into Range, which may be several ranges with spaces between them: to one of List, to the cells of ListRef, to a decimal number
// from Min to Max (either may be nil), or to what makes Formula true, which is written for the first cell of Range, without "=".
// Title and Message are shown at the cell and when the entry is refused. With Suggest nothing is refused: the list is an offer.
type Validation struct {
	Range    string
	List     []string
	ListRef  string
	Min, Max *float64
	Formula  string
	Suggest  bool
	Title    string
	Message  string
}

// Condition gives the cells of Range the fill, font colour, bold and italic of Style where Formula is true.
// Formula is written for the first cell of Range, without "=".
type Condition struct {
	Range   string
	Formula string
	Style   Style
}

// Link makes Cell jump to Target, a place in the same workbook such as `'Inputs'!B4`.
type Link struct {
	Cell    string
	Target  string
	Tooltip string
}

// Add appends an empty sheet and returns it.
func (b *Book) Add(name string) *Sheet {
	s := &Sheet{Name: name}
	b.Sheets = append(b.Sheets, s)
	return s
}

// Set places a cell; row and col count from 1.
func (s *Sheet) Set(row, col int, c Cell) {
	s.Cells = append(s.Cells, Placed{Row: row, Col: col, Cell: &c})
}

// Down is a column of cells with one formula between them.
type Down struct {
	sheet    *Sheet
	row, col int
	shared   *group
	cells    []Cell
}

// Down prepares a formula for n rows from a row on. The formula is that of the
// first row; where it points to its own row, each cell below points to its own,
// as if copied down.
func (s *Sheet) Down(row, col, n int, formula string) *Down {
	d := &Down{sheet: s, row: row, col: col, cells: make([]Cell, n)}
	d.shared = &group{id: s.groups, cells: Ref(row, col) + ":" + Ref(row+n-1, col)}
	s.groups++
	if n > 0 {
		d.cells[0].Formula, d.shared.first = formula, &d.cells[0]
	}
	return d
}

// Set places the i-th cell, counted from 0, with its cached value.
func (d *Down) Set(i int, value any, style Style) {
	cell := &d.cells[i]
	cell.Value, cell.Style, cell.group = value, style, d.shared
	d.sheet.Cells = append(d.sheet.Cells, Placed{Row: d.row + i, Col: d.col, Cell: cell})
}
