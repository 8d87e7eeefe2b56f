package assembly

import "math"

// Seats returns how many people the piece seats, or 0 for a kind that nobody
// sits at or on. A place is 600 mm (24 in) wide and 350 mm deep; places along
// the sides and at the ends never share a corner of the top, so the better of
// two ways of laying a table counts: sides alone, or sides that leave 150 mm of
// each corner to two laid ends. A live edge counts with its mean width. A desk has its places along one
// side, each as wide as a work place's legroom. Common practice, no source.
func (t Tables) Seats(in Input) int {
	place, depth := t.Rules["place_width"].Value, t.Rules["place_depth"].Value
	if place <= 0 || depth <= 0 {
		return 0
	}
	lo, hi := bounds(in.Outline)
	length, width := hi.X-lo.X, hi.Y-lo.Y
	if length <= 0 || width <= 0 {
		return 0
	}
	_, area := centroid(in.Outline)
	if in.Round {
		if in.Kind != "dining table" {
			return t.straight(in.Kind, length)
		}
		return int(math.Pi * length / place)
	}
	if in.Kind != "dining table" {
		return t.straight(in.Kind, math.Max(length, width))
	}
	long, short := length, area/length
	if width > length {
		long, short = width, area/width
	}
	sides := 1
	if short >= 2*depth { // two people face each other
		sides = 2
	}
	n := sides * int(long/place)
	if corner := t.Rules["place_corner"].Value; short >= place && long > 2*corner {
		n = max(n, sides*int((long-2*corner)/place)+2)
	}
	return n
}

func (t Tables) straight(kind string, lengthMM float64) int {
	switch kind {
	case "bench":
		return int(lengthMM / t.Rules["place_width"].Value)
	case "desk":
		if lengthMM < t.Rules["place_width"].Value {
			return 0
		}
		return max(1, int(lengthMM/t.Rules["desk_place_width"].Value))
	}
	return 0
}
