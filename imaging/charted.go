package imaging

import (
	"math"

	"slabfolio/imaging/chart"
	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/tone"
)

// FindChart looks for a colour chart in opened photos, nil entries passed over,
// before Develop. It returns which photo has the one that fits best, or -1.
func FindChart(photos []*Photo) (at int, found *chart.Chart) {
	at = -1
	for i, c := range inEach(photos, chart.Find) {
		if c != nil && (found == nil || c.After < found.After) {
			at, found = i, c
		}
	}
	return at, found
}

// CorrectBy puts the colours of those photos right that the chart in photo at
// speaks for: of the same camera and in the same light. Where the photo of the
// chart shares its light with none, it speaks for all others if these share one.
// It returns which photos were corrected; a photo to be left as shot never is.
func CorrectBy(photos []*Photo, at int, c *chart.Chart) []bool {
	done := make([]bool, len(photos))
	for _, i := range sameLight(photos, at) {
		if p := photos[i]; p.putRight(c.Matrix) {
			p.record(true, "colour.chart", map[string]float64{"before": c.Before, "after": c.After})
			p.Numbers["chart_before"], p.Numbers["chart_after"] = c.Before, c.After
			done[i] = true
		}
	}
	return done
}

// putRight gives a photo the matrix that puts its colours right, unless it is to be
// left as shot.
func (p *Photo) putRight(m colour.Matrix) bool {
	if p.asShot {
		return false
	}
	p.matrix = &m
	p.correct(p.small)
	p.oneEdge = nil
	return true
}

// A PlacedCard is what can only be a plain grey card in one of several photos.
type PlacedCard struct {
	Photo int // which
	chart.Card
}

// FindCards lists the plain grey cards in opened photos, nil entries passed over,
// before Develop, in the order of the photos. Where there is more than one, it is
// not for this package to say which is meant.
func FindCards(photos []*Photo) (found []PlacedCard) {
	for i, cards := range inEach(photos, chart.Cards) {
		for _, c := range cards {
			found = append(found, PlacedCard{i, c})
		}
	}
	return found
}

// inEach is what is found in the reduced copy of each photo, by its place; nothing in
// nil entries. Half of the photos are looked at beside the others.
func inEach[T any](photos []*Photo, find func(*pixel.Image) T) []T {
	found := make([]T, len(photos))
	inHalves(len(photos), func(from, to int) {
		for i := from; i < to; i++ {
			if p := photos[i]; p != nil && p.small != nil {
				found[i] = find(p.small)
			}
		}
	})
	return found
}

// BalanceBy makes the grey of a card grey, keeping its light, in the photo of the
// card and in those that CorrectBy would correct by a chart there. It returns which
// photos were balanced; a photo to be left as shot never is.
func BalanceBy(photos []*Photo, c PlacedCard) []bool {
	g := c.Grey
	y := 0.2126*g[0] + 0.7152*g[1] + 0.0722*g[2]
	m := colour.Matrix{{y / g[0]}, {0, y / g[1]}, {0, 0, y / g[2]}}
	done := make([]bool, len(photos))
	cast := math.Log2(max(g[0], g[1], g[2]) / min(g[0], g[1], g[2]))
	for _, i := range append(sameLight(photos, c.Photo), c.Photo) {
		if p := photos[i]; p.putRight(m) {
			p.record(true, "colour.card", map[string]float64{"cast": cast})
			p.Numbers["card_cast"] = cast
			done[i] = true
		}
	}
	return done
}

// sameLight are the other photos of the camera and the light of one. Where none shares
// its light, as when the chart fills the frame, all others are meant if they share one
// among themselves; a single photo always does, so there the camera has to be named.
func sameLight(photos []*Photo, at int) (mine []int) {
	var samples []tone.Sample
	var which []int
	for i, p := range photos {
		if p != nil && p.small != nil && p.Facts.Make == photos[at].Facts.Make && p.Facts.Model == photos[at].Facts.Model {
			samples, which = append(samples, p.sample()), append(which, i)
		}
	}
	groups := map[int][]int{}
	own := 0
	for k, t := range tone.Plan(samples) {
		if which[k] == at {
			own = t.Group
			continue
		}
		groups[t.Group] = append(groups[t.Group], which[k])
	}
	named := photos[at].Facts.Make != "" || photos[at].Facts.Model != ""
	if len(groups[own]) == 0 && len(groups) == 1 {
		for _, all := range groups {
			if named || len(all) > 1 {
				return all
			}
		}
	}
	return groups[own]
}

// correct takes a picture of the photo through its matrix. What is blown out keeps
// its colour, and nothing is cut off in one channel alone.
func (p *Photo) correct(m *pixel.Image) {
	if p.matrix == nil {
		return
	}
	const from, full = 0.9 * 65535, 65535.0
	for i := 0; i+2 < len(m.Pix); i += 3 {
		v := [3]float64{float64(m.Pix[i]), float64(m.Pix[i+1]), float64(m.Pix[i+2])}
		keep := min(max((max(v[0], v[1], v[2])-from)/(full-from), 0), 1)
		w := p.matrix.Apply(v)
		for k := range w {
			w[k] = max(0, w[k]+float64(keep*(v[k]-w[k])))
		}
		over := max(w[0], w[1], w[2], full) / full
		for k := range w {
			m.Pix[i+k] = uint16(w[k]/over + 0.5)
		}
	}
}
