package blend

import (
	"math"
	"slices"
)

// Limits of what is taken for a lamp, or its mirror image, in the view.
const (
	lampCore  = 0.93  // of white: it is blown out
	lampOther = 0.40  // of white: so bright no other frame is there
	lampLeast = 40e-6 // of the photo: what is smaller is a glint
	lampMost  = 0.05  // what is larger is no lamp
	lampReach = 7.0   // radii of the core that its glow is masked to, at most
	lampRim   = 4     // pixels of the copy across its rim
	lampFall  = 0.6   // of white: so far its light has fallen within them
	lampStep  = 1.4   // times: what the other frames may change by there; more is the outline of a thing
	lampSteep = 0.6   // of its rim is such
	glowSeen  = 1.3   // times the other frames, and glowLeast: what is no brighter shows no glow
	glowLeast = 0.004 // of white
	glowRing  = 0.1   // of the places as far from the lamp: as bright as the darkest of them its glow may be
	glowGive  = 1.25  // times that
)

// findLamps masks lamps: a blown-out spot in one frame where all others, or all
// but a few, are far from white, with the glow around it.
func (j *job) findLamps() {
	if j.req.How == Bracket {
		return // there it is the longer exposure
	}
	used := j.used()
	if len(used) < 3 {
		return // no other frame shows for sure what is behind
	}
	first, second := j.brightestTwo(used)
	lamps := make([][][]int, len(j.looks))
	near := make([][]bool, len(j.looks)) // where a frame with lamps may glow
	for _, i := range used {
		l := &j.looks[i]
		others := func(k int) float32 {
			if l.light[k] >= first[k] {
				return second[k]
			}
			return first[k]
		}
		lamps[i] = l.lamps(others, func(p, q int) bool { return j.plain(used, i, p, q) })
		near[i] = l.around(lamps[i])
	}
	for _, i := range used {
		if lamps[i] == nil {
			continue
		}
		// What is behind is shown by the frames in which no lamp stands beside it.
		behind := func(k int) float32 {
			any, clear := float32(0), float32(-1)
			for _, n := range used {
				if n == i {
					continue
				}
				v := j.looks[n].light[k]
				if any = max(any, v); near[n] == nil || !near[n][k] {
					clear = max(clear, v)
				}
			}
			if clear < 0 {
				return any
			}
			return clear
		}
		var share float64
		j.looks[i].lamp, share = j.looks[i].maskLamps(lamps[i], behind)
		j.r.Frames[i].Lamp = true
		j.note("blend.lamp", map[string]float64{"frame": float64(i + 1), "share": share})
	}
}

// brightestTwo is the brightest and the second brightest of all frames at every
// place of the copies. A camera that moved a few pixels has moved the copies by
// less than one.
func (j *job) brightestTwo(used []int) (first, second []float32) {
	n := len(j.looks[0].light)
	first, second = make([]float32, n), make([]float32, n)
	for _, i := range used {
		for k, v := range j.looks[i].light {
			switch {
			case v > first[k]:
				first[k], second[k] = v, first[k]
			case v > second[k]:
				second[k] = v
			}
		}
	}
	return first, second
}

// plain reports whether most other frames show nothing between two places: no
// outline and no step of colour.
func (j *job) plain(used []int, i, p, q int) bool {
	steps, n := 0, 0
	for _, k := range used {
		if k == i {
			continue
		}
		const dark = 0.004
		a, b := j.looks[k].light[p]+dark, j.looks[k].light[q]+dark
		if n++; max(a, b) > lampStep*min(a, b) {
			steps++
		}
	}
	return 2*steps < n
}

// steep reports whether a blown-out spot ends as a lamp does: at once, for most
// of its rim, and where the other frames show nothing that would end there. The
// lit face of a thing ends at its outline, and fades within it.
func (l *smallCopy) steep(blob []int, core []bool, plain func(p, q int) bool) bool {
	rim, steep := 0, 0
	for _, k := range blob {
		x, y := k%l.w, k/l.w
		for _, d := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			u, v := x+lampRim*d[0], y+lampRim*d[1]
			if u < 0 || v < 0 || u >= l.w || v >= l.h || core[(y+d[1])*l.w+x+d[0]] {
				continue
			}
			q := v*l.w + u
			if rim++; !core[q] && l.light[q] < lampFall && plain(k, q) {
				steep++
			}
		}
	}
	return float64(steep) >= lampSteep*float64(rim) && rim > 0
}

// lamps are the lamps of a frame, as the places of the copy that each blows out.
func (l *smallCopy) lamps(others func(int) float32, plain func(p, q int) bool) (out [][]int) {
	core := make([]bool, len(l.light))
	for k, v := range l.light {
		core[k] = v >= lampCore && others(k) < lampOther
	}
	seen := make([]bool, len(core))
	for s := range core {
		if !core[s] || seen[s] {
			continue
		}
		blob := l.blob(core, seen, s)
		if a := float64(len(blob)) / float64(len(core)); a >= lampLeast && a <= lampMost && l.steep(blob, core, plain) {
			out = append(out, blob)
		}
	}
	return out
}

