// Package stage builds a folder beside its place and puts it there whole: a
// reader sees the earlier folder or the new one, never half of either. It knows
// nothing of pieces or photos.
package stage

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"golang.org/x/sync/errgroup"
)

// Output folders are built beside their place and put there whole. The names of
// what is being built start with a dot and end so that a later run knows what a
// killed one left behind and takes no stranger's file for it.
const (
	BuildingSuffix = ".slabfolio-being-made" // behind the name of the folder, and a dot before it
	oldSuffix      = ".slabfolio-replaced"
	tempSuffix     = ".slabfolio-part"
)

// A Folder is an output folder that is being built.
type Folder struct {
	Dir  string // where it is being built
	out  string // OUT
	name string // the folder's final name
	lock *Lock

	syncs   errgroup.Group // puts written files onto the disk while others are made
	placed  bool           // what stands in Dir now is the earlier folder
	aside   []SetAside     // what stood where this is built and was nobody's run's
	mu      sync.Mutex
	written written
}

// syncsAtOnce files are on their way to the disk together: it takes many at a
// time better than one after the other.
const syncsAtOnce = 8

// New starts to build OUT/name. It returns ErrBusy when another run is building
// it.
func New(out, name string) (*Folder, error) {
	killed := exists(filepath.Join(out, "."+name+LockSuffix))
	lock, err := tryLockAgain(filepath.Join(out, "."+name+LockSuffix), aMoment)
	if err != nil {
		return nil, fmt.Errorf("lock %s: %w", name, err)
	}
	s := &Folder{out: out, name: name, Dir: filepath.Join(out, "."+name+BuildingSuffix), lock: lock, written: written{}}
	s.syncs.SetLimit(syncsAtOnce)
	if err := errors.Join(recoverPlace(out, name, killed), s.clearPlace()); err != nil {
		s.unlock()
		return nil, err
	}
	if err := os.MkdirAll(s.Dir, 0o755); err != nil {
		s.unlock()
		return nil, err
	}
	return s, nil
}

// recoverPlace undoes what a killed run left of OUT/name; the lock must be held.
// What is the maker's in a folder that was being replaced is carried over first.
// killed says that the lock's file was there before, as a killed run leaves it: without
// it, and without the list of what was written, a folder of such a name is somebody's.
func recoverPlace(out, name string, killed bool) error {
	final, old, made := filepath.Join(out, name), filepath.Join(out, "."+name+oldSuffix), filepath.Join(out, "."+name+BuildingSuffix)
	if _, finished := readWritten(old); (finished || killed) && exists(old) && !exists(final) {
		if err := os.Rename(old, final); err != nil {
			return fmt.Errorf("put back %s: %w", name, err)
		}
	}
	for _, left := range []string{old, made} {
		// A folder without the list of what was written is one that was not finished:
		// what it holds of the maker's stands in the final folder too.
		_, finished := readWritten(left)
		if !finished && !killed {
			continue
		}
		if finished && exists(final) {
			if _, err := carry(left, final, false, map[string]fs.FileInfo{}); err != nil {
				return fmt.Errorf("carry over what an interrupted run left of %s: %w", name, err)
			}
		}
		if err := removeAll(left); err != nil {
			return err
		}
	}
	return nil
}

// clearPlace sets aside what stands where the folder is built, or where the earlier one
// waits, and was left there by no run.
func (s *Folder) clearPlace() error {
	for _, suffix := range []string{BuildingSuffix, oldSuffix} {
		name := "." + s.name + suffix
		info, err := os.Lstat(filepath.Join(s.out, name))
		if err != nil || info.IsDir() && os.Remove(filepath.Join(s.out, name)) == nil { // an empty folder is nobody's loss
			continue
		}
		kept := freeName(name, func(kept string) bool { return !exists(filepath.Join(s.out, kept)) })
		if err := os.Rename(filepath.Join(s.out, name), filepath.Join(s.out, kept)); err != nil {
			return err
		}
		s.aside = append(s.aside, SetAside{Name: name, Kept: kept})
	}
	return nil
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// Write writes a file of the folder; rel has forward slashes. It can be read at
// once; it is on the disk when Commit has returned.
func (s *Folder) Write(rel string, data []byte) error {
	path := filepath.Join(s.Dir, filepath.FromSlash(rel))
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if _, err := f.Write(data); err != nil {
		return errors.Join(err, f.Close())
	}
	s.note(rel, sumOf(data))
	s.syncs.Go(func() error { return errors.Join(f.Sync(), f.Close()) })
	return nil
}

func (s *Folder) note(rel string, sums ...string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.written[rel] = sums
}

// Keep takes files that an earlier run wrote into the new folder: those for which
// wanted says so and that the new one does not have. One that the maker changed
// stays as it is.
func (s *Folder) Keep(wanted func(rel string) bool) error {
	final := filepath.Join(s.out, s.name)
	earlier, _ := readWritten(final)
	for _, rel := range slices.Sorted(maps.Keys(earlier)) {
		from, to := filepath.Join(final, filepath.FromSlash(rel)), filepath.Join(s.Dir, filepath.FromSlash(rel))
		info, err := os.Lstat(from)
		if err != nil || !info.Mode().IsRegular() || exists(to) || !wanted(rel) {
			continue
		}
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			return err
		}
		if err := linkOrCopy(from, to); err != nil {
			return err
		}
		s.note(rel, earlier[rel]...)
	}
	return nil
}

