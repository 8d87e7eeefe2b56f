// Package rendition makes the files a photo is published as: the right size,
// sharpened for it, sRGB-coded, in JPEG or WebP, with the workshop's own
// metadata and nothing of the original's.
//
// It is given linear light and decides nothing about tone or framing.
package rendition

import (
	"fmt"
	"image/color"
	"math"
)

// A Size is one rendition of every photo.
type Size struct {
	Name           string       // for people and settings: "2400", "square"
	Width          int          // in pixels; a smaller photo keeps its own
	RatioW, RatioH int          // width to height; 0, 0: the photo's own
	Format         string       // "jpeg" or "webp"
	Quality        int          // 1 to 100
	Suffix         string       // ends the file's name: "-2400.jpg"
	Ground         *color.NRGBA // the piece on a plain ground of this colour, where that can be done; nil: as the photo has it
	MaxBytes       int          // lower the quality until the file is no larger, but not below 75; 0: no limit
}

// DefaultSizes are the renditions made when the workshop names none. Widths go by
// halves, so that for every width a page has room for there is a file of 0.7 to 1.4
// times the pixels; WebP ends at 1200, since what is wider costs the most to encode
// and is wanted by few screens: those take the JPEG.
func DefaultSizes() []Size {
	return []Size{
		{Name: "2400", Width: 2400, Format: "jpeg", Quality: 85, Suffix: "-2400.jpg", MaxBytes: 900_000},
		{Name: "1200", Width: 1200, Format: "jpeg", Quality: 85, Suffix: "-1200.jpg"},
		{Name: "1200-webp", Width: 1200, Format: "webp", Quality: 80, Suffix: "-1200.webp"},
		{Name: "600", Width: 600, Format: "jpeg", Quality: 85, Suffix: "-600.jpg"},
		{Name: "600-webp", Width: 600, Format: "webp", Quality: 80, Suffix: "-600.webp"},
		{Name: "300-webp", Width: 300, Format: "webp", Quality: 80, Suffix: "-300.webp"},
		{Name: "square", Width: 1200, RatioW: 1, RatioH: 1, Format: "jpeg", Quality: 85, Suffix: "-square.jpg"},
		{Name: "portrait", Width: 960, RatioW: 4, RatioH: 5, Format: "jpeg", Quality: 85, Suffix: "-portrait.jpg"},
	}
}

// A File is one rendition, ready to be written.
type File struct {
	Size          Size
	Data          []byte
	Width, Height int
	Quality       int // that it was encoded at; below Size.Quality where MaxBytes asked for it
}

// longestSide is the most that a rendition has either way: WebP holds 16383.
const longestSide = 16000

// Fit returns the pixels that a part of w × h of a photo has in this size: its
// width, or the part's own where that is less, and the height that goes with it.
// A part too tall for the formats is made smaller than asked for.
func (s Size) Fit(w, h int) (int, int) {
	ow := min(s.Width, w)
	oh := float64(h) * float64(ow) / float64(w)
	if s.RatioW > 0 && s.RatioH > 0 {
		oh = float64(ow) * float64(s.RatioH) / float64(s.RatioW)
	}
	if oh > longestSide {
		return max(int(math.Round(float64(ow)*longestSide/oh)), 1), longestSide
	}
	return ow, max(int(math.Round(oh)), 1)
}

// Check returns an error that says what is wrong with the size.
func (s Size) Check() error {
	switch {
	case s.Width < 16 || s.Width > longestSide:
		return fmt.Errorf("size %q is %d pixels wide; 16 to 16000 work", s.Name, s.Width)
	case s.Format != "jpeg" && s.Format != "webp":
		return fmt.Errorf("size %q has the format %q; jpeg and webp work", s.Name, s.Format)
	case s.Quality < 1 || s.Quality > 100:
		return fmt.Errorf("size %q has the quality %d; 1 to 100 work", s.Name, s.Quality)
	case s.RatioW < 0 || s.RatioH < 0 || (s.RatioW == 0) != (s.RatioH == 0) || s.RatioW > 100 || s.RatioH > 100:
		return fmt.Errorf("size %q has the ratio %d:%d; both parts are 1 to 100", s.Name, s.RatioW, s.RatioH)
	case s.RatioW > 10*s.RatioH || s.RatioH > 10*s.RatioW:
		return fmt.Errorf("size %q has the ratio %d:%d; 1:10 to 10:1 work", s.Name, s.RatioW, s.RatioH)
	}
	return nil
}

// Options are the optional settings of Picture.Encode. A nil *Options means all
// defaults.
type Options struct {
	Pure bool // use no native library
	Bare bool // write neither profile nor metadata, as for a picture inside a PDF
}

// Encode makes the file of one size from a developed picture.
func (p *Picture) Encode(s Size, meta Meta, opts *Options) (File, error) {
	if opts == nil {
		opts = &Options{}
	}
	var xmp, icc []byte
	if !opts.Bare {
		xmp, icc = xmpPacket(meta), profile()
	}
	f := File{Size: s, Width: p.W, Height: p.H}
	var err error
	switch s.Format {
	case "jpeg":
		f.Data, f.Quality, err = p.jpegWithin(s, len(xmp)+len(icc)+jpegOverhead, opts.Pure)
		if err == nil {
			f.Data, err = addMetadataJPEG(f.Data, icc, xmp)
		}
	case "webp":
		f.Data, f.Quality, err = p.webpWithin(s, len(xmp)+len(icc)+webpOverhead, opts.Pure)
		if err == nil {
			f.Data, err = addMetadataWebP(f.Data, p.W, p.H, icc, xmp)
		}
	default:
		err = fmt.Errorf("the format %q is not one of jpeg and webp", s.Format)
	}
	if err != nil {
		return File{}, fmt.Errorf("encode %s: %w", s.Name, err)
	}
	return f, nil
}
