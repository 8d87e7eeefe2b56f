package decode

import (
	"image"
	"image/draw"
)

const tiffJPEGTables = 347

// maxTile bounds how far a tile may reach beyond the picture.
const maxTile = 1024

// jpegStrips reads a TIFF whose strips or tiles are JPEGs (Adobe Photoshop TIFF
// Technical Notes, 2002: compression 7). They may leave their tables to a tag.
func (d *tiffDir) jpegStrips(data []byte, s *Source) error {
	var tables []byte
	if t, ok := d.tags[tiffJPEGTables]; ok && len(t.value) > 4 {
		tables = t.value[2 : len(t.value)-2] // between its start and end marks
	}
	photometric, samples := d.int(tiffPhotometric, -1), d.int(tiffSamples, 1)
	if d.int(tiffPlanar, 1) != 1 || !jpegKind(photometric, samples) {
		return unsupported("tiff-jpeg")
	}
	at, n, cell := d.cells(s.W, s.H)
	if cell.X <= 0 || cell.Y <= 0 || cell.X > s.W+maxTile || cell.Y > s.H+maxTile {
		return damaged("tiff", nil)
	}
	across, down := (s.W+cell.X-1)/cell.X, (s.H+cell.Y-1)/cell.Y
	if len(at) != len(n) || len(at) < across*down {
		return damaged("tiff", nil)
	}
	out := canvas(photometric, s.W, s.H)
	for i := range across * down {
		if n[i] < 4 {
			return truncated("tiff", nil)
		}
		strip := data[at[i] : at[i]+n[i]]
		m, err := decodeCell(tables, strip, photometric, cell)
		if err != nil {
			return err
		}
		if !place(out, m, image.Pt(i%across*cell.X, i/across*cell.Y)) {
			return damaged("tiff", nil)
		}
	}
	s.Image, s.Codec = out, "tiff (Go, JPEG inside)"
	return nil
}

// jpegKind tells the kinds that are read: grey, RGB, YCbCr and CMYK.
func jpegKind(photometric, samples int) bool {
	switch photometric {
	case 1:
		return samples == 1
	case 2, 6:
		return samples == 3
	case 5:
		return samples == 4
	}
	return false
}

// cells returns place, length and size of the strips or tiles.
func (d *tiffDir) cells(w, h int) (at, n []int, cell image.Point) {
	const most = 1 << 20
	if d.tags[tiffTiles].count > 0 {
		return d.ints(tiffTiles, most), d.ints(tiffTileBytes, most), image.Pt(d.int(tiffTileWidth, 0), d.int(tiffTileLength, 0))
	}
	rows := d.int(tiffRowsStrip, h)
	if rows > h {
		rows = h
	}
	return d.ints(tiffStrips, most), d.ints(tiffStripBytes, most), image.Pt(w, rows)
}

// decodeCell decodes one strip or tile, whose size must fit the cell.
func decodeCell(tables, strip []byte, photometric int, cell image.Point) (image.Image, error) {
	stream := []byte{0xff, 0xd8}
	if photometric == 2 || photometric == 5 {
		// Say that the channels are stored as they are, which a TIFF says by its tag.
		stream = append(stream, "\xff\xee\x00\x0eAdobe\x00\x64\x00\x00\x00\x00\x00"...)
	}
	stream = append(append(stream, tables...), strip[2:]...)
	j, err := scanJPEG(stream)
	if err != nil {
		return nil, err
	}
	if err := j.readable(); err != nil {
		return nil, err
	}
	if !j.whole() || !j.ended {
		return nil, truncated("tiff", nil)
	}
	if j.w <= 0 || j.h <= 0 || j.w > cell.X || j.h > cell.Y {
		return nil, damaged("tiff", nil)
	}
	m, _, err := pureJPEG(stream, j)
	if c, ok := m.(*image.CMYK); ok && err == nil {
		for i := range c.Pix {
			c.Pix[i] = ^c.Pix[i] // TIFF's inks are upright, the reader took them as Adobe's
		}
	}
	return m, err
}

// canvas is the picture to place cells in.
func canvas(photometric, w, h int) draw.Image {
	r := image.Rect(0, 0, w, h)
	switch photometric {
	case 1:
		return image.NewGray(r)
	case 5:
		return image.NewCMYK(r)
	}
	return image.NewNRGBA(r)
}

// place copies a cell into the canvas; it reports whether they are of one kind.
func place(out draw.Image, m image.Image, at image.Point) bool {
	r := m.Bounds().Sub(m.Bounds().Min).Add(at).Intersect(out.Bounds())
	switch o := out.(type) {
	case *image.Gray:
		g, ok := m.(*image.Gray)
		for y := r.Min.Y; ok && y < r.Max.Y; y++ {
			copy(o.Pix[o.PixOffset(r.Min.X, y):o.PixOffset(r.Min.X, y)+r.Dx()], g.Pix[(y-at.Y)*g.Stride:])
		}
		return ok
	case *image.CMYK:
		c, ok := m.(*image.CMYK)
		for y := r.Min.Y; ok && y < r.Max.Y; y++ {
			copy(o.Pix[o.PixOffset(r.Min.X, y):o.PixOffset(r.Min.X, y)+4*r.Dx()], c.Pix[(y-at.Y)*c.Stride:])
		}
		return ok
	}
	switch m.(type) {
	case *image.YCbCr, *image.RGBA, *image.NRGBA:
		draw.Draw(out, r, m, m.Bounds().Min, draw.Src)
		return true
	}
	return false
}
