package trace

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"golang.org/x/sync/errgroup"

	"slabfolio/listing/archive"
	"slabfolio/listing/piece"
	"slabfolio/listing/wood"
)

// Collect reads every piece folder and every sealed bag at and below the paths,
// jobs at once. skipped names bags that hold no spec of ours or cannot be read,
// with the reason. The error is for a path that cannot be read at all.
func Collect(ctx context.Context, paths []string, jobs int) (records []Record, skipped []error, err error) {
	folders, _, err := piece.Find(paths, nil)
	if err != nil {
		return nil, nil, err
	}
	var bags []string
	for _, p := range paths {
		found, err := findBags(p)
		if err != nil {
			return nil, nil, err
		}
		bags = append(bags, found...)
	}
	woods, err := wood.Load()
	if err != nil {
		return nil, nil, err
	}
	all := make([]*Record, len(folders)+len(bags))
	errs := make([]error, len(all))
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(max(jobs, 1))
	for i := range all {
		g.Go(func() error {
			if err := ctx.Err(); err != nil {
				return err
			}
			if i < len(folders) {
				all[i], errs[i] = readFolder(folders[i], woods)
			} else {
				all[i], errs[i] = readBag(bags[i-len(folders)], woods)
			}
			return nil
		})
	}
	if err := g.Wait(); err != nil {
		return nil, nil, err
	}
	for i, r := range all {
		if errs[i] != nil {
			skipped = append(skipped, errs[i])
		} else if r != nil {
			records = append(records, *r)
		}
	}
	return records, skipped, nil
}

// findBags lists the bags below a path. Folders of pieces are no bags and their
// outputs hold none, so neither is searched.
func findBags(path string) ([]string, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.IsDir() {
		return archive.Find(path)
	}
	var bags []string
	err = filepath.WalkDir(path, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if !d.IsDir() {
			if strings.EqualFold(filepath.Ext(p), ".zip") && d.Name() != "listing.zip" {
				found, err := archive.Find(p)
				if err == nil {
					bags = append(bags, found...)
				}
			}
			return nil
		}
		if p != path && strings.HasPrefix(d.Name(), ".") {
			return fs.SkipDir
		}
		if _, err := os.Stat(filepath.Join(p, "bagit.txt")); err == nil {
			bags = append(bags, p)
			return fs.SkipDir
		}
		for _, name := range append([]string{"report.json"}, piece.SpecNames...) {
			if _, err := os.Stat(filepath.Join(p, name)); err == nil {
				return fs.SkipDir
			}
		}
		return nil
	})
	return bags, err
}

func readFolder(dir string, woods *wood.Table) (*Record, error) {
	w, _, err := piece.ReadWorkshop(dir)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", filepath.ToSlash(dir), err)
	}
	p, findings, err := piece.ReadPieceWith(dir, w.Defaults())
	if err != nil {
		return nil, fmt.Errorf("%s: %w", filepath.ToSlash(dir), err)
	}
	r := recordOf(p, w, woods)
	r.Source = filepath.ToSlash(dir)
	for _, f := range findings {
		if f.Rank == piece.Fault {
			r.Faults++
		}
	}
	return r, nil
}

// errNoSpec means that a bag is not one that archive made.
var errNoSpec = errors.New("holds no piece.yaml of ours")

func readBag(path string, woods *wood.Table) (*Record, error) {
	fsys, closer, err := archive.Open(path)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", filepath.ToSlash(path), err)
	}
	defer closer()
	p, w, err := specIn(fsys)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", filepath.ToSlash(path), err)
	}
	r := recordOf(p, w, woods)
	r.Source, r.Bag = filepath.ToSlash(path), true
	return r, nil
}

// specIn reads the spec and the workshop's defaults out of a bag.
func specIn(fsys fs.FS) (*piece.Piece, *piece.Workshop, error) {
	w := &piece.Workshop{}
	if data, err := fs.ReadFile(fsys, "data/workshop.yaml"); err == nil {
		w, _ = piece.ParseWorkshop(piece.WorkshopName, data)
	}
	for _, name := range piece.SpecNames {
		data, err := fs.ReadFile(fsys, "data/piece/"+name)
		if err == nil {
			p, _ := piece.ParsePiece(name, data, w.Defaults())
			return p, w, nil
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return nil, nil, err
		}
	}
	return nil, nil, errNoSpec
}
