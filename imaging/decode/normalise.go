package decode

import (
	"fmt"
	"image"
	"image/color"
)

// normalise returns m as one of the six image types that Source promises, with
// bounds from (0, 0). It copies only where it must.
func normalise(m image.Image) (image.Image, error) {
	if m == nil {
		return nil, fmt.Errorf("no picture")
	}
	b := m.Bounds()
	zero := image.Rect(0, 0, b.Dx(), b.Dy())
	if b.Min != (image.Point{}) {
		return convert(m)
	}
	switch m := m.(type) {
	case *image.YCbCr, *image.Gray, *image.Gray16, *image.NRGBA, *image.NRGBA64, *image.CMYK:
		return m, nil
	case *image.RGBA:
		if m.Opaque() {
			return &image.NRGBA{Pix: m.Pix, Stride: m.Stride, Rect: zero}, nil
		}
	case *image.RGBA64:
		if m.Opaque() {
			return &image.NRGBA64{Pix: m.Pix, Stride: m.Stride, Rect: zero}, nil
		}
	case *image.Paletted:
		return fromPalette(m)
	}
	return convert(m)
}

// fromPalette expands a paletted picture, checking every index: a crafted file
// may point past its palette.
func fromPalette(m *image.Paletted) (image.Image, error) {
	b := m.Bounds()
	var pal [256][4]uint8
	for i, c := range m.Palette {
		if i == 256 {
			break
		}
		n := color.NRGBAModel.Convert(c).(color.NRGBA)
		pal[i] = [4]uint8{n.R, n.G, n.B, n.A}
	}
	out := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	for y := 0; y < b.Dy(); y++ {
		row := m.Pix[y*m.Stride : y*m.Stride+b.Dx()]
		d := out.Pix[y*out.Stride:]
		for x, i := range row {
			if int(i) >= len(m.Palette) {
				return nil, fmt.Errorf("pixel %d,%d has colour %d of a palette of %d", x, y, i, len(m.Palette))
			}
			copy(d[4*x:4*x+4], pal[i][:])
		}
	}
	return out, nil
}

// convert is the slow way round for rare image types.
func convert(m image.Image) (image.Image, error) {
	b := m.Bounds()
	zero := image.Rect(0, 0, b.Dx(), b.Dy())
	if b.Empty() {
		return nil, fmt.Errorf("no pixels")
	}
	switch m.ColorModel() {
	case color.RGBA64Model, color.NRGBA64Model, color.Gray16Model:
		out := image.NewNRGBA64(zero)
		for y := range b.Dy() {
			for x := range b.Dx() {
				out.Set(x, y, m.At(b.Min.X+x, b.Min.Y+y))
			}
		}
		return out, nil
	case color.CMYKModel:
		out := image.NewCMYK(zero)
		for y := range b.Dy() {
			for x := range b.Dx() {
				out.Set(x, y, m.At(b.Min.X+x, b.Min.Y+y))
			}
		}
		return out, nil
	}
	out := image.NewNRGBA(zero)
	for y := range b.Dy() {
		for x := range b.Dx() {
			out.Set(x, y, m.At(b.Min.X+x, b.Min.Y+y))
		}
	}
	return out, nil
}
