package measure

import (
	"math"

	"slabfolio/imaging/colour"
)

// Limits of a strip beyond the outline: the side of a live edge in its own shade, which
// stands out less from the ground than the face does, so that the outline may run
// along the face.
const (
	beyondReach  = 14.0 // mm: no edge is looked for farther out
	beyondDarker = 0.92 // of the ground farther out, in the square root of light
	beyondHue    = 1.25 // times the spread of the ground, and at least 2.5: no shadow has such a colour
	beyondAlong  = 5    // points of the edge to either side that are taken together
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

// beyond is how far, in pixels of the photo, a strip that is darker than the ground
// and no shade of it reaches past each point of an edge.
func (j *job) beyond(edge []Point, perMM float64) []float64 {
	g := j.copy.groundOf(j.copy.frameRing())
	hue := math.Max(beyondHue*float64(g.noise), 2.5)
	n, reach := len(edge), math.Max(beyondReach*perMM, 4)
	wide := make([]float64, n)
	light := func(p, out Point, d float64) (v [3]float64, root float64) {
		v = lightAt(j.m, p.X+d*out.X, p.Y+d*out.Y)
		return v, math.Sqrt(0.2126*v[0] + 0.7152*v[1] + 0.0722*v[2])
	}
	for i, p := range edge {
		in := inwards(edge, i)
		out := Point{X: -in.X, Y: -in.Y}
		var far []float64
		for k := range 9 {
			_, v := light(p, out, reach*(1+float64(k)/8))
			far = append(far, v)
		}
		limit := beyondDarker * median(far)
		for d := 1.0; d <= reach; d += 0.5 {
			v, root := light(p, out, d)
			lab := colour.Linear16ToLab(uint16(v[0]*65535), uint16(v[1]*65535), uint16(v[2]*65535))
			if root > limit || float64(g.distance(float32(lab.L), float32(lab.A), float32(lab.B))) < hue {
				if d > 2.5 { // a soft edge may come first
					break
				}
				continue
			}
			wide[i] = d
		}
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
