package intake

import (
	"math"
	"slices"
	"strings"

	"shopstint/model"
	"shopstint/model/intake/cells"
	"shopstint/model/problem"
	"shopstint/model/quantity"
	"shopstint/model/study"
)

// line is one input on the input sheet of a decision workbook.
type line struct {
	input   Input
	known   bool        // the input exists
	entry   study.Entry // as it stands now, without its range
	solved  string      // the value that the program wrote
	assumed bool        // when it was solved
	edited  bool
	origin  model.Origin
}

// dimension is what the input measures; ok is false for words and for an input
// that does not exist.
func (l *line) dimension() (dim quantity.Dimension, ok bool) {
	if !l.known {
		return 0, false
	}
	return l.input.Dimension()
}

// decisionReader reads the input sheet.
type decisionReader struct {
	sheetReader
	known   catalogue
	columns map[string]int
	system  quantity.System // in which the workbook shows its figures
	lines   []line
}

// loadDecision reads a decision workbook twice: as it was solved and as it is
// now. Inputs that were not edited have, to the last digit, the value that was
// solved for, and are assumed or given as they were; an edited one is given.
func loadDecision(name string, book *cells.Book) (*Book, problem.List) {
	at := slices.IndexFunc(book.Sheets, func(s cells.Sheet) bool { return s.Name == DecisionSheet })
	r := decisionReader{sheetReader: sheetReader{file: name, sheet: &book.Sheets[at]}, known: catalogue{}}
	if head := r.headings(); head > 0 {
		for row := head + 1; row <= r.sheet.Rows; row++ {
			r.line(row)
		}
	}
	edited, places, problems := study.LoadForm(r.form(true))
	if len(problems) > 0 {
		return nil, problems
	}
	solved, _, problems := study.LoadForm(r.form(false))
	if len(problems) > 0 {
		return nil, problems
	}
	return &Book{Study: edited, Places: places, Solved: solved, Edits: r.edits()}, nil
}

// headings finds the row of headings; 0 when one of them is lost.
func (r *decisionReader) headings() int {
	needed := []string{DecisionInput, HeadValue, HeadUnit, HeadLow, HeadHigh, DecisionStatus, DecisionFrom, DecisionSolved, DecisionNote}
	for row := 1; row <= min(mostAbove, r.sheet.Rows); row++ {
		columns := r.headed(row)
		if !slices.ContainsFunc(needed, func(heading string) bool { return columns[heading] == 0 }) {
			r.columns = columns // that of shapes is 0 in workbooks of before ranges had one
			return row
		}
	}
	r.refuse(top, "", "the sheet "+DecisionSheet+" has lost a heading", "its headings are "+strings.Join(needed, ", "))
	return 0
}

func (r *decisionReader) text(row int, heading string) string {
	return plainText(r.cell(row, r.columns[heading]))
}

// line reads one row; a row without a status is a heading.
func (r *decisionReader) line(row int) {
	status := r.text(row, DecisionStatus)
	if status != StatusAssumed && status != StatusGiven {
		return
	}
	named := r.place(cells.Place{Row: row, Col: r.columns[DecisionInput]})
	l := line{solved: r.text(row, DecisionSolved), assumed: status == StatusAssumed}
	l.entry = study.Entry{Path: r.text(row, DecisionInput), Which: named, Named: named}
	l.input, l.known = r.known.at(l.entry.Path)
	if l.entry.Path == pathUnits { // stands above every figure
		r.system, _ = quantity.ParseSystem(l.solved)
	}
	l.origin.Note = r.text(row, DecisionNote)
	l.origin.Source = sourceIn(r.text(row, DecisionFrom), l.origin.Note)
	r.remark(row, DecisionNote, l.entry.Path, "note", l.origin.Note)
	r.remark(row, DecisionFrom, l.entry.Path, "source", l.origin.Source)
	if shape := r.text(row, HeadShape); slices.Contains(model.Shapes, shape) {
		l.origin.Shape = shape
	}
	unit := r.unit(&l, r.text(row, HeadUnit))
	r.value(&l, cells.Place{Row: row, Col: r.columns[HeadValue]}, unit)
	r.span(&l, row, unit)
	r.lines = append(r.lines, l)
}

// remark refuses a text about an input that no study could hold.
func (r *decisionReader) remark(row int, heading, path, name, text string) {
	if what, right := study.TextFault(text); what != "" {
		r.refuse(cells.Place{Row: row, Col: r.columns[heading]}, path, "the "+name+" of "+path+" "+what, right)
	}
}

// unit is the unit as a study writes it: a bare share has none, and money is in
// the study's own currency.
func (r *decisionReader) unit(l *line, text string) string {
	dim, measured := l.dimension()
	switch {
	case measured && dim.IsMoney():
		_, after, _ := strings.Cut(text, " ")
		return after
	case text == shareUnit:
		return ""
	}
	return text
}

// shareUnit is what the input sheet calls the unit of a part of one.
const shareUnit = "share"

// pathUnits is the input that says in which units a study is.
const pathUnits = "units"

// sourceIn takes the note off the end of a text that has source and note.
func sourceIn(text, note string) string {
	if note == "" {
		return text
	}
	return strings.TrimSuffix(strings.TrimSuffix(text, note), betweenRemarks)
}

const betweenRemarks = "; "

