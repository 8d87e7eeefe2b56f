package trace

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/sync/errgroup"

	"slabfolio/listing/archive"
	"slabfolio/listing/piece"
)

// How a revision stands to the one before it.
const (
	LinkFirst   = "first"   // it names none, and is the first
	LinkRight   = "right"   // it names the manifest of the bag before it, and that is still so
	LinkWrong   = "wrong"   // the bag before it has another manifest than the one it names
	LinkMissing = "missing" // the bag before it is not there, or cannot be read
	LinkNone    = "none"    // it names none, and should
)

// A Chapter is one revision in the story of a piece.
type Chapter struct {
	Serial      string    `json:"serial"`
	Bag         string    `json:"bag"` // its name
	Path        string    `json:"path"`
	Also        []string  `json:"also,omitempty"` // copies of the same bag elsewhere
	Revision    int       `json:"revision"`
	Sealed      string    `json:"sealed,omitempty"` // YYYY-MM-DD, as the clock stood
	Software    string    `json:"software,omitempty"`
	Title       string    `json:"title,omitempty"`
	Predecessor string    `json:"predecessor,omitempty"`
	Link        string    `json:"link"`
	Log         []LogLine `json:"log"`              // written since the revision before
	Changes     []Change  `json:"changes"`          // against the revision before
	Doubts      []string  `json:"doubts,omitempty"` // about the chain itself
	Unread      string    `json:"unread,omitempty"` // why the spec could not be compared
	log         []LogLine
	sums        map[string]string // of the maker's own files
	manifest    string
	named       string // the manifest that it names as its predecessor's
	spec        *piece.Written
}

// A LogLine is one entry of the spec's log.
type LogLine struct {
	Date      string   `json:"date"`
	Did       string   `json:"did"`
	Materials []string `json:"materials"`
}

// History tells the story of one piece from the sealed bags at and below the
// paths, the first revision first. Owner's copies tell nothing that the others do
// not, and are used only when there are no others. The order is that of the
// revision numbers: clocks may be wrong. skipped names bags that cannot be read.
func History(ctx context.Context, paths []string, serial string, jobs int) (story []Chapter, skipped []Skipped, err error) {
	p, err := find(paths)
	if err != nil {
		return nil, nil, err
	}
	chapters := make([]*Chapter, len(p.bags))
	owner := make([]bool, len(p.bags))
	errs := make([]error, len(p.bags))
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(max(jobs, 1))
	for i, path := range p.bags {
		g.Go(func() error {
			chapters[i], owner[i], errs[i] = readChapter(path, serial)
			return ctx.Err()
		})
	}
	if err := g.Wait(); err != nil {
		return nil, nil, err
	}
	for _, wantOwner := range []bool{false, true} {
		for i, c := range chapters {
			if errs[i] == nil && c != nil && owner[i] == wantOwner {
				story = append(story, *c)
			}
		}
		if len(story) > 0 {
			break
		}
	}
	for i, err := range errs {
		if err != nil {
			p.skip(p.bags[i], err)
		}
	}
	story = byRevision(story)
	for i := range story {
		story[i].compareWithEarlier(story[:i])
	}
	return story, p.skipped, nil
}

// byRevision sorts by revision and takes copies of one bag together.
func byRevision(story []Chapter) []Chapter {
	slices.SortStableFunc(story, func(a, b Chapter) int {
		return cmp.Or(cmp.Compare(a.Revision, b.Revision), strings.Compare(a.manifest, b.manifest), strings.Compare(a.Path, b.Path))
	})
	var out []Chapter
	for _, c := range story {
		if n := len(out); n > 0 && out[n-1].Revision == c.Revision && out[n-1].manifest == c.manifest {
			out[n-1].Also = append(out[n-1].Also, c.Path)
			continue
		}
		out = append(out, c)
	}
	return out
}

