package report

import (
	"testing"

	"slabfolio/listing/drawing"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// The form of a base is told by the maker's words, and by nothing else.
func TestBaseForm(t *testing.T) {
	for style, want := range map[string]string{
		"two welded frames": drawing.Frames, "two welded frames of square tube": drawing.Frames, "A pair of steel frames": drawing.Frames,
		"four square legs": drawing.Legs, "Four posts, bolted": drawing.Legs, "a turned pedestal": drawing.Pedestal, "steel column on a plate": drawing.Pedestal,
		"two frames of 60 x 30 tube": drawing.Frames, "four legs, 40x40x3 mm": drawing.Legs, "four legs of 1 1/2 x 1 1/2 x 1/8 in tube": drawing.Legs, "two frames of 60 × 30": drawing.Frames,
		"two X frames": "", "two frames, x-shaped, 60 x 30": "", "two crossed frames": "", "four splayed legs": "", "two pedestals": "", "two plank ends and a wedged rail": "", "": "", "hairpin legs, four": "",
	} {
		if got, _ := baseForm(style); got != want {
			t.Errorf("%q: %q, want %q", style, got, want)
		}
	}
}

// The figures of a section are no number of feet.
func TestThreeFeet(t *testing.T) {
	for style, want := range map[string]bool{
		"four legs of 40 x 40 x 3 mm tube": false, "four legs of tube, 3 mm walls": false, "three legs of 40 x 40 x 3 mm": true, "3-legged": true, "3 hairpin legs": true, "tripod": true, "two frames": false,
	} {
		if threeFeet(style) != want {
			t.Errorf("%q: %v", style, !want)
		}
	}
}

func box(a, b, wall, long float64, count int) piece.Section {
	return piece.Section{Form: "box", Sizes: []units.Length{units.Length(a), units.Length(b), units.Length(wall)}, Length: piece.Of(units.Length(long)), Count: piece.Of(count)}
}

// A frame of 330 by 724 mm takes 2 × (330 + 724) = 2108 mm of tube on its outside
// and 4 × 40 less through the middle of its bars; three sides of it take 1384 or
// 1778.
func TestDrawnBase(t *testing.T) {
	foot := [2]float64{1132, 330}
	for _, c := range []struct {
		name     string
		style    string
		sections []piece.Section
		want     drawing.Base
	}{
		{"closed frames", "two frames", []piece.Section{box(40, 40, 2, 1936, 2)}, drawing.Base{Form: drawing.Frames, Wide: 40, Deep: 40, Closed: true}},
		{"open frames", "two frames", []piece.Section{box(40, 40, 2, 1384, 2)}, drawing.Base{Form: drawing.Frames, Wide: 40, Deep: 40}},
		{"a section of two sides", "two frames", []piece.Section{box(40, 80, 2, 1778, 2)}, drawing.Base{Form: drawing.Frames, Wide: 80, Deep: 40, Turned: true}},
		{"legs", "four legs", []piece.Section{box(60, 60, 3, 724, 4)}, drawing.Base{Form: drawing.Legs, Wide: 60, Deep: 60}},
		{"legs of a count that is not four's", "four legs", []piece.Section{box(60, 60, 3, 724, 3)}, drawing.Base{}},
		{"no sections", "four legs", nil, drawing.Base{}},
		{"no form", "a heap of stones", []piece.Section{box(60, 60, 3, 724, 4)}, drawing.Base{}},
		{"legs thicker than the base", "four legs", []piece.Section{box(700, 60, 3, 724, 4)}, drawing.Base{}},
		{"a column on a plate", "pedestal", []piece.Section{
			{Form: "tube", Sizes: []units.Length{114, 4}, Length: piece.Of(units.Length(700))},
			{Form: "plate", Sizes: []units.Length{330, 1130, 10}},
		}, drawing.Base{Form: drawing.Pedestal, Wide: 114, Deep: 114, Round: true, Plate: 10}},
	} {
		got := drawnBase(&piece.Base{Style: piece.Of(c.style), Sections: c.sections}, 724, foot)
		if c.want.Style = c.style; got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}
