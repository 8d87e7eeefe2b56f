package blend

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"

	"slabfolio/imaging/pixel"
)

// A spectrum is the Fourier transform of a map of edges, side × side.
type spectrum struct {
	side int
	v    []complex128
}

// spectrumOf transforms a map, faded out towards its rim.
func spectrumOf(e []float32, w, h int) *spectrum {
	side := 1
	for side < max(w, h) {
		side *= 2
	}
	s := &spectrum{side, make([]complex128, side*side)}
	mean := 0.0
	for _, v := range e {
		mean += float64(v) / float64(len(e))
	}
	for y := range h {
		fy := 0.5 - 0.5*math.Cos(2*math.Pi*(float64(y)+0.5)/float64(h))
		for x := range w {
			fx := 0.5 - 0.5*math.Cos(2*math.Pi*(float64(x)+0.5)/float64(w))
			s.v[y*side+x] = complex((float64(e[y*w+x])-mean)*fx*fy, 0)
		}
	}
	fourier2(s.v, side, false)
	return s
}

// bell is the width that the peak of a correlation is given, pixels.
const bell = 1.1

// cross adds the phases of the cross spectrum of s and o to c (phase
// correlation, Kuglin and Hines, 1975), damped to a bell, so that the logarithm
// of the peak is a parabola and its top can be read between pixels.
func (s *spectrum) cross(o *spectrum, c []complex128) {
	n := s.side
	for y := range n {
		fy := float64(y)
		if y > n/2 {
			fy -= float64(n)
		}
		for x := range n {
			fx := float64(x)
			if x > n/2 {
				fx -= float64(n)
			}
			p := o.v[y*n+x] * cmplx.Conj(s.v[y*n+x])
			if a := cmplx.Abs(p); a > 1e-12 {
				f2 := (fx*fx + fy*fy) / float64(n*n)
				c[y*n+x] += p / complex(a, 0) * complex(math.Exp(-2*math.Pi*math.Pi*bell*bell*f2), 0)
			}
		}
	}
}

// shift is how far o stands off s.
func (s *spectrum) shift(o *spectrum) (dx, dy float64) {
	c := make([]complex128, len(s.v))
	s.cross(o, c)
	fourier2(c, s.side, true)
	dx, dy, _ = peak(c, s.side, 0, 0, float64(s.side))
	return dx, dy
}

// peak is the highest place of a correlation within reach of (px, py), between
// pixels, and how far it stands out of the rest, in standard deviations.
func peak(c []complex128, n int, px, py, reach float64) (dx, dy, clear float64) {
	best, bx, by := math.Inf(-1), 0, 0
	var sum, sum2 float64
	signed := func(k int) float64 {
		if k > n/2 {
			return float64(k - n)
		}
		return float64(k)
	}
	for i, v := range c {
		r := real(v)
		sum, sum2 = sum+r, sum2+r*r
		x, y := signed(i%n), signed(i/n)
		if r > best && math.Hypot(x-px, y-py) <= reach {
			best, bx, by = r, i%n, i/n
		}
	}
	mean := sum / float64(len(c))
	sd := math.Sqrt(math.Max(sum2/float64(len(c))-mean*mean, 1e-30))
	val := func(x, y int) float64 { return math.Max(real(c[((y+n)%n)*n+(x+n)%n]), 1e-12) }
	top := func(a, b, c float64) float64 {
		la, lb, lc := math.Log(a), math.Log(b), math.Log(c)
		if d := la - 2*lb + lc; d < -1e-9 {
			return math.Max(-0.5, math.Min(0.5, (la-lc)/(2*d)))
		}
		return 0
	}
	dx = signed(bx) + top(val(bx-1, by), val(bx, by), val(bx+1, by))
	dy = signed(by) + top(val(bx, by-1), val(bx, by), val(bx, by+1))
	return dx, dy, (best - mean) / sd
}

// fourier2 transforms rows, then columns; n is a power of two.
func fourier2(v []complex128, n int, back bool) {
	root := rootsOf(n)
	for y := range n {
		fourier(v[y*n:(y+1)*n], root, back)
	}
	col := make([]complex128, n)
	for x := range n {
		for y := range n {
			col[y] = v[y*n+x]
		}
		fourier(col, root, back)
		for y := range n {
			v[y*n+x] = col[y]
		}
	}
}

// rootsOf are the first half of the nth roots of one; n is a power of two.
func rootsOf(n int) []complex128 {
	root := make([]complex128, n/2)
	for k := range root {
		s, c := math.Sincos(-2 * math.Pi * float64(k) / float64(n))
		root[k] = complex(c, s)
	}
	return root
}

