package decode

import (
	"bytes"
	"errors"
	"image"
	stdjpeg "image/jpeg"

	oddjpeg "github.com/kovidgoyal/imaging/jpeg"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/native"
	"slabfolio/imaging/note"
)

func jpegSize(data []byte) (int, int, error) {
	j, err := scanJPEG(data)
	if err != nil {
		return 0, 0, err
	}
	return j.w, j.h, nil
}

// decodeJPEG reads baseline, extended and progressive Huffman-coded JPEG of 8
// bits, with one, three or four components in any sampling.
func decodeJPEG(data []byte, opts *Options) (*Source, error) {
	j, err := scanJPEG(data)
	if err != nil {
		return nil, err
	}
	if err := j.readable(); err != nil {
		return nil, err
	}
	if err := checkSize(j.w, j.h, opts); err != nil {
		return nil, err
	}
	if !j.whole() {
		return nil, truncated("jpeg", nil)
	}
	s := &Source{W: j.w, H: j.h, Encoded: colour.Encoded{Profile: j.icc}}
	applyExif(s, j.exif, true)
	if j.iccBroken {
		s.Notes = append(s.Notes, note.Note{Code: "colour.bad-profile"})
	}
	if nativeJPEG(s, j, data, opts) {
		return s, nil
	}
	m, codec, err := pureJPEG(data, j)
	if err != nil && !j.ended && j.sof != 0xc2 {
		// A sequential picture may be whole but for its end marker: then its every
		// block decodes once the marker is put back.
		m, codec, err = pureJPEG(append(bytes.Clone(data), 0xff, 0xd9), j)
	}
	if err != nil {
		if !j.ended {
			return nil, truncated("jpeg", err)
		}
		return nil, err
	}
	if !j.ended {
		s.Notes = append(s.Notes, note.Note{Code: "decode.no-end-marker"})
	}
	s.Image, s.Codec = m, codec
	return s, nil
}

// readable refuses, by name, the kinds of JPEG that are not read here.
func (j *jpegFile) readable() error {
	switch {
	case j.precision == 12:
		return unsupported("jpeg-12-bit")
	case j.sof >= 0xc9:
		return unsupported("jpeg-arithmetic")
	case j.sof == 0xc3:
		return unsupported("jpeg-lossless")
	case j.sof > 0xc3:
		return unsupported("jpeg-hierarchical")
	case j.precision != 8:
		return damaged("jpeg", nil)
	case len(j.components) == 2 || len(j.components) > 4 || len(j.components) == 0:
		return unsupported("jpeg-channels")
	}
	return nil
}

// ycc tells whether a three-component JPEG is YCbCr-coded, by the rules that
// every decoder follows: Adobe's word, then JFIF, then the component names.
func (j *jpegFile) ycc() bool {
	if len(j.components) != 3 {
		return false
	}
	if j.jfif {
		return true
	}
	if j.adobe >= 0 {
		return j.adobe != 0
	}
	c := j.components
	return !(c[0].id == 'R' && c[1].id == 'G' && c[2].id == 'B')
}

// nativeJPEG lets the system's library do it where it knows the variant; any
// doubt of it (even a warning) leaves the verdict to the pure decoder, so that
// both ways accept and refuse the same files.
func nativeJPEG(s *Source, j *jpegFile, data []byte, opts *Options) bool {
	if opts.pure() || !j.ended || !(len(j.components) == 1 || j.ycc()) || !native.Available() {
		return false
	}
	m, err := native.DecodeJPEG(data, j.w, j.h)
	if err != nil {
		return false
	}
	s.Image, s.Codec, s.spare = m, "jpeg (libturbojpeg)", true
	return true
}

// pureJPEG decodes with the standard library, or with a reader that also takes
// unusual chroma ratios.
func pureJPEG(data []byte, j *jpegFile) (image.Image, string, error) {
	plainCMYK := len(j.components) == 4 && j.adobe < 0
	if plainCMYK {
		// Without Adobe's segment the inks are stored upright. The decoder insists
		// on the segment and then takes the inks as inverted: give it one, and turn
		// its result over.
		app14 := []byte("\xff\xee\x00\x0eAdobe\x00\x64\x00\x00\x00\x00\x00")
		data = bytes.Join([][]byte{data[:2], app14, data[2:]}, nil)
	}
	m, err := stdjpeg.Decode(bytes.NewReader(data))
	codec := "jpeg (Go)"
	var odd stdjpeg.UnsupportedError
	if errors.As(err, &odd) {
		m, err = oddjpeg.Decode(bytes.NewReader(data))
		codec = "jpeg (Go, any sampling)"
	}
	if err != nil {
		return nil, "", err
	}
	if c, ok := m.(*image.CMYK); ok && plainCMYK {
		for i := range c.Pix {
			c.Pix[i] = ^c.Pix[i]
		}
	}
	return m, codec, nil
}
