package imaging

import (
	"math"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/rendition"
	"slabfolio/imaging/spare"
	"slabfolio/imaging/tone"
)

// seamless reports whether the photo's edge is of one colour all along, but for
// what looks like the piece: a ground of that colour does not show.
func (p *Photo) seamless() bool {
	if p.oneEdge != nil {
		return *p.oneEdge
	}
	in := p.inside()
	m := p.litPart(in)
	is := m != nil && m.EdgeShare(everyEdge, p.covered(in, m.W, m.H, softEdge)) >= besidePiece &&
		m.EdgeShare(everyEdge, nil) >= pixel.MostOfIt
	if m != nil {
		m.Release()
	}
	if p.planning {
		p.oneEdge = &is
	}
	return is
}

// canStandOn reports whether a photo can stand on a ground of its edge's colour in a
// source that reaches out of it: those edges are of one colour, and the piece does not
// run out of them, where it would look sawn off, nor stand at one side of an empty ground;
// one that is not sure runs out of none.
func (p *Photo) canStandOn(source [4]float64) bool {
	beyond, part := p.beyond(source)
	for i, out := range p.runsOut() {
		if out && (beyond[i] || !p.Frame.Sure || i%2 == 0 && beyond[2-i]) {
			return false
		}
	}
	m := p.litPart(part)
	if m == nil {
		return false
	}
	defer m.Release()
	return m.EdgeShare(beyond, p.aroundPiece(part, m)) >= pixel.MostOfIt
}

// runsOutFrom is the share of an edge of the photo along which something stands from
// which on the piece runs out of it; less is a foot or the tip of an arm that touches it.
const runsOutFrom = 0.09

// runsOut tells at which edges of the photo (left, top, right, bottom) the piece runs out
// of it, or may: where its outline is not sure, whatever is of another colour there than
// the rest of the edge.
func (p *Photo) runsOut() (out [4]bool) {
	if p.cutOff != nil {
		return *p.cutOff
	}
	in := p.inside()
	if m := p.litPart(in); m != nil {
		on := p.aroundPiece(in, m)
		if on == nil {
			on = m.Unlike(m.EdgeColour(everyEdge, nil))
		} else {
			on = p.covered(in, m.W, m.H, 0)
		}
		for i, share := range m.Contact(on) {
			out[i] = share >= runsOutFrom
		}
		m.Release()
	}
	if p.planning {
		p.cutOff = &out
	}
	return out
}

// worthLifting is the least lift that changes what is seen.
const worthLifting = 1.1

// litPart is smallPart as bright as it may come out: how alike its colours are is the
// same then in a photo that was exposed too little.
func (p *Photo) litPart(part [4]float64) *pixel.Image {
	m := p.smallPart(part)
	if m == nil {
		return nil
	}
	if k := p.lift(); k >= worthLifting {
		lit := spare.Take[uint16](65536)
		defer spare.Give(lit)
		for v := range lit {
			lit[v] = uint16(math.Min(float64(v)*k, 65535))
		}
		for i, v := range m.Pix {
			m.Pix[i] = lit[v]
		}
	}
	return m
}

// lift is by how much a photo may be made brighter before its brightest part is white.
func (p *Photo) lift() float64 {
	if p.brighter == 0 {
		var n [256]int
		for _, v := range p.small.Pix {
			n[v>>8]++
		}
		top, above := 255, 0
		for ; top > 0; top-- {
			if above += n[top]; above*1000 > len(p.small.Pix) {
				break
			}
		}
		k := math.Min(math.Exp2(tone.MaxEV), 255/math.Max(float64(top), 1))
		if !p.planning {
			return k
		}
		p.brighter = k
	}
	return p.brighter
}

// besidePiece is the share of what of a photo's edge is not the piece that has to
// be of one colour for a ground of that not to show.
const besidePiece = 0.9

var everyEdge = [4]bool{true, true, true, true}

// aroundPiece tells where a sure piece is in a picture of a part of the
// straightened photo; nil where it is not sure.
func (p *Photo) aroundPiece(part [4]float64, m *pixel.Image) pixel.Covered {
	if !p.Frame.Sure {
		return nil
	}
	return p.covered(part, m.W, m.H, softEdge)
}

// groundColour is the colour of the plain ground of a size, linear and with the
// tone of the photo: the one asked for, else that of the photo's own edge.
func (p *Photo) groundColour(s rendition.Size) [3]uint16 {
	if c := p.groundOf(s.Ground); c != nil {
		return linearOf(*c)
	}
	sh := p.shapeOf(p.formOf(s))
	if sh.colour != nil {
		return *sh.colour
	}
	return p.edgeColour(sh.source)
}

// learnGrounds takes the colour of the ground of each shape once.
func (p *Photo) learnGrounds() {
	for k, sh := range p.shapes {
		if sh.filling == ground && !k.cut {
			c := p.edgeColour(sh.source)
			sh.colour = &c
			p.shapes[k] = sh
		}
	}
}

// edgeColour is the colour of a ground for a source that reaches out of the
// photo, linear and with its tone: of those edges of the photo that meet it.
func (p *Photo) edgeColour(source [4]float64) [3]uint16 {
	beyond, part := p.beyond(source)
	m := p.smallPart(part)
	if m == nil {
		m, beyond = p.small.Clone(), everyEdge
	}
	p.Tone.Apply(m)
	return m.EdgeColour(beyond, p.aroundPiece(part, m))
}

// beyond tells out of which edges of the photo a source reaches, and what of it
// is photo.
func (p *Photo) beyond(f [4]float64) (edges [4]bool, part [4]float64) {
	in := p.inside()
	edges = [4]bool{f[0] < in[0]-0.5, f[1] < in[1]-0.5, f[2] > in[2]+0.5, f[3] > in[3]+0.5}
	return edges, [4]float64{math.Max(f[0], in[0]), math.Max(f[1], in[1]), math.Min(f[2], in[2]), math.Min(f[3], in[3])}
}