// Commit puts the folder in its place: readers see the earlier one or the new
// one. What is the maker's in the earlier one goes with it; what could not stay
// under its name is told.
func (s *Folder) Commit() ([]SetAside, error) {
	aside, err := s.place()
	if err != nil {
		return nil, err // Abandon clears what was built
	}
	s.unlock()
	return aside, nil
}

func (s *Folder) place() ([]SetAside, error) {
	final, old := filepath.Join(s.out, s.name), filepath.Join(s.out, "."+s.name+oldSuffix)
	aside, err := clearList(final)
	if err != nil {
		return nil, err
	}
	same := map[string]fs.FileInfo{}
	carried, err := carry(final, s.Dir, true, same)
	if err != nil {
		return nil, err
	}
	aside = append(append(s.aside, aside...), carried...)
	if err := errors.Join(s.syncs.Wait(), WriteFile(filepath.Join(s.Dir, WrittenName), s.written.bytes())); err != nil {
		return nil, err
	}
	if !exists(final) {
		return aside, os.Rename(s.Dir, final)
	}
	if err := listNothing(final); err != nil {
		return nil, err
	}
	if err := s.replace(final, old); err != nil {
		return nil, fmt.Errorf("put the new %s in its place: %w", s.name, err)
	}
	late, err := carry(old, final, false, same) // what came into it meanwhile
	if err != nil {
		return nil, err
	}
	return append(aside, late...), removeAll(old)
}

// listNothing gives a folder without a list of what was written an empty one, so
// that whoever finds it set aside takes all in it for the maker's.
func listNothing(dir string) error {
	if _, ok := readWritten(dir); ok {
		return nil
	}
	return WriteFile(filepath.Join(dir, WrittenName), nil)
}

// replace puts the new folder in the place of final, which becomes old: in one
// step where the system can, else in two that recoverPlace can undo.
func (s *Folder) replace(final, old string) error {
	if err := exchange(s.Dir, final); err == nil {
		s.placed = true
		return os.Rename(s.Dir, old)
	}
	if err := os.Rename(final, old); err != nil {
		return err
	}
	if err := os.Rename(s.Dir, final); err != nil {
		return errors.Join(err, os.Rename(old, final))
	}
	return nil
}

// Abandon removes what was built; the earlier output stays. After Commit it does
// nothing.
func (s *Folder) Abandon() {
	if s.lock == nil {
		return
	}
	_ = s.syncs.Wait() // what is thrown away need not be on the disk
	if !s.placed {     // else the next run carries over what is in it
		if removeAll(s.Dir) != nil { // the next run sweeps it, and knows it by the lock file
			s.lock.leave()
			s.lock = nil
		}
	}
	s.unlock()
}

func (s *Folder) unlock() {
	if s.lock != nil {
		_ = s.lock.Release() // a lock file that stays is swept by the next run
		s.lock = nil
	}
}

// Sweep removes what killed runs left behind in OUT for pieces that this run
// does not touch.
func Sweep(out string) {
	entries, _ := os.ReadDir(out)
	for _, e := range entries {
		name, ok := strings.CutPrefix(e.Name(), ".")
		if !ok {
			continue
		}
		for _, suffix := range []string{BuildingSuffix, oldSuffix, LockSuffix} {
			if piece, ok := strings.CutSuffix(name, suffix); ok {
				killed := exists(filepath.Join(out, "."+piece+LockSuffix))
				if lock, err := TryLock(filepath.Join(out, "."+piece+LockSuffix)); err == nil {
					_ = recoverPlace(out, piece, killed) // whoever builds it next tries again, and tells
					_ = lock.Release()
				}
			}
		}
	}
}
