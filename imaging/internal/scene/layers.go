package scene

import "slabfolio/imaging/pixel"

// Layers are what a photo of a piece before a backdrop is the sum of, without
// noise. By the equation of compositing (Porter and Duff, Computer Graphics
// 18(3), 1984) the photo is Piece + Behind, and on a ground G it would have been
// Piece + Behind·G/Bare.
type Layers struct {
	Piece  *pixel.Image // the subject's light, in the share of each pixel that it covers
	Behind *pixel.Image // the backdrop's, in the rest: with its shadows
	Bare   *pixel.Image // the backdrop's without a subject: no shadow, nothing covered
}

// RenderLayers is Render that also tells what the picture is made of.
func RenderLayers(s Scene, w, h int) (*pixel.Image, Truth, Layers) {
	l := Layers{Piece: pixel.New(w, h), Behind: pixel.New(w, h)}
	m, truth := render(s, w, h, &l)
	return m, truth, l
}

// band takes the layers of rows y0 to y1 from a band that is composed; a is its
// first row.
func (l *Layers) band(t *tracer, p *plane, lit []float32, a, y0, y1 int) {
	behind := make([]float32, len(lit))
	for k, o := range p.object {
		if o < 0 && o != -3 {
			copy(behind[3*k:3*k+3], lit[3*k:])
		} else {
			copy(behind[3*k:3*k+3], p.behind[3*k:])
		}
	}
	piece := make([]float32, len(lit))
	for i, v := range lit {
		piece[i] = v - behind[i]
	}
	quiet := *t
	s := *t.s
	s.Sensor.Shot, s.Sensor.Read = 0, 0
	quiet.s = &s
	n := p.w * 3
	for _, one := range []struct {
		to  *pixel.Image
		lit []float32
	}{{l.Piece, piece}, {l.Behind, behind}} {
		soft := blur(one.lit, p.w, p.h, s.Sensor.Blur)
		eachRow(y0, y1, func(y int) { quiet.expose(one.to.Row(y), soft[(y-a)*n:(y-a+1)*n], y, p.w, one.to.H) })
	}
}

// bare draws the backdrop alone, in the light of the whole scene.
func (t *tracer) bare(w, h int) *pixel.Image {
	alone := *t
	s := *t.s
	s.Sensor.Shot, s.Sensor.Read = 0, 0
	s.Samples = 2
	alone.s, alone.tree, alone.layers, alone.shared = &s, newBVH(nil), nil, nil
	img := pixel.New(w, h)
	const band = 480
	for y := 0; y < h; y += band {
		alone.band(img, make([]uint8, w*h), w, h, y, min(y+band, h))
	}
	return img
}
