// Package assembly puts the top on its base: overall size, knee room, overhang,
// seats, where the weight sits and what tips it. It works on plain millimetres
// and kilograms and knows no spec.
package assembly

import (
	"math"
	"strings"

	"slabfolio/listing/geometry"
	"slabfolio/listing/spelling"
)

// A Point is a place in plan, in millimetres, x along the length.
type Point struct{ X, Y float64 }

// A Part hangs below the top or stands on the base.
type Part struct {
	Name     string
	Length   float64 // mm outside, along the piece; 0 when not known
	Width    float64 // mm outside, front to back
	Height   float64 // mm outside
	Wall     float64 // mm; 0 when it is no box, or not known
	BelowTop float64 // mm from the underside of the top to its lowest point; 0 when not known
	Kg       float64 // all of them together; 0 when not known
	Count    int
}

// Input is what the calculators of this package need to know of a piece.
// A zero stands for "not known", except where a field says otherwise.
type Input struct {
	Kind       string
	Outline    []Point // closed, in order; the last corner is not repeated
	Round      bool    // the outline is a circle
	Thickness  float64 // of the top, mm
	SatAt      bool    // the maker says how many sit at it
	HasBase    bool
	BaseHeight float64 // floor to the underside of the top, mm
	FootLength float64 // mm
	FootWidth  float64 // mm
	ThreeFeet  bool    // it stands on three feet, two at one side and one at the other
	Overhang   float64 // beyond the base at each end, mm, as the maker says
	Parts      []Part
	TopKg      float64
	BaseKg     float64
}

// Size is the assembled piece, in millimetres. Zero means that it is not known.
type Size struct {
	TopLength, TopWidth   float64 // extents of the outline
	Length, Width, Height float64 // the larger of top and base
	Knee                  float64 // floor to the lowest thing under the top that knees would meet
	KneeUnder             string  // what that is: "top", or a part's name
	OverhangEnd           float64 // top beyond the feet at each end; negative where the base reaches further
	OverhangSide          float64
	OverhangKnown         bool
	Why                   map[string]string // what is not known -> why
}

// flatKinds are pieces that may be whole without a base: their height is then
// the thickness of the board.
var flatKinds = map[string]bool{"serving board": true, "wall panel": true, "shelf": true, "other": true}

// Flat reports whether a kind of piece may be whole without a base.
func Flat(kind string) bool { return flatKinds[kind] }

// kneeKinds are pieces that somebody's legs go under.
var kneeKinds = map[string]bool{"desk": true, "dining table": true}

// Measure returns the size of the assembled piece. The base stands centred
// under the bounding box of the outline.
func Measure(in Input) Size {
	lo, hi := bounds(in.Outline)
	s := Size{TopLength: hi.X - lo.X, TopWidth: hi.Y - lo.Y, Why: map[string]string{}}
	s.Length = math.Max(s.TopLength, in.FootLength)
	s.Width = math.Max(s.TopWidth, in.FootWidth)
	s.Height, s.Why["height"] = height(in)
	s.Knee, s.KneeUnder, s.Why["knee_clearance"] = knee(in)
	foot := in.FootLength
	if foot == 0 && in.Overhang > 0 && in.HasBase {
		foot = s.TopLength - 2*in.Overhang
	}
	if foot > 0 {
		s.OverhangKnown = true
		s.OverhangEnd = (s.TopLength - foot) / 2
	}
	if in.FootWidth > 0 {
		s.OverhangSide = (s.TopWidth - in.FootWidth) / 2
	}
	for k, v := range s.Why {
		if v == "" {
			delete(s.Why, k)
		}
	}
	return s
}

func height(in Input) (mm float64, why string) {
	switch {
	case in.HasBase && in.BaseHeight > 0:
		return in.BaseHeight + in.Thickness, ""
	case in.HasBase:
		return 0, "base.height is not given, so the height of the whole piece is not known"
	case flatKinds[in.Kind]:
		return in.Thickness, ""
	}
	return 0, "no base is described, so the height of the whole piece is not known"
}

// knee finds what knees meet first. An apron hangs against the top by nature;
// where a drawer ends must be said.
func knee(in Input) (mm float64, under, why string) {
	switch {
	case !kneeKinds[in.Kind] && !in.SatAt, !in.HasBase && flatKinds[in.Kind]:
		return 0, "", ""
	case !in.HasBase:
		return 0, "", "no base is described"
	case in.BaseHeight == 0:
		return 0, "", "base.height is not given"
	}
	lowest, under := 0.0, "top"
	for _, p := range in.Parts {
		if !blocksKnees(p.Name) {
			continue
		}
		reach := p.BelowTop
		if reach == 0 && isApron(p.Name) {
			reach = p.Height
		}
		if reach == 0 && p.Height > 0 {
			return 0, "", "the part " + quote(p.Name) + " has a size but no below_top, so what it leaves below is not known"
		}
		if reach > lowest {
			lowest, under = reach, p.Name
		}
	}
	if lowest >= in.BaseHeight {
		return 0, "", "the part " + quote(under) + " reaches the floor or lower"
	}
	return in.BaseHeight - lowest, under, ""
}

// blocksKnees is false for what stands low or at the back by its nature, and
// for small hardware.
func blocksKnees(name string) bool {
	return !has(name, "stretcher", "shelf", "foot", "slide", "handle")
}

func isApron(name string) bool { return has(name, "apron", "rail", "skirt") }

// IsDrawer reports whether a part of that name is a drawer, and not what a
// drawer runs on or is pulled by.
func IsDrawer(name string) bool {
	return drawerSaid().MatchString(name) && !drawerGearSaid().MatchString(name)
}

// Drawers, and what belongs to one, in the languages of the papers, since makers write
// their own (from memory).
var (
	drawerSaid     = spelling.Pattern(`(?i)drawer|schub(?:lade|kasten|kästen|fach|fächer)|tiroir|caj[oó]n(?:$|[^\pL]|es)|(?:^|[^\pL])(?:schuif)?lade[ns]?(?:$|[^\pL])`)
	drawerGearSaid = spelling.Pattern(`(?i)slide|runner|handle|pull|auszüge?|führung|schiene|griff|knopf|knöpfe|coulisse|glissière|poignée|bouton|guías?|corredera|tirador|geleider|loper|greep|knop`)
)

func has(name string, words ...string) bool {
	name = strings.ToLower(name)
	for _, w := range words {
		if strings.Contains(name, w) {
			return true
		}
	}
	return false
}

func quote(s string) string { return "\u201c" + s + "\u201d" }

func bounds(pts []Point) (lo, hi Point) {
	if len(pts) == 0 {
		return
	}
	lo, hi = pts[0], pts[0]
	for _, p := range pts[1:] {
		lo.X, lo.Y = math.Min(lo.X, p.X), math.Min(lo.Y, p.Y)
		hi.X, hi.Y = math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)
	}
	return lo, hi
}

// centroid returns the middle and the area of an outline.
func centroid(pts []Point) (c Point, areaMM2 float64) {
	p := polygon(pts)
	m := geometry.Centroid(p)
	return Point{m[0], m[1]}, math.Abs(geometry.SignedArea(p))
}

// polygon is an outline as package geometry takes it.
func polygon(pts []Point) [][2]float64 {
	p := make([][2]float64, len(pts))
	for i, q := range pts {
		p[i] = [2]float64{q.X, q.Y}
	}
	return p
}
