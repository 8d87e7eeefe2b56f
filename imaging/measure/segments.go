package measure

import (
	"cmp"
	"math"
	"slices"
)

// An edgeLine is a straight edge of the copy: it runs through At along Dir, with
// the brighter side on the right of Dir (y grows downwards), and is seen on the
// stretches in Runs.
type edgeLine struct {
	at, dir Point
	runs    [][2]float64 // along dir, from at; sorted, apart
	seen    float64      // their total length
	weight  float64      // seen × mean contrast
	border  bool         // an edge of the photo itself
}

// Limits of the search, in pixels of the copy.
const (
	leastRun    = 9.0 // of an edge to count
	leastSlope  = 4.0 // of the coded value, a pixel
	mostLines   = 220
	alongToler  = 0.02 // tangent between two stretches of one line
	acrossToler = 1.8
)

// lines finds the straight edges: pixels with a strong slope grow into
// stretches of one direction (after the idea of Burns, Hanson and Riseman,
// "Extracting Straight Lines", IEEE PAMI 8(4), 1986), stretches that continue
// one another make a line.
func (c *small) lines() []edgeLine {
	gx, gy, mag := c.slopes()
	order := make([]int32, 0, len(mag)/8)
	for i, v := range mag {
		if v >= leastSlope {
			order = append(order, int32(i))
		}
	}
	slices.SortFunc(order, func(a, b int32) int {
		return cmp.Or(cmp.Compare(mag[b], mag[a]), cmp.Compare(a, b))
	})
	used := make([]bool, len(mag))
	var out []edgeLine
	for _, i := range order {
		if !used[i] {
			out = c.stretches(out, c.grow(int(i), gx, gy, mag, used), gx, gy, mag, 0)
		}
	}
	return joined(out)
}

// slopes is the gradient of low by the 3 × 3 kernel of Scharr.
func (c *small) slopes() (gx, gy, mag []float32) {
	n := c.w * c.h
	gx, gy, mag = make([]float32, n), make([]float32, n), make([]float32, n)
	p, w := c.low, c.w
	for y := 1; y < c.h-1; y++ {
		for x := 1; x < w-1; x++ {
			i := y*w + x
			dx := 3*(p[i-w+1]-p[i-w-1]) + 10*(p[i+1]-p[i-1]) + 3*(p[i+w+1]-p[i+w-1])
			dy := 3*(p[i+w-1]-p[i-w-1]) + 10*(p[i+w]-p[i-w]) + 3*(p[i+w+1]-p[i-w+1])
			gx[i], gy[i] = dx/32, dy/32
			mag[i] = float32(math.Sqrt(float64(gx[i]*gx[i] + gy[i]*gy[i])))
		}
	}
	return gx, gy, mag
}

// stretches fits a stretch to a patch of edge pixels, or several where the patch
// bends: it is parted where it stands off its axis most.
func (c *small) stretches(out []edgeLine, list []int, gx, gy, mag []float32, depth int) []edgeLine {
	if len(list) < leastRun {
		return out
	}
	var sx, sy float64
	for _, i := range list {
		sx, sy = sx+float64(gx[i]), sy+float64(gy[i])
	}
	s, at, off := c.fitStretch(list, sx, sy, mag)
	if off > 1.8 && depth < 6 {
		var a, b []int
		for _, i := range list {
			if u := (float64(i%c.w)+0.5-s.at.X)*s.dir.X + (float64(i/c.w)+0.5-s.at.Y)*s.dir.Y; u < at {
				a = append(a, i)
			} else {
				b = append(b, i)
			}
		}
		if len(a) > 0 && len(b) > 0 {
			return c.stretches(c.stretches(out, a, gx, gy, mag, depth+1), b, gx, gy, mag, depth+1)
		}
	}
	if s.seen < leastRun || off > 0.2*s.seen {
		return out
	}
	return append(out, s)
}

// grow gathers the pixels around i whose slope points the same way.
func (c *small) grow(i int, gx, gy, mag []float32, used []bool) []int {
	const like = 0.924 // cosine of 22.5°
	sx, sy := float64(gx[i]), float64(gy[i])
	list := []int{i}
	used[i] = true
	for k := 0; k < len(list); k++ {
		x, y := list[k]%c.w, list[k]/c.w
		for dy := -1; dy <= 1; dy++ {
			for dx := -1; dx <= 1; dx++ {
				if x+dx < 1 || x+dx >= c.w-1 || y+dy < 1 || y+dy >= c.h-1 {
					continue
				}
				j := (y+dy)*c.w + x + dx
				if used[j] || mag[j] < leastSlope {
					continue
				}
				dot := sx*float64(gx[j]) + sy*float64(gy[j])
				if dot < like*math.Hypot(sx, sy)*float64(mag[j]) {
					continue
				}
				used[j] = true
				list = append(list, j)
				sx, sy = sx+float64(gx[j]), sy+float64(gy[j])
			}
		}
	}
	return list
}

