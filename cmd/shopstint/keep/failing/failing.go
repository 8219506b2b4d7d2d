// Package failing is a disk that fails at a chosen step, or is full after a chosen
// byte, or stops the program there. It serves tests only.
package failing

import (
	"io/fs"
	"os"
	"syscall"

	"github.com/spf13/afero"
)

// Full is the error of a step that fails.
const Full = syscall.ENOSPC

// Disk is the real disk with a fault. Every change of the disk is a step, counted
// from 1: open, make, chmod, write, sync, close, rename, truncate and remove. A
// write that fails has written half; with Room it has written what there is room
// for. The zero Disk but for its Fs has no fault, and lists the steps.
type Disk struct {
	afero.Fs
	At    int    // the step that fails; 0 for none
	Stays bool   // all steps after it fail too
	Room  *int   // bytes that can still be written; nil for no bound
	Stop  func() // called in the place of the step, after half a write; nil to fail

	Steps []string // that were taken
}

// New is the real disk that fails at a step.
func New(at int) *Disk { return &Disk{Fs: afero.NewOsFs(), At: at} }

// Failed is whether the step that fails was reached.
func (d *Disk) Failed() bool { return d.At > 0 && len(d.Steps) >= d.At }

// fails is whether a step fails.
func (d *Disk) fails(step int) bool {
	return step == d.At || d.Stays && d.At > 0 && step > d.At
}

// step counts a step and returns its fault.
func (d *Disk) step(name, path string) error {
	d.Steps = append(d.Steps, name)
	if !d.fails(len(d.Steps)) {
		return nil
	}
	if d.Stop != nil {
		d.Stop()
	}
	return &fs.PathError{Op: name, Path: path, Err: Full}
}

// Open opens a folder, or a file for reading.
func (d *Disk) Open(path string) (afero.File, error) { return d.OpenFile(path, os.O_RDONLY, 0) }

// OpenFile opens a file, or makes it.
func (d *Disk) OpenFile(path string, flag int, permission fs.FileMode) (afero.File, error) {
	name := "open"
	if flag&os.O_CREATE != 0 {
		name = "make"
	}
	if err := d.step(name, path); err != nil {
		return nil, err
	}
	opened, err := os.OpenFile(path, flag, permission)
	if err != nil {
		return nil, err
	}
	return &file{opened, d}, nil
}

// Chmod changes the permission of a file.
func (d *Disk) Chmod(path string, permission fs.FileMode) error {
	if err := d.step("chmod", path); err != nil {
		return err
	}
	return d.Fs.Chmod(path, permission)
}

// Rename puts a file in the place of another.
func (d *Disk) Rename(from, to string) error {
	if err := d.step("rename", from); err != nil {
		return &os.LinkError{Op: "rename", Old: from, New: to, Err: Full}
	}
	return d.Fs.Rename(from, to)
}

// Remove takes a file away.
func (d *Disk) Remove(path string) error {
	if err := d.step("remove", path); err != nil {
		return err
	}
	return d.Fs.Remove(path)
}

// file is an open file of the disk.
type file struct {
	*os.File
	disk *Disk
}

// Write writes where the file stands.
func (f *file) Write(content []byte) (int, error) { return f.write(content, f.File.Write) }

// WriteAt writes at a place of the file.
func (f *file) WriteAt(content []byte, at int64) (int, error) {
	return f.write(content, func(part []byte) (int, error) { return f.File.WriteAt(part, at) })
}

func (f *file) write(content []byte, put func([]byte) (int, error)) (int, error) {
	fits := len(content)
	if f.disk.Room != nil {
		fits = min(fits, *f.disk.Room)
		*f.disk.Room -= fits
	}
	if f.disk.fails(len(f.disk.Steps) + 1) {
		fits = len(content) / 2
	}
	written, err := put(content[:fits])
	if err != nil {
		return written, err
	}
	if err := f.disk.step("write", f.Name()); err != nil {
		return written, err
	}
	if written < len(content) {
		return written, &fs.PathError{Op: "write", Path: f.Name(), Err: Full}
	}
	return written, nil
}

// Sync puts what was written on the disk.
func (f *file) Sync() error {
	if err := f.disk.step("sync", f.Name()); err != nil {
		return err
	}
	return f.File.Sync()
}

// Close closes the file, also where it says that it could not.
func (f *file) Close() error {
	fault := f.disk.step("close", f.Name())
	if err := f.File.Close(); fault == nil {
		return err
	}
	return fault
}

// Truncate cuts the file.
func (f *file) Truncate(size int64) error {
	if err := f.disk.step("truncate", f.Name()); err != nil {
		return err
	}
	return f.File.Truncate(size)
}

// Kill ends this program as the system does when it is told to, without a chance
// to tidy up. It does not return.
func Kill() {
	self, err := os.FindProcess(os.Getpid())
	if err == nil {
		_ = self.Kill()
	}
	select {}
}
