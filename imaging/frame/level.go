package frame

import (
	"math"
	"slices"

	"slabfolio/imaging/note"
)

const (
	leastTurn = 0.3 // degrees; less is not worth resampling the photo
	mostTurn  = 3.0
)

// straighten sets Angle where the photo clearly leans, and notes converging
// uprights.
func (r *Result) straighten(c *labCopy) {
	level, plumb := c.lines(false), c.lines(true)
	if a, ok := rollAngle(level, plumb); ok && math.Abs(a) >= leastTurn && math.Abs(a) <= mostTurn {
		r.Angle = math.Round(a*20) / 20
		r.Notes = append(r.Notes, note.Note{Code: "frame.straightened", Values: map[string]float64{"degrees": r.Angle}})
	}
	k, ok := fitKeystone(plumb)
	if !ok {
		return
	}
	corrected := 0.0
	if k.places >= 3 && math.Abs(k.total()) <= mostKeystone && k.worst < 0.6 {
		q := k.quad(float64(c.h) / float64(c.w))
		r.Corners, corrected = &q, 1
	}
	r.Notes = append(r.Notes, note.Note{Code: "frame.converging",
		Values: map[string]float64{"degrees": math.Round(k.total()*10) / 10, "corrected": corrected}})
}

// What makes a lean clear, set on real photos turned on purpose: most lines of a busy
// scene are perspective, and by chance some of them lean alike. So those that do
// have to be most of what there is, and lie apart.
const (
	counted   = 0.25 // length from which on a line has a say
	longLine  = 0.45 // of the longest
	longSide  = 0.40 // of an upright at either side of the photo
	alike     = 0.30 // degrees that level lines alone may be off their mean …
	alikeBoth = 0.40 // … and level and upright ones together
	mostAlike = 0.65 // share of the level lines, by length, that have to lean alike
	halfAlike = 0.50 // of all lines, where uprights of both sides are among them
	twoLines  = 1.0  // length of all of them together
	apartBy   = 0.15 // of the photo's height, between the highest and the lowest of them
)

// rollAngle is how far the photo leans clockwise, and whether that is clear. A long
// level line may be the perspective of a table seen from a corner, so it counts when
// most level lines run parallel to it, and either they lie at several heights and uprights do not
// speak against it, or uprights bear it out; or when it and uprights at both sides lean as one.
func rollAngle(level, plumb []line) (float64, bool) {
	if lean, apart, ok := levelLean(level); ok && (apart >= apartBy && !contradicted(lean, plumb) || bornOut(lean, plumb)) {
		return lean, true
	}
	return leanOfBoth(level, plumb)
}

// bundle is those of the lines long enough to count that lean like the longest of
// them, within some degrees of their mean; their mean, their length, and that of all that count.
func bundle(lines []line, within float64) (of []line, lean, length, all float64) {
	most := 0.0
	for _, l := range lines {
		if l.length >= counted {
			all += l.length
			if l.length > most {
				most, lean = l.length, l.lean
			}
		}
	}
	for range 4 { // from the longest to the mean of those around it
		sum := 0.0
		of, length = of[:0], 0
		for _, l := range lines {
			if l.length >= counted && math.Abs(l.lean-lean) <= within {
				of = append(of, l)
				length += l.length
				sum += l.length * l.lean
			}
		}
		if length == 0 {
			return nil, 0, 0, all
		}
		lean = sum / length
	}
	return of, lean, length, all
}

// levelLean is the lean of most level lines, and how far apart, as a share of the
// photo's height, the highest and the lowest of them lie.
func levelLean(level []line) (lean, apart float64, ok bool) {
	of, lean, length, all := bundle(level, alike)
	if len(of) < 2 || length < twoLines || length < mostAlike*all {
		return 0, 0, false
	}
	longest, top, low := 0.0, 1.0, 0.0
	for _, l := range of {
		longest, top, low = math.Max(longest, l.length), math.Min(top, l.mid), math.Max(low, l.mid)
	}
	return lean, low - top, longest >= longLine
}

// leansOf are the leans of uprights of some length in the left and the right half, in order.
func leansOf(plumb []line, least float64) (side [2][]float64) {
	for _, l := range plumb {
		if l.length >= least {
			k := 0
			if l.mid >= 0.5 {
				k = 1
			}
			side[k] = append(side[k], l.lean)
		}
	}
	slices.Sort(side[0])
	slices.Sort(side[1])
	return side
}

