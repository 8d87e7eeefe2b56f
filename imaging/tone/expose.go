package tone

import (
	"math"
	"slices"
)

// What is aimed at: linear levels for a backdrop and a piece before it, stops
// for the rest. Set on the real photos of the tests, most of which are rightly
// exposed as they are.
const (
	lightBackdrop = 0.62  // the most a backdrop is raised to: a bright wall, below the knee
	pieceLight    = 0.48  // the middle of a piece no darker than its backdrop …
	pieceBlown    = 0.45  // the most before a backdrop that is blown out
	litAim        = -0.75 // stops; the well-lit parts of a piece are not raised above
	pieceDark     = 0.22  // … and of one that stands out from a dark backdrop
	brightAim     = -0.60 // where 3 % of a frame without a plain backdrop lie above
	litLow        = -3.2  // a piece lit out of the dark is left as it is
	litHigh       = -0.3  // while its well-lit parts are between these
)

// byLight puts photos under the same light into one group, by the colour of
// their backdrop, or of the piece where there is no plain backdrop.
func byLight(views []view) []int {
	const same = 0.22 // stops of chroma
	groups := make([]int, len(views))
	type light struct {
		back, piece   [2]float64
		hasBack, dark bool
	}
	var lights []light
	far := func(a, b [2]float64) float64 { return math.Hypot(a[0]-b[0], a[1]-b[1]) }
	place := func(i int, v view) {
		best, at := same, -1
		for k, l := range lights {
			if l.dark != v.dark {
				continue
			}
			d := far(l.piece, v.pieceTint)
			if l.hasBack && v.plain {
				d = far(l.back, v.backTint)
			}
			if d < best {
				best, at = d, k
			}
		}
		if at < 0 {
			lights = append(lights, light{v.backTint, v.pieceTint, v.plain, v.dark})
			at = len(lights) - 1
		}
		groups[i] = at
	}
	// Photos with a backdrop open the groups; the others join them.
	for i, v := range views {
		if v.plain {
			place(i, v)
		}
	}
	for i, v := range views {
		if !v.plain {
			place(i, v)
		}
	}
	// Number the groups in order of first appearance.
	names := map[int]int{}
	for i, g := range groups {
		if _, ok := names[g]; !ok {
			names[g] = len(names)
		}
		groups[i] = names[g]
	}
	return groups
}

// expose sets the gains: one aim for the set, unless a lighting group has
// backdrops of quite another brightness beside the piece.
func expose(views []view, groups []int, out []Treatment) {
	const same = 0.8 // stops between ratios that count as one kind of backdrop
	last := -1
	for _, g := range groups {
		last = max(last, g)
	}
	byGroup := make([][]float64, last+1)
	var all, lit []float64
	for i, v := range views {
		if v.plain && !v.dark && v.piece && !v.empty && !v.asShot {
			all = append(all, v.subject-v.backdrop)
			lit = append(lit, v.lit-v.backdrop)
			byGroup[groups[i]] = append(byGroup[groups[i]], v.subject-v.backdrop)
		}
	}
	for i, v := range views {
		if v.empty || v.asShot {
			continue
		}
		out[i].Black = v.black
		if len(all) == 0 || v.dark {
			out[i].EV = alone(v)
			if v.dark && out[i].EV > 0 {
				// What is black stays as black as it was.
				out[i].Black = v.night * (1 - math.Exp2(-out[i].EV))
			}
			continue
		}
		ratio := median(all)
		if own := byGroup[groups[i]]; len(own) > 0 && math.Abs(median(own)-ratio) > same {
			ratio = median(own)
		}
		out[i].EV = v.toward(math.Min(backdropAim(ratio), litAim-median(lit)), ratio)
	}
}

// toward is the gain that brings a backdrop to aim, or the piece to where it
// lies before such a backdrop. A photo without one may show less of the piece
// than the mask says, so it is not taken far from where it would go alone.
func (v view) toward(aim, ratio float64) float64 {
	const leash = 0.35
	switch {
	case v.plain:
		return aim - v.backdrop
	case v.blown:
		// The same paper as behind the others lies at full scale here or above.
		return math.Max(aim-1.5, math.Min(aim, aim+ratio-v.subject))
	}
	own := alone(v)
	return math.Max(own-leash, math.Min(own+leash, aim+ratio-v.subject))
}

// backdropAim is the level to bring the backdrop to when the piece lies ratio
// stops above it. Ratios survive any exposure; levels do not.
func backdropAim(ratio float64) float64 {
	dark := math.Max(0, math.Min(1, ratio/1.5))
	piece := math.Log2(pieceLight) + dark*math.Log2(pieceDark/pieceLight)
	return math.Min(math.Log2(lightBackdrop), piece-ratio)
}

// alone is the gain of a photo that has no plain backdrop to go by and no
// others beside it that have.
func alone(v view) float64 {
	switch {
	case v.dark:
		return math.Max(litLow, math.Min(litHigh, v.lit)) - v.lit
	case v.blown:
		// A backdrop blown white by intent says nothing of the exposure; only a
		// piece that is too bright with it does.
		return math.Min(0, math.Log2(pieceBlown)-v.subject)
	}
	if v.burnt {
		return math.Max(0, brightAim-v.bright) // darkened, the blown parts would stand out as spots
	}
	return brightAim - v.bright
}

func median(v []float64) float64 {
	s := slices.Clone(v)
	slices.Sort(s)
	if n := len(s); n%2 == 0 {
		return (s[n/2-1] + s[n/2]) / 2
	}
	return s[len(s)/2]
}
