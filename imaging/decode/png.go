package decode

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	stdpng "image/png"
	"io"
	"strconv"
	"strings"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/note"
)

// maxProfile bounds an ICC profile; the largest press profiles have 4 MB.
const maxProfile = 8 << 20

// maxText bounds an Exif block kept as hexadecimal text.
const maxText = 4 << 20

// A pngFile is what the chunks of a PNG tell, without decompressing pixels
// (W3C PNG, third edition).
type pngFile struct {
	pixels  []byte // the file reduced to what pixels need
	ended   bool
	cut     bool // the last chunk is cut short
	sawData bool
	profile []byte
	space   string
	exif    []byte
	bad     bool // the profile cannot be unpacked
	colours int  // in the palette
}

func pngSize(data []byte) (int, int, error) {
	if len(data) < 33 || string(data[12:16]) != "IHDR" {
		return 0, 0, truncated("png", nil)
	}
	w, h := binary.BigEndian.Uint32(data[16:]), binary.BigEndian.Uint32(data[20:])
	if w > 1<<31-1 || h > 1<<31-1 {
		return 0, 0, damaged("png", nil)
	}
	return int(w), int(h), nil
}

// decodePNG reads every PNG colour type and depth. Text chunks are passed over,
// so a decompression bomb in them is never opened.
func decodePNG(data []byte, opts *Options) (*Source, error) {
	w, h, err := pngSize(data)
	if err != nil {
		return nil, err
	}
	if err := checkSize(w, h, opts); err != nil {
		return nil, err
	}
	p := scanPNG(data)
	s := &Source{W: w, H: h, Encoded: colour.Encoded{Profile: p.profile, Space: p.space}, Codec: "png (Go)"}
	applyExif(s, p.exif, true)
	if p.bad {
		s.Notes = append(s.Notes, note.Note{Code: "colour.bad-profile"})
	}
	if !p.ended && !p.cut {
		p.pixels = appendChunk(p.pixels, "IEND", nil)
	}
	m, err := stdpng.Decode(bytes.NewReader(p.pixels))
	if err != nil {
		if p.cut || !p.sawData || errors.Is(err, io.ErrUnexpectedEOF) {
			return nil, truncated("png", err)
		}
		return nil, err
	}
	if pm, ok := m.(*image.Paletted); ok && len(pm.Palette) > p.colours {
		// The reader makes up black for pixels that point past the palette.
		return nil, damaged("png", errors.New("pixels point past the palette"))
	}
	if !p.ended {
		s.Notes = append(s.Notes, note.Note{Code: "decode.no-end-marker"})
	}
	s.Image = asNRGBA(m)
	return s, nil
}

// asNRGBA relabels the opaque pictures of the PNG reader, which says RGBA for
// pictures without alpha.
func asNRGBA(m image.Image) image.Image {
	switch m := m.(type) {
	case *image.RGBA:
		return &image.NRGBA{Pix: m.Pix, Stride: m.Stride, Rect: m.Rect}
	case *image.RGBA64:
		return &image.NRGBA64{Pix: m.Pix, Stride: m.Stride, Rect: m.Rect}
	}
	return m
}

// scanPNG walks the chunks, keeping those that pixels need and reading those
// that tell colour and orientation.
func scanPNG(data []byte) *pngFile {
	p := &pngFile{pixels: bytes.Clone(data[:8])}
	var gamma uint32
	rank := 0 // of what told the colour space: gAMA < sRGB < iCCP < cICP
	for i := 8; i < len(data); {
		if i+12 > len(data) {
			p.cut = true
			break
		}
		n := int64(binary.BigEndian.Uint32(data[i:]))
		if int64(i)+12+n > int64(len(data)) {
			p.cut = true
			break
		}
		kind := string(data[i+4 : i+8])
		body := data[i+8 : i+8+int(n)]
		chunk := data[i : i+12+int(n)]
		i += len(chunk)
		switch kind {
		case "IHDR", "PLTE", "tRNS":
			if kind == "PLTE" {
				p.colours = int(n) / 3
			}
			p.pixels = append(p.pixels, chunk...)
		case "IDAT":
			p.sawData = true
			p.pixels = append(p.pixels, chunk...)
		case "IEND":
			p.ended = true
			p.pixels = append(p.pixels, chunk...)
		case "gAMA":
			if len(body) == 4 && rank == 0 {
				gamma = binary.BigEndian.Uint32(body)
			}
		case "sRGB":
			if rank < 1 {
				rank, p.space = 1, "srgb"
			}
		case "iCCP":
			if rank < 2 {
				rank = 2
				p.profile, p.bad = unpackProfile(body)
			}
		case "cICP":
			if space := codePoints(body); space != "" {
				rank, p.space, p.profile, p.bad = 3, space, nil, false
			}
		case "eXIf":
			p.exif = body
		case "tEXt", "zTXt":
			if p.exif == nil {
				p.exif = textExif(kind, body)
			}
		}
		if p.ended {
			break
		}
	}
	if p.space == "" && p.profile == nil && gamma > 0 {
		p.space = gammaSpace(gamma)
	}
	return p
}

