package measure

// Limits of a shine that hides what lies in it.
const (
	blownOut   = 250.0 // of 255, the lowest channel
	shineRim   = 4     // pixels of the copy across its rim
	shineFades = 215.0 // no darker is it there; a sheet that is blown out ends at its edge
	shineSoft  = 0.5   // of its rim is such
	shineLeast = 0.005 // of the photo
)

// hidden is what a refusal may come from where a shine hides the sheet, or a part of it.
var hidden = map[string]bool{"measure.no-sheet": true, "measure.sheet-cut": true, "measure.sheet-below": true, "measure.sheet-over": true, "measure.tilt": true}

// tellShine adds to such a refusal how much of the photo a shine has blown out to white.
func (j *job) tellShine(err error) {
	r, ok := err.(*Refusal)
	if !ok || !hidden[r.Code] {
		return
	}
	if v := j.copy.shine(); v >= shineLeast {
		if r.Values == nil {
			r.Values = map[string]float64{}
		}
		r.Values["shine"] = v
	}
}

// shine is the share of the copy that is blown out to white and fades into what lies
// round it, as the mirror image of a lamp or a window does.
func (c *small) shine() (share float64) {
	mask := above(c.low, blownOut)
	label, n := c.label(mask)
	area, rim, soft := make([]int, n+1), make([]int, n+1), make([]int, n+1)
	for i, k := range label {
		if k == 0 {
			continue
		}
		area[k]++
		x, y := i%c.w, i/c.w
		for _, d := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			u, v := x+shineRim*d[0], y+shineRim*d[1]
			if u < 0 || v < 0 || u >= c.w || v >= c.h || mask[(y+d[1])*c.w+x+d[0]] != 0 {
				continue
			}
			if rim[k]++; c.low[v*c.w+u] >= shineFades {
				soft[k]++
			}
		}
	}
	for k := 1; k <= n; k++ {
		if float64(soft[k]) >= shineSoft*float64(rim[k]) && rim[k] > 0 {
			share += float64(area[k]) / float64(len(mask))
		}
	}
	return share
}
