package scene

import "math"

// mix64 scrambles 64 bits; every random choice of a picture comes from it, so
// that a pixel's value hangs on its place and the seed alone.
func mix64(v uint64) uint64 {
	v ^= v >> 30
	v *= 0xbf58476d1ce4e5b9
	v ^= v >> 27
	v *= 0x94d049bb133111eb
	return v ^ v>>31
}

func hash3(x, y, z int32, seed uint32) uint32 {
	h := uint32(x)*0x8da6b343 ^ uint32(y)*0xd8163841 ^ uint32(z)*0xcb1ab31f ^ seed*0x9e3779b1
	h ^= h >> 15
	h *= 0x2c1b3c6d
	h ^= h >> 12
	h *= 0x297a2d39
	return h ^ h>>15
}

// unit1 returns a number in [0, 1) for an integer.
func unit1(i int, seed uint32) float64 {
	return float64(hash3(int32(i), 17, 91, seed)>>8) / (1 << 24)
}

func grad(h uint32, x, y, z float64) float64 {
	switch h & 15 {
	case 0, 12:
		return x + y
	case 1, 14:
		return -x + y
	case 2:
		return x - y
	case 3:
		return -x - y
	case 4:
		return x + z
	case 5:
		return -x + z
	case 6:
		return x - z
	case 7:
		return -x - z
	case 8:
		return y + z
	case 9, 13:
		return -y + z
	case 10:
		return y - z
	}
	return -y - z
}

func fade(t float64) float64 { return t * t * t * (t*(t*6-15) + 10) }

// noise is gradient noise, about -1 to 1, with features about 1 unit wide.
func noise(x, y, z float64, seed uint32) float64 {
	fx, fy, fz := math.Floor(x), math.Floor(y), math.Floor(z)
	ix, iy, iz := int32(int64(fx)), int32(int64(fy)), int32(int64(fz))
	x, y, z = x-fx, y-fy, z-fz
	u, v, w := fade(x), fade(y), fade(z)
	g := func(dx, dy, dz int32) float64 {
		return grad(hash3(ix+dx, iy+dy, iz+dz, seed), x-float64(dx), y-float64(dy), z-float64(dz))
	}
	lerp := func(t, a, b float64) float64 { return a + t*(b-a) }
	return lerp(w,
		lerp(v, lerp(u, g(0, 0, 0), g(1, 0, 0)), lerp(u, g(0, 1, 0), g(1, 1, 0))),
		lerp(v, lerp(u, g(0, 0, 1), g(1, 0, 1)), lerp(u, g(0, 1, 1), g(1, 1, 1))))
}

// noise1 is noise along a line.
func noise1(x float64, seed uint32) float64 { return noise(x, 0.37, 0.71, seed) * 1.4 }

// A sequence gives well-spread numbers in [0, 1) to one sample of one pixel.
type sequence struct {
	h uint64
	i int
}

func newSequence(x, y, i int, seed uint64) sequence {
	return sequence{mix64(uint64(x)*0x9e3779b97f4a7c15 ^ uint64(y)*0xc2b2ae3d27d4eb4f ^ seed), i}
}

// pair returns the i-th point of the additive recurrence on the plastic
// number (the two-dimensional golden ratio), shifted for this pixel and use.
func (s sequence) pair(use uint64) (float64, float64) {
	h := mix64(s.h + use*0x632be59bd9b4e019)
	a := float64(h>>40) / (1 << 24)
	b := float64(h>>16&0xffffff) / (1 << 24)
	_, a = math.Modf(a + float64(s.i)*0.7548776662466927)
	_, b = math.Modf(b + float64(s.i)*0.5698402909980532)
	return a, b
}
