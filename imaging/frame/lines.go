package frame

import (
	"math"
	"sync"

	"slabfolio/imaging/pixel"
)

// A line is a long straight edge near the level or the plumb line.
type line struct {
	upright bool
	lean    float64 // degrees: for a level line how far it drops to the right, for an upright one how far its top leans to the right
	mid     float64 // where it crosses the middle of the photo, in shares: y of a level line, x of an upright one
	length  float64 // of its edge pixels, as a share of the photo's width or height
	from    float64 // first and last edge pixel along it, shares
	to      float64
}

const (
	steepest = 4.0 // degrees; lines that lean more are not taken for level or upright
	leanStep = 0.1
)

// leans are the slopes that votes are counted for, -steepest to steepest.
var leans = sync.OnceValue(func() []float64 {
	t := make([]float64, int(2*steepest/leanStep)+1)
	for s := range t {
		t[s] = math.Tan((float64(s)*leanStep - steepest) * math.Pi / 180)
	}
	return t
})

// An edge is a pixel on the crest of a contrast: u along the line to be found,
// from the middle of the photo, v across.
type edge struct{ u, v float64 }

// crests lists the pixels whose contrast across is strong, higher than beside
// them, and within a few degrees of straight across.
func (c *labCopy) crests(upright bool) []edge {
	const weakest = 10 // L*, Sobel over 2
	limit := float32(math.Tan((steepest + 2) * math.Pi / 180))
	along, across := 1, c.w
	long := c.w
	if upright {
		along, across, long = c.w, 1, c.h
	}
	n := c.w * c.h
	strength := make([]float32, n)
	for y := 1; y < c.h-1; y++ {
		for i := y*c.w + 1; i < (y+1)*c.w-1; i++ {
			l := c.l
			strength[i] = l[i+across] - l[i-across] + (l[i+across-along]-l[i-across-along]+l[i+across+along]-l[i-across+along])/2
		}
	}
	var edges []edge
	for y := 2; y < c.h-2; y++ {
		for x := 2; x < c.w-2; x++ {
			i := y*c.w + x
			m := strength[i]
			if m < 0 {
				m = -m
			}
			if m <= weakest || m < pixel.Abs(strength[i-across]) || m <= pixel.Abs(strength[i+across]) {
				continue
			}
			l := c.l
			ga := l[i+along] - l[i-along] + (l[i+along-across]-l[i-along-across]+l[i+along+across]-l[i-along+across])/2
			if pixel.Abs(ga) >= limit*m+1.5 {
				continue
			}
			u, v := float64(x), float64(y)
			if upright {
				u, v = v, u
			}
			edges = append(edges, edge{u - float64(long)/2, v})
		}
	}
	return edges
}

// lines finds the straight edges by voting: each crest votes for the lines
// through it, the line with most votes is fitted by least squares, its crests
// are taken away, and so on.
func (c *labCopy) lines(upright bool) []line {
	edges := c.crests(upright)
	long, wide := c.w, c.h
	if upright {
		long, wide = c.h, c.w
	}
	tan := leans()
	votes := make([][]int32, len(tan))
	pad := int(float64(long)/2*math.Tan(steepest*math.Pi/180)) + 2
	for s, t := range tan {
		votes[s] = make([]int32, wide+2*pad)
		for _, e := range edges {
			votes[s][int(e.v-t*e.u+0.5)+pad]++
		}
	}
	var out []line
	for range 24 {
		bs, bk, best := 0, 0, int32(0)
		for s := range votes {
			for k := 1; k < len(votes[s])-1; k++ {
				if n := votes[s][k] + (votes[s][k-1]+votes[s][k+1])/2; n > best {
					bs, bk, best = s, k, n
				}
			}
		}
		if float64(best) < 0.2*float64(long) {
			break
		}
		// refine: least squares through the edge pixels beside the line
		t := tan[bs]
		o := float64(bk - pad)
		var n, su, sv, suu, suv float64
		lo, hi := math.Inf(1), math.Inf(-1)
		seen := make([]bool, long)
		for _, e := range edges {
			if d := e.v - t*e.u - o; d > -1.6 && d < 1.6 {
				n++
				su += e.u
				sv += e.v
				suu += e.u * e.u
				suv += e.u * e.v
				lo, hi = math.Min(lo, e.u), math.Max(hi, e.u)
				seen[int(e.u+float64(long)/2)] = true
			}
		}
		covered := 0
		for _, b := range seen {
			if b {
				covered++
			}
		}
		// take these edges and their votes away
		keep := edges[:0]
		for _, e := range edges {
			if d := e.v - t*e.u - o; d > -2.6 && d < 2.6 {
				for s, ts := range tan {
					votes[s][int(e.v-ts*e.u+0.5)+pad]--
				}
				continue
			}
			keep = append(keep, e)
		}
		edges = keep
		den := n*suu - su*su
		if n < 8 || den <= 0 || float64(covered) < 0.2*float64(long) {
			continue
		}
		slope := (n*suv - su*sv) / den
		lean := math.Atan(slope) * 180 / math.Pi
		if upright {
			lean = -lean // y grows downwards: x growing with y means the top leans left
		}
		if math.Abs(lean) > steepest {
			continue
		}
		out = append(out, line{upright, lean, (sv - slope*su) / n / float64(wide), float64(covered) / float64(long),
			lo/float64(long) + 0.5, hi/float64(long) + 0.5})
	}
	return out
}
