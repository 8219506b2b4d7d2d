//go:build !windows

package keep

import (
	"errors"

	"golang.org/x/sys/unix"
)

// lock waits until no other program holds the file. The system takes the lock
// away when the program ends, however it ends.
func lock(file withNumber) error {
	for {
		err := unix.Flock(int(file.Fd()), unix.LOCK_EX)
		if !errors.Is(err, unix.EINTR) {
			return err
		}
	}
}

func unlock(file withNumber) { _ = unix.Flock(int(file.Fd()), unix.LOCK_UN) }
