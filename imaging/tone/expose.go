package tone

import "math"

// What is aimed at, in stops below full scale. Set on the real photos of the
// tests, most of which are rightly exposed as they are.
const (
	topAim   = 0.0   // the brightest 0.3 % of a frame are lifted to, by their brightest channel, before the shoulder
	backAim  = -0.30 // a plain backdrop alone is lifted to: white paper in good light
	backMost = -0.25 // and with others of its kind, where one is as bright, at most to
	litAim   = -0.40 // the well-lit parts of a piece are lifted to before a backdrop
	pieceAim = -1.06 // the middle of a piece no darker than its backdrop …
	darkAim  = -2.18 // … and of one that stands out from a dark backdrop
	faint    = 0.6   // stops; a lift that small is made in part
	litLow   = -3.2  // a piece lit out of the dark is left as it is while its well-lit parts are above
)

// expose sets the gains: each photo by what it shows alone, and photos before
// one backdrop brought to one level of it.
func expose(views []view, out []Treatment) {
	own, level := make([]float64, len(views)), make([]float64, len(views))
	for i, v := range views {
		if !v.empty && !v.asShot {
			own[i] = v.ownGain(out[i])
			level[i] = out[i].levelAfter(v.backdrop, own[i])
		}
	}
	for i, v := range views {
		if v.empty || v.asShot {
			continue
		}
		out[i].EV = own[i]
		if aim, sure := v.sharedLevel(views, level, out, i); sure > 0 {
			out[i].EV += sure * (out[i].lift(v.backdrop, aim) - own[i])
		}
		if lift := out[i].EV * v.dark; lift > 0 {
			out[i].Black = v.night * (1 - math.Exp2(-lift)) // what is black stays as black as it was
		}
	}
}

// levelAfter is the level that a neutral level comes out at, with a gain of ev.
func (t Treatment) levelAfter(level, ev float64) float64 {
	most := max(t.White[0], t.White[1], t.White[2])
	return math.Log2(newCurve(math.Exp2(ev) * most).at(math.Min(1, math.Exp2(level)/most)))
}

// lift is the gain that takes a level to an aim, shoulder and all; 0 where it is
// as bright already.
func (t Treatment) lift(level, aim float64) float64 {
	lo, hi := 0.0, MaxEV+1
	if t.levelAfter(level, lo) >= aim {
		return 0
	}
	for range 24 {
		if mid := (lo + hi) / 2; t.levelAfter(level, mid) < aim {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// ownGain is the gain of a photo by itself, in stops. It is lifted where nothing
// in it comes near white, and never darkened: a piece that is too bright is
// blown out, and darkening shows that only more.
func (v view) ownGain(t Treatment) float64 {
	top := math.Inf(-1)
	for k, l := range v.top { // as the white balance leaves it
		top = math.Max(top, l+math.Log2(t.White[k]))
	}
	lift := topAim - top
	if sure := v.plain * (1 - v.coloured); sure > 0 {
		lift -= sure * math.Max(0, lift-v.backdropGain())
	}
	lift = math.Max(0, lift) * smoothstep(lift/faint)
	lit := math.Max(0, litLow-v.lit)
	return lift + v.dark*(lit-lift)
}

// backdropGain is the gain that a photo may have for its plain backdrop and the piece
// before it. Where the piece stands out from a dark backdrop, that says little.
func (v view) backdropGain() float64 {
	ratio := v.subject - v.backdrop
	dark := ramp(ratio, 0, 1.5)
	return math.Min(backAim-v.backdrop, math.Min(pieceAim+dark*(darkAim-pieceAim)-v.subject, litAim-v.lit))
}

// sharedLevel is the level to which a backdrop is brought because others agree with
// it, and how surely: the mean of what their own photos give them, or the level of
// the brightest, since none is darkened for the others. Photos before other
// backdrops have no say.
func (v view) sharedLevel(views []view, level []float64, out []Treatment, i int) (aim, sure float64) {
	var sum, weight, bright float64
	bright = math.Inf(-1)
	for j, o := range views {
		k := sameBackdrop(v, o, out[i], out[j])
		if o.empty || o.asShot || k == 0 {
			continue
		}
		sum, weight = sum+k*level[j], weight+k
		if bright = math.Max(bright, level[i]+k*(level[j]-level[i])); i != j {
			sure = math.Max(sure, k)
		}
	}
	if sure == 0 {
		return 0, 0
	}
	return math.Max(sum/weight, math.Min(bright, backMost)), sure
}

// How unlike two backdrops, and the pieces before them, may be to be the same:
// fully up to the first, not at all from the second.
const (
	tintSame, tintOther     = 0.05, 0.10 // stops of chroma, once white is balanced
	ratioSame, ratioOther   = 1.0, 1.2   // stops between piece and backdrop
	unevenSame, unevenOther = 1.7, 1.9   // stops: how many times as uneven one is as the other
	evenEnough              = 0.05       // stops between quartiles; less is no difference
)

// sameBackdrop tells how surely two photos show one plain backdrop in one kind of
// light, 0 to 1: backdrops of one colour, as far from the piece before them.
func sameBackdrop(a, b view, ta, tb Treatment) float64 {
	if !a.piece || !b.piece {
		return 0
	}
	return min(a.plain, b.plain, 1-a.dark, 1-b.dark, 1-a.lent, 1-b.lent,
		ramp(apart(ta.balanced(a.backTint), tb.balanced(b.backTint)), tintOther, tintSame),
		sameStage(a, b))
}

// sameStage tells how surely two backdrops are as far from their piece in level,
// and as uneven, 0 to 1: what neither exposure nor lamp changes.
func sameStage(a, b view) float64 {
	return min(ramp(math.Abs(a.subject-a.backdrop-b.subject+b.backdrop), ratioOther, ratioSame),
		ramp(math.Abs(math.Log2((a.uneven+evenEnough)/(b.uneven+evenEnough))), unevenOther, unevenSame))
}

// apart is the distance between two chromas in stops.
func apart(a, b [2]float64) float64 { return math.Hypot(a[0]-b[0], a[1]-b[1]) }

// balanced is what a chroma becomes by the white balance.
func (t Treatment) balanced(c [2]float64) [2]float64 {
	return [2]float64{c[0] + math.Log2(t.White[0]/t.White[1]), c[1] + math.Log2(t.White[2]/t.White[1])}
}
