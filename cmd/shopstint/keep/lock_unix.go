//go:build !windows

package keep

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// lock waits until no other program holds the file. The system takes the lock
// away when the program ends, however it ends.
func lock(file *os.File) error {
	for {
		err := unix.Flock(int(file.Fd()), unix.LOCK_EX)
		if !errors.Is(err, unix.EINTR) {
			return err
		}
	}
}

func unlock(file *os.File) { _ = unix.Flock(int(file.Fd()), unix.LOCK_UN) }

// syncFolder puts the name of a new file on the disk, where the file system can:
// not all can, and the lines are there already, so that it is no failure.
func syncFolder(path string) {
	folder, err := os.Open(path)
	if err != nil {
		return
	}
	defer folder.Close()
	_ = folder.Sync()
}
