package decode

import (
	"bytes"
	"encoding/binary"
	stdgif "image/gif"

	"golang.org/x/image/bmp"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/note"
)

func gifSize(data []byte) (int, int, error) {
	if len(data) < 13 {
		return 0, 0, truncated("gif", nil)
	}
	return int(data[6]) | int(data[7])<<8, int(data[8]) | int(data[9])<<8, nil
}

// decodeGIF reads the first frame of a GIF.
func decodeGIF(data []byte, opts *Options) (*Source, error) {
	w, h, err := gifSize(data)
	if err != nil {
		return nil, err
	}
	if err := checkSize(w, h, opts); err != nil {
		return nil, err
	}
	m, err := stdgif.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	b := m.Bounds()
	s := &Source{W: b.Dx(), H: b.Dy(), Encoded: colour.Encoded{Image: m, Space: "srgb"}, Codec: "gif (Go)"}
	if bytes.Contains(data, []byte("NETSCAPE2.0")) {
		s.Notes = append(s.Notes, note.Note{Code: "decode.first-frame"})
	}
	return s, nil
}

// bmpHeaderSize returns the size of the second header of a BMP, or 0 if it is
// none that exists.
func bmpHeaderSize(data []byte) uint32 {
	switch n := binary.LittleEndian.Uint32(data[14:]); n {
	case 12, 16, 40, 52, 56, 64, 108, 124:
		return n
	}
	return 0
}

func bmpSize(data []byte) (int, int, error) {
	if len(data) < 26 {
		return 0, 0, truncated("bmp", nil)
	}
	if bmpHeaderSize(data) == 12 {
		return int(data[18]) | int(data[19])<<8, int(data[20]) | int(data[21])<<8, nil
	}
	w, h := int32(binary.LittleEndian.Uint32(data[18:])), int32(binary.LittleEndian.Uint32(data[22:]))
	if h < 0 {
		h = -h // rows from the top
	}
	return int(w), int(h), nil
}

// decodeBMP reads the plain kinds of BMP.
func decodeBMP(data []byte, opts *Options) (*Source, error) {
	w, h, err := bmpSize(data)
	if err != nil {
		return nil, err
	}
	if err := checkSize(w, h, opts); err != nil {
		return nil, err
	}
	m, err := bmp.Decode(bytes.NewReader(data))
	if err == bmp.ErrUnsupported {
		return nil, unsupported("bmp-odd")
	}
	if err != nil {
		return nil, err
	}
	return &Source{W: w, H: h, Encoded: colour.Encoded{Image: asNRGBA(m), Space: "srgb"}, Codec: "bmp (Go)"}, nil
}
