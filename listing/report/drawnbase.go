package report

import (
	"math"
	"strings"

	"slabfolio/listing/drawing"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// drawnBase reads the form off the words of the style and the sections.
func drawnBase(base *piece.Base, height float64, foot [2]float64) drawing.Base {
	if base == nil {
		return drawing.Base{}
	}
	d := drawing.Base{Style: base.Style.V}
	form, count := baseForm(base.Style.V)
	if form == "" || foot[0] <= 0 || foot[1] <= 0 || height <= 0 {
		return d
	}
	for _, s := range base.Sections {
		if s.Form == "plate" || len(s.Sizes) == 0 || max(1, s.Count.V)%count != 0 {
			continue
		}
		d.Form = form
		d.Wide, d.Deep, d.Round = memberSize(s)
		d.Turned = d.Wide != d.Deep
		if form == drawing.Frames {
			d.Closed = closedFrame(float64(s.Length.V)*float64(max(1, s.Count.V)/count), foot[1], height, d.Deep)
		}
		break
	}
	if d.Form == drawing.Pedestal {
		d.Plate = footPlate(base.Sections, foot)
	}
	if d.Wide*2 > foot[0] || d.Deep*2 > foot[1] {
		return drawing.Base{Style: d.Style} // no section of a base of this size
	}
	return d
}

// sizeSaid is a size in a maker's words, such as 60 x 30, 40x40x3 mm or 12 mm: its x is no
// cross, and its 3 no number of feet.
var sizeSaid = spelling.Pattern(`(?i)\d[\d.,/]*\s*(?:mm|cm|in|")?(?:\s*[x×*]\s*\d[\d.,/]*\s*(?:mm|cm|in|")?)+|\d[\d.,/]*\s*(?:mm\b|cm\b|in\b|inch|")`)

// withoutSizes are the words for a base without the sizes among them.
func withoutSizes(style string) string { return sizeSaid().ReplaceAllString(style, " ") }

// baseForm knows the forms by the words that makers have for them, with how many
// members there are: "two welded frames", "four square legs", "a pedestal". What
// stands crossed or askew is none of them.
func baseForm(style string) (form string, members int) {
	words := strings.FieldsFunc(strings.ToLower(withoutSizes(style)), func(r rune) bool { return r < 'a' || r > 'z' })
	has := func(any ...string) bool {
		for _, w := range words {
			for _, a := range any {
				if w == a {
					return true
				}
			}
		}
		return false
	}
	switch {
	case has("crossed", "cross", "x", "angled", "splayed", "tapered", "raked", "hairpin", "trestle", "trestles"):
		return "", 0
	case has("two", "pair") && has("frames", "loops"):
		return drawing.Frames, 2
	case has("four") && has("legs", "posts"):
		return drawing.Legs, 4
	case has("pedestal", "column") && !has("two", "pair", "three", "pedestals", "columns"):
		return drawing.Pedestal, 1
	}
	return "", 0
}

// memberSize is a section's larger and smaller side.
func memberSize(s piece.Section) (wide, deep float64, round bool) {
	a := float64(s.Sizes[0])
	round = s.Form == "tube" || s.Form == "bar" && len(s.Sizes) == 1
	if round || len(s.Sizes) < 2 {
		return a, a, round
	}
	b := float64(s.Sizes[1])
	return max(a, b), min(a, b), false
}

// closedFrame reports whether so much section makes a frame of four bars: as much
// as the middle of its bars goes round, or up to the outside, 3 % more or less for
// feet and cuts. Three bars take less, but with a wide section not always less
// than the inside of four, so the inside does not count.
func closedFrame(length, width, height, side float64) bool {
	outer := 2 * (width + height)
	return length >= 0.97*(outer-4*side) && length <= 1.03*outer
}

// footPlate is the thickness of a plate that is as large as the footprint, within
// a twentieth.
func footPlate(sections []piece.Section, foot [2]float64) float64 {
	for _, s := range sections {
		if s.Form != "plate" || len(s.Sizes) < 3 {
			continue
		}
		long, wide := max(s.Sizes[0], s.Sizes[1]), min(s.Sizes[0], s.Sizes[1])
		if alike(float64(long), max(foot[0], foot[1])) && alike(float64(wide), min(foot[0], foot[1])) {
			return float64(s.Sizes[2])
		}
	}
	return 0
}

func alike(a, b float64) bool { return math.Abs(a-b) <= 0.05*b }