// readChapter reads what a bag says of itself; nil when it is another piece's.
func readChapter(path, serial string) (*Chapter, bool, error) {
	fsys, closer, err := archive.Open(path)
	if err != nil {
		return nil, false, err
	}
	defer closer()
	c := &Chapter{Bag: strings.TrimSuffix(filepath.Base(path), ".zip"), Path: filepath.ToSlash(path), Log: []LogLine{}, Changes: []Change{}}
	info, err := archive.ReadInfo(fsys)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, false, fmt.Errorf("bag-info.txt: %w", reason(err))
	}
	told := map[string]string{}
	for _, i := range info {
		if _, ok := told[i.Label]; !ok {
			told[i.Label] = i.Value
		}
	}
	name := cmp.Or(told["Internal-Sender-Identifier"], c.Bag)
	m := revisionName().FindStringSubmatch(name)
	owner := m != nil && m[2] != ""
	if !strings.EqualFold(told["External-Identifier"], serial) && (m == nil || told["External-Identifier"] != "" || !strings.EqualFold(m[1], serial)) {
		return nil, false, nil
	}
	c.Serial = cmp.Or(told["External-Identifier"], serial)
	c.Revision, _ = revisionOf(fsys, path)
	c.Sealed, c.Software, c.Predecessor = told["Bagging-Date"], told["Bag-Software-Agent"], told["Predecessor"]
	c.named = strings.ToLower(told["Predecessor-Manifest-SHA512"])
	if c.sums, c.manifest, err = archive.Payload(fsys); err != nil {
		return nil, false, fmt.Errorf("its manifest: %w", reason(err))
	}
	c.readSpec(fsys)
	return c, owner, nil
}

func (c *Chapter) readSpec(fsys fs.FS) {
	for _, name := range specNames(fsys) {
		data, err := archive.ReadSmall(fsys, "data/piece/"+name)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			c.Unread = fmt.Sprintf("%s cannot be read: %v", name, reason(err))
			return
		}
		if c.spec, err = piece.ParseWritten(name, data); err != nil {
			c.Unread = fmt.Sprintf("%s: %v", name, err)
			return
		}
		p, _ := piece.ParsePiece(name, data, piece.Defaults{})
		c.Title, c.Serial = p.Title.V, cmp.Or(p.Serial.V, c.Serial)
		for _, l := range p.Log {
			e := LogLine{Date: l.Date.V.String(), Did: l.Did.V, Materials: []string{}}
			for _, m := range l.Materials {
				e.Materials = append(e.Materials, m.V)
			}
			c.log = append(c.log, e)
		}
		return
	}
	c.Unread = "the bag holds no piece.yaml"
}

// compareWithEarlier says how a revision stands to those before it and what changed.
func (c *Chapter) compareWithEarlier(before []Chapter) {
	var prev *Chapter
	for i := range before {
		if before[i].Revision < c.Revision {
			prev = &before[i]
		} else {
			c.doubt("%s and %s both call themselves revision %d, and they differ", before[i].Bag, c.Bag, c.Revision)
		}
	}
	c.checkEarlierManifest(prev, before)
	if prev == nil {
		c.Log = append(c.Log, c.log...)
		return
	}
	if c.Sealed != "" && prev.Sealed != "" && c.Sealed < prev.Sealed {
		c.doubt("it was sealed on %s, before the revision that it follows (%s): a clock was wrong", c.Sealed, prev.Sealed)
	}
	for _, l := range c.log {
		if !slices.ContainsFunc(prev.log, l.same) {
			c.Log = append(c.Log, l)
		}
	}
	c.Changes = append(compareSpecs(prev.spec, c.spec), compareFiles(prev.sums, c.sums)...)
}

func (c *Chapter) doubt(format string, args ...any) {
	c.Doubts = append(c.Doubts, fmt.Sprintf(format, args...))
}

// checkEarlierManifest compares the manifest that a revision names with the bag before it.
func (c *Chapter) checkEarlierManifest(prev *Chapter, before []Chapter) {
	switch {
	case c.Predecessor == "" && c.Revision < 2:
		c.Link = LinkFirst
	case c.named == "":
		c.Link = LinkNone
	case prev == nil || prev.Revision != c.Revision-1 && !strings.EqualFold(prev.Bag, c.Predecessor):
		c.Link = LinkMissing
	case slices.ContainsFunc(before, func(b Chapter) bool { return b.manifest == c.named }):
		c.Link = LinkRight
	default:
		c.Link = LinkWrong
	}
}

func (l LogLine) same(o LogLine) bool {
	return l.Date == o.Date && l.Did == o.Did && slices.Equal(l.Materials, o.Materials)
}
