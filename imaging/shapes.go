package imaging

import (
	"math"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/note"
	"slabfolio/imaging/rendition"
)

// A filling is what stands in a rendition where there is no photo.
type filling int

const (
	photoAlone filling = iota // there is photo everywhere
	backdrop                  // the backdrop, carried on
	ground                    // a plain ground: the one asked for, or of the one colour that the photo's edge is of
	narrow                    // nothing: the picture is as wide, or as high, as the photo allows
)

// A shape is where a rendition with a ratio of its own is taken from.
type shape struct {
	source [4]float64 // in pixels of the straightened photo
	whole  bool       // all that has to be in it is in it
	filling
	rim    [4]float64 // what is left off the photo at each edge that the backdrop is carried on from, in its pixels
	colour *[3]uint16 // of the ground, as it comes out; nil: not known yet
}

// inside is the part of the straightened photo, in its pixels, that shows
// nothing but photo.
func (p *Photo) inside() [4]float64 {
	b, w, h := p.Frame.Inside, float64(p.W), float64(p.H)
	return [4]float64{b[0] * w, b[1] * h, b[2] * w, b[3] * h}
}

// A form is what the shape of a size hangs on.
type form struct {
	rw, rh int
	cut    bool // the piece is put on a ground of its own
}

func (p *Photo) formOf(s rendition.Size) form {
	return form{s.RatioW, s.RatioH, p.cutout != nil && p.groundOf(s.Ground) != nil}
}

// shapeOf returns the shape of a form.
func (p *Photo) shapeOf(k form) shape {
	if s, ok := p.shapes[k]; ok {
		return s
	}
	s := p.chosen(k)
	if s.filling != narrow { // that has all of the photo's own pixels
		s.source = p.onPixels(s.source, k)
	}
	return s
}

// chosen is the shape of a form wherever its edges come to lie.
func (p *Photo) chosen(k form) shape {
	f := p.Frame.Shape(p.W, p.H, k.rw, k.rh, p.room())
	if !f.Beyond {
		return p.withAir(shape{source: p.offRim(f, k).Source, whole: f.Whole}, k)
	}
	s := shape{source: f.Source, whole: f.Whole}
	switch {
	case k.cut:
		s.filling = ground // the same all over, so nothing shows where the photo ends
	case p.carriesOn(f.Source):
		s = p.withAir(shape{source: f.Source, whole: f.Whole, filling: backdrop, rim: p.rim(f.Source)}, k)
	case p.seamless() && p.canStandOn(p.withMargin(k)):
		s.filling, s.source = ground, p.withMargin(k)
		s.rim = p.rim(s.source)
	case p.Frame.Sure && !p.Frame.Kept:
		s.filling, s.source, s.whole = narrow, p.around(p.withRoom(false, narrowAir), k), true
	default:
		s.filling = narrow
		f = p.Frame.Shape(p.W, p.H, k.rw, k.rh, frame.Close)
		s.source, s.whole = centred(f.Source, p.inside()), f.Whole
		if all := p.cropBox(); !p.Frame.Kept && boxArea(p.seen(s.source)) > worthTrimming*boxArea(all) {
			s.source, s.whole = p.around(all, k), true
		}
	}
	return s
}

// worthTrimming is the share of the crop that may be left of it at most in a picture that does not
// come to its shape even so: to lose less for a shape that is not reached is to lose it for nothing.
const worthTrimming = 0.8

// cropBox is the crop in pixels of the straightened photo.
func (p *Photo) cropBox() [4]float64 {
	c, w, h := p.Frame.Crop, float64(p.W), float64(p.H)
	return [4]float64{c[0] * w, c[1] * h, c[2] * w, c[3] * h}
}

// seen is what of a source is photo.
func (p *Photo) seen(source [4]float64) [4]float64 {
	_, part := p.beyond(source)
	return part
}

func boxArea(b [4]float64) float64 { return (b[2] - b[0]) * (b[3] - b[1]) }

// carriesOn reports whether the backdrop can be carried on for a source that
// reaches out of the photo.
func (p *Photo) carriesOn(source [4]float64) bool {
	return p.Frame.Sure && p.Frame.Plain && p.canBeExtended(source)
}

// air is the room that there should be beside a piece, as a share of the longer side
// of its box; scant is the share of that below which some is made, where it can be, and
// aside by how much, as a share of the picture's width, a piece may stand off its middle.
const (
	air   = 0.09
	scant = 0.8
	aside = 0.03
)

// narrowAir is the same where the picture is no wider, or higher, than the photo allows.
const narrowAir = 0.05

