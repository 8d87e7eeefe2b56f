package imaging

import (
	"image/color"
	"math"
	"slices"

	"slabfolio/imaging/colour"
)

// An Accent is a pair of colours of one hue, that of the wood.
type Accent struct {
	OnWhite color.NRGBA // dark enough for text on white: 4.5:1
	OnDark  color.NRGBA // light enough for text on near black: 4.5:1 on #1c1c1c
	Hue     float64     // CIE LCh, D50, degrees
	Chroma  float64     // of the wood itself
	Sure    bool        // it is that of the piece: its outline is sure, or the photo is grain from edge to edge
}

// Wood lies between the reds of padauk and the greenish yellows of laburnum
// (common practice, no source): CIE LCh hues from 20° to 100°. Below a chroma
// of 8 a hue says nothing.
const (
	woodHueLow, woodHueHigh = 20.0, 100.0
	leastChroma             = 8.0
	contrastAA              = 4.5 // WCAG 2.2, success criterion 1.4.3
)

// SetAccent returns the accent of a set: of the first photo, in their order, that
// surely shows wood of the piece; where there is none, of the first that may. In a
// room the search may have taken the floor for the piece, and then a photo before
// paper, or one of the grain, knows better. Entries may be nil. ok is false where
// no photo has one.
func SetAccent(photos []*Photo) (a Accent, ok bool) {
	for _, p := range photos {
		if p == nil {
			continue
		}
		b, found := p.Accent()
		switch {
		case found && b.Sure:
			return b, true
		case found && !ok:
			a, ok = b, true
		}
	}
	return a, ok
}

// Accent returns the median hue of the wood in the subject, as colours for a
// page, after Develop; all of a photo counts that is grain from edge to edge. ok
// is false when no subject was told apart or too little of it, less than a tenth,
// has a hue that wood has.
func (p *Photo) Accent() (a Accent, ok bool) {
	if p.small == nil || p.Frame.Mask == nil && !p.Frame.Grain {
		return a, false
	}
	a.Sure = p.Frame.Sure || p.Frame.Grain
	var hues, chromas []float64
	toned := p.small.Clone()
	p.Tone.Apply(toned)
	n := 0
	for y := 0; y < p.small.H; y += 2 {
		row := toned.Row(y)
		for x := 0; x < p.small.W; x += 2 {
			if !p.Frame.Grain && p.Frame.Mask.At((float64(x)+0.5)/float64(p.small.W), (float64(y)+0.5)/float64(p.small.H)) == 0 {
				continue
			}
			n++
			lab := colour.Linear16ToLab(row[x*3], row[x*3+1], row[x*3+2])
			c := math.Hypot(lab.A, lab.B)
			h := math.Mod(math.Atan2(lab.B, lab.A)*180/math.Pi+360, 360)
			if c >= leastChroma && h >= woodHueLow && h <= woodHueHigh {
				hues, chromas = append(hues, h), append(chromas, c)
			}
		}
	}
	if len(hues) < 50 || len(hues)*10 < n {
		return a, false
	}
	slices.Sort(hues)
	slices.Sort(chromas)
	a.Hue, a.Chroma = hues[len(hues)/2], chromas[len(chromas)/2]
	a.OnWhite = shade(a.Hue, a.Chroma, 1, -1)
	a.OnDark = shade(a.Hue, a.Chroma, luminance(color.NRGBA{R: 0x1c, G: 0x1c, B: 0x1c}), +1)
	return a, true
}

// shade returns the colour of the hue nearest to the middle of the scale that
// stands out from a ground of the given luminance: lighter or darker step by
// step, with less chroma where sRGB cannot hold it.
func shade(hue, chroma, ground float64, direction float64) color.NRGBA {
	sin, cos := math.Sincos(hue * math.Pi / 180)
	chroma = min(max(chroma, 25), 55)
	for l := 50.0; l > 0 && l < 100; l += direction {
		for c := chroma; c >= 0; c -= 2 {
			r, g, b := colour.Lab{L: l, A: c * cos, B: c * sin}.Linear()
			if min(r, g, b) < 0 || max(r, g, b) > 1 {
				continue
			}
			v := color.NRGBA{R: code(r), G: code(g), B: code(b), A: 255}
			if contrast(luminance(v), ground) >= contrastAA {
				return v
			}
			break
		}
	}
	if direction < 0 {
		return color.NRGBA{A: 255}
	}
	return color.NRGBA{R: 255, G: 255, B: 255, A: 255}
}

func code(linear float64) uint8 { return uint8(math.Round(255 * colour.Encode(linear))) }

// luminance is the relative luminance of WCAG 2.2.
func luminance(c color.NRGBA) float64 {
	lin := func(v uint8) float64 { return colour.Decode(float64(v) / 255) }
	return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
}

// contrast is the contrast ratio of WCAG 2.2.
func contrast(a, b float64) float64 { return (max(a, b) + 0.05) / (min(a, b) + 0.05) }
