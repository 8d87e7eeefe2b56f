package listing

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/sync/errgroup"

	"slabfolio/listing/page"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/sheet"
)

// prepare is the job of the prepare command: one piece folder in, one finished
// output folder out.
func (b *batch) prepare(ctx context.Context, j *job) (Result, error) {
	left := resultOf(j, LeftOut)
	if faults(j.findings) {
		left.Findings = inOrder(j.findings)
		return left, nil
	}
	o := b.opts.withDefaults(j.workshop)
	inputs, err := inputNames(j)
	if err != nil {
		return left, err
	}
	if r, ok := b.recall(j, o, inputs); ok {
		return r, nil
	}
	seen := see(j, inputs, b.opts.Jobs)
	s, ok, err := b.figures(j)
	if err != nil {
		return left, err
	}
	if !ok {
		left.Findings = inOrder(s.findings)
		return left, nil
	}
	r, err := b.make(ctx, s)
	if errors.Is(err, errBusy) {
		left.Findings = []piece.Finding{{Rank: piece.Fault, Code: codeBusy, Message: fmt.Sprintf("%s: %v", left.Serial, errBusy)}}
		return left, nil
	}
	if errors.Is(err, errTaken) {
		left.Findings = append(inOrder(s.findings), takenFinding(b.opts.Out, left.Serial))
		return left, nil
	}
	if err != nil {
		return left, err
	}
	b.remember(j, o, seen, r)
	return r, nil
}

// inputNames lists what the outputs depend on: the specs and every photo.
func inputNames(j *job) ([]string, error) {
	photos, err := findPhotos(j.dir)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, name := range []string{"piece.yaml", "piece.yml"} {
		if _, err := os.Stat(filepath.Join(j.dir, name)); err == nil {
			names = append(names, name)
			break
		}
	}
	if j.workshop != nil && j.workshop.Dir != "" {
		abs, err := filepath.Abs(filepath.Join(j.workshop.Dir, "workshop.yaml"))
		if err != nil {
			return nil, err
		}
		names = append(names, abs)
	}
	for _, p := range photos {
		names = append(names, p.rel)
	}
	return names, nil
}

// make builds the output folder of one piece and puts it in its place.
func (b *batch) make(ctx context.Context, s *study) (Result, error) {
	r := resultOf(s.job, Prepared)
	st, err := newStage(b.opts.Out, r.Serial)
	if err != nil {
		return r, err
	}
	defer st.abandon()
	if err := checkPlace(filepath.Join(b.opts.Out, r.Serial), r.Serial); err != nil {
		return r, err
	}
	spill, err := s.spill(st)
	if err != nil {
		return r, err
	}
	defer s.close()
	if err := b.open(ctx, s, s.imagingOptions(spill)); err != nil {
		return r, err
	}
	earlier := readReport(filepath.Join(b.opts.Out, r.Serial))
	type step struct {
		group string // the --only word that this step belongs to; "" is always done
		do    func(context.Context, *study, *stage) error
	}
	run := func(steps ...step) error {
		for _, step := range steps {
			if err := ctx.Err(); err != nil {
				return err
			}
			if !b.wants(step.group, earlier) {
				if step.group == OnlyPhotos {
					s.takePhotosFrom(earlier)
				}
				continue
			}
			if err := step.do(ctx, s, st); err != nil {
				return fmt.Errorf("%s: %w", s.job.dir, err)
			}
		}
		return nil
	}
	if err := run(step{OnlyPhotos, b.writePhotos}); err != nil {
		return r, err
	}
	s.report.Findings, s.report.Codecs = inOrder(s.findings), s.codecs()
	var g errgroup.Group // from here on the report is only read
	g.Go(func() error { return run(step{OnlyDocuments, b.writeDocuments}) })
	g.Go(func() error {
		return run(step{OnlyListing, b.writePages}, step{"", b.writeReport}, step{OnlyListing, b.writeZip})
	})
	if err := g.Wait(); err != nil {
		return r, err
	}
	if spill != "" {
		s.close()
		if err := os.RemoveAll(spill); err != nil {
			return r, err
		}
	}
	r.Photos = len(s.report.Public.Photos)
	r.Findings = s.report.Findings
	return r, st.commit()
}

// heldInMemory is how many photos of a piece are kept in memory while the set is
// looked at; those of a bigger set wait on the disk. One takes about 23 MB.
const heldInMemory = 12

// spill makes the folder where the photos of a big set wait; "" for a small one.
func (s *study) spill(st *stage) (string, error) {
	n := 0
	for _, src := range s.sources {
		if src.role == rolePublish {
			n++
		}
	}
	if n <= heldInMemory {
		return "", nil
	}
	dir := filepath.Join(st.dir, ".masters")
	return dir, os.MkdirAll(dir, 0o755)
}

// wants says whether a group of outputs is made in this run. --only listing
// makes the photos too when there are none yet.
func (b *batch) wants(group string, earlier *report.Report) bool {
	only := b.opts.Only
	return only == "" || group == "" || group == only ||
		only == OnlyListing && group == OnlyPhotos && (earlier == nil || len(earlier.Public.Photos) == 0)
}

