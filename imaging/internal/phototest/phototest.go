// Package phototest reads the real test photos and measures colour differences,
// for the tests of the photo packages. The photos are kept outside the
// repository, in ../shared/photos from its root; each has its source and
// licence in the SOURCES.csv there.
package phototest

import (
	"image"
	"image/color"
	_ "image/jpeg" // formats of the test photos
	_ "image/png"
	"math"
	"os"
	"sync"
	"testing"

	"slabfolio/imaging/pixel"
	"slabfolio/testdata/beside"
)

// Dir is the folder of the real photos. Without it the test is skipped, or
// fails where SLABFOLIO_REFERENCE=required.
func Dir(t testing.TB) string { return beside.Shared(t, "photos") }

// Reference is the folder of the published tables, on the same terms.
func Reference(t testing.TB) string { return beside.Shared(t, "reference") }

// Decode reads a picture file as it is, without profile or orientation.
func Decode(t testing.TB, name string) image.Image {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, _, err := image.Decode(f)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return m
}

// read holds what Read has read and is small: many tests of a package look at the
// same photos.
var read sync.Map

// Read decodes a photo and reduces it to side pixels, in linear light.
func Read(t testing.TB, name string, side int) *pixel.Image {
	t.Helper()
	key := [2]any{name, side}
	if m, ok := read.Load(key); ok {
		return m.(*pixel.Image).Clone()
	}
	photo := Decode(t, name)
	w, h := photo.Bounds().Dx(), photo.Bounds().Dy()
	if max(w, h) <= side {
		return Linear(photo)
	}
	row := make([]uint16, 3*w)
	m := reduce(w, h, side, func(y int) []uint16 { linearRow(row, photo, y); return row })
	if side <= 768 {
		read.Store(key, m.Clone())
	}
	return m
}

var toLinear = sync.OnceValue(func() *[65536]uint16 {
	var t [65536]uint16
	for i := range t {
		v := float64(i) / 65535
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		t[i] = uint16(v*65535 + 0.5)
	}
	return &t
})

// Linear takes an sRGB picture to linear light.
func Linear(m image.Image) *pixel.Image {
	p := pixel.New(m.Bounds().Dx(), m.Bounds().Dy())
	for y := range p.H {
		linearRow(p.Row(y), m, y)
	}
	return p
}

// linearRow takes a row of an sRGB picture to linear light.
func linearRow(row []uint16, m image.Image, y int) {
	b, lut := m.Bounds(), toLinear()
	if c, ok := m.(*image.YCbCr); ok { // big photos, without a call a pixel
		for x := range b.Dx() {
			i, j := c.YOffset(b.Min.X+x, b.Min.Y+y), c.COffset(b.Min.X+x, b.Min.Y+y)
			r, g, bl := color.YCbCrToRGB(c.Y[i], c.Cb[j], c.Cr[j])
			row[3*x], row[3*x+1], row[3*x+2] = lut[uint16(r)*257], lut[uint16(g)*257], lut[uint16(bl)*257]
		}
		return
	}
	for x := range b.Dx() {
		r, g, bl, _ := m.At(b.Min.X+x, b.Min.Y+y).RGBA()
		row[3*x], row[3*x+1], row[3*x+2] = lut[r], lut[g], lut[bl]
	}
}

// Reduce shrinks a picture to side pixels on its longer side by plain means;
// it never enlarges.
func Reduce(m *pixel.Image, side int) *pixel.Image {
	if max(m.W, m.H) <= side {
		return m
	}
	return reduce(m.W, m.H, side, m.Row)
}

// reduce is Reduce for a picture of width×height pixels that is told row by row, from the top.
func reduce(width, height, side int, row func(y int) []uint16) *pixel.Image {
	w, h := width*side/max(width, height), height*side/max(width, height)
	p := pixel.New(w, h)
	sums := make([]uint64, 3*w)
	for y := range h {
		clear(sums)
		from, to := y*height/h, (y+1)*height/h
		for j := from; j < to; j++ {
			r := row(j)
			for x := range w {
				var a, b, c uint64
				for i := x * width / w; i < (x+1)*width/w; i++ {
					q := r[3*i : 3*i+3 : 3*i+3]
					a, b, c = a+uint64(q[0]), b+uint64(q[1]), c+uint64(q[2])
				}
				sums[3*x], sums[3*x+1], sums[3*x+2] = sums[3*x]+a, sums[3*x+1]+b, sums[3*x+2]+c
			}
		}
		for k, s := range sums {
			n := (k/3+1)*width/w - k/3*width/w
			p.Pix[3*y*w+k] = uint16(s / uint64((to-from)*n))
		}
	}
	return p
}

