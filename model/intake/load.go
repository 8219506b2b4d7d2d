package intake

import (
	"slices"
	"strings"

	"shopstint/model"
	"shopstint/model/intake/cells"
	"shopstint/model/problem"
	"shopstint/model/study"
)

// Book is a study as it was read from a workbook.
type Book struct {
	Study  *model.Study
	Places study.Places

	// Of a decision workbook: the study that it was solved for, and the inputs
	// that were edited since, in the order of the sheet. Solved is nil for a form.
	Solved *model.Study
	Edits  []Edit
}

// Edit is an input of a decision workbook that was changed by hand. Values are
// written with their unit, as in a study.
type Edit struct {
	Path     string
	Was, Now string
	Place    problem.Place
}

// IsWorkbook tells by the first bytes whether a file is meant as a workbook,
// whatever it is called.
func IsWorkbook(src []byte) bool { return cells.IsWorkbook(src) }

// Load reads a study from a workbook of ours, by the same rules as study.Load and
// with problems at "name!Sheet!B4". With any problem the book is nil and the
// list is sorted. Other workbooks are refused. It never fails in any other way.
func Load(name string, src []byte) (*Book, problem.List) {
	book, trouble := cells.Read(src, worthReading)
	if trouble != nil {
		return nil, problem.List{{Place: problem.Place{File: name}, What: trouble.What, Right: trouble.Right}}
	}
	mark, at := markOf(book)
	switch {
	case mark == FormMark:
		read, places, problems := study.LoadForm(readForm(name, book))
		if len(problems) > 0 {
			return nil, problems
		}
		return &Book{Study: read, Places: places}, nil
	case mark == DecisionMark:
		return loadDecision(name, book)
	case mark != "":
		at.File = name
		return nil, problem.List{{Place: at, What: "this workbook is of the kind " + mark, Right: "this program reads " + FormMark + " and " + DecisionMark + "; use the program that wrote it, or write a fresh one"}}
	}
	return nil, problem.List{foreign(name, book)}
}

// worthReading picks the sheets that hold the study. A decision workbook may be
// large and is its sheet of inputs only; in a form every sheet is looked at.
func worthReading(sheets []string) []string {
	if slices.Contains(sheets, DecisionSheet) && !slices.Contains(sheets, ReadMe) {
		return []string{DecisionSheet}
	}
	return sheets
}

// marked is how many rows and columns of a sheet are looked at for a mark.
const marked = 30

// markOf finds the mark on the first page of a form, or on the input sheet of a
// decision workbook.
func markOf(book *cells.Book) (mark string, at problem.Place) {
	kinds := map[string]string{ReadMe: formKind, DecisionSheet: decisionKind}
	for _, sheet := range book.Sheets {
		kind, known := kinds[sheet.Name]
		for row := 1; row <= marked && known; row++ {
			for col := 1; col <= marked; col++ {
				place := cells.Place{Row: row, Col: col}
				if text := strings.TrimSpace(sheet.Cells[place].Text); strings.HasPrefix(text, kind) {
					return text, problem.Place{Sheet: sheet.Name, Cell: place.String()}
				}
			}
		}
	}
	return "", problem.Place{}
}

// foreign refuses a workbook without a mark, saying more where it looks like one
// of ours.
func foreign(name string, book *cells.Book) problem.Problem {
	p := problem.Problem{
		Place: problem.Place{File: name}, What: "this workbook is no study: it is neither the form nor a decision workbook of this program",
		Right: "write the form with: shopstint new study.xlsx, and fill it in",
	}
	sheets := make([]string, len(book.Sheets))
	for i, sheet := range book.Sheets {
		sheets[i] = sheet.Name
	}
	switch {
	case slices.Contains(sheets, StudySheet):
		p.What = "this workbook has lost the mark of the form, " + FormMark
		p.Right = "put it back into a cell of a sheet called " + ReadMe
	case slices.Contains(sheets, DecisionSheet):
		p.What = "the sheet " + DecisionSheet + " of this workbook does not say what it was solved for"
		p.Right = "write the workbook again from its study with: shopstint decide STUDY"
	}
	return p
}
