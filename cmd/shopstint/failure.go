package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"strings"

	"shopstint/model/problem"
	"shopstint/reports/jsonout"
	"shopstint/reports/text"
)

// usage is a problem of the command line.
func usage(what, right string) error {
	return problem.List{{What: what, Right: right}}
}

// inFile is a problem of a file as a whole.
func inFile(name, what, right string) error {
	return problem.List{{Place: problem.Place{File: name}, What: what, Right: right}}
}

// report tells what went wrong on standard error and returns the exit status:
// problems of the input or the command line are 2, all else is 1.
func (s *session) report(err error) int {
	var problems problem.List
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &problems):
		s.tell(problems)
		return exitBad
	default:
		s.tell(problem.List{{What: err.Error()}})
		return exitFailed
	}
}

// tell writes problems, one a line, and counts those that have a place.
func (s *session) tell(problems problem.List) {
	all := problems
	if more := len(problems) - mostTold; more > 0 {
		problems = append(slices.Clone(problems[:mostTold]), problem.Problem{What: strconv.Itoa(more) + " more problems are not listed", Right: "mend these first"})
	}
	if s.json {
		_ = jsonout.Problems(s.stderr, problems) // standard error is the last resort
		return
	}
	for _, one := range problems {
		line := one.Error()
		if !placed(one) {
			line = "shopstint: " + line
		}
		fmt.Fprintln(s.stderr, text.Clean(line))
		s.show(one.Place)
	}
	if n := len(slices.DeleteFunc(slices.Clone(all), func(p problem.Problem) bool { return !placed(p) })); n > 0 {
		fmt.Fprintf(s.stderr, "%s; %s\n", counted(n, "problem"), cmp.Or(s.kept, "nothing was written"))
	}
}

// mostTold is how many problems are told of one run; a hostile file has as many
// as it has words.
const mostTold = 1000

// placed tells whether a problem stands in a line or a cell.
func placed(p problem.Problem) bool { return p.Place.Line > 0 || p.Place.Sheet != "" }

// show prints the line of the study at a place, with a mark, for one who watches.
func (s *session) show(place problem.Place) {
	if s.watched && place.File == s.shown.name {
		fmt.Fprint(s.stderr, text.Excerpt(s.shown.src, place.Line, place.Column, s.columns))
	}
}

func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// plainCause takes the name of the system call and of the file off an error of
// the file system: the caller has named the file already.
func plainCause(err error) error {
	var onPath *fs.PathError
	var onTwo *os.LinkError
	var onCall *os.SyscallError
	switch {
	case errors.As(err, &onPath):
		return onPath.Err
	case errors.As(err, &onTwo):
		return onTwo.Err
	case errors.As(err, &onCall):
		return onCall.Err
	}
	return err
}

// oneLine keeps a foreign message on one line.
func oneLine(err error) string { return strings.Join(strings.Fields(err.Error()), " ") }