// Push multiplies a picture by 2^ev in linear light, rounding and clipping as a
// camera would, and reports which pixels clipped.
func Push(m *pixel.Image, ev float64) (*pixel.Image, []bool) {
	p := pixel.New(m.W, m.H)
	lost := make([]bool, m.W*m.H)
	g := math.Exp2(ev)
	for i, v := range m.Pix {
		y := float64(v)*g + 0.5
		if y >= 65535 {
			y = 65535
			lost[i/3] = true
		}
		p.Pix[i] = uint16(y)
	}
	return p, lost
}

// Lab takes a pixel to CIELAB under D65.
func Lab(r, g, b uint16) (l, a, bb float64) {
	x, y, z := float64(r)/65535, float64(g)/65535, float64(b)/65535
	x, y, z = 0.4123908*x+0.3575843*y+0.1804808*z, 0.2126390*x+0.7151687*y+0.0721923*z, 0.0193308*x+0.1191948*y+0.9505322*z
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return 841.0/108*t + 4.0/29
	}
	x, y, z = f(x/0.95045593), f(y), f(z/1.08905775)
	return 116*y - 16, 500 * (x - y), 200 * (y - z)
}

// DeltaE is CIEDE2000 with all weights 1, after Sharma, Wu and Dalal, Color
// Research and Application 30(1), 2005.
func DeltaE(l1, a1, b1, l2, a2, b2 float64) float64 {
	const deg = math.Pi / 180
	p7 := func(c float64) float64 { c7 := math.Pow(c, 7); return math.Sqrt(c7 / (c7 + 6103515625)) }
	cm := (math.Hypot(a1, b1) + math.Hypot(a2, b2)) / 2
	g := 0.5 * (1 - p7(cm))
	a1, a2 = a1*(1+g), a2*(1+g)
	c1, c2 := math.Hypot(a1, b1), math.Hypot(a2, b2)
	hue := func(a, b float64) float64 {
		if a == 0 && b == 0 {
			return 0
		}
		h := math.Atan2(b, a) / deg
		if h < 0 {
			h += 360
		}
		return h
	}
	h1, h2 := hue(a1, b1), hue(a2, b2)
	dh := h2 - h1
	hm := h1 + h2
	switch {
	case c1*c2 == 0:
		dh = 0
	case math.Abs(h1-h2) <= 180+1e-9:
		hm /= 2
	case hm < 360:
		hm = (hm + 360) / 2
	default:
		hm = (hm - 360) / 2
	}
	if dh > 180 {
		dh -= 360
	} else if dh < -180 {
		dh += 360
	}
	dH := 2 * math.Sqrt(c1*c2) * math.Sin(dh/2*deg)
	lm, cm := (l1+l2)/2-50, (c1+c2)/2
	t := 1 - 0.17*math.Cos((hm-30)*deg) + 0.24*math.Cos(2*hm*deg) + 0.32*math.Cos((3*hm+6)*deg) - 0.20*math.Cos((4*hm-63)*deg)
	sl := 1 + 0.015*lm*lm/math.Sqrt(20+lm*lm)
	sc, sh := 1+0.045*cm, 1+0.015*cm*t
	rt := -2 * p7(cm) * math.Sin(60*math.Exp(-(hm-275)*(hm-275)/625)*deg)
	l, c, h := (l2-l1)/sl, (c2-c1)/sc, dH/sh
	return math.Sqrt(l*l + c*c + h*h + rt*c*h)
}

// MeanDeltaE is the mean CIEDE2000 between two pictures of one size, over the
// pixels that skip does not leave out; every 13th pixel is looked at.
func MeanDeltaE(p, q *pixel.Image, skip func(i int) bool) (mean float64, n int) {
	for i := 0; i < p.W*p.H; i += 13 {
		if skip != nil && skip(i) {
			continue
		}
		l1, a1, b1 := Lab(p.Pix[3*i], p.Pix[3*i+1], p.Pix[3*i+2])
		l2, a2, b2 := Lab(q.Pix[3*i], q.Pix[3*i+1], q.Pix[3*i+2])
		mean += DeltaE(l1, a1, b1, l2, a2, b2)
		n++
	}
	return mean / float64(max(1, n)), n
}