// fitStretch is the axis of a patch of edge pixels, weighed by their slope, and
// the place along it where the patch stands off the chord between its ends most,
// on average over a sixteenth of its length.
func (c *small) fitStretch(list []int, sx, sy float64, mag []float32) (s edgeLine, at, off float64) {
	var n, mx, my float64
	for _, i := range list {
		v := float64(mag[i])
		n, mx, my = n+v, mx+v*(float64(i%c.w)+0.5), my+v*(float64(i/c.w)+0.5)
	}
	mx, my = mx/n, my/n
	var xx, xy, yy float64
	for _, i := range list {
		v, dx, dy := float64(mag[i]), float64(i%c.w)+0.5-mx, float64(i/c.w)+0.5-my
		xx, xy, yy = xx+v*dx*dx, xy+v*dx*dy, yy+v*dy*dy
	}
	phi := math.Atan2(2*xy, xx-yy) / 2
	dir := Point{X: math.Cos(phi), Y: math.Sin(phi)}
	if dir.X*sy-dir.Y*sx < 0 { // the brighter side, where the slope points, is to be on the right
		dir = Point{X: -dir.X, Y: -dir.Y}
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, i := range list {
		u := (float64(i%c.w)+0.5-mx)*dir.X + (float64(i/c.w)+0.5-my)*dir.Y
		lo, hi = math.Min(lo, u), math.Max(hi, u)
	}
	const bins = 16
	var sum, weight [bins]float64
	for _, i := range list {
		dx, dy, v := float64(i%c.w)+0.5-mx, float64(i/c.w)+0.5-my, float64(mag[i])
		k := min(int((dx*dir.X+dy*dir.Y-lo)/math.Max(hi-lo, 1e-9)*bins), bins-1)
		sum[k], weight[k] = sum[k]+v*(dx*dir.Y-dy*dir.X), weight[k]+v
	}
	first, last := -1, 0
	for k := range sum {
		if weight[k] > 0 {
			if sum[k] /= weight[k]; first < 0 {
				first = k
			}
			last = k
		}
	}
	for k := first; k <= last; k++ {
		chord := sum[first] + (sum[last]-sum[first])*float64(k-first)/float64(max(last-first, 1))
		if d := math.Abs(sum[k] - chord); weight[k] > 0 && d > off {
			off, at = d, lo+(hi-lo)*(float64(k)+0.5)/bins
		}
	}
	s = edgeLine{at: Point{X: mx, Y: my}, dir: dir, runs: [][2]float64{{lo, hi}}, seen: hi - lo, weight: (hi - lo) * n / float64(len(list))}
	return s, at, off
}

// joined puts stretches of one line together, the heaviest first, and keeps the
// heaviest lines.
func joined(list []edgeLine) []edgeLine {
	byWeight := func(a, b edgeLine) int { return cmp.Compare(b.weight, a.weight) }
	slices.SortStableFunc(list, byWeight)
	if len(list) > 3*mostLines {
		list = list[:3*mostLines]
	}
	var out []edgeLine
	taken := make([]bool, len(list))
	for i := range list {
		if taken[i] {
			continue
		}
		l := list[i]
		for k := i + 1; k < len(list); k++ {
			if !taken[k] && l.continuedBy(list[k]) {
				taken[k] = true
				l.add(list[k])
			}
		}
		l.mergeRuns()
		out = append(out, l)
	}
	slices.SortStableFunc(out, byWeight)
	return out[:min(len(out), mostLines)]
}

// continuedBy reports whether s continues l.
func (l *edgeLine) continuedBy(s edgeLine) bool {
	if l.dir.X*s.dir.X+l.dir.Y*s.dir.Y < 0.95 {
		return false
	}
	if math.Abs(l.dir.X*s.dir.Y-l.dir.Y*s.dir.X) > alongToler+0.8/math.Min(s.seen, l.seen) {
		return false
	}
	dx, dy := s.at.X-l.at.X, s.at.Y-l.at.Y
	off, along := math.Abs(dx*l.dir.Y-dy*l.dir.X), math.Abs(dx*l.dir.X+dy*l.dir.Y)
	return off < acrossToler+0.006*along && along < 6*(l.seen+s.seen)
}

func (l *edgeLine) add(s edgeLine) {
	u := (s.at.X-l.at.X)*l.dir.X + (s.at.Y-l.at.Y)*l.dir.Y
	for _, r := range s.runs {
		l.runs = append(l.runs, [2]float64{u + r[0], u + r[1]})
	}
	l.weight += s.weight
}

// mergeRuns sorts and merges the runs.
func (l *edgeLine) mergeRuns() {
	slices.SortFunc(l.runs, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	out := l.runs[:1]
	for _, r := range l.runs[1:] {
		if last := &out[len(out)-1]; r[0] <= last[1]+2 {
			last[1] = math.Max(last[1], r[1])
			continue
		}
		out = append(out, r)
	}
	l.runs, l.seen = out, 0
	for _, r := range out {
		l.seen += r[1] - r[0]
	}
}

// share is how much of the stretch from p to q is seen.
func (l *edgeLine) share(p, q Point) float64 {
	if l.border {
		return 1
	}
	a := (p.X-l.at.X)*l.dir.X + (p.Y-l.at.Y)*l.dir.Y
	b := (q.X-l.at.X)*l.dir.X + (q.Y-l.at.Y)*l.dir.Y
	a, b = math.Min(a, b), math.Max(a, b)
	in := 0.0
	for _, r := range l.runs {
		in += math.Max(0, math.Min(b, r[1]+1)-math.Max(a, r[0]-1))
	}
	return math.Min(in/math.Max(b-a, 1e-9), 1)
}

// cross is where two lines meet.
func (l *edgeLine) cross(k *edgeLine) (Point, bool) { return crossing(l.at, l.dir, k.at, k.dir, 0.3) }
