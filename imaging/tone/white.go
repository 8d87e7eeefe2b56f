package tone

import (
	"math"

	"slabfolio/imaging/note"
)

// Bounds of what a backdrop may look like to be taken for a neutral one under
// a light of another colour. Lamps differ from daylight along the blue-yellow
// axis; a backdrop that is off across it is more likely a coloured one.
const (
	mostAlong  = 0.60 // stops between red and blue
	mostAcross = 0.16 // stops of green against their mean
	mostSpread = 0.12 // stops between quartiles: wood is livelier than paper
	enough     = 0.5  // confidence from which a balance is changed
)

// A piece that is off in just the same way as the backdrop, and of another
// brightness, is a second surface that tells the light: then the bounds are wider.
// Wood is warm and never tells it, and neither does what looks like its backdrop
// in the dark.
const (
	wider                 = 0.5 // times as much, where the piece confirms it
	tintAgrees, tintElse  = 0.17, 0.25
	otherLevel, sameLevel = 2.0, 1.0   // stops between piece and backdrop
	cool, warm            = 0.15, 0.30 // of the backdrop along the blue-yellow axis, stops
)

// confirmed tells how surely the piece says the same of the light as the backdrop
// does, 0 to 1.
func (v *view) confirmed(back [2]float64) float64 {
	if !v.piece {
		return 0
	}
	return min(ramp(apart(back, v.pieceTint), tintElse, tintAgrees),
		ramp(math.Abs(v.subject-v.backdrop), sameLevel, otherLevel),
		ramp(along(back), warm, cool))
}

// along and across turn chroma into the blue-yellow and the green-magenta axis.
func along(t [2]float64) float64  { return t[0] - t[1] }
func across(t [2]float64) float64 { return (t[0] + t[1]) / 2 }

// findNeutral sets the neutral colour of the photo: the card if there is one,
// else the plain backdrop if it can pass for a neutral one.
func (v *view) findNeutral(s Sample, back *tint) {
	if s.Grey != nil {
		n, fault := card(s)
		v.fault = fault
		if fault == "" {
			v.neutral, v.sure, v.card = &n, 1, true
			return
		}
	}
	if !s.Plain || back.n < 500 {
		return
	}
	mid, spread := back.middle()
	tooFar := math.Max(math.Abs(along(mid))/mostAlong, math.Abs(across(mid))/mostAcross)
	v.lively = math.Max(spread[0], spread[1]) / mostSpread
	one := oneLight(s.Small, s.Piece)
	// What is left of a backdrop that is mostly blown out tells little.
	within := func(bound float64) float64 {
		return one * s.Sure * ramp(tooFar/bound, 1.2, 0.8) * ramp(v.lively/bound, 1.4, 0.7) * ramp(v.blown, 0.85, 0.6)
	}
	said := v.confirmed(mid)
	v.sure = within(1 + wider*said)
	v.lent = v.sure - within(1)
	for i, d := range spread { // no more than three quarters of it are off by, so that the rest is not off the other way
		mid[i] = math.Copysign(math.Max(0, math.Abs(mid[i])-said*d/2), mid[i])
	}
	v.neutral = &[3]float64{math.Exp2(mid[0]), 1, math.Exp2(mid[1])}
}

// card is the mean linear colour of the middle of the box on the grey card,
// with the odd pixels at both ends left out, or what is wrong with it.
func card(s Sample) (n [3]float64, fault string) {
	m, b := s.Small, *s.Grey
	x0, x1 := middlePart(b[0], b[2], m.W)
	y0, y1 := middlePart(b[1], b[3], m.H)
	if x1 <= x0 || y1 <= y0 {
		return n, "tone.grey-outside"
	}
	var lv [3]levels
	var sum [3]float64
	count, hot := 0, 0
	bins := binOf()
	for y := y0; y < y1; y++ {
		row := m.Row(y)
		for x := x0; x < x1; x++ {
			count++
			if max(row[3*x], row[3*x+1], row[3*x+2]) >= clipped {
				hot++
			}
			for k := range 3 {
				sum[k] += float64(row[3*x+k])
				lv[k].add(uint32(row[3*x+k]), bins)
			}
		}
	}
	if hot*50 > count {
		return n, "tone.grey-clipped"
	}
	if lv[1].at(0.9)-lv[1].at(0.1) > 1 {
		return n, "tone.grey-uneven" // not one surface: the box misses the card
	}
	for k := range 3 {
		n[k] = sum[k] / float64(count) / 65535
		if n[k] < 0.0005 {
			return n, "tone.grey-dark"
		}
	}
	return n, ""
}

