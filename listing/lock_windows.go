package listing

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// errBusy means that another run holds the lock.
var errBusy = errors.New("another run is working on it; wait until it is done")

// tryLock takes a lock file; the system frees it when the program dies.
func tryLock(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	err = windows.LockFileEx(windows.Handle(f.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY, 0, 1, 0, new(windows.Overlapped))
	if err != nil {
		f.Close()
		return nil, errBusy
	}
	return f, nil
}

// releaseLock frees the lock file and removes it.
func releaseLock(f *os.File) {
	f.Close()
	os.Remove(f.Name())
}
