package tone

import (
	"cmp"
	"math"
	"slices"

	"slabfolio/imaging/pixel"
)

// What makes a photo one that is tinted all over. Daylight and lamps that glow
// differ along the blue-yellow axis, see mostAlong; what is green or magenta in
// its brightest parts as well as in every other one was lit by another lamp, set
// wrong in the camera, or is of that colour from edge to edge.
const (
	tintedAt  = 0.15 // stops of green against the mean of red and blue, either way
	tintedAll = 0.95 // share of the pixels that are as far off
	tintedTop = 0.05 // share of the brightest pixels, of which all but a tenth have to be
	mostWarm  = 1.2  // stops between red and blue: beyond it is a colour and no tint
	tintDark  = 0.01 // linear: darker pixels say nothing
	tintHot   = 0.97 // nor do those that are blown out
	tintLeast = 500  // pixels
)

// tintOf is by how many stops all of a photo is off the line of common lights: its
// middle, negative where it is green, positive where it is magenta; 0 where not
// all of it is.
func tintOf(m *pixel.Image) float64 {
	// Most photos are not off the line: counting tells that before anything is kept.
	n, green, magenta := 0, 0, 0
	eachTint(m, func(_ float64, t [2]float64) {
		n++
		switch a := across(t); {
		case a <= -tintedAt:
			green++
		case a >= tintedAt:
			magenta++
		}
	})
	last := float64(n - 1)
	if n < tintLeast || green <= int(tintedAll*last) && magenta < n-int((1-tintedAll)*last) {
		return 0
	}
	type sample struct{ bright, across float64 }
	all, warm := make([]sample, 0, n), make([]float64, 0, n)
	eachTint(m, func(bright float64, t [2]float64) {
		all, warm = append(all, sample{bright, across(t)}), append(warm, along(t))
	})
	slices.SortFunc(all, func(a, b sample) int { return cmp.Compare(b.bright, a.bright) })
	off := func(of []sample) []float64 {
		v := make([]float64, len(of))
		for i, s := range of {
			v[i] = s.across
		}
		slices.Sort(v)
		return v
	}
	every, top := off(all), off(all[:int(tintedTop*float64(len(all)))])
	slices.Sort(warm)
	if math.Abs(warm[len(warm)/2]) > mostWarm {
		return 0
	}
	at := func(v []float64, share float64) float64 { return v[int(share*float64(len(v)-1))] }
	switch {
	case at(every, tintedAll) <= -tintedAt && at(top, 0.9) <= -tintedAt, at(every, 1-tintedAll) >= tintedAt && at(top, 0.1) >= tintedAt:
		return at(every, 0.5)
	}
	return 0
}

// eachTint goes over about 200 pixels across: the brightness of each that is neither
// dark nor blown out, linear, and its colour in stops of red and blue over green.
func eachTint(m *pixel.Image, do func(bright float64, t [2]float64)) {
	step := max(1, max(m.W, m.H)/200)
	for y := step / 2; y < m.H; y += step {
		row := m.Row(y)
		for x := step / 2; x < m.W; x += step {
			r, g, b := float64(row[3*x])/65535, float64(row[3*x+1])/65535, float64(row[3*x+2])/65535
			bright := 0.2126*r + 0.7152*g + 0.0722*b
			if bright < tintDark || max(r, g, b) > tintHot {
				continue
			}
			do(bright, [2]float64{math.Log2(max(r, 1e-4) / max(g, 1e-4)), math.Log2(max(b, 1e-4) / max(g, 1e-4))})
		}
	}
}
