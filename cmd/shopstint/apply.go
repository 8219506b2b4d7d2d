package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strconv"
	"strings"
	"time"

	"shopstint/cmd/shopstint/keep"
	"shopstint/model/study"
	"shopstint/reports"
	"shopstint/reports/jsonout"
)

// applySuggestions writes the suggestions into the study that was read, the old one
// kept beside it, and says what it did and how to undo it.
func (s *session) applySuggestions(told *reports.Tracked, src []byte, from source) ([]string, *jsonout.TrackApplied, error) {
	changes := suggested(told)
	if len(changes) == 0 {
		return []string{"Nothing was written: there is nothing to change."}, nil, nil
	}
	edited, done, byHand := editEach(from.name, src, changes)
	if len(done) == 0 {
		return nil, nil, fmt.Errorf("could not change any input of %s: %w", from.name, byHand[0])
	}
	kept, err := s.keepAsItWas(from.path, src)
	if err != nil {
		return nil, nil, err
	}
	if err := s.putIn(from.path, src, edited); err != nil {
		_ = s.disk.Remove(kept) // the study is as it was
		return nil, nil, err
	}
	words := []string{"Changed in " + from.path + ": " + strings.Join(done, ", ") + "."}
	for _, one := range byHand {
		words = append(words, "Not changed: "+one.Error()+".")
	}
	words = append(words, "The study as it was is "+kept+". To undo, put it back: copy "+kept+" over "+from.path+".")
	return words, &jsonout.TrackApplied{Study: from.path, Before: kept}, nil
}

// putIn replaces a study that is still as it was read.
func (s *session) putIn(path string, src, edited []byte) error {
	if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, src) {
		return fmt.Errorf("could not write %s: it was changed meanwhile; run the command again", path)
	}
	return s.publish(path, edited)
}

// editEach makes all changes, or where that is not possible those that are, one by one.
func editEach(name string, src []byte, changes []study.Change) (edited []byte, done []string, byHand []error) {
	if edited, err := study.Edit(name, src, changes); err == nil {
		for _, one := range changes {
			done = append(done, one.Path)
		}
		return edited, done, nil
	}
	edited = src
	for _, one := range changes {
		next, err := study.Edit(name, edited, []study.Change{one})
		if err != nil {
			byHand = append(byHand, err)
			continue
		}
		edited, done = next, append(done, one.Path)
	}
	return edited, done, byHand
}

// errThere says that a name is taken.
var errThere = errors.New("there is such a file")

// mostKept is how many old studies of one day are kept.
const mostKept = 1000

// keepAsItWas writes the study as it was beside it, under a name that nothing has yet.
func (s *session) keepAsItWas(path string, src []byte) (string, error) {
	stem := strings.TrimSuffix(strings.TrimSuffix(path, ".yaml"), ".yml") + ".before-" + s.now().Format(time.DateOnly)
	for n := 1; n <= mostKept; n++ {
		kept := stem + ".yaml"
		if n > 1 {
			kept = stem + "-" + strconv.Itoa(n) + ".yaml"
		}
		if _, err := os.Lstat(kept); err == nil {
			continue
		}
		err := keep.Append(s.disk, kept, func(found keep.Found) ([]byte, error) {
			if !found.New {
				return nil, errThere
			}
			return src, nil
		})
		switch {
		case err == nil:
			return kept, nil
		case !errors.Is(err, errThere):
			return "", unwritten(kept, err)
		}
	}
	return "", fmt.Errorf("could not keep %s as it was: there are %d old ones of today; take some away", path, mostKept)
}
