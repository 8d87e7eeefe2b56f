package archive

import (
	"archive/zip"
	"errors"
	"io"
	"os"
	"path"
	"path/filepath"
	"syscall"
	"time"
)

// A sink takes the files of a bag one after the other.
type sink interface {
	create(name string) (io.WriteCloser, error)
	close() error
}

// A folderSink writes a bag as a folder; every file is on the disk when it is
// closed.
type folderSink struct {
	dir   string
	inner map[string]bool
}

func newFolderSink(dir string) (*folderSink, error) {
	return &folderSink{dir: dir, inner: map[string]bool{}}, os.Mkdir(dir, 0o755)
}

type syncedFile struct{ *os.File }

func (f syncedFile) Close() error { return errors.Join(f.Sync(), f.File.Close()) }

func (s *folderSink) create(name string) (io.WriteCloser, error) {
	path := filepath.Join(s.dir, filepath.FromSlash(name))
	if dir := filepath.Dir(path); !s.inner[dir] {
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return nil, err
		}
		for ; dir != s.dir && !s.inner[dir]; dir = filepath.Dir(dir) {
			s.inner[dir] = true // those between have new names in them too
		}
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return nil, err
	}
	return syncedFile{f}, nil
}

func (s *folderSink) close() error {
	var errs []error
	for dir := range s.inner {
		errs = append(errs, syncFolder(dir))
	}
	return errors.Join(append(errs, syncFolder(s.dir))...)
}

// A zipSink writes a bag as one zip whose root is the bag's folder. No clock
// goes into it, so the same bag is the same bytes.
type zipSink struct {
	f    *os.File
	z    *zip.Writer
	root string
}

func newZipSink(path, root string) (*zipSink, error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return nil, err
	}
	return &zipSink{f, zip.NewWriter(f), root}, nil
}

type noClose struct{ io.Writer }

func (noClose) Close() error { return nil }

func (s *zipSink) create(name string) (io.WriteCloser, error) {
	h := &zip.FileHeader{Name: path.Join(s.root, name), Method: zip.Store, Modified: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)}
	h.SetMode(0o644)
	w, err := s.z.CreateHeader(h)
	return noClose{w}, err
}

func (s *zipSink) close() error { return errors.Join(s.z.Close(), s.f.Sync(), s.f.Close()) }

// syncFolder puts a folder's names onto the disk, where the system can.
func syncFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	return lessCannot(f.Sync())
}

// lessCannot drops an error that says no more than that the system does not put
// folders onto the disk; a disk that is full or broken stays an error.
func lessCannot(err error) error {
	for _, cannot := range []error{errors.ErrUnsupported, os.ErrPermission, syscall.EINVAL} {
		if errors.Is(err, cannot) {
			return nil
		}
	}
	return err
}
