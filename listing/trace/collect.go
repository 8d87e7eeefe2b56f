package trace

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"sync"

	"golang.org/x/sync/errgroup"

	"slabfolio/listing/archive"
	"slabfolio/listing/ordinary"
	"slabfolio/listing/piece"
	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/wood"
)

// Collect reads every piece folder and every sealed bag at and below the paths,
// jobs at once. skipped names what could not be searched: folders that cannot be
// opened, bags that are not ours. The error is for a path that is not there.
func Collect(ctx context.Context, paths []string, jobs int) (records []Record, skipped []Skipped, err error) {
	p, err := find(paths)
	if err != nil {
		return nil, nil, err
	}
	woods, err := wood.Load()
	if err != nil {
		return nil, nil, err
	}
	r := &reader{woods: woods, names: map[string][]string{}, workshops: map[string]*workshop{}}
	all := make([]*Record, len(p.folders)+len(p.bags))
	errs := make([]error, len(all))
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(max(jobs, 1))
	for i := range all {
		g.Go(func() error {
			if i < len(p.folders) {
				all[i], errs[i] = r.folder(ctx, p.folders[i])
			} else {
				all[i], errs[i] = r.bag(p.bags[i-len(p.folders)])
			}
			return ctx.Err()
		})
	}
	if err := g.Wait(); err != nil {
		return nil, nil, err
	}
	for i, rec := range all {
		switch {
		case errs[i] == nil:
			records = append(records, *rec)
		case i < len(p.folders):
			p.skip(p.folders[i].dir, errs[i])
		default:
			p.skip(p.bags[i-len(p.folders)], errs[i])
		}
	}
	return records, p.skipped, nil
}

// A reader reads specs. A workshop.yaml that stands above many pieces, or in
// many bags, is read once.
type reader struct {
	woods     *wood.Table
	mu        sync.Mutex
	names     map[string][]string
	workshops map[string]*workshop
}

type workshop struct {
	once sync.Once
	w    *piece.Workshop
	err  error
}

// workshop returns what read returned the first time that key was asked for.
func (r *reader) workshop(key string, read func() (*piece.Workshop, error)) (*piece.Workshop, error) {
	r.mu.Lock()
	w := r.workshops[key]
	if w == nil {
		w = &workshop{}
		r.workshops[key] = w
	}
	r.mu.Unlock()
	w.once.Do(func() { w.w, w.err = read() })
	return w.w, w.err
}

func (r *reader) folder(ctx context.Context, f folder) (*Record, error) {
	at := f.dir
	if !f.own {
		at = filepath.Dir(at) // its own folder has none: the nearest is further up
		if at == "." || at == f.dir {
			at = filepath.Join(f.dir, "..")
		}
	}
	w, err := r.workshop("folder "+at, func() (*piece.Workshop, error) {
		w, _, err := piece.ReadWorkshop(ctx, at)
		return w, err
	})
	if err != nil {
		return nil, err
	}
	data, err := ordinary.Read(filepath.Join(f.dir, f.spec), yamltext.MaxFile+1)
	if err != nil {
		return nil, err
	}
	return r.record(f.dir, f.spec, data, w), nil
}

// record reads a spec as far as it can be read.
func (r *reader) record(source, name string, data []byte, w *piece.Workshop) *Record {
	p, findings := piece.ParsePiece(name, data, w.Defaults())
	rec := r.recordOf(p, w)
	rec.Source = filepath.ToSlash(source)
	for _, f := range findings {
		if f.Rank == piece.Fault {
			rec.Faults++
		}
	}
	return rec
}

// errNoSpec means that a bag is not one that archive made.
var errNoSpec = errors.New("a bag without a piece.yaml in it")

func (r *reader) bag(path string) (*Record, error) {
	fsys, closer, err := archive.Open(path)
	if err != nil {
		return nil, err
	}
	defer closer()
	name, data, w, err := r.specIn(fsys)
	if err != nil {
		return nil, err
	}
	rec := r.record(path, name, data, w)
	rec.Bag = true
	rec.Revision, rec.Owner = revisionOf(fsys, path)
	return rec, nil
}

// specIn reads the spec and the workshop's defaults out of a bag.
func (r *reader) specIn(fsys fs.FS) (name string, data []byte, w *piece.Workshop, err error) {
	w = &piece.Workshop{}
	if text, err := archive.ReadSmall(fsys, "data/"+piece.WorkshopName); err == nil {
		w, _ = r.workshop("text "+string(text), func() (*piece.Workshop, error) {
			w, _ := piece.ParseWorkshop(piece.WorkshopName, text)
			return w, nil
		})
	}
	for _, name := range specNames(fsys) {
		data, err := archive.ReadSmall(fsys, "data/piece/"+name)
		if err == nil {
			return name, data, w, nil
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return "", nil, nil, fmt.Errorf("%s: %w", name, reason(err))
		}
	}
	return "", nil, nil, errNoSpec
}

var revisionName = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(.+?)(\.owner)?(?:\.rev([0-9]+))?(?:\.zip)?$`) })

// revisionOf tells which revision a bag is, by what it says of itself, else by
// its name; and whether it is an owner's copy.
func revisionOf(fsys fs.FS, path string) (revision int, owner bool) {
	name := filepath.Base(path)
	info, _ := archive.ReadInfo(fsys)
	for _, i := range info {
		switch i.Label {
		case "Internal-Sender-Identifier":
			name = i.Value
		case "Revision":
			revision, _ = strconv.Atoi(i.Value)
		}
	}
	if m := revisionName().FindStringSubmatch(name); m != nil {
		owner = m[2] != ""
		if n, err := strconv.Atoi(m[3]); err == nil && revision < 1 {
			revision = n
		}
	}
	return max(revision, 1), owner
}

// specNames are the names that the spec of a bag may have there, the likeliest
// first.
func specNames(fsys fs.FS) []string {
	entries, _ := fs.ReadDir(fsys, "data/piece") // what cannot be listed may still be opened by name
	names := slices.Clone(piece.SpecNames)
	for _, e := range entries {
		if !slices.Contains(names, e.Name()) {
			names = append(names, e.Name())
		}
	}
	return piece.Specs(names)
}
