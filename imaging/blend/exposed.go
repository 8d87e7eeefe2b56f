package blend

import (
	"cmp"
	"math"
	"slices"

	"slabfolio/imaging/colour"
)

// What a place of a bracket is to look like, in coded values, by what it is in the best
// exposed frame. In the paper every place is to be a middle grey, which takes the light
// out of a room: a lamp and a black wall then differ by less than two greys in the frame.
const (
	exposedMid   = 0.5
	exposedSlope = 0.7  // of the best exposed frame's contrast is kept
	exposedKnee  = 0.75 // above it brightness counts in stops, so that what is white in that frame has room
	exposedRoof  = 0.88 // that no light passes
	exposedRate  = 0.4  // of what is left to the roof, a stop; after common practice, no source
	exposedClips = 0.96 // coded: above it a place may be clipped, and weighs less and less
	exposedWide  = 0.2  // spread of the weights, as published
)

// An exposedTable says how well a place is exposed by every sixteenth 16-bit value of
// linear light, from 8 on.
type exposedTable [4096]float32

// exposedTables are those of the frames used. Where the frames differ in nothing but
// their exposure, a place is well exposed where it is nearest to what it is in the frame
// that shows most, with less contrast; else, and where nothing tells, at a middle grey.
func (j *job) exposedTables(used []int) []*exposedTable {
	out := make([]*exposedTable, len(j.looks))
	stops, told := j.stopsOf(used)
	best := j.showsMost(used)
	for _, i := range used {
		t := new(exposedTable)
		times := math.Exp2(stops[best] - stops[i])
		for k := range t {
			light := (16*float64(k) + 8) / 65535
			to := exposedMid
			if told {
				to = exposedTo(light * times)
			}
			v := colour.Encode(light)
			t[k] = float32(math.Exp(-(v - to) * (v - to) / (2 * exposedWide * exposedWide)))
			if told && v > exposedClips {
				t[k] *= float32(max((1-v)/(1-exposedClips), 0.3))
			}
		}
		out[i] = t
	}
	return out
}

// exposedTo is the coded value that a place is to have whose light in the best exposed
// frame is light, above 1 where it is beyond that frame's white.
func exposedTo(light float64) float64 {
	if v := colour.Encode(min(light, 1)); v <= exposedKnee {
		return exposedMid + exposedSlope*(v-exposedMid)
	}
	const knee = exposedMid + exposedSlope*(exposedKnee-exposedMid)
	above := math.Log2(light / colour.Decode(exposedKnee))
	return knee + (exposedRoof-knee)*(1-math.Exp(-exposedRate*above))
}

// stopsOf is how many stops more light each frame has than the darkest; ok is false where
// two of them differ by more than their exposure. Frames that are black or white nearly
// all over tell it by their mean, which is too little rather than too much.
func (j *job) stopsOf(used []int) (stops []float64, ok bool) {
	list := slices.Clone(used)
	slices.SortFunc(list, func(a, b int) int { return cmp.Compare(j.looks[a].mean, j.looks[b].mean) })
	stops = make([]float64, len(j.looks))
	sum := 0.0
	for k := 1; k < len(list); k++ {
		off, apart, known := j.followed(list[k-1], list[k])
		if !known {
			apart = math.Log2(j.looks[list[k]].mean / math.Max(j.looks[list[k-1]].mean, 1e-6))
		} else if off > exposedGive {
			return stops, false
		} else {
			ok = true
		}
		sum += apart
		stops[list[k]] = sum
	}
	return stops, ok
}

// showsMost is the frame whose brightness tells most: the one of the highest entropy
// (Shannon, 1948) of its coded values, in 32 steps.
func (j *job) showsMost(used []int) int {
	best, most := used[0], -1.0
	for _, i := range used {
		var count [32]float64
		light := j.looks[i].light
		for _, v := range light {
			count[min(int(32*colour.Encode(float64(v))), 31)]++
		}
		entropy := 0.0
		for _, n := range count {
			if n > 0 {
				p := n / float64(len(light))
				entropy -= p * math.Log2(p)
			}
		}
		if entropy > most {
			best, most = i, entropy
		}
	}
	return best
}
