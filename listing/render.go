package listing

import (
	"context"
	"errors"
	"fmt"
	"math"

	"slabfolio/imaging"
	"slabfolio/imaging/rendition"
	"slabfolio/listing/page"
	"slabfolio/listing/photos"
	"slabfolio/listing/report"
)

// announce says in the report which photos will be published, as far as that is
// known before they are rendered, and takes the colour of the documents.
func (w *work) announce(context.Context) error {
	w.chooseAccent()
	printed := *w.report
	printed.Public.Photos = nil
	for _, sh := range w.shots {
		if sh.Photo != nil {
			printed.Public.Photos = append(printed.Public.Photos, w.announced(sh))
		}
	}
	w.forDocuments, w.pictured = &printed, choosePictures(w.shots)
	for _, t := range w.tongues {
		t.forDocuments = t.withPhotos(t.report, w.forDocuments, w.captionsIn(t.tag()))
	}
	return nil
}

// announced is a photo in the report before it has files.
func (w *work) announced(sh *photos.Shot) report.Photo {
	return report.Photo{
		Alt: sh.Alt, View: sh.Source.View, Caption: sh.Source.Caption,
		Upload: uploadName(sh.Name),
	}
}

// addPhotos renders every published photo and notes what became of each.
func (w *work) addPhotos(ctx context.Context) error {
	sizes := w.sizes()
	made := make([]*report.Photo, len(w.shots))
	opened := func(sh *photos.Shot) bool { return sh.Photo != nil }
	wait := w.startShots(ctx, opened, func(i int, sh *photos.Shot) (err error) {
		photo := sh.Photo
		made[i], err = w.renderShot(sh, sizes)
		w.done(photo)
		return err
	})
	w.allBegun()
	if err := wait(); err != nil {
		return err
	}
	if err := w.writePlan(); err != nil {
		return err
	}
	for i, sh := range w.shots {
		if made[i] != nil {
			w.report.Public.Photos = append(w.report.Public.Photos, *made[i])
		}
		w.report.Photos = append(w.report.Photos, *sh.Record)
		if sh.Name != "" && sh.Err != nil { // opened, and refused since
			w.findings = append(w.findings, photos.Refused(sh))
		}
	}
	if w.planRecord != nil {
		w.report.Photos = append(w.report.Photos, *w.planRecord)
	}
	if len(w.report.Public.Photos) == 0 {
		return nil
	}
	return w.folder.Write("listing/upload/alt.txt", page.AltTexts(w.report))
}

// uploadSize is the size whose files go into upload/: the widest JPEG of the
// photo's own shape; -1 when there is none.
func uploadSize(sizes []rendition.Size) int {
	best := -1
	for i, z := range sizes {
		if z.Format == "jpeg" && z.RatioW == 0 && (best < 0 || z.Width > sizes[best].Width) {
			best = i
		}
	}
	return best
}

// renderShot writes all files of one photo and fills its record.
func (w *work) renderShot(sh *photos.Shot, sizes []rendition.Size) (*report.Photo, error) {
	photo := w.announced(sh)
	files, err := sh.Photo.Render(sizes, w.meta(sh, photo.Alt))
	if err != nil {
		sh.Refuse(fmt.Errorf("its pictures could not be made (%w); export it anew as a JPEG", err))
		return nil, nil
	}
	upload := uploadSize(sizes)
	var shapes []string
	for i, f := range files {
		if s := photos.OtherShape(f.Size, f.Width, f.Height); s != "" {
			shapes = append(shapes, s)
		}
		name := "photos/" + sh.Name + f.Size.Suffix
		if err := w.folder.Write("listing/"+name, f.Data); err != nil {
			return nil, err
		}
		sh.Record.Outputs = append(sh.Record.Outputs, "listing/"+name)
		photo.Renditions = append(photo.Renditions, report.Rendition{Name: f.Size.Name, File: name, Width: f.Width, Height: f.Height, Format: f.Size.Format})
		if i == upload {
			photo.File, photo.Width, photo.Height = name, f.Width, f.Height
			if err := w.folder.Write("listing/"+photo.Upload, f.Data); err != nil {
				return nil, err
			}
			sh.Record.Outputs = append(sh.Record.Outputs, "listing/"+photo.Upload)
		}
	}
	return &photo, w.renderOverview(sh, shapes)
}

// renderOverview writes the small pictures of the maker's overview, and what was done to
// the photo, with its shapes that are others than their names say.
func (w *work) renderOverview(sh *photos.Shot, shapes []string) error {
	sh.Record.Before, sh.Record.After = "overview/"+sh.Name+"-before.jpg", "overview/"+sh.Name+"-after.jpg"
	sh.Record.Done = append(photos.Done(sh.Photo), shapes...)
	if sh.Blended != "" {
		sh.Record.Done = append([]string{sh.Blended}, sh.Record.Done...)
	}
	sh.Record.Steps = photos.Steps(sh.Photo, len(sh.Record.Outputs), shapes)
	sh.Record.Numbers = sh.Photo.Numbers
	h := sh.Photo.Histogram
	sh.Record.Tones = &report.Tones{Before: inTenThousandths(h[0]), After: inTenThousandths(h[1])}
	return errors.Join(w.folder.Write(sh.Record.Before, sh.Photo.Before), w.folder.Write(sh.Record.After, sh.Photo.After))
}

// inTenThousandths writes shares in 1/10000.
func inTenThousandths(shares [64]float64) []int {
	out := make([]int, len(shares))
	for i, v := range shares {
		out[i] = int(math.Round(v * 10000))
	}
	return out
}

func (w *work) meta(sh *photos.Shot, alt string) rendition.Meta {
	pub := &w.report.Public
	m := rendition.Meta{Title: pub.Title, Description: pub.Story, Alt: alt, Taken: day(sh.Photo.Taken), Copyright: w.report.Rights, Composite: sh.Source.Blend != nil}
	if pub.Maker != nil {
		m.Creator, m.Credit = pub.Maker.Name, pub.Maker.Name
	}
	if sh.Source.Caption != "" {
		m.Description = sh.Source.Caption
	}
	return m
}

// day is the date of a moment, without time and zone: they would tell where the
// maker was and when.
func day(taken string) string {
	return taken[:min(len(taken), len("2026-09-18"))]
}

func extension(format string) string {
	if format == "webp" {
		return ".webp"
	}
	return ".jpg"
}

// chooseAccent takes the one colour of the documents from the wood of the piece:
// of the main photo, or of the next one where it is surely found.
func (w *work) chooseAccent() {
	seen := make([]*imaging.Photo, len(w.shots))
	for i, sh := range w.shots {
		seen[i] = sh.Photo
	}
	if a, ok := imaging.SetAccent(seen); ok {
		w.report.Accent = fmt.Sprintf("#%02x%02x%02x", a.OnWhite.R, a.OnWhite.G, a.OnWhite.B)
		w.report.AccentDark = fmt.Sprintf("#%02x%02x%02x", a.OnDark.R, a.OnDark.G, a.OnDark.B)
	}
}
