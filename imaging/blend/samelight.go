package blend

import (
	"cmp"
	"math"
	"slices"
)

// Limits of frames that differ in nothing but their exposure.
const (
	exposedApart = 1.4  // times the light of the next darker frame, at half of the places, in half of the frames: where most is white already, a longer exposure changes little
	exposedLevel = 24   // levels of the darker frame, each of as many places
	exposedGive  = 0.17 // stops that the brighter frame may be off what the darker one tells, at half of the places: 0.02 to 0.15 in real brackets
	exposedSeen  = 0.10 // of the picture has to be neither black nor white in both, or the two tell nothing
	exposedDark  = 0.002
	exposedWhite = 0.85
)

// exposedOnly reports whether the frames differ in nothing but their exposure: sorted by
// their light, the light of each is told at nearly every place by that of the next
// darker one, through one curve. A lamp that moved breaks that: what it lit before it
// lights no more. times is how much more light the brightest has than the darkest.
func (j *job) exposedOnly() (times float64, ok bool) {
	list := j.used()
	slices.SortFunc(list, func(a, b int) int { return cmp.Compare(j.looks[a].mean, j.looks[b].mean) })
	told, farther := 0, 0
	for k := 1; k < len(list); k++ {
		off, apart, known := j.followed(list[k-1], list[k])
		if !known { // black or white nearly all over
			continue
		}
		if off > exposedGive {
			return 0, false
		}
		if told++; apart >= math.Log2(exposedApart) {
			farther++
		}
	}
	times = j.looks[list[len(list)-1]].mean / math.Max(j.looks[list[0]].mean, 1e-6)
	return times, times >= exposedApart && told > 0 && 2*told >= len(list)-1 && 2*farther >= told // three lamps of nearly one light are no exposures
}

// followed is how far, in stops, the light of frame b is off what that of frame a tells,
// and how much brighter it is, each at half of the places where both show something;
// known is false where these are too few.
func (j *job) followed(a, b int) (off, apart float64, known bool) {
	p, w, h := halved(j.looks[a].light, j.looks[a].w, j.looks[a].h)
	q, _, _ := halved(j.looks[b].light, j.looks[b].w, j.looks[b].h)
	scale := float64(w) / float64(j.w)
	fa, fb := &j.r.Frames[a], &j.r.Frames[b]
	dx, dy := int(math.Round((fb.ShiftX-fa.ShiftX)*scale)), int(math.Round((fb.ShiftY-fa.ShiftY)*scale))
	type place struct{ dark, bright float64 }
	var all []place
	for y := max(0, -dy); y < min(h, h-dy); y++ {
		for x := max(0, -dx); x < min(w, w-dx); x++ {
			u, v := float64(p[y*w+x]), float64(q[(y+dy)*w+x+dx])
			if u > exposedDark && v < exposedWhite && v > exposedDark {
				all = append(all, place{u, math.Log2(v)})
			}
		}
	}
	if float64(len(all)) < exposedSeen*float64(w*h) {
		return 0, 0, false
	}
	var step []float64
	for _, t := range all {
		step = append(step, t.bright-math.Log2(t.dark))
	}
	slices.SortFunc(all, func(a, b place) int { return cmp.Compare(a.dark, b.dark) })
	var dev []float64
	for k := range exposedLevel {
		level := all[k*len(all)/exposedLevel : (k+1)*len(all)/exposedLevel]
		var v []float64
		for _, t := range level {
			v = append(v, t.bright)
		}
		if len(v) == 0 {
			continue
		}
		mid := medianOf(v)
		for _, x := range v {
			dev = append(dev, math.Abs(x-mid))
		}
	}
	return medianOf(dev), medianOf(step), true
}
