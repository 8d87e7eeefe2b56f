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
func (r *Result) straighten(c *labCopy, f finding) {
	level, plumb := c.lines(false), c.lines(true)
	if a, ok := roll(level, plumb); ok && math.Abs(a) >= leastTurn && math.Abs(a) <= mostTurn {
		r.Angle = math.Round(a*20) / 20
		r.Notes = append(r.Notes, note.Note{Code: "frame.straightened", Values: map[string]float64{"degrees": r.Angle}})
	}
	if d, ok := converging(plumb); ok {
		r.Notes = append(r.Notes, note.Note{Code: "frame.converging", Values: map[string]float64{"degrees": d, "corrected": 0}})
	}
}

// roll is how far the photo leans clockwise, and whether that is clear. A long
// level line alone may be the perspective of a table seen from a corner, so it
// counts only when a second one at another height runs parallel, or uprights
// lean by as much, or when it crosses nearly the whole photo and nothing speaks
// against it.
func roll(level, plumb []line) (float64, bool) {
	var lead line
	for _, l := range level {
		if l.length > lead.length {
			lead = l
		}
	}
	up, upOK := uprightLean(plumb)
	if lead.length >= 0.45 {
		if upOK {
			if math.Abs(up-lead.lean) <= 0.6 {
				return lead.lean, true
			}
			return 0, false
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
		if twins > 0 || lead.length > 0.85 {
			return lead.lean, true
		}
		return 0, false
	}
	return 0, false
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

// converging is by how many degrees uprights on the left and right lean towards
// each other at the top (negative: apart), when at least two on each side agree.
func converging(plumb []line) (float64, bool) {
	var left, right []float64
	for _, l := range plumb {
		switch {
		case l.length < 0.25:
		case l.mid < 0.42:
			left = append(left, l.lean)
		case l.mid > 0.58:
			right = append(right, l.lean)
		}
	}
	if len(left) < 2 || len(right) < 2 {
		return 0, false
	}
	slices.Sort(left)
	slices.Sort(right)
	if left[len(left)-1]-left[0] > 1.2 || right[len(right)-1]-right[0] > 1.2 {
		return 0, false
	}
	d := left[len(left)/2] - right[len(right)/2]
	return math.Round(d*10) / 10, math.Abs(d) > 1.5
}
