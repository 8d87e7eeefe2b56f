package measure

import "math"

// Limits of what tells that the photo cuts the top.
const (
	hueGive    = 20.0 // degrees about the hue of the wood round the sheet
	leastHued  = 10.0 // chroma of a colour that has a hue
	leastCut   = 0.02 // of the photo's edge that has the wood's hue: less is a speck
	mostCut    = 0.40 // more is a floor of wood
	leastTouch = 10   // pixels of the copy along which it meets the top
)

// cutAtRim reports whether the photo cuts the top where its wood is paler or
// darker than round the sheet, so that it was taken for ground: a part of the
// photo's edge has the hue of the wood, most of the edge has not, and what has
// it hangs together from that edge to the top.
func (c *small) cutAtRim(mask []uint8, ring, seeds []int) bool {
	var a, b float64
	for _, i := range seeds {
		a, b = a+float64(c.a[i])/float64(len(seeds)), b+float64(c.b[i])/float64(len(seeds))
	}
	if math.Hypot(a, b) < leastHued {
		return false
	}
	cos := math.Cos(hueGive * math.Pi / 180)
	hued := func(i int) bool {
		u, v := float64(c.a[i]), float64(c.b[i])
		l := math.Hypot(u, v)
		return l >= leastHued && u*a+v*b >= cos*l*math.Hypot(a, b)
	}
	var stack []int
	seen := make([]bool, len(mask))
	for _, i := range ring {
		if hued(i) {
			seen[i] = true
			stack = append(stack, i)
		}
	}
	if n := float64(len(stack)) / float64(len(ring)); n < leastCut || n > mostCut {
		return false
	}
	touch := 0
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for _, j := range c.beside4(i) {
			switch {
			case j < 0:
			case mask[j] != 0:
				touch++
			case !seen[j] && hued(j):
				seen[j] = true
				stack = append(stack, j)
			}
		}
	}
	return touch >= leastTouch
}
