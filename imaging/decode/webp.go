package decode

import (
	"bytes"
	"encoding/binary"

	"golang.org/x/image/webp"

	"slabfolio/imaging/colour"
)

// A webpFile is what the chunks of a WebP tell (RFC 9649).
type webpFile struct {
	w, h      int
	animated  bool
	profile   []byte
	exif      []byte
	cut       bool // a chunk, or the whole, is longer than the file
	hasPixels bool
	odd       bool // the frame has another size than the canvas
}

func scanWebP(data []byte) *webpFile {
	f := &webpFile{}
	if len(data) < 12 {
		f.cut = true
		return f
	}
	if int64(binary.LittleEndian.Uint32(data[4:]))+8 > int64(len(data)) {
		f.cut = true
	}
	for i := 12; i+8 <= len(data); {
		n := int64(binary.LittleEndian.Uint32(data[i+4:]))
		kind := string(data[i : i+4])
		end := int64(i) + 8 + n
		if end > int64(len(data)) {
			f.cut = true
			end = int64(len(data))
		}
		body := data[i+8 : end]
		switch {
		case kind == "VP8X" && len(body) >= 10:
			f.animated = body[0]&2 != 0
			f.w = 1 + (int(body[4]) | int(body[5])<<8 | int(body[6])<<16)
			f.h = 1 + (int(body[7]) | int(body[8])<<8 | int(body[9])<<16)
		case kind == "VP8 " && len(body) >= 10:
			f.frame(int(body[6])|int(body[7]&0x3f)<<8, int(body[8])|int(body[9]&0x3f)<<8)
		case kind == "VP8L" && len(body) >= 5:
			v := binary.LittleEndian.Uint32(body[1:])
			f.frame(1+int(v&0x3fff), 1+int(v>>14&0x3fff))
		case kind == "ICCP" && n <= maxProfile:
			f.profile = body
		case kind == "EXIF":
			f.exif = body
		}
		i = int(min(int64(i)+8+n+n&1, int64(len(data))))
	}
	return f
}

// frame notes a frame's own size, which the decoder will ask memory for.
func (f *webpFile) frame(w, h int) {
	f.hasPixels = true
	if f.w == 0 {
		f.w, f.h = w, h
	}
	f.odd = f.odd || f.w != w || f.h != h
}

func webpSize(data []byte) (int, int, error) {
	f := scanWebP(data)
	if f.w == 0 {
		return 0, 0, truncated("webp", nil)
	}
	return f.w, f.h, nil
}

// decodeWebP reads lossy and lossless WebP, with or without alpha.
func decodeWebP(data []byte, opts *Options) (*Source, error) {
	f := scanWebP(data)
	if f.w == 0 {
		return nil, truncated("webp", nil)
	}
	if err := checkSize(f.w, f.h, opts); err != nil {
		return nil, err
	}
	if f.animated {
		return nil, unsupported("webp-animated")
	}
	if f.cut || !f.hasPixels {
		return nil, truncated("webp", nil)
	}
	if f.odd {
		return nil, damaged("webp", nil)
	}
	m, err := webp.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	s := &Source{W: f.w, H: f.h, Encoded: colour.Encoded{Profile: f.profile}, Codec: "webp (Go)"}
	applyExif(s, f.exif, true)
	s.Image, s.Coding = webpImage(m)
	if s.Space == "" {
		s.Space = "srgb"
	}
	return s, nil
}
