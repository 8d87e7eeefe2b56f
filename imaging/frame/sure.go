package frame

import (
	"math"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// A Sighting is where something else than this package takes the piece to be:
// a mask over the upright photo and how certain it is, 0 to 1.
type Sighting struct {
	Mask      *pixel.Mask
	May       [4]float64 // box, in shares of the photo, of all that it gives the least chance to be piece; the whole photo where that is nothing
	Certainty float64
}

// What makes the outline before a plain backdrop sure, set on the real photos of
// the tests: a wall with its skirting, a desk before a wall and a sheet with
// stains all pass for one smooth surface at a first look, and each fails here.
const (
	sureShare = 0.85 // of the photo's edge lies on the backdrop
	sureFar   = 0.08 // at most so much outside the outline is far from the backdrop, shadows forgiven
	sureRim   = 0.06 // at most so much of the photo's rim is piece
	sureWhole = 0.70 // the piece is one patch, by weight, or nearly
	farOff    = 8    // ΔE 1976
)

// What makes a sighting sure is its certainty alone. Less of it, where the search
// of this package has the piece in the same place, proved to be no evidence: on a
// grand piano the two overlap by 0.80, and both miss its lid.
//
// A likely sighting is still the better answer to where to look, for tone,
// sharpness and accent, where nothing stands before a plain ground: of seven real
// photos its mask fits six better than the search's. It moves no edge of the frame.
const (
	certain    = 0.90
	likely     = 0.60
	tooLittle  = 0.01 // share of the frame
	tooMuch    = 0.85
	halfOfFull = 128
	unsure     = 0.3 // the confidence of a likely sighting: below surely
)

// decide is the one place where it is settled what the piece is and whether that
// is sure: from the search in the photo, and where that is not sure, from a sighting.
// photo is the part that is no border, in shares.
func (c *labCopy) decide(see func() *Sighting, photo [4]float64) finding {
	f := c.subject()
	f.within(photo, c)
	f.may = whole
	f.sure = f.plain && f.mask != nil && c.standsClear(&f)
	if see == nil || f.sure {
		return f
	}
	s := see()
	if s == nil || s.Mask == nil {
		return f
	}
	f.may = c.between(&f, s)
	if s.Certainty < likely || s.Certainty < certain && f.plain {
		return f
	}
	seen := finding{mask: c.resized(s.Mask), surface: f.surface, confidence: s.Certainty, seen: true, may: f.may}
	seen.measure(c.w, c.h)
	seen.within(photo, c)
	if seen.mask == nil || seen.share < tooLittle || seen.share > tooMuch {
		return f
	}
	if s.Certainty < certain {
		seen.confidence = min(f.confidence, unsure)
		return seen
	}
	seen.sure, seen.plain = true, false
	return seen
}

// beside is the room that is left at either side of what may be piece, as a share
// of the photo's width.
const beside = 0.05

// enough is the certainty from which on a sighting alone tells where the piece is
// between left and right: of the ten real photos of the tests that reach it without being
// certain, no piece goes beyond what it gives a chance, let alone the room beside that.
const enough = 0.5

// between is where the piece may be between left and right: all that the search
// in the photo took for it and all that a sighting gave a chance, with some room.
// Each misses some of the piece in a third of the real photos of the tests, but
// they know nothing of each other, and at the sides no photo lost more than 1.4 % by both.
// Above and below they do miss the same: the open lid of a grand piano. So there
// all of the photo may be piece.
func (c *labCopy) between(f *finding, s *Sighting) [4]float64 {
	if f.mask == nil || s.May[2] <= s.May[0] {
		return whole
	}
	if s.Certainty >= enough {
		return [4]float64{math.Max(0, s.May[0]-beside), 0, math.Min(1, s.May[2]+beside), 1}
	}
	w := float64(c.w)
	return [4]float64{
		math.Max(0, math.Min(float64(f.x0)/w, s.May[0])-beside), 0,
		math.Min(1, math.Max(float64(f.x1)/w, s.May[2])+beside), 1,
	}
}

// within takes off the mask what lies outside of the photo.
func (f *finding) within(photo [4]float64, c *labCopy) {
	if photo == whole || f.mask == nil {
		return
	}
	x0, y0 := int(math.Ceil(photo[0]*float64(c.w))), int(math.Ceil(photo[1]*float64(c.h)))
	x1, y1 := int(photo[2]*float64(c.w)), int(photo[3]*float64(c.h))
	for y := range c.h {
		for x := range c.w {
			if x < x0 || y < y0 || x >= x1 || y >= y1 {
				f.mask[y*c.w+x] = 0
			}
		}
	}
	f.measure(c.w, c.h)
}

// standsClear tells whether an outline before a plain backdrop is to be trusted.
func (c *labCopy) standsClear(f *finding) bool {
	full, lit := c.distance(&f.surface)
	defer spare.Give(full)
	defer spare.Give(lit)
	var out, far, rim, on float64
	for y := range c.h {
		for x := range c.w {
			i := y*c.w + x
			if x == 1 || y == 1 || x == c.w-2 || y == c.h-2 { // the outermost pixel is often a border line
				rim++
				if f.mask[i] != 0 {
					on++
				}
			}
			if f.mask[i] == 0 {
				out++
				if lit[i] > farOff {
					far++
				}
			}
		}
	}
	labels, list := parts(f.mask, c.w, c.h, full)
	spare.Give(labels)
	best, all := 0.0, 0.0
	for _, p := range list {
		best, all = max(best, p.weight), all+p.weight
	}
	return f.surface.share >= sureShare && far <= sureFar*out && on <= sureRim*rim && best >= sureWhole*all
}

// resized brings a mask to the size of the copy.
func (c *labCopy) resized(m *pixel.Mask) []uint8 {
	out := make([]uint8, c.w*c.h)
	for y := range c.h {
		for x := range c.w {
			if m.At((float64(x)+0.5)/float64(c.w), (float64(y)+0.5)/float64(c.h)) >= halfOfFull {
				out[y*c.w+x] = 255
			}
		}
	}
	return out
}
