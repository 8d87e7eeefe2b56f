package measure

import (
	"math"

	"slabfolio/imaging/pixel"
)

// A job is one photo being measured.
type job struct {
	req   Request
	m     *pixel.Image
	r     *Result
	copy  *small
	lens  float64           // by how much the lens may bend what is seen, as a share at the photo's corner
	lay   func(Point) Point // from the photo's pixels to the outline's mm, once it is known
	rings [][]Point         // edges of the resin and of what it encloses, on under the sheet, pixels of the photo
}

// focal is the focal length in pixels of the photo, and how far it may be off
// as a share.
func (j *job) focal() (f, doubt float64) {
	long := float64(max(j.m.W, j.m.H))
	if j.req.Focal35 > 0 {
		return j.req.Focal35 / 36 * long, 0.03
	}
	return usualFocal * long, 0.2
}

// findSheet sets the sheet: the maker's marks, or what is found.
func (j *job) findSheet() error {
	if j.req.Marks != nil {
		return j.givenSheet(*j.req.Marks)
	}
	q, err := j.search()
	if err != nil {
		return err
	}
	var rough [4]Point
	for i, p := range q.corners {
		rough[i] = Point{X: p.X * j.copy.scale, Y: p.Y * j.copy.scale}
	}
	s := refine(j.m, rough, j.copy.scale)
	j.r.Sheet = &s
	return j.nameSheet()
}

// search picks the sheet among the candidates.
func (j *job) search() (candidate, error) {
	f, _ := j.focal()
	lines := j.copy.lines()
	all := j.copy.candidates(lines, false, f/j.copy.scale)
	if len(all) == 0 || all[0].score < leastScore {
		cut := j.copy.candidates(lines, true, f/j.copy.scale)
		if len(cut) > 0 && cut[0].score >= leastScore {
			return candidate{}, refuse("measure.sheet-cut", nil)
		}
		best := 0.0
		if len(all) > 0 {
			best = all[0].score
		}
		return candidate{}, refuse("measure.no-sheet", map[string]float64{"score": best, "least": leastScore})
	}
	best := all[0]
	// Of nearly equal ones that share most of their area the largest is the
	// sheet; the others are boxes printed on it, with paper round them. A streak of the
	// wood beside the sheet is not.
	for _, q := range all[1:] {
		if q.score > 0.8*best.score && q.area > best.area && best.within(q) && j.copy.paperBetween(best, q) {
			best = q
		}
	}
	// One that reaches on over wood, to the edge of the top or a streak, holds the sheet.
	for _, q := range all[1:] {
		if q.score > 0.6*best.score && q.area > 0.4*best.area && q.area < best.area && q.within(best) && !j.copy.paperBetween(q, best) {
			best = q
			break
		}
	}
	best = j.notTheTop(best, all)
	for _, q := range all[1:] {
		if q.score > 0.75*best.score && q.area > 0.4*best.area && q.area < 2.5*best.area && apart(best, q) {
			a, b := middle(best.corners), middle(q.corners)
			w, h := float64(j.copy.w), float64(j.copy.h)
			return best, refuse("measure.two-sheets", map[string]float64{"x1": a.X / w, "y1": a.Y / h, "x2": b.X / w, "y2": b.Y / h})
		}
	}
	return best, nil
}

// betweenLeast is how far apart two edges have to be for what lies between them to be
// seen, pixels of the copy.
const betweenLeast = 2.5

// paperBetween reports whether what lies between the sides of in and those of out, which
// holds it, is as bright as paper wherever they are apart.
func (c *small) paperBetween(in, out candidate) bool {
	for s := range 4 {
		a, b := in.corners[s], in.corners[(s+1)%4]
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		nx, ny := (b.Y-a.Y)/l, -(b.X-a.X)/l // outwards
		var v []float64
		for k := range 24 {
			t := 0.06 + 0.88*(float64(k)+0.5)/24
			x, y := a.X+t*(b.X-a.X), a.Y+t*(b.Y-a.Y)
			d := 0.0
			for d < l && pixel.Inside(out.corners[:], Point{X: x + d*nx, Y: y + d*ny}) {
				d += 0.5
			}
			if d >= betweenLeast {
				v = append(v, c.at(c.low, x+0.6*d*nx, y+0.6*d*ny))
			}
		}
		if len(v) > 8 && median(v) < out.inside-out.step/2 {
			return false
		}
	}
	return true
}

// notTheTop gives the sheet within q where q is the top's own outline.
func (j *job) notTheTop(q candidate, all []candidate) candidate {
	if !offAnyPaper(q.ratio) || !j.copy.onGround(q.corners) {
		return q
	}
	for _, in := range all {
		if in.score >= leastScore && in.inside >= whitest*j.copy.bright() && !offAnyPaper(in.ratio) && in.within(q) && !j.copy.onGround(in.corners) {
			return in
		}
	}
	return q
}

const (
	offRatio = 0.03 // of the sides: further from those of A4 and of letter, and it is neither
	whitest  = 0.85 // of the brightest there is: a sheet on a light top is at least that
)

// offAnyPaper reports whether sides of that ratio are those of no paper.
func offAnyPaper(ratio float64) bool {
	return math.Min(math.Abs(ratio-297.0/210), math.Abs(ratio-279.4/215.9)) > offRatio
}

// onGround reports whether what is round four edges is like the rim of the photo.
func (c *small) onGround(q [4]Point) bool {
	g := c.groundOf(c.frameRing())
	return c.likeGround(g, c.roundSheet(q))
}

