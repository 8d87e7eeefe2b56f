package decode

import (
	"bytes"
	"errors"
	"strings"

	"golang.org/x/image/tiff"

	"slabfolio/imaging/note"
)

func tiffSize(data []byte) (int, int, error) {
	dirs := scanTIFF(data)
	if len(dirs) == 0 {
		return 0, 0, truncated("tiff", nil)
	}
	return dirs[0].int(tiffWidth, 0), dirs[0].int(tiffLength, 0), nil
}

// decodeTIFF reads the first picture of a TIFF.
func decodeTIFF(data []byte, opts *Options) (*Source, error) {
	dirs := scanTIFF(data)
	if len(dirs) == 0 {
		return nil, truncated("tiff", nil)
	}
	d := dirs[0]
	w, h, err := d.check(data, opts)
	if err != nil {
		return nil, err
	}
	s := &Source{W: w, H: h, Codec: "tiff (Go)"}
	if p, ok := d.tags[tiffProfile]; ok && len(p.value) <= maxProfile {
		s.Profile = p.value
	}
	applyExif(s, data, true)
	if len(dirs) > 1 && dirs[1].int(tiffSubfile, 0) == 0 && dirs[1].int(tiffWidth, 0) == w {
		s.Notes = append(s.Notes, note.Note{Code: "decode.first-page"})
	}
	if d.int(tiffCompression, 1) == 7 {
		return s, d.jpegStrips(data, s)
	}
	if p := d.int(tiffPhotometric, -1); p == 5 || p == 8 {
		return s, d.inks(data, s)
	}
	m, err := tiff.Decode(bytes.NewReader(data))
	if err != nil {
		if strings.Contains(err.Error(), "unsupported") {
			return nil, &Refusal{Code: "decode.unsupported", Variant: "tiff-odd", Err: errors.New(strings.TrimPrefix(err.Error(), "tiff: "))}
		}
		return nil, err
	}
	s.Image = m
	return s, nil
}

// check refuses a picture that is too large, of a kind that is not read, or cut
// short, before it is decoded; it returns the size.
func (d *tiffDir) check(data []byte, opts *Options) (w, h int, err error) {
	w, h = d.int(tiffWidth, 0), d.int(tiffLength, 0)
	if err := checkSize(w, h, opts); err != nil {
		return 0, 0, err
	}
	if err := d.readable(); err != nil {
		return 0, 0, err
	}
	return w, h, d.whole(data)
}

// readable refuses, by name, the kinds of TIFF that are not read here.
func (d *tiffDir) readable() error {
	switch c := d.int(tiffCompression, 1); c {
	case 6:
		return unsupported("tiff-jpeg-old")
	case 7:
		return nil
	case 1, 2, 3, 4, 5, 8, 32773, 32946:
	default:
		return &Refusal{Code: "decode.unsupported", Variant: "tiff-packed", Values: map[string]float64{"compression": float64(c)}}
	}
	if d.int(tiffPhotometric, -1) == 6 {
		return unsupported("tiff-luma")
	}
	return nil
}

// whole checks that strips or tiles lie inside the file.
func (d *tiffDir) whole(data []byte) error {
	for _, pair := range [][2]uint16{{tiffStrips, tiffStripBytes}, {tiffTiles, tiffTileBytes}} {
		at, n := d.ints(pair[0], 1<<20), d.ints(pair[1], 1<<20)
		for i := range min(len(at), len(n)) {
			if at[i]+n[i] > len(data) {
				return truncated("tiff", nil)
			}
		}
	}
	if d.tags[tiffStrips].count == 0 && d.tags[tiffTiles].count == 0 {
		return damaged("tiff", nil)
	}
	return nil
}
