// Package decode reads a photo file into pixels: it tells the type by content,
// checks sizes before it allocates, finds orientation, colour profile and the
// few Exif facts that matter, and refuses with a reason what it cannot read
// whole. It converts no colour; that is package colour's job.
package decode

import (
	"image"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/note"
	"slabfolio/imaging/spare"
)

// DefaultMaxPixels is the limit on the pixels of a photo when Options says none.
const DefaultMaxPixels = 100_000_000

// Options are the optional settings of Decode. A nil *Options means all defaults.
type Options struct {
	// MaxPixels refuses larger photos; 0 means DefaultMaxPixels.
	MaxPixels int
	// Pure uses no native library, even where one is installed.
	Pure bool
}

func (o *Options) maxPixels() int {
	if o == nil || o.MaxPixels <= 0 {
		return DefaultMaxPixels
	}
	return o.MaxPixels
}

func (o *Options) pure() bool { return o != nil && o.Pure }

// A Source is a decoded photo, in the pixels, orientation and colour space of
// its file.
type Source struct {
	// Format is jpeg, png, tiff, webp, heic, avif, gif, bmp or raw.
	Format string
	// W, H are the size as stored, before orientation; of a
	// HEIC, which its codec turns upright, the size upright.
	W, H int
	// Orientation is the Exif orientation, 1 to 8, still to be applied to Image.
	Orientation int
	// Encoded is the picture, with what the file says of its colours.
	colour.Encoded
	// Facts are what Exif says about the taking of the photo.
	Facts Facts
	// Notes are what there is to say about the reading: decode.raw-preview and
	// decode.raw-preview-small (width, height, full_width, full_height),
	// decode.no-end-marker, decode.first-frame, decode.first-page, decode.bad-exif
	// (orientation may be lost), decode.exif-partly (a detail is lost),
	// decode.alpha-ignored, colour.bad-profile, colour.hdr.
	Notes []note.Note
	// Codec names the decoder, and the library where it is not pure Go.
	Codec string
	// Preview is true when Image is the preview embedded in a raw file.
	Preview bool

	spare bool // the planes came from package spare, and are nobody else's
}

// Facts are the Exif values that later steps use. A zero value is unknown.
type Facts struct {
	// Taken is the moment by the camera's clock, "2026-09-18T14:03:11", followed by
	// its offset ("+02:00") where the file tells it.
	Taken string
	// ExposureTime is in seconds.
	ExposureTime float64
	// FNumber is the aperture ratio.
	FNumber float64
	// ISO is the sensitivity.
	ISO float64
	// FocalLength is in mm; FocalLength35 that of the same view on 36×24 mm.
	FocalLength, FocalLength35 float64
	// Make and Model name the camera.
	Make, Model string
}

// Release gives the memory of the pixels to the next photo, where it came from
// there. Nothing may look at Image afterwards.
func (s *Source) Release() {
	if m, ok := s.Image.(*image.YCbCr); ok && s.spare {
		for _, plane := range [][]byte{m.Y, m.Cb, m.Cr} {
			spare.Give(plane)
		}
	}
	s.Image = nil
}

// Decode reads the photo in data. An error is always a *Refusal. Decode does
// not keep data, and never panics on it.
func Decode(data []byte, opts *Options) (src *Source, err error) {
	defer guard(&src, &err)
	format := Sniff(data)
	r, ok := readers[format]
	if !ok {
		return nil, refuseUnknown(data, format)
	}
	src, err = r.decode(data, opts)
	if err != nil {
		return nil, asRefusal(format, err)
	}
	src.Format = format
	return finish(src)
}

// Header tells type and stored size of the photo in data without decoding it.
func Header(data []byte) (format string, w, h int, err error) {
	defer func() {
		if p := recover(); p != nil {
			w, h, err = 0, 0, &Refusal{Code: "decode.damaged", Variant: "header"}
		}
	}()
	format = Sniff(data)
	r, ok := readers[format]
	if !ok {
		return format, 0, 0, refuseUnknown(data, format)
	}
	w, h, err = r.size(data)
	if err != nil {
		return format, 0, 0, asRefusal(format, err)
	}
	return format, w, h, nil
}

// A reader is the pair of functions that know one file type.
type reader struct {
	size   func(data []byte) (w, h int, err error)
	decode func(data []byte, opts *Options) (*Source, error)
}

var readers map[string]reader

func init() {
	readers = map[string]reader{
		"jpeg": {jpegSize, decodeJPEG},
		"png":  {pngSize, decodePNG},
		"tiff": {tiffSize, decodeTIFF},
		"raw":  {rawSize, decodeRaw},
		"webp": {webpSize, decodeWebP},
		"heic": {heifSize, decodeHEIC},
		"avif": {heifSize, decodeAVIF},
		"gif":  {gifSize, decodeGIF},
		"bmp":  {bmpSize, decodeBMP},
	}
}

// checkSize refuses empty pictures and those beyond the limit, before any
// memory is asked for.
func checkSize(w, h int, opts *Options) error {
	if w <= 0 || h <= 0 {
		return &Refusal{
			Code:    "decode.empty",
			Variant: "pixels",
			Values:  map[string]float64{"width": float64(max(w, 0)), "height": float64(max(h, 0))},
		}
	}
	if limit := opts.maxPixels(); w > limit/h {
		return &Refusal{
			Code: "decode.too-large",
			Values: map[string]float64{
				"width": float64(w), "height": float64(h),
				"megapixels": float64(w) * float64(h) / 1e6, "limit": float64(limit) / 1e6,
			},
		}
	}
	return nil
}

// finish checks what a reader handed over and fills in the defaults.
func finish(s *Source) (*Source, error) {
	if s.Orientation < 1 || s.Orientation > 8 {
		s.Orientation = 1
	}
	img, err := normalise(s.Image)
	if err != nil {
		return nil, err
	}
	s.Image = img
	b := img.Bounds()
	if b.Dx() != s.W || b.Dy() != s.H {
		return nil, &Refusal{
			Code: "decode.size-mismatch",
			Values: map[string]float64{
				"width": float64(b.Dx()), "height": float64(b.Dy()),
				"header_width": float64(s.W), "header_height": float64(s.H),
			},
		}
	}
	return s, nil
}
