package measure

import (
	"math"
	"slices"
)

// contour walks round the mask and returns its edge in pixels of the copy,
// clockwise as seen, one point to a pixel side, smoothed over a few.
func (c *small) contour(mask []uint8) []Point {
	start := -1
	for i, v := range mask {
		if v != 0 {
			start = i
			break
		}
	}
	if start < 0 {
		return nil
	}
	on := func(x, y int) bool { return x >= 0 && y >= 0 && x < c.w && y < c.h && mask[y*c.w+x] != 0 }
	// Walk along the cracks between pixels, the mask on the right.
	x, y, dx, dy := start%c.w, start/c.w, 1, 0
	x0, y0 := x, y
	var ring []Point
	for n := 0; n < 8*(c.w+c.h)*16; n++ {
		ring = append(ring, Point{X: float64(x), Y: float64(y)})
		x, y = x+dx, y+dy
		if x == x0 && y == y0 {
			break
		}
		// The pixels ahead, to the left and to the right of the way.
		lx, ly := x+(dx+dy-1)/2, y+(dy-dx-1)/2
		rx, ry := x+(dx-dy-1)/2, y+(dy+dx-1)/2
		switch {
		case on(lx, ly):
			dx, dy = dy, -dx
		case !on(rx, ry):
			dx, dy = -dy, dx
		}
	}
	return ring
}

// atEvenSteps is a ring at even steps of about step, each point the mean of the
// ring half a width to either side.
func atEvenSteps(ring []Point, step, width float64) []Point {
	ring = dense(ring)
	n := len(ring)
	if n < 8 {
		return ring
	}
	at := make([]float64, n+1)
	for i := range n {
		q := ring[(i+1)%n]
		at[i+1] = at[i] + math.Hypot(q.X-ring[i].X, q.Y-ring[i].Y)
	}
	whole := at[n]
	count := max(int(whole/step), 12)
	out := make([]Point, count)
	lo := 0
	for k := range out {
		s := whole * float64(k) / float64(count)
		for lo < n-1 && at[lo+1] < s {
			lo++
		}
		var sum Point
		weight := 0.0
		for j := lo - int(2*width) - 2; j <= lo+int(2*width)+2; j++ {
			i := ((j % n) + n) % n
			d := math.Abs(at[i] - s)
			d = math.Min(d, whole-d)
			if w := 1 - d/width; w > 0 {
				sum.X, sum.Y, weight = sum.X+w*ring[i].X, sum.Y+w*ring[i].Y, weight+w
			}
		}
		if weight == 0 {
			out[k] = ring[lo]
			continue
		}
		out[k] = Point{X: sum.X / weight, Y: sum.Y / weight}
	}
	return out
}

// dense puts points between those of a ring that are more than a pixel apart.
func dense(ring []Point) []Point {
	var out []Point
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		parts := max(int(math.Ceil(math.Hypot(b.X-a.X, b.Y-a.Y)-0.01)), 1)
		for k := range parts {
			t := float64(k) / float64(parts)
			out = append(out, Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)})
		}
	}
	return out
}

// withoutSpikes cuts off spikes and narrow dents: where the way along the ring from
// one point to another, no longer than most, is more than 1.6 times as long as
// straight across. A right angle makes it 1.41 times.
func withoutSpikes(ring []Point, step, most float64) []Point {
	n := len(ring)
	reach := int(most / step)
	skip := make([]bool, n)
	for i := 0; i < n; i++ {
		if skip[i] {
			continue
		}
		to := 0
		for k := 3; k <= min(reach, n/4); k++ {
			q := ring[(i+k)%n]
			if chord := math.Hypot(q.X-ring[i].X, q.Y-ring[i].Y); float64(k)*step > 1.6*chord+2*step {
				to = k
			}
		}
		for k := 1; k < to; k++ {
			skip[(i+k)%n] = true
		}
	}
	var out []Point
	for i, p := range ring {
		if !skip[i] {
			out = append(out, p)
		}
	}
	return out
}

// The outermost line is settled last, from so near that a narrow strip is not seen
// together with the face: pixels.
const (
	settleReach = 1.5
	settleMost  = 1.5
	anyFar      = 1e9
)

