package recalc

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"
)

// shown is how many differences a failing comparison lists.
const shown = 20

// Tally counts the formula cells that were compared.
type Tally struct {
	Numbers, Texts, Logicals int
}

// Total is the number of formula cells.
func (c Tally) Total() int { return c.Numbers + c.Texts + c.Logicals }

// Compare fails the test unless every formula cell of the file has, in got, the value that was cached in the file:
// numbers within tolerance (relative, with the same as absolute floor), texts and logical values equal. An error
// value on either side is a failure, and so is a file without formulas. It lists the first 20 differences.
func Compare(t testing.TB, cached Sheets, formulas Formulas, got Sheets, tolerance float64) Tally {
	t.Helper()
	found, tally := Differences(cached, formulas, got, tolerance)
	if tally.Total() == 0 {
		t.Errorf("no formula cell to compare")
	}
	if len(found) > 0 {
		t.Errorf("%d of %d formula cells differ:\n%s", len(found), tally.Total(), strings.Join(found[:min(shown, len(found))], "\n"))
	}
	return tally
}

// Differences gives a line for every formula cell that does not agree, in order of sheet, row and column.
func Differences(cached Sheets, formulas Formulas, got Sheets, tolerance float64) ([]string, Tally) {
	var found []string
	var tally Tally
	for _, sheet := range slices.Sorted(maps.Keys(formulas)) {
		for _, ref := range slices.SortedFunc(maps.Keys(formulas[sheet]), byPlace) {
			want, have := cached[sheet][ref], got[sheet][ref]
			tally.add(want.Kind)
			if !same(want, have, tolerance) {
				found = append(found, fmt.Sprintf("%s!%s: cached %v, recalculated %v: =%s", sheet, ref, want, have, formulas[sheet][ref]))
			}
		}
	}
	return found, tally
}

func (c *Tally) add(kind Kind) {
	switch kind {
	case Textual:
		c.Texts++
	case Logical:
		c.Logicals++
	default:
		c.Numbers++
	}
}

// byPlace sorts references by row, then by column.
func byPlace(a, b string) int {
	rowA, rowB := strings.TrimLeft(a, letters), strings.TrimLeft(b, letters)
	return cmp.Or(cmp.Compare(len(rowA), len(rowB)), cmp.Compare(rowA, rowB), cmp.Compare(len(a), len(b)), cmp.Compare(a, b))
}

const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"

// same judges one cell. An empty text and no value are the same: programs write the result "" either way.
func same(want, have Value, tolerance float64) bool {
	blank := Value{Kind: Textual}
	if want == blank && have.Kind == Empty {
		return true
	}
	if want.Kind != have.Kind || want.Kind == Fault || want.Kind == Empty {
		return false
	}
	if want.Kind == Textual {
		return want.Text == have.Text
	}
	return Close(want.Number, have.Number, tolerance)
}

// Close tells whether two numbers agree within tolerance of the larger one, or of 1 for smaller numbers' sake: the
// floor of the difference is the tolerance itself.
func Close(a, b, tolerance float64) bool {
	return math.Abs(a-b) <= tolerance*max(1, math.Abs(a), math.Abs(b))
}
