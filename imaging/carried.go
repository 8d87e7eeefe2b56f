package imaging

import (
	"math"

	"slabfolio/imaging/pixel"
)

// How calm the edges of a photo have to be for its backdrop to be carried on,
// see pixel.Calm. Set by eye on the real photos of the tests: a paper ground
// passes; a skirting, a frame line, the grain of leather, a shadow or a leg that
// reaches the edge do not.
const (
	mostBend  = 4.0
	mostGrain = 5.0
	mostSlope = 10.0
)

// softEdge is what is taken for the soft edge of a piece, as a share of the
// photo's longer side.
const softEdge = 0.01

// canBeExtended reports whether the photo can be carried on beyond those of its
// edges that f reaches out of.
func (p *Photo) canBeExtended(f [4]float64) bool {
	if is, known := p.extends[f]; known {
		return is
	}
	is := p.isCalmBeyond(f)
	if p.planning {
		if p.extends == nil {
			p.extends = map[[4]float64]bool{}
		}
		p.extends[f] = is
	}
	return is
}

// isCalmBeyond looks at the edges that a source reaches out of.
func (p *Photo) isCalmBeyond(f [4]float64) bool {
	beyond, part := p.beyond(f)
	for i, d := range p.rim(f) {
		part[i] += d * float64(1-i/2*2)
	}
	m := p.litPart(part)
	if m == nil {
		return false
	}
	defer m.Release()
	if p.touches(beyond, part, m.W, m.H) {
		return false
	}
	c := m.Edges(beyond, p.covered(part, m.W, m.H, softEdge))
	return c.Bend <= mostBend && c.Grain <= mostGrain && c.Slope <= mostSlope
}

// rimShare is the share of a photo's longer side in which its own edge may lie: a
// sliver of a border, a line that a scan or a resize left, a darker last pixel.
// Carried on from, it would show as a line through the picture.
const rimShare = 0.006

// rim is what is to be left off a photo at the edges that a source reaches out of:
// rimShare, where the piece is not as near as that.
func (p *Photo) rim(f [4]float64) (off [4]float64) {
	beyond, part := p.beyond(f)
	d := math.Ceil(rimShare * float64(max(p.W, p.H)))
	for i, out := range beyond {
		if !out {
			continue
		}
		inner := part
		inner[i] += d * float64(1-i/2*2)
		if w, h, ok := p.smallSize(inner); ok && !p.touches([4]bool{i == 0, i == 1, i == 2, i == 3}, inner, w, h) {
			off[i] = d
		}
	}
	return off
}

// smallSize is the size that a part of the straightened photo, given in its pixels,
// has in the reduced copy, and whether that is large enough to look at.
func (p *Photo) smallSize(part [4]float64) (w, h int, ok bool) {
	kx, ky := float64(p.small.W)/float64(p.W), float64(p.small.H)/float64(p.H)
	w, h = int((part[2]-part[0])*kx+0.5), int((part[3]-part[1])*ky+0.5)
	return w, h, w >= 16 && h >= 16
}

// smallPart returns a part of the straightened photo, given in its pixels, from
// the reduced copy; nil where it is too small to look at.
func (p *Photo) smallPart(part [4]float64) *pixel.Image {
	kx, ky := float64(p.small.W)/float64(p.W), float64(p.small.H)/float64(p.H)
	w, h, ok := p.smallSize(part)
	if !ok {
		return nil
	}
	through := p.Frame.Source(p.W, p.H)
	q := pixel.Box(part[0], part[1], part[2], part[3])
	for i, at := range q {
		x, y := at.X, at.Y
		if !through.Plain() {
			x, y = through.Apply(x, y)
		}
		q[i].X, q[i].Y = x*kx, y*ky
	}
	m, err := pixel.Resample(p.small.Rows(), pixel.Region{Quad: q, W: w, H: h})
	if err != nil {
		return nil
	}
	return m
}

// touches reports whether the piece reaches one of the edges (left, top, right,
// bottom) of a picture of w × h pixels of a part of the straightened photo.
func (p *Photo) touches(edges [4]bool, part [4]float64, w, h int) bool {
	on := p.covered(part, w, h, 0)
	if on == nil {
		return false
	}
	for i := range max(w, h) {
		if i < h && (edges[0] && on(1, i) || edges[2] && on(w-2, i)) || i < w && (edges[1] && on(i, 1) || edges[3] && on(i, h-2)) {
			return true
		}
	}
	return false
}

// covered tells where the piece is, with some share of the longer side around
// it, in a picture of w × h pixels of a part of the straightened photo; nil when
// that is not known.
func (p *Photo) covered(part [4]float64, w, h int, around float64) pixel.Covered {
	k := p.Frame.Mask
	if k == nil {
		return nil
	}
	through := p.Frame.Source(p.W, p.H)
	sx, sy := (part[2]-part[0])/float64(w), (part[3]-part[1])/float64(h)
	d := around * float64(max(p.W, p.H))
	on := p.maskBounds()
	return func(x, y int) bool {
		u, v := through.Apply(part[0]+(float64(x)+0.5)*sx, part[1]+(float64(y)+0.5)*sy)
		if u+d < on[0] || v+d < on[1] || u-d > on[2] || v-d > on[3] {
			return false
		}
		for _, o := range [9][2]float64{{}, {-d, 0}, {d, 0}, {0, -d}, {0, d}, {-d, -d}, {d, -d}, {-d, d}, {d, d}} {
			if k.At((u+o[0])/float64(p.W), (v+o[1])/float64(p.H)) != 0 {
				return true
			}
		}
		return false
	}
}

// maskBounds is a box around all that the outline of the piece covers, in pixels of
// the photo, a pixel of the outline wider on each side.
func (p *Photo) maskBounds() [4]float64 {
	k := p.Frame.Mask
	x0, y0, x1, y1 := k.W, k.H, 0, 0
	for y := range k.H {
		for x, v := range k.Pix[y*k.W : (y+1)*k.W] {
			if v != 0 {
				x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x+1), max(y1, y+1)
			}
		}
	}
	sx, sy := float64(p.W)/float64(k.W), float64(p.H)/float64(k.H)
	return [4]float64{float64(x0-1) * sx, float64(y0-1) * sy, float64(x1+1) * sx, float64(y1+1) * sy}
}
