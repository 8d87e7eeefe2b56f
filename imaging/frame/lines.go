package frame

import (
	"math"
	"sync"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
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
	strength := spare.Take[float32](n)
	defer spare.Give(strength)
	clear(strength)
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

// mostLines is how many lines are looked for in one direction.
const mostLines = 24

// lines finds the straight edges by voting: each crest votes for the lines
// through it, the line with most votes is fitted by least squares, its crests
// are taken away, and so on.
func (c *labCopy) lines(upright bool) []line {
	v := newBallot(c, upright)
	var out []line
	for range mostLines {
		lean, at, ok := v.winner()
		if !ok {
			break
		}
		l, found := v.fitted(lean, at)
		v.takeAway(lean, at)
		if found {
			out = append(out, l)
		}
	}
	return out
}

// A ballot counts the votes of the crests for the lines through them.
type ballot struct {
	upright    bool
	long, wide int // of the photo, along the lines and across
	edges      []edge
	tan        []float64 // of the leans that are tried
	votes      [][]int32 // by lean, then by place across, moved by pad
	pad        int
}

func newBallot(c *labCopy, upright bool) *ballot {
	v := &ballot{upright: upright, long: c.w, wide: c.h, edges: c.crests(upright), tan: leans()}
	if upright {
		v.long, v.wide = c.h, c.w
	}
	v.votes = make([][]int32, len(v.tan))
	v.pad = int(float64(v.long)/2*math.Tan(steepest*math.Pi/180)) + 2
	for s, t := range v.tan {
		v.votes[s] = make([]int32, v.wide+2*v.pad)
		for _, e := range v.edges {
			v.votes[s][int(e.v-t*e.u+0.5)+v.pad]++
		}
	}
	return v
}

// winner is the line with most votes: the tangent of its lean and where it passes
// the middle; false where it has fewer than a fifth of the photo's pixels.
func (v *ballot) winner() (lean, at float64, ok bool) {
	bs, bk, best := 0, 0, int32(0)
	for s := range v.votes {
		for k := 1; k < len(v.votes[s])-1; k++ {
			if n := v.votes[s][k] + (v.votes[s][k-1]+v.votes[s][k+1])/2; n > best {
				bs, bk, best = s, k, n
			}
		}
	}
	return v.tan[bs], float64(bk - v.pad), float64(best) >= 0.2*float64(v.long)
}

// fitted is the line through the crests beside the winner, by least squares; false
// where they are few, cover little of its way, or make it too steep.
func (v *ballot) fitted(t, o float64) (line, bool) {
	var n, su, sv, suu, suv float64
	lo, hi := math.Inf(1), math.Inf(-1)
	seen := make([]bool, v.long)
	covered := 0
	for _, e := range v.edges {
		if d := e.v - t*e.u - o; d > -1.6 && d < 1.6 {
			n++
			su += e.u
			sv += e.v
			suu += e.u * e.u
			suv += e.u * e.v
			lo, hi = math.Min(lo, e.u), math.Max(hi, e.u)
			if k := int(e.u + float64(v.long)/2); !seen[k] {
				seen[k] = true
				covered++
			}
		}
	}
	den := n*suu - su*su
	long := float64(v.long)
	if n < 8 || den <= 0 || float64(covered) < 0.2*long {
		return line{}, false
	}
	slope := (n*suv - su*sv) / den
	lean := math.Atan(slope) * 180 / math.Pi
	if v.upright {
		lean = -lean // y grows downwards: x growing with y means the top leans left
	}
	if math.Abs(lean) > steepest {
		return line{}, false
	}
	return line{v.upright, lean, (sv - slope*su) / n / float64(v.wide), float64(covered) / long, lo/long + 0.5, hi/long + 0.5}, true
}

// takeAway takes the crests near the winner and their votes away.
func (v *ballot) takeAway(t, o float64) {
	keep := v.edges[:0]
	for _, e := range v.edges {
		if d := e.v - t*e.u - o; d > -2.6 && d < 2.6 {
			for s, ts := range v.tan {
				v.votes[s][int(e.v-ts*e.u+0.5)+v.pad]--
			}
			continue
		}
		keep = append(keep, e)
	}
	v.edges = keep
}
