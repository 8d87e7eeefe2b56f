package frame

import "math"

// A Placement says where a rendition of a given ratio is taken from.
type Placement struct {
	Source [4]float64 // left, top, right, bottom in pixels of the straightened photo; may lie outside it when Padded
	Padded bool       // what lies outside the photo is to be painted in the colour of the backdrop
	Whole  bool       // the whole subject is in the picture
}

// Fit chooses the source rectangle of a rendition ratioW:ratioH. crop and
// subject are shares of the straightened photo of photoW×photoH pixels. The
// rectangle holds the whole crop where the photo, or with a plain backdrop its
// padding, allows it; else as much of the photo as the ratio allows, placed so
// that the subject stays whole if it can, and centred on it if it cannot.
// A ratio or a photo that is not positive gives the crop itself.
func Fit(crop, subject [4]float64, plain bool, photoW, photoH int, ratioW, ratioH int) Placement {
	w, h := float64(photoW), float64(photoH)
	c := [4]float64{crop[0] * w, crop[1] * h, crop[2] * w, crop[3] * h}
	if photoW <= 0 || photoH <= 0 || ratioW <= 0 || ratioH <= 0 {
		return Placement{Source: c, Whole: true}
	}
	s := [4]float64{subject[0] * w, subject[1] * h, subject[2] * w, subject[3] * h}
	ratio := float64(ratioW) / float64(ratioH)
	needW := math.Max(c[2]-c[0], (c[3]-c[1])*ratio)
	needH := needW / ratio
	if plain {
		// Padding is allowed: hold the crop whole, inside the photo as far as it goes.
		x0, x1 := span(c[0], c[2], needW, w, true)
		y0, y1 := span(c[1], c[3], needH, h, true)
		out := x0 < -0.5 || y0 < -0.5 || x1 > w+0.5 || y1 > h+0.5
		return Placement{Source: [4]float64{x0, y0, x1, y1}, Padded: out, Whole: holds([4]float64{x0, y0, x1, y1}, s)}
	}
	// No padding: the largest rectangle of this ratio that the photo holds, no
	// larger than the crop needs.
	wide := math.Min(needW, math.Min(w, h*ratio))
	x0, x1 := span(near(c[0], c[2], s[0], s[2], wide), 0, wide, w, false)
	y0, y1 := span(near(c[1], c[3], s[1], s[3], wide/ratio), 0, wide/ratio, h, false)
	r := [4]float64{x0, y0, x1, y1}
	return Placement{Source: r, Whole: holds(r, s)}
}

// span places a length need around lo…hi (or from lo, when hi is 0) inside
// 0…limit; when it does not fit and may stick out, it is centred on lo…hi.
func span(lo, hi, need, limit float64, out bool) (float64, float64) {
	start := lo
	if hi > 0 {
		start = (lo + hi - need) / 2
	}
	if need <= limit {
		start = math.Max(0, math.Min(limit-need, start))
	} else if !out {
		start, need = 0, limit
	}
	return start, start + need
}

// near gives the start of a window of length need: centred on the crop when it
// is large enough for it, else moved the least that keeps the subject inside,
// else centred on the subject.
func near(c0, c1, s0, s1, need float64) float64 {
	start := (c0 + c1 - need) / 2
	if s1-s0 >= need {
		return (s0 + s1 - need) / 2
	}
	return math.Max(s1-need, math.Min(s0, start))
}

func holds(r, s [4]float64) bool {
	const e = 0.5 // half a pixel
	return r[0] <= s[0]+e && r[1] <= s[1]+e && r[2] >= s[2]-e && r[3] >= s[3]-e
}