// withAir is a shape with more room beside a sure piece that has hardly any, or stands
// aside, where the photo itself, its backdrop or a ground of its colour gives it without a trace.
func (p *Photo) withAir(s shape, k form) shape {
	if !p.Frame.Sure || p.Frame.Kept || k.cut || p.room() == frame.Filled {
		return s
	}
	seamless := p.seamless()
	b, d, in := p.withRoom(seamless, air), p.roomBeside(air), p.inside()
	mid := (p.Frame.Subject[0] + p.Frame.Subject[2]) / 2 * float64(p.W)
	tight := math.Abs(s.source[0]+s.source[2]-2*mid) > 2*aside*(s.source[2]-s.source[0])
	for i := range 2 {
		tight = tight || s.source[i]-b[i] > (1-scant)*d || b[i+2]-s.source[i+2] > (1-scant)*d
	}
	if !tight {
		return s
	}
	for i := range 2 { // what was there stays
		b[i], b[i+2] = math.Min(b[i], math.Max(s.source[i], in[i])), math.Max(b[i+2], math.Min(s.source[i+2], in[i+2]))
	}
	to := shape{source: p.around(b, k), whole: s.whole, filling: backdrop}
	if c := p.centredOn(mid, to.source); p.carriesOn(c) || seamless && p.canStandOn(c) {
		to.source = c
	}
	switch edges, _ := p.beyond(to.source); {
	case edges == [4]bool{}:
		return shape{source: to.source, whole: s.whole}
	case p.carriesOn(to.source):
	case seamless && p.canStandOn(to.source):
		to.filling = ground
	default:
		return s
	}
	to.rim = p.rim(to.source)
	return to
}

// centredOn is a source moved sideways so that its middle is at mid, both in pixels of
// the straightened photo, as far as the crop stays in it.
func (p *Photo) centredOn(mid float64, f [4]float64) [4]float64 {
	need, lo, hi := f[2]-f[0], p.Frame.Crop[0]*float64(p.W), p.Frame.Crop[2]*float64(p.W)
	f[0] = math.Max(math.Min(lo, hi-need), math.Min(math.Max(lo, hi-need), mid-need/2))
	f[2] = f[0] + need
	return f
}

// roomBeside is a share of the longer side of the piece's box, in pixels.
func (p *Photo) roomBeside(share float64) float64 {
	s := p.Frame.Subject
	return share * math.Max((s[2]-s[0])*float64(p.W), (s[3]-s[1])*float64(p.H))
}

// withRoom is the box of a sure piece with some room beside it, see roomBeside, in
// pixels of the straightened photo, which it may reach out of. Where the piece
// touches the edge of the photo it may go on, and no room is made unless asked for.
func (p *Photo) withRoom(all bool, share float64) [4]float64 {
	s, d, in := p.Frame.Subject, p.roomBeside(share), p.inside()
	b := [4]float64{s[0] * float64(p.W), s[1] * float64(p.H), s[2] * float64(p.W), s[3] * float64(p.H)}
	out := p.runsOut()
	for i := range 2 {
		if all && !out[i] || b[i]-in[i] > touching*d {
			b[i] -= d
		}
		if all && !out[i+2] || in[i+2]-b[i+2] > touching*d {
			b[i+2] += d
		}
	}
	return b
}

// touching is the share of the room that there should be beside a piece at which it
// touches the edge of the photo.
const touching = 0.05

// around is the least source of a form that holds a box: within the photo where it
// fits, around all of the photo where that fits, with the box in the middle.
func (p *Photo) around(b [4]float64, k form) [4]float64 {
	ratio, in := float64(k.rw)/float64(k.rh), p.inside()
	wide := math.Max(b[2]-b[0], (b[3]-b[1])*ratio)
	var out [4]float64
	for i, need := range [2]float64{wide, wide / ratio} {
		lo := (b[i] + b[i+2] - need) / 2
		least, most := math.Min(in[i], in[i+2]-need), math.Max(in[i], in[i+2]-need)
		lo = math.Max(least, math.Min(most, lo))
		lo = math.Max(b[i+2]-need, math.Min(b[i], lo))
		out[i], out[i+2] = lo, lo+need
	}
	return out
}

// offRim is a placement within the photo moved or narrowed so that it stays off the
// photo's own edge, see rimShare, where nothing that has to be in it is lost by that.
func (p *Photo) offRim(f frame.Placement, k form) frame.Placement {
	if p.Frame.Kept {
		return f
	}
	r := p.Frame
	d := math.Ceil(rimShare * float64(max(p.W, p.H)))
	dx, dy := d/float64(p.W), d/float64(p.H)
	r.Inside = [4]float64{math.Max(r.Inside[0], dx), math.Max(r.Inside[1], dy), math.Min(r.Inside[2], 1-dx), math.Min(r.Inside[3], 1-dy)}
	if g := r.Shape(p.W, p.H, k.rw, k.rh, p.room()); !g.Beyond && g.Whole == f.Whole {
		return g
	}
	return f
}

