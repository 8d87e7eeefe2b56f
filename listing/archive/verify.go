package archive

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"
)

// A bag is a bag that is being checked.
type bag struct {
	fsys    fs.FS
	decl    declaration
	payload []*manifest
	tags    []*manifest
	files   map[string]int64 // every regular file, with its size
	odd     map[string]string
	fetch   map[string]bool   // listed in fetch.txt
	absent  map[string]bool   // listed, not there, and excused
	alias   map[string]string // a listed name to how the file system spells it
	hasData bool
	verdict *Verdict
}

func check(ctx context.Context, fsys fs.FS, v *Verdict, o Options) error {
	b := &bag{fsys: fsys, verdict: v, files: map[string]int64{}, odd: map[string]string{}, fetch: map[string]bool{}, absent: map[string]bool{}, alias: map[string]string{}}
	b.decl = readDeclaration(fsys, v)
	v.Version = b.decl.version()
	b.list()
	b.readManifests()
	b.readFetch()
	b.aliases()
	b.complete()
	b.info()
	if !o.sums {
		return nil
	}
	return b.checksums(ctx, o)
}

// list notes every file of the bag. Links and devices are no files of a bag and
// are never followed.
func (b *bag) list() {
	_ = fs.WalkDir(b.fsys, ".", func(name string, d fs.DirEntry, err error) error { // every error becomes a fault
		switch {
		case err != nil:
			b.odd[name] = err.Error()
			b.verdict.fault(Unreadable, name, fmt.Sprintf("%s cannot be read: %v", name, reason(err)))
			if d != nil && d.IsDir() {
				return fs.SkipDir
			}
		case d.IsDir():
			b.hasData = b.hasData || name == "data"
		case d.Type().IsRegular():
			info, err := d.Info()
			if err != nil {
				b.verdict.fault(Unreadable, name, fmt.Sprintf("%s cannot be read: %v", name, reason(err)))
				return nil
			}
			b.files[name] = info.Size()
			b.hasData = b.hasData || strings.HasPrefix(name, "data/")
		default:
			b.odd[name] = "a link"
			b.verdict.fault(Outside, name, fmt.Sprintf("%s is a link or device, not a file; it is not followed", name))
		}
		return nil
	})
}

func reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

func (b *bag) readManifests() {
	if !b.hasData {
		b.verdict.fault(Declaration, "data", "the folder data/ is missing")
	}
	names := make([]string, 0, len(b.files))
	for name := range b.files {
		if !strings.Contains(name, "/") {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	for _, name := range names {
		if alg, ok := algorithmOf(name, "manifest-"); ok {
			b.payload = append(b.payload, readManifest(b.fsys, b.decl, name, alg, false, b.verdict))
		}
		if alg, ok := algorithmOf(name, "tagmanifest-"); ok {
			b.tags = append(b.tags, readManifest(b.fsys, b.decl, name, alg, true, b.verdict))
		}
	}
	if len(b.payload) == 0 {
		b.verdict.fault(Manifest, "", "no manifest: nothing says what should be in the bag")
	}
	known := false
	for _, m := range slices.Concat(b.payload, b.tags) {
		if algorithms[m.alg] == nil {
			b.verdict.warn(Manifest, m.name, fmt.Sprintf("%s uses a checksum that is not known here, %q; it was not checked", m.name, m.alg))
		}
	}
	for _, m := range b.payload {
		known = known || algorithms[m.alg] != nil
	}
	if len(b.payload) > 0 && !known {
		b.verdict.fault(Manifest, "", "no manifest has a checksum that is known here, so the files cannot be checked")
	}
}

var fetchLine = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^\s*\S+[ \t]+(?:-|[0-9]+)[ \t]+(\S.*)$`) })

// readFetch reads fetch.txt: names that were left out of the bag, to be fetched.
// Nothing is ever fetched.
func (b *bag) readFetch() {
	if _, ok := b.files["fetch.txt"]; !ok {
		return
	}
	text, err := b.decl.readText(b.fsys, "fetch.txt")
	if err != nil {
		b.verdict.fault(Manifest, "fetch.txt", err.Error())
		return
	}
	for i, line := range splitLines(text) {
		if strings.TrimSpace(line) == "" {
			continue
		}
		parts := fetchLine().FindStringSubmatch(line)
		if parts == nil {
			b.verdict.fault(Manifest, "fetch.txt", fmt.Sprintf("line %d of fetch.txt is not an address, a length and a name: %q", i+1, clip(line)))
			continue
		}
		name := decodeName(parts[1], b.decl)
		clean, problem := safeName(name, false)
		if problem != "" {
			b.verdict.fault(Outside, name, fmt.Sprintf("line %d of fetch.txt %s: %q", i+1, problem, clip(name)))
			continue
		}
		b.fetch[clean] = true
		for _, m := range b.payload {
			if _, ok := m.sums[clean]; !ok {
				b.verdict.fault(Manifest, clean, fmt.Sprintf("%q is in fetch.txt and not in %s", clip(clean), m.name))
			}
		}
	}
}

// info checks bag-info.txt: the counts, and what may stand in it once only.
func (b *bag) info() {
	name := "bag-info.txt"
	if _, ok := b.files[name]; !ok {
		return
	}
	text, err := b.decl.readText(b.fsys, name)
	if err != nil {
		b.verdict.fault(Declaration, name, err.Error())
		return
	}
	info, err := parseInfo(text)
	if err != nil {
		b.verdict.fault(Declaration, name, fmt.Sprintf("bag-info.txt: %v", err))
		return
	}
	dates := 0
	for _, i := range info {
		if strings.EqualFold(i.Label, "Bagging-Date") {
			dates++
			if _, err := time.Parse(time.DateOnly, i.Value); err != nil {
				b.verdict.warn(Declaration, name, fmt.Sprintf("bag-info.txt gives %q for the day of bagging, which is not YYYY-MM-DD", clip(i.Value)))
			}
		}
	}
	if dates > 1 {
		b.verdict.warn(Declaration, name, "bag-info.txt has Bagging-Date more than once")
	}
	b.oxum(name, info)
}

// oxum compares the counts of bag-info.txt with the payload.
func (b *bag) oxum(name string, info []Info) {
	count := 0
	for _, i := range info {
		if !strings.EqualFold(i.Label, "Payload-Oxum") {
			continue
		}
		count++
		excused := 0
		for f := range b.absent {
			if litter(f) {
				excused++
			}
		}
		got := fmt.Sprintf("%d.%d", b.verdict.Bytes, b.verdict.Files)
		if i.Value != got && i.Value != fmt.Sprintf("%d.%d", b.verdict.Bytes, b.verdict.Files+excused) {
			b.verdict.fault(Oxum, name, fmt.Sprintf("bag-info.txt counts the payload as %q (bytes.files), and it is %s", clip(i.Value), got))
		}
	}
	if count > 1 {
		b.verdict.fault(Oxum, name, "bag-info.txt has Payload-Oxum more than once")
	}
}
