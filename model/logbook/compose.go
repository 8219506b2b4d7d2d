package logbook

import (
	"errors"
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"shopstint/model"
	"shopstint/model/problem"
	"shopstint/model/quantity"
)

// Compose makes an entry of texts by column name, as they would stand in a
// logbook with decimal points, and checks them as Read does. A problem has the
// column as its Path and no place. A name that is no column is a problem.
func Compose(texts map[string]string, study *model.Study) (Entry, problem.List) {
	var line cells
	var problems problem.List
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		if at, ok := columnOf(name); ok {
			line[at] = strings.TrimSpace(texts[name])
			continue
		}
		problems = append(problems, problem.Problem{Path: name, What: "there is no such column", Right: problem.Suggest(name, Columns())})
	}
	entry, faults := compose(&line, Layout{Separator: ','}, keysOf(study), nil)
	for _, f := range faults {
		problems = append(problems, problem.Problem{Path: f.column.String(), What: f.what, Right: f.right})
	}
	return entry, problems
}

// compose makes an entry of the cells of one line and adds what is wrong with
// them. It is the one place that knows what an entry must be like.
func compose(line *cells, layout Layout, known *keys, faults []fault) (Entry, []fault) {
	e := Entry{
		Kind: Kind(strings.ToLower(line[colKind])), Subject: line[colSubject], Item: line[colItem], Job: line[colJob],
		Operation: line[colOperation], Reason: strings.ToLower(line[colReason]), Note: line[colNote], Jobs: 1,
	}
	date, err := quantity.ParseDate(line[colDate])
	if err != nil {
		faults = append(faults, dateFault(line[colDate], err))
	}
	e.Date = date
	allowed, ok := shapes[e.Kind]
	if !ok {
		return e, append(faults, kindFault(line[colKind]))
	}
	faults = words(line, faults)
	faults = numbers(&e, line, layout, known.currency, faults)
	faults = allowed.check(&e, line, faults)
	return e, known.check(&e, faults)
}

// Bounds of texts, in characters: with them a line that is written is shorter
// than MostLine.
const (
	mostWord = 100
	mostNote = 1000
)

// words adds what is wrong with the texts of a line, whatever it tells.
func words(line *cells, faults []fault) []fault {
	for _, c := range [...]column{colSubject, colItem, colJob, colOperation, colReason, colNote} {
		text, most := line[c], mostWord
		if c == colNote {
			most = mostNote
		}
		switch {
		case text == "":
		case utf8.RuneCountInString(text) > most:
			faults = append(faults, fault{c, quoted(text) + " is longer than " + strconv.Itoa(most) + " characters", "shorten it"})
		case strange([]byte(text)) >= 0:
			faults = append(faults, fault{c, quoted(text) + " has a sign that is no text, such as a line break", "write it on one line"})
		case strings.Contains(text, TornMark):
			faults = append(faults, fault{c, quoted(text) + " has the mark of a torn line", "take" + TornMark + " out"})
		}
	}
	return faults
}

func dateFault(text string, err error) fault {
	var wrong *quantity.ParseError
	switch {
	case text == "":
		return fault{colDate, "a line needs its date", "write year, month and day, such as " + quantity.DateExample}
	case errors.As(err, &wrong) && strings.ContainsAny(text, "./"):
		return fault{colDate, wrong.What, "write year-month-day, such as " + quantity.DateExample + "; in other orders day and month may be mistaken"}
	case errors.As(err, &wrong):
		return fault{colDate, wrong.What, wrong.Right}
	}
	return fault{colDate, err.Error(), "write it as " + quantity.DateExample}
}

func kindFault(text string) fault {
	list := make([]string, len(Kinds))
	for i, kind := range Kinds {
		list[i] = string(kind)
	}
	if text == "" {
		return fault{colKind, "a line needs its kind", "one of " + strings.Join(list, ", ")}
	}
	return fault{colKind, quoted(text) + " is no kind of line", problem.Suggest(text, list)}
}

