package decode

import (
	"bytes"
	"image"

	"github.com/gen2brain/avif"
	"github.com/gen2brain/heic"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/note"
)

func heifSize(data []byte) (int, int, error) {
	f := scanHEIF(data)
	if !f.ok || f.w == 0 {
		return 0, 0, damaged("heic", nil)
	}
	if f.rotation%2 == 1 && Sniff(data) == "heic" {
		return f.h, f.w, nil // the codec turns these
	}
	return f.w, f.h, nil
}

// heifHead reads and checks the boxes before any codec starts.
func heifHead(data []byte, format string, opts *Options) (*heifFile, *Source, error) {
	f := scanHEIF(data)
	if !f.ok {
		if f.sequence {
			return nil, nil, unsupported("heif-sequence")
		}
		return nil, nil, truncated(format, nil)
	}
	if f.w <= 0 || f.h <= 0 {
		return nil, nil, damaged(format, nil)
	}
	if err := checkSize(f.w, f.h, opts); err != nil {
		return nil, nil, err
	}
	if f.cut {
		return nil, nil, truncated(format, nil)
	}
	s := &Source{W: f.w, H: f.h, Encoded: colour.Encoded{Profile: f.profile}}
	// Orientation comes from irot and imir alone; Exif's copy of it must not turn
	// the picture a second time (ISO/IEC 23008-12, 6.5.10 and annex A).
	applyExif(s, f.exif, false)
	if s.Profile == nil && f.nclx != nil {
		s.Space = f.nclx.space()
		if f.nclx.transfer == 16 || f.nclx.transfer == 18 {
			s.Notes = append(s.Notes, note.Note{Code: "colour.hdr"})
		}
	}
	return f, s, nil
}

// space names the colour space of code points, as far as it has a name here.
func (n *nclx) space() string {
	if n.primaries == 12 {
		return "display-p3"
	}
	return "srgb"
}

// coding turns code points into the meaning of planes. Without them the codec
// bitstreams' own default holds: BT.601, full range, as phones write it.
func (n *nclx) coding() colour.Coding {
	if n == nil {
		return colour.Coding{}
	}
	c := colour.Coding{Limited: !n.full}
	switch n.matrix {
	case 1:
		c.Kr, c.Kb = 0.2126, 0.0722
	case 9:
		c.Kr, c.Kb = 0.2627, 0.0593
	}
	return c
}

// decodeHEIC reads the primary picture of a HEIC file. The codec turns and
// mirrors by itself.
func decodeHEIC(data []byte, opts *Options) (*Source, error) {
	f, s, err := heifHead(data, "heic", opts)
	if err != nil {
		return nil, err
	}
	var m image.Image
	if heic.Dynamic() == nil && !opts.pure() {
		m, err = heic.Decode(bytes.NewReader(data))
		s.Codec = "heic (libheif)"
	} else {
		m, _, err = pureHEIC(bytes.NewReader(data), false)
		s.Codec = "heic (wasm)"
	}
	if err != nil {
		return nil, err
	}
	if f.rotation%2 == 1 {
		s.W, s.H = s.H, s.W // the size as decoded
	}
	s.Image = copied(m)
	if _, ok := s.Image.(*image.YCbCr); ok {
		s.Coding = f.nclx.coding()
		if f.alpha {
			s.Notes = append(s.Notes, note.Note{Code: "decode.alpha-ignored"})
		}
	}
	return s, nil
}

// copied takes planes out of the codec's memory, which is many times their size.
func copied(m image.Image) image.Image {
	switch m := m.(type) {
	case *image.YCbCr:
		c := *m
		c.Y, c.Cb, c.Cr = bytes.Clone(m.Y), bytes.Clone(m.Cb), bytes.Clone(m.Cr)
		return &c
	case *image.Gray:
		c := *m
		c.Pix = bytes.Clone(m.Pix)
		return &c
	case *image.RGBA:
		// The codecs hand out straight alpha under this name.
		return &image.NRGBA{Pix: bytes.Clone(m.Pix), Stride: m.Stride, Rect: m.Rect}
	case *image.NRGBA:
		c := *m
		c.Pix = bytes.Clone(m.Pix)
		return &c
	case *image.RGBA64:
		return &image.NRGBA64{Pix: m.Pix, Stride: m.Stride, Rect: m.Rect}
	}
	return m
}

// decodeAVIF reads the first picture of an AVIF file. The codec leaves turning
// and mirroring to us.
func decodeAVIF(data []byte, opts *Options) (*Source, error) {
	f, s, err := heifHead(data, "avif", opts)
	if err != nil {
		return nil, err
	}
	var m image.Image
	if avif.Dynamic() == nil && !opts.pure() {
		m, err = avif.Decode(bytes.NewReader(data))
		s.Codec = "avif (libavif)"
	} else {
		var all *avif.AVIF
		if all, _, err = pureAVIF(bytes.NewReader(data), false, false); err == nil {
			m = all.Image[0]
		}
		s.Codec = "avif (wasm)"
	}
	if err != nil {
		return nil, err
	}
	s.Image = copied(m)
	s.Orientation = f.orientation()
	return s, nil
}

// orientation turns irot and imir into the Exif orientation that means the same.
// irot turns against the clock; imir 0 swaps top and bottom, 1 left and right;
// they apply in the order in which the file lists them.
func (f *heifFile) orientation() int {
	// Exif: 1 upright, 6 wants a quarter turn clockwise, 3 a half, 8 three.
	turned := [4]int{1, 8, 3, 6}[f.rotation]
	if f.mirror < 0 {
		return turned
	}
	quarter := f.rotation
	if f.mirror == 0 {
		quarter = (quarter + 2) % 4 // upside down = left to right and a half turn
	}
	// Turn, then mirror left to right. A mirror that comes first turns the other way.
	if f.mirrorOn {
		quarter = (4 - f.rotation) % 4
		if f.mirror == 0 {
			quarter = (quarter + 2) % 4
		}
	}
	return [4]int{2, 7, 4, 5}[quarter]
}
