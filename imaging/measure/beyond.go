package measure

import (
	"math"
	"slices"

	"slabfolio/imaging/colour"
)

// Limits of a strip beyond the outline: the side of a live edge in its own shade, or the
// rounding of an eased one, which stand out less from the ground than the face does, so
// that the outline may run along the face.
const (
	beyondReach = 14.0 // mm: no edge is looked for farther out
	beyondFace  = 0.92 // of the face beside it, in the square root of light: what is lighter is no shaded side
	beyondHue   = 1.25 // times the spread of the ground, and at least 2.5: no shadow has such a colour
	beyondAlong = 5    // points of the edge to either side that are taken together
	beyondStep  = 0.25 // pixels
	beyondLeast = 2.5  // pixels: what is narrower is the edge's own blur
	beyondBleed = 0.5  // pixels by which a JPEG's colour runs past an edge
)

// withStrip is an edge with what is seen beyond it; perMM is pixels a mm.
func (j *job) withStrip(edge []Point, perMM float64) []Point {
	out := make([]Point, len(edge))
	for i, wide := range j.beyond(edge, perMM) {
		in := inwards(edge, i)
		out[i] = Point{X: edge[i].X - wide*in.X, Y: edge[i].Y - wide*in.Y}
	}
	return out
}

// beyond is how far, in pixels of the photo, a strip that is darker than the face and
// no shade of the ground reaches past each point of an edge.
func (j *job) beyond(edge []Point, perMM float64) []float64 {
	g := j.copy.groundOf(j.copy.frameRing())
	hue := math.Max(beyondHue*float64(g.noise), 2.5)
	n, reach := len(edge), math.Max(beyondReach*perMM, 4)
	wide := make([]float64, n)
	for i := range edge {
		wide[i] = j.stripAt(&g, edge, i, hue, reach, perMM)
	}
	smooth := make([]float64, n)
	for i := range wide {
		var near []float64
		for k := -beyondAlong; k <= beyondAlong; k++ {
			near = append(near, wide[(i+k+n)%n])
		}
		smooth[i] = median(near)
	}
	return smooth
}

// stripAt is the width of the strip past one point of the edge: to where its colour has
// come half the way to the ground's, and never past what hue tells from the ground.
func (j *job) stripAt(g *ground, edge []Point, i int, hue, reach, perMM float64) float64 {
	in := inwards(edge, i)
	at := func(d float64) (apart, root float64) { // d outwards
		v := lightAt(j.m, edge[i].X-d*in.X, edge[i].Y-d*in.Y)
		lab := colour.Linear16ToLab(uint16(v[0]*65535), uint16(v[1]*65535), uint16(v[2]*65535))
		return float64(g.distance(float32(lab.L), float32(lab.A), float32(lab.B))), math.Sqrt(0.2126*v[0] + 0.7152*v[1] + 0.0722*v[2])
	}
	var face []float64
	for k := range 9 {
		_, v := at(-perMM * (3 + float64(k)))
		face = append(face, v)
	}
	darker := beyondFace * median(face)
	var seen []float64 // of the last 2.5 pixels
	end := 0.0
	for d := 1.0; d <= reach; d += beyondStep {
		apart, root := at(d)
		if seen = append(seen, apart); len(seen) > 10 {
			seen = seen[1:]
		}
		if apart < math.Max(hue, slices.Max(seen)/2) || root > darker {
			if d > beyondLeast { // a soft edge may come first
				break
			}
			continue
		}
		end = d
	}
	if end < beyondLeast {
		return 0
	}
	return end - beyondBleed
}
