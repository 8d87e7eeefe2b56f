// Package inspect looks for what is wrong with the photos of a piece: each by
// itself and all of them together. It returns codes and numbers; the words for
// the maker are made elsewhere. It changes nothing.
package inspect

import (
	"math"

	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

// A FullPhoto is what is known of the photo at its full size.
type FullPhoto struct {
	W, H    int            // upright size in pixels
	Crop    [4]float64     // the part of it that is published: left, top, right, bottom as shares
	Piece   *pixel.Mask    // the piece, over all of it; nil where it was not told apart
	Details []*pixel.Image // cut-outs at full size, linear light, best from the middle of the piece; without them sharpness and noise are judged on the reduced copy alone
	On      []*pixel.Mask  // what of each of Details is the piece; nil, or a nil one: nobody knows, and all of it counts
	Taken   string         // Exif date, "2026:09:18 …" or "2026-09-18…"; empty when unknown
}

// A Report is what was measured on one photo. Compare compares reports.
type Report struct {
	EdgeX, EdgeY float64  // width of the sharpest edges of the piece across and down, in pixels of the full photo; 0: no edge to judge by
	Noise        float64  // standard deviation in flat parts, in 8-bit sRGB levels, at full size; 0: not known
	Clipped      float64  // share of the piece that is blown out
	Hashes       []uint64 // perceptual hashes: as it is, its three quarter-turns, and its mirror image
	CropW, CropH int      // size of the crop in pixels of the full photo
	Taken        string   // as in FullPhoto
	Notes        []note.Note
}

// Thresholds, set on the real photos of the tests (see TestQualityInspect).
const (
	zoomSide  = 2000   // longer side of the crop in pixels, below which zooming in shows nothing more
	PrintSide = 1340   // 170 mm on a sheet at 200 dots an inch
	softAt    = 0.0024 // width of the sharpest edges over the longer side: 6 pixels of 2400
	shakenAt  = 1.8    // ratio of the widths across and down
	widest    = 3.2    // pixels as measured; sharper cannot be told from sharp
	noisyAt   = 6.0    // 8-bit levels
	blownAt   = 0.05   // share of the piece
	castAt    = 4.5    // stops
)

// Photo inspects one photo from its reduced copy and cut-outs of the full one.
// Codes:
//
//	inspect.small-print {side, least}   the crop is too small to print well
//	inspect.small-zoom  {side, least}   the crop is too small to zoom in
//	inspect.soft        {edge}          out of focus: the sharpest edges are that wide, in thousandths of the longer side
//	inspect.shaken      {ratio}         edges one way are that much wider than the other way
//	inspect.clipped     {share}         share of the piece that is blown out
//	inspect.noise       {level}         8-bit levels
//	inspect.cast        {stops}         light of one colour: no white balance can mend it
func Photo(small *pixel.Image, p FullPhoto) Report {
	r := Report{Taken: p.Taken}
	r.CropW = int(math.Round((p.Crop[2] - p.Crop[0]) * float64(p.W)))
	r.CropH = int(math.Round((p.Crop[3] - p.Crop[1]) * float64(p.H)))
	say := func(code string, kv ...any) {
		v := map[string]float64{}
		for i := 0; i+1 < len(kv); i += 2 {
			v[kv[i].(string)] = math.Round(kv[i+1].(float64)*1000) / 1000
		}
		r.Notes = append(r.Notes, note.Note{Code: code, Values: v})
	}
	side := max(r.CropW, r.CropH)
	switch {
	case side < PrintSide:
		say("inspect.small-print", "side", float64(side), "least", float64(PrintSide))
	case side < zoomSide:
		say("inspect.small-zoom", "side", float64(side), "least", float64(zoomSide))
	}
	if small == nil || small.W < 16 || small.H < 16 || len(small.Pix) < small.W*small.H*3 {
		return r
	}
	r.Hashes = hashes(small)
	full := float64(max(p.W, p.H))
	scale := math.Max(1, full/float64(max(small.W, small.H)))
	unit := r.measureEdges(small, p, scale)
	if scale < 1.5 {
		r.Noise = noise(small) // shrinking hides noise, by how much nobody knows
	}
	for _, d := range p.Details {
		if d != nil && d.W >= 32 && d.H >= 32 {
			r.Noise = noise(d)
			break
		}
	}
	r.Clipped = blownShare(small, p.Piece)
	switch code, by := r.blur(unit, full); code {
	case "inspect.soft":
		say(code, "edge", by)
	case "inspect.shaken":
		say(code, "ratio", by)
	}
	if r.Clipped > blownAt {
		say("inspect.clipped", "share", r.Clipped)
	}
	if r.Noise > noisyAt {
		say("inspect.noise", "level", r.Noise)
	}
	if c := oneColour(small); c > castAt {
		say("inspect.cast", "stops", c)
	}
	return r
}

// blur tells from the edges measured whether a photo is soft or shaken, and by how
// much, as Photo says it; unit is how many of its pixels one that was measured is,
// full its longer side.
func (r *Report) blur(unit, full float64) (code string, by float64) {
	lo, hi := math.Min(r.EdgeX, r.EdgeY), math.Max(r.EdgeX, r.EdgeY)
	switch {
	case lo <= 0 || full <= 0:
	case lo > softAt*full && lo > widest*unit:
		return "inspect.soft", 1000 * lo / full
	case hi > softAt*full && hi > widest*unit && hi > shakenAt*lo:
		return "inspect.shaken", hi / lo
	}
	return "", 0
}

// measureEdges takes the edges of the cut-outs, else of the reduced copy, and
// returns how many pixels of the full photo one pixel of what it measured is.
func (r *Report) measureEdges(small *pixel.Image, p FullPhoto, scale float64) float64 {
	var xs, ys []float64
	for i, d := range p.Details {
		if d != nil && d.W >= 32 && d.H >= 32 {
			var on *pixel.Mask
			if i < len(p.On) {
				on = p.On[i]
			}
			x, y := edges(d, on)
			if x > 0 && y > 0 {
				xs, ys = append(xs, x), append(ys, y)
			}
		}
	}
	if len(xs) > 0 { // the sharpest cut-out: a piece has depth, not all of it can be in focus
		best := 0
		for i := range xs {
			if xs[i]+ys[i] < xs[best]+ys[best] {
				best = i
			}
		}
		r.EdgeX, r.EdgeY = xs[best], ys[best]
		return 1
	}
	x, y := edges(small, p.Piece)
	r.EdgeX, r.EdgeY = x*scale, y*scale
	return scale
}
