package decode

import (
	"bytes"
	"compress/zlib"
	"image"
	"io"

	"golang.org/x/image/tiff/lzw"
)

// inks reads the CMYK and L*a*b* pictures that the general TIFF reader refuses:
// 8 bits a channel, interleaved, in strips (TIFF 6.0, sections 16 and 23).
func (d *tiffDir) inks(data []byte, s *Source) error {
	lab := d.int(tiffPhotometric, -1) == 8
	channels := d.int(tiffSamples, 1)
	want := 4
	if lab {
		want = 3
	}
	for _, b := range d.ints(tiffBits, 8) {
		if b != 8 {
			return unsupported("tiff-inks-deep")
		}
	}
	if channels < want || channels > want+2 || d.int(tiffPlanar, 1) != 1 || d.tags[tiffTiles].count > 0 || d.int(tiffPredictor, 1) > 2 {
		return unsupported("tiff-inks")
	}
	raw, err := d.strips(data, s.W*channels, s.H)
	if err != nil {
		return err
	}
	if d.int(tiffPredictor, 1) == 2 {
		for y := range s.H {
			row := raw[y*s.W*channels : (y+1)*s.W*channels]
			for i := channels; i < len(row); i++ {
				row[i] += row[i-channels]
			}
		}
	}
	if lab {
		m := image.NewNRGBA(image.Rect(0, 0, s.W, s.H))
		for i := range s.W * s.H {
			p := raw[i*channels:]
			// a* and b* are signed; kept here with 128 as their zero.
			m.Pix[4*i], m.Pix[4*i+1], m.Pix[4*i+2], m.Pix[4*i+3] = p[0], p[1]^0x80, p[2]^0x80, 255
		}
		s.Image, s.Space, s.Profile = m, "lab", nil
		return nil
	}
	m := image.NewCMYK(image.Rect(0, 0, s.W, s.H))
	for i := range s.W * s.H {
		copy(m.Pix[4*i:4*i+4], raw[i*channels:])
	}
	s.Image = m
	return nil
}

// strips unpacks all strips of a picture of h rows of rowBytes each.
func (d *tiffDir) strips(data []byte, rowBytes, h int) ([]byte, error) {
	at, n := d.ints(tiffStrips, h), d.ints(tiffStripBytes, h)
	rows := d.int(tiffRowsStrip, h)
	if rows <= 0 || rows > h {
		rows = h
	}
	if len(at) != len(n) || len(at) < (h+rows-1)/rows {
		return nil, damaged("tiff", nil)
	}
	// Unpacked data is asked for piece by piece, so a short file cannot make it grow.
	var out bytes.Buffer
	for i := 0; i*rows < h; i++ {
		want := min(rows, h-i*rows) * rowBytes
		got, err := unpackStrip(data[at[i]:at[i]+n[i]], d.int(tiffCompression, 1), want)
		if err != nil || len(got) < want {
			return nil, truncated("tiff", err)
		}
		out.Write(got[:want])
	}
	return out.Bytes(), nil
}

// unpackStrip unpacks at most want bytes of one strip.
func unpackStrip(packed []byte, compression, want int) ([]byte, error) {
	var r io.Reader
	switch compression {
	case 1:
		return packed[:min(want, len(packed))], nil
	case 5:
		l := lzw.NewReader(bytes.NewReader(packed), lzw.MSB, 8)
		defer l.Close()
		r = l
	case 8, 32946:
		z, err := zlib.NewReader(bytes.NewReader(packed))
		if err != nil {
			return nil, err
		}
		defer z.Close()
		r = z
	case 32773:
		return unpackBits(packed, want), nil
	default:
		return nil, unsupported("tiff-inks-packed")
	}
	var out bytes.Buffer
	_, err := io.Copy(&out, io.LimitReader(r, int64(want)))
	return out.Bytes(), err
}

// unpackBits undoes the byte-run packing of TIFF 6.0, section 9.
func unpackBits(p []byte, want int) []byte {
	var out []byte
	for i := 0; i < len(p) && len(out) < want; {
		n := int(int8(p[i]))
		i++
		switch {
		case n >= 0:
			out = append(out, p[i:min(i+n+1, len(p))]...)
			i += n + 1
		case n != -128 && i < len(p):
			out = append(out, bytes.Repeat(p[i:i+1], 1-n)...)
			i++
		}
	}
	return out
}