// gammaSpace reads a gAMA value. 1/2.2, which sRGB files carry as their second
// word, is taken as sRGB itself.
func gammaSpace(g uint32) string {
	if g >= 45000 && g <= 46000 {
		return "srgb"
	}
	if g < 10000 || g > 500000 {
		return "" // no display was ever like that
	}
	return fmt.Sprintf("gamma:%.5g", 1e5/float64(g))
}

// codePoints reads the coding-independent code points that mean a display RGB
// space (ITU-T H.273).
func codePoints(body []byte) string {
	if len(body) != 4 || body[2] != 0 || body[3] != 1 {
		return ""
	}
	switch {
	case body[0] == 1 && body[1] == 13:
		return "srgb"
	case body[0] == 12 && body[1] == 13:
		return "display-p3"
	}
	return ""
}

// unpackProfile reads an iCCP chunk. The size that the profile states bounds the
// unpacking, and a checksum missing at the end does no harm.
func unpackProfile(body []byte) (profile []byte, bad bool) {
	i := bytes.IndexByte(body, 0)
	if i < 0 || i > 79 || i+2 > len(body) {
		return nil, true
	}
	out := inflate(body[i+2:], maxProfile)
	if len(out) < 132 {
		return nil, true
	}
	if n := int64(binary.BigEndian.Uint32(out)); n >= 132 && n <= int64(len(out)) {
		return out[:n], false
	}
	return nil, true
}

// inflate unpacks at most limit bytes, and returns what came out before any error.
func inflate(packed []byte, limit int64) []byte {
	z, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil
	}
	defer z.Close()
	var out bytes.Buffer
	io.Copy(&out, io.LimitReader(z, limit)) // what came out counts
	return out.Bytes()
}

// textExif reads the Exif block that some programs keep as hexadecimal text, in
// a chunk named "Raw profile type exif" or "… APP1".
func textExif(kind string, body []byte) []byte {
	key, rest, ok := bytes.Cut(body, []byte{0})
	if !ok || string(key) != "Raw profile type exif" && string(key) != "Raw profile type APP1" {
		return nil
	}
	if kind == "zTXt" {
		if len(rest) < 1 {
			return nil
		}
		rest = inflate(rest[1:], maxText)
	}
	// A line with a name, one with the length, then lines of hexadecimal.
	lines := strings.SplitN(strings.TrimLeft(string(rest), "\n"), "\n", 3)
	if len(lines) < 3 {
		return nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(lines[1]))
	digits := strings.Join(strings.Fields(lines[2]), "")
	if err != nil || n < 0 || n > len(digits)/2 {
		return nil
	}
	out, err := hex.DecodeString(digits[:2*n]) // some writers leave junk behind
	if err != nil {
		return nil
	}
	return out
}

// appendChunk writes one chunk with its length and checksum.
func appendChunk(out []byte, kind string, body []byte) []byte {
	n := uint32(len(body))
	out = append(out, byte(n>>24), byte(n>>16), byte(n>>8), byte(n))
	at := len(out)
	out = append(append(out, kind...), body...)
	c := crc32.ChecksumIEEE(out[at:])
	return append(out, byte(c>>24), byte(c>>16), byte(c>>8), byte(c))
}
