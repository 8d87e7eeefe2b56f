package imaging

import (
	"image/color"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/note"
)

// Which grounds a photo is put on, and which not.

// cut settles whether the piece can be put on the grounds that are asked for.
func (p *Photo) cut() {
	asked := p.ground != nil
	for _, s := range p.opts.Sizes {
		asked = asked || s.Ground != nil
	}
	if !asked {
		return
	}
	var why int
	if p.cutout, why = newCutout(p); why == 0 && p.tooDark() {
		p.cutout, why = nil, whyGround
	}
	if why != 0 {
		p.refuseGround(why)
	}
}

func (p *Photo) refuseGround(why int) {
	p.cutout = nil
	p.Notes = append(p.Notes, note.Note{Code: "ground.refused", Values: map[string]float64{"why": float64(why)}})
}

// learnGround looks at the photo again in the light that it comes out in: on the
// ground asked for it stands with that tone.
func (p *Photo) learnGround() {
	if p.cutout == nil {
		return
	}
	m := p.small.Clone()
	p.Tone.Apply(m)
	if !p.cutout.learn(m) {
		p.refuseGround(whyUnsure)
		return
	}
	p.record(true, "ground.put", nil)
}

// tooDark reports whether a ground that is asked for is much darker than the
// backdrop.
func (p *Photo) tooDark() bool {
	b := p.cutout.litAt(float64(p.small.W)/2, float64(p.small.H)/2)
	least := darkGround * (0.2126*b[0] + 0.7152*b[1] + 0.0722*b[2]) / 65535
	dark := func(c *color.NRGBA) bool { return c != nil && luminance(*c) < least }
	if dark(p.ground) {
		return true
	}
	for _, s := range p.opts.Sizes {
		if dark(s.Ground) {
			return true
		}
	}
	return false
}

// groundOf is the ground that a size stands on: its own, else the photo's; nil:
// the photo's own backdrop.
func (p *Photo) groundOf(size *color.NRGBA) *color.NRGBA {
	if size != nil {
		return size
	}
	return p.ground
}

// linearOf is a colour in linear light.
func linearOf(c color.NRGBA) (out [3]uint16) {
	for k, v := range [3]uint8{c.R, c.G, c.B} {
		out[k] = clipped16(65535 * colour.Decode(float64(v)/255))
	}
	return out
}
