// Package stage builds a folder beside its place and puts it there whole: a
// reader sees the earlier folder or the new one, never half of either. It knows
// nothing of pieces or photos.
package stage

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"golang.org/x/sync/errgroup"
)

// Output folders are built beside their place and put there whole. The names of
// what is being built start with a dot and end so that a later run knows what a
// killed one left behind and takes no stranger's file for it.
const (
	stageSuffix = ".slabfolio-being-made"
	oldSuffix   = ".slabfolio-replaced"
	tempSuffix  = ".slabfolio-part"
)

// A Folder is an output folder that is being built.
type Folder struct {
	Dir  string // where it is being built
	out  string // OUT
	name string // the folder's final name
	lock *Lock

	syncs errgroup.Group // puts written files onto the disk while others are made
}

// syncsAtOnce files are on their way to the disk together: it takes many at a
// time better than one after the other.
const syncsAtOnce = 8

// New starts to build OUT/name. It returns ErrBusy when another run is building
// it.
func New(out, name string) (*Folder, error) {
	lock, err := TryLock(filepath.Join(out, "."+name+LockSuffix))
	if err != nil {
		return nil, fmt.Errorf("lock %s: %w", name, err)
	}
	s := &Folder{out: out, name: name, Dir: filepath.Join(out, "."+name+stageSuffix), lock: lock}
	s.syncs.SetLimit(syncsAtOnce)
	if err := recoverPlace(out, name); err != nil {
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
func recoverPlace(out, name string) error {
	final, old := filepath.Join(out, name), filepath.Join(out, "."+name+oldSuffix)
	if _, err := os.Stat(old); err == nil {
		if _, err := os.Stat(final); errors.Is(err, fs.ErrNotExist) {
			if err := os.Rename(old, final); err != nil {
				return fmt.Errorf("put back %s: %w", name, err)
			}
		}
	}
	return errors.Join(os.RemoveAll(old), os.RemoveAll(filepath.Join(out, "."+name+stageSuffix)))
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
	s.syncs.Go(func() error { return errors.Join(f.Sync(), f.Close()) })
	return nil
}

// Keep takes files of the earlier output into the new one: those for which
// wanted says so and that the new one does not have.
func (s *Folder) Keep(wanted func(rel string) bool) error {
	final := filepath.Join(s.out, s.name)
	err := filepath.WalkDir(final, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() {
			return err
		}
		rel := slash(final, path)
		to := filepath.Join(s.Dir, filepath.FromSlash(rel))
		if _, err := os.Lstat(to); err == nil || !wanted(rel) {
			return nil
		}
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			return err
		}
		return linkOrCopy(path, to)
	})
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// Commit puts the folder in its place: readers see the earlier one or the new
// one. Files of the earlier folder that are not ours go with it.
func (s *Folder) Commit(ours func(rel string) bool) error {
	if err := s.Keep(func(rel string) bool { return !ours(rel) }); err != nil {
		return err
	}
	if err := s.place(); err != nil {
		return err // Abandon clears what was built
	}
	s.unlock()
	return nil
}

func (s *Folder) place() error {
	if err := s.syncs.Wait(); err != nil {
		return err
	}
	final, old := filepath.Join(s.out, s.name), filepath.Join(s.out, "."+s.name+oldSuffix)
	if _, err := os.Lstat(final); errors.Is(err, fs.ErrNotExist) {
		return os.Rename(s.Dir, final)
	}
	if err := exchange(s.Dir, final); err == nil {
		return os.RemoveAll(s.Dir) // now the old one
	}
	if err := os.Rename(final, old); err != nil {
		return fmt.Errorf("set the earlier %s aside: %w", s.name, err)
	}
	if err := os.Rename(s.Dir, final); err != nil {
		return errors.Join(err, os.Rename(old, final))
	}
	return os.RemoveAll(old)
}

// Abandon removes what was built; the earlier output stays. After Commit it does
// nothing.
func (s *Folder) Abandon() {
	if s.lock == nil {
		return
	}
	_ = s.syncs.Wait() // what is thrown away need not be on the disk
	os.RemoveAll(s.Dir)
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
		for _, suffix := range []string{stageSuffix, oldSuffix, LockSuffix} {
			if piece, ok := strings.CutSuffix(name, suffix); ok {
				if lock, err := TryLock(filepath.Join(out, "."+piece+LockSuffix)); err == nil {
					_ = recoverPlace(out, piece) // whoever builds it next tries again, and tells
					_ = lock.Release()
				}
			}
		}
		if strings.HasSuffix(name, tempSuffix) {
			os.Remove(filepath.Join(out, e.Name()))
		}
	}
}

// WriteFile writes a new file; close errors count.
func WriteFile(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}

// ReplaceFile writes a file beside its place and renames it there.
func ReplaceFile(path string, data []byte) error {
	if old, err := os.ReadFile(path); err == nil && string(old) == string(data) {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	f, err := createTemp(path)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		os.Remove(f.Name())
		return fmt.Errorf("write %s: %w", filepath.Base(path), err)
	}
	return os.Rename(f.Name(), path)
}

// createTemp opens a new file beside path. Unlike the library's, it may be read
// by whom the person's umask allows.
func createTemp(path string) (*os.File, error) {
	for i := 0; ; i++ {
		name := filepath.Join(filepath.Dir(path), fmt.Sprintf(".%s-%d%s", filepath.Base(path), i, tempSuffix))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if !errors.Is(err, fs.ErrExist) || i == 1000 {
			return f, err
		}
	}
}

// linkOrCopy gives a file a second name, or copies it where that is not
// possible. Outputs are replaced, never written to, so sharing is safe.
func linkOrCopy(from, to string) error {
	if os.Link(from, to) == nil {
		return nil
	}
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	f, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = io.Copy(f, in)
	return errors.Join(err, f.Sync(), f.Close())
}

// slash returns a path below dir with forward slashes.
func slash(dir, path string) string {
	rel, err := filepath.Rel(dir, path)
	if err != nil {
		return filepath.ToSlash(filepath.Base(path))
	}
	return filepath.ToSlash(rel)
}
