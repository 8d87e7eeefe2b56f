package colour

import "math"

// Lab is a CIE 1976 L*a*b* colour relative to D50, the white of ICC profiles and
// of printed colour targets.
type Lab struct{ L, A, B float64 }

var srgbToD50 = d65ToD50.Times(srgbToXYZ)

// LinearToLab returns the L*a*b* (D50) of a colour in linear sRGB, 1 being white.
func LinearToLab(r, g, b float64) Lab {
	return xyzToLab(srgbToD50.Apply([3]float64{r, g, b}), d50)
}

// Linear16ToLab returns the L*a*b* (D50) of a colour in 16-bit linear sRGB.
func Linear16ToLab(r, g, b uint16) Lab {
	return LinearToLab(float64(r)/65535, float64(g)/65535, float64(b)/65535)
}

// Linear returns the linear sRGB of c; it may lie outside 0…1.
func (c Lab) Linear() (r, g, b float64) {
	fy := (c.L + 16) / 116
	inv := func(t float64) float64 {
		if t > 24.0/116 {
			return t * t * t
		}
		return (t - 16.0/116) * 108 / 841
	}
	xyz := [3]float64{d50[0] * inv(fy+c.A/500), d50[1] * inv(fy), d50[2] * inv(fy-c.B/200)}
	v := XYZToSRGB.Times(d50ToD65).Apply(xyz)
	return v[0], v[1], v[2]
}

// xyzToLab returns the L*a*b* of XYZ relative to white (CIE 15).
func xyzToLab(xyz, white [3]float64) Lab {
	f := func(t float64) float64 {
		if t > (24.0/116)*(24.0/116)*(24.0/116) {
			return math.Cbrt(t)
		}
		return t*841/108 + 16.0/116
	}
	x, y, z := f(xyz[0]/white[0]), f(xyz[1]/white[1]), f(xyz[2]/white[2])
	return Lab{float64(116*y) - 16, 500 * (x - y), 200 * (y - z)}
}

// DeltaE2000 is the CIEDE2000 colour difference, all weights 1 (Sharma, Wu and
// Dalal, Color Research and Application 30(1), 2005).
func DeltaE2000(p, q Lab) float64 {
	const deg = math.Pi / 180
	pow7 := func(v float64) float64 { return v * v * v * v * v * v * v }
	k := pow7(25)
	cm := pow7((math.Hypot(p.A, p.B) + math.Hypot(q.A, q.B)) / 2)
	g := 0.5 * (1 - math.Sqrt(cm/(cm+k)))
	a1, a2 := p.A*(1+g), q.A*(1+g)
	c1, c2 := math.Hypot(a1, p.B), math.Hypot(a2, q.B)
	h1, h2 := hue(a1, p.B), hue(a2, q.B)

	dh, hm := h2-h1, h1+h2
	// The tolerance keeps hues exactly opposite on the branch of the paper's table.
	far := math.Abs(dh) > 180+1e-9
	switch {
	case c1*c2 == 0:
		dh = 0
	case !far:
		hm /= 2
	default:
		if dh > 0 {
			dh -= 360
		} else {
			dh += 360
		}
		if hm < 360 {
			hm = (hm + 360) / 2
		} else {
			hm = (hm - 360) / 2
		}
	}
	dL, dC := q.L-p.L, c2-c1
	dH := 2 * math.Sqrt(c1*c2) * math.Sin(dh/2*deg)
	lm, cmean := (p.L+q.L)/2, (c1+c2)/2
	t := 1 - 0.17*math.Cos((hm-30)*deg) + 0.24*math.Cos(2*hm*deg) + 0.32*math.Cos((3*hm+6)*deg) - 0.20*math.Cos((4*hm-63)*deg)
	sl := 1 + 0.015*(lm-50)*(lm-50)/math.Sqrt(20+(lm-50)*(lm-50))
	sc, sh := 1+0.045*cmean, 1+0.015*cmean*t
	c7 := pow7(cmean)
	w := (hm - 275) / 25
	rt := -math.Sin(60*deg*math.Exp(-w*w)) * 2 * math.Sqrt(c7/(c7+k))
	l, c, h := dL/sl, dC/sc, dH/sh
	return math.Sqrt(max(0, l*l+c*c+h*h+rt*c*h))
}

// hue is the angle of (a, b) in degrees, 0 to 360; 0 for grey.
func hue(a, b float64) float64 {
	if a == 0 && b == 0 {
		return 0
	}
	h := math.Atan2(b, a) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	return h
}
