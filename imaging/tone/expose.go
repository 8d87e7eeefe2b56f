package tone

import (
	"math"
	"slices"
)

// What is aimed at, linear.
const (
	lightBackdrop = 0.75 // the most a backdrop is raised to: a bright wall, below the knee
	pieceLevel    = 0.22 // where the middle of the piece should lie, if the backdrop allows
	darkPiece     = 0.30 // a well-lit part of a piece on black
)

// byLight puts photos under the same light into one group, by the colour of
// their backdrop, or of the piece where there is no plain backdrop.
func byLight(views []view) []int {
	const same = 0.22 // stops of chroma
	groups := make([]int, len(views))
	type light struct {
		back, piece         [2]float64
		hasBack, dark, lead bool
	}
	var lights []light
	far := func(a, b [2]float64) float64 { return math.Hypot(a[0]-b[0], a[1]-b[1]) }
	place := func(i int, v view, mayOpen bool) {
		best, at := same, -1
		for k, l := range lights {
			if l.dark != v.dark {
				continue
			}
			d := math.Inf(1)
			switch {
			case l.hasBack && (v.plain || v.blown):
				d = far(l.back, v.backTint)
			default:
				d = far(l.piece, v.pieceTint)
			}
			if d < best {
				best, at = d, k
			}
		}
		if at < 0 {
			lights = append(lights, light{v.backTint, v.pieceTint, v.plain || v.blown, v.dark, mayOpen})
			at = len(lights) - 1
		}
		groups[i] = at
	}
	// Photos with a backdrop open the groups; the others join them.
	for i, v := range views {
		if v.plain || v.blown {
			place(i, v, true)
		}
	}
	for i, v := range views {
		if !v.plain && !v.blown {
			place(i, v, false)
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

// expose sets the gains, one lighting group after another.
func expose(views []view, groups []int, out []Treatment) {
	last := -1
	for _, g := range groups {
		last = max(last, g)
	}
	for g := 0; g <= last; g++ {
		var at []int
		for i := range views {
			if groups[i] == g && !views[i].empty && !views[i].asShot {
				at = append(at, i)
			}
		}
		exposeGroup(views, at, out)
	}
	for i := range views {
		out[i].Black = blackPoint(views[i])
	}
}

// exposeGroup brings the backdrops of a group to one level, and the photos
// without one to the level that the piece has in the others.
func exposeGroup(views []view, at []int, out []Treatment) {
	var ratios []float64
	for _, i := range at {
		if v := views[i]; v.plain && !v.dark && v.piece {
			ratios = append(ratios, v.subject-v.backdrop)
		}
	}
	if len(ratios) == 0 {
		for _, i := range at {
			out[i].EV = alone(views[i])
		}
		return
	}
	ratio := median(ratios)
	backAim := math.Min(math.Log2(lightBackdrop), math.Log2(pieceLevel)-ratio)
	pieceAim := backAim + ratio
	for _, i := range at {
		switch v := views[i]; {
		case v.plain:
			out[i].EV = backAim - v.backdrop
		default:
			out[i].EV = pieceAim - v.subject
		}
	}
}

// alone is the gain of a photo that has no plain backdrop to go by and no
// others beside it that have.
func alone(v view) float64 {
	switch {
	case v.dark:
		return 0 // meant to be dark, and well lit: a style
	case v.blown:
		// A backdrop blown white by intent says nothing of the exposure; only a
		// piece that is too bright with it does.
		return math.Min(0, math.Log2(0.30)-v.subject)
	}
	mid := v.frame
	if v.piece {
		mid = 0.5*v.subject + 0.5*v.frame
	}
	// A frame whose middle lies far above its darkest parts is a bright room,
	// not an overexposed one.
	aim := math.Log2(0.18) + 0.4*math.Max(0, math.Min(3, v.reach-2.5))
	return aim - mid
}

// blackPoint is the level of a veil of stray light, if there is one: the
// darkest parts of the frame, as long as they are dark beside its middle.
func blackPoint(v view) float64 {
	if v.empty || v.asShot || v.dark {
		return 0
	}
	if v.black < 0.04*math.Exp2(v.frame) && v.black > 0.002*math.Exp2(v.frame) {
		return v.black
	}
	return 0
}

func median(v []float64) float64 {
	s := slices.Clone(v)
	slices.Sort(s)
	if n := len(s); n%2 == 0 {
		return (s[n/2-1] + s[n/2]) / 2
	}
	return s[len(s)/2]
}
