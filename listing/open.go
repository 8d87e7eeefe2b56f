package listing

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"golang.org/x/sync/errgroup"

	"slabfolio/imaging"
	"slabfolio/listing/photos"
	"slabfolio/listing/report"
	"slabfolio/listing/sheet"
)

// open reads and analyses the photos and plans one tone for the set.
func (w *work) open(ctx context.Context) error {
	if err := w.makeRoom(ctx); err != nil {
		return err
	}
	return w.openWith(ctx, w.imagingOptions())
}

// openWith opens the photos, as many at once as the run allows.
func (w *work) openWith(ctx context.Context, o *imaging.Options) error {
	w.shots = photos.NewShots(w.sources)
	opener := &photos.Opener{
		Dir: w.job.Dir, Spec: &w.job.Piece.Photos, Options: o, Memory: w.b.memory, Most: photos.MemoryBudget(w.b.opts.Jobs),
	}
	published := func(sh *photos.Shot) bool { return sh.Source.Role == photos.Publish }
	err := w.eachShot(ctx, published, func(_ int, sh *photos.Shot) error { return opener.Open(ctx, sh) })
	if err != nil {
		return err
	}
	w.findings = append(w.findings, photos.SetAside(w.job.Piece, w.shots)...)
	w.findings = append(w.findings, photos.PlansAside(w.job.Piece, w.shots, w.report.Prefer)...)
	w.shots = photos.CoverFirst(w.shots)
	w.findings = append(w.findings, photos.ByChart(w.job.Piece, w.shots)...)
	imaging.Develop(photos.Opened(w.shots)) // a card whose place is given balances the others
	w.findings = append(w.findings, photos.CardsByName(w.job.Piece, w.shots)...)
	w.findings = append(w.findings, photos.Lead(&w.job.Piece.Photos, w.shots)...)
	photos.Number(w.shots)
	w.findings = append(w.findings, photos.Secretive(w.job.Piece, w.shots)...)
	w.describe()
	w.findings = append(w.findings, photos.Findings(w.job.Piece, w.shots)...)
	return nil
}

// describe words what each published photo shows.
func (w *work) describe() {
	var shown []*photos.Shot
	var what []report.Pictured
	for _, sh := range w.shots {
		if sh.Photo != nil {
			shown, what = append(shown, sh), append(what, report.Pictured{View: sh.Source.View, Caption: sh.Source.Caption})
		}
	}
	for i, alt := range report.AltTexts(w.words, &w.report.Public, what) {
		shown[i].Alt = alt
	}
}

// imagingOptions say how the photos of the piece are read.
func (w *work) imagingOptions() *imaging.Options {
	return &imaging.Options{
		Pure: w.opts.Codecs == "pure", MasterDir: w.masterDir, Sizes: w.sizes(), MaxPixels: w.opts.MaxMegapixels * 1_000_000,
	}
}

// eachShot does something with every photo that is wanted, as many at once as the
// run allows, and tells of each step. Errors come in the order of the photos.
func (w *work) eachShot(ctx context.Context, wanted func(*photos.Shot) bool, do func(i int, sh *photos.Shot) error) error {
	return w.startShots(ctx, wanted, do)()
}

// startShots is eachShot that returns when the last of them has begun, with what waits
// for all.
func (w *work) startShots(ctx context.Context, wanted func(*photos.Shot) bool, do func(i int, sh *photos.Shot) error) (wait func() error) {
	var wg sync.WaitGroup
	errs := make([]error, len(w.shots))
	for i, sh := range w.shots {
		if !wanted(sh) {
			continue
		}
		select {
		case w.b.slots <- struct{}{}:
		case <-ctx.Done():
		}
		if ctx.Err() != nil {
			break
		}
		wg.Go(func() {
			defer func() { <-w.b.slots }()
			errs[i] = do(i, sh)
			w.b.tell(Event{Kind: StepDone, Piece: w.job.Dir, Serial: w.result.Serial})
		})
	}
	return func() error {
		wg.Wait()
		return errors.Join(append(errs, ctx.Err())...)
	}
}

// close gives back what the photos hold.
func (w *work) close() {
	for _, p := range photos.Opened(w.shots) {
		p.Close()
	}
	w.b.held.Release(max(w.holds.Swap(0), 0))
}

