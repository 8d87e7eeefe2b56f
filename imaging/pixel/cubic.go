package pixel

import (
	"fmt"
	"math"
	"sync"
)

// cubicWarp returns the part of m under the quad, taken to w × h by Catmull-Rom
// interpolation, each value held within its four nearest neighbours so that no
// edge rings. It is for pictures already near their size: it does not filter.
// It returns an error for a size or quad that cannot be.
func cubicWarp(m *Image, q Quad, w, h int) (*Image, error) {
	p, err := warpMap(m, q, w, h)
	if err != nil {
		return nil, err
	}
	out := Unset(w, h)
	warp(out, m, p)
	return out, nil
}

// WarpInto is cubicWarp into a picture that is there already, all of it.
func WarpInto(out, m *Image, q Quad) error {
	p, err := warpMap(m, q, out.W, out.H)
	if err == nil {
		warp(out, m, p)
	}
	return err
}

func warpMap(m *Image, q Quad, w, h int) (planeMap, error) {
	p, ok := mapTo(q, float64(w), float64(h))
	if !ok || w <= 0 || h <= 0 || max(w, h) > maxSide || m.W <= 0 || m.H <= 0 || max(m.W, m.H) > maxSide {
		return p, fmt.Errorf("cannot take %d × %d pixels from the quad %.1f", w, h, q)
	}
	return p, nil
}

func warp(out, m *Image, p planeMap) {
	var wg sync.WaitGroup
	wg.Go(func() { warpBand(m, p, out, 0, out.H/2) })
	warpBand(m, p, out, out.H/2, out.H)
	wg.Wait()
}

// A spot is where in the source a pixel comes from: the second of its four
// columns and rows, and the 256ths beyond them.
type spot struct{ x, y, fx, fy int32 }

// warpBand makes the rows from y0 to y1.
func warpBand(m *Image, p planeMap, out *Image, y0, y1 int) {
	spots := make([]spot, out.W)
	for y := y0; y < y1; y++ {
		p.spots(spots, y, m.W, m.H)
		row := out.Row(y)
		for x := 0; x < len(spots); {
			n := cubicRun(row[x*3:], m, spots[x:])
			x += n
			if n == 0 {
				cubicSpot(row[x*3:x*3+3:x*3+3], m, spots[x])
				x++
			}
		}
	}
}

// spots finds where the pixels of row y come from, held within a picture of w × h.
func (p planeMap) spots(dst []spot, y, w, h int) {
	fy := float64(y) + 0.5
	zx, zy, z := float64(p.b*fy)+p.c, float64(p.e*fy)+p.f, float64(p.h*fy)+1
	flat := p.g == 0 && p.h == 0
	right, bottom := float64((w-1)*256), float64((h-1)*256)
	for x := range dst {
		fx := float64(x) + 0.5
		sx, sy := float64(p.a*fx)+zx, float64(p.d*fx)+zy
		if !flat {
			k := float64(p.g*fx) + z
			sx, sy = sx/k, sy/k
		}
		// 256ths from the middle of the first pixel, rounded; +0.5 and −128 at once.
		i := int32(min(max(float64(sx*256)-127.5, 0), right))
		j := int32(min(max(float64(sy*256)-127.5, 0), bottom))
		dst[x] = spot{i >> 8, j >> 8, i & 255, j & 255}
	}
}

// cubicWeights are the Catmull-Rom weights for each 256th between two pixels,
// 14 bits each, adding up to one.
var cubicWeights = sync.OnceValue(func() *[256][4]int16 {
	t := new([256][4]int16)
	for i := range t {
		x := float64(i) / 256
		t[i][0] = int16(math.Round(16384 * 0.5 * x * (-1 + float64(x*(2-x)))))
		t[i][2] = int16(math.Round(16384 * 0.5 * x * (1 + float64(x*(4-3*x)))))
		t[i][3] = int16(math.Round(16384 * 0.5 * x * x * (x - 1)))
		t[i][1] = 16384 - t[i][0] - t[i][2] - t[i][3]
	}
	return t
})

// cubicSpot sets dst to the value of m at a spot. Sums are of samples less 32768
// and each is held to 16 bits, so that the vector code can do the same.
func cubicSpot(dst []uint16, m *Image, s spot) {
	t := cubicWeights()
	wx, wy := &t[s.fx], &t[s.fy]
	var at [4]int
	for i := range at {
		at[i] = min(max(int(s.x)+i-1, 0), m.W-1) * 3
	}
	var acc [3]int32
	lo, hi := [3]int32{32767, 32767, 32767}, [3]int32{-32768, -32768, -32768}
	for j := range 4 {
		row := m.Row(min(max(int(s.y)+j-1, 0), m.H-1))
		for c := range 3 {
			sum := int32(round)
			for i := range 4 {
				v := int32(row[at[i]+c]) - 32768
				sum += int32(wx[i]) * v
				if (i == 1 || i == 2) && (j == 1 || j == 2) {
					lo[c], hi[c] = min(lo[c], v), max(hi[c], v)
				}
			}
			acc[c] += int32(wy[j]) * min(max(sum>>weightBits, -32768), 32767)
		}
	}
	for c := range dst {
		v := (acc[c] + round) >> weightBits
		dst[c] = uint16(min(max(v, lo[c]), hi[c]) + 32768)
	}
}
