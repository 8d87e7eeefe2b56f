package imaging

import (
	"math"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/rendition"
)

// painted reports whether a rendition holds anything that no camera saw.
func (p *Photo) painted(s rendition.Size) bool {
	if p.formOf(s).cut || s.RatioW <= 0 || s.RatioH <= 0 {
		return p.formOf(s).cut
	}
	f := p.drawnFrom(s).filling
	return f != photoAlone && (f != narrow || p.groundOf(s.Ground) != nil)
}

// drawnFrom is the shape of a size, in pixels of the master.
func (p *Photo) drawnFrom(s rendition.Size) shape {
	g := p.master
	f := p.shapeOf(p.formOf(s))
	in := p.inside()
	f.source = [4]float64{(f.source[0] - g.x0) * g.kx, (f.source[1] - g.y0) * g.ky, (f.source[2] - g.x0) * g.kx, (f.source[3] - g.y0) * g.ky}
	for i, k := range [4]float64{g.kx, g.ky, g.kx, g.ky} {
		f.rim[i] *= k
	}
	in = [4]float64{(in[0] - g.x0) * g.kx, (in[1] - g.y0) * g.ky, (in[2] - g.x0) * g.kx, (in[3] - g.y0) * g.ky}
	has := [4]float64{0, 0, float64(g.w), float64(g.h)}
	f.source = snapped(f.source, has)
	missing := false
	for i := range 2 {
		missing = missing || math.Max(f.source[i], in[i]) < has[i]-rounding || math.Min(f.source[i+2], in[i+2]) > has[i+2]+rounding
	}
	if !missing {
		return f
	}
	// A ratio that Open was not told of: the master may lack what it would show. What there is stays whole.
	w, h := float64(g.w), float64(g.h)
	own := [4]float64{float64(g.left) / w, float64(g.top) / h, float64(g.left+g.cw) / w, float64(g.top+g.ch) / h}
	r := frame.Result{Crop: own, Inside: [4]float64{0, 0, 1, 1}, Kept: p.room() != frame.Filled}
	at := r.Shape(g.w, g.h, s.RatioW, s.RatioH, p.room())
	if !at.Beyond {
		return shape{source: at.Source, whole: at.Whole}
	}
	return shape{source: centred(at.Source, has), whole: at.Whole, filling: narrow}
}

// rounding is what may have been taken off a master at a side, in pixels of it.
const rounding = 1.5

// snapped moves a source that reaches out of what the master has by no more than
// rounding, so that no line of the ground shows where there is photo.
func snapped(f, has [4]float64) [4]float64 {
	over := func(v float64) bool { return v > 0 && v <= rounding }
	for i := range 2 {
		switch lo, hi := has[i]-f[i], f[i+2]-has[i+2]; {
		case over(lo) && hi+lo <= 0:
			f[i], f[i+2] = f[i]+lo, f[i+2]+lo
		case over(hi) && lo+hi <= 0:
			f[i], f[i+2] = f[i]-hi, f[i+2]-hi
		default:
			if over(lo) {
				f[i] = has[i]
			}
			if over(hi) {
				f[i+2] = has[i+2]
			}
		}
	}
	return f
}

// shaped returns the photo in a ratio of its own and how many times smaller than
// the photo it is.
func (d *darkroom) shaped(s rendition.Size) (*pixel.Image, float64, error) {
	g := d.p.master
	f := d.p.drawnFrom(s)
	x0, y0, x1, y1 := f.source[0], f.source[1], f.source[2], f.source[3]
	w, h := s.Fit(max(int(math.Round(x1-x0)), 1), max(int(math.Round(y1-y0)), 1))
	// What of it the master has, and where that lies in the result.
	ix0, iy0 := math.Max(x0, f.rim[0]), math.Max(y0, f.rim[1])
	ix1, iy1 := math.Min(x1, float64(g.w)-f.rim[2]), math.Min(y1, float64(g.h)-f.rim[3])
	kx, ky := float64(w)/(x1-x0), float64(h)/(y1-y0)
	left, right := int(math.Round((ix0-x0)*kx)), int(math.Round((ix1-x0)*kx))
	top, bottom := int(math.Round((iy0-y0)*ky)), int(math.Round((iy1-y0)*ky))
	// Of a strip much thinner than the ratio a pixel is left to see.
	left, top = min(left, w-1), min(top, h-1)
	right, bottom = max(right, left+1), max(bottom, top+1)
	alone := f.filling == narrow && d.p.groundOf(s.Ground) == nil
	if alone { // no pixel more than the photo has
		right = left + max(min(right-left, int((ix1-ix0)+0.5)), 1)
		bottom = top + max(min(bottom-top, int((iy1-iy0)+0.5)), 1)
	}
	m, err := pixel.Resample(d.on(s).m.Rows(), pixel.Region{Quad: pixel.Box(ix0, iy0, ix1, iy1), W: right - left, H: bottom - top})
	if err != nil {
		return nil, 0, err
	}
	if alone {
		return m, (x1 - x0) / g.kx / float64(w), nil
	}
	if left > 0 || top > 0 || right < w || bottom < h {
		defer m.Release() // what was padded stands in a copy
		part := [4]float64{ix0/g.kx + g.x0, iy0/g.ky + g.y0, ix1/g.kx + g.x0, iy1/g.ky + g.y0}
		on := d.p.covered(part, m.W, m.H, softEdge)
		switch f.filling {
		case backdrop:
			m = m.Pad(w, h, left, top, on)
		case ground:
			c := d.p.groundColour(s)
			m.FadeInto(c, [4]bool{left > 0, top > 0, right < w, bottom < h}, on)
			m = m.OnGround(w, h, left, top, c)
		default:
			m = m.OnGround(w, h, left, top, d.p.groundColour(s))
		}
	}
	return m, (x1 - x0) / g.kx / float64(w), nil
}