// maskLamps is 1 on lamps and their glow, falling to 0, and says over what share of the
// frame; nil where there are none.
func (l *smallCopy) maskLamps(lamps [][]int, behind func(int) float32) (mask []float32, share float64) {
	if lamps == nil {
		return nil, 0
	}
	mask = make([]float32, len(l.light))
	for _, blob := range lamps {
		share += float64(l.glow(mask, blob, behind)) / float64(len(mask))
	}
	return mask, share
}

// around marks how far the glow of lamps may reach; nil where there are none.
func (l *smallCopy) around(lamps [][]int) []bool {
	if lamps == nil {
		return nil
	}
	out := make([]bool, len(l.light))
	for _, blob := range lamps {
		mx, my, r := l.disc(blob)
		l.eachNear(mx, my, lampReach*r, func(k int, _ float64) { out[k] = true })
	}
	return out
}

// eachNear calls do for each place less than r from (mx, my), with how far it is.
func (l *smallCopy) eachNear(mx, my, r float64, do func(k int, far float64)) {
	for y := max(int(my-r), 0); y <= min(int(my+r), l.h-1); y++ {
		for x := max(int(mx-r), 0); x <= min(int(mx+r), l.w-1); x++ {
			if far := math.Hypot(float64(x)-mx, float64(y)-my); far < r {
				do(y*l.w+x, far)
			}
		}
	}
}

// rings is how bright the glow of a lamp at (mx, my) may be, by the whole pixels from
// it, up to r: a glow lies all round it and only adds light, so it is no brighter than
// the darkest places of a ring, nor than nearer by.
func (l *smallCopy) rings(mx, my, r float64) []float32 {
	all := make([][]float32, int(r)+1)
	l.eachNear(mx, my, r, func(k int, far float64) { all[int(far)] = append(all[int(far)], l.light[k]) })
	out, last := make([]float32, len(all)), float32(1)
	for d, v := range all {
		if len(v) > 0 {
			slices.Sort(v)
			last = min(last, v[int(glowRing*float64(len(v)))])
		}
		out[d] = last
	}
	return out
}

// disc is the middle of a blob and the radius of a disc as large, and one more.
func (l *smallCopy) disc(blob []int) (mx, my, r float64) {
	for _, k := range blob {
		mx, my = mx+float64(k%l.w)/float64(len(blob)), my+float64(k/l.w)/float64(len(blob))
	}
	return mx, my, math.Sqrt(float64(len(blob))/math.Pi) + 1
}

func (l *smallCopy) blob(core, seen []bool, s int) []int {
	list := []int{s}
	seen[s] = true
	for k := 0; k < len(list); k++ {
		x, y := list[k]%l.w, list[k]/l.w
		for dy := -1; dy <= 1; dy++ {
			for dx := -1; dx <= 1; dx++ {
				if x+dx < 0 || y+dy < 0 || x+dx >= l.w || y+dy >= l.h {
					continue
				}
				if q := (y+dy)*l.w + x + dx; core[q] && !seen[q] {
					seen[q] = true
					list = append(list, q)
				}
			}
		}
	}
	return list
}

// glow grows the mask from a blob to where the frame is still clearly brighter
// than the others, and fades it out over a few pixels. It returns its area.
func (l *smallCopy) glow(mask []float32, blob []int, others func(int) float32) int {
	mx, my, r := l.disc(blob)
	in := make(map[int]bool, len(blob))
	list := append([]int{}, blob...)
	for _, k := range blob {
		in[k] = true
	}
	for n := 0; n < len(list); n++ {
		x, y := list[n]%l.w, list[n]/l.w
		for _, d := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			u, v := x+d[0], y+d[1]
			if u < 0 || v < 0 || u >= l.w || v >= l.h || in[v*l.w+u] {
				continue
			}
			q := v*l.w + u
			far := math.Hypot(float64(u)-mx, float64(v)-my)
			near := far < r+3 // the rim of the spot itself
			if near || far < lampReach*r && l.light[q] > glowSeen*others(q)+glowLeast && l.light[q] <= l.light[list[n]]*1.05 {
				in[q] = true
				list = append(list, q)
			}
		}
	}
	// Over a lit place the glow is not seen, and beyond it is again.
	rings := l.rings(mx, my, lampReach*r)
	l.eachNear(mx, my, lampReach*r, func(q int, far float64) {
		if v := l.light[q]; !in[q] && v > glowSeen*others(q)+glowLeast && v <= glowGive*rings[int(far)]+others(q) {
			in[q] = true
			list = append(list, q)
		}
	})
	const fade = 3
	for _, k := range list {
		x, y := k%l.w, k/l.w
		for dy := -fade; dy <= fade; dy++ {
			for dx := -fade; dx <= fade; dx++ {
				u, v := x+dx, y+dy
				if u < 0 || v < 0 || u >= l.w || v >= l.h {
					continue
				}
				d := math.Hypot(float64(dx), float64(dy))
				if w := float32(1 - d/(fade+1)); w > mask[v*l.w+u] {
					mask[v*l.w+u] = w
				}
			}
		}
	}
	return len(list)
}