// numbers reads the numbers of a line into an entry.
func numbers(e *Entry, line *cells, layout Layout, currency string, faults []fault) []fault {
	for c := colJobs; c <= colHours; c++ {
		if line[c] == "" {
			continue
		}
		text, what, right := layout.pointed(line[c])
		var value float64
		var code string
		if what == "" {
			value, code, what, right = measures[c].number(text)
		}
		switch {
		case what != "":
			faults = append(faults, fault{c, what, right})
			continue
		case code != "" && currency != "" && code != currency:
			faults = append(faults, fault{c, quoted(line[c]) + " is not in the money of the study", "give the amount in " + currency})
			continue
		}
		e.set(c, value)
	}
	if e.Given.Has(HasJobs) && e.Jobs == 0 {
		faults = append(faults, fault{colJobs, quoted(line[colJobs]) + " is no job at all", "leave it out for one job"})
	}
	return faults
}

func (e *Entry) set(c column, value float64) {
	e.Given |= measures[c].field
	switch c {
	case colJobs:
		e.Jobs = value
	case colMinutes:
		e.Minutes = quantity.Duration(value)
	case colAmount:
		e.Amount = quantity.Money(value)
	case colLength:
		e.Length = quantity.Distance(value)
	case colArea:
		e.Area = quantity.Area(value)
	case colHours:
		e.Hours = quantity.Duration(value)
	}
}

// check adds what a line of the kind lacks and what it cannot have.
func (s shape) check(e *Entry, line *cells, faults []fault) []fault {
	for _, c := range s.needs {
		if line[c] == "" {
			faults = append(faults, fault{c, "a " + string(e.Kind) + " line needs " + s.noun(c), "write " + s.ask(c)})
		}
	}
	if len(s.oneOf) > 0 && !slices.ContainsFunc(s.oneOf, func(c column) bool { return line[c] != "" }) {
		faults = append(faults, fault{s.oneOf[0], "a " + string(e.Kind) + " line needs " + orList(s.oneOf), "write one of them"})
	}
	for c := colSubject; c < colNote; c++ {
		if line[c] != "" && !slices.Contains(s.needs, c) && !slices.Contains(s.may, c) && !slices.Contains(s.oneOf, c) {
			faults = append(faults, fault{c, quoted(line[c]) + " stands where a " + string(e.Kind) + " line has nothing", "leave it out, or put it into the note"})
		}
	}
	if e.Reason != "" && s.reasons != nil && !slices.Contains(s.reasons, e.Reason) {
		faults = append(faults, fault{colReason, quoted(e.Reason) + " is no reason for a " + string(e.Kind) + " line", problem.Suggest(e.Reason, s.reasons)})
	}
	if e.Kind == Work && e.Job == "" && e.Operation != Setup {
		faults = append(faults, fault{colJob, "a work line needs its job type", "write its key; only the operation setup goes without"})
	}
	return faults
}

// noun says what is missing.
func (s shape) noun(c column) string {
	if c == colSubject {
		return s.subject
	}
	return nouns[c]
}

// ask says what to write there.
func (s shape) ask(c column) string {
	if c == colReason {
		return "one of " + strings.Join(s.reasons, ", ")
	}
	return asks[c]
}

// What the columns that a kind may need hold, and what to write there. They are
// tables of constants.
var (
	nouns = map[column]string{colJob: "its job type", colOperation: "its operation", colMinutes: "its minutes", colAmount: "its amount", colReason: "its reason"}
	asks  = map[column]string{
		colSubject: "its key", colJob: "the key of the job type", colOperation: "the key of the operation, one grit of it as sand/80",
		colMinutes: "minutes, such as 85, or 1 h 25 min", colAmount: "what was paid, such as 240; 0 for a gift",
	}
)

func orList(columns []column) string {
	words := make([]string, len(columns))
	for i, c := range columns {
		words[i] = c.String()
	}
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}
