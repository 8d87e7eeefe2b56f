package imaging

import (
	"math"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/rendition"
)

// A filling is what stands in a rendition where there is no photo.
type filling int

const (
	photoAlone filling = iota // there is photo everywhere
	backdrop                  // the backdrop, carried on
	ground                    // a plain ground of the photo's own edge colour
)

// A shape is where a rendition with a ratio of its own is taken from.
type shape struct {
	source [4]float64 // in pixels of the straightened photo
	whole  bool       // all that has to be in it is in it
	filling
}

// inside is the part of the straightened photo, in its pixels, that shows
// nothing but photo.
func (p *Photo) inside() [4]float64 {
	b, w, h := p.Frame.Inside, float64(p.W), float64(p.H)
	return [4]float64{b[0] * w, b[1] * h, b[2] * w, b[3] * h}
}

// A form is what the shape of a size hangs on.
type form struct {
	rw, rh int
	cut    bool // the piece is put on a ground of its own
}

func (p *Photo) formOf(s rendition.Size) form {
	return form{s.RatioW, s.RatioH, p.cutout != nil && p.groundOf(s.Ground) != nil}
}

// shapeOf returns the shape of a form.
func (p *Photo) shapeOf(k form) shape {
	if s, ok := p.shapes[k]; ok {
		return s
	}
	f := p.Frame.Shape(p.W, p.H, k.rw, k.rh, p.isFilled())
	s := shape{source: f.Source, whole: f.Whole}
	switch {
	case !f.Beyond:
	case k.cut:
		s.filling = ground // the same all over, so nothing shows where the photo ends
	case p.Frame.Sure && p.Frame.Plain && p.canBeExtended(f.Source):
		s.filling = backdrop
	default:
		s.filling = ground
		s.source = centred(f.Source, p.inside())
	}
	return s
}

// planShapes settles the shapes of all sizes that Open was told of and records what
// was done for them.
func (p *Photo) planShapes() {
	for _, s := range p.opts.Sizes {
		key := p.formOf(s)
		if _, known := p.shapes[key]; known || s.RatioW <= 0 || s.RatioH <= 0 {
			continue
		}
		sh := p.shapeOf(key)
		p.shapes[key] = sh
		v := map[string]float64{"ratio_w": float64(s.RatioW), "ratio_h": float64(s.RatioH)}
		p.record(sh.filling == backdrop, "frame.padded", v)
		p.record(sh.filling == ground && !key.cut, "frame.ground", v)
		p.record(!sh.whole, "frame.filled", v)
		if sh.filling == ground && !key.cut && !p.Frame.Sure && !p.Frame.Kept {
			p.Notes = append(p.Notes, note.Note{Code: "frame.unsure", Values: v})
		}
	}
}

// isFilled reports whether pictures of other shapes are to be filled with the photo
// rather than to show all of it.
func (p *Photo) isFilled() bool {
	return p.shows == PartOfIt && !p.Frame.Kept
}

// centred moves a source that reaches out of the photo so that it does so on both
// sides alike. (A mat all around, tried where that leaves narrow strips, looked
// like a mistake to those who scored the pictures blind.)
func centred(f, in [4]float64) [4]float64 {
	for i := range 2 {
		need := f[i+2] - f[i]
		if need > in[i+2]-in[i] {
			f[i] = (in[i] + in[i+2] - need) / 2
			f[i+2] = f[i] + need
		}
	}
	return f
}

// How calm the edges of a photo have to be for its backdrop to be carried on,
// see pixel.Calm. Set by eye on the real photos of the tests: a paper ground
// passes; a skirting, a frame line, the grain of leather, a shadow or a leg that
// reaches the edge do not.
const (
	mostBend  = 4.0
	mostGrain = 4.0
	mostSlope = 6.0
)

// softEdge is what is taken for the soft edge of a piece, as a share of the
// photo's longer side.
const softEdge = 0.01

// canBeExtended reports whether the photo can be carried on beyond those of its
// edges that f reaches out of.
func (p *Photo) canBeExtended(f [4]float64) bool {
	in := p.inside()
	beyond := [4]bool{f[0] < in[0]-0.5, f[1] < in[1]-0.5, f[2] > in[2]+0.5, f[3] > in[3]+0.5}
	part := [4]float64{math.Max(f[0], in[0]), math.Max(f[1], in[1]), math.Min(f[2], in[2]), math.Min(f[3], in[3])}
	m := p.smallPart(part)
	if m == nil {
		return false
	}
	if p.touches(beyond, part, m.W, m.H) {
		return false
	}
	c := m.Edges(beyond, p.covered(part, m.W, m.H, softEdge))
	return c.Bend <= mostBend && c.Grain <= mostGrain && c.Slope <= mostSlope
}

