package intake

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"shopstint/model/intake/cells"
	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/model/study"
)

// formReader reads one sheet of the form.
type formReader struct {
	sheetReader
	known   catalogue
	part    Part
	columns map[string]int // by heading; 0 for one that is not there
	entries []study.Entry
}

// readForm reads every sheet of the form.
func readForm(name string, book *cells.Book) study.Form {
	form := study.Form{Name: name, Home: problem.Place{File: name, Sheet: StudySheet, Cell: "A1"}}
	known := catalogue{}
	for i := range book.Sheets {
		sheet := &book.Sheets[i]
		at := slices.IndexFunc(Parts(), func(p Part) bool { return p.Sheet == sheet.Name })
		r := formReader{sheetReader: sheetReader{file: name, sheet: sheet, since1904: book.Since1904}, known: known}
		switch {
		case sheet.Name == ReadMe:
		case at >= 0:
			r.part = Parts()[at]
			r.read()
		case sheet.Rows > 0 || sheet.Beyond != nil:
			r.refuse(top, "", "unknown sheet "+strconv.Quote(sheet.Name), problem.Suggest(sheet.Name, sheetNames())+"; keep what is no part of the study in another workbook")
		}
		form.Entries = append(form.Entries, r.entries...)
		form.Found = append(form.Found, r.found...)
	}
	return form
}

// top is where a problem of a whole sheet is told.
var top = cells.Place{Row: 1, Col: 1}

func sheetNames() []string {
	names := []string{ReadMe}
	for _, part := range Parts() {
		names = append(names, part.Sheet)
	}
	return names
}

func (r *formReader) read() {
	if beyond := r.sheet.Beyond; beyond != nil {
		r.refuse(*beyond, "", "something stands beyond the part of the sheet that is read", fmt.Sprintf("take it out; %d rows and %d columns are read", cells.MostRows, cells.MostColumns))
	}
	if r.part.List != "" {
		r.entries = append(r.entries, study.Entry{Path: r.part.List, Named: r.place(top), Value: study.Text{Place: r.place(top)}})
	}
	head := r.headings()
	if head == 0 {
		return
	}
	merged := r.mergedRows(head)
	for row := head + 1; row <= r.sheet.Rows; row++ {
		r.row(row, merged[row])
	}
}

// mostAbove is how many rows may stand above the headings.
const mostAbove = 30

// headings finds the row of headings and the column of each; 0 without.
func (r *formReader) headings() int {
	for row := 1; row <= min(mostAbove, r.sheet.Rows); row++ {
		columns := r.headed(row)
		if columns[HeadInput] > 0 && (columns[HeadWhich] > 0 || columns[HeadValue] > 0) {
			r.columns = columns
			return r.complete(row)
		}
	}
	if r.sheet.Rows > 0 {
		r.refuse(top, "", "the sheet "+r.part.Sheet+" has no row of headings", "put the headings back: "+strings.Join(Headings(), ", "))
	}
	return 0
}

// headed gives the first column of every text in a row.
func (s *sheetReader) headed(row int) map[string]int {
	columns := map[string]int{}
	for col := cells.MostColumns; col >= 1; col-- {
		if cell := s.cell(row, col); cell.Kind == cells.Text {
			columns[strings.ToLower(strings.TrimSpace(cell.Text))] = col
		}
	}
	return columns
}

// complete tells whether every column is there that is read. Forms of before
// ranges had a shape have none.
func (r *formReader) complete(row int) int {
	head := row
	for _, heading := range readColumns() {
		if heading != HeadShape && r.columns[heading] == 0 {
			r.refuse(cells.Place{Row: row, Col: 1}, "", "the sheet "+r.part.Sheet+" has no column "+strconv.Quote(heading), "put the heading back over its column")
			head = 0
		}
	}
	return head
}

// readColumns are the headings of the columns that are read; the others are there
// to be looked at.
func readColumns() []string {
	return slices.DeleteFunc(Headings(), func(heading string) bool { return heading == HeadAssumed || heading == HeadAbout })
}

// mergedRows refuses merged cells over the rows of inputs, and lists those rows.
func (r *formReader) mergedRows(head int) map[int]bool {
	rows := map[int]bool{}
	for _, area := range r.sheet.Merged {
		reads := slices.ContainsFunc(readColumns(), func(heading string) bool {
			return area.First.Col <= r.columns[heading] && r.columns[heading] <= area.Last.Col
		})
		if area.Last.Row <= head || !reads {
			continue
		}
		r.refuse(area.First, "", "the cells "+area.String()+" are merged", "unmerge them: every value needs a cell of its own")
		for row := area.First.Row; row <= min(area.Last.Row, r.sheet.Rows); row++ {
			rows[row] = true
		}
	}
	return rows
}

func (r *formReader) at(row int, heading string) cells.Place {
	return cells.Place{Row: row, Col: r.columns[heading]}
}

func (r *formReader) under(row int, heading string) cells.Cell {
	return r.cell(row, r.columns[heading])
}

