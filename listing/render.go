package listing

import (
	"context"
	"errors"
	"fmt"
	"math"

	"slabfolio/imaging/rendition"
	"slabfolio/listing/page"
	"slabfolio/listing/report"
)

// writePhotos renders every published photo and notes what became of each.
func (b *batch) writePhotos(ctx context.Context, s *study, st *stage) error {
	sizes := s.sizes()
	photos := make([]*report.Photo, len(s.shots))
	opened := func(sh *shot) bool { return sh.photo != nil }
	err := b.eachShot(ctx, s, opened, func(i int, sh *shot) (err error) {
		photos[i], err = s.renderShot(sh, sizes, st)
		return err
	})
	if err != nil {
		return err
	}
	for i, sh := range s.shots {
		if photos[i] != nil {
			s.report.Public.Photos = append(s.report.Public.Photos, *photos[i])
		}
		s.report.Photos = append(s.report.Photos, *sh.record)
	}
	if len(s.report.Public.Photos) == 0 {
		return nil
	}
	s.takeAccent()
	return st.write("listing/upload/alt.txt", page.AltTexts(s.report))
}

// sizes are the renditions that the workshop asks for, or the usual ones.
func (s *study) sizes() []rendition.Size {
	if s.job.workshop == nil || len(s.job.workshop.Sizes) == 0 {
		return rendition.DefaultSizes()
	}
	var sizes []rendition.Size
	for _, z := range s.job.workshop.Sizes {
		size := rendition.Size{Name: z.Name.V, Width: z.Width.V, Format: pick(z.Format.V, "jpeg"), Quality: z.Quality.V}
		size.Suffix = "-" + slug(z.Name.V) + extension(size.Format)
		size.Quality = pick(size.Quality, map[string]int{"jpeg": 85, "webp": 80}[size.Format])
		if z.Ratio.Set() {
			fmt.Sscanf(z.Ratio.V, "%d:%d", &size.RatioW, &size.RatioH)
		}
		sizes = append(sizes, size)
	}
	if uploadSize(sizes) < 0 {
		sizes = append([]rendition.Size{rendition.DefaultSizes()[0]}, sizes...)
	}
	return sizes
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
func (s *study) renderShot(sh *shot, sizes []rendition.Size, st *stage) (*report.Photo, error) {
	pub := &s.report.Public
	photo := &report.Photo{
		Alt: report.AltText(pub, sh.source.view, sh.source.caption), View: sh.source.view, Caption: sh.source.caption,
		Upload: "upload/" + sh.name + ".jpg",
	}
	files, err := sh.photo.Render(sizes, s.meta(sh, photo.Alt))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", sh.source.rel, err)
	}
	upload := uploadSize(sizes)
	for i, f := range files {
		name := "photos/" + sh.name + f.Size.Suffix
		if err := st.write("listing/"+name, f.Data); err != nil {
			return nil, err
		}
		sh.record.Outputs = append(sh.record.Outputs, "listing/"+name)
		photo.Renditions = append(photo.Renditions, report.Rendition{Name: f.Size.Name, File: name, Width: f.Width, Height: f.Height, Format: f.Size.Format})
		if i == upload {
			photo.File, photo.Width, photo.Height = name, f.Width, f.Height
			if err := st.write("listing/"+photo.Upload, f.Data); err != nil {
				return nil, err
			}
			sh.record.Outputs = append(sh.record.Outputs, "listing/"+photo.Upload)
		}
	}
	return photo, s.renderOverview(sh, st)
}

// renderOverview writes the small pictures of the maker's overview.
func (s *study) renderOverview(sh *shot, st *stage) error {
	sh.record.Before, sh.record.After = "overview/"+sh.name+"-before.jpg", "overview/"+sh.name+"-after.jpg"
	sh.record.Done = doneWords(sh.photo)
	sh.record.Steps = photoSteps(sh.photo, len(sh.record.Outputs))
	sh.record.Numbers = sh.photo.Numbers
	h := sh.photo.Histogram
	sh.record.Tones = &report.Tones{Before: perMyriad(h[0]), After: perMyriad(h[1])}
	return errors.Join(st.write(sh.record.Before, sh.photo.Before), st.write(sh.record.After, sh.photo.After))
}

// perMyriad writes shares in 1/10000.
func perMyriad(shares [64]float64) []int {
	out := make([]int, len(shares))
	for i, v := range shares {
		out[i] = int(math.Round(v * 10000))
	}
	return out
}

func (s *study) meta(sh *shot, alt string) rendition.Meta {
	pub := &s.report.Public
	m := rendition.Meta{Title: pub.Title, Description: pub.Story, Alt: alt, Taken: sh.photo.Taken, Copyright: s.report.Rights}
	if pub.Maker != nil {
		m.Creator, m.Credit = pub.Maker.Name, pub.Maker.Name
	}
	if sh.source.caption != "" {
		m.Description = sh.source.caption
	}
	return m
}

func extension(format string) string {
	if format == "webp" {
		return ".webp"
	}
	return ".jpg"
}

// takeAccent takes the one colour of the documents from the wood of the main
// photo.
func (s *study) takeAccent() {
	for _, sh := range s.shots {
		if sh.photo == nil {
			continue
		}
		if a, ok := sh.photo.Accent(); ok {
			s.report.Accent = fmt.Sprintf("#%02x%02x%02x", a.OnWhite.R, a.OnWhite.G, a.OnWhite.B)
			s.report.AccentDark = fmt.Sprintf("#%02x%02x%02x", a.OnDark.R, a.OnDark.G, a.OnDark.B)
		}
		return
	}
}
