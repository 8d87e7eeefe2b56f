package listing

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"slabfolio/imaging"
	"slabfolio/imaging/decode"
	"slabfolio/listing/archive"
	"slabfolio/listing/piece"
)

// ArchiveOptions are the settings of Archive.
type ArchiveOptions struct {
	Options
	To       string // the shelf: a folder for the bags
	Owner    bool   // the copy that goes with the piece, without private matters
	Zip      bool   // one file a bag
	Today    string // YYYY-MM-DD
	Software string // name and version, for the record
}

// What became of a piece that was to be sealed.
const (
	Sealed        = "sealed"
	AlreadySealed = "sealed already, nothing changed"
)

// Archive seals every piece at or below the paths in a bag on the shelf. A bag
// that is there is never touched; a piece that changed makes the next revision.
func Archive(ctx context.Context, paths []string, opts ArchiveOptions) (*Summary, error) {
	if err := os.MkdirAll(opts.To, 0o755); err != nil {
		return nil, err
	}
	lock, err := tryLock(filepath.Join(opts.To, ".shelf"+lockSuffix))
	if err != nil {
		return nil, fmt.Errorf("the shelf %s: %w", filepath.ToSlash(opts.To), err)
	}
	defer releaseLock(lock)
	if err := archive.Sweep(opts.To); err != nil {
		return nil, err
	}
	o := opts.Options
	o.Out, o.Only, o.Cache = filepath.Join(opts.To, ".prepared"), "", ""
	if err := os.RemoveAll(o.Out); err != nil {
		return nil, err
	}
	b, err := newBatch(paths, o)
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(o.Out)
	if err := b.openOut(); err != nil {
		return nil, err
	}
	err = b.run(ctx, func(ctx context.Context, j *job) (Result, error) { return b.seal(ctx, j, opts) })
	sum := b.summary()
	sum.Out = opts.To
	return sum, err
}

// A sealing is one piece on its way into a bag.
type sealing struct {
	b        *batch
	j        *job
	o        ArchiveOptions
	own      []archive.File // the maker's own files
	previous *archive.Revision
	prevSum  string
	revision int
	base     string
	result   Result
}

// seal makes the bag of one piece.
func (b *batch) seal(ctx context.Context, j *job, o ArchiveOptions) (Result, error) {
	s := &sealing{b: b, j: j, o: o, result: resultOf(j, LeftOut)}
	if faults(j.findings) {
		s.result.Findings = inOrder(j.findings)
		return s.result, nil
	}
	if err := s.gather(); err != nil {
		return s.result, err
	}
	if faults(s.result.Findings) {
		return s.result, nil
	}
	unchanged, err := s.compare()
	if err != nil {
		return s.result, err
	}
	if unchanged {
		s.result.Outcome = AlreadySealed
		return s.result, nil
	}
	return s.make(ctx)
}

// gather lists the maker's own files. Hidden files, links and pieces inside the
// piece are passed over.
func (s *sealing) gather() error {
	var names []string
	err := filepath.WalkDir(s.j.dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel := slash(s.j.dir, p)
		switch {
		case rel == ".":
		case strings.HasPrefix(d.Name(), "."):
			if d.IsDir() {
				return fs.SkipDir
			}
		case d.IsDir():
			if s.passedOver(p, rel) {
				return fs.SkipDir
			}
		case d.Type().IsRegular():
			names = append(names, rel)
		default:
			s.find(piece.Note, "archive.link", rel, "it is a link, not a file; links are not sealed", "put the file itself there if it belongs to the record")
		}
		return nil
	})
	if err != nil {
		return err
	}
	s.checkNames(names)
	for _, rel := range names {
		f := archive.File{Path: "piece/" + rel, Source: filepath.Join(s.j.dir, filepath.FromSlash(rel))}
		if s.o.Owner && slices.Contains(piece.SpecNames, rel) {
			data, err := os.ReadFile(f.Source)
			if err != nil {
				return err
			}
			if f.Data, err = redactSpec(data); err != nil {
				return err
			}
			f.Source = ""
		}
		s.own = append(s.own, f)
	}
	if w := s.j.workshop; w != nil && w.Dir != "" && !s.o.Owner {
		s.own = append(s.own, archive.File{Path: "workshop.yaml", Source: filepath.Join(w.Dir, piece.WorkshopName)})
	}
	return nil
}

