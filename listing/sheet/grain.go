package sheet

import (
	"math"
	"slices"
)

// grainStrokes is how many strokes the plan has: a few, to show the direction.
const grainStrokes = 13

// grain draws a few strokes in the direction of the grain. They bend with the
// edges, as grain does in a slab sawn through, and halve the bend to be modest
// about it. Where each begins is made up, the same every time.
func (v *view) grain() {
	g := v.drawing
	along := g.Grain == "along length"
	if !along && g.Grain != "along width" {
		return
	}
	v.pen(lineGrain, nil)
	extent := g.Length
	if !along {
		extent = g.Width
	}
	seed := uint32(7)
	next := func() float64 { // a linear congruential generator, Numerical Recipes' constants
		seed = seed*1664525 + 1013904223
		return float64(seed>>8) / (1 << 24)
	}
	for i := range grainStrokes {
		share := (float64(i) + 0.25 + 0.5*next()) / grainStrokes
		from := 0.02 + 0.55*next()
		to := min(from+0.18+0.35*next(), 0.98)
		v.stroke(along, share, from*extent, to*extent)
	}
}

// stroke draws one stroke at a share of the way from edge to edge.
func (v *view) stroke(along bool, share, from, to float64) {
	const steps = 48
	lo, hi, ok := v.span(along, (from+to)/2)
	if !ok {
		return
	}
	straight := lo + share*(hi-lo)
	bend := v.bend(along) / 2
	drawing := false
	for i := range steps + 1 {
		t := from + (to-from)*float64(i)/steps
		lo, hi, ok := v.span(along, t)
		across := straight + bend*(lo+share*(hi-lo)-straight)
		margin := 0.8 * v.scale // keep clear of the edge
		if !ok || across < lo+margin || across > hi-margin {
			drawing = v.lift(drawing)
			continue
		}
		x, y := v.at(t, across)
		if !along {
			x, y = v.at(across, t)
		}
		if drawing {
			v.d.pdf.LineTo(x, y)
		} else {
			v.d.pdf.MoveTo(x, y)
			drawing = true
		}
	}
	v.lift(drawing)
}

// bend is 1 where the edges run with the grain, as those of a slab do, and 0
// where they are cut across it, as those of a round top are.
func (v *view) bend(along bool) float64 {
	extent := v.drawing.Length
	if !along {
		extent = v.drawing.Width
	}
	narrow, wide := math.Inf(1), 0.0
	for i := 1; i < 20; i++ {
		lo, hi, _ := v.span(along, extent*float64(i)/20)
		narrow, wide = min(narrow, hi-lo), max(wide, hi-lo)
	}
	if narrow < 0.7*wide {
		return 0
	}
	return 1
}

// lift ends a path if one is open.
func (v *view) lift(drawing bool) bool {
	if drawing {
		v.d.pdf.DrawPath("D")
	}
	return false
}

// span returns the two edges of the outline at t along the grain: of several
// stretches the widest, so that a notch is not drawn over.
func (v *view) span(along bool, t float64) (lo, hi float64, ok bool) {
	o := v.drawing.Outline
	a, b := 0, 1
	if !along {
		a, b = 1, 0
	}
	var cuts []float64
	for i, p := range o {
		q := o[(i+1)%len(o)]
		if (p[a] <= t) == (q[a] <= t) {
			continue
		}
		cuts = append(cuts, p[b]+(q[b]-p[b])*(t-p[a])/(q[a]-p[a]))
	}
	slices.Sort(cuts)
	for i := 0; i+1 < len(cuts); i += 2 {
		if w := cuts[i+1] - cuts[i]; !math.IsNaN(w) && w > hi-lo {
			lo, hi, ok = cuts[i], cuts[i+1], true
		}
	}
	return lo, hi, ok
}
