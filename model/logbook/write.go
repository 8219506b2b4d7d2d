package logbook

import (
	"bytes"
	"encoding/csv"
	"strings"

	"shopstint/model/problem"
)

// Header is the header line of the layout, with its line break.
func (l Layout) Header() []byte {
	titles := make([]string, len(l.columns))
	for i, c := range l.columns {
		if c < columnCount {
			titles[i] = c.String()
		}
	}
	return l.line(titles)
}

// Line writes an entry as one line with its line break. Read reads it back as
// the same entry. A text that a spreadsheet would take for a formula gets an
// apostrophe in front. A cell for which the layout has no column is a problem.
//
// Source: Y. Shafranovich, RFC 4180, 2005; the apostrophe is common practice,
// no source.
func (l Layout) Line(e *Entry) ([]byte, problem.List) {
	line := texts(e)
	var missing problem.List
	row := make([]string, len(l.columns))
	for c, text := range line {
		if text == "" {
			continue
		}
		at := l.where(column(c))
		if at < 0 {
			missing = append(missing, problem.Problem{Path: column(c).String(), What: "the logbook has no column " + column(c).String(), Right: "add it to the first line"})
			continue
		}
		if column(c) >= colJobs && column(c) <= colHours {
			row[at] = l.shown(text)
			continue
		}
		row[at] = guarded(text)
	}
	if len(missing) > 0 {
		return nil, missing
	}
	return l.line(row), nil
}

func (l Layout) where(c column) int {
	for i, here := range l.columns {
		if here == c {
			return i
		}
	}
	return -1
}

// line joins cells as CSV.
func (l Layout) line(row []string) []byte {
	var out bytes.Buffer
	writer := csv.NewWriter(&out)
	writer.Comma = rune(l.Separator)
	writer.UseCRLF = l.Windows
	if err := writer.Write(row); err != nil {
		panic("logbook: " + err.Error()) // only for separators that Layout does not have
	}
	writer.Flush()
	return out.Bytes()
}

// shown writes a number in the layout's own way, so that it cannot be mistaken.
func (l Layout) shown(text string) string {
	number, unit, hasUnit := strings.Cut(text, " ")
	whole, part, broken := strings.Cut(number, ".")
	if !broken || l.Separator == ',' {
		return text
	}
	if len(part) == 3 {
		part += "0" // 1,234 might be a thousand
	}
	mark := "."
	if l.Separator == ';' {
		mark = ","
	}
	if number = whole + mark + part; hasUnit {
		number += " " + unit
	}
	return number
}

// texts are the cells of an entry.
func texts(e *Entry) cells {
	line := cells{
		colDate: string(e.Date), colKind: string(e.Kind), colSubject: e.Subject, colItem: e.Item, colJob: e.Job,
		colOperation: e.Operation, colReason: e.Reason, colNote: e.Note,
	}
	values := [columnCount]float64{
		colJobs: e.Jobs, colMinutes: float64(e.Minutes), colAmount: float64(e.Amount), colLength: float64(e.Length),
		colArea: float64(e.Area), colHours: float64(e.Hours),
	}
	for c := colJobs; c <= colHours; c++ {
		if e.Given.Has(measures[c].field) {
			line[c] = measures[c].text(values[c])
		}
	}
	return line
}

// formulaSigns begin what a spreadsheet takes for a formula.
const formulaSigns = "=+-@"

// guarded puts an apostrophe in front of a text that a spreadsheet might take
// for a formula, or that begins as a guarded one does.
func guarded(text string) string {
	if text != "" && strings.IndexByte(formulaSigns, text[0]) >= 0 || isGuarded(text) {
		return "'" + text
	}
	return text
}

// unguarded is the text behind such an apostrophe.
func unguarded(text string) string {
	if isGuarded(text) {
		return text[1:]
	}
	return text
}

func isGuarded(text string) bool {
	return len(text) > 1 && text[0] == '\'' && (text[1] == '\'' || strings.IndexByte(formulaSigns, text[1]) >= 0)
}

// String tells an entry in one line, for showing: the date, the kind, and what
// else was written.
func (e Entry) String() string {
	line := texts(&e)
	words := line[colDate] + " " + line[colKind]
	for c := colSubject; c < columnCount; c++ {
		switch {
		case line[c] == "":
		case c == colSubject:
			words += " " + line[c]
		default:
			words += ", " + c.String() + " " + line[c]
		}
	}
	return words
}
