package blend

// A mask is black and white and nothing else: no photo has less than one pixel in a
// hundred between the two, with as much as a twentieth of both. Thresholds found by
// trial on masks and frames.
const (
	darkTone   = 0.001 // linear light: 3 of 255 by the sRGB curve
	whiteTone  = 0.97  // 252 of 255
	leastTone  = 0.05  // of the picture, of either
	betweenTwo = 0.01  // of the picture
)

// leaveOutMasks leaves out the frames that are masks. In a bracket a frame may be
// black and white all over; there they stay.
func (j *job) leaveOutMasks() {
	if j.req.How == Bracket {
		return
	}
	for i := range j.looks {
		if j.looks[i].twoTone() {
			j.r.Frames[i].LeftOut = true
			j.note("blend.mask", map[string]float64{"frame": float64(i + 1)})
		}
	}
}

// twoTone reports whether a picture is black and white and nothing else. A small copy
// has greys where the two meet: what lies beside another tone does not count.
func (l *smallCopy) twoTone() bool {
	tone := func(v float32) int {
		switch {
		case v <= darkTone:
			return -1
		case v >= whiteTone:
			return 1
		}
		return 0
	}
	var count [3]int
	for y := 1; y < l.h-1; y++ {
		for x := 1; x < l.w-1; x++ {
			k := y*l.w + x
			t := tone(l.light[k])
			if t == 0 && meets(l, k, tone) {
				continue
			}
			count[t+1]++
		}
	}
	all := float64(count[0] + count[1] + count[2])
	return all > 0 && float64(count[1]) < betweenTwo*all && float64(count[0]) > leastTone*all && float64(count[2]) > leastTone*all
}

// meets reports whether black and white both lie around a place.
func meets(l *smallCopy, k int, tone func(float32) int) bool {
	black, white := false, false
	for _, d := range []int{-l.w - 1, -l.w, -l.w + 1, -1, 1, l.w - 1, l.w, l.w + 1} {
		switch tone(l.light[k+d]) {
		case -1:
			black = true
		case 1:
			white = true
		}
	}
	return black && white
}

// nearlyAll is a share of the light with which one frame of several leaves the others
// nothing to say.
const nearlyAll = 0.97

// tellOneForAll tells of a frame that gives nearly all of a blend.
func (j *job) tellOneForAll() {
	used := j.used()
	for _, i := range used {
		if s := j.r.Frames[i].Share; len(used) > 1 && s > nearlyAll {
			j.note("blend.one-for-all", map[string]float64{"frame": float64(i + 1), "share": s})
		}
	}
}
