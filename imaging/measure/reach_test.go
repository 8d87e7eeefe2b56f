package measure

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Truth: the straight distance to the nearest pixel of the mask, counted out. Steps of
// 1 and √2 never make it shorter, and longer by 8.24 % at most: √(1 + (√2−1)²), the octagon
// about the circle. Pictures of one row, one column and one pixel have edges alone.
func TestReachIsADistance(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 86))
	most := math.Sqrt(1 + math.Pow(math.Sqrt2-1, 2))
	for _, size := range [][2]int{{1, 1}, {1, 40}, {40, 1}, {61, 43}, {43, 61}} {
		c := &small{w: size[0], h: size[1]}
		mask := make([]uint8, c.w*c.h)
		mask[r.IntN(len(mask))] = 1
		for range 3 {
			mask[r.IntN(len(mask))] = 1
		}
		for i, got := range c.reach(mask) {
			want := math.Inf(1)
			for j, v := range mask {
				if v != 0 {
					want = min(want, math.Hypot(float64(i%c.w-j%c.w), float64(i/c.w-j/c.w)))
				}
			}
			if float64(got) < want*0.9999 || float64(got) > want*most*1.0001 {
				t.Fatalf("%d × %d, pixel %d: %g, straight %g", c.w, c.h, i, got, want)
			}
		}
	}
}