// fourier is the transform of Cooley and Tukey (1965), in place; root is rootsOf its
// length.
func fourier(v, root []complex128, back bool) {
	n := len(v)
	for i, j := 1, 0; i < n; i++ {
		bit := n >> 1
		for ; j&bit != 0; bit >>= 1 {
			j ^= bit
		}
		j ^= bit
		if i < j {
			v[i], v[j] = v[j], v[i]
		}
	}
	for size := 2; size <= n; size *= 2 {
		half, step := size/2, n/size
		for at := 0; at < n; at += size {
			lo, hi := v[at:at+half:at+half], v[at+half:at+size:at+size]
			for k := range lo {
				a, b := lo[k], hi[k]*root[k*step]
				lo[k], hi[k] = a+b, a-b
			}
		}
	}
	if back { // the way back is the way there, told backwards
		slices.Reverse(v[1:])
		for i := range v {
			v[i] /= complex(float64(n), 0)
		}
	}
}

// takePatches keeps squares of the reference where its edges are strongest,
// spread over the picture.
func (j *job) takePatches(m *pixel.Image) {
	const grid = 4
	side := patchSideFor(j.w, j.h)
	l := &j.looks[j.ref]
	cw, ch := j.w/grid, j.h/grid
	type cell struct {
		x, y int
		e    float64
	}
	var cells []cell
	scale := float64(j.w) / float64(l.ew)
	for gy := range grid {
		for gx := range grid {
			best := cell{e: -1}
			for k := range 9 { // nine places in the cell, the one with most edges
				x := gx*cw + (k%3)*max(cw-side, 0)/2
				y := gy*ch + (k/3)*max(ch-side, 0)/2
				x, y = min(x, j.w-side), min(y, j.h-side)
				sum := 0.0
				x1, y1 := min(int(float64(x+side)/scale), l.ew), min(int(float64(y+side)/scale), l.eh)
				for v := int(float64(y) / scale); v < y1; v++ {
					for u := int(float64(x) / scale); u < x1; u++ {
						sum += float64(l.edges[v*l.ew+u])
					}
				}
				if sum > best.e {
					best = cell{x, y, sum}
				}
			}
			cells = append(cells, best)
		}
	}
	slices.SortStableFunc(cells, func(a, b cell) int { return cmp.Compare(b.e, a.e) })
	cells = slices.DeleteFunc(cells[:12], func(c cell) bool { return c.e <= 0 })
	j.patch = make([]patch, len(cells))
	each(len(cells), func(k int) {
		c := cells[k]
		j.patch[k] = patch{c.x, c.y, spectrumOf(patchEdges(m, c.x, c.y, side, l.bright), side, side)}
	})
}

func patchSideFor(w, h int) int {
	side := patchSide
	for side > 64 && side > min(w, h)/3 || side > min(w, h) {
		side /= 2
	}
	return side
}

func patchEdges(m *pixel.Image, x, y, side int, bright float64) []float32 {
	v := make([]float32, side*side)
	for r := range side {
		row := m.Row(min(max(y+r, 0), m.H-1))
		for c := range side {
			p := row[3*min(max(x+c, 0), m.W-1):]
			v[r*side+c] = luminance(p[0], p[1], p[2]) / 65535
		}
	}
	return edgesOf(v, side, side, float32(bright))
}

// A move takes a place of the reference to the same place of a frame: a turn
// about the middle, then a shift.
type move struct{ dx, dy, turn float64 } // pixels, radians

func (m move) at(x, y, cx, cy float64) (float64, float64) {
	return x + m.dx - m.turn*(y-cy), y + m.dy + m.turn*(x-cx)
}

// Limits of a move that is believed.
const (
	clearJoint = 7.0 // standard deviations that the peak of all patches together stands out
	clearPatch = 5.0 // the same of one patch
	agree      = 0.8 // pixels that patches may differ by
	leastAgree = 4   // patches
)

// measure finds the move of frame i at full size. All patches together tell the
// shift; then each tells its own near it, and a line through those that agree
// tells shift and turn. Where they do not agree clearly the frame stays where
// it is.
func (j *job) measure(m *pixel.Image, i int) move {
	f := &j.r.Frames[i]
	side := patchSideFor(j.w, j.h)
	ox, oy := int(math.Round(f.ShiftX)), int(math.Round(f.ShiftY))
	joint := make([]complex128, side*side)
	own := make([][]complex128, len(j.patch))
	each(len(own), func(k int) {
		p, c := j.patch[k], make([]complex128, side*side)
		p.spectrum.cross(spectrumOf(patchEdges(m, p.x+ox, p.y+oy, side, j.looks[i].bright), side, side), c)
		own[k] = c
	})
	for _, c := range own {
		for n, v := range c {
			joint[n] += v
		}
	}
	fourier2(joint, side, true)
	// No farther than the copies may be wrong: grain and slats that come again
	// have peaks beside the true one.
	reach := math.Min(float64(side)/4, 2.5*float64(j.w)/float64(j.looks[i].ew)+2)
	jx, jy, clear := peak(joint, side, 0, 0, reach)
	if clear < clearJoint {
		return move{}
	}
	var all []patchShift
	each(len(own), func(k int) { fourier2(own[k], side, true) })
	for k, p := range j.patch {
		dx, dy, clear := peak(own[k], side, jx, jy, 3)
		if clear >= clearPatch && math.Hypot(dx-jx, dy-jy) < 3 {
			all = append(all, patchShift{float64(p.x) + float64(side-j.w)/2, float64(p.y) + float64(side-j.h)/2, dx + float64(ox), dy + float64(oy)})
		}
	}
	if out, ok := fitMove(all); ok {
		return out
	}
	// Too few patches tell it by themselves: the joint shift, if it is well above
	// what light from another side makes of a frame that did not move.
	if out := (move{dx: jx + float64(ox), dy: jy + float64(oy)}); math.Hypot(out.dx, out.dy) > 2*leastMove {
		return out
	}
	return move{}
}

