package stage

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slabfolio/listing/ordinary"
)

// WriteFile writes a new file; close errors count.
func WriteFile(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}

// longestOrdinary is more bytes than any file has that ReadOrdinary is asked for: a
// list of a million files, the report of a piece with as many photos.
const longestOrdinary = 256 << 20

// ReadOrdinary reads a file. What is none, such as a pipe that nobody may ever
// write to, is an error, and so is one that is too long to be ours.
func ReadOrdinary(path string) ([]byte, error) {
	info, err := os.Lstat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s: no ordinary file", filepath.Base(path))
	}
	if info.Size() > longestOrdinary {
		return nil, fmt.Errorf("%s: a file of %d bytes is none of slabfolio's", filepath.Base(path), info.Size())
	}
	return ordinary.Read(path, longestOrdinary)
}

// ReplaceFile writes a file beside its place and renames it there.
func ReplaceFile(path string, data []byte) error {
	if old, err := ReadOrdinary(path); err == nil && string(old) == string(data) {
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
	info, err := os.Lstat(from)
	if err != nil {
		return err
	}
	if info.Mode()&fs.ModeSymlink != 0 {
		target, err := os.Readlink(from)
		if err != nil {
			return err
		}
		return os.Symlink(target, to)
	}
	in, _, err := ordinary.Open(from)
	if err != nil {
		return err
	}
	defer in.Close() // read only
	f, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, info.Mode().Perm())
	if err != nil {
		return err
	}
	_, err = io.Copy(f, in)
	return errors.Join(err, f.Sync(), f.Close(), os.Chtimes(to, info.ModTime(), info.ModTime()))
}

// removeAll removes a folder with all in it, folders that may not be written into
// included.
func removeAll(dir string) error {
	err := os.RemoveAll(dir)
	if !errors.Is(err, fs.ErrPermission) {
		return err
	}
	// What cannot be opened up cannot be removed either, and that is told below.
	_ = filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if d != nil && d.IsDir() && err == nil {
			_ = os.Chmod(path, 0o700)
		}
		return nil
	})
	return os.RemoveAll(dir)
}