// value reads the value and tells whether it was edited.
func (r *decisionReader) value(l *line, at cells.Place, unit string) {
	path := l.entry.Path
	dim, measured := l.dimension()
	read, ok := study.Text{Place: r.place(at)}, true
	if measured {
		read, ok = r.figureAt(at, cells.Place{}, path, path, dim, unit)
	} else if cell := r.cell(at.Row, at.Col); r.readable(at, path, path, cell) {
		read.Text = plainText(cell)
	} else {
		ok = false
	}
	if ok && measured && read.Text == "" {
		r.refuse(at, path, path+" has no value", "give one; the workbook was solved for "+l.solved)
		ok = false
	}
	l.entry.Value, l.entry.Refused = read, !ok
	l.edited = read.Text != l.solved && !(measured && sameFigure(dim, read.Text, l.solved))
}

// lost is the part of a figure that a spreadsheet program cuts off when it saves: the
// digits behind the fifteenth.
const lost = 1e-14

// sameFigure compares two texts; what is lost in saving is no edit.
func sameFigure(dim quantity.Dimension, now, solved string) bool {
	a, _, errA := quantity.Parse(dim, now)
	b, _, errB := quantity.Parse(dim, solved)
	return errA == nil && errB == nil && !above(a, b) && !above(b, a)
}

// span reads the range, which stands in the unit of the value.
func (r *decisionReader) span(l *line, row int, unit string) {
	dim, measured := l.dimension()
	low, high := r.cell(row, r.columns[HeadLow]), r.cell(row, r.columns[HeadHigh])
	if !measured || low.Kind == cells.Empty && high.Kind == cells.Empty {
		return
	}
	at, path := cells.Place{Row: row, Col: r.columns[HeadLow]}, l.entry.Path
	var errLow, errHigh error
	l.origin.Low, _, errLow = quantity.Parse(dim, figure(dim, low, unit))
	l.origin.High, _, errHigh = quantity.Parse(dim, figure(dim, high, unit))
	l.origin.HasRange = true
	if errLow != nil || errHigh != nil || low.Kind == cells.Formula || high.Kind == cells.Formula {
		r.refuse(at, path, "the range of "+path+" cannot be read", "give low and high as numbers, or empty both")
		return
	}
	for _, end := range [...]float64{l.origin.Low, l.origin.High} {
		if right := study.Beyond(dim, l.input.Tag, end, r.system); right != "" {
			r.refuse(at, path, "the range of "+path+" ends at "+quantity.Format(dim, end, r.system), right)
			return
		}
	}
	solved, _, err := quantity.Parse(dim, l.solved)
	if err == nil && (above(l.origin.Low, solved) || above(solved, l.origin.High)) {
		r.refuse(at, path, "the range of "+path+" does not hold "+l.solved+", for which the workbook was solved", "give low and high around it; an edited value widens the range by itself")
	}
}

// above tells that a figure is more than another, by more than a spreadsheet program
// cuts off.
func above(a, b float64) bool { return a-b > lost*max(math.Abs(a), math.Abs(b)) }

// form gives the lines as entries, as they are now or as they were solved.
// Ranges are put back once the values are read: they belong to the value that was
// solved for.
func (r *decisionReader) form(now bool) study.Form {
	form := study.Form{Name: r.file, Home: r.place(top), Found: r.found, Known: func(s *model.Study) { r.restore(s, now) }}
	for i := range r.lines {
		e := r.lines[i].entry
		e.Assumed = r.lines[i].assumed
		switch {
		case !now || !r.lines[i].edited:
			e.Value.Text = r.lines[i].solved
		case e.Value.Text != "":
			e.Assumed = false
		}
		form.Entries = append(form.Entries, e)
	}
	return form
}

// restore puts back what is known of each input beside its value. The range of a
// given input widens to take an edited value in, and is then read as usual if its
// shape wants the value in the middle; that of an assumed one goes, since it was
// about the assumption.
func (r *decisionReader) restore(s *model.Study, now bool) {
	values := map[string]float64{}
	model.Walk(s, func(leaf model.Leaf) {
		if _, ok := leaf.Dimension(); ok {
			values[leaf.Path] = leaf.Number()
		}
	})
	for i := range r.lines {
		l := &r.lines[i]
		origin, path, edited := l.origin, l.entry.Path, now && r.lines[i].edited
		origin.Assumed = l.assumed
		if edited && l.assumed {
			origin = model.Origin{}
		}
		if edited && origin.HasRange {
			origin.Low, origin.High = min(origin.Low, values[path]), max(origin.High, values[path])
			if origin.Shape == model.ShapeNormal || origin.Shape == model.ShapeLognormal {
				origin.Shape = ""
			}
		}
		if origin == (model.Origin{}) {
			delete(s.Origins, path)
			continue
		}
		s.Origins[path] = origin
	}
}

func (r *decisionReader) edits() []Edit {
	var list []Edit
	for i := range r.lines {
		if l := &r.lines[i]; l.edited {
			list = append(list, Edit{l.entry.Path, orNothing(l.solved), orNothing(l.entry.Value.Text), l.entry.Value.Place})
		}
	}
	return list
}

func orNothing(text string) string {
	if text == "" {
		return "nothing"
	}
	return text
}

// Solved writes a value as the column of what was solved for has it: exactly, in
// the units of the system.
//
// Source: common practice, no source.
func Solved(leaf model.Leaf, system quantity.System) string {
	if dim, ok := leaf.Dimension(); ok {
		numbers, unit := quantity.Written(dim, system, leaf.Number())
		return strings.TrimSpace(numbers[0] + " " + unit)
	}
	switch value := leaf.Value.Interface().(type) {
	case bool:
		return YesNo(value)
	case []string:
		return strings.Join(value, " ")
	}
	return leaf.Value.String()
}

// YesNo is how a study writes a yes or no.
//
// Source: common practice, no source.
func YesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}
