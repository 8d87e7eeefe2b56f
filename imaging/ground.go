package imaging

import (
	"math"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/rendition"
)

// seamless reports whether the photo's edge is of one colour all along, but for
// what looks like the piece: a ground of that colour does not show.
func (p *Photo) seamless() bool {
	if p.oneEdge != nil {
		return *p.oneEdge
	}
	in := p.inside()
	m := p.smallPart(in)
	is := m != nil && m.EdgeShare(everyEdge, p.covered(in, m.W, m.H, softEdge)) >= besidePiece &&
		m.EdgeShare(everyEdge, nil) >= pixel.MostOfIt
	if p.planning {
		p.oneEdge = &is
	}
	return is
}

// meetsOneColour reports whether the edges of the photo that a source reaches out of
// are of one colour, so that a ground is of that.
func (p *Photo) meetsOneColour(source [4]float64) bool {
	beyond, part := p.beyond(source)
	m := p.smallPart(part)
	return m != nil && m.EdgeShare(beyond, p.aroundPiece(part, m)) >= pixel.MostOfIt
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
