package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"

	"shopstint/cmd/shopstint/keep"
)

// publish puts a finished file in its place. When anything fails, what was there
// stays. Nothing but package keep opens a file for writing.
func (s *session) publish(path string, content []byte) error {
	return unwritten(path, keep.Replace(s.disk, path, content))
}

// unwritten says which file could not be written.
func unwritten(path string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("could not write %s: %w", path, plainCause(err))
}

// outputPath is where the workbook goes: where -o says, or else NAME-decision.xlsx
// in the output folder, or else beside the study.
func outputPath(from source, wanted, folder string) (string, error) {
	path := wanted
	if path == "" {
		if folder == "" {
			folder = filepath.Dir(from.path)
		}
		path = filepath.Join(folder, from.stem+"-decision.xlsx")
	}
	if sameFile(from.path, path) {
		return "", usage("the workbook would be written over the study "+from.path, "name another file with -o")
	}
	return path, fits(path, ".xlsx")
}

// mostAgain is how many times a workbook is solved again beside itself.
const mostAgain = 1000

// againPath is where a decision workbook that is solved again goes: NAME-again.xlsx,
// NAME-again-2.xlsx and so on, the first that is free. What is there may have been
// edited and is not written over.
func againPath(from source, folder string) (string, error) {
	if folder == "" {
		folder = filepath.Dir(from.path)
	}
	stem := from.stem
	if at := strings.LastIndex(stem, againMark); at > 0 && strings.Trim(stem[at+len(againMark):], "-0123456789") == "" {
		stem = stem[:at]
	}
	for n := 1; n <= mostAgain; n++ {
		name := stem + againMark
		if n > 1 {
			name += "-" + strconv.Itoa(n)
		}
		path := filepath.Join(folder, name+".xlsx")
		if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
			return path, fits(path, ".xlsx")
		}
	}
	return "", usage("there are "+strconv.Itoa(mostAgain)+" workbooks of "+stem+againMark, "take the old ones away, or name another with -o")
}

const againMark = "-again"

// fits tells whether a file may be written at a path: a known ending, a plain file
// or none yet, in a folder that is there.
func fits(path string, endings ...string) error {
	ending := strings.ToLower(filepath.Ext(path))
	known := slices.Contains(endings, ending)
	if about, err := os.Stat(path); err == nil && about.IsDir() {
		if !known {
			ending = endings[0]
		}
		return usage(path+" is a folder", "name a file in it, such as "+filepath.Join(path, "study"+ending))
	}
	if err := writable(path); err != nil {
		return err
	}
	if !known {
		return usage(path+" does not end in "+strings.Join(endings, " or "), "name it "+strings.TrimSuffix(path, filepath.Ext(path))+endings[0])
	}
	folder := filepath.Dir(path)
	switch about, err := os.Stat(folder); {
	case errors.Is(err, fs.ErrNotExist):
		return usage("there is no folder "+folder, "make it first, or name another")
	case err == nil && !about.IsDir(), errors.Is(err, syscall.ENOTDIR):
		return usage(folder+" is no folder", "name a file in a folder")
	}
	return nil
}

// writable refuses what no file can be written over. Other faults of the file
// system show when it is written.
func writable(path string) error {
	switch _, err := keep.Target(path); {
	case errors.Is(err, keep.ErrNoFile):
		return usage(path+" is no plain file", "name a file")
	case errors.Is(err, keep.ErrLostLink):
		return usage(path+" is a link that leads nowhere", "take the link away, or name another file")
	case errors.Is(err, keep.ErrProtected):
		return usage(path+" is protected against writing", "take the protection off, or name another file")
	}
	return nil
}

// sameFile tells whether two paths lead to one file, by whatever names.
func sameFile(a, b string) bool {
	if a == "" || b == "" {
		return false
	}
	first, errA := os.Stat(a)
	second, errB := os.Stat(b)
	if errA == nil && errB == nil {
		return os.SameFile(first, second)
	}
	return filepath.Clean(a) == filepath.Clean(b)
}
