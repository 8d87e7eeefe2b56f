package drawing

import (
	"math"
	"slices"
)

const (
	strokeCount = 13 // of the strokes: a few
	strokeSteps = 48 // of one stroke
)

// strokes returns the few lines that show which way the grain of a top runs; they
// show the direction and nothing else. They bend with the edges, as grain does in
// a slab sawn through, and halve the bend to be modest about it. They keep the
// margin from the outline, in millimetres of the piece. Where each begins is made
// up, the same every time. End grain, or no grain, has none.
func strokes(d *Piece, margin float64) [][][2]float64 {
	t := &top{d}
	along := t.Grain == "along length"
	if !along && t.Grain != "along width" {
		return nil
	}
	extent := t.Length
	if !along {
		extent = t.Width
	}
	next := madeUp(7)
	var all [][][2]float64
	bend := t.bend(along) / 2
	for i := range strokeCount {
		share := (float64(i) + 0.25 + 0.5*next()) / strokeCount
		from := 0.02 + 0.55*next()
		to := min(from+0.18+0.35*next(), 0.98)
		all = t.stroke(all, along, share, from*extent, to*extent, bend, margin)
	}
	return all
}

// madeUp gives numbers from 0 up to 1 that look like chance and are the same
// every time: a linear congruential generator, Numerical Recipes' constants.
func madeUp(seed uint32) func() float64 {
	return func() float64 {
		seed = seed*1664525 + 1013904223
		return float64(seed>>8) / (1 << 24)
	}
}

// stroke adds one stroke at a share of the way from edge to edge, in pieces where
// it would leave the outline.
func (t *top) stroke(all [][][2]float64, along bool, share, from, to, bend, margin float64) [][][2]float64 {
	lo, hi, ok := t.span(along, (from+to)/2)
	if !ok {
		return all
	}
	straight := lo + share*(hi-lo)
	var now [][2]float64
	end := func() {
		if len(now) > 1 {
			all = append(all, now)
		}
		now = nil
	}
	for i := range strokeSteps + 1 {
		at := from + (to-from)*float64(i)/strokeSteps
		lo, hi, ok := t.span(along, at)
		across := straight + bend*(lo+share*(hi-lo)-straight)
		p := [2]float64{at, across}
		if !along {
			p = [2]float64{across, at}
		}
		if !ok || across < lo+margin || across > hi-margin || t.inResin(p) {
			end()
			continue
		}
		now = append(now, p)
	}
	end()
	return all
}

// inResin reports whether a place is known to be resin, which has no grain.
func (t *top) inResin(p [2]float64) bool {
	in := false
	for _, ring := range t.Resin {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
				in = !in
			}
		}
	}
	return in
}

// A top is a drawing as a grain to follow.
type top struct{ *Piece }

// bend is 1 where the edges run with the grain, as those of a slab do, and 0
// where they are cut across it, as those of a round top are.
func (t *top) bend(along bool) float64 {
	extent := t.Length
	if !along {
		extent = t.Width
	}
	narrow, wide := math.Inf(1), 0.0
	for i := 1; i < 20; i++ {
		lo, hi, _ := t.span(along, extent*float64(i)/20)
		narrow, wide = min(narrow, hi-lo), max(wide, hi-lo)
	}
	if narrow < 0.7*wide {
		return 0
	}
	return 1
}

// span returns the two edges of the outline at a place along the grain: of several
// stretches the widest, so that a notch is not drawn over.
func (t *top) span(along bool, at float64) (lo, hi float64, ok bool) {
	a, b := 0, 1
	if !along {
		a, b = 1, 0
	}
	var cuts []float64
	for i, p := range t.Outline {
		q := t.Outline[(i+1)%len(t.Outline)]
		if (p[a] <= at) == (q[a] <= at) {
			continue
		}
		cuts = append(cuts, p[b]+(q[b]-p[b])*(at-p[a])/(q[a]-p[a]))
	}
	slices.Sort(cuts)
	for i := 0; i+1 < len(cuts); i += 2 {
		if w := cuts[i+1] - cuts[i]; !math.IsNaN(w) && w > hi-lo {
			lo, hi, ok = cuts[i], cuts[i+1], true
		}
	}
	return lo, hi, ok
}
