package scene

import (
	"image"
	"math"
)

type texShader struct {
	im     *image.RGBA
	x0, y0 float64
	scale  float64
	ax     int // axis of the normal
	rough  float64
}

func (s *texShader) at(pt *point) surface {
	u, v := pt.p.X, pt.p.Z
	switch {
	case math.Abs(pt.n.X) > 0.8:
		u, v = pt.p.Y, pt.p.Z
	case math.Abs(pt.n.Z) > 0.8:
		u, v = pt.p.X, pt.p.Y
	}
	b := s.im.Bounds()
	w, h := b.Dx(), b.Dy()
	fold := func(t float64, n int) int {
		k := int(math.Floor(t)) % (2 * n)
		if k < 0 {
			k += 2 * n
		}
		if k >= n {
			k = 2*n - 1 - k
		}
		return k
	}
	i := s.im.PixOffset(fold(s.x0+u*s.scale, w), fold(s.y0-v*s.scale, h))
	p := s.im.Pix
	return surface{albedo: srgb(float64(p[i]), float64(p[i+1]), float64(p[i+2])).mul(0.9), rough: s.rough, f0: 0.03, n: pt.n}
}

func (r Random) tex(size float64) shader {
	if len(r.Tex) == 0 {
		return r.paint()
	}
	im := r.Tex[r.IntN(len(r.Tex))]
	return &texShader{im, r.u(0, 500), r.u(0, 500), float64(im.Bounds().Dx()) / size * r.u(0.3, 1.2), 0, r.u(0.3, 1)}
}

// boards is a floor or wall of boards, tiles, bricks, stripes.
type tiled struct {
	w, h, gap  float64
	shift      float64
	a, b, line Vec
	vary, fine float64
	seed       uint32
	rough      float64
	swap       bool
	streak     bool
}

func (s *tiled) at(pt *point) surface {
	u, v := pt.p.X, pt.p.Z
	switch {
	case math.Abs(pt.n.X) > 0.8:
		u, v = pt.p.Y, pt.p.Z
	case math.Abs(pt.n.Z) > 0.8:
		u, v = pt.p.X, pt.p.Y
	}
	if s.swap {
		u, v = v, u
	}
	row := math.Floor(v / s.h)
	u2 := u + s.shift*s.w*float64(hash3(int32(row), 3, 5, s.seed)&255)/255
	col := math.Floor(u2 / s.w)
	k := float64(hash3(int32(row), int32(col), 9, s.seed)&1023) / 1023
	c := s.a.mix(s.b, k).mul(1 + s.vary*(k-0.5))
	if s.streak {
		c = c.mul(1 + 0.35*noise(u/260+k*50, v/9, k*30, s.seed) + 0.2*noise(u/60+k*50, v/2.5, k*30, s.seed+1)*clamp(3/pt.foot, 0, 1))
	} else {
		c = c.mul(1 + s.fine*(noise(u/23, v/23, 0.5, s.seed)+0.7*noise(u/300, v/300, 1.5, s.seed)))
	}
	du, dv := u2-col*s.w, v-row*s.h
	if du < s.gap || dv < s.gap {
		c = s.line
	}
	return surface{albedo: c, rough: s.rough, f0: 0.04, n: pt.n}
}

func (r Random) tiles(wall bool) shader {
	t := &tiled{seed: r.seed(), rough: r.u(0.3, 1), swap: r.p(0.5), vary: r.u(0, 0.5), fine: r.u(0, 0.3), gap: r.u(0, 6)}
	t.a = r.paint().albedo
	t.b = t.a.mix(r.paint().albedo, r.u(0, 0.3))
	t.line = t.a.mul(r.u(0.3, 1.2))
	switch k := r.IntN(6); {
	case k < 2: // boards
		w := r.wood()
		t.a, t.b, t.streak = w.Late, w.Early, true
		t.w, t.h, t.shift, t.gap = r.u(600, 2500), r.u(60, 200), 1, r.u(0.5, 4)
		t.line = w.Early.mul(0.4)
	case k == 2:
		t.w, t.h = r.u(100, 500), 0
		t.h = t.w * r.u(0.8, 1.2)
	case k == 3 && wall: // bricks
		t.w, t.h, t.shift, t.gap = 225, 72, 1, 10
		t.a, t.b = hsv(r.u(0, 0.08), r.u(0.3, 0.7), r.u(0.3, 0.7)), hsv(r.u(0, 0.08), r.u(0.3, 0.6), r.u(0.3, 0.8))
		t.line = srgb(170, 165, 158).mul(r.u(0.4, 1.1))
	case k == 4: // stripes
		t.w, t.h, t.gap = 1e6, r.u(30, 300), 0
	default: // plain, mottled
		t.w, t.h, t.gap = 1e6, 1e6, 0
		t.fine = r.u(0, 0.6)
	}
	return t
}
