package tone

import "math"

// What tells two lamps from two backdrops, each fully from one bound and not at all
// from the other. Stops of chroma along the blue-yellow axis by which the light
// differs; off the path of daylight and glowing wire, pathWide a stop along it
// wider; shares of the piece's colours in common once the lamp is undone, and by
// how much that may be less than before; how neutral the backdrop to match is.
const (
	lampLeast, lampMost    = 0.38, 1.8
	pathNear, pathFar      = 0.03, 0.07 // stops off the path, and pathWide a stop along it more
	pathWide               = 0.02
	pathSlope              = -0.10 // stops of green a stop from blue to yellow: −0.07 to −0.12 from 3000 K to 8000 K
	gainNone, gainSure     = -0.08, 0
	commonNone, commonSure = 0.18, 0.28
	paperWarm, paperCold   = 0.10, 0.30
	besideNone, besideSure = 0.3, 0.5
	livelyMost             = 2.0
)

// balanceLike balances a photo whose own backdrop may be a coloured one, or
// lies too far from neutral to be sure, like photos of the same piece before the
// same backdrop whose backdrop is neutral. The evidence is what a lamp does and
// another backdrop does not: the colours of the piece are off by as much as those
// of the backdrop are, and have more in common once that is undone.
// A backdrop is needed on both sides; wood alone is never taken for neutral.
func (t *Treatment) balanceLike(v view, i int, views []view, alone []Treatment, own float64) {
	var like [2]float64
	var weight, most float64
	for j, o := range views {
		if j == i || v.card || v.asShot || v.empty || o.asShot || o.empty {
			continue
		}
		k := sibling(v, o) * math.Max(alone[j].paper(o), confirmed(views, alone, i, j))
		c := alone[j].balanced(o.backTint)
		like[0], like[1], weight, most = like[0]+k*c[0], like[1]+k*c[1], weight+k, math.Max(most, k)
	}
	if part := most * (1 - own); part > 0 {
		r, b := v.backTint[0]-like[0]/weight, v.backTint[1]-like[1]/weight
		w := whiteFor([3]float64{math.Exp2(r), 1, math.Exp2(b)})
		for k := range w { // what the own backdrop gave counts as far as it is sure
			t.White[k] = math.Pow(w[k], part) * math.Pow(t.White[k], 1-part)
		}
		t.Confidence = math.Max(t.Confidence, most)
	}
}

// balanceBeside balances a detail, which shows no backdrop, like the photo of the
// set whose piece has the most colours in common with it as they were shot, and
// whose white is sure: one piece of one colour twice is one light.
func (t *Treatment) balanceBeside(v view, i int, views []view, alone []Treatment, own []float64) {
	if v.colours == nil || v.card || v.asShot || v.empty {
		return
	}
	best, from := 0.0, 0
	for j, o := range views {
		if j != i && o.colours != nil && !o.empty && !o.asShot {
			k := min(1-v.plain, 1-v.dark, own[j], o.paperLike(), ramp(overlap(v.colours, o.colours, [2]float64{}), besideNone, besideSure))
			if k > best {
				best, from = k, j
			}
		}
	}
	if best > 0 {
		for k := range t.White {
			t.White[k] = math.Pow(alone[from].White[k], best) * math.Pow(t.White[k], 1-best)
		}
		t.Confidence = math.Max(t.Confidence, best)
	}
}

// confirmed tells how surely a third photo, not i, has the very backdrop of photo j.
func confirmed(views []view, alone []Treatment, i, j int) (sure float64) {
	a := views[j]
	for k, b := range views {
		if k != i && k != j && a.piece && b.piece && !b.empty && !b.asShot {
			sure = math.Max(sure, min(a.paperLike(), b.paperLike(), sameStage(a, b),
				ramp(apart(alone[j].balanced(a.backTint), alone[k].balanced(b.backTint)), 0.16, 0.06)))
		}
	}
	return sure
}

// sibling tells how surely two photos show the same piece before the same
// backdrop, whatever the lamp: 0 to 1.
func sibling(a, b view) float64 {
	if !a.piece || !b.piece {
		return 0
	}
	lamp := [2]float64{b.backTint[0] - a.backTint[0], b.backTint[1] - a.backTint[1]}
	off := math.Abs(across(lamp)-pathSlope*along(lamp)) - pathWide*math.Abs(along(lamp))
	common := overlap(a.colours, b.colours, lamp)
	return min(a.paperLike(), b.paperLike(), 1-a.dark, 1-b.dark, sameStage(a, b),
		ramp(common, commonNone, commonSure), ramp(common-overlap(a.colours, b.colours, [2]float64{}), gainNone, gainSure),
		ramp(math.Abs(along(lamp)), lampLeast, lampLeast+0.1), ramp(math.Abs(along(lamp)), lampMost, lampMost-0.2),
		ramp(off, pathFar, pathNear))
}

// paperLike tells how surely there is a backdrop of one colour, whichever.
func (v view) paperLike() float64 { return min(v.plain, ramp(v.lively, livelyMost+0.5, livelyMost)) }

// paper tells how surely the backdrop of a photo is neutral as it leaves t.
func (t Treatment) paper(v view) float64 {
	c := t.balanced(v.backTint)
	return v.paperLike() * ramp(math.Hypot(along(c), 2*across(c)), paperCold, paperWarm)
}
