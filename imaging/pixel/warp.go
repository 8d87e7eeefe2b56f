package pixel

import (
	"fmt"
	"math"
	"sync"
)

// takeWarped takes a quad that is no box: first its bounding box at the scale
// of the result, then a turn or perspective from that.
func takeWarped(r Rows, v View, uw, uh int) (*Image, error) {
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
	between, err := Take(r, View{v.Orientation, Box(x0, y0, x1, y1), bw, bh})
	if err != nil {
		return nil, err
	}
	var q Quad
	for i, p := range v.Quad {
		q[i] = Point{(p.X - x0) * float64(bw) / (x1 - x0), (p.Y - y0) * float64(bh) / (y1 - y0)}
	}
	return Warp(between, q, v.W, v.H)
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

// Warp returns the part of m under the quad, taken to w × h by Catmull-Rom
// interpolation, each value held within its four nearest neighbours so that no
// edge rings. It is for pictures already near their size: it does not filter.
// It returns an error for a size or quad that cannot be.
func Warp(m *Image, q Quad, w, h int) (*Image, error) {
	p, ok := mapTo(q, float64(w), float64(h))
	if !ok || w <= 0 || h <= 0 || max(w, h) > maxSide || m.W <= 0 || m.H <= 0 {
		return nil, fmt.Errorf("cannot take %d × %d pixels from the quad %.1f", w, h, q)
	}
	out := New(w, h)
	var wg sync.WaitGroup
	wg.Go(func() { warpBand(m, p, out, 0, h/2) })
	warpBand(m, p, out, h/2, h)
	wg.Wait()
	return out, nil
}

// warpBand makes the rows from y0 to y1.
func warpBand(m *Image, p planeMap, out *Image, y0, y1 int) {
	cubic := cubicTable()
	for y := y0; y < y1; y++ {
		row := out.Row(y)
		fy := float64(y) + 0.5
		for x := range out.W {
			fx := float64(x) + 0.5
			z := float64(p.g*fx) + float64(p.h*fy) + 1
			sx := (float64(p.a*fx)+float64(p.b*fy)+p.c)/z - 0.5
			sy := (float64(p.d*fx)+float64(p.e*fy)+p.f)/z - 0.5
			sample(row[x*3:x*3+3:x*3+3], m, sx, sy, cubic)
		}
	}
}

// cubicSteps is how finely the place between two pixels is told apart.
const cubicSteps = 256

// cubicTable returns the Catmull-Rom weights for each step between two pixels,
// 14 bits each, adding up to one.
func cubicTable() *[cubicSteps + 1][4]int64 {
	t := new([cubicSteps + 1][4]int64)
	for i := range t {
		x := float64(i) / cubicSteps
		t[i][0] = int64(math.Round(16384 * 0.5 * x * (-1 + x*(2-x))))
		t[i][2] = int64(math.Round(16384 * 0.5 * x * (1 + x*(4-3*x))))
		t[i][3] = int64(math.Round(16384 * 0.5 * x * x * (x - 1)))
		t[i][1] = 16384 - t[i][0] - t[i][2] - t[i][3]
	}
	return t
}

// sample sets dst to the value of m at (x, y), pixel middles at whole numbers.
func sample(dst []uint16, m *Image, x, y float64, cubic *[cubicSteps + 1][4]int64) {
	x = math.Min(math.Max(x, 0), float64(m.W-1))
	y = math.Min(math.Max(y, 0), float64(m.H-1))
	ix, iy := int(x), int(y)
	wx := &cubic[int((x-float64(ix))*cubicSteps+0.5)]
	wy := &cubic[int((y-float64(iy))*cubicSteps+0.5)]
	var at [4]int
	for i := range at {
		at[i] = min(max(ix+i-1, 0), m.W-1) * 3
	}
	var acc [3]int64
	lo, hi := [3]uint16{65535, 65535, 65535}, [3]uint16{}
	for j := range 4 {
		row := m.Row(min(max(iy+j-1, 0), m.H-1))
		for c := range 3 {
			v := [4]uint16{row[at[0]+c], row[at[1]+c], row[at[2]+c], row[at[3]+c]}
			acc[c] += wy[j] * (wx[0]*int64(v[0]) + wx[1]*int64(v[1]) + wx[2]*int64(v[2]) + wx[3]*int64(v[3]))
			if j == 1 || j == 2 {
				lo[c], hi[c] = min(lo[c], v[1], v[2]), max(hi[c], v[1], v[2])
			}
		}
	}
	for c := range dst {
		v := (acc[c] + 1<<27) >> 28
		dst[c] = uint16(min(max(v, int64(lo[c])), int64(hi[c])))
	}
}
