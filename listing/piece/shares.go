package piece

import (
	"fmt"
	"math"
)

// Shares returns the share of every wood, 0 to 1, summing to 1: what is not
// said is shared out evenly among the woods that do not say it.
func Shares(woods []Wood) []float64 {
	out := make([]float64, len(woods))
	said, silent := 0.0, 0
	for i, w := range woods {
		if w.Share.Set() && w.Share.V > 0 {
			out[i] = float64(w.Share.V) / 100
			said += out[i]
		} else if !w.Share.Set() {
			silent++
		}
	}
	for i, w := range woods {
		if !w.Share.Set() {
			out[i] = math.Max(0, 1-said) / float64(silent)
		}
	}
	sum := 0.0
	for _, v := range out {
		sum += v
	}
	for i := range out {
		if sum > 0 {
			out[i] /= sum
		} else {
			out[i] = 1 / float64(len(out))
		}
	}
	return out
}

// Together returns the woods with those that differ in nothing but their share as one,
// which has the sum of their shares: an entry twice says no more than once. Where the
// shares of two are not said they stay apart, since the others' hang on how many there
// are; if all are the same wood, they are one.
func Together(woods []Wood) []Wood {
	var out []Wood
	at := map[string]int{}
	for _, w := range woods {
		bare := w.bare()
		i, seen := at[bare]
		switch {
		case seen && w.Share.Set() && out[i].Share.Set():
			out[i].Share.V += w.Share.V
		default:
			at[bare] = len(out)
			out = append(out, w)
		}
	}
	if len(at) == 1 && len(out) > 1 {
		return out[:1:1]
	}
	return out
}

// bare is all that is said of a wood besides its share and the places.
func (w Wood) bare() string {
	m := Moisture{}
	if w.Moisture != nil {
		m = *w.Moisture
	}
	return fmt.Sprintf("%#v", []any{w.Species.V, w.Density.V, w.SpecificGravity.V, w.Moisture != nil, m.Reading.V, m.On.V, m.Meter.V, w.Cut.V, w.Grain.V, w.Country.V, w.OriginNote.V})
}
