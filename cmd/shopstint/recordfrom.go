package main

import (
	"bytes"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"io/fs"
	"os"

	"shopstint/model"
	"shopstint/model/intake"
	"shopstint/model/logbook"
	"shopstint/model/problem"
)

// recordFrom adds the lines of another file to a logbook.
func (s *session) recordFrom(path string, study *model.Study, options recordOptions) error {
	name, src, err := s.lines(options.from)
	if err != nil {
		return err
	}
	batch := batch{path: path, name: name, src: src, study: study, again: options.again}
	torn, err := s.keepLines(path, func(layout logbook.Layout, isNew bool) ([]byte, error) {
		if err := batch.read(layout, isNew); err != nil {
			return nil, err
		}
		if len(batch.problems) > 0 && !options.keepGood {
			return nil, batch.problems
		}
		return batch.out.Bytes(), nil
	})
	if err != nil {
		return err
	}
	written := counted(batch.count, "line") + " of " + name
	if err := s.say(paragraph("Wrote into "+path+": "+written+" ("+batch.layout.String()+").") + torn); err != nil {
		return err
	}
	s.kept = counted(batch.count, "line") + " written"
	return batch.problems.Err()
}

// lines reads the file that is to be added, in bounds.
func (s *session) lines(path string) (name string, src []byte, err error) {
	name = path
	if path == "-" {
		name = "standard input"
		src, err = io.ReadAll(io.LimitReader(s.stdin, mostRead+1))
	} else {
		src, err = readAtMost(path, mostRead)
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "", nil, inFile(name, "there is no such file", "name the CSV file whose lines are to be added")
	case errors.Is(err, errFolder):
		return "", nil, inFile(name, "this is a folder", "name the CSV file in it")
	case err != nil:
		return "", nil, fmt.Errorf("could not read %s: %w", name, plainCause(err))
	case len(src) > mostRead:
		return "", nil, inFile(name, fmt.Sprintf("the file is larger than %d MB", mostRead>>20), "add it in parts")
	case intake.IsWorkbook(src):
		return "", nil, inFile(name, "this is a workbook", `save its sheet as "CSV UTF-8", and add that`)
	}
	return name, src, nil
}

var errFolder = errors.New("this is a folder")

// readAtMost reads a file up to a bound and, if there is more, one byte beyond.
func readAtMost(path string, most int64) ([]byte, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	if about, err := file.Stat(); err == nil && about.IsDir() {
		return nil, errFolder
	}
	return io.ReadAll(io.LimitReader(file, most+1))
}

// batch is the lines of a file on their way into a logbook.
type batch struct {
	path, name string
	src        []byte
	study      *model.Study
	again      bool

	layout   logbook.Layout // of the file
	out      bytes.Buffer
	count    int
	known    int // lines that are in the logbook already
	problems problem.List
}

// read checks the lines and writes those that are good in the layout of the
// logbook.
func (b *batch) read(layout logbook.Layout, isNew bool) error {
	there := map[uint64]bool{}
	if !isNew && !b.again {
		if err := b.remember(there); err != nil {
			return err
		}
	}
	reader := logbook.NewReader(b.name, bytes.NewReader(b.src), b.study)
	var doubles problem.List
	problems, err := reader.Each(func(entry logbook.Entry) error {
		if there[fingerprint(&entry)] {
			b.known++
			doubles = b.double(doubles, entry.Line)
			return nil
		}
		line, err := lineOf(b.path, layout, &entry)
		b.out.Write(line)
		b.count++
		return err
	})
	b.layout = reader.Layout()
	b.problems = append(problems, doubles...).Sorted()
	return err
}

// mostDoubles is how many lines are named that are in the logbook already.
const mostDoubles = 10

// double names a line that is there already; of many the last says how many
// more there are.
func (b *batch) double(list problem.List, line int) problem.List {
	one := problem.Problem{Place: problem.Place{File: b.name, Line: line}, What: "the same line is in " + b.path + " already", Right: "leave it out, or write it once more with --again"}
	if b.known <= mostDoubles {
		return append(list, one)
	}
	one.What = fmt.Sprintf("this and %s before it are in %s too", counted(b.known-mostDoubles-1, "more line"), b.path)
	if b.known == mostDoubles+1 {
		one.What = "this line is in " + b.path + " too"
		return append(list, one)
	}
	list[mostDoubles] = one
	return list
}

// remember takes in what the logbook holds.
func (b *batch) remember(there map[uint64]bool) error {
	file, err := os.Open(b.path)
	if err != nil {
		return err
	}
	defer file.Close()
	_, err = logbook.Read(b.path, file, nil, func(entry logbook.Entry) error {
		there[fingerprint(&entry)] = true
		return nil
	})
	return err
}

// fingerprint is the same for entries that say the same. Two others share one
// by chance in a million lines less than once in ten million logbooks.
func fingerprint(entry *logbook.Entry) uint64 {
	sum := fnv.New64a()
	line, _ := logbook.Standard().Line(entry) // has all columns
	sum.Write(line)
	return sum.Sum64()
}
