package stage

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// A SetAside is a file of the maker's that could not stay under its name.
type SetAside struct {
	Name    string // what a run wrote, or writes now, from the folder down
	Kept    string // where the maker's is
	Changed bool   // a run wrote it and the maker changed it; else it was in the way
}

// A carrier takes what is the maker's from an earlier output folder into the one
// that takes its place: strangers under their names, a file of ours that the maker
// changed beside the new one.
type carrier struct {
	from, to string
	written  written
	fresh    bool                   // to is being built; else it is in its place, and its folders stay as they are
	same     map[string]fs.FileInfo // of from, found to be as written; spares a second look
	aside    []SetAside
	modes    []folderMode // of the folders, set when all is in them
}

// A folderMode is who may do what with a folder of the new output.
type folderMode struct {
	path string
	mode fs.FileMode
}

// carry does the work of a carrier. A folder that is not there has nothing.
func carry(from, to string, fresh bool, same map[string]fs.FileInfo) ([]SetAside, error) {
	c := &carrier{from: from, to: to, fresh: fresh, same: same}
	c.written, _ = readWritten(from)
	if _, err := os.Lstat(from); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	err := c.folder("", "")
	return c.aside, errors.Join(err, c.setModes())
}

// setModes lets the folders be as private and as protected as they were, the
// innermost first.
func (c *carrier) setModes() error {
	for _, f := range slices.Backward(c.modes) {
		info, err := os.Lstat(f.path)
		if err != nil || info.Mode().Perm() == f.mode {
			continue // it held nothing but what is not made any more
		}
		if err := os.Chmod(f.path, f.mode); err != nil {
			return err
		}
	}
	return nil
}

// folder carries what is in one folder; dest is its name in the new one, which
// differs where something else has taken it.
func (c *carrier) folder(name, dest string) error {
	entries, err := os.ReadDir(filepath.Join(c.from, filepath.FromSlash(name)))
	if err != nil {
		return err
	}
	c.noteMode(name, dest)
	if len(entries) == 0 && name != "" {
		if err := os.MkdirAll(filepath.Join(c.to, filepath.FromSlash(dest)), 0o755); err != nil {
			return err
		}
	}
	for _, e := range entries {
		from, to := path.Join(name, e.Name()), path.Join(dest, e.Name())
		switch {
		case from == WrittenName:
		case e.IsDir():
			err = c.subfolder(from, to)
		case !c.unchanged(from):
			err = c.keep(from, to)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// noteMode remembers who may do what with a folder, where it goes on.
func (c *carrier) noteMode(name, dest string) {
	info, err := os.Lstat(filepath.Join(c.from, filepath.FromSlash(name)))
	to := filepath.Join(c.to, filepath.FromSlash(dest))
	if err == nil && (c.fresh || !exists(to)) {
		c.modes = append(c.modes, folderMode{to, info.Mode().Perm()})
	}
}

// subfolder carries a folder; where a file now has its name it goes aside whole.
func (c *carrier) subfolder(from, to string) error {
	info, err := os.Lstat(filepath.Join(c.to, filepath.FromSlash(to)))
	if err == nil && !info.IsDir() {
		kept := c.freeName(from, to, func(string) bool { return false })
		c.aside = append(c.aside, SetAside{Name: to, Kept: kept})
		to = kept
	}
	return c.folder(from, to)
}

// unchanged reports whether a file of the earlier folder is just what a run wrote.
func (c *carrier) unchanged(name string) bool {
	at := filepath.Join(c.from, filepath.FromSlash(name))
	info, err := os.Lstat(at)
	if err != nil || !info.Mode().IsRegular() {
		return false
	}
	if s, ok := c.same[name]; ok && os.SameFile(s, info) && s.Size() == info.Size() && s.ModTime().Equal(info.ModTime()) {
		return true
	}
	if !c.written.holds(name, at) {
		return false
	}
	c.same[name] = info
	return true
}

// keep carries a file of the maker's: under its name where that is free and a run
// did not write it, else aside. One that stands there already is not carried
// again.
func (c *carrier) keep(from, to string) error {
	source := filepath.Join(c.from, filepath.FromSlash(from))
	stands := func(name string) bool {
		return alike(source, filepath.Join(c.to, filepath.FromSlash(name))) || name != to && alike(source, filepath.Join(filepath.Dir(source), path.Base(name)))
	}
	changed := len(c.written[from]) > 0
	target := filepath.Join(c.to, filepath.FromSlash(to))
	_, err := os.Lstat(target)
	switch {
	case err == nil && stands(to):
		return nil
	case errors.Is(err, fs.ErrNotExist) && !changed:
	case err == nil || changed:
		kept := c.freeName(from, to, stands)
		target = filepath.Join(c.to, filepath.FromSlash(kept))
		if stands(kept) {
			return nil
		}
		c.aside = append(c.aside, SetAside{Name: to, Kept: kept, Changed: changed})
	default:
		return err
	}
	if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
		return err
	}
	return linkOrCopy(source, target)
}

// freeName finds a name beside one that is taken: listing.kept.txt for
// listing.txt, then listing.kept-2.txt; the first that nothing has in the new
// folder or had in the earlier one, or where the same stands already. What is kept
// from before keeps its name.
func (c *carrier) freeName(from, name string, stands func(string) bool) string {
	return freeName(name, func(kept string) bool {
		before := path.Join(path.Dir(from), path.Base(kept))
		taken := exists(filepath.Join(c.to, filepath.FromSlash(kept))) || exists(filepath.Join(c.from, filepath.FromSlash(before)))
		return !taken || stands(kept)
	})
}

func freeName(name string, free func(string) bool) string {
	dir, base := path.Split(name)
	ext := path.Ext(base)
	stem := strings.TrimSuffix(base, ext)
	if stem == "" { // .hidden
		stem, ext = base, ""
	}
	for i := 1; ; i++ {
		mark := ".kept"
		if i > 1 {
			mark = fmt.Sprintf(".kept-%d", i)
		}
		if kept := dir + stem + mark + ext; free(kept) {
			return kept
		}
	}
}

// alike reports whether two names stand for the same file, or for files of the
// same content.
func alike(a, b string) bool {
	infoA, err1 := os.Lstat(a)
	infoB, err2 := os.Lstat(b)
	if err1 != nil || err2 != nil {
		return false
	}
	if os.SameFile(infoA, infoB) {
		return true
	}
	if infoA.Mode()&fs.ModeSymlink != 0 && infoB.Mode()&fs.ModeSymlink != 0 {
		toA, err1 := os.Readlink(a)
		toB, err2 := os.Readlink(b)
		return err1 == nil && err2 == nil && toA == toB
	}
	if !infoA.Mode().IsRegular() || !infoB.Mode().IsRegular() || infoA.Size() != infoB.Size() {
		return false
	}
	sumA, err1 := sumFile(a)
	sumB, err2 := sumFile(b)
	return err1 == nil && err2 == nil && sumA == sumB
}
