package assembly

import "math"

// Seats returns how many people the piece seats, or 0 for a kind that nobody
// sits at or on. A place is 600 mm (24 in) wide and 350 mm deep; places along
// the sides and at the ends never share a corner of the top, so the better of
// two ways of laying a table counts: sides alone, or sides that leave 150 mm of
// each corner to two laid ends. On a bench somebody takes 500 mm (20 in). A live edge counts with its mean width. Common
// practice, no source; a round table is judged by round.
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
	switch {
	case in.Kind == "bench":
		return int(math.Max(length, width) / t.Rules["bench_place"].Value)
	case in.Kind != "dining table":
		return 0
	case in.Round:
		return t.round(length)
	}
	_, area := centroid(in.Outline)
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

// round returns the places at a round table by two rules, of which the smaller
// counts: the rim, a place of 600 mm each, and the chairs, which meet sooner at a
// small table, since they stand under it on a smaller round.
func (t Tables) round(diameter float64) int {
	rim := math.Pi * diameter / t.Rules["place_width"].Value
	chairs := math.Pi * (diameter - 2*t.Rules["chair_under"].Value) / t.Rules["chair_width"].Value
	return max(0, int(math.Min(rim, chairs)))
}
