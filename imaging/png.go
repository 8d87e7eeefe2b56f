package imaging

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"slices"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/decode"
	"slabfolio/imaging/linear"
)

// NeedsPNG reports whether a file of this format may be beyond the programs
// of later years, so that an archive should hold a plain copy beside it: camera
// raw files and the HEIF family. format is as in decode.Source.
func NeedsPNG(format string) bool {
	return slices.Contains([]string{"raw", "heic", "heif", "avif"}, format)
}

// PNG returns a photo as a baseline PNG: 8-bit sRGB, upright, full size,
// neither toned nor cropped. Of a camera raw file it is the built-in preview;
// preview says so. The error is a *decode.Refusal when the photo cannot be read.
func PNG(data []byte, opts *Options) (out []byte, preview bool, err error) {
	if opts == nil {
		opts = &Options{}
	}
	src, err := decode.Decode(data, &decode.Options{MaxPixels: opts.MaxPixels, Pure: opts.Pure})
	if err != nil {
		return nil, false, err
	}
	rows, _ := linear.NewRows(&src.Encoded)
	w, h := rows.Size()
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	if src.Orientation > 4 {
		m = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	enc := colour.EncodeTable()
	line := make([]uint16, w*3)
	for y := range h {
		rows.Row(line, y)
		for x := range w {
			ux, uy := turned(x, y, w, h, src.Orientation)
			p := m.Pix[m.PixOffset(ux, uy):]
			p[0], p[1], p[2], p[3] = enc[line[x*3]], enc[line[x*3+1]], enc[line[x*3+2]], 255
		}
	}
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := e.Encode(&b, m); err != nil {
		return nil, false, fmt.Errorf("write a PNG: %w", err)
	}
	return b.Bytes(), src.Preview, nil
}

// turned is where pixel (x, y) of a stored picture of w × h stands once it is
// upright; Exif 2.32, tag 0x0112.
func turned(x, y, w, h, orientation int) (ux, uy int) {
	switch orientation {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return h - 1 - y, x
	case 7:
		return h - 1 - y, w - 1 - x
	case 8:
		return y, w - 1 - x
	}
	return x, y
}