// A patchShift is the shift of a patch, at its place from the picture's middle.
type patchShift struct{ x, y, dx, dy float64 }

// fitMove fits shift and turn to the patches that agree with one another; ok is
// false where too few do. What is no more than three times its own error is left
// at nothing.
func fitMove(all []patchShift) (out move, ok bool) {
	if len(all) < leastAgree {
		return move{}, false
	}
	var xs, ys []float64
	for _, t := range all {
		xs, ys = append(xs, t.dx), append(ys, t.dy)
	}
	out = move{dx: medianOf(xs), dy: medianOf(ys)}
	var n, rr, dev float64
	for range 5 {
		var in []patchShift
		for _, t := range all {
			if math.Hypot(t.dx-out.dx+out.turn*t.y, t.dy-out.dy-out.turn*t.x) < agree {
				in = append(in, t)
			}
		}
		if n = float64(len(in)); n < leastAgree || 2*len(in) < len(all) {
			return move{}, false
		}
		var sx, sy, mx, my, sr float64
		for _, t := range in {
			sx, sy, mx, my = sx+t.dx/n, sy+t.dy/n, mx+t.x/n, my+t.y/n
		}
		rr, dev = 0, 0
		for _, t := range in {
			sr += (t.dy-sy)*(t.x-mx) - (t.dx-sx)*(t.y-my)
			rr += (t.x-mx)*(t.x-mx) + (t.y-my)*(t.y-my)
		}
		turn := sr / math.Max(rr, 1)
		for _, t := range in {
			ex, ey := t.dx-sx+turn*(t.y-my), t.dy-sy-turn*(t.x-mx)
			dev += (ex*ex + ey*ey) / 2
		}
		dev = math.Sqrt(dev / math.Max(n-1.5, 1))
		if math.Abs(turn) < 3*math.Max(dev, 0.05)/math.Sqrt(math.Max(rr, 1)) {
			turn = 0
		}
		out = move{sx + turn*my, sy - turn*mx, turn}
	}
	if math.Hypot(out.dx, out.dy) < 3*dev/math.Sqrt(n) && out.turn == 0 {
		return move{}, true
	}
	return out, true
}

func medianOf(v []float64) float64 {
	s := slices.Clone(v)
	slices.Sort(s)
	return s[len(s)/2]
}

// far is how far the move takes the picture's corners and its middle at most.
func (m move) far(w, h int) float64 {
	most := math.Hypot(m.dx, m.dy)
	for _, c := range [4][2]float64{{0, 0}, {1, 0}, {0, 1}, {1, 1}} {
		x, y := m.at(c[0]*float64(w), c[1]*float64(h), float64(w)/2, float64(h)/2)
		most = math.Max(most, math.Hypot(x-c[0]*float64(w), y-c[1]*float64(h)))
	}
	return most
}

// place brings frame i onto the reference, if it stands off by more than
// leastMove; m is returned as it is otherwise.
func (j *job) place(m *pixel.Image, i int) (*pixel.Image, error) {
	if i == j.ref {
		if j.patch == nil {
			j.takePatches(m)
		}
		return m, nil
	}
	by, known := j.moves[i]
	if !known {
		by = j.measure(m, i)
		f := &j.r.Frames[i]
		f.ShiftX, f.ShiftY, f.Turn = by.dx, by.dy, by.turn*180/math.Pi
		if f.Moved = by.far(j.w, j.h) > leastMove; f.Moved {
			j.note("blend.moved", map[string]float64{"frame": float64(i + 1), "shift": math.Hypot(by.dx, by.dy), "turn": f.Turn})
		} else {
			by = move{}
		}
		j.moves[i] = by
	}
	if by == (move{}) {
		return m, nil
	}
	if j.still == nil {
		j.still = pixel.New(m.W, m.H)
	}
	return j.still, pixel.WarpInto(j.still, m, by.quad(j.w, j.h))
}

// quad is where a frame has the corners of the reference, of w × h. Places are
// rounded so that their sums are exact, and the fourth follows from the others: the
// map is then a turn and a shift to the last bit.
func (m move) quad(w, h int) (q pixel.Quad) {
	const steps = 1 << 20
	for i, c := range [3][2]float64{{0, 0}, {1, 0}, {1, 1}} {
		x, y := m.at(c[0]*float64(w), c[1]*float64(h), float64(w)/2, float64(h)/2)
		q[i] = pixel.Point{X: math.Round(x*steps) / steps, Y: math.Round(y*steps) / steps}
	}
	q[3] = pixel.Point{X: q[0].X - q[1].X + q[2].X, Y: q[0].Y - q[1].Y + q[2].Y}
	return q
}
