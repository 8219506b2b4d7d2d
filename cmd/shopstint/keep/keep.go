// Package keep writes files so that nothing is lost. A file is replaced as a whole
// (Replace). Lines are added to the end of one (Append): one writer at a time, all
// lines in one write, on the disk before it says so; what stops half way leaves
// what was there, and at most one line without an end, which the next writer is
// shown. It knows no word of the trade.
//
// Whatever changes a disk goes through the one that is passed in, so that tests
// can have it fail or stop at every step.
package keep

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/afero"
)

// MostLine bounds how much of the first and of the last line is looked at.
const MostLine = 64 << 10

// Found is a file before something is added.
type Found struct {
	New   bool   // it was not there, or is empty
	First []byte // its first line with the line break, as far as MostLine
	Tail  []byte // what stands behind the last line break, as far as MostLine; empty in a whole file
}

// mostTries is how often a file is opened anew because another one took its
// place while its lock was waited for.
const mostTries = 100

// Append adds to the end of a file what compose makes of it, and makes the file
// when it is not there. It waits for others that do the same. When it returns
// without an error all of it is on the disk; with one nothing is, as far as the
// file system lets it be taken back. An error of compose is returned as it is.
func Append(disk afero.Fs, path string, compose func(Found) ([]byte, error)) error {
	for range mostTries {
		done, err := try(disk, path, compose)
		if done || err != nil {
			return err
		}
	}
	return fmt.Errorf("another program puts new files in the place of %s", path)
}

// try is one attempt; done is false when the file that was opened is no longer
// the one at the path.
func try(disk afero.Fs, path string, compose func(Found) ([]byte, error)) (done bool, err error) {
	path, err = Target(path)
	if err != nil {
		return false, err
	}
	file, made, err := open(disk, path)
	if err != nil || file == nil {
		return false, err
	}
	defer file.Close() // what was written is on the disk by then
	about, err := file.Stat()
	if err != nil {
		return false, err
	}
	held, err := hold(file)
	if err != nil {
		return false, fmt.Errorf("it cannot be locked against other writers: %w", err)
	}
	defer unlock(held)
	if now, err := os.Stat(path); err != nil || !os.SameFile(about, now) {
		return false, nil
	}
	return true, extend(disk, file, path, made, compose)
}

// withNumber is a file that the system knows by a number.
type withNumber interface{ Fd() uintptr }

// hold locks a file.
func hold(file afero.File) (withNumber, error) {
	held, ok := file.(withNumber)
	if !ok {
		return nil, errors.ErrUnsupported
	}
	return held, lock(held)
}

// open opens a file or makes it; no file and no error is a file that came or
// went meanwhile.
func open(disk afero.Fs, path string) (file afero.File, made bool, err error) {
	file, err = disk.OpenFile(path, os.O_RDWR, 0)
	if !errors.Is(err, fs.ErrNotExist) {
		return file, false, err
	}
	file, err = disk.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, readable)
	if errors.Is(err, fs.ErrExist) {
		return nil, false, nil
	}
	return file, true, err
}

// readable is the permission of a new file; the user's mask narrows it.
const readable = 0o644

// extend does the work under the lock.
func extend(disk afero.Fs, file afero.File, path string, made bool, compose func(Found) ([]byte, error)) error {
	about, err := file.Stat()
	if err != nil {
		return err
	}
	size := about.Size()
	found, err := ends(file, size)
	if err != nil {
		return err
	}
	lines, err := compose(found)
	written := err == nil && len(lines) > 0
	if written {
		if err = put(file, lines, size); err != nil {
			_ = file.Truncate(size) // the first error is the one to be told
		}
	}
	switch {
	case !made:
	case written && err == nil:
		syncFolder(disk, filepath.Dir(path))
	case found.New: // nobody else has written into it meanwhile
		_ = disk.Remove(path) // who waits for its lock sees that it has gone
	}
	return err
}

// put writes at the end and waits until it is on the disk.
func put(file afero.File, lines []byte, size int64) error {
	if _, err := file.WriteAt(lines, size); err != nil {
		return err
	}
	return file.Sync()
}

// ends reads the first line and what has no line break.
func ends(file afero.File, size int64) (Found, error) {
	if size == 0 {
		return Found{New: true}, nil
	}
	first := make([]byte, min(size, MostLine))
	last := make([]byte, len(first))
	if _, err := file.ReadAt(first, 0); err != nil && !errors.Is(err, io.EOF) {
		return Found{}, err
	}
	if _, err := file.ReadAt(last, size-int64(len(last))); err != nil && !errors.Is(err, io.EOF) {
		return Found{}, err
	}
	if at := bytes.IndexByte(first, '\n'); at >= 0 {
		first = first[:at+1]
	}
	return Found{First: first, Tail: last[bytes.LastIndexByte(last, '\n')+1:]}, nil
}
