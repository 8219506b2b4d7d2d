package problem

import (
	"slices"
	"strings"
)

const largestDistance = 2

// Nearest is the allowed name that word is most likely a slip of: the one that
// differs in capitals only, or else by at most two letters added, left out,
// changed or swapped with their neighbour, and by less than half of the word.
// Of names equally near the first listed is taken. It is false when none is.
//
// Source: F. J. Damerau, A technique for computer detection and correction of
// spelling errors, Communications of the ACM 7(3), 1964, pages 171-176.
func Nearest(word string, allowed []string) (string, bool) {
	nearest, least := "", largestDistance+1
	letters := []rune(word)
	for _, name := range allowed {
		if strings.EqualFold(name, word) {
			return name, true
		}
		if d := distance(letters, []rune(name)); d < least && 2*d < len(letters) {
			nearest, least = name, d
		}
	}
	return nearest, least <= largestDistance
}

// Suggest is the "right" half of a problem about word: the nearest allowed
// name, or else all of them.
func Suggest(word string, allowed []string) string {
	if name, ok := Nearest(word, allowed); ok {
		return `did you mean "` + name + `"?`
	}
	switch len(allowed) {
	case 0:
		return "nothing may stand here, remove it"
	case 1:
		return "only " + allowed[0] + " may stand here"
	}
	return "one of " + strings.Join(allowed, ", ")
}

// distance counts the slips between a and b, a swap of neighbours being one. It
// gives up over the limit, which keeps a hostile word from costing time.
func distance(a, b []rune) int {
	beforeLast, last, row := make([]int, len(b)+1), firstRow(len(b)), make([]int, len(b)+1)
	for i := range a {
		row[0] = i + 1
		for j := range b {
			row[j+1] = min(last[j+1]+1, row[j]+1, last[j]+changed(a[i], b[j]))
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], beforeLast[j-1]+1)
			}
		}
		if slices.Min(row) > largestDistance {
			return largestDistance + 1
		}
		beforeLast, last, row = last, row, beforeLast
	}
	return last[len(b)]
}

func firstRow(n int) []int {
	row := make([]int, n+1)
	for j := range row {
		row[j] = j
	}
	return row
}

func changed(a, b rune) int {
	if a == b {
		return 0
	}
	return 1
}
