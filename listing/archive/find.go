package archive

import (
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

// isBag reports whether the folder looks like a bag: it has a bagit.txt, a
// manifest, or a data folder.
func isBag(fsys fs.FS) bool {
	entries, err := fs.ReadDir(fsys, ".")
	return err == nil && slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return marksBag(e.Name(), e.IsDir()) })
}

// Find lists the bags at and below a path, bytewise: folders and zip files. A
// bag is not searched for bags inside it; hidden folders and links are passed
// over. What cannot be looked into, a folder or a damaged zip, is listed too, so
// that Verify says so: silence would pass for health.
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
			if p == path && len(bags) == 0 && d == nil {
				return err
			}
			bags = append(bags, p)
			return fs.SkipDir
		case d.IsDir() && p != path && strings.HasPrefix(d.Name(), "."):
			return fs.SkipDir
		case d.IsDir() && isBag(os.DirFS(p)):
			bags = append(bags, p)
			return fs.SkipDir
		case d.Type().IsRegular() && !strings.HasPrefix(d.Name(), ".") && strings.EqualFold(filepath.Ext(p), ".zip"):
			z, err := openZip(p)
			if err == nil {
				z.Close()
			}
			if !errors.Is(err, ErrNoBag) {
				bags = append(bags, p)
			}
		}
		return nil
	})
	return bags, err
}

// Options are the settings of Verify. A nil *Options means all defaults.
type Options struct {
	Jobs int         // files that are read at once; 1 when zero
	Read func(n int) // told of every n bytes that were read, from several goroutines; may be nil
	sums bool        // whether checksums are compared
}

// Verify checks one bag, a folder or a zip file. It returns ErrNoBag for what is
// none; what cannot be read is in the verdict.
func Verify(ctx context.Context, path string, o *Options) (*Verdict, error) {
	opts := Options{}
	if o != nil {
		opts = *o
	}
	opts.sums = true
	return verify(ctx, path, opts)
}

// Complete checks a bag as Verify does but for the checksums: whether everything
// that is listed is there and of the size that it should be in all.
func Complete(ctx context.Context, path string) (*Verdict, error) {
	return verify(ctx, path, Options{})
}

func verify(ctx context.Context, path string, o Options) (*Verdict, error) {
	v := &Verdict{Bag: path, Problems: []Problem{}}
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if info.IsDir() {
		root, err := os.OpenRoot(path) // no name leads out of it
		if err != nil {
			return v.closed(err), nil
		}
		defer root.Close()
		if _, err := fs.ReadDir(root.FS(), "."); err != nil {
			return v.closed(err), nil
		}
		if !isBag(root.FS()) {
			return nil, ErrNoBag
		}
		return v, check(ctx, root.FS(), v, o)
	}
	z, err := openZip(path)
	switch {
	case errors.Is(err, errNoZip) && !strings.EqualFold(filepath.Ext(path), ".zip"), errors.Is(err, ErrNoBag):
		return nil, ErrNoBag
	case err != nil:
		return v.closed(err), nil
	}
	defer z.Close()
	return v, z.verify(ctx, v, o)
}

// verify checks a zip, and the bag in it if the zip is honest.
func (z *zipBag) verify(ctx context.Context, v *Verdict, o Options) error {
	z.check(v)
	if !v.Valid() {
		return nil // a zip that lies about its names is read no further
	}
	root, err := z.files()
	if err != nil {
		v.closed(err)
		return nil
	}
	return check(ctx, root, v, o)
}

// closed is the verdict on what cannot be opened.
func (v *Verdict) closed(err error) *Verdict {
	v.fault(Unreadable, "", fmt.Sprintf("it cannot be opened: %v", reason(err)))
	return v
}
