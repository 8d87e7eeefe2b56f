// Package chart finds a card of 24 colour patches in a photo and fits the matrix
// that takes the photo's colours to the published ones. It knows nothing of files
// or words.
package chart

import (
	"math"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// A Chart is a chart that was found, and what it says of the photo's colours.
type Chart struct {
	Corners [4]pixel.Point // middles of its corner patches in shares of the photo: dark brown, blue-green, black, white
	Matrix  colour.Matrix  // to be applied in linear light; leaves the light of the greys as it is
	Before  float64        // mean CIEDE2000 over the patches, exposure put right, as the photo is
	After   float64        // the same through Matrix
	Worst   float64        // the largest of one patch, after
	Held    float64        // mean over the patches, each through the matrix fitted to the others
	Patches int            // that counted: the others are clipped or uneven
}

// What a grid of fields has to come to, or it is no chart: the colours of other
// things in six by four do not come so near by any matrix. leastGain is how much
// nearer the colours have to come, patch by patch left out, or they stay.
const (
	mostAfter  = 11.0 // mean ΔE
	mostWorst  = 26.0 // of one patch
	leastApart = 2.0  // times that of the next best way of laying the chart
	leastGain  = 0.9
	leastCount = 18 // patches neither clipped nor uneven
	mostOdd    = 3  // uneven patches: a shadow or a thumb
)

// Helps reports whether the matrix brings patches nearer that it was not fitted to.
func (c *Chart) Helps() bool { return c.Held < leastGain*c.Before }

// calmness are the steps of the sRGB code from pixel to pixel within which a place is
// taken for one surface: of little noise, of more, of much.
var calmness = [3]uint8{4, 8, 14}

// Find looks for a chart; nil where none is sure.
func Find(m *pixel.Image) *Chart {
	var best *Chart
	rough := roughness(m)
	for _, limit := range calmness {
		all := fields(m, rough, limit)
		for _, g := range grids(all) {
			if c := read(m, g, all); c != nil && (best == nil || c.After < best.After) {
				best = c
			}
		}
	}
	return best
}

// A placing is one way of laying a chart on a grid.
type placing struct {
	at    [24]cell
	found int
}

// placings are the ways of laying six by four on a grid, two for each place and side.
func placings(g map[cell]int) (all []placing) {
	lo, hi := cell{99, 99}, cell{-99, -99}
	for c := range g {
		lo, hi = cell{min(lo.i, c.i), min(lo.j, c.j)}, cell{max(hi.i, c.i), max(hi.j, c.j)}
	}
	add := func(i0, j0 int, at func(r, c int) cell) {
		var w placing
		for k := range w.at {
			p := at(k/6, k%6)
			w.at[k] = cell{i0 + p.i, j0 + p.j}
			if _, ok := g[w.at[k]]; ok {
				w.found++
			}
		}
		if w.found >= leastSeen {
			all = append(all, w)
		}
	}
	for i := lo.i - 1; i <= hi.i; i++ {
		for j := lo.j - 1; j <= hi.j; j++ {
			add(i, j, func(r, c int) cell { return cell{c, r} })
			add(i, j, func(r, c int) cell { return cell{5 - c, 3 - r} })
			add(i, j, func(r, c int) cell { return cell{3 - r, c} })
			add(i, j, func(r, c int) cell { return cell{r, 5 - c} })
		}
	}
	return all
}

// read lays the chart on a grid in every way and takes the one whose colours fit,
// where no other comes near it.
func read(m *pixel.Image, g map[cell]int, all []field) *Chart {
	to, ok := mapOf(g, all)
	if !ok {
		return nil
	}
	var best *Chart
	next := math.Inf(1)
	for _, w := range placings(g) {
		c := measuredAt(m, w, to)
		switch {
		case c == nil:
		case best == nil || c.After < best.After:
			if best != nil {
				next = best.After
			}
			best = c
		default:
			next = min(next, c.After)
		}
	}
	if best == nil || best.After > mostAfter || best.Worst > mostWorst || next < leastApart*best.After {
		return nil
	}
	return best
}