// middlePart is the middle 80 % of a side of the box in pixels, at least one.
func middlePart(a, b float64, size int) (int, int) {
	if math.IsNaN(a) || math.IsNaN(b) {
		return 0, 0
	}
	a, b = math.Max(0, math.Min(a, b)), math.Min(1, math.Max(a, b))
	if b <= a {
		return 0, 0 // outside the photo
	}
	d := (b - a) * 0.1
	lo := int(math.Floor((a + d) * float64(size)))
	hi := int(math.Ceil((b - d) * float64(size)))
	return min(lo, size-1), min(hi, size)
}

// balance sets the white of each photo: by its own card, else by its own backdrop
// as far as that is surely neutral, else by that of its siblings.
func balance(views []view, groups []int, out []Treatment) {
	alone, own := make([]Treatment, len(out)), make([]float64, len(out))
	for i, v := range views {
		if v.right {
			out[i].Confidence, own[i] = 1, 1
			continue
		}
		own[i] = out[i].balanceAlone(v, cardOf(views, groups, groups[i]))
	}
	copy(alone, out)
	for i, v := range views {
		if v.right {
			continue
		}
		out[i].balanceLike(v, i, views, alone, own[i])
		out[i].balanceBeside(v, i, views, alone, own)
		out[i].sayUnsure(v)
	}
}

// cardOf is the neutral of the first photo of a lighting group with a grey card;
// nil when there is none.
func cardOf(views []view, groups []int, group int) *view {
	for i := range views {
		if groups[i] == group && views[i].card {
			return &views[i]
		}
	}
	return nil
}

// balanceAlone balances a photo by its own neutral, or by the card of a photo in
// the same light, as far as that is sure, and returns how far.
func (t *Treatment) balanceAlone(v view, card *view) (part float64) {
	if v.fault != "" {
		t.Notes = append(t.Notes, note.Note{Code: v.fault})
	}
	n, sure, exact := v.neutral, v.sure*(1-v.dark), v.card
	switch {
	case v.card:
		sure = 1
	case card != nil && v.dark == 0:
		n, sure, exact = card.neutral, 1, true
	}
	if n == nil {
		return 0
	}
	w := whiteFor(*n)
	cast := math.Log2(max(w[0], w[1], w[2]) / min(w[0], w[1], w[2]))
	t.Confidence = sure
	part = ramp(sure, enough-0.15, enough+0.25)
	if !exact {
		part *= ramp(cast, MaxCast, MaxCast-0.3)
		if cast > MaxCast {
			t.Notes = append(t.Notes, note.Note{Code: "tone.cast", Values: map[string]float64{"cast": round(cast, 2), "limit": MaxCast}})
		}
	}
	if cast > 0.015 { // less cannot be seen
		t.White = partOf(w, part)
	}
	return part
}

// partOf is a share of a white balance: 0 none of it, 1 all.
func partOf(w [3]float64, part float64) [3]float64 {
	if part <= 0 {
		return [3]float64{1, 1, 1}
	}
	for k := range w {
		w[k] = math.Pow(w[k], part)
	}
	return w
}

// sayUnsure notes that the white was left as shot for want of a neutral.
func (t *Treatment) sayUnsure(v view) {
	if v.empty || v.asShot || v.dark > 0.5 || t.Confidence >= enough || v.card {
		return
	}
	if v.tint != 0 {
		t.Notes = append(t.Notes, note.Note{Code: "tone.tinted", Values: map[string]float64{"stops": round(v.tint, 2)}})
		return
	}
	values := map[string]float64{"confidence": round(t.Confidence, 2)}
	if v.neutral != nil {
		w := whiteFor(*v.neutral)
		values["cast"] = round(math.Log2(max(w[0], w[1], w[2])/min(w[0], w[1], w[2])), 2)
	}
	t.Notes = append(t.Notes, note.Note{Code: "tone.white-unsure", Values: values})
}

// whiteFor gives the multipliers that make n grey and keep its luminance.
func whiteFor(n [3]float64) [3]float64 {
	y := 0.2126*n[0] + 0.7152*n[1] + 0.0722*n[2]
	return [3]float64{y / n[0], y / n[1], y / n[2]}
}

// castNumbers tells a white balance in words' numbers: by how many kelvin the
// picture became cooler (negative: warmer) and how far towards magenta, stops.
func castNumbers(w [3]float64) map[string]float64 {
	r, g, b := 1/w[0], 1/w[1], 1/w[2]
	x := 0.4124*r + 0.3576*g + 0.1805*b
	y := 0.2126*r + 0.7152*g + 0.0722*b
	z := 0.0193*r + 0.1192*g + 0.9505*b
	// McCamy's cubic for the correlated colour temperature (1992, from memory).
	n := (x/(x+y+z) - 0.3320) / (0.1858 - y/(x+y+z))
	k := 449*n*n*n + 3525*n*n + 6823.3*n + 5520.33
	return map[string]float64{"cooler": math.Round((6504-k)/10) * 10, "magenta": round(across([2]float64{math.Log2(w[0] / w[1]), math.Log2(w[2] / w[1])}), 3)}
}
