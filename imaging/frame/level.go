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

// rollAngle is how far the photo leans clockwise, and whether that is clear. A long
// level line alone may be the perspective of a table seen from a corner, so it
// counts only when another at another height runs parallel and none of that length
// does not, or when the uprights of both sides lean by as much and two lines more
// bear it out. A looser measure put as many real photos wrong as right, of those
// that were turned on purpose.
func rollAngle(level, plumb []line) (float64, bool) {
	var lead line
	for _, l := range level {
		if l.length > lead.length {
			lead = l
		}
	}
	if lead.length < 0.45 {
		return 0, false
	}
	if up, ok := uprightLean(plumb); ok {
		return lead.lean, math.Abs(up-lead.lean) <= 0.4 && bornOut(lead, level, plumb) >= 2
	}
	twins := 0
	for _, l := range level {
		if l != lead && l.length > 0.35 && math.Abs(l.mid-lead.mid) > 0.08 {
			if math.Abs(l.lean-lead.lean) > 0.7 {
				return 0, false
			}
			twins++
		}
	}
	return lead.lean, twins > 0
}

// bornOut counts the lines that lean as lead does: level ones at another height, and
// uprights.
func bornOut(lead line, level, plumb []line) (n int) {
	for _, l := range level {
		if l != lead && l.length > 0.25 && math.Abs(l.mid-lead.mid) > 0.05 && math.Abs(l.lean-lead.lean) < 0.5 {
			n++
		}
	}
	for _, l := range plumb {
		if l.length > 0.25 && math.Abs(l.lean-lead.lean) < 0.6 {
			n++
		}
	}
	return n
}

// uprightLean is the lean of the uprights that are not due to perspective: the
// mean of the left and the right half's medians.
func uprightLean(plumb []line) (float64, bool) {
	var left, right []float64
	for _, l := range plumb {
		if l.length < 0.25 {
			continue
		}
		if l.mid < 0.5 {
			left = append(left, l.lean)
		} else {
			right = append(right, l.lean)
		}
	}
	if len(left) == 0 || len(right) == 0 {
		return 0, false
	}
	slices.Sort(left)
	slices.Sort(right)
	return (left[len(left)/2] + right[len(right)/2]) / 2, true
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
