// Package tone decides how the photos of one piece are made to look alike: one
// level for backdrops that agree, one gain a photo, a white balance where a
// neutral is known, highlights eased in. It decides on reduced copies in linear
// light; Treatment.Apply is what changes a picture.
//
// Nothing is changed without evidence: a photo is lifted where nothing in it
// comes near white, balanced where something is surely neutral, matched where
// backdrops agree, and otherwise left as it is. Evidence fades in: no small
// change of a photo turns a correction on. A photo that went through once comes
// through a second time as it is.
package tone

import (
	"math"
	"sync"

	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

// A Sample is what Plan is told of one photo.
type Sample struct {
	Small  *pixel.Image // reduced copy, upright, linear light; not changed
	Piece  *pixel.Mask  // the piece in it; nil where it was not told apart
	Plain  bool         // the piece stands before a plain backdrop
	Sure   float64      // how sure piece and backdrop are, 0 to 1
	Grey   *[4]float64  // box on a neutral card: left, top, right, bottom as shares of the upright photo
	AsShot bool         // leave exposure and colour alone
	Right  bool         // its colours are right as they are, by a colour chart or a card: white is left alone
}

// Limits of what is mended; beyond them the photo should be taken again.
const (
	MaxEV   = 3.0 // stops, either way
	MaxCast = 1.3 // stops between the strongest and the weakest channel gain
)

// A Treatment is what is done to one photo: in linear light, x and y from 0 to 1,
//
//	y = 2^EV · White · max(0, x − Black)
//
// for each channel, with the highlights eased in by one factor for all three.
type Treatment struct {
	EV       float64    // exposure change in stops
	White    [3]float64 // channel multipliers that keep the luminance of the neutral they were taken from
	Black    float64    // linear level, of the photo as shot, that becomes black: that of the dark ground of a piece that is lit out of it
	Shoulder float64    // linear level above which highlights are eased in; 1: nowhere
	Group    int        // lighting group, from 0, in order of first appearance
	Dark     bool       // a lit piece on a dark ground: its ground is left dark

	Confidence float64     // of the white balance, 0 to 1
	Notes      []note.Note // tone.retake {ev, limit}: changed up to the limit, should be taken again; tone.white-unsure {cast, confidence}; tone.tinted {stops}: all of it is green (negative) or magenta, and was left so; tone.cast {cast, limit}; tone.grey-clipped; tone.grey-uneven
	Done       []note.Note // tone.exposure {ev}; tone.white {cooler (kelvin), magenta}; tone.black {level}; tone.shoulder {level}; tone.dark; tone.as-shot
}

// AsShot is the treatment that changes nothing.
func AsShot() Treatment {
	return Treatment{White: [3]float64{1, 1, 1}, Shoulder: 1}
}

// Plan decides on a treatment for each photo of one piece. The result is in the
// order of the samples and depends on nothing else.
func Plan(samples []Sample) []Treatment {
	out := make([]Treatment, len(samples))
	views := make([]view, len(samples))
	look := func(from, to int) {
		for i := from; i < to; i++ {
			out[i], views[i] = AsShot(), measure(samples[i])
		}
	}
	var wg sync.WaitGroup
	wg.Go(func() { look(0, len(samples)/2) })
	look(len(samples)/2, len(samples))
	wg.Wait()
	groups := byLight(views)
	for i := range out {
		out[i].Group = groups[i]
		out[i].Dark = views[i].dark > 0.5
	}
	balance(views, groups, out)
	expose(views, out)
	for i := range out {
		out[i].finish(views[i])
	}
	return out
}

// finish applies the limits and says what was done.
func (t *Treatment) finish(v view) {
	if v.asShot || v.empty {
		group := t.Group
		*t = AsShot()
		t.Group, t.Dark = group, v.dark > 0.5
		t.recordStep(v.asShot, "tone.as-shot", nil)
		return
	}
	if math.Abs(t.EV) > MaxEV {
		t.Notes = append(t.Notes, note.Note{Code: "tone.retake", Values: map[string]float64{"ev": round(t.EV, 2), "limit": MaxEV}})
		t.EV = math.Copysign(MaxEV, t.EV)
	}
	if math.Abs(t.EV) < 0.02 {
		t.EV = 0
	}
	if c := newCurve(math.Exp2(t.EV) * max(t.White[0], t.White[1], t.White[2])); math.Abs(c.gain-1) > 1e-4 {
		t.Shoulder = round(c.gain*c.straightTo(), 3)
	}
	t.recordStep(t.Dark, "tone.dark", nil)
	t.recordStep(t.EV != 0, "tone.exposure", map[string]float64{"ev": round(t.EV, 2)})
	if t.White != [3]float64{1, 1, 1} {
		t.recordStep(true, "tone.white", castNumbers(t.White))
	}
	t.recordStep(t.Black > 0, "tone.black", map[string]float64{"level": round(t.Black, 5)})
	t.recordStep(t.Shoulder < 1, "tone.shoulder", map[string]float64{"level": t.Shoulder})
}

// recordStep records a step that was taken.
func (t *Treatment) recordStep(taken bool, code string, values map[string]float64) {
	if taken {
		t.Done = append(t.Done, note.Note{Code: code, Values: values})
	}
}

func round(v float64, digits int) float64 {
	p := math.Pow(10, float64(digits))
	return math.Round(v*p) / p
}
