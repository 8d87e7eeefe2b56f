package listing

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"slabfolio/imaging"
	"slabfolio/imaging/decode"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/sheet"
	"slabfolio/templates"
)

// A study is all that is known of one piece before anything is written.
type study struct {
	job      *job
	opts     Options
	words    *templates.Words
	report   *report.Report
	sources  []source // every photo file, in the order of publication
	shots    []*shot  // the photos that could be opened, in that order
	findings []piece.Finding
}

// A shot is one photo on its way.
type shot struct {
	source source
	photo  *imaging.Photo // nil when it was refused
	err    error          // why
	name   string         // "01-three-quarter"; empty when it is not published
	record *report.PhotoRecord
}

// faults reports whether the piece itself cannot be done right.
func faults(findings []piece.Finding) bool {
	return slices.ContainsFunc(findings, func(f piece.Finding) bool { return f.Rank == piece.Fault && !isPhotoFault(f) })
}

// isPhotoFault tells a fault that costs a photo from one that costs the piece.
func isPhotoFault(f piece.Finding) bool { return len(f.Code) > 6 && f.Code[:6] == "photo." }

// figures runs the calculators; it returns false when the piece is left out.
func (b *batch) figures(j *job) (*study, bool, error) {
	s := &study{job: j, opts: b.opts.withDefaults(j.workshop), findings: slices.Clone(j.findings)}
	if faults(s.findings) {
		return s, false, nil
	}
	words, err := b.words(s.opts.Lang)
	if err != nil {
		return nil, false, err
	}
	s.words = words
	all, err := findPhotos(j.dir)
	if err != nil {
		return nil, false, err
	}
	sources, findings := arrangePhotos(j.piece, all)
	s.sources = sources
	s.findings = append(append(s.findings, findings...), passedOver(j.dir)...)
	r, err := report.Build(j.piece, j.workshop, report.Options{
		Prefer: s.opts.Units, Paper: s.opts.Paper, Lang: s.opts.Lang, Words: words,
	})
	if err != nil {
		return nil, false, err
	}
	r.Codecs = s.opts.Codecs
	s.report = r
	s.findings = append(append(s.findings, r.Findings...), unprintable(r)...)
	return s, !faults(s.findings), nil
}

// unprintable says which letters the documents cannot show.
func unprintable(r *report.Report) []piece.Finding {
	letters := sheet.Unprintable(r)
	if len(letters) == 0 {
		return nil
	}
	shown, more := letters[:min(len(letters), 8)], ""
	if n := len(letters) - len(shown); n > 0 {
		more = fmt.Sprintf(" and %d more", n)
	}
	return []piece.Finding{{
		Rank: piece.Doubt, Code: "sheet.letters",
		Message: fmt.Sprintf("the fonts of the documents lack %s%s; a replacement sign is printed instead", strings.Join(strings.Split(string(shown), ""), " "), more),
		Remedy:  "write it in Latin, Greek or Cyrillic letters; the listing page shows it as it is",
	}}
}

// open reads and analyses the photos, as many at once as the run allows, and
// plans one tone for the set.
func (b *batch) open(ctx context.Context, s *study, o *imaging.Options) error {
	for _, src := range s.sources {
		s.shots = append(s.shots, &shot{source: src, record: &report.PhotoRecord{Source: src.rel, View: src.view}})
	}
	for _, sh := range s.shots {
		if sh.source.role != rolePublish {
			sh.record.Refused = notShown[sh.source.role]
		}
	}
	published := func(sh *shot) bool { return sh.source.role == rolePublish }
	err := b.eachShot(ctx, s, published, func(_ int, sh *shot) error { return b.openShot(ctx, s, sh, o) })
	if err != nil {
		return err
	}
	photos := make([]*imaging.Photo, 0, len(s.shots))
	for _, sh := range s.shots {
		if sh.photo != nil {
			photos = append(photos, sh.photo)
		}
	}
	imaging.Develop(photos)
	n := 0
	var findings []piece.Finding
	for _, sh := range s.shots {
		if sh.photo != nil {
			n++
			sh.name = publishedName(n, sh.source)
			sh.record.Name = sh.name
		}
		findings = append(findings, shotFindings(sh)...)
	}
	s.findings = append(s.findings, gather(append(findings, setFindings(s)...))...)
	return nil
}

// eachShot does something with every photo that is wanted, as many at once as the
// run allows, and tells of each step. Errors come in the order of the photos.
func (b *batch) eachShot(ctx context.Context, s *study, wanted func(*shot) bool, do func(i int, sh *shot) error) error {
	var wg sync.WaitGroup
	errs := make([]error, len(s.shots))
	for i, sh := range s.shots {
		if !wanted(sh) {
			continue
		}
		select {
		case b.slots <- struct{}{}:
		case <-ctx.Done():
		}
		if ctx.Err() != nil {
			break
		}
		wg.Go(func() {
			defer func() { <-b.slots }()
			errs[i] = do(i, sh)
			b.tell(Event{Kind: "step", Piece: s.job.dir, Serial: s.job.piece.Serial.V})
		})
	}
	wg.Wait()
	return errors.Join(append(errs, ctx.Err())...)
}

// notShown says in the report why a photo is not published.
var notShown = map[string]string{
	rolePlan:    "measured from, not published",
	rolePacked:  "how it was packed: private",
	roleLeftOut: "left out by photos.leave_out",
	roleFrame:   "a frame of a blend",
	roleRaw:     "the camera's raw file of a photo that is published",
}