// passedOver reports whether a folder in the piece folder is no part of its
// record.
func (s *sealing) passedOver(p, rel string) bool {
	if s.o.Owner && rel == "papers" {
		return true
	}
	for _, name := range piece.SpecNames {
		if _, err := os.Stat(filepath.Join(p, name)); err == nil {
			return true
		}
	}
	if _, err := os.Stat(filepath.Join(p, "bagit.txt")); err == nil {
		return true
	}
	abs, err1 := filepath.Abs(p)
	shelf, err2 := filepath.Abs(s.o.To)
	return err1 == nil && err2 == nil && abs == shelf
}

// checkNames finds names that do not survive a journey to another system.
func (s *sealing) checkNames(names []string) {
	twins := map[string]string{}
	for _, rel := range names {
		if !utf8.ValidString(rel) {
			s.find(piece.Fault, "archive.name", strings.ToValidUTF8(rel, "?"), "its name is not readable text (UTF-8)", "rename the file; letters, digits, - and _ survive everywhere")
			continue
		}
		key := strings.ToLower(norm.NFC.String(rel))
		if other, ok := twins[key]; ok {
			s.find(piece.Doubt, "archive.twins", rel, fmt.Sprintf("some systems take it and %q for one file: they differ only in case or in how accents are written", other), "rename one of them before the record is copied elsewhere")
		}
		twins[key] = rel
	}
}

func (s *sealing) find(rank piece.Rank, code, file, message, remedy string) {
	s.result.Findings = append(s.result.Findings, piece.Finding{Rank: rank, Code: code, File: file, Message: message, Remedy: remedy})
}

// compare looks for an earlier bag of the piece and whether the maker's own
// files are still those in it.
func (s *sealing) compare() (unchanged bool, err error) {
	s.base = s.result.Serial
	if s.o.Owner {
		s.base += ".owner"
	}
	s.revision = 1
	revs, err := archive.Revisions(s.o.To, s.base)
	if err != nil || len(revs) == 0 {
		return false, err
	}
	last := revs[len(revs)-1]
	s.previous, s.revision = &last, last.Number+1
	fsys, closer, err := archive.Open(last.Path)
	if err != nil {
		return false, fmt.Errorf("open the earlier bag %s: %w", last.Name, err)
	}
	defer closer()
	sums, manifestSum, err := archive.Payload(fsys)
	if err != nil {
		return false, fmt.Errorf("read the earlier bag %s: %w; slabfolio verify says more", last.Name, err)
	}
	s.prevSum = manifestSum
	own := 0
	for name := range sums {
		if strings.HasPrefix(name, "piece/") || name == "workshop.yaml" {
			own++
		}
	}
	if own != len(s.own) {
		return false, nil
	}
	for _, f := range s.own {
		sum, err := archive.Sum(f)
		if err != nil {
			return false, err
		}
		if sums[f.Path] != sum {
			return false, nil
		}
	}
	return true, nil
}

// make prepares the piece and seals it with what was made.
func (s *sealing) make(ctx context.Context) (Result, error) {
	inputs, err := inputNames(s.j)
	if err != nil {
		return s.result, err
	}
	seen, err := see(s.j, inputs)
	if err != nil {
		return s.result, err
	}
	st, ok, err := s.b.figures(s.j)
	if err != nil {
		return s.result, err
	}
	if !ok {
		s.result.Findings = inOrder(append(s.result.Findings, st.findings...))
		return s.result, nil
	}
	made, err := s.b.make(ctx, st)
	if err != nil {
		return s.result, err
	}
	s.result.Findings = append(s.result.Findings, made.Findings...)
	s.result.Photos = made.Photos
	out := filepath.Join(s.b.opts.Out, s.result.Serial)
	defer os.RemoveAll(out)
	bag := &archive.Bag{Name: archive.RevisionName(s.base, s.revision), Zip: s.o.Zip, Files: slices.Clone(s.own)}
	for i, f := range bag.Files {
		for _, in := range seen {
			if f.Source != "" && f.Path == "piece/"+in.Name {
				bag.Files[i].SHA256 = in.SHA256
			}
		}
	}
	if err := s.addPrepared(bag, out); err != nil {
		return s.result, err
	}
	readable, err := s.addReadable(bag, st)
	if err != nil {
		return s.result, err
	}
	s.describe(bag, st, readable)
	_, err = archive.Seal(ctx, s.o.To, bag)
	var changed *archive.ChangedError
	switch {
	case errors.As(err, &changed):
		s.find(piece.Fault, "archive.changed", strings.TrimPrefix(changed.Path, "piece/"), changed.Error(), "wait until nothing writes to it, then run archive again")
		s.result.Outcome = LeftOut
	case err != nil:
		return s.result, err
	default:
		s.result.Outcome = Sealed
		s.result.Bag = bag.Name
	}
	s.result.Findings = inOrder(s.result.Findings)
	return s.result, nil
}