// smallPart returns a part of the straightened photo, given in its pixels, from
// the reduced copy; nil where it is too small to look at.
func (p *Photo) smallPart(part [4]float64) *pixel.Image {
	kx, ky := float64(p.small.W)/float64(p.W), float64(p.small.H)/float64(p.H)
	w, h := int((part[2]-part[0])*kx+0.5), int((part[3]-part[1])*ky+0.5)
	if w < 16 || h < 16 {
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
	return func(x, y int) bool {
		u, v := through.Apply(part[0]+(float64(x)+0.5)*sx, part[1]+(float64(y)+0.5)*sy)
		for _, o := range [9][2]float64{{}, {-d, 0}, {d, 0}, {0, -d}, {0, d}, {-d, -d}, {d, -d}, {-d, d}, {d, d}} {
			if k.At((u+o[0])/float64(p.W), (v+o[1])/float64(p.H)) != 0 {
				return true
			}
		}
		return false
	}
}

// groundColour is the colour of the plain ground of a size, linear and with the
// tone of the photo: the one asked for, else that of the photo's own edge.
func (p *Photo) groundColour(s rendition.Size) [3]uint16 {
	if c := p.groundOf(s.Ground); c != nil {
		return linearOf(*c)
	}
	if p.mat != nil {
		return *p.mat
	}
	return p.edgeColour()
}

// learnMat takes the colour of the photo's edge once, where a shape needs it.
func (p *Photo) learnMat() {
	for _, sh := range p.shapes {
		if sh.filling == ground && p.mat == nil {
			c := p.edgeColour()
			p.mat = &c
		}
	}
}

// edgeColour is the colour of the photo's own edge, linear and with its tone.
func (p *Photo) edgeColour() [3]uint16 {
	in := p.inside()
	m := p.smallPart(in)
	if m == nil {
		m = pixel.New(1, 1)
		c := p.small.EdgeColour(nil)
		copy(m.Pix, c[:])
	}
	p.Tone.Apply(m)
	if p.Frame.Sure {
		return m.EdgeColour(p.covered(in, m.W, m.H, softEdge))
	}
	return m.EdgeColour(nil)
}

// painted reports whether a rendition holds anything that no camera saw.
func (p *Photo) painted(s rendition.Size) bool {
	return p.formOf(s).cut || s.RatioW > 0 && s.RatioH > 0 && p.drawnFrom(s).filling != photoAlone
}

// drawnFrom is the shape of a size, in pixels of the master.
func (p *Photo) drawnFrom(s rendition.Size) shape {
	g := p.master
	f := p.shapeOf(p.formOf(s))
	in := p.inside()
	f.source = [4]float64{(f.source[0] - g.x0) * g.kx, (f.source[1] - g.y0) * g.ky, (f.source[2] - g.x0) * g.kx, (f.source[3] - g.y0) * g.ky}
	in = [4]float64{(in[0] - g.x0) * g.kx, (in[1] - g.y0) * g.ky, (in[2] - g.x0) * g.kx, (in[3] - g.y0) * g.ky}
	const e = 1.5 // what rounding may have taken off a master
	has := [4]float64{0, 0, float64(g.w), float64(g.h)}
	missing := false
	for i := range 2 {
		missing = missing || math.Max(f.source[i], in[i]) < has[i]-e || math.Min(f.source[i+2], in[i+2]) > has[i+2]+e
	}
	if !missing {
		return f
	}
	// A ratio that Open was not told of: the master may lack what it would show. What there is stays whole.
	w, h := float64(g.w), float64(g.h)
	own := [4]float64{float64(g.left) / w, float64(g.top) / h, float64(g.left+g.cw) / w, float64(g.top+g.ch) / h}
	r := frame.Result{Crop: own, Inside: [4]float64{0, 0, 1, 1}, Kept: !p.isFilled()}
	at := r.Shape(g.w, g.h, s.RatioW, s.RatioH, p.isFilled())
	if !at.Beyond {
		return shape{source: at.Source, whole: at.Whole}
	}
	return shape{centred(at.Source, has), at.Whole, ground}
}

// shaped returns the photo in a ratio of its own and how many times smaller than
// the photo it is.
func (d *darkroom) shaped(s rendition.Size) (*pixel.Image, float64, error) {
	g := d.p.master
	f := d.p.drawnFrom(s)
	x0, y0, x1, y1 := f.source[0], f.source[1], f.source[2], f.source[3]
	w, h := s.Fit(max(int(math.Round(x1-x0)), 1), max(int(math.Round(y1-y0)), 1))
	// What of it the master has, and where that lies in the result.
	ix0, iy0 := math.Max(x0, 0), math.Max(y0, 0)
	ix1, iy1 := math.Min(x1, float64(g.w)), math.Min(y1, float64(g.h))
	kx, ky := float64(w)/(x1-x0), float64(h)/(y1-y0)
	left, right := int(math.Round((ix0-x0)*kx)), int(math.Round((ix1-x0)*kx))
	top, bottom := int(math.Round((iy0-y0)*ky)), int(math.Round((iy1-y0)*ky))
	// Of a strip much thinner than the ratio a pixel is left to see.
	left, top = min(left, w-1), min(top, h-1)
	right, bottom = max(right, left+1), max(bottom, top+1)
	m, err := pixel.Resample(d.on(s).m.Rows(), pixel.Region{Quad: pixel.Box(ix0, iy0, ix1, iy1), W: right - left, H: bottom - top})
	if err != nil {
		return nil, 0, err
	}
	if left > 0 || top > 0 || right < w || bottom < h {
		defer m.Release() // what was padded stands in a copy
		if f.filling == backdrop {
			part := [4]float64{ix0/g.kx + g.x0, iy0/g.ky + g.y0, ix1/g.kx + g.x0, iy1/g.ky + g.y0}
			m = m.Pad(w, h, left, top, d.p.covered(part, m.W, m.H, softEdge))
		} else {
			m = m.OnGround(w, h, left, top, d.p.groundColour(s))
		}
	}
	return m, (x1 - x0) / g.kx / float64(w), nil
}
