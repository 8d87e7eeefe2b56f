package measure

import (
	"math"
)

// propose looks for one colour of the face that is no wood: the hues of wood,
// bare, oiled or stained, lie between red and yellow (common practice, no
// source). It names the spot where that colour lies thickest.
func (j *job) propose(face []uint8) {
	c := j.copy
	odd := make([]uint8, len(face))
	n, whole := 0, 0
	for i, v := range face {
		if v == 0 {
			continue
		}
		whole++
		if notWood(c.colourAt(i)) {
			odd[i] = 1
			n++
		}
	}
	if whole == 0 || float64(n) < 0.02*float64(whole) {
		return
	}
	inv := make([]uint8, len(odd))
	for i, v := range odd {
		inv[i] = 1 - v
	}
	best, at := float32(0), 0
	for i, d := range c.reach(inv) {
		if d > best {
			best, at = d, i
		}
	}
	if best < 4 {
		return
	}
	j.doubt("measure.resin-proposed", map[string]float64{
		"x": (float64(at%c.w) + 0.5) / float64(c.w), "y": (float64(at/c.w) + 0.5) / float64(c.h), "share": float64(n) / float64(whole)})
}

// notWood reports whether a colour is clearly of a hue that no wood has.
func notWood(v [3]float64) bool {
	chroma := math.Hypot(v[1], v[2])
	hue := math.Atan2(v[2], v[1]) * 180 / math.Pi
	return chroma > 8 && (hue < -10 || hue > 118)
}
