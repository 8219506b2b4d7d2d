package text

import "strings"

// margin stands before an excerpt, so that it is told from what is said about it.
const margin = "    "

// Excerpt shows the line of a file on which something is wrong, and under it a mark
// at the letter, counted from 1, where it begins. Of a long line it shows the part
// around the mark, within the columns (0: the usual width). It is "" for a place that
// the text does not have.
func Excerpt(source []byte, line, letter, columns int) string {
	lines := strings.Split(string(source), "\n")
	if line < 1 || line > len(lines) || letter < 1 {
		return ""
	}
	shown := []rune(Clean(strings.TrimRight(strings.TrimPrefix(lines[line-1], "\ufeff"), "\r \t")))
	if letter > len(shown) {
		return ""
	}
	if columns <= 0 {
		columns = Width
	}
	before, rest := around(shown, letter-1, columns-len(margin))
	return margin + before + rest + "\n" + margin + strings.Repeat(" ", columnsOf(before)) + "^\n"
}

// around is what stands before and behind a letter, cut to the columns: a third of
// them are kept for what stands before.
func around(line []rune, at, columns int) (before, rest string) {
	from := 0
	for columnsOf(string(line[from:])) > columns && at > from && columnsOf(string(line[from:at])) > columns/3 {
		from++
	}
	before = string(line[from:at])
	parts := pieces(string(line[at:]), max(1, columns-columnsOf(before)))
	return before, parts[0]
}
