// Package ordinary opens ordinary files and nothing else: what stands where a file
// is looked for may be a pipe that nobody writes into, a device without an end, or
// a link to either, and may have taken the file's place a moment ago.
package ordinary

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"os"
	"syscall"
)

// Err means that a link, a pipe, a folder or a device stands where a file was.
var Err = errors.New("it is no ordinary file")

// Open opens a file for reading. It follows no link, and never waits for
// whoever may write to a pipe, even when one takes the file's place just now.
// What is there and is no file is an error that matches Err.
func Open(path string) (*os.File, os.FileInfo, error) {
	before, err := os.Lstat(path)
	if err != nil {
		return nil, nil, err
	}
	if !before.Mode().IsRegular() {
		return nil, nil, Err
	}
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, nil, err
	}
	after, err := f.Stat()
	if err == nil && (!after.Mode().IsRegular() || !os.SameFile(before, after)) {
		err = Err
	}
	if err != nil {
		f.Close()
		return nil, nil, err
	}
	return f, after, nil
}

// Read reads a file, and no more of it than most bytes.
func Read(path string, most int64) ([]byte, error) {
	f, _, err := Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close() // read only
	return io.ReadAll(io.LimitReader(f, most))
}

// Hash returns the SHA-256 of a file, in hexadecimal.
func Hash(path string) (string, error) {
	f, _, err := Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close() // read only
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// OpenIn opens a file of a file system, such as a sealed bag, that others have
// filled. It follows no link where the file system can tell one, and what is no
// file is an error that matches Err.
func OpenIn(fsys fs.FS, name string) (fs.File, error) {
	info, err := fs.Lstat(fsys, name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, &fs.PathError{Op: "open", Path: name, Err: Err}
	}
	return fsys.Open(name)
}