// sharpen moves every point of a ring (clockwise, pixels of the photo) along
// its normal onto the edge that is seen there, within reach; neighbours vote
// against a point that jumps, and an edge farther off than most is none. It returns the
// spread of the points about their neighbours in pixels, and at which points an edge was
// seen.
func (j *job) sharpen(ring []Point, reach, most float64) (spread float64, ok []bool) {
	n := len(ring)
	off := make([]float64, n)
	ok = make([]bool, n)
	normals := make([]Point, n)
	for i := range ring {
		a, b := ring[(i+n-3)%n], ring[(i+3)%n]
		l := math.Max(math.Hypot(b.X-a.X, b.Y-a.Y), 1e-9)
		normals[i] = Point{X: -(b.Y - a.Y) / l, Y: (b.X - a.X) / l} // inwards
		off[i], ok[i] = j.topEdge(ring[i], normals[i], reach)
		ok[i] = ok[i] && math.Abs(off[i]) <= most
	}
	const half = 6
	moved := make([]float64, n)
	var dev []float64
	for i := range ring {
		var around []float64
		for k := -half; k <= half; k++ {
			if m := (i + k + n) % n; ok[m] {
				around = append(around, off[m])
			}
		}
		if len(around) < half {
			continue
		}
		mid := median(around)
		moved[i] = mid
		if ok[i] {
			dev = append(dev, math.Abs(off[i]-mid))
			if math.Abs(off[i]-mid) < 1.5+0.15*reach {
				moved[i] = 0.5*mid + 0.5*off[i]
			}
		}
	}
	for i := range ring {
		ring[i].X += moved[i] * normals[i].X
		ring[i].Y += moved[i] * normals[i].Y
	}
	return 1.4826 * median(dev), ok
}

// share is the part of a list that is true.
func share(list []bool) float64 {
	n := 0
	for _, v := range list {
		if v {
			n++
		}
	}
	return float64(n) / math.Max(float64(len(list)), 1)
}

// Limits of a stretch of the ring without an edge that is bridged: a bump of the copy's
// colours into the ground, of which the photo shows nothing.
const (
	bridgeMost = 0.03 // of the ring
	bridgeSide = 6    // points to either side that tell how the ring goes on
	bridgeTurn = 0.97 // cosine of the angle that the two sides and the bridge may differ by: no bridge cuts a corner
)

// bridged puts the points of short stretches without an edge onto the straight line
// between those that have one, where the ring goes on in the same direction.
func bridged(ring []Point, ok []bool) []Point {
	n := len(ring)
	out := slices.Clone(ring)
	at := func(i int) Point { return ring[((i%n)+n)%n] }
	dir := func(a, b Point) Point {
		l := math.Max(math.Hypot(b.X-a.X, b.Y-a.Y), 1e-9)
		return Point{X: (b.X - a.X) / l, Y: (b.Y - a.Y) / l}
	}
	for i := range ring {
		if !ok[i] || ok[(i+1)%n] {
			continue
		}
		k := 1
		for k < n && !ok[(i+k)%n] {
			k++
		}
		if float64(k) > bridgeMost*float64(n) {
			continue
		}
		before, across, after := dir(at(i-bridgeSide), at(i)), dir(at(i), at(i+k)), dir(at(i+k), at(i+k+bridgeSide))
		if before.X*across.X+before.Y*across.Y < bridgeTurn || across.X*after.X+across.Y*after.Y < bridgeTurn {
			continue
		}
		for m := 1; m < k; m++ {
			t := float64(m) / float64(k)
			out[(i+m)%n] = Point{X: at(i).X + t*(at(i+k).X-at(i).X), Y: at(i).Y + t*(at(i+k).Y-at(i).Y)}
		}
	}
	return out
}

// topEdge is where along the inward normal the colour changes most from what is
// outside to what is inside.
func (j *job) topEdge(p, in Point, reach float64) (float64, bool) {
	const step = 0.5
	mean := func(from, to float64) (v [3]float64) {
		for k := range 9 {
			d := from + (to-from)*float64(k)/8
			px := lightAt(j.m, p.X+d*in.X, p.Y+d*in.Y)
			for c := range v {
				v[c] += math.Sqrt(px[c]) / 9
			}
		}
		return v
	}
	within, without := mean(reach, 2*reach+2), mean(-2*reach-2, -reach)
	var way [3]float64
	sum := 0.0
	for c := range way {
		way[c] = within[c] - without[c]
		sum += way[c] * way[c]
	}
	if sum < 4e-4 {
		return 0, false
	}
	n := int(2*(reach+2)/step) + 1
	v := make([]float64, n)
	for i := range v {
		d := -reach - 2 + step*float64(i)
		px := lightAt(j.m, p.X+d*in.X, p.Y+d*in.Y)
		for c := range way {
			v[i] += (math.Sqrt(px[c]) - without[c]) * way[c] / sum
		}
	}
	slope := func(i int) float64 { return v[i+2] - v[i-2] + (v[i+1]-v[i-1])/2 }
	best, at := 0.0, -1
	for i := 5; i < n-5; i++ {
		if s := slope(i); s > best {
			best, at = s, i
		}
	}
	if best < 0.35 {
		return 0, false
	}
	// Of two edges nearly as strong the outer one is the top's; the inner one is
	// that of its face.
	for i := 5; i < at; i++ {
		if s := slope(i); s > 0.6*best && s >= slope(i-1) && s >= slope(i+1) {
			at = i
			break
		}
	}
	w, mid := 0.0, 0.0
	for i := max(at-4, 1); i <= min(at+4, n-2); i++ {
		s := math.Max(v[i+1]-v[i-1], 0)
		w, mid = w+s, mid+s*float64(i)
	}
	if w <= 0 {
		return 0, false
	}
	return -reach - 2 + step*mid/w, true
}
