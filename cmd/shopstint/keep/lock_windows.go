package keep

import "golang.org/x/sys/windows"

// far is a byte behind any file: who only reads is not kept waiting, as a lock
// of bytes that are there would.
var far = windows.Overlapped{OffsetHigh: 1 << 30}

// lock waits until no other program holds the file. The system takes the lock
// away when the program ends, however it ends.
func lock(file withNumber) error {
	at := far
	return windows.LockFileEx(windows.Handle(file.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK, 0, 1, 0, &at)
}

func unlock(file withNumber) {
	at := far
	_ = windows.UnlockFileEx(windows.Handle(file.Fd()), 0, 1, 0, &at)
}
