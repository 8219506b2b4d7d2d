package logbook

import "strings"

// column is one column of a logbook.
type column int

const (
	colDate column = iota
	colKind
	colSubject
	colItem
	colJob
	colOperation
	colJobs
	colMinutes
	colAmount
	colLength
	colArea
	colHours
	colReason
	colNote
	columnCount
)

var columnNames = [columnCount]string{
	"date", "kind", "subject", "item", "job", "operation", "jobs", "minutes", "amount", "length", "area", "hours",
	"reason", "note",
}

// String is the column's name in the header.
func (c column) String() string { return columnNames[c] }

// Columns lists the names of the columns in the order of a new logbook.
func Columns() []string { return append([]string(nil), columnNames[:]...) }

// columnOf finds a column by its name, whatever its capitals.
func columnOf(name string) (column, bool) {
	for c, known := range columnNames {
		if strings.EqualFold(known, name) {
			return column(c), true
		}
	}
	return 0, false
}

// cells are the texts of one line by column, without the space around them.
type cells [columnCount]string

// fault is what is wrong with one cell.
type fault struct {
	column      column
	what, right string
}

// shape says which columns a kind of line needs and which it may have beside
// them; date and kind are always needed, a note is always welcome.
type shape struct {
	subject    string // what the subject is
	needs, may []column
	oneOf      []column // of these at least one
	reasons    []string // words that reason may be
}

var shapes = map[Kind]shape{
	Visit:   {subject: "the shop", needs: of(colSubject), may: of(colJob, colJobs), oneOf: of(colMinutes, colAmount)},
	Work:    {subject: "the machine or tool", needs: of(colSubject, colOperation, colMinutes), may: of(colJob, colJobs, colLength, colArea)},
	Use:     {subject: "the edge or abrasive", needs: of(colSubject), may: of(colItem), oneOf: of(colLength, colArea, colHours)},
	Sharpen: {subject: "the edge", needs: of(colSubject, colReason), may: of(colItem, colAmount, colLength, colArea, colHours), reasons: []string{Dull, Damage}},
	Replace: {subject: "the edge or abrasive", needs: of(colSubject, colReason), may: of(colItem, colAmount, colLength, colArea, colHours), reasons: []string{Dull, Damage, Spent, Lost}},
	Buy:     {subject: "what was bought", needs: of(colSubject, colAmount), may: of(colItem, colJobs)},
	Done:    {needs: of(colJob), may: of(colJobs)},
	Rework:  {needs: of(colJob), may: of(colOperation, colJobs, colMinutes)},
}

func of(columns ...column) []column { return columns }
