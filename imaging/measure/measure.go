// Package measure finds the size of a flat top in a photo taken from above: the
// sheet of paper that lies on it, the plane that the sheet gives, the outline
// of the top against what is below it, its length, width and area, and the part
// of the face that is resin. Every figure comes with its error and the causes.
// It knows nothing of furniture, files or words: refusals and doubts are codes
// with numbers.
//
// Places in a photo are in pixels from its upper left corner, the middle of the
// first pixel at (0.5, 0.5); places on the top are in mm.
package measure

import (
	"fmt"

	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

// A Point is a place, in pixels or in mm as its context says.
type Point = pixel.Point

// A Kind is a size of paper.
type Kind string

// The papers that are known.
const (
	A4     Kind = "a4"     // ISO 216: 297 × 210 mm
	Letter Kind = "letter" // ANSI/ASME Y14.1, size A: 11 × 8.5 in
)

// size returns the longer and the shorter side in mm.
func (k Kind) size() (long, short float64) {
	if k == Letter {
		return 279.4, 215.9
	}
	return 297, 210
}

// A Request is a photo and what is known of it. With length and width and
// neither Paper nor Marks the top is measured by these, else by the sheet; then
// they serve to check.
type Request struct {
	Photo       *pixel.Image // upright, in linear light
	Focal35     float64      // focal length for a 36 × 24 mm sensor by the camera's own data; 0: unknown
	Paper       Kind         // what the maker says lies there; "": told by its ratio
	Marks       *[4]Point    // corners of the paper as the maker gives them, pixels, clockwise; nil: found
	LengthMM    float64      // as taped; 0: not
	WidthMM     float64
	ThicknessMM float64 // of the top; 0: unknown
	ResinAt     []Point // spots on the resin, pixels
}

// A Value is a measured figure and half of its 90 % range, with the share that
// each cause has in it.
type Value struct {
	Value, Error float64
	Causes       []Cause // largest first
}

// A Cause is one reason why a figure is not exact, and what it alone makes the
// error. Codes: corners, edge, lens, parallax, tape, tilt, colour.
type Cause struct {
	Code  string
	Error float64
}

// A Sheet is the paper that was found.
type Sheet struct {
	Kind    Kind       // what it was taken for
	Corners [4]Point   // clockwise, the upper left first
	Ratio   float64    // of its sides as measured, longer over shorter
	Sigma   [4]float64 // standard deviation of a corner along x or y, pixels
	Bow     float64    // how far the edge that is bent most stands off a straight line, pixels
	Given   bool       // the corners are the maker's
}

// A Result is what was measured. Sheet may be there when the rest is not.
type Result struct {
	Sheet   *Sheet
	Tilt    float64     // degrees that the camera hung off the vertical; -1: unknown
	Height  float64     // mm of the camera above the top; 0: unknown
	Length  Value       // mm
	Width   Value       // mm
	Area    Value       // m²
	Outline []Point     // mm, anticlockwise from above, x along the length, box from (0, 0)
	Edge    []Point     // the same in pixels of the photo
	Resin   *Value      // m²; nil: not asked for, or not told apart
	Share   Value       // of the face that is resin, 0 to 1; with Resin
	Islands [][]Point   // edges of the resin that is seen, pixels of the photo, largest first
	OnTop   [][]Point   // the resin in mm, as Outline, on under the sheet as Share counts it: a place is resin that an odd number of these edges go round
	Notes   []note.Note // doubts
}

// A Refusal says why a photo cannot be measured. Codes, with their values:
//
//	measure.small        the picture has too few pixels (width, height)
//	measure.no-sheet     no sheet of paper was found
//	measure.two-sheets   two sheets lie there (x1, y1, x2, y2: their middles, shares of the photo)
//	measure.sheet-cut    the sheet reaches out of the photo
//	measure.sheet-below  the sheet does not lie on the top but on what is below it
//	measure.sheet-over   the sheet hangs over the edge of the top, or lies flush with it
//	measure.sheet-is-top what was taken for the sheet is the top itself (ratio: of its sides)
//	measure.bad-marks    the four marks are no corners of a sheet seen from above
//	measure.no-outline   the top does not stand out from what is below it (contrast, least)
//	measure.unclear      along too much of the outline both sides look the same (percent, limit)
//	measure.no-edge      along too little of the outline an edge is seen (share, least)
//	measure.top-cut      what the sheet lies on, or the middle of the photo, reaches out of the photo (sides)
//	measure.tilt         the camera hung too far off the vertical (degrees, limit)
//	measure.skew         taped length and width do not fit the shape (skew, limit)
//	measure.error        the error came out too wide to be of use (percent, limit)
//
// One that a shine over the sheet may be the cause of has what share of the photo that
// has blown out to white, shine.
type Refusal struct{ note.Note }

// Error is the code and the numbers.
func (r *Refusal) Error() string { return fmt.Sprintf("%s %v", r.Code, r.Values) }

func refuse(code string, values map[string]float64) *Refusal {
	return &Refusal{note.Note{Code: code, Values: values}}
}

// Scaled returns r with all places in the photo multiplied by k, for a photo
// that was measured on a smaller copy.
func (r Result) Scaled(k float64) Result {
	if r.Sheet != nil {
		s := *r.Sheet
		for i := range s.Corners {
			s.Corners[i] = Point{X: k * s.Corners[i].X, Y: k * s.Corners[i].Y}
			s.Sigma[i] *= k
		}
		s.Bow *= k
		r.Sheet = &s
	}
	r.Edge = scaled(r.Edge, k)
	var isles [][]Point
	for _, isle := range r.Islands {
		isles = append(isles, scaled(isle, k))
	}
	r.Islands = isles
	return r
}

// leastSide is the shorter side of the smallest picture that is measured.
const leastSide = 240

// Top measures the top in a photo. The error is always a *Refusal; the Result
// then still holds the sheet where that was found.
func Top(req Request) (Result, error) {
	m := req.Photo
	if m == nil || min(m.W, m.H) < leastSide {
		return Result{}, refuse("measure.small", map[string]float64{"width": float64(width(m)), "height": float64(height(m))})
	}
	j := job{req: req, m: m, r: &Result{Tilt: -1}, copy: newCopy(m, copySide), lens: lensGive}
	b, ok := j.lensBend()
	if ok && b.sure() {
		return j.topUnbent(b)
	}
	if ok {
		j.lens = b.left()
	}
	return j.top()
}

func (j *job) top() (Result, error) {
	req, way := j.req, j.byPaper
	if req.Paper == "" && req.Marks == nil && req.LengthMM > 0 && req.WidthMM > 0 {
		way = j.byTape
	}
	err := way()
	j.tellShine(err)
	j.layOnTop()
	return *j.r, err
}

func width(m *pixel.Image) int {
	if m == nil {
		return 0
	}
	return m.W
}

func height(m *pixel.Image) int {
	if m == nil {
		return 0
	}
	return m.H
}
