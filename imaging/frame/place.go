package frame

import "math"

// A Placement says where a rendition of a given ratio is taken from.
type Placement struct {
	Source [4]float64 // left, top, right, bottom in pixels of the straightened photo; reaches out of Result.Inside when Beyond
	Beyond bool       // what lies outside of Result.Inside is to be made up: there is no photo
	Whole  bool       // all that has to be in the picture is in it
}

// Room is what a shape is to do where the photo does not hold all of the crop.
type Room int

// The three of it.
const (
	Roomy  Room = iota // show all of the crop, beyond the photo: for a ground that looks like the photo's own
	Close              // reach beyond the photo as little as what has to be in it allows: for a ground that is seen
	Filled             // stay within the photo: for a picture of a part of something that goes on beyond its frame
)

// aroundSubject is what a shape leaves free around a piece at the least, as a
// share of the longer side of its box: an outline is exact to a pixel or two of
// the copy it was found on. beyondPhoto is the same where the photo does not
// reach: then some more of the photo costs nothing but thinner bars.
const (
	aroundSubject = 0.012
	beyondPhoto   = 0.03
)

// Shape chooses the source rectangle of a rendition ratioW:ratioH of a photo of
// photoW × photoH pixels. What has to be in it is the maker's box; else the
// piece, where its outline is sure; else all of the crop that may be piece. In
// that order:
//
//   - the whole crop, where the photo holds a rectangle of the ratio around it;
//   - as much of the photo as the ratio allows, where that holds what has to be in it;
//   - beyond the photo, the whole crop or what has to be in it alone, see Room.
//
// Filled, nothing has to be in it. A ratio or a photo that is not positive gives
// the crop itself.
func (r *Result) Shape(photoW, photoH, ratioW, ratioH int, room Room) Placement {
	w, h := float64(photoW), float64(photoH)
	px := func(b [4]float64) [4]float64 { return [4]float64{b[0] * w, b[1] * h, b[2] * w, b[3] * h} }
	crop, in := px(r.Crop), px(r.Inside)
	if photoW <= 0 || photoH <= 0 || ratioW <= 0 || ratioH <= 0 {
		return Placement{Source: crop, Whole: true}
	}
	must, ratio := px(r.mustHold(aroundSubject)), float64(ratioW)/float64(ratioH)
	around := func(b [4]float64) (float64, float64) { // the least rectangle of the ratio that holds b
		wide := math.Max(b[2]-b[0], (b[3]-b[1])*ratio)
		return wide, wide / ratio
	}
	fits := func(wide, high float64) bool { return wide <= in[2]-in[0]+0.5 && high <= in[3]-in[1]+0.5 }
	wide, high := around(crop)
	least, low := around(must)
	switch close, tall := around(px(r.mustHold(beyondPhoto))); {
	case fits(wide, high):
	case room == Filled || fits(least, low):
		wide = math.Min(wide, math.Min(in[2]-in[0], (in[3]-in[1])*ratio))
		high = wide / ratio
	case room == Close && close < wide:
		wide, high = close, tall
	}
	var s [4]float64
	s[0], s[2] = place(crop[0], crop[2], r.middle(w), must[0], must[2], wide, in[0], in[2])
	s[1], s[3] = place(crop[1], crop[3], (crop[1]+crop[3])/2, must[1], must[3], high, in[1], in[3])
	return Placement{Source: s, Beyond: !holds(in, s), Whole: holds(s, must)}
}

// mustHold is what a picture has to hold whole, with some room around the piece as a
// share of the longer side of its box.
func (r *Result) mustHold(room float64) [4]float64 {
	switch {
	case r.Kept, !r.Sure && r.May == [4]float64{}:
		return r.Crop
	case !r.Sure:
		return clipped(r.Crop, r.May)
	}
	s := r.Subject
	d := room * math.Max(s[2]-s[0], s[3]-s[1])
	return [4]float64{
		math.Max(s[0]-d, r.Inside[0]), math.Max(s[1]-d, r.Inside[1]), math.Min(s[2]+d, r.Inside[2]), math.Min(s[3]+d, r.Inside[3]),
	}
}

// middle is where the middle of a picture should be between left and right, in pixels
// of a photo w wide: that of a sure piece, else of the crop.
func (r *Result) middle(w float64) float64 {
	b := r.Crop
	if r.Sure && !r.Kept {
		b = r.Subject
	}
	return (b[0] + b[2]) / 2 * w
}

// place puts a window of length need around lo…hi, or within it if that is longer, as
// near to being centred on mid as may be; moved the least that holds must0…must1, or
// centred on that if it is longer, and inside in0…in1 where it fits.
func place(lo, hi, mid, must0, must1, need, in0, in1 float64) (float64, float64) {
	start := math.Max(math.Min(lo, hi-need), math.Min(math.Max(lo, hi-need), mid-need/2))
	if must1-must0 > need {
		start = (must0 + must1 - need) / 2
	} else {
		start = math.Max(must1-need, math.Min(must0, start))
	}
	if need <= in1-in0+0.5 {
		start = math.Max(in0, math.Min(in1-need, start))
	}
	return start, start + need
}

func holds(r, s [4]float64) bool {
	const e = 0.5 // half a pixel
	return r[0] <= s[0]+e && r[1] <= s[1]+e && r[2] >= s[2]-e && r[3] >= s[3]-e
}
