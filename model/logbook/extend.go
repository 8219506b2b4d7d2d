package logbook

import (
	"bytes"
	"encoding/csv"
	"unicode/utf8"

	"shopstint/model/problem"
)

// LayoutOf tells how the lines of a logbook are written from its first line as
// it stands in the file, line break included, for whoever adds lines to it.
func LayoutOf(name string, first []byte) (Layout, problem.List) {
	if bytes.HasPrefix(first, []byte{0xfe, 0xff}) || bytes.HasPrefix(first, []byte{0xff, 0xfe}) {
		return Layout{}, problem.List{{Place: problem.Place{File: name}, What: "the logbook is UTF-16, to which no line can be added", Right: `save it as "CSV UTF-8" once`}}
	}
	line := bytes.TrimSuffix(bytes.TrimPrefix(first, []byte("\ufeff")), []byte("\n"))
	bare := bytes.TrimSuffix(line, []byte("\r"))
	at := problem.Place{File: name, Line: 1}
	if found := strange(bare); found >= 0 {
		at.Column = utf8.RuneCount(bare[:found]) + 1
		what, right := strangeness(bare[found])
		return Layout{}, problem.List{{Place: at, What: what, Right: right}}
	}
	if len(bare) > MostLine {
		return Layout{}, problem.List{{Place: at, What: "the first line is not that of a logbook", Right: "it names the columns, such as " + standardTitles()}}
	}
	layout, problems := parseLayout(name, string(bare))
	layout.Windows = len(bare) < len(line)
	return layout, problems
}

// Ending is what must stand behind a last line that has no line break, before
// other lines are added: the break alone when the line has all its cells, and
// TornMark in front of it when its rest was lost. It is empty for no such line.
func (l Layout) Ending(tail []byte) (ending []byte, torn bool) {
	if len(tail) == 0 {
		return nil, false
	}
	reader := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(tail, []byte("\ufeff"))))
	reader.Comma = rune(l.Separator)
	record, err := reader.Read()
	if torn = err != nil || len(record) < len(l.columns); torn {
		ending = append(ending, TornMark...)
	}
	if l.Windows && !bytes.HasSuffix(tail, []byte("\r")) {
		ending = append(ending, '\r')
	}
	return append(ending, '\n'), torn
}
