package logbook

import (
	"encoding/csv"
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"

	"shopstint/model/problem"
)

// mostColumns bounds the cells of a line: spreadsheets write empty ones behind.
const mostColumns = 64

// Layout is how a logbook's lines are written; the header line tells it.
type Layout struct {
	Separator byte // between cells: a comma, a semicolon or a tab
	Windows   bool // lines end with carriage return and line feed

	columns []column // by position; columnCount for an empty one
}

// Standard is the layout of a new logbook: all columns, commas between them.
func Standard() Layout {
	layout := Layout{Separator: ','}
	for c := range columnCount {
		layout.columns = append(layout.columns, c)
	}
	return layout
}

// standardTitles is the header line of a new logbook.
func standardTitles() string { return strings.Join(columnNames[:], ",") }

// String says how the numbers and cells are told apart.
func (l Layout) String() string {
	switch l.Separator {
	case ';':
		return "semicolons between columns, decimals with a comma or a point"
	case '\t':
		return "tabs between columns, decimals with a comma or a point"
	}
	return "commas between columns, decimals with a point"
}

// parseLayout reads a header line, without its line break.
func parseLayout(name, header string) (Layout, problem.List) {
	at := problem.Place{File: name, Line: 1}
	if strings.TrimSpace(header) == "" {
		return Layout{}, problem.List{{Place: at, What: "the first line is empty", Right: "it names the columns, such as " + standardTitles()}}
	}
	separator, known := separatorOf(header)
	if known == 0 {
		return Layout{}, problem.List{{Place: at, What: "the first line is not that of a logbook", Right: "it names the columns, such as " + standardTitles()}}
	}
	layout := Layout{Separator: separator}
	titles, problems := layout.titles(at, header)
	where := map[column]int{}
	for i, title := range titles {
		c, found := columnOf(title)
		switch first, twice := where[c]; {
		case title == "":
			c = columnCount
		case !found:
			problems = append(problems, problem.Problem{Place: at, What: quoted(title) + " is no column of a logbook", Right: problem.Suggest(title, Columns())})
		case twice:
			problems = append(problems, problem.Problem{Place: at, What: "the columns " + strconv.Itoa(first+1) + " and " + strconv.Itoa(i+1) + " are both " + c.String(), Right: "take one of them out"})
		default:
			where[c] = i
		}
		layout.columns = append(layout.columns, c)
	}
	for _, c := range [...]column{colDate, colKind} {
		if _, found := where[c]; !found && len(problems) == 0 {
			problems = append(problems, problem.Problem{Place: at, What: "there is no column " + c.String(), Right: "the first line names the columns, such as " + standardTitles()})
		}
	}
	return layout, problems
}

func (l Layout) titles(at problem.Place, header string) ([]string, problem.List) {
	reader := csv.NewReader(strings.NewReader(header))
	reader.Comma = rune(l.Separator)
	titles, err := reader.Read()
	if err != nil {
		return nil, problem.List{{Place: at, What: "the first line cannot be read: " + quoting(err), Right: "it names the columns, such as " + standardTitles()}}
	}
	if len(titles) > mostColumns {
		return nil, problem.List{{Place: at, What: "the first line has more than " + strconv.Itoa(mostColumns) + " columns", Right: "it names the columns, such as " + standardTitles()}}
	}
	for i := range titles {
		titles[i] = strings.TrimSpace(titles[i])
	}
	return titles, nil
}

// separatorOf is the sign by which a header falls into the most columns that a
// logbook knows, and how many these are.
func separatorOf(header string) (best byte, most int) {
	for _, sign := range [...]byte{',', ';', '\t'} {
		found := 0
		for title := range strings.SplitSeq(header, string(sign)) {
			if _, ok := columnOf(strings.Trim(title, " \"\t")); ok {
				found++
			}
		}
		if found > most {
			best, most = sign, found
		}
	}
	return best, most
}

// quoting puts a fault of the CSV form in our words.
func quoting(err error) string {
	switch {
	case errors.Is(err, csv.ErrBareQuote):
		return "a quote stands within a cell"
	case errors.Is(err, csv.ErrQuote):
		return "a quote is opened and not closed"
	}
	return "it is no line of a CSV file"
}

// pointed writes a number with a point for its decimals. Where the header does
// not settle which sign that is, both will do; 1,234 may then be a thousand or
// not, and is refused.
func (l Layout) pointed(text string) (pointed, what, right string) {
	if l.Separator == ',' {
		return text, "", ""
	}
	at := strings.IndexAny(text, ".,")
	if at < 0 {
		return text, "", ""
	}
	if strings.ContainsAny(text[at+1:], ".,") {
		return "", quoted(text) + " has more than one comma or point", "write one in front of the decimals, and nothing between thousands"
	}
	before, after := digitsBefore(text[:at]), digitsBehind(text[at+1:])
	if len(after) == 3 && len(before) <= 3 && before != "" && before[0] != '0' {
		return "", quoted(text) + " may be " + before + after + " or " + before + " and a part", "write " + before + after + ", or " + before + text[at:at+1] + after + "0 with another decimal"
	}
	return text[:at] + "." + text[at+1:], "", ""
}

func digitsBefore(text string) string {
	start := len(text)
	for start > 0 && isDigit(text[start-1]) {
		start--
	}
	return text[start:]
}

func digitsBehind(text string) string {
	end := 0
	for end < len(text) && isDigit(text[end]) {
		end++
	}
	return text[:end]
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// runesBefore counts the characters of a line in front of a byte counted from 1.
func runesBefore(line string, column int) int {
	return utf8.RuneCountInString(line[:min(max(column-1, 0), len(line))]) + 1
}
