package archive

import (
	"archive/zip"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// ErrNoBag means that a file or folder is no bag and holds none.
var ErrNoBag = errors.New("no bag: no bagit.txt, no manifest, no data folder")

// IsBag reports whether the folder looks like a bag: it has a bagit.txt, a
// manifest, or a data folder.
func IsBag(fsys fs.FS) bool {
	entries, err := fs.ReadDir(fsys, ".")
	if err != nil {
		return false
	}
	return slices.ContainsFunc(entries, func(e fs.DirEntry) bool {
		if e.IsDir() {
			return e.Name() == "data"
		}
		_, ok := algorithmOf(e.Name(), "manifest-")
		return ok || e.Name() == "bagit.txt"
	})
}

// Find lists the bags at and below a path, bytewise: folders and zip files. A
// bag is not searched for bags inside it; hidden folders and links are passed
// over.
func Find(path string) ([]string, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.IsDir() {
		return []string{path}, nil
	}
	var bags []string
	err = filepath.WalkDir(path, func(p string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && p != path && strings.HasPrefix(d.Name(), "."):
			return fs.SkipDir
		case d.IsDir() && IsBag(os.DirFS(p)):
			bags = append(bags, p)
			return fs.SkipDir
		case d.Type().IsRegular() && strings.EqualFold(filepath.Ext(p), ".zip"):
			if z, root, err := openZip(p); err == nil {
				if IsBag(root) {
					bags = append(bags, p)
				}
				z.Close()
			}
		}
		return nil
	})
	return bags, err
}

// openZip opens a zip whose root, or whose only folder, is a bag.
func openZip(path string) (*zip.ReadCloser, fs.FS, error) {
	z, err := zip.OpenReader(path)
	if err != nil {
		return nil, nil, err
	}
	var root fs.FS = &z.Reader
	if IsBag(root) {
		return z, root, nil
	}
	entries, err := fs.ReadDir(root, ".")
	if err == nil && len(entries) == 1 && entries[0].IsDir() {
		if root, err = fs.Sub(root, entries[0].Name()); err == nil {
			return z, root, nil
		}
	}
	return z, root, nil
}

// Verify checks one bag, a folder or a zip file, jobs files at once. It returns
// ErrNoBag for what is none.
func Verify(ctx context.Context, path string, jobs int) (*Verdict, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if info.IsDir() {
		root, err := os.OpenRoot(path) // no name leads out of it
		if err != nil {
			return nil, err
		}
		defer root.Close()
		if !IsBag(root.FS()) {
			return nil, ErrNoBag
		}
		return VerifyFS(ctx, root.FS(), path, jobs)
	}
	z, root, err := openZip(path)
	if err != nil {
		if errors.Is(err, zip.ErrFormat) {
			return nil, ErrNoBag
		}
		return nil, err
	}
	defer z.Close()
	if !IsBag(root) {
		return nil, ErrNoBag
	}
	v, err := VerifyFS(ctx, root, path, jobs)
	if err != nil {
		return nil, err
	}
	names := map[string]bool{}
	for _, f := range z.File {
		if names[f.Name] {
			v.fault(Twice, f.Name, fmt.Sprintf("%q is in the zip twice", clip(f.Name)))
		}
		names[f.Name] = true
	}
	return v, nil
}

// Holds reports whether a file is a zip that holds a bag.
func Holds(path string) bool {
	z, root, err := openZip(path)
	if err != nil {
		return false
	}
	defer z.Close()
	return IsBag(root)
}
