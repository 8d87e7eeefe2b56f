package stage

import (
	"context"
	"errors"
	"fmt"
	"os"
	"time"

	"github.com/gofrs/flock"
)

// ErrBusy means that another run holds the lock.
var ErrBusy = errors.New("another run is working on it; wait until it is done")

// LockSuffix ends the names of lock files; they begin with a dot.
const LockSuffix = ".slabfolio-lock"

// A Lock is a lock file that is held. The system frees it when the program dies.
type Lock struct{ file *flock.Flock }

// TryLock takes the lock file at path, or returns ErrBusy at once.
func TryLock(path string) (*Lock, error) {
	l := &Lock{flock.New(path, flock.SetPermissions(0o644))}
	taken, err := l.file.TryLock()
	if err != nil {
		return nil, errors.Join(err, l.file.Close())
	}
	if !taken || !l.stands() {
		return nil, errors.Join(ErrBusy, l.file.Close())
	}
	return l, nil
}

// stands reports whether the file that is locked is still the one at the path:
// whoever held it before may have removed it between our opening and locking it.
func (l *Lock) stands() bool {
	ours, err := l.file.Stat()
	if err != nil {
		return true // not every system tells; there the file cannot be removed while open
	}
	now, err := os.Stat(l.file.Path())
	return err == nil && os.SameFile(ours, now)
}

// lockTries is how often a lock is tried again that somebody may hold for a moment
// only.
const lockTries = 5

// aMoment is what passes between two tries.
func aMoment() { time.Sleep(20 * time.Millisecond) }

// tryLockAgain takes a lock that somebody may hold for a moment only: a run that
// sweeps up after a killed one does. It pauses before each further try.
func tryLockAgain(path string, pause func()) (*Lock, error) {
	lock, err := TryLock(path)
	for i := 0; i < lockTries && errors.Is(err, ErrBusy); i++ {
		pause()
		lock, err = TryLock(path)
	}
	return lock, err
}

// WaitLock takes the lock file at path, waiting up to a minute for whoever has it.
func WaitLock(ctx context.Context, path string) (*Lock, error) {
	const moment = 50 * time.Millisecond
	for wait := time.Duration(0); ; wait += moment {
		lock, err := TryLock(path)
		if !errors.Is(err, ErrBusy) || wait > time.Minute {
			return lock, err
		}
		select {
		case <-ctx.Done():
			return nil, ctx.Err()
		case <-time.After(moment):
		}
	}
}

// leave frees the lock and lets its file stand, as a run that was killed does.
func (l *Lock) leave() { _ = l.file.Close() }

// Release frees the lock and removes its file, which is empty unless it is somebody's.
func (l *Lock) Release() error {
	if info, err := l.file.Stat(); err == nil && info.Size() > 0 {
		return l.file.Close()
	}
	removed := os.Remove(l.file.Path()) // while it is held, so that nobody else's is removed
	if err := l.file.Close(); err != nil {
		return fmt.Errorf("release %s: %w", l.file.Path(), err)
	}
	if removed != nil { // a system where a file in use cannot be removed
		removed = os.Remove(l.file.Path())
	}
	if errors.Is(removed, os.ErrNotExist) {
		return nil
	}
	return removed
}
