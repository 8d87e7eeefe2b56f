package pixel

import (
	"fmt"
	"math"
)

// takeWarped takes a quad that is no box: first its bounding box at the scale
// of the result, then a turn or perspective from that.
func resampleWarped(r Rows, v Region, uw, uh int) (*Image, error) {
	x0, y0, x1, y1 := v.Quad.Bounds()
	x0, y0 = math.Max(x0-4, 0), math.Max(y0-4, 0)
	x1, y1 = math.Min(x1+4, float64(uw)), math.Min(y1+4, float64(uh))
	if x1-x0 < 1 || y1-y0 < 1 {
		return nil, fmt.Errorf("the quad to take lies outside the picture of %d × %d", uw, uh)
	}
	// The scale at which the quad's longer sides have the size asked for.
	across := math.Max(distance(v.Quad[0], v.Quad[1]), distance(v.Quad[3], v.Quad[2]))
	down := math.Max(distance(v.Quad[0], v.Quad[3]), distance(v.Quad[1], v.Quad[2]))
	k := math.Min(math.Max(float64(v.W)/across, float64(v.H)/down), 1)
	bw, bh := int(math.Ceil((x1-x0)*k)), int(math.Ceil((y1-y0)*k))
	between, err := Resample(r, Region{v.Orientation, Box(x0, y0, x1, y1), bw, bh})
	if err != nil {
		return nil, err
	}
	var q Quad
	for i, p := range v.Quad {
		q[i] = Point{(p.X - x0) * float64(bw) / (x1 - x0), (p.Y - y0) * float64(bh) / (y1 - y0)}
	}
	defer between.Release()
	return cubicWarp(between, q, v.W, v.H)
}

func distance(p, q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// A plane map takes a place in the result to one in the source:
// ((ax+by+c)/(gx+hy+1), (dx+ey+f)/(gx+hy+1)).
type planeMap struct{ a, b, c, d, e, f, g, h float64 }

// mapTo returns the map that takes the box w × h to the quad, corner to corner.
// The formula is Heckbert's (Fundamentals of Texture Mapping and Image Warping,
// 1989, section 2.2.3; from memory), the unit square to a quad, scaled.
func mapTo(q Quad, w, h float64) (planeMap, bool) {
	sx := q[0].X - q[1].X + q[2].X - q[3].X
	sy := q[0].Y - q[1].Y + q[2].Y - q[3].Y
	dx1, dy1 := q[1].X-q[2].X, q[1].Y-q[2].Y
	dx2, dy2 := q[3].X-q[2].X, q[3].Y-q[2].Y
	det := dx1*dy2 - dx2*dy1
	if math.Abs(det) < 1e-9 {
		return planeMap{}, false
	}
	g := (sx*dy2 - dx2*sy) / det
	k := (dx1*sy - sx*dy1) / det
	if 1+g <= 0 || 1+k <= 0 || 1+g+k <= 0 { // folded over the horizon
		return planeMap{}, false
	}
	return planeMap{
		a: (q[1].X - q[0].X + g*q[1].X) / w, b: (q[3].X - q[0].X + k*q[3].X) / h, c: q[0].X,
		d: (q[1].Y - q[0].Y + g*q[1].Y) / w, e: (q[3].Y - q[0].Y + k*q[3].Y) / h, f: q[0].Y,
		g: g / w, h: k / h,
	}, true
}
