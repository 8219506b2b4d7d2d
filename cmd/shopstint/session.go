package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
)

// session is one run of the program.
type session struct {
	world
	json   bool   // whether errors are told as JSON
	shown  told   // the text of the study, to show its lines beside what is wrong with them
	kept   string // what was written although there are problems
	unsaid error  // why a help page could not be written
}

// told is a text and its name in problems.
type told struct {
	name string
	src  []byte
}

// newSession looks for --json before the command line is read, so that even a
// command line that cannot be read is answered in the form asked for.
func newSession(args []string, outside world) *session {
	s := &session{world: outside}
	s.json = slices.Contains(args, "--json") || saysYes(s.env("SHOPSTINT_JSON"))
	return s
}

// env returns the value of an environment variable, "" without; of a name that
// is given twice the last counts.
func (s *session) env(name string) string {
	value := ""
	for _, entry := range s.environ {
		if key, text, ok := strings.Cut(entry, "="); ok && key == name {
			value = text
		}
	}
	return value
}

// say writes one finished text to standard output.
func (s *session) say(text string) error {
	if _, err := io.WriteString(s.stdout, text); err != nil {
		return fmt.Errorf("could not write to standard output: %w", plainCause(err))
	}
	return nil
}

// sayAs writes a page to standard output, in words or as JSON.
func (s *session) sayAs(asJSON bool, json, words func(io.Writer) error) error {
	write := words
	if asJSON {
		write = json
	}
	var page strings.Builder
	if err := write(&page); err != nil {
		return err
	}
	return s.say(page.String())
}
