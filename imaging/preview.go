package imaging

import (
	"fmt"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/rendition"
)

// before makes the small picture and the histogram of the photo as it came:
// decoded, through its profile and upright, nothing else. It has all the pixels that
// there are by then, since places in the photo are pointed at on it.
func (p *Photo) before() error {
	data, err := p.encodePreview(p.small, smallSide)
	if err != nil {
		return fmt.Errorf("make a small picture of %s: %w", p.Name, err)
	}
	p.Before = data
	p.Histogram[0] = histogram(p.small)
	return nil
}

// after makes them anew, framed and toned. Where the small picture cannot be
// made the one from before stands in for it.
func (p *Photo) after() {
	m := p.framedSmall() // a picture of its own
	defer m.Release()
	p.Tone.Apply(m)
	if p.cutout != nil && p.ground != nil {
		c, w, h := p.Frame.Crop, float64(p.W), float64(p.H)
		at := master{x0: c[0] * w, y0: c[1] * h, kx: float64(m.W) / ((c[2] - c[0]) * w), ky: float64(m.H) / ((c[3] - c[1]) * h)}
		m = p.cutout.putOnGround(m, p.inSmall(at), linearOf(*p.ground))
	}
	p.Histogram[1] = histogram(m)
	p.After = p.Before
	if data, err := p.encodePreview(m, previewSide); err == nil {
		p.After = data
	}
}

// framedSmall returns the framed part of the reduced copy.
func (p *Photo) framedSmall() *pixel.Image {
	w, h := float64(p.small.W), float64(p.small.H)
	c := p.Frame.Crop
	q := pixel.Box(c[0]*w, c[1]*h, c[2]*w, c[3]*h)
	if through := p.Frame.Source(p.small.W, p.small.H); !through.Plain() {
		for i, at := range q {
			q[i].X, q[i].Y = through.Apply(at.X, at.Y)
		}
	}
	cw, ch := max(int((c[2]-c[0])*w+0.5), 1), max(int((c[3]-c[1])*h+0.5), 1)
	m, err := pixel.Resample(p.small.Rows(), pixel.Region{Quad: q, W: cw, H: ch})
	if err != nil {
		return p.small.Clone()
	}
	return m
}

// encodePreview encodes a small copy of m, its longer side as given at most.
func (p *Photo) encodePreview(m *pixel.Image, side int) ([]byte, error) {
	w, h := pixel.FitWithin(m.W, m.H, side, side)
	if w != m.W {
		var err error
		if m, err = pixel.Resample(m.Rows(), pixel.Region{W: w, H: h}); err != nil {
			return nil, err
		}
		defer m.Release()
	}
	pic := rendition.Develop(m, 0)
	defer pic.Release()
	f, err := pic.Encode(rendition.Size{Name: "preview", Width: w, Format: "jpeg", Quality: 80}, rendition.Meta{},
		&rendition.Options{Pure: p.opts.Pure, Bare: true})
	return f.Data, err
}

// histogram is the share of the pixels whose sRGB-coded luma lies in each 64th
// of the range.
func histogram(m *pixel.Image) (h [64]float64) {
	var count [64]int
	n := 0
	for i := 0; i+3 <= len(m.Pix); i += 3 {
		count[rendition.Luma(m.Pix[i], m.Pix[i+1], m.Pix[i+2])>>10]++
		n++
	}
	for i, k := range count {
		h[i] = float64(k) / float64(max(n, 1))
	}
	return h
}