// onPixels puts the edges of a source between pixels where the photo was not
// straightened, by less than a pixel for each of the ratio's: see wholePixels. What
// lies within the photo still does.
func (p *Photo) onPixels(f [4]float64, k form) [4]float64 {
	if !p.Frame.Source(p.W, p.H).Plain() {
		return f
	}
	const e = 1e-6
	in, ratio := p.inside(), [2]float64{float64(k.rw), float64(k.rh)}
	n := math.Ceil((f[2]-f[0])/ratio[0] - e)
	if edges, _ := p.beyond(f); edges == [4]bool{} {
		n = math.Floor((f[2]-f[0])/ratio[0] + e)
	}
	for i := range 2 {
		if most := in[i+2] - in[i]; f[i+2]-f[i] <= most+0.5 && n*ratio[i] > most+e {
			n = math.Floor(math.Min(n, most/ratio[i]+e))
		}
	}
	if n < 1 {
		return f
	}
	for i := range 2 {
		need := n * ratio[i]
		lo := math.Floor((f[i]+f[i+2]-need)/2 + 0.5)
		if f[i] >= in[i]-0.5 && lo < in[i]-e { // it stays in the photo
			lo = math.Ceil(in[i] - e)
		}
		if f[i+2] <= in[i+2]+0.5 && lo+need > in[i+2]+e {
			lo = math.Floor(in[i+2] - need + e)
		}
		f[i], f[i+2] = lo, lo+need
	}
	return f
}

// withMargin is the source of a form on a ground that does not show: all of the
// crop, and room beside a piece that touches the edge of the photo. Beyond an edge that
// the piece runs out of there is none, as far as the form allows.
func (p *Photo) withMargin(k form) [4]float64 {
	w, h, c, s := float64(p.W), float64(p.H), p.Frame.Crop, p.Frame.Subject
	d := margin * math.Max((s[2]-s[0])*w, (s[3]-s[1])*h)
	b := [4]float64{c[0] * w, c[1] * h, c[2] * w, c[3] * h}
	out, in := p.runsOut(), p.inside()
	for i, at := range [4]float64{s[0]*w - d, s[1]*h - d, s[2]*w + d, s[3]*h + d} {
		switch {
		case out[i]:
		case i < 2:
			b[i] = math.Min(b[i], at)
		default:
			b[i] = math.Max(b[i], at)
		}
	}
	ratio := float64(k.rw) / float64(k.rh)
	wide := math.Max(b[2]-b[0], (b[3]-b[1])*ratio)
	x, y := (b[0]+b[2]-wide)/2, (b[1]+b[3]-wide/ratio)/2
	f := [4]float64{x, y, x + wide, y + wide/ratio}
	if p.Frame.Sure {
		f = p.centredOn((s[0]+s[2])/2*w, f)
	}
	for i := range 2 {
		by := 0.0
		switch {
		case out[i] && f[i] < in[i]:
			by = in[i] - f[i]
		case out[i+2] && f[i+2] > in[i+2]:
			by = in[i+2] - f[i+2]
		}
		f[i], f[i+2] = f[i]+by, f[i+2]+by
	}
	return f
}

// margin is the room beside a piece on a ground that does not show, as a share of
// the longer side of its box.
const margin = 0.04

// planShapes settles the shapes of all sizes that Open was told of and records what
// was done for them.
func (p *Photo) planShapes() {
	p.planning = true
	defer func() { p.planning = false }()
	for _, s := range p.opts.Sizes {
		key := p.formOf(s)
		if _, known := p.shapes[key]; known || s.RatioW <= 0 || s.RatioH <= 0 {
			continue
		}
		sh := p.shapeOf(key)
		p.shapes[key] = sh
		v := map[string]float64{"ratio_w": float64(s.RatioW), "ratio_h": float64(s.RatioH)}
		p.record(sh.filling == backdrop, "frame.padded", v)
		p.record(sh.filling == ground && !key.cut, "frame.ground", v)
		p.record(sh.filling == narrow, "frame.narrow", v)
		p.record(!sh.whole, "frame.filled", v)
		sure := p.Frame.Sure || p.Frame.Kept
		switch {
		case sh.filling == narrow && sure:
			p.Notes = append(p.Notes, note.Note{Code: "frame.narrow", Values: v})
		case sh.filling == narrow:
			p.Notes = append(p.Notes, note.Note{Code: "frame.unsure", Values: v})
		case sh.filling == ground && !key.cut && !sure:
			p.Notes = append(p.Notes, note.Note{Code: "frame.beyond", Values: v})
		}
	}
}

// room is what pictures of other shapes are to do where the photo does not reach:
// those of a part of the piece are filled with it, and those of nothing but grain,
// where nobody said that it is all of the piece.
func (p *Photo) room() frame.Room {
	if !p.Frame.Kept && (p.shows == PartOfIt || p.shows == Unsaid && p.Frame.Grain) {
		return frame.Filled
	}
	return frame.Roomy
}

// centred moves a source that reaches out of the photo so that it does so on both
// sides alike. (A mat all around, tried where that leaves narrow strips, looked
// like a mistake to those who scored the pictures blind.)
func centred(f, in [4]float64) [4]float64 {
	for i := range 2 {
		need := f[i+2] - f[i]
		if need > in[i+2]-in[i] {
			f[i] = (in[i] + in[i+2] - need) / 2
			f[i+2] = f[i] + need
		}
	}
	return f
}
