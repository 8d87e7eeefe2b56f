package measure

import (
	"math"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// A flat is a photo of flat things drawn by projective geometry alone: every
// place of the picture is taken back to mm on the plane and asked for its
// colour. Its truth is exact; it has neither light nor thickness.
type flat struct {
	w, h   int
	focal  float64 // pixels
	tilt   float64 // degrees
	turn   float64 // degrees of the camera about its axis
	height float64 // mm
	bend   float64 // of the lens, as a share at the corner
	at     func(x, y float64) [3]float64
}

// frame is the camera's axes and its place, looking at (0, 0).
func (f flat) frame() (right, down, ahead, at [3]float64) {
	s, c := math.Sincos(f.tilt * math.Pi / 180)
	ts, tc := math.Sincos(f.turn * math.Pi / 180)
	at = [3]float64{0, -f.height * s, f.height * c}
	ahead = [3]float64{0, s, -c}
	r0, d0 := [3]float64{1, 0, 0}, [3]float64{0, -c, -s}
	for k := range 3 {
		right = with(right, k, tc*r0[k]+ts*d0[k])
		down = with(down, k, -ts*r0[k]+tc*d0[k])
	}
	return right, down, ahead, at
}

func with(v [3]float64, k int, x float64) [3]float64 { v[k] = x; return v }

// place is where mm (x, y) is in the picture.
func (f flat) place(x, y float64) Point {
	r, d, a, at := f.frame()
	v := [3]float64{x - at[0], y - at[1], -at[2]}
	z := dot(v, a)
	return Point{X: float64(f.w)/2 + f.focal*dot(v, r)/z, Y: float64(f.h)/2 + f.focal*dot(v, d)/z}
}

// draw renders with 2 × 2 samples a pixel.
func (f flat) draw() *pixel.Image {
	m := pixel.New(f.w, f.h)
	r, d, a, at := f.frame()
	for y := range f.h {
		row := m.Row(y)
		for x := range f.w {
			var sum [3]float64
			for k := range 4 {
				p := Point{X: float64(x) + (float64(k%2)+0.5)/2, Y: float64(y) + (float64(k/2)+0.5)/2}
				if f.bend != 0 {
					p = unbent(p, f.bend, float64(f.w)/2, float64(f.h)/2)
				}
				u, v := (p.X-float64(f.w)/2)/f.focal, (p.Y-float64(f.h)/2)/f.focal
				ray := [3]float64{a[0] + u*r[0] + v*d[0], a[1] + u*r[1] + v*d[1], a[2] + u*r[2] + v*d[2]}
				t := -at[2] / ray[2]
				c := f.at(at[0]+t*ray[0], at[1]+t*ray[1])
				for i := range sum {
					sum[i] += c[i] / 4
				}
			}
			for i := range sum {
				row[3*x+i] = uint16(sum[i]*65535 + 0.5)
			}
		}
	}
	return m
}

func srgb(r, g, b float64) [3]float64 {
	return [3]float64{colour.Decode(r / 255), colour.Decode(g / 255), colour.Decode(b / 255)}
}

var (
	floorGrey = srgb(112, 112, 116)
	woodBrown = srgb(168, 122, 80)
	paperPure = srgb(235, 236, 238)
	resinTeal = srgb(30, 96, 100)
)

// A rect is a turned rectangle on the plane.
type rect struct{ x, y, w, h, turn float64 }

func (r rect) has(x, y float64) bool { return r.holds()(x, y) }

// holds is has for many places.
func (r rect) holds() func(x, y float64) bool {
	s, c := math.Sincos(r.turn * math.Pi / 180)
	return func(x, y float64) bool {
		dx, dy := x-r.x, y-r.y
		return math.Abs(dx*c+dy*s) < r.w/2 && math.Abs(-dx*s+dy*c) < r.h/2
	}
}

// corners are clockwise as seen from above with y upwards.
func (r rect) corners(f flat) (q [4]Point) {
	s, c := math.Sincos(r.turn * math.Pi / 180)
	for i, k := range [4][2]float64{{-1, 1}, {1, 1}, {1, -1}, {-1, -1}} {
		dx, dy := k[0]*r.w/2, k[1]*r.h/2
		q[i] = f.place(r.x+dx*c-dy*s, r.y+dx*s+dy*c)
	}
	return q
}

// bench is a board of 1100 × 420 mm with a river of 70 mm along it, and sheets.
func bench(sheets ...rect) func(x, y float64) [3]float64 {
	top := rect{0, 0, 1100, 420, 0}.holds()
	var white []func(x, y float64) bool
	for _, s := range sheets {
		white = append(white, s.holds())
	}
	return func(x, y float64) [3]float64 {
		for _, in := range white {
			if in(x, y) {
				return paperPure
			}
		}
		if !top(x, y) {
			return floorGrey
		}
		if math.Abs(y+90) < 35 {
			return resinTeal
		}
		c := woodBrown
		for i := range c {
			c[i] *= 1 + 0.10*math.Sin(y/4+3*math.Sin(x/90))
		}
		return c
	}
}
