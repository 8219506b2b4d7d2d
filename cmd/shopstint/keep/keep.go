// Package keep adds lines to the end of a file so that none is lost: one writer
// at a time, all lines in one write, on the disk before it says so. What stops
// half way leaves what was there, and at most one line without an end, which
// the next writer is shown. It knows no word of the trade.
package keep

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// MostLine bounds how much of the first and of the last line is looked at.
const MostLine = 64 << 10

// ErrNoFile is behind the error for what is no plain file, such as a folder or
// a device.
var ErrNoFile = errors.New("this is no plain file")

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
func Append(path string, compose func(Found) ([]byte, error)) error {
	for range mostTries {
		done, err := try(path, compose)
		if done || err != nil {
			return err
		}
	}
	return fmt.Errorf("another program puts new files in the place of %s", path)
}

// try is one attempt; done is false when the file that was opened is no longer
// the one at the path.
func try(path string, compose func(Found) ([]byte, error)) (done bool, err error) {
	file, made, err := open(path)
	if err != nil || file == nil {
		return false, err
	}
	defer func() {
		if closing := file.Close(); err == nil {
			err = closing
		}
	}()
	about, err := file.Stat()
	if err != nil {
		return false, err
	}
	if !about.Mode().IsRegular() {
		return false, ErrNoFile
	}
	if err := lock(file); err != nil {
		return false, fmt.Errorf("it cannot be locked against other writers: %w", err)
	}
	defer unlock(file)
	if now, err := os.Stat(path); err != nil || !os.SameFile(about, now) {
		return false, nil
	}
	return true, extend(file, path, made, compose)
}

// open opens a file or makes it; no file and no error is a file that came or
// went meanwhile.
func open(path string) (file *os.File, made bool, err error) {
	file, err = os.OpenFile(path, os.O_RDWR, 0)
	if !errors.Is(err, fs.ErrNotExist) {
		return file, false, err
	}
	file, err = os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, readable)
	if errors.Is(err, fs.ErrExist) {
		return nil, false, nil
	}
	return file, true, err
}

// readable is the permission of a new file; the user's mask narrows it.
const readable = 0o644

// extend does the work under the lock.
func extend(file *os.File, path string, made bool, compose func(Found) ([]byte, error)) error {
	about, err := file.Stat()
	if err != nil {
		return err
	}
	size := about.Size()
	found, err := look(file, size)
	if err != nil {
		return err
	}
	lines, err := compose(found)
	if err != nil || len(lines) == 0 {
		if made {
			_ = os.Remove(path) // who waits for its lock sees that it has gone
		}
		return err
	}
	if err := put(file, lines, size); err != nil {
		_ = file.Truncate(size) // the first error is the one to be told
		return err
	}
	if made {
		syncFolder(filepath.Dir(path))
	}
	return nil
}

// put writes at the end and waits until it is on the disk.
func put(file *os.File, lines []byte, size int64) error {
	if _, err := file.WriteAt(lines, size); err != nil {
		return err
	}
	return file.Sync()
}

// look reads the first line and what has no line break.
func look(file *os.File, size int64) (Found, error) {
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
