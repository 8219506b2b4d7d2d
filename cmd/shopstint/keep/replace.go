package keep

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"github.com/spf13/afero"
)

// What a path may be that no file can be written to.
var (
	ErrNoFile    = errors.New("this is no plain file") // a folder, a device, a pipe
	ErrLostLink  = errors.New("this is a link that leads nowhere")
	ErrProtected = errors.New("this file is protected against writing")
)

// Target is the plain file that a write to a path goes to: the path itself, or
// where it leads as a link, so that the link stays. Nothing need be there. Beside
// the errors above it returns those of the file system.
func Target(path string) (string, error) {
	target, _, err := look(path)
	return target, err
}

// look is Target, with what is there; nil for nothing.
func look(path string) (target string, there fs.FileInfo, err error) {
	there, err = os.Stat(path)
	itself, missing := os.Lstat(path)
	isLink := missing == nil && itself.Mode()&fs.ModeSymlink != 0
	switch {
	case isLink && (errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ELOOP)):
		return "", nil, ErrLostLink
	case errors.Is(err, fs.ErrNotExist):
		return path, nil, nil
	case err != nil:
		return "", nil, err
	case !there.Mode().IsRegular():
		return "", nil, ErrNoFile
	case there.Mode()&anyone == 0:
		return "", nil, ErrProtected
	case isLink:
		path, err = filepath.EvalSymlinks(path)
	}
	return path, there, err
}

// anyone is the permission of anyone to write. It is asked of the system's
// administrator too, who could write over what somebody has protected.
const anyone = 0o222

// Replace puts content in the place of a file, or where none is yet: whole and on
// the disk under another name beside it, and then renamed. A link stays, and what
// it leads to is replaced; permissions stay too. With an error all is as it was,
// as far as the file system lets what was begun be taken away. A program that is
// killed leaves the old file or the new one, and at most the one beside it that it
// had begun, which hinders nobody.
func Replace(disk afero.Fs, path string, content []byte) error {
	target, there, err := look(path)
	if err != nil {
		return err
	}
	permission := fs.FileMode(readable)
	if there != nil {
		permission = there.Mode().Perm()
	}
	file, err := beside(disk, target, permission)
	if err != nil {
		return err
	}
	if there != nil {
		_ = disk.Chmod(file.Name(), permission) // the user's mask had made it narrower at worst
	}
	if err := fill(file, content); err != nil {
		_ = disk.Remove(file.Name()) // the first error is the one to be told
		return err
	}
	if err := disk.Rename(file.Name(), target); err != nil {
		_ = disk.Remove(file.Name())
		return err
	}
	syncFolder(disk, filepath.Dir(target))
	return nil
}

// mostBeside is how many names are tried for a file beside another: each may be
// taken by a program at work, or left by one that was killed.
const mostBeside = 1000

// longestBeside is how much of a file's name the name beside it has, in bytes, so
// that it is not longer than a file system takes.
const longestBeside = 200

// beside makes an empty file in the folder of another one.
func beside(disk afero.Fs, path string, permission fs.FileMode) (afero.File, error) {
	folder, name := filepath.Split(path)
	name = strings.ToValidUTF8(name[:min(len(name), longestBeside)], "")
	for n := 1; n <= mostBeside; n++ {
		file, err := disk.OpenFile(fmt.Sprintf("%s.%s.new-%d", folder, name, n), os.O_WRONLY|os.O_CREATE|os.O_EXCL, permission)
		if !errors.Is(err, fs.ErrExist) {
			return file, err
		}
	}
	return nil, fmt.Errorf("there are %d hidden files .%s.new-… beside it; take them away", mostBeside, name)
}

// fill writes a file, waits until it is on the disk, and closes it.
func fill(file afero.File, content []byte) error {
	_, err := file.Write(content)
	if err == nil {
		err = file.Sync()
	}
	if closing := file.Close(); err == nil {
		err = closing
	}
	return err
}

// syncFolder puts the name of a new file on the disk, where the file system can:
// not all can, and what is in the file is there already, so that it is no failure.
func syncFolder(disk afero.Fs, path string) {
	folder, err := disk.Open(path)
	if err != nil {
		return
	}
	_ = folder.Sync()
	_ = folder.Close()
}
