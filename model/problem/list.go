package problem

import (
	"cmp"
	"slices"
	"strings"
)

// List is all that is wrong with an input. It is an error; find it in a chain
// with errors.As. An empty List is not an error: hand on Err, not the List.
type List []Problem

// Error is one line per problem, in the order of the list.
func (l List) Error() string {
	lines := make([]string, len(l))
	for i, p := range l {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Err is nil when nothing is wrong, and the list otherwise.
func (l List) Err() error {
	if len(l) == 0 {
		return nil
	}
	return l
}

// Sorted is a new list by file, line, column (sheet, row, column in a
// workbook), then text; of problems with the same place and text only the
// first is in it.
//
// Source: common practice, no source.
func (l List) Sorted() List {
	sorted := slices.Clone(l)
	slices.SortStableFunc(sorted, comparePlaceAndText)
	return slices.CompactFunc(sorted, func(p, q Problem) bool { return comparePlaceAndText(p, q) == 0 })
}

func comparePlaceAndText(p, q Problem) int {
	return cmp.Or(p.Place.compare(q.Place), cmp.Compare(p.text(), q.text()))
}
