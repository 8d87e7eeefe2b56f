package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// This file holds what commands do with single files: those that the command line
// names, and new ones.

// givenPhoto is the file of a photo that the command line names as what. A link is
// followed: whoever writes its name means what it leads to.
func givenPhoto(what, name string) (string, error) {
	info, err := os.Stat(name)
	switch {
	case err == nil && info.IsDir():
		return "", usagef("name its photos one by one, such as "+filepath.ToSlash(filepath.Join(name, "*.jpg")), "%q is a folder", name)
	case err == nil:
		return filepath.EvalSymlinks(name)
	}
	if _, err := os.Lstat(name); err == nil {
		return "", usagef("name the photo itself", "%q is a link that leads nowhere", name)
	}
	return "", usagef("check the spelling, or look with ls or dir", "no %s %q", what, name)
}

// sameFile reports whether two paths lead to one file.
func sameFile(a, b string) bool {
	p, err1 := os.Stat(a)
	q, err2 := os.Stat(b)
	return err1 == nil && err2 == nil && os.SameFile(p, q)
}

// writeNew writes a file that must not exist yet: whole, or not at all.
func writeNew(path string, data []byte) error {
	if _, err := os.Lstat(path); err == nil {
		return usagef("", "%s is already there; new never overwrites anything", filepath.ToSlash(path))
	}
	being := filepath.Join(filepath.Dir(path), fmt.Sprintf(".%s.%d.being-written", filepath.Base(path), os.Getpid()))
	f, err := os.OpenFile(being, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if errors.Is(err, fs.ErrNotExist) {
		return usagef("make it first, or name another", "there is no folder %s", filepath.ToSlash(filepath.Dir(path)))
	}
	if err != nil {
		return err
	}
	defer os.Remove(being) // gone already when all went well
	_, err = f.Write(data)
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return fmt.Errorf("write %s: %w", filepath.ToSlash(path), err)
	}
	return placeOne(being, path)
}

// placeOne moves a file to a name that nobody has. Where the file system knows no
// second name for a file, the look before the move has to do.
func placeOne(from, to string) error {
	err := os.Link(from, to)
	if err == nil {
		return os.Remove(from)
	}
	if _, there := os.Lstat(to); !errors.Is(there, fs.ErrNotExist) {
		return usagef("", "%s is already there; new never overwrites anything", filepath.ToSlash(to))
	}
	return os.Rename(from, to)
}