func (b *batch) openShot(ctx context.Context, s *study, sh *shot, o *imaging.Options) error {
	path := filepath.Join(s.job.dir, filepath.FromSlash(sh.source.rel))
	need := min(memoryFor(path, pick(o.MaxPixels, decode.DefaultMaxPixels)), memoryBudget(b.opts.Jobs))
	if err := b.memory.Acquire(ctx, need); err != nil {
		return err
	}
	defer b.memory.Release(need)
	data, err := readPhoto(path)
	if err != nil {
		sh.err = err
		sh.record.Refused = err.Error()
		return nil
	}
	spec := &s.job.piece.Photos
	req := imaging.Request{
		Name: sh.source.rel, Data: data,
		ToneAsShot: spec.Tone.V == "as shot", CropAsShot: spec.Crop.V == "as shot",
		CropBox: boxFor(spec.CropBoxes, sh.source), GreyCard: boxFor(spec.GreyCard, sh.source),
	}
	photo, err := imaging.Open(req, o)
	var refusal *decode.Refusal
	switch {
	case errors.As(err, &refusal):
		sh.err = refusal
		sh.record.Refused = refusal.Message
	case err != nil:
		return fmt.Errorf("%s: %w", sh.source.rel, err)
	default:
		if sh.err = fitToShow(photo.CropW, photo.CropH); sh.err != nil {
			sh.record.Refused = sh.err.Error()
			photo.Close()
			return nil
		}
		sh.photo = photo
	}
	return nil
}

// What can be shown: fewer pixels than leastSide along a side are no photo, and a
// strip longer than mostRatio times its width fits no page and no file format.
const (
	leastSide = 32
	mostRatio = 10
)

// fitToShow returns why a picture of this size, in pixels, cannot be published.
func fitToShow(w, h int) error {
	short, long := min(w, h), max(w, h)
	switch {
	case short < leastSide:
		return fmt.Errorf("what is to be shown of it has only %d × %d pixels, too few for a photo; use the camera's full size", w, h)
	case long > mostRatio*short:
		return fmt.Errorf("what is to be shown of it is a strip of %d × %d pixels, more than %d times as long as wide; crop it", w, h, mostRatio)
	}
	return nil
}

// maxPhotoFile is more than any photo of the most pixels that are read takes.
const maxPhotoFile = 1 << 30

// readPhoto reads a photo's file. The error is for the maker: it costs the photo,
// and no more than that.
func readPhoto(path string) ([]byte, error) {
	f, info, err := openRegular(path)
	var data []byte
	if err == nil {
		defer f.Close() // read only
		if info.Size() > maxPhotoFile {
			return nil, fmt.Errorf("the file has %.1f GB, more than a photo can have; export it smaller", float64(info.Size())/1e9)
		}
		data = make([]byte, info.Size())
		_, err = io.ReadFull(f, data)
	}
	switch {
	case errors.Is(err, errNotRegular):
		return nil, errors.New("it is no ordinary file any more; it was one when the run began")
	case errors.Is(err, io.ErrUnexpectedEOF):
		return nil, errors.New("it was cut short while the run was on; run again when nothing writes to it")
	case errors.Is(err, fs.ErrPermission):
		return nil, errors.New("not allowed to read it; look at who may")
	case errors.Is(err, fs.ErrNotExist):
		return nil, errors.New("it went away while the run was on; put it back, or run again without it")
	case err != nil:
		return nil, errors.New("it cannot be read from the disk; copy it from the camera again")
	}
	return data, nil
}

// boxFor finds the box that the spec gives for a photo, under any of its names.
func boxFor(boxes map[string]piece.Value[piece.Box], s source) *[4]float64 {
	for _, name := range sortedKeys(boxes) {
		if findByName([]source{s}, name) == 0 {
			box := [4]float64(boxes[name].V)
			return &box
		}
	}
	return nil
}

// close gives back what the photos hold.
func (s *study) close() {
	for _, sh := range s.shots {
		if sh.photo != nil {
			sh.photo.Close()
		}
	}
}

// check is the job of the check command: everything but writing.
func (b *batch) check(ctx context.Context, j *job) (Result, error) {
	r := resultOf(j, Checked)
	s, ok, err := b.figures(j)
	if err != nil {
		return r, err
	}
	if ok {
		defer s.close()
		o := s.imagingOptions("")
		o.LookOnly = true
		if err := b.open(ctx, s, o); err != nil {
			return r, err
		}
		for _, sh := range s.shots {
			if sh.name != "" {
				r.Photos++
			}
		}
	} else {
		r.Outcome = LeftOut
	}
	r.Findings = inOrder(s.findings)
	return r, nil
}

func (s *study) imagingOptions(spill string) *imaging.Options {
	return &imaging.Options{
		Pure: s.opts.Codecs == "pure", Spill: spill, Sizes: s.sizes(), MaxPixels: s.opts.MaxMegapixels * 1_000_000,
	}
}

func resultOf(j *job, outcome string) Result {
	r := Result{Dir: j.dir, Outcome: outcome}
	if j.piece != nil {
		r.Serial, r.Title = j.piece.Serial.V, j.piece.Title.V
	}
	return r
}

// inOrder puts what matters most first; within a rank, the order of the file.
func inOrder(findings []piece.Finding) []piece.Finding {
	rank := map[piece.Rank]int{piece.Fault: 0, piece.Doubt: 1, piece.Note: 2}
	out := slices.Clone(findings)
	slices.SortStableFunc(out, func(a, b piece.Finding) int { return rank[a.Rank] - rank[b.Rank] })
	return out
}
