package chart

import (
	"cmp"
	"math"
	"slices"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// A Card is what can only be a plain grey card: a flat, even, neutral rectangle
// that stands out from all round it.
type Card struct {
	Corners [4]pixel.Point // in shares of the photo, one after the other round it
	Box     [4]float64     // left, top, right, bottom of an upright box well within, in shares of the photo
	Grey    [3]float64     // its mean linear colour
	seen    float64        // share of its sides that stands out
}

// What a place of a photo has to come to, or it is no grey card. The bounds of
// colour are those of lamps against daylight; a card is of 18 % in print, half
// or twice that under uneven light (common practice, no source).
const (
	cardShare    = 0.003 // of the photo, at least
	cardMost     = 0.6   // of the photo, at most
	cardSide     = 9.0   // pixels of its shortest side
	cardSlack    = 0.12  // of its area that its quadrangle may have more, where it is small; else 0.03 and a pixel all round
	cardApart    = 9.0   // sRGB code by which its surroundings differ
	cardSeen     = 0.88  // of every side that has to stand out
	cardBent     = 0.5   // pixels rms that an edge stands off a straight line
	cardUneven   = 0.022 // rms of its cells about an even slope of light, of its own light
	cardGrain    = 0.10  // the same of its pixels
	cardSlope    = 0.8   // stops from end to end
	cardHueSlope = 0.12  // the same, of one channel against another
	cardAlong    = 0.95  // stops between red and blue
	cardAcross   = 0.26  // stops of green against their mean
	cardDark     = 0.02  // of full scale
	cardLight    = 0.6
	cardBelow    = 0.6  // of what is brightest of its own hue: more is white in shade
	cardUnder    = 1.4  // times as bright the brightest of the photo has to be
	cardFaint    = 0.06 // of the same: less is a black thing
	cardLike     = 2    // other calm places as large and as grey: it is one of several, a pane or a tile
)

// Cards are the grey cards of a photo in linear light, the one that stands out
// best first. More than one means that nobody can tell which it is.
func Cards(m *pixel.Image) []Card {
	var out []Card
	rough := roughness(m)
	for _, limit := range calmness {
		all := patches(m, rough, limit)
		for i, p := range all {
			c, ok := cardOf(m, p)
			if ok && !oneOfSeveral(all, i) && !slices.ContainsFunc(out, func(o Card) bool { return sameCard(o, c) }) {
				out = append(out, c)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Card) int { return cmp.Compare(b.seen, a.seen) })
	return out
}

// A calmPatch is a calm place of a photo: the ends of its rows and columns.
type calmPatch struct {
	n        int
	mean     [3]float64    // linear colour
	ends     []pixel.Point // of its rows, the corners of the pixels
	rows     float64       // pixels between the ends of its rows
	columns  float64       // the same of its columns
	touching bool          // it reaches the photo's edge
}

// patches are the calm places that are half as large as a card or larger.
func patches(m *pixel.Image, rough []uint8, limit uint8) (all []calmPatch) {
	w, h := m.W, m.H
	seen := make([]bool, len(rough))
	least := max(int(cardShare/2*float64(w*h)), int(cardSide*cardSide))
	// Each pixel comes into the list once: those from next on are still to be looked
	// around.
	room := spare.Take[int32](len(rough))
	defer spare.Give(room)
	for start, v := range rough {
		if v > limit || seen[start] {
			continue
		}
		list := append(room[:0], int32(start))
		seen[start] = true
		for next := 0; next < len(list); next++ {
			i := int(list[next])
			for _, d := range [4]int{1, -1, w, -w} {
				if k := i + d; rough[k] <= limit && !seen[k] {
					seen[k] = true
					list = append(list, int32(k))
				}
			}
		}
		if len(list) >= least && float64(len(list)) < cardMost*float64(w*h) {
			all = append(all, patchOf(m, list))
		}
	}
	return all
}

func patchOf(m *pixel.Image, list []int32) calmPatch {
	w, h := m.W, m.H
	p := calmPatch{n: len(list)}
	// The ends of each row and each column, one past the last; 0, 0: none.
	rows, columns := make([][2]int, h), make([][2]int, w)
	widen := func(s *[2]int, v int) {
		if s[1] == 0 {
			s[0] = v
		}
		s[0], s[1] = min(s[0], v), max(s[1], v+1)
	}
	var sum [3]uint64
	for _, at := range list {
		i := int(at)
		x, y := i%w, i/w
		for c := range sum {
			sum[c] += uint64(m.Pix[3*i+c])
		}
		widen(&rows[y], x)
		widen(&columns[x], y)
		p.touching = p.touching || x < 3 || y < 3 || x > w-4 || y > h-4
	}
	for c := range sum {
		p.mean[c] = float64(sum[c]) / (65535 * float64(len(list)))
	}
	for y, s := range rows {
		p.rows += float64(s[1] - s[0])
		if s[1] > 0 {
			for _, x := range s {
				p.ends = append(p.ends, pixel.Point{X: float64(x), Y: float64(y)}, pixel.Point{X: float64(x), Y: float64(y + 1)})
			}
		}
	}
	for _, s := range columns {
		p.columns += float64(s[1] - s[0])
	}
	return p
}

// cardOf is the card that a calm place is.
func cardOf(m *pixel.Image, p calmPatch) (c Card, ok bool) {
	if p.touching || float64(p.n) < cardShare*float64(m.W*m.H) {
		return c, false
	}
	q, ok := quadRound(pixel.Hull(p.ends))
	if !ok || !likeARectangle(q) {
		return c, false
	}
	area, round := pixel.Area(q[:]), 0.0
	for i := range q {
		round += apart(q[i], q[(i+1)%4])
	}
	full := math.Min(p.rows, p.columns)
	if area-full > math.Min(0.03*area+round, cardSlack*area) || float64(p.n) < 0.8*full {
		return c, false
	}
	if c.Grey, ok = evenGrey(m, q); !ok {
		return c, false
	}
	var bent float64
	if c.seen, bent = sides(m, q, c.Grey); c.seen < cardSeen || bent > cardBent || !grey(m, c.Grey) {
		return c, false
	}
	for i, v := range q {
		c.Corners[i] = pixel.Point{X: v.X / float64(m.W), Y: v.Y / float64(m.H)}
	}
	c.Box = boxWithin(c.Corners)
	return c, true
}

// oneOfSeveral reports whether other calm places are as large and as grey.
func oneOfSeveral(all []calmPatch, i int) bool {
	p, n := all[i], 0
	for k, o := range all {
		if k == i || o.n < p.n/2 || o.n > 2*p.n {
			continue
		}
		most, least := 0.0, math.Inf(1)
		for c := range p.mean {
			d := math.Log2((o.mean[c] + 1e-4) / (p.mean[c] + 1e-4))
			most, least = math.Max(most, d), math.Min(least, d)
		}
		if most-least < 0.2 && math.Abs(most+least)/2 < 0.5 {
			n++
		}
	}
	return n >= cardLike
}

func apart(a, b pixel.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// quadRound is the quadrangle round a convex ring: side by side is dropped and its
// neighbours drawn out until they meet, the one first that adds least area.
func quadRound(ring []pixel.Point) (q [4]pixel.Point, ok bool) {
	ring = slices.Clone(ring)
	for len(ring) > 4 {
		best, at, n := math.Inf(1), -1, len(ring)
		var tip pixel.Point
		for i := range ring {
			a, b, c, d := ring[(i+n-1)%n], ring[i], ring[(i+1)%n], ring[(i+2)%n]
			p, met := outwards(a, b, d, c)
			if !met {
				continue
			}
			if more := pixel.Area([]pixel.Point{b, p, c}); more < best {
				best, at, tip = more, i, p
			}
		}
		if at < 0 {
			return q, false
		}
		ring[at] = tip
		ring = slices.Delete(ring, (at+1)%n, (at+1)%n+1)
	}
	if len(ring) < 4 {
		return q, false
	}
	return [4]pixel.Point(ring), true
}

// outwards is where the way from a over b meets that from d over c.
func outwards(a, b, d, c pixel.Point) (pixel.Point, bool) {
	ux, uy, vx, vy := b.X-a.X, b.Y-a.Y, c.X-d.X, c.Y-d.Y
	det := ux*vy - uy*vx
	if math.Abs(det) < 1e-9 {
		return pixel.Point{}, false
	}
	t := ((c.X-b.X)*vy - (c.Y-b.Y)*vx) / det
	s := ((c.X-b.X)*uy - (c.Y-b.Y)*ux) / det
	if t < 0 || s < 0 {
		return pixel.Point{}, false
	}
	return pixel.Point{X: b.X + t*ux, Y: b.Y + t*uy}, true
}

// likeARectangle reports whether a quadrangle can be one that is seen askew:
// opposite sides nearly alike, no corner too sharp, not too narrow.
func likeARectangle(q [4]pixel.Point) bool {
	var l [4]float64
	for i := range q {
		l[i] = apart(q[i], q[(i+1)%4])
	}
	for i := range q {
		a, b, c := q[(i+3)%4], q[i], q[(i+1)%4]
		sin := math.Abs((a.X-b.X)*(c.Y-b.Y)-(a.Y-b.Y)*(c.X-b.X)) / math.Max(l[(i+3)%4]*l[i], 1e-9)
		if sin < 0.5 || l[i] < cardSide || l[i] < 0.74*l[(i+2)%4] {
			return false
		}
	}
	x, y := l[0]+l[2], l[1]+l[3]
	return math.Max(x, y) < 5*math.Min(x, y)
}

// at is the place of a quadrangle at shares u and v of its sides.
func at(q [4]pixel.Point, u, v float64) pixel.Point {
	mix := func(a, b, c, d float64) float64 { return (a*(1-u)+b*u)*(1-v) + (d*(1-u)+c*u)*v }
	return pixel.Point{X: mix(q[0].X, q[1].X, q[2].X, q[3].X), Y: mix(q[0].Y, q[1].Y, q[2].Y, q[3].Y)}
}

// evenGrey is the mean linear colour of the middle of a quadrangle, where light
// falls on it evenly or in one slope, and nothing else is to be seen on it.
func evenGrey(m *pixel.Image, q [4]pixel.Point) (mean [3]float64, ok bool) {
	const cells, per = 5, 5 // places a side, samples a side of each
	var cell [3][cells * cells]float64
	var grain [3]float64
	for j := range cells {
		for i := range cells {
			var sum, squares [3]float64
			for k := range per * per {
				p := at(q, 0.1+0.8*(float64(i)+(float64(k%per)+0.5)/per)/cells, 0.1+0.8*(float64(j)+(float64(k/per)+0.5)/per)/cells)
				o := 3 * (min(max(int(p.Y), 0), m.H-1)*m.W + min(max(int(p.X), 0), m.W-1))
				for c := range 3 {
					v := float64(m.Pix[o+c]) / 65535
					sum[c], squares[c] = sum[c]+v, squares[c]+v*v
				}
			}
			for c := range 3 {
				v := sum[c] / (per * per)
				cell[c][j*cells+i] = v
				mean[c] += v / (cells * cells)
				grain[c] += math.Max(squares[c]/(per*per)-v*v, 0) / (cells * cells)
			}
		}
	}
	var slope [3][2]float64
	for c := range 3 {
		if mean[c] <= 0 || math.Sqrt(grain[c]) > cardGrain*mean[c]+0.002 {
			return mean, false
		}
		var rest float64
		slope[c], rest = slopeOf(cell[c][:], cells, mean[c])
		if rest > cardUneven+0.0006/mean[c] || math.Hypot(slope[c][0], slope[c][1]) > cardSlope*math.Ln2 {
			return mean, false
		}
	}
	for _, c := range [2]int{0, 2} {
		if math.Hypot(slope[c][0]-slope[1][0], slope[c][1]-slope[1][1]) > cardHueSlope*math.Ln2 {
			return mean, false
		}
	}
	return mean, true
}

// slopeOf fits an even slope to n × n values, as shares of their mean from end to
// end, and tells how far they stand off it.
func slopeOf(v []float64, n int, mean float64) (slope [2]float64, rest float64) {
	var sx, sy, sxx float64
	for k, c := range v {
		x, y := (float64(k%n)+0.5)/float64(n)-0.5, (float64(k/n)+0.5)/float64(n)-0.5
		sx, sy, sxx = sx+x*c, sy+y*c, sxx+x*x
	}
	slope = [2]float64{sx / sxx / mean, sy / sxx / mean}
	for k, c := range v {
		x, y := (float64(k%n)+0.5)/float64(n)-0.5, (float64(k/n)+0.5)/float64(n)-0.5
		d := c/mean - 1 - slope[0]*x - slope[1]*y
		rest += d * d
	}
	return slope, math.Sqrt(rest / float64(len(v)))
}

// sides looks at the sides of a quadrangle: seen is the share of the side that
// stands out least from what lies beside it, bent how far the edge of the one that is
// bent most stands off a straight line, pixels, rms.
func sides(m *pixel.Image, q [4]pixel.Point, mean [3]float64) (seen, bent float64) {
	var own [3]float64
	for c := range own {
		own[c] = 255 * colour.Encode(mean[c])
	}
	mid := at(q, 0.5, 0.5)
	seen = 1
	for s := range q {
		a, b := q[s], q[(s+1)%4]
		l := apart(a, b)
		nx, ny := (b.Y-a.Y)/l, -(b.X-a.X)/l
		if (mid.X-a.X)*nx+(mid.Y-a.Y)*ny > 0 {
			nx, ny = -nx, -ny // outwards
		}
		const steps = 32
		var ts, ds []float64
		for k := range steps {
			t := 0.06 + 0.88*(float64(k)+0.5)/steps
			if d, ok := stepAt(m, a.X+t*(b.X-a.X), a.Y+t*(b.Y-a.Y), nx, ny, own); ok {
				ts, ds = append(ts, t), append(ds, d)
			}
		}
		seen, bent = math.Min(seen, float64(len(ts))/steps), math.Max(bent, offLine(ts, ds))
	}
	return seen, bent
}

// stepAt is how far out along a direction the colour has left the card's by half of
// what it is beside it.
func stepAt(m *pixel.Image, x, y, nx, ny float64, own [3]float64) (float64, bool) {
	const from, to, step = -3.0, 4.5, 0.5
	var off [int((to-from)/step) + 1]float64
	for i := range off {
		d := from + step*float64(i)
		px, py := x+d*nx-0.5, y+d*ny-0.5
		if px < 0 || py < 0 || px >= float64(m.W-1) || py >= float64(m.H-1) {
			return 0, false
		}
		j, k := int(px), int(py)
		fx, fy := px-float64(j), py-float64(k)
		for c := range own {
			o := 3*(k*m.W+j) + c
			up := float64(m.Pix[o])*(1-fx) + float64(m.Pix[o+3])*fx
			down := float64(m.Pix[o+3*m.W])*(1-fx) + float64(m.Pix[o+3*m.W+3])*fx
			off[i] = math.Max(off[i], math.Abs(255*colour.Encode((up*(1-fy)+down*fy)/65535)-own[c]))
		}
	}
	last := off[len(off)-1]
	if last < cardApart {
		return 0, false
	}
	for i := 1; i < len(off); i++ {
		if off[i] >= last/2 && off[i-1] < last/2 {
			return from + step*(float64(i)-(off[i]-last/2)/math.Max(off[i]-off[i-1], 1e-9)), true
		}
	}
	return 0, false
}

// offLine is how far values stand off a straight line through them, rms, without the
// eighth that do so most.
func offLine(ts, ds []float64) float64 {
	if len(ts) < 8 {
		return math.Inf(1)
	}
	var s, sx, sy, sxx, sxy float64
	for i, t := range ts {
		s, sx, sy, sxx, sxy = s+1, sx+t, sy+ds[i], sxx+t*t, sxy+t*ds[i]
	}
	slope := (s*sxy - sx*sy) / math.Max(s*sxx-sx*sx, 1e-9)
	rest := make([]float64, len(ts))
	for i, t := range ts {
		d := ds[i] - sy/s - slope*(t-sx/s)
		rest[i] = d * d
	}
	slices.Sort(rest)
	rest = rest[:len(rest)-len(rest)/8]
	sum := 0.0
	for _, v := range rest {
		sum += v
	}
	return math.Sqrt(sum / float64(len(rest)))
}

// grey reports whether a colour can be that of a grey card under some lamp, and its
// light that of one: less than white would have, and more than black. Something in
// the photo has to be brighter, or it is white paper that was exposed too little.
func grey(m *pixel.Image, v [3]float64) bool {
	red, blue := math.Log2(v[0]/v[1]), math.Log2(v[2]/v[1])
	y := luma(v)
	if math.Abs(red-blue) > cardAlong || math.Abs(red+blue)/2 > cardAcross || y < cardDark || y > cardLight {
		return false
	}
	var all, own levels // of all, and of what has its hue
	for i := 0; i+2 < len(m.Pix); i += 3 {
		p := [3]float64{float64(m.Pix[i]) / 65535, float64(m.Pix[i+1]) / 65535, float64(m.Pix[i+2]) / 65535}
		l := luma(p)
		all.add(l)
		r, g, b := p[0]/v[0], p[1]/v[1], p[2]/v[2]
		if most := math.Max(r, math.Max(g, b)); most < 1.12*math.Min(r, math.Min(g, b)) {
			own.add(l)
		}
	}
	if y*cardUnder > all.below(0.003) {
		return false
	}
	white := own.below(0.02)
	return own.n*100 < 6*all.n || white < y*1.25 || y < cardBelow*white && y > cardFaint*white
}

// levels count light by 512 steps of full scale.
type levels struct {
	count [512]int
	n     int
}

func (l *levels) add(v float64) {
	l.count[min(int(v*512), 511)]++
	l.n++
}

// below is the level that a share of them lies above.
func (l *levels) below(share float64) float64 {
	left := int(share * float64(l.n))
	for k := len(l.count) - 1; k >= 0; k-- {
		if left -= l.count[k]; left < 0 {
			return (float64(k) + 0.5) / 512
		}
	}
	return 0
}

// boxWithin is an upright box about the middle of a quadrangle, four fifths as
// large as fits.
func boxWithin(q [4]pixel.Point) [4]float64 {
	mid := at(q, 0.5, 0.5)
	w, h := 0.0, 0.0
	for _, p := range q {
		w, h = math.Max(w, math.Abs(p.X-mid.X)), math.Max(h, math.Abs(p.Y-mid.Y))
	}
	lo, hi := 0.0, 1.0
	for range 30 {
		k := (lo + hi) / 2
		fits := true
		for _, c := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
			fits = fits && pixel.Inside(q[:], pixel.Point{X: mid.X + k*w*c[0], Y: mid.Y + k*h*c[1]})
		}
		if fits {
			lo = k
		} else {
			hi = k
		}
	}
	k := 0.8 * lo
	return [4]float64{mid.X - k*w, mid.Y - k*h, mid.X + k*w, mid.Y + k*h}
}

// sameCard reports whether two are one, found twice.
func sameCard(a, b Card) bool {
	p, q := at(a.Corners, 0.5, 0.5), at(b.Corners, 0.5, 0.5)
	x, y := pixel.Area(a.Corners[:]), pixel.Area(b.Corners[:])
	return pixel.Inside(a.Corners[:], q) && pixel.Inside(b.Corners[:], p) && math.Min(x, y) > 0.6*math.Max(x, y)
}
