package chart

import (
	"cmp"
	"math"
	"slices"

	"slabfolio/imaging/pixel"
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
