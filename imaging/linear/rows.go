// Package linear turns the pixels of a decoded photo into linear light with sRGB
// primaries, through the photo's own profile, a row at a time.
package linear

import (
	"image"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/note"
)

// Rows reads a decoded photo row by row as linear light: sRGB primaries, D65
// white, 16 bits, 65535 = white; out-of-gamut values are clipped. Orientation is
// as stored. Alpha is flattened on white, in linear light. It keeps the planes
// and makes no copy of the picture.
//
// A Rows is immutable: several goroutines may read different rows at once.
type Rows struct {
	w, h  int
	fetch func(y int, dst []uint16) // device values, three a pixel
	apply func(row []uint16)        // device values to linear sRGB, in place
	alpha func(y int, row []uint16) // nil for opaque pictures
}

// NewRows prepares the conversion of src through its profile. A profile that
// cannot be read leaves a note colour.bad-profile, and the photo is taken as
// sRGB (grey and CMYK by the plain formulas).
func NewRows(src *colour.Encoded) (*Rows, []note.Note) {
	b := src.Image.Bounds()
	r := &Rows{w: b.Dx(), h: b.Dy()}
	switch m := src.Image.(type) {
	case *image.YCbCr:
		t, notes := rgbTransform(src, scale12)
		r.fetch, r.apply = fetchYCbCr(m, src.Coding), t.row
		if f := fusedYCbCr(m, src.Coding, t); f != nil {
			r.fetch, r.apply = f, func([]uint16) {}
		}
		return r, notes
	case *image.NRGBA:
		if !m.Opaque() {
			r.alpha = alpha8(m)
		}
		if src.Space == "lab" {
			r.fetch, r.apply = fetchLab(m), func([]uint16) {}
			return r, nil
		}
		return r, r.three(src, fetchNRGBA(m), scale12)
	case *image.NRGBA64:
		if !m.Opaque() {
			r.alpha = alpha16(m)
		}
		return r, r.three(src, fetchNRGBA64(m), scale16bit)
	case *image.Gray:
		t, notes := grayTable(src, 256)
		r.fetch, r.apply = fetchGray(m, t), func([]uint16) {}
		return r, notes
	case *image.Gray16:
		t, notes := grayTable(src, 65536)
		r.fetch, r.apply = fetchGray16(m, t), func([]uint16) {}
		return r, notes
	case *image.CMYK:
		f, notes := inks(src, m)
		r.fetch, r.apply = f, func([]uint16) {}
		return r, notes
	}
	// An Encoded is one of the above.
	panic("linear: unexpected image type")
}

// three sets up an interleaved RGB picture.
func (r *Rows) three(src *colour.Encoded, fetch func(int, []uint16), s deviceScale) []note.Note {
	t, notes := rgbTransform(src, s)
	r.fetch, r.apply = fetch, t.row
	return notes
}

// Size returns the size of the picture as stored.
func (r *Rows) Size() (w, h int) { return r.w, r.h }

// Row writes row y into dst, three values a pixel; dst must hold 3·w values. y is
// a row as stored, from 0.
func (r *Rows) Row(dst []uint16, y int) {
	dst = dst[: 3*r.w : 3*r.w]
	r.fetch(y, dst)
	r.apply(dst)
	if r.alpha != nil {
		r.alpha(y, dst)
	}
}