func middleOf(sorted []float64) float64 { return sorted[len(sorted)/2] }

// contradicted reports whether long uprights lean otherwise, other than by perspective.
func contradicted(lean float64, plumb []line) bool {
	const least, oneSide, bothSides = 0.35, 1.0, 0.5
	switch s := leansOf(plumb, least); {
	case len(s[0]) > 0 && len(s[1]) > 0: // towards each other is perspective; the mean of both sides is not
		return math.Abs((middleOf(s[0])+middleOf(s[1]))/2-lean) > bothSides
	case len(s[0])+len(s[1]) > 0:
		return math.Abs(middleOf(append(s[0], s[1]...))-lean) > oneSide
	}
	return false
}

// bornOut reports whether two uprights or more at either side, which lean alike there,
// lean so together.
func bornOut(lean float64, plumb []line) bool {
	const most, off = 0.8, 0.4
	s := leansOf(plumb, counted)
	for _, l := range s {
		if len(l) < 2 || l[len(l)-1]-l[0] > most {
			return false
		}
	}
	return math.Abs((middleOf(s[0])+middleOf(s[1]))/2-lean) <= off
}

// leanOfBoth is the lean of a long level line and uprights at both sides of the photo,
// where half of all lines lean so.
func leanOfBoth(level, plumb []line) (float64, bool) {
	of, lean, length, all := bundle(append(slices.Clone(level), plumb...), alikeBoth)
	var long, left, right bool
	for _, l := range of {
		switch {
		case !l.upright:
			long = long || l.length >= longLine
		case l.length >= longSide:
			left, right = left || l.mid < 0.4, right || l.mid > 0.6
		}
	}
	return lean, long && left && right && length >= halfAlike*all
}

// mostKeystone is the most that uprights may converge from edge to edge of the
// photo to be put right, degrees. More is a point of view, not a slip.
const mostKeystone = 8

// A keystone is how uprights lean across the photo: mid + slope·(x − ½) degrees
// at share x.
type keystone struct {
	mid, slope float64
	worst      float64 // largest distance of a line from that, degrees
	places     int     // at how many places, well apart, uprights were seen
}

// total is by how much they lean towards each other at the top, left edge
// against right; negative: apart.
func (k keystone) total() float64 { return -k.slope }

// fitKeystone fits the law that upright lines of the scene follow when the camera
// looks up or down. Both sides of the photo must show an upright with two
// edges; legs that splay break the law and are left alone.
func fitKeystone(plumb []line) (keystone, bool) {
	var k keystone
	var n, sx, sy, sxx, sxy float64
	left, right := 0, 0
	var at []float64
	for _, l := range plumb {
		if l.length < 0.22 {
			continue
		}
		x := l.mid - 0.5
		n += l.length
		sx += l.length * x
		sy += l.length * l.lean
		sxx += l.length * x * x
		sxy += l.length * x * l.lean
		switch {
		case x < -0.08:
			left++
		case x > 0.08:
			right++
		}
		if !slices.ContainsFunc(at, func(p float64) bool { return math.Abs(p-l.mid) < 0.07 }) {
			at = append(at, l.mid)
		}
	}
	k.places = len(at)
	den := n*sxx - sx*sx
	if left < 2 || right < 2 || slices.Max(at)-slices.Min(at) < 0.35 || den <= 0 {
		return k, false
	}
	k.slope = (n*sxy - sx*sy) / den
	k.mid = (sy - k.slope*sx) / n
	for _, l := range plumb {
		if l.length >= 0.22 {
			k.worst = math.Max(k.worst, math.Abs(l.lean-k.mid-k.slope*(l.mid-0.5)))
		}
	}
	return k, k.worst < 0.8 && math.Abs(k.slope) > 1.5
}

// quad is the part of the photo that becomes the frame when uprights are set
// upright; aspect is height over width. The mean lean is left to Angle.
func (k keystone) quad(aspect float64) [4][2]float64 {
	off := func(x float64) float64 { // shift at the top edge, as a share of the width
		return math.Tan(k.slope*(x-0.5)*math.Pi/180) * aspect / 2
	}
	a, b := off(0), off(1)
	return [4][2]float64{{a, 0}, {1 + b, 0}, {1 - b, 1}, {-a, 1}}
}