// gives tells whether a row says something about its input.
func (r *formReader) gives(row int) bool {
	return slices.ContainsFunc([]string{HeadValue, HeadLow, HeadHigh, HeadShape, HeadNote, HeadSource}, func(heading string) bool {
		return r.under(row, heading).Kind != cells.Empty
	})
}

// row reads one row. A row that gives nothing and names no input is a heading or
// an empty line; one that gives nothing and says not which is a pattern to fill in.
func (r *formReader) row(row int, merged bool) {
	which, input := r.under(row, HeadWhich), r.under(row, HeadInput)
	whichAt, inputAt := r.at(row, HeadWhich), r.at(row, HeadInput)
	unnamed := which.Kind == cells.Empty || input.Kind == cells.Empty
	switch {
	case unnamed && (merged || !r.gives(row)):
	case input.Kind == cells.Empty:
		r.refuse(inputAt, "", "the row gives a value and names no input", "name it, such as price, or empty the row")
	case which.Kind == cells.Empty:
		r.refuse(whichAt, "", "the row does not say which "+r.part.Member+" it is about", r.part.example())
	case r.readable(whichAt, "", "the name of the "+r.part.Member, which) && r.readable(inputAt, "", "the name of the input", input):
		r.entry(row, plainText(which), plainText(input), merged)
	}
}

// example shows what may stand in the column that says which.
func (p Part) example() string {
	switch p.List {
	case "":
		return "write one of " + strings.Join(sectionNames(), ", ")
	case "shops":
		return "write the key of the shop, or of a machine in it as big_shop / planer36"
	case "job_types":
		return "write the key of the job type, of a piece or step in it as dining / top, or of a grit as dining / sand / 80"
	}
	return "write its key"
}

// entry reads a row that says which and names its input.
func (r *formReader) entry(row int, which, name string, merged bool) {
	members := strings.Split(which, strings.TrimSpace(partsOfPath))
	for i := range members {
		members[i] = strings.TrimSpace(members[i])
	}
	path, input, known, ok := r.known.locate(r.part, members, name)
	if !ok {
		right := r.part.example()
		if r.part.List == "" {
			right = problem.Suggest(which, sectionNames())
		}
		r.refuse(r.at(row, HeadWhich), "", strconv.Quote(which)+" is no "+r.part.Member, right)
		return
	}
	e := study.Entry{Path: path, Which: r.place(r.at(row, HeadWhich)), Named: r.place(r.at(row, HeadInput)), Refused: merged}
	e.Value.Place = r.place(r.at(row, HeadValue))
	switch {
	case merged:
	case known:
		r.values(row, &e, input)
	default:
		e.Value.Text = plainText(r.under(row, HeadValue)) // the reader refuses the input
	}
	r.entries = append(r.entries, e)
}

// values reads what stands in the cells of a known input.
func (r *formReader) values(row int, e *study.Entry, input Input) {
	e.Shape, e.Note, e.Source = r.text(row, HeadShape, e), r.text(row, HeadNote, e), r.text(row, HeadSource, e)
	unitAt := r.at(row, HeadUnit)
	unit := r.text(row, HeadUnit, e).Text
	dim, measured := input.Dimension()
	if !measured {
		if unit != "" {
			r.refuse(unitAt, e.Path, e.Path+" has the unit "+strconv.Quote(unit)+" and is no figure", "empty the cell")
		}
		e.Low, e.High = r.text(row, HeadLow, e), r.text(row, HeadHigh, e)
		if input.Kind == reflect.TypeFor[quantity.Date]() {
			e.Value = r.date(row, e)
			return
		}
		e.Value = r.text(row, HeadValue, e)
		return
	}
	for _, column := range [...]struct {
		heading string
		text    *study.Text
	}{{HeadValue, &e.Value}, {HeadLow, &e.Low}, {HeadHigh, &e.High}} {
		at := unitAt
		if column.heading != HeadValue {
			at = cells.Place{} // a missing unit is told once
		}
		read, ok := r.figureAt(r.at(row, column.heading), at, e.Path, r.called(column.heading, e), dim, unit)
		*column.text = read
		e.Refused = e.Refused || !ok
	}
}

// called is how a message calls what stands in a column of an entry's row.
func (r *formReader) called(heading string, e *study.Entry) string {
	switch heading {
	case HeadValue:
		return e.Path
	case HeadUnit:
		return "the unit of " + e.Path
	}
	return e.Path + separatorOfPaths + heading
}

// date reads a cell that holds a date, typed as text or made one by the program.
func (r *formReader) date(row int, e *study.Entry) study.Text {
	at, cell := r.at(row, HeadValue), r.under(row, HeadValue)
	text, ok := dateOf(cell, r.since1904)
	if ok && cell.Date && cell.Kind == cells.Number {
		return study.Text{Text: text, Place: r.place(at)}
	}
	return r.text(row, HeadValue, e)
}

// text reads a cell that holds words.
func (r *formReader) text(row int, heading string, e *study.Entry) study.Text {
	at, cell := r.at(row, heading), r.under(row, heading)
	if !r.readable(at, e.Path, r.called(heading, e), cell) {
		e.Refused = true
		return study.Text{Place: r.place(at)}
	}
	return study.Text{Text: plainText(cell), Place: r.place(at)}
}
