// Package tone decides how the photos of one piece are made to look alike: one
// exposure target for the set, one gain a photo, a white balance where a
// neutral is known, a black point and a soft shoulder. It reads reduced copies
// in linear light and gives one curve a channel; it never looks at a full photo.
//
// All its measures are ratios. A photo that comes in darker or brighter by any
// factor gets the gain that undoes it, and a photo that went through once comes
// through a second time as it is.
package tone

import (
	"math"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

// A Sample is what Plan is told of one photo.
type Sample struct {
	Small  *pixel.Image // reduced copy, upright, linear light; not changed
	Frame  frame.Result // of the same copy
	Grey   *[4]float64  // box on a neutral card: left, top, right, bottom as shares of the upright photo
	AsShot bool         // leave exposure and colour alone
}

// Limits of what is mended; beyond them the photo should be taken again.
const (
	MaxEV   = 3.0 // stops, either way
	MaxCast = 1.3 // stops between the strongest and the weakest channel gain
)

// A Treatment is what is done to one photo: for each channel
//
//	y = shoulder(2^EV · White · max(0, x − Black))
//
// in linear light, x and y from 0 to 1.
type Treatment struct {
	EV       float64    // exposure change in stops
	White    [3]float64 // channel multipliers that keep the luminance of the neutral they were taken from
	Black    float64    // linear level, of the photo as shot, that becomes black
	Shoulder float64    // linear level above which highlights are eased in; 1: nowhere
	Group    int        // lighting group, from 0, in order of first appearance
	Dark     bool       // a dark photo by intent: left dark

	Confidence float64     // of the white balance, 0 to 1
	Notes      []note.Note // tone.retake {ev, limit}: changed up to the limit, should be taken again; tone.white-unsure {cast, confidence}; tone.cast {cast, limit}; tone.grey-clipped; tone.grey-uneven
	Done       []note.Note // tone.exposure {ev}; tone.white {cooler (kelvin), magenta}; tone.black {level}; tone.shoulder {level}; tone.dark; tone.as-shot
}

// neutralTreatment changes nothing.
func neutralTreatment() Treatment {
	return Treatment{White: [3]float64{1, 1, 1}, Shoulder: 1}
}

// Plan decides on a treatment for each photo of one piece. The result is in the
// order of the samples and depends on nothing else.
func Plan(samples []Sample) []Treatment {
	out := make([]Treatment, len(samples))
	views := make([]view, len(samples))
	for i, s := range samples {
		out[i] = neutralTreatment()
		views[i] = measure(s)
	}
	groups := byLight(views)
	for i := range out {
		out[i].Group = groups[i]
		out[i].Dark = views[i].dark
	}
	balance(views, groups, out)
	expose(views, groups, out)
	for i := range out {
		out[i].finish(views[i])
	}
	return out
}

// finish applies the limits, the black point and the shoulder, and says what was done.
func (t *Treatment) finish(v view) {
	if v.asShot || v.empty {
		cast := t.Group
		*t = neutralTreatment()
		t.Group, t.Dark = cast, v.dark
		if v.asShot {
			t.Done = append(t.Done, note.Note{Code: "tone.as-shot"})
		}
		return
	}
	if math.Abs(t.EV) > MaxEV {
		t.Notes = append(t.Notes, note.Note{Code: "tone.retake", Values: map[string]float64{"ev": round(t.EV, 2), "limit": MaxEV}})
		t.EV = math.Copysign(MaxEV, t.EV)
	}
	if math.Abs(t.EV) < 0.02 {
		t.EV = 0
	}
	if v.dark {
		t.Done = append(t.Done, note.Note{Code: "tone.dark"})
	}
	if t.EV != 0 {
		t.Done = append(t.Done, note.Note{Code: "tone.exposure", Values: map[string]float64{"ev": round(t.EV, 2)}})
	}
	if t.White != [3]float64{1, 1, 1} {
		t.Done = append(t.Done, note.Note{Code: "tone.white", Values: castWords(t.White)})
	}
	if t.Black > 0 {
		t.Done = append(t.Done, note.Note{Code: "tone.black", Values: map[string]float64{"level": round(t.Black, 5)}})
	}
	for _, w := range t.White {
		if math.Exp2(t.EV)*w*(1-t.Black) > 1.0001 {
			t.Shoulder = knee
		}
	}
	if t.Shoulder < 1 {
		t.Done = append(t.Done, note.Note{Code: "tone.shoulder", Values: map[string]float64{"level": t.Shoulder}})
	}
}

func round(v float64, digits int) float64 {
	p := math.Pow(10, float64(digits))
	return math.Round(v*p) / p
}
