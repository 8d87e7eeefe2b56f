package frame

import "math"

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

// lines finds the straight edges by voting: each edge pixel whose gradient
// points within a few degrees of up (or sideways) votes for the lines through it.
func (c *labCopy) lines(upright bool) []line {
	type edge struct {
		u, v float64 // along and across
		g    float64
	}
	var edges []edge
	long, wide := c.w, c.h
	if upright {
		long, wide = c.h, c.w
	}
	const weakest = 5 // L* over two pixels
	limit := math.Tan((steepest + 2) * math.Pi / 180)
	for y := 1; y < c.h-1; y++ {
		for x := 1; x < c.w-1; x++ {
			i := y*c.w + x
			gx := float64(c.l[i+1] - c.l[i-1] + (c.l[i+1-c.w]-c.l[i-1-c.w]+c.l[i+1+c.w]-c.l[i-1+c.w])/2)
			gy := float64(c.l[i+c.w] - c.l[i-c.w] + (c.l[i+c.w-1]-c.l[i-c.w-1]+c.l[i+c.w+1]-c.l[i-c.w+1])/2)
			u, v, ga, gc := float64(x), float64(y), gx, gy
			if upright {
				u, v, ga, gc = float64(y), float64(x), gy, gx
			}
			if m := math.Abs(gc); m > 2*weakest && math.Abs(ga) < limit*m+1.5 {
				edges = append(edges, edge{u - float64(long)/2, v, m})
			}
		}
	}
	steps := int(2*steepest/leanStep) + 1
	votes := make([][]int32, steps)
	pad := int(float64(long)/2*math.Tan(steepest*math.Pi/180)) + 2
	for s := range votes {
		votes[s] = make([]int32, wide+2*pad)
		t := math.Tan((float64(s)*leanStep - steepest) * math.Pi / 180)
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
		t := math.Tan((float64(bs)*leanStep - steepest) * math.Pi / 180)
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
				for s := range votes {
					ts := math.Tan((float64(s)*leanStep - steepest) * math.Pi / 180)
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