// groupOf says which group a file of the output folder belongs to.
func groupOf(rel string) string {
	switch {
	case strings.HasPrefix(rel, "listing/photos/"), strings.HasPrefix(rel, "listing/upload/"), strings.HasPrefix(rel, "overview/"):
		return OnlyPhotos
	case strings.HasPrefix(rel, "listing/"), rel == "listing.zip":
		return OnlyListing
	case slices.Contains([]string{"sheet.pdf", "care.pdf", "label.pdf", "shipping.pdf"}, rel):
		return OnlyDocuments
	}
	return ""
}

// takePhotosFrom uses the photos that an earlier run made.
func (s *study) takePhotosFrom(earlier *report.Report) {
	if earlier == nil {
		return
	}
	s.report.Public.Photos = earlier.Public.Photos
	s.report.Photos = earlier.Photos
	s.report.Accent, s.report.AccentDark = earlier.Accent, earlier.AccentDark
}

func (b *batch) writePages(_ context.Context, s *study, st *stage) error {
	o := &page.Options{Words: s.words, Prefer: s.opts.Units}
	html, err := page.Listing(s.report, o)
	if err != nil {
		return err
	}
	text, err := page.Text(s.report, o)
	if err != nil {
		return err
	}
	data, err := report.PublicJSON(s.report)
	if err != nil {
		return err
	}
	return errors.Join(
		st.write("listing/index.html", html),
		st.write("listing/listing.txt", text),
		st.write("listing/listing.json", data),
	)
}

// mostPictures is how many photos the documents are given: the main one and a
// few of the next.
const mostPictures = 4

// pictures re-encodes photos for the documents. Each gets a pixel width of its
// own: the library that lays PDFs out orders pictures by it.
func (s *study) pictures(jobs int) ([]sheet.Picture, error) {
	var shown []*shot
	var widths []int
	for _, sh := range s.shots {
		if sh.photo == nil || len(shown) == mostPictures {
			continue
		}
		w := 1800
		if len(shown) > 0 {
			w = 1000
		}
		for w = min(w, sh.photo.CropW); slices.Contains(widths, w); w-- {
		}
		if w < leastSide {
			continue // a dozen small photos have used the widths up
		}
		shown, widths = append(shown, sh), append(widths, w)
	}
	pictures := make([]sheet.Picture, len(shown))
	var g errgroup.Group
	g.SetLimit(jobs)
	for i, sh := range shown {
		g.Go(func() error {
			pic, err := sh.photo.Hero(widths[i])
			if err != nil {
				return fmt.Errorf("%s: %w", sh.source.rel, err)
			}
			pictures[i] = sheet.Picture{
				JPEG: pic.Data, Width: pic.Width, Height: pic.Height,
				Alt: report.AltText(&s.report.Public, sh.source.view, sh.source.caption), Caption: sh.source.caption,
			}
			return nil
		})
	}
	return pictures, g.Wait()
}

// writeDocuments makes the PDFs.
func (b *batch) writeDocuments(_ context.Context, s *study, st *stage) error {
	pictures, err := s.pictures(b.opts.Jobs)
	if err != nil {
		return err
	}
	o := &sheet.Options{Words: s.words, Paper: s.opts.Paper, Prefer: s.opts.Units, Accent: parseAccent(s.report.Accent), Pictures: pictures, Version: s.opts.Version}
	documents := []struct {
		name string
		make func(*report.Report, *sheet.Options) ([]byte, error)
	}{
		{"sheet.pdf", sheet.Sheet},
		{"care.pdf", sheet.Care},
		{"label.pdf", sheet.Label},
		{"shipping.pdf", sheet.Shipping},
	}
	var g errgroup.Group
	g.SetLimit(b.opts.Jobs)
	for _, d := range documents {
		g.Go(func() error {
			data, err := d.make(s.report, o)
			if err != nil {
				return fmt.Errorf("%s: %w", d.name, err)
			}
			return st.write(d.name, data)
		})
	}
	return g.Wait()
}

func parseAccent(hex string) (rgb [3]uint8) {
	if _, err := fmt.Sscanf(hex, "#%02x%02x%02x", &rgb[0], &rgb[1], &rgb[2]); err != nil {
		return [3]uint8{}
	}
	return rgb
}

// writeReport writes report.json, after taking over the outputs that this run
// does not make.
func (b *batch) writeReport(_ context.Context, s *study, st *stage) error {
	if b.opts.Only != "" {
		err := st.keep(func(rel string) bool { g := groupOf(rel); return g != "" && g != b.opts.Only })
		if err != nil {
			return err
		}
	}
	data, err := report.JSON(s.report)
	if err != nil {
		return err
	}
	return st.write("report.json", data)
}

// codecs names what read the photos, and the --codecs word that chose it.
func (s *study) codecs() string {
	var names []string
	for _, sh := range s.shots {
		if sh.photo != nil && !slices.Contains(names, sh.photo.Codec) {
			names = append(names, sh.photo.Codec)
		}
	}
	slices.Sort(names)
	return strings.Join(append([]string{s.opts.Codecs}, names...), ", ")
}

func (b *batch) writeZip(_ context.Context, s *study, st *stage) error {
	data, err := zipFolder(os.DirFS(filepath.Join(st.dir, "listing")), s.report.Public.Serial)
	if err != nil {
		return err
	}
	return st.write("listing.zip", data)
}
