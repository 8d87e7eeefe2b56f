package imaging

import "math"

// The outline on the reduced copy, made better by colour: the search that found
// the piece works on a copy of half its size and takes deep shadows for piece.

const (
	shadeLeast = 0.30 // of B: a shade that is darker may be the piece
	shadeMost  = 1.30 // and so much brighter the lit backdrop may be than the polynomial that stands for it
	shadeStep  = 0.12 // by which a shade may change from pixel to pixel, as a share
	missedDark = 0.20 // of B: darker beside the piece is piece
	missedBy   = 10   // pixels that the outline may be off
	gapSpan    = 0.06 // by how much the channels of a gap between legs may differ, as a share
	gapLevel   = 0.15 // and by how much it may be darker than the shade beside
	gapEdge    = 3    // pixels beyond its rim by which the piece has to be seen …
	gapFramed  = 0.85 // … along so much of it
	offLeast   = 0.06 // squared distance from the shade, in shares of B, of the middle of a thin part of the piece
	ridgeLeast = 0.81 // of the largest such distance two pixels about: nearer the edge light of the ground mixes in
	mostTaken  = 0.15 // of the mask: where more of it looks like a shade, nobody knows what the piece is
)

// spanOf is by how much the channels differ, as a share of the largest.
func spanOf(r [3]float32) float32 {
	hi := max(r[0], r[1], r[2])
	return (hi - min(r[0], r[1], r[2])) / max(hi, 1e-6)
}

// refine corrects the mask by what is seen, and sets the zones anew. It returns
// which share of the mask was no piece.
func (c *cutout) refine(ratio [][3]float32, mask []uint8) (taken float64) {
	c.findOpen(ratio, mask)
	c.solid = append([]uint8(nil), mask...)
	all := 0.0
	for i, v := range mask {
		all += float64(v)
		if c.open[i] != 0 {
			taken += float64(v)
			c.solid[i] = 0
		}
	}
	near := grown(c.solid, c.w, c.h, missedBy, 1)
	var from []int
	for i, v := range c.solid {
		if v != 0 {
			from = append(from, i)
		}
	}
	c.flood(c.solid, from, func(_, j int) bool {
		return near[j] != 0 && (spanOf(ratio[j]) > sureColour || brightness(ratio[j]) < missedDark)
	})
	for i := range c.zone {
		c.zone[i] = onGround
	}
	c.setZones(c.solid)
	return taken / math.Max(all, 1)
}

// findOpen finds where the backdrop is seen: from where it surely is, and from
// gaps, on through what may be a shade and changes gently.
func (c *cutout) findOpen(ratio [][3]float32, mask []uint8) {
	gentle := func(i, j int) bool {
		a, b := brightness(ratio[i]), brightness(ratio[j])
		return spanOf(ratio[j]) <= noShade && b >= shadeLeast && b <= shadeMost &&
			math.Abs(float64(a-b)) <= shadeStep*float64(max(a, b))
	}
	deep := grown(mask, c.w, c.h, missedBy, 0)
	c.open = make([]uint8, len(mask))
	var from []int
	for i, z := range c.zone {
		if z == onGround {
			c.open[i] = 1
			from = append(from, i)
		}
	}
	c.flood(c.open, from, gentle)
	for i := range c.open {
		if c.open[i] != 0 || deep[i] != 0 || !c.gap(ratio, i) {
			continue
		}
		c.open[i] = 1
		if hole := c.flood(c.open, []int{i}, gentle); !c.framed(ratio, hole) {
			for _, j := range hole {
				c.open[j] = seen
			}
		}
	}
	for i, v := range c.open {
		if v == seen {
			c.open[i] = 0
		}
	}
}

// seen marks what looks like a gap and is none.
const seen = 2

// framed reports whether a gap ends at edges all round, as what is seen between
// two legs does. A shine on the piece fades.
func (c *cutout) framed(ratio [][3]float32, hole []int) bool {
	clear, all := 0, 0
	for _, i := range hole {
		x, y := i%c.w, i/c.w
		for _, s := range [4][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
			u, v := x+gapEdge*s[0], y+gapEdge*s[1]
			if u < 0 || v < 0 || u >= c.w || v >= c.h || c.open[i+s[1]*c.w+s[0]] == 1 {
				continue
			}
			all++
			var off float32
			for k, r := range ratio[v*c.w+u] {
				off += float32((r - ratio[i][k]) * (r - ratio[i][k]))
			}
			if off >= offLeast {
				clear++
			}
		}
	}
	return float64(clear) >= gapFramed*float64(all)
}

// gap reports whether a pixel and those around it look like the backdrop in the
// shade that lies beside: what is seen between two legs.
func (c *cutout) gap(ratio [][3]float32, i int) bool {
	x, y := i%c.w, i/c.w
	if x == 0 || y == 0 || x == c.w-1 || y == c.h-1 {
		return false
	}
	for v := y - 1; v <= y+1; v++ {
		for u := x - 1; u <= x+1; u++ {
			r := ratio[v*c.w+u]
			if l := brightness(r); spanOf(r) > gapSpan || l < (1-gapLevel)*fullyLit*c.shade[i] || l > shadeMost {
				return false
			}
		}
	}
	return true
}

// flood sets to 1 what is 0 and can be reached by steps that are allowed from some
// pixels. It returns them all.
func (c *cutout) flood(set []uint8, queue []int, allowed func(from, to int) bool) []int {
	for at := 0; at < len(queue); at++ {
		i := queue[at]
		x, y := i%c.w, i/c.w
		for _, s := range [4][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
			if x+s[0] < 0 || x+s[0] >= c.w || y+s[1] < 0 || y+s[1] >= c.h {
				continue
			}
			if j := i + s[1]*c.w + s[0]; set[j] == 0 && allowed(i, j) {
				set[j] = 1
				queue = append(queue, j)
			}
		}
	}
	return queue
}

// known tells of which pixels it is sure what they are.
func (c *cutout) known(ratio [][3]float32) []uint8 {
	out := make([]uint8, len(ratio))
	off := make([]float32, len(ratio)) // from the shade
	for i, r := range ratio {
		s := c.shade[i]
		for _, v := range r {
			off[i] += float32((v - s) * (v - s))
		}
	}
	in, around := grown(c.solid, c.w, c.h, 2, 0), grown(c.solid, c.w, c.h, 1, 1)
	for i := range out {
		switch {
		case in[i] != 0 || c.solid[i] != 0 && off[i] > offLeast && c.ridge(off, i):
			out[i] = knownPiece
		case c.zone[i] == onGround || c.open[i] != 0 && around[i] == 0:
			out[i] = knownGround
		}
	}
	return out
}

// ridge reports whether no pixel nearby is much farther from the shade: the
// middle of a thin leg.
func (c *cutout) ridge(off []float32, i int) bool {
	x, y := i%c.w, i/c.w
	for v := max(y-2, 0); v <= min(y+2, c.h-1); v++ {
		for u := max(x-2, 0); u <= min(x+2, c.w-1); u++ {
			if off[i] < ridgeLeast*off[v*c.w+u] {
				return false
			}
		}
	}
	return true
}
