//go:build unix

package listing

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// errBusy means that another run holds the lock.
var errBusy = errors.New("another run is working on it; wait until it is done")

// tryLock takes a lock file; the system frees it when the program dies.
func tryLock(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	if err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB); err != nil {
		f.Close()
		if errors.Is(err, unix.EWOULDBLOCK) {
			return nil, errBusy
		}
		return nil, err
	}
	// The file may have been removed between opening and locking it.
	if a, err := f.Stat(); err == nil {
		if b, err := os.Stat(path); err != nil || !os.SameFile(a, b) {
			f.Close()
			return nil, errBusy
		}
	}
	return f, nil
}

// releaseLock removes the lock file and frees it.
func releaseLock(f *os.File) {
	os.Remove(f.Name())
	f.Close()
}
