// Package defaults knows what a study may leave out, and fills it in: by class
// of machine and trade practice, with a range and a source beside each value.
//
// The values are in defaults.txt. What one value decides about another (a phase
// converter, the minutes of a drive) is in derive.go; members that a study needs
// and does not name (an edge, a belt of each grit) are in lists.go.
package defaults

import (
	_ "embed"
	"math"
	"strconv"
	"strings"
)

//go:embed defaults.txt
var text string

// Practice is the source of a value for which no page was found.
const Practice = "common practice, no source"

// Entry is one assumed value: where in a study it stands, for what it holds, and
// who says so. Values are written as in a study.
type Entry struct {
	Path       string   // without the keys of the lists: "machines.feed"
	Classes    []string // machine classes it holds for; none: all
	When       string   // a word that must hold as well: "used", "resin"
	From, Till float64  // band, From included: mm, kW, grit, kg or row, as the path asks
	Typical    string
	Low, High  string // both empty without a range
	Source     string
}

// Entries lists every assumed value in the order of the embedded list. Where
// several fit, the first counts.
func Entries() []Entry {
	var list []Entry
	for line := range strings.Lines(text) {
		if entry, ok := readEntry(strings.TrimSpace(line)); ok {
			list = append(list, entry)
		}
	}
	return list
}

// columns of a line: path, class, when, band, typical, low, high, source
const columns = 8

func readEntry(line string) (Entry, bool) {
	if line == "" || line[0] == '#' {
		return Entry{}, false
	}
	var cell [columns]string
	for i := range cell {
		before, after, _ := strings.Cut(line, "|")
		cell[i], line = strings.TrimSpace(before), after
	}
	entry := Entry{Path: cell[0], When: cell[2], Typical: cell[4], Low: cell[5], High: cell[6], Source: cell[7]}
	if cell[1] != "" {
		entry.Classes = strings.Split(cell[1], ",")
	}
	if entry.Source == "-" {
		entry.Source = Practice
	}
	entry.From, entry.Till = readBand(cell[3])
	return entry, true
}

// readBand reads "345..620"; an open end is unlimited.
func readBand(band string) (from, till float64) {
	before, after, _ := strings.Cut(band, "..")
	return bandEnd(before, math.Inf(-1)), bandEnd(after, math.Inf(1))
}

func bandEnd(text string, open float64) float64 {
	if text == "" {
		return open
	}
	end, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return math.NaN() // fits nothing: a slip in the list shows in its test
	}
	return end
}