// addPrepared takes the outputs in. The bundle and the overview's pictures only
// repeat what is there; the owner's copy leaves private documents out.
func (s *sealing) addPrepared(bag *archive.Bag, out string) error {
	return filepath.WalkDir(out, func(p string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() {
			return err
		}
		rel := slash(out, p)
		if rel == "listing.zip" || strings.HasPrefix(rel, "overview/") || s.o.Owner && (rel == "report.json" || rel == "shipping.pdf") {
			return nil
		}
		bag.Files = append(bag.Files, archive.File{Path: "prepared/" + rel, Source: p})
		return nil
	})
}

// addReadable puts a plain PNG beside every photo whose format may be hard to
// open one day.
func (s *sealing) addReadable(bag *archive.Bag, st *study) (any bool, err error) {
	for _, src := range st.sources {
		name := filepath.Join(s.j.dir, filepath.FromSlash(src.rel))
		format, err := photoFormat(name)
		if err != nil || !imaging.NeedsReadable(format) {
			continue
		}
		data, err := os.ReadFile(name)
		if err != nil {
			return any, err
		}
		png, _, err := imaging.Readable(data, st.imagingOptions(""))
		var refusal *decode.Refusal
		if errors.As(err, &refusal) {
			continue // its finding stands already, or it is not published
		}
		if err != nil {
			return any, fmt.Errorf("%s: %w", src.rel, err)
		}
		temp := filepath.Join(s.b.opts.Out, s.result.Serial, ".readable", src.rel+".png")
		if err := os.MkdirAll(filepath.Dir(temp), 0o755); err != nil {
			return any, err
		}
		if err := writeFile(temp, png); err != nil {
			return any, err
		}
		bag.Files = append(bag.Files, archive.File{Path: path.Join("readable", src.rel+".png"), Source: temp})
		any = true
	}
	return any, nil
}

// photoFormat tells the format of a photo from its first bytes.
func photoFormat(name string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	head := make([]byte, 256<<10)
	n, _ := f.Read(head)
	format, _, _, err := decode.Header(head[:n])
	if format != "" {
		err = nil
	}
	return format, err
}

// describe writes the page for a reader without any tool and the elements of
// bag-info.txt.
func (s *sealing) describe(bag *archive.Bag, st *study, readable bool) {
	p, w := &st.report.Public, s.j.workshop
	data := map[string]any{
		"Title": p.Title, "Serial": p.Serial, "Kind": p.Kind, "Finished": p.Finished, "Sealed": s.o.Today, "Owner": s.o.Owner,
		"Maker": "", "Workshop": !s.o.Owner && w != nil && w.Dir != "", "Readable": readable, "Revision": s.revision,
		"Predecessor": "", "PredecessorSum": s.prevSum, "Woods": "",
	}
	var woods []string
	for _, m := range p.Materials {
		if m.Role == "wood" || m.Role == "resin" {
			woods = append(woods, m.Name)
		}
	}
	data["Woods"] = strings.Join(woods, ", ")
	if p.Maker != nil {
		data["Maker"] = p.Maker.Name
	}
	if s.previous != nil {
		data["Predecessor"] = s.previous.Name
	}
	bag.Files = append(bag.Files, archive.File{Path: "README.txt", Data: []byte(st.words.Say("archive.readme", data) + "\n")})
	add := func(label, value string) { bag.Info = append(bag.Info, archive.Info{Label: label, Value: value}) }
	if p.Maker != nil {
		add("Source-Organization", p.Maker.Name)
		add("Organization-Address", p.Maker.Address)
		add("Contact-Name", p.Maker.Name)
		add("Contact-Phone", p.Maker.Phone)
		add("Contact-Email", p.Maker.Email)
		add("Bag-Group-Identifier", p.Maker.Name)
	}
	add("External-Description", st.words.Say("archive.description", data))
	add("Bagging-Date", s.o.Today)
	add("External-Identifier", p.Serial)
	add("Internal-Sender-Identifier", bag.Name)
	add("Internal-Sender-Description", st.words.Say("archive.sender", data))
	add("Revision", fmt.Sprint(s.revision))
	if s.previous != nil {
		add("Predecessor", s.previous.Name)
		add("Predecessor-Manifest-SHA512", s.prevSum)
	}
	add("Bag-Software-Agent", s.o.Software)
}
