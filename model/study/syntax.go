package study

import (
	"errors"
	"regexp"
	"strconv"
	"strings"
)

// locatable is the size up to which the broken line is looked for by reading
// ever shorter beginnings of the file; beyond it the parser's own line is taken.
const locatable = 64 << 10

// syntaxFault puts a parser's error into our words and finds its line. The
// parser names the line where it gave up, which for an open quote is the end of
// the file, and for a bad indentation the start of the mapping around it.
func syntaxFault(text string, err error) *fault {
	if errors.Is(err, errNothing) {
		return &fault{1, 1, "the file has only comments", "give at least a currency, units, a shop, a machine and a job type"}
	}
	lines := strings.SplitAfter(text, "\n")
	number := min(reportedLine(err), len(lines))
	if len(text) <= locatable {
		number = brokenLine(lines)
	}
	return describe(lines[number-1], number, err.Error())
}

var (
	lineNumber = regexp.MustCompile(`line (\d+)`)
	fromZero   = regexp.MustCompile(`did not find expected (key|node|'[,-])`)
)

// reportedLine is the line that the parser names. What it misses between keys and
// entries it counts from 0, and slips within a value from 1.
func reportedLine(err error) int {
	found := lineNumber.FindStringSubmatch(err.Error())
	if found == nil {
		return 1
	}
	number, misread := strconv.Atoi(found[1])
	switch {
	case misread != nil:
		return 1
	case fromZero.MatchString(err.Error()):
		return number + 1
	}
	return max(1, number)
}

// brokenLine returns the number of the first line after the longest readable
// beginning. A value over several lines makes shorter beginnings unreadable
// too, so some lines behind each boundary are tried as well.
func brokenLine(lines []string) int {
	const ahead, rounds = 20, 10
	good := 0
	for range rounds {
		good = boundary(lines, good)
		next := good
		for n := good + 2; n < min(len(lines), good+2+ahead); n++ {
			if readable(lines[:n]) {
				next = n
			}
		}
		if next == good {
			break
		}
		good = next
	}
	return good + 1
}

// boundary halves its way from a readable beginning to an unreadable one.
func boundary(lines []string, good int) int {
	bad := len(lines)
	for bad-good > 1 {
		if middle := (good + bad) / 2; readable(lines[:middle]) {
			good = middle
		} else {
			bad = middle
		}
	}
	return good
}

func readable(lines []string) bool {
	_, err := parse(strings.Join(lines, ""))
	return err == nil || errors.Is(err, errNothing)
}

// describe says what is wrong with a line, by what it looks like first and by
// the parser's complaint second.
func describe(line string, number int, complaint string) *fault {
	content := strings.TrimLeft(line, " ")
	column := len(line) - len(content) + 1
	switch {
	case strings.HasPrefix(content, "\t"):
		return &fault{number, column, "a tab stands in the indentation", "indent with spaces"}
	case strings.Contains(complaint, "unknown anchor"):
		return &fault{number, column, "an alias stands on this line", "anchors and aliases are not read; write the value out"}
	case strings.Contains(complaint, "cannot start any token"):
		return &fault{number, column, "a value begins with a sign that YAML keeps for itself (@ ` % or a tab)", "put the value in quotes"}
	case strings.Contains(complaint, "escape"):
		return &fault{number, column, "a backslash in double quotes is followed by a letter that means nothing", "use single quotes, or write the backslash twice"}
	case strings.Contains(complaint, "mapping values are not allowed"):
		return &fault{number, column, "a second colon on the line, or an indentation that does not fit the line above", "put text with a colon in quotes; indent keys of one mapping alike"}
	case strings.Contains(complaint, "',' or"):
		return &fault{number, column, "a list or mapping opened on this line with [ or { is not closed, or lacks a comma", "close it with ] or } and put a comma between entries"}
	case strings.Contains(complaint, "end of stream") || oddQuotes(content):
		return &fault{number, column, "a quote opened on this line is not closed, or text follows it", `close it; a text with inch marks goes into single quotes, as '5/8"'`}
	case strings.Contains(complaint, "':'"):
		return &fault{number, column, "a key without a colon", "write key: value, with a space after the colon"}
	}
	return &fault{number, column, "this line does not fit the lines before it", "write key: value, and indent the keys of one mapping alike"}
}

func oddQuotes(line string) bool {
	return strings.Count(line, `"`)%2 == 1 || strings.Count(line, "'")%2 == 1
}
