package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"shopstint/model/demo"
	"shopstint/model/intake"
	"shopstint/model/problem"
	"shopstint/model/study"
)

// source is where a study comes from.
type source struct {
	name string // as it is told in problems
	path string // "" for standard input and the demo
	stem string // from which names of outputs are made
	demo bool
	pipe bool // standard input
}

// sourceOf reads the one argument of a command that takes a study.
func sourceOf(args []string, isDemo bool) (source, error) {
	switch {
	case isDemo && len(args) > 0:
		return source{}, usage(`--demo and "`+args[0]+`" are two studies`, "leave one of them out")
	case isDemo:
		return source{name: demo.Name, stem: "demo", demo: true}, nil
	case len(args) == 0, len(args) == 1 && args[0] == "":
		return source{}, usage("no study is named", "name a file, - for standard input, or --demo")
	case len(args) > 1:
		return source{}, usage(`"`+args[0]+`" and "`+args[1]+`" are two studies`, "name one")
	case args[0] == "-":
		return source{name: "standard input", stem: "study", pipe: true}, nil
	}
	base := filepath.Base(args[0])
	return source{name: args[0], path: args[0], stem: strings.TrimSuffix(base, filepath.Ext(base))}, nil
}

// mostRead bounds what is taken in from a stranger; the reader of studies has
// a lower bound for texts, and words for it.
const mostRead = 64 << 20

// read returns the bytes of a study.
func (s *session) read(from source) ([]byte, error) {
	switch {
	case from.demo:
		return demo.Study(), nil
	case from.pipe:
		return readBounded(from, s.stdin)
	}
	file, err := os.Open(from.path)
	if err != nil {
		return nil, noStudy(from, err)
	}
	defer file.Close()
	if about, err := file.Stat(); err == nil && about.IsDir() {
		return nil, inFile(from.name, "this is a folder", "name the study in it")
	}
	return readBounded(from, file)
}

func readBounded(from source, r io.Reader) ([]byte, error) {
	src, err := io.ReadAll(io.LimitReader(r, mostRead+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("could not read %s: %w", from.name, plainCause(err))
	case len(src) > mostRead:
		return nil, inFile(from.name, fmt.Sprintf("the file is larger than %d MB", mostRead>>20), "name a study: a text of at most 1 MB, or a workbook")
	}
	return src, nil
}

func noStudy(from source, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return inFile(from.name, "there is no such file", "name a study, or begin one with: shopstint new study.yaml")
	}
	return fmt.Errorf("could not read %s: %w", from.name, plainCause(err))
}

// load reads, fills and checks a study: a YAML file or a workbook, told apart by
// what is in it and not by its name.
func (s *session) load(from source) (*intake.Book, error) {
	src, err := s.read(from)
	if err != nil {
		return nil, err
	}
	return s.parse(from, src)
}

// parse is load for what was read already.
func (s *session) parse(from source, src []byte) (*intake.Book, error) {
	var book *intake.Book
	var problems problem.List
	if intake.IsWorkbook(src) {
		book, problems = intake.Load(from.name, src)
	} else {
		s.shown = told{from.name, src}
		book = &intake.Book{}
		book.Study, book.Places, problems = study.Load(from.name, src)
	}
	if len(problems) > 0 {
		return nil, problems
	}
	return book, nil
}

// opened is what most commands begin with: the settings, and the study they are
// laid over.
func (s *session) opened(cmd *cobra.Command, args []string, isDemo bool) (*intake.Book, source, settings, error) {
	settings, err := s.settings(cmd)
	if err != nil {
		return nil, source{}, settings, err
	}
	from, err := sourceOf(args, isDemo)
	if err != nil {
		return nil, from, settings, err
	}
	book, err := s.load(from)
	if err != nil {
		return nil, from, settings, err
	}
	settings.apply(book.Study)
	return book, from, settings, nil
}
