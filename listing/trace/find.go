package trace

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing/archive"
	"slabfolio/listing/piece"
)

// places are the piece folders and bags below the paths, found in one walk.
type places struct {
	folders []folder
	bags    []string
	skipped []Skipped
	seen    map[string]bool
}

// A folder is a piece folder.
type folder struct {
	dir  string
	own  bool // it has a workshop.yaml of its own
	spec string
}

// A Skipped is something that could not be searched, and why.
type Skipped struct {
	Path string
	Err  error
}

// errLinked is why a piece is not searched whose spec is a link.
var errLinked = errors.New("it is a link, and links are not followed")

// find walks the paths. Hidden folders and links are passed over, as everywhere;
// an output folder holds nothing to find. The error is for a path that is not
// there.
func find(paths []string) (*places, error) {
	p := &places{seen: map[string]bool{}}
	for _, path := range paths {
		info, err := os.Stat(path)
		if err != nil {
			return nil, err
		}
		path = filepath.Clean(path)
		switch {
		case info.IsDir():
			p.walk(path)
		case piece.IsSpec(filepath.Base(path)):
			p.walk(filepath.Dir(path))
		default:
			p.file(path, true)
		}
	}
	slices.SortFunc(p.folders, func(a, b folder) int { return strings.Compare(a.dir, b.dir) })
	slices.Sort(p.bags)
	return p, nil
}

func (p *places) walk(dir string) {
	if abs, err := filepath.Abs(dir); err == nil {
		if p.seen[abs] {
			return
		}
		p.seen[abs] = true
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		p.skip(dir, err)
		return
	}
	has := map[string]bool{}
	for _, e := range entries {
		has[e.Name()] = e.Type().IsRegular()
	}
	if has["bagit.txt"] {
		p.bags = append(p.bags, dir)
		return
	}
	regular := slices.DeleteFunc(slices.Collect(maps.Keys(has)), func(name string) bool { return !has[name] })
	if specs := piece.Specs(regular); len(specs) > 0 {
		p.folders = append(p.folders, folder{dir, has[piece.WorkshopName], specs[0]})
	} else if link := piece.LinkedSpec(entries); link != "" {
		p.skip(filepath.Join(dir, link), errLinked)
	}
	if has["report.json"] && has["sheet.pdf"] {
		return // an output folder
	}
	for _, e := range entries {
		switch {
		case strings.HasPrefix(e.Name(), "."):
		case e.IsDir():
			p.walk(filepath.Join(dir, e.Name()))
		case e.Type().IsRegular() && strings.EqualFold(filepath.Ext(e.Name()), ".zip"):
			p.file(filepath.Join(dir, e.Name()), false)
		}
	}
}

// file takes a zip that holds a bag. Other zips are no matter, unless one was
// asked for by its name; one that cannot be read is told of.
func (p *places) file(path string, asked bool) {
	_, closer, err := archive.Open(path)
	switch {
	case err == nil:
		_ = closer() // read only
		p.bags = append(p.bags, path)
	case asked || !errors.Is(err, archive.ErrNoBag):
		p.skip(path, err)
	}
}

func (p *places) skip(path string, err error) {
	p.skipped = append(p.skipped, Skipped{filepath.ToSlash(path), reason(err)})
}

// reason is an error without the path, which stands before it anyway.
func reason(err error) error {
	if p, ok := err.(*fs.PathError); ok {
		return p.Err
	}
	return err
}

func (s Skipped) String() string { return fmt.Sprintf("%s: %v", s.Path, s.Err) }
