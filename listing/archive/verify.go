package archive

import (
	"archive/zip"
	"cmp"
	"context"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"maps"
	"regexp"
	"slices"
	"strings"
	"time"

	"golang.org/x/sync/errgroup"
	"golang.org/x/text/unicode/norm"
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

// VerifyFS checks the bag at the root of fsys. The error is for a check that
// could not be finished; what is wrong with the bag is in the verdict.
func VerifyFS(ctx context.Context, fsys fs.FS, name string, o *Options) (*Verdict, error) {
	opts := Options{}
	if o != nil {
		opts = *o
	}
	opts.sums = true
	v := &Verdict{Bag: name, Problems: []Problem{}}
	return v, check(ctx, fsys, v, opts)
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

var fetchLine = regexp.MustCompile(`^\s*\S+[ \t]+(?:-|[0-9]+)[ \t]+(\S.*)$`)

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
		parts := fetchLine.FindStringSubmatch(line)
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

// aliases finds files whose names a system has spelt anew: with accents composed
// or taken apart. RFC 8493, section 6.1.3 wants that borne.
func (b *bag) aliases() {
	listed := map[string]bool{}
	for _, m := range slices.Concat(b.payload, b.tags) {
		for _, e := range m.entries {
			listed[e.path] = true
		}
	}
	there := map[string][]string{}
	for name := range b.files {
		if !listed[name] {
			there[norm.NFC.String(name)] = append(there[norm.NFC.String(name)], name)
		}
	}
	for name := range listed {
		found := there[norm.NFC.String(name)]
		if _, ok := b.files[name]; !ok && len(found) == 1 && b.odd[name] == "" {
			b.alias[name] = found[0]
		}
	}
	for _, name := range slices.Sorted(maps.Keys(b.alias)) {
		b.verdict.warn(Name, name, fmt.Sprintf("%q stands on the disk with its accents written another way; its content decides", clip(name)))
	}
}

// at is where a listed file is.
func (b *bag) at(name string) (string, bool) {
	if a, ok := b.alias[name]; ok {
		name = a
	}
	_, ok := b.files[name]
	return name, ok
}

// complete checks that what is listed is there and that what is there is listed.
func (b *bag) complete() {
	v := b.verdict
	seen := map[string]string{} // folded name to a listed name that is there
	for _, m := range b.payload {
		for _, e := range m.entries {
			if _, ok := b.at(e.path); ok {
				seen[folded(e.path)] = e.path
			}
		}
	}
	reported := map[string]bool{}
	for _, m := range slices.Concat(b.payload, b.tags) {
		for _, e := range m.entries {
			if _, ok := b.at(e.path); ok || reported[e.path] || b.odd[e.path] != "" {
				continue
			}
			reported[e.path] = true
			twin := seen[folded(e.path)]
			switch {
			case twin != "" && m.sums[twin] == e.sum:
				b.absent[e.path] = true
				v.warn(Name, e.path, fmt.Sprintf("%q and %q are listed and only one is there: they differ only in case or in how accents are written, and some systems take them for one", clip(e.path), clip(twin)))
			case litter(e.path):
				b.absent[e.path] = true
				v.warn(Missing, e.path, fmt.Sprintf("%q is missing, a file that systems strew and clear away by themselves", clip(e.path)))
			case b.fetch[e.path]:
				v.fault(Holey, e.path, fmt.Sprintf("%q is not in the bag but to be fetched from elsewhere; nothing is fetched here", clip(e.path)))
			default:
				v.fault(Missing, e.path, fmt.Sprintf("%q is missing", clip(e.path)))
			}
		}
	}
	b.unlisted()
	if b.decl.since(1, 0) {
		b.tagsComplete()
	}
}

// unlisted finds payload files that a manifest does not list: since 1.0 every
// manifest must list every file, before that one of them must.
func (b *bag) unlisted() {
	names := make([]string, 0, len(b.files))
	for name, size := range b.files {
		if strings.HasPrefix(name, "data/") {
			names = append(names, name)
			b.verdict.Files++
			b.verdict.Bytes += size
		}
	}
	slices.Sort(names)
	spelt := map[string]string{} // as the disk has it, to as it is listed
	for listed, name := range b.alias {
		spelt[name] = listed
	}
	for _, name := range names {
		var lists, lacks []string
		for _, m := range b.payload {
			listed := cmp.Or(spelt[name], name)
			if _, ok := m.sums[listed]; ok {
				lists = append(lists, m.name)
			} else {
				lacks = append(lacks, m.name)
			}
		}
		switch {
		case len(lists) == 0:
			b.verdict.fault(Extra, name, fmt.Sprintf("%q is in the bag and in no manifest", clip(name)))
		case len(lacks) > 0 && b.decl.since(1, 0):
			b.verdict.fault(Extra, name, fmt.Sprintf("%q is not listed in %s", clip(name), strings.Join(lacks, ", ")))
		}
	}
}

// tagsComplete checks that each tag manifest lists every payload manifest.
func (b *bag) tagsComplete() {
	for _, t := range b.tags {
		for _, m := range b.payload {
			if _, ok := t.sums[m.name]; !ok {
				b.verdict.fault(Manifest, t.name, fmt.Sprintf("%s does not list %s", t.name, m.name))
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

// A wanted sum is one that a manifest gives for a file.
type wanted struct{ alg, sum string }

// checksums reads every listed file once and compares all its checksums.
func (b *bag) checksums(ctx context.Context, o Options) error {
	want := map[string][]wanted{} // by the name on the disk
	for _, m := range slices.Concat(b.payload, b.tags) {
		if algorithms[m.alg] == nil {
			continue
		}
		for _, e := range m.entries {
			if name, ok := b.at(e.path); ok {
				want[name] = append(want[name], wanted{m.alg, e.sum})
			}
		}
	}
	names := slices.Sorted(maps.Keys(want))
	problems := make([]*Problem, len(names))
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(max(o.Jobs, 1))
	for i, name := range names {
		g.Go(func() error {
			problems[i] = checkFile(ctx, b.fsys, name, want[name], o.Read)
			return ctx.Err()
		})
	}
	if err := g.Wait(); err != nil {
		return err
	}
	for _, p := range problems {
		if p != nil {
			b.verdict.Problems = append(b.verdict.Problems, *p)
		}
	}
	return nil
}

// checkFile reads one file. What the disk does not give is unreadable; what was
// read to its end and is something else is changed. A zip whose own checksum
// (CRC-32) does not fit was changed too: it was read to its end.
func checkFile(ctx context.Context, fsys fs.FS, name string, want []wanted, read func(int)) *Problem {
	if ctx.Err() != nil {
		return nil
	}
	f, err := fsys.Open(name)
	if err != nil {
		return &Problem{Unreadable, name, fmt.Sprintf("%q cannot be read: %v", clip(name), reason(err)), false}
	}
	defer f.Close() // read only
	hashes := map[string]hash.Hash{}
	var writers []io.Writer
	for _, w := range want {
		if hashes[w.alg] == nil {
			h := algorithms[w.alg]()
			hashes[w.alg] = h
			writers = append(writers, h)
		}
	}
	changed := &Problem{Changed, name, fmt.Sprintf("%q is not what it was when the bag was sealed", clip(name)), false}
	_, err = io.CopyBuffer(struct{ io.Writer }{io.MultiWriter(writers...)}, ctxReader{ctx, f, read}, make([]byte, 256<<10))
	if errors.Is(err, zip.ErrChecksum) {
		return changed
	}
	if err != nil {
		return &Problem{Unreadable, name, fmt.Sprintf("%q cannot be read to its end: %v", clip(name), reason(err)), false}
	}
	for _, w := range want {
		if hexOf(hashes[w.alg]) != w.sum {
			return changed
		}
	}
	return nil
}

// A ctxReader stops reading when the run is interrupted, and tells how far it is.
type ctxReader struct {
	ctx  context.Context
	r    io.Reader
	tell func(n int) // may be nil
}

func (c ctxReader) Read(p []byte) (int, error) {
	if err := c.ctx.Err(); err != nil {
		return 0, err
	}
	n, err := c.r.Read(p)
	if c.tell != nil && n > 0 {
		c.tell(n)
	}
	return n, err
}