// heldInMemory is how many photos of a piece are kept in memory while the set is
// looked at; those of a bigger set wait on the disk. One takes about 23 MB.
const heldInMemory = 12

// heldByRun is how many photos of all pieces that are worked on at once are kept in
// memory; a piece whose photos find no room waits for those of another.
func heldByRun(jobs int) int64 { return int64(heldInMemory * max(1, jobs/4)) }

// makeRoom waits until there is room in memory for the photos of a piece, or makes
// the folder where those of a big set wait.
func (w *work) makeRoom(ctx context.Context) error {
	n := 0
	for _, s := range w.sources {
		if s.Role == photos.Publish {
			n++
		}
	}
	if n <= heldInMemory {
		if err := w.b.held.Acquire(ctx, int64(n)); err != nil {
			return err
		}
		w.holds.Store(int64(n))
		return nil
	}
	w.masterDir = filepath.Join(w.folder.Dir, ".masters")
	return os.MkdirAll(w.masterDir, 0o755)
}

// done gives back what a photo holds that is rendered, where no document shows it.
func (w *work) done(p *imaging.Photo) {
	if slices.ContainsFunc(w.pictured, func(d pictured) bool { return d.photo == p }) {
		return
	}
	p.Close()
	if w.holds.Add(-1) >= 0 {
		w.b.held.Release(1)
	} else {
		w.holds.Add(1) // of a big set, or a photo more than was thought
	}
}

// codecs names what read the photos, and the --codecs word that chose it.
func (w *work) codecs() string {
	var names []string
	for _, sh := range w.shots {
		if sh.Photo != nil && !slices.Contains(names, sh.Photo.Codec) {
			names = append(names, sh.Photo.Codec)
		}
	}
	slices.Sort(names)
	return strings.Join(append([]string{w.opts.Codecs}, names...), ", ")
}

// mostPictures is how many photos the documents are given: the main one and a
// few of the next.
const mostPictures = sheet.MostPictures

// A pictured is a photo that the documents show, and how wide in pixels.
type pictured struct {
	photo  *imaging.Photo
	source photos.Source
	name   string // of its file to upload
	alt    string
	width  int
}

// choosePictures chooses the photos for the documents. Each gets a pixel width of
// its own: the library that lays PDFs out orders pictures by it.
func choosePictures(shots []*photos.Shot) (shown []pictured) {
	var widths []int
	for _, sh := range shots {
		if sh.Photo == nil || len(shown) == mostPictures {
			continue
		}
		width := 1800
		if len(shown) > 0 {
			width = 1000
		}
		for width = min(width, sh.Photo.CropW); slices.Contains(widths, width); width-- {
		}
		if width < photos.LeastSide {
			continue // a dozen small photos have used the widths up
		}
		shown, widths = append(shown, pictured{sh.Photo, sh.Source, uploadName(sh.Name), sh.Alt, width}), append(widths, width)
	}
	return shown
}

// pictures encodes the photos of the documents. One that cannot be encoded is
// left out of them; that it cannot be rendered is said where that is found.
func (w *work) pictures(ctx context.Context) ([]sheet.Picture, error) {
	made := make([]sheet.Picture, len(w.pictured))
	err := w.eachDocument(ctx, len(w.pictured), func(i int) error {
		p := w.pictured[i]
		if pic, err := p.photo.PDFPicture(p.width); err == nil {
			made[i] = sheet.Picture{
				JPEG: pic.Data, Width: pic.Width, Height: pic.Height,
				Alt: p.alt, Caption: p.source.Caption, Name: p.name,
			}
		}
		return nil
	})
	return slices.DeleteFunc(made, func(p sheet.Picture) bool { return p.JPEG == nil }), err
}

// waitForPhotos waits until the last photo is being rendered.
func (w *work) waitForPhotos(ctx context.Context) error {
	select {
	case <-w.begun:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// eachDocument does n things for the documents, as many at once as the run has
// room for beside the photos.
func (w *work) eachDocument(ctx context.Context, n int, do func(i int) error) error {
	var g errgroup.Group
	for i := range n {
		g.Go(func() error {
			select {
			case w.b.slots <- struct{}{}:
				defer func() { <-w.b.slots }()
				return do(i)
			case <-ctx.Done():
				return ctx.Err()
			}
		})
	}
	return g.Wait()
}
