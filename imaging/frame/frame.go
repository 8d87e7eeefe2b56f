// Package frame finds the piece in a photo and says how to straighten and crop
// the photo around it. It decides and measures; it never changes a picture.
//
// # Order of operations
//
// A photo is first straightened, then cropped. Straightening keeps the size of
// the photo: it turns about the centre by -Angle and, where Corners is set,
// takes the quadrangle of the turned photo to the whole frame. Crop and Subject
// are shares of that straightened photo. [Result.Source] gives the one mapping
// that does all of it, from a point of the straightened photo to a point of the
// upright photo.
package frame

import (
	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

// Options are the maker's wishes. A nil *Options means none.
type Options struct {
	AsShot bool             // no straightening and no crop; the subject is still looked for
	Part   bool             // it shows a part of something that goes on beyond the frame: no crop but around a sure outline
	Side   int              // pixels along the longer side of the photo; 0: enough for any crop
	Box    *[4]float64      // the crop the maker wants: left, top, right, bottom as shares of the upright photo; it is straightened and nothing of it is lost
	Sight  func() *Sighting // says where the piece is seen by other means; asked only where this package is not sure by itself; nil: nowhere
}

// A Result is what was found in a photo and how to frame it.
type Result struct {
	Crop    [4]float64     // left, top, right, bottom as shares of the straightened photo
	Angle   float64        // degrees by which the photo leans clockwise, |Angle| ≤ 3; turning by -Angle puts it right; 0: none
	Corners *[4][2]float64 // quadrangle of the turned photo that becomes the whole frame, as shares: top left, top right, bottom right, bottom left; nil: none

	Inside [4]float64 // the part of the straightened photo, in shares, that shows nothing but photo; Crop lies in it

	Subject  [4]float64  // bounding box of the piece, in shares of the straightened photo; the whole frame when unknown
	Sure     bool        // the outline of the piece is sure: pictures may be cut close to it
	May      [4]float64  // all that may be the piece, in shares of the straightened photo, where its outline is not sure; narrower than the photo, never lower
	Grain    bool        // there is grain from edge to edge and nothing that begins or ends: no piece to be held whole
	Kept     bool        // Crop is the maker's own wish, and whole in every picture
	Mask     *pixel.Mask // the piece, over the upright photo; nil when no subject was told apart
	Plain    bool        // the piece stands before a plain backdrop
	Backdrop [3]uint16   // its typical colour, linear; valid when Plain

	Confidence float64 // 0 to 1, how sure the subject is
	Notes      []note.Note
}

// whole is the crop that takes nothing away.
var whole = [4]float64{0, 0, 1, 1}

// Find frames an upright photo from its reduced copy in linear light, best
// 768 to 1024 pixels on the longer side. It never fails: where it is not sure
// it keeps the whole frame and says so in the notes, with these codes:
//
//	frame.whole       no subject was told apart; the whole frame is kept (share: of the frame that looked like it)
//	frame.straightened the photo was turned (degrees)
//	frame.border      a line along the edge of the photo, or a mat around it, was taken off
//	frame.leaning     it leans, but turned upright it would lose some of the piece or of the maker's box (degrees)
//	frame.converging  upright lines lean towards each other at the top (degrees; negative: apart; corrected 0 or 1)
//	frame.cut         what was taken for the piece comes to the edge of the photo (left, top, right, bottom: along which share of each)
//	frame.small       the piece fills little of the photo (share)
func Find(small *pixel.Image, opts *Options) Result {
	if opts == nil {
		opts = &Options{}
	}
	r := Result{Crop: whole, Inside: whole, Subject: whole, May: whole}
	if small == nil || small.W < 16 || small.H < 16 || len(small.Pix) < small.W*small.H*3 {
		r.Notes = append(r.Notes, note.Note{Code: "frame.whole"})
		return r
	}
	c := newCopy(small)
	if c.w < 16 || c.h < 16 { // a strip so narrow has no inside
		r.Notes = append(r.Notes, note.Note{Code: "frame.whole"})
		return r
	}
	photo := whole
	if !opts.AsShot {
		photo = border(small)
	}
	found := c.decide(opts.Sight, photo)
	r.Plain, r.Confidence, r.Sure = found.plain, found.confidence, found.sure
	if found.plain {
		r.Backdrop = meanColour(small, c, found)
	}
	if found.mask != nil {
		r.Mask = &pixel.Mask{W: c.w, H: c.h, Pix: found.mask}
	}
	r.Inside = photo
	if !opts.AsShot {
		r.straighten(c)
	}
	r.limitStraightening(found, opts, c)
	r.May = clipped(r.mapped(found.may, c), r.Inside)
	r.Grain = !found.plain && !found.seen && c.grainAlone()
	r.place(found, opts, c)
	return r
}
