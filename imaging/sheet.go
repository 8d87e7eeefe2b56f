package imaging

import (
	"slices"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/measure"
	"slabfolio/imaging/pixel"
)

// SheetOnTop measures the top in the photo by a sheet of paper that lies on it, roughly,
// on the reduced copy: length and width in mm. ok is false where no such sheet, or no
// outline of a top round it, is seen, as in every photo that was not taken to measure by.
// It looks closely only where something pale lies within the photo.
func (p *Photo) SheetOnTop() (length, width float64, ok bool) {
	if p.small == nil || !p.pale {
		return 0, 0, false
	}
	r, err := measure.Top(measure.Request{Photo: p.small, Focal35: p.Facts.FocalLength35})
	if err != nil || r.Sheet == nil {
		return 0, 0, false
	}
	return r.Length.Value, r.Width.Value, true
}

// What may be a sheet on a top, on a copy of paleSide pixels: as pale as palest of the
// palest hundredth in the channel that wood is weakest in, of so much of the photo, as
// full as fullest of the box round it, and off the rim. Set so that every sheet of the
// tests' photos passes.
const (
	paleSide = 128
	palest   = 0.7
	leastOf  = 0.008
	mostOf   = 0.35
	fullest  = 0.45
)

// paleWithin reports whether something that can be a sheet lies within the photo. It is a
// quick look, and a white cup passes too.
func paleWithin(m *pixel.Image) bool {
	w, h := pixel.FitWithin(m.W, m.H, paleSide, paleSide)
	low := make([]float64, w*h)
	for y := range h {
		for x := range w {
			i := 3 * (y*m.H/h*m.W + x*m.W/w)
			low[y*w+x] = colour.Encode(float64(min(m.Pix[i], m.Pix[i+1], m.Pix[i+2])) / 65535)
		}
	}
	sorted := slices.Sorted(slices.Values(low))
	limit := palest * sorted[len(sorted)*99/100]
	seen := make([]bool, w*h)
	for i := range low {
		if seen[i] || low[i] < limit {
			continue
		}
		area, rim, x0, x1, y0, y1 := 0, false, w, 0, h, 0
		seen[i] = true
		for stack := []int{i}; len(stack) > 0; {
			k := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			x, y := k%w, k/w
			area++
			x0, x1, y0, y1 = min(x0, x), max(x1, x), min(y0, y), max(y1, y)
			if x == 0 || y == 0 || x == w-1 || y == h-1 {
				rim = true
				continue
			}
			for _, n := range []int{k - 1, k + 1, k - w, k + w} {
				if !seen[n] && low[n] >= limit {
					seen[n], stack = true, append(stack, n)
				}
			}
		}
		part := float64(area) / float64(w*h)
		if !rim && part >= leastOf && part <= mostOf && float64(area) >= fullest*float64((x1-x0+1)*(y1-y0+1)) {
			return true
		}
	}
	return false
}
