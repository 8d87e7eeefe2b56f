package imaging

import (
	"slabfolio/imaging/frame"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/subject"
)

// askNet asks the net where the piece is. It is asked only where the backdrop
// does not tell, and what it says counts as far as it is certain.
func (p *Photo) askNet() *frame.Sighting {
	s := subject.Find(p.small)
	p.Numbers["sighting_certainty"] = s.Certainty
	return &frame.Sighting{Mask: &pixel.Mask{W: subject.Side, H: subject.Side, Pix: s.Mask}, May: s.May, Certainty: s.Certainty}
}