// likeGround reports whether most of the pixels have the colours of the ground.
func (c *small) likeGround(g ground, pixels []int) bool {
	far := make([]float64, len(pixels))
	for k, i := range pixels {
		far[k] = float64(g.distance(c.l[i], c.a[i], c.b[i]))
	}
	return median(far) <= math.Max(float64(g.noise)*1.25, 3.5)*leastContrast
}

func middle(q [4]Point) (p Point) {
	for _, c := range q {
		p.X, p.Y = p.X+c.X/4, p.Y+c.Y/4
	}
	return p
}

// apart reports whether neither holds the middle of the other.
func apart(a, b candidate) bool {
	return !pixel.Inside(a.corners[:], middle(b.corners)) && !pixel.Inside(b.corners[:], middle(a.corners))
}

// within reports whether all corners of a lie in b, give or take 2 pixels.
func (q candidate) within(b candidate) bool {
	for _, p := range q.corners {
		m := middle(b.corners)
		d := math.Max(math.Hypot(p.X-m.X, p.Y-m.Y), 1)
		if !pixel.Inside(b.corners[:], Point{X: p.X + 3*(m.X-p.X)/d, Y: p.Y + 3*(m.Y-p.Y)/d}) {
			return false
		}
	}
	return true
}

// givenSheet takes the maker's marks, and draws them onto the edges of the
// sheet where these are near.
func (j *job) givenSheet(marks [4]Point) error {
	if pixel.SignedArea(marks[:]) < 0 { // the other sense of turning
		marks[1], marks[3] = marks[3], marks[1]
	}
	s := Sheet{Corners: marks, Given: true}
	for i := range 4 {
		a, b, c := marks[i], marks[(i+1)%4], marks[(i+2)%4]
		if (b.X-a.X)*(c.Y-b.Y)-(b.Y-a.Y)*(c.X-b.X) <= 0 {
			return refuse("measure.bad-marks", nil)
		}
		s.Sigma[i] = 0.0015 * float64(max(j.m.W, j.m.H)) // of a mark set by eye on a screen
	}
	if f := refine(j.m, marks, j.copy.scale*0.6); f.good() && near(f.Corners, marks, 8*j.copy.scale) {
		s.Corners, s.Sigma, s.Bow = f.Corners, f.Sigma, f.Bow
	}
	j.r.Sheet = &s
	return j.nameSheet()
}

func near(a, b [4]Point, most float64) bool {
	for i := range a {
		if math.Hypot(a[i].X-b[i].X, a[i].Y-b[i].Y) > most {
			return false
		}
	}
	return true
}

// nameSheet says which paper it is, by the ratio of the sides, and starts the
// corners at the upper left.
func (j *job) nameSheet() error {
	s := j.r.Sheet
	s.Corners, s.Sigma = startUpperLeft(s.Corners, s.Sigma)
	f, doubt := j.focal()
	w, h := float64(j.m.W), float64(j.m.H)
	s.Ratio = ratioOf(s.Corners, f, w, h)
	if s.Ratio == 0 {
		return refuse("measure.bad-marks", nil)
	}
	// How far the ratio may be off, for what is not known of the lens.
	give := math.Max(math.Abs(ratioOf(s.Corners, f*(1+doubt), w, h)-s.Ratio), math.Abs(ratioOf(s.Corners, f*(1-doubt), w, h)-s.Ratio))
	give += 2 * s.Ratio * (s.Sigma[0] + s.Sigma[1] + s.Bow) / math.Sqrt(pixel.Area(s.Corners[:]))
	a4, letter := math.Abs(s.Ratio-297.0/210), math.Abs(s.Ratio-279.4/215.9)
	kind, margin := A4, letter-a4
	if letter < a4 {
		kind, margin = Letter, a4-letter
	}
	s.Kind = kind
	sure := margin > give
	if j.req.Paper != "" {
		s.Kind = j.req.Paper
		if sure && kind != j.req.Paper && math.Min(a4, letter) < 0.04+give {
			j.doubt("measure.other-paper", map[string]float64{"ratio": s.Ratio})
		}
	} else if !sure {
		j.doubt("measure.paper-unsure", map[string]float64{"ratio": s.Ratio, "give": give})
	}
	saidSo := len(j.r.Notes) > 0 && j.r.Notes[len(j.r.Notes)-1].Code == "measure.other-paper"
	if saidSo {
		return nil
	}
	long, short := s.Kind.size()
	off := math.Abs(s.Ratio - long/short)
	if off > 0.05+give {
		j.doubt("measure.odd-sheet", map[string]float64{"ratio": s.Ratio, "wanted": long / short})
	}
	// Sides that are not as paper has them lie elsewhere than was found, by so much.
	if over := off - give; over > 0 {
		by := over / s.Ratio * math.Sqrt(pixel.Area(s.Corners[:])) / 2
		for i := range s.Sigma {
			s.Sigma[i] = math.Hypot(s.Sigma[i], by)
		}
	}
	return nil
}

// startUpperLeft turns the corners so that the one nearest the photo's upper
// left comes first; the sense of turning stays.
func startUpperLeft(q [4]Point, sigma [4]float64) (p [4]Point, s [4]float64) {
	first := 0
	for i := range q {
		if q[i].X+q[i].Y < q[first].X+q[first].Y {
			first = i
		}
	}
	for i := range q {
		p[i], s[i] = q[(first+i)%4], sigma[(first+i)%4]
	}
	return p, s
}
