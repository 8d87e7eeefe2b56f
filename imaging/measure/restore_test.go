package measure

import "testing"

// Opening with a radius of 20 rounds corners off. A sliver that reaches no farther
// than 0.45 of that and a pixel, 10, is given back; what reaches farther is a leg.
// A square corner is cut by (√2−1) = 0.41 of the radius, so it has to come back.
func TestRestoreGivesBackSliversAndNoLegs(t *testing.T) {
	const w, h, edge = 60, 30, 20
	for long, back := range map[int]bool{1: true, 8: true, 10: true, 11: false, 20: false} {
		c := &small{w: w, h: h}
		mask, open := make([]uint8, w*h), make([]uint8, w*h)
		for y := range h {
			for x := range edge {
				mask[y*w+x], open[y*w+x] = 1, 1
			}
		}
		for x := edge; x < edge+long; x++ {
			mask[10*w+x] = 1
		}
		out := c.restore(mask, open, 20)
		if got := out[10*w+edge+long-1] == 1; got != back {
			t.Errorf("a sliver of %d pixels: given back %v, want %v", long, got, back)
		}
		if out[20*w+edge] != 0 || out[5*w+5] != 1 {
			t.Errorf("a sliver of %d pixels: what was not in the mask came in, or the opened part went", long)
		}
	}
}
