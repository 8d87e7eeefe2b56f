package tone

import (
	"math"
	"sync"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/pixel"
)

// A view is what is measured on one photo. Levels are log2 of linear luminance,
// 0 at full scale; chroma is log2(R/G) and log2(B/G).
type view struct {
	empty, asShot, dark bool

	subject  float64 // middle level of the piece
	piece    bool    // the piece was told apart
	backdrop float64 // level of the plain backdrop; of a strongly coloured one, that of its brightest channel
	plain    bool    // there is one, and it is not blown out
	blown    bool    // there is one, and it is
	bright   float64 // level that 3 % of the frame exceed, or would if it were not clipped
	burnt    bool    // so much is blown out that bright is a guess
	lit      float64 // level of the well-lit parts of the piece
	night    float64 // linear level of the backdrop of a dark photo
	black    float64 // linear level of a veil of stray light

	backTint  [2]float64 // of the backdrop
	pieceTint [2]float64
	neutral   *[3]float64 // linear colour of what should be neutral
	sure      float64     // how sure that is
	card      bool        // from a grey card
	fault     string      // what was wrong with the card, as a note code
}

// levels is a histogram over log2 luminance, 1/128 stop a bin.
type levels struct {
	n   int
	bin [binCount]int32
}

const (
	perStop  = 128
	binCount = 16*perStop + 1
)

// binOf takes a 16-bit level to its bin.
var binOf = sync.OnceValue(func() *[65536]uint16 {
	var t [65536]uint16
	for i := range t {
		t[i] = uint16(math.Max(0, math.Min(binCount-1, math.Round((math.Log2((float64(i)+0.25)/65535)+16)*perStop))))
	}
	return &t
})

func (l *levels) add(y uint32, bins *[65536]uint16) { l.n++; l.bin[bins[y]]++ }

// at is the level below which share p of the pixels lie, interpolated within a bin.
func (l *levels) at(p float64) float64 {
	want, sum := p*float64(l.n), 0.0
	for i, c := range l.bin {
		if c > 0 && sum+float64(c) >= want {
			f := (want - sum) / float64(c)
			return (float64(i)+f-0.5)/perStop - 16
		}
		sum += float64(c)
	}
	return 0
}

// middle is the mean level between shares a and b: as steady as the median
// against a few odd pixels, and steadier against a gap in the middle.
func (l *levels) middle(a, b float64) float64 {
	lo, hi := a*float64(l.n), b*float64(l.n)
	var sum, n, seen float64
	for i, c := range l.bin {
		take := math.Min(hi, seen+float64(c)) - math.Max(lo, seen)
		if take > 0 {
			sum += take * (float64(i)/perStop - 16)
			n += take
		}
		seen += float64(c)
	}
	if n == 0 {
		return -16
	}
	return sum / n
}

// luma is the relative luminance of a 16-bit pixel (IEC 61966-2-1 weights).
func luma(r, g, b uint16) uint32 {
	return (uint32(r)*13935 + uint32(g)*46869 + uint32(b)*4732 + 32768) >> 16
}

const clipped = 64900 // of 65535: an 8-bit 254.5 or more

// measure reads a photo, thinned to about 400 pixels across: every second pixel
// of every second row of the usual copy.
func measure(s Sample) view {
	v := view{asShot: s.AsShot}
	m := s.Small
	if m == nil || m.W < 8 || m.H < 8 || len(m.Pix) < m.W*m.H*3 {
		v.empty = true
		return v
	}
	var all, piece, back, full levels // full: the backdrop's brightest channel
	var tintA, tintB, tintP tint
	var hot, blown int
	bins := binOf()
	mask := s.Frame.Mask
	step := max(1, (max(m.W, m.H)+399)/400)
	for y := step / 2; y < m.H; y += step {
		row := m.Row(y)
		for x := step / 2; x < m.W; x += step {
			r, g, b := row[3*x], row[3*x+1], row[3*x+2]
			l := luma(r, g, b)
			all.add(l, bins)
			open := max(r, g, b) < clipped
			if !open {
				hot++
			} else if mask == nil {
				tintA.add(r, g, b)
			}
			if mask == nil {
				continue
			}
			if on(mask, x, y, m) {
				piece.add(l, bins)
				if open {
					tintP.add(r, g, b)
				}
				continue
			}
			// A strongly coloured backdrop is full when one channel is, and its
			// brightest channel tells how bright it is, not its luminance.
			top := uint32(max(r, g, b))
			if top >= clipped {
				blown++
			}
			back.add(l, bins)
			full.add(top, bins)
			if open {
				tintB.add(r, g, b)
			}
		}
	}
	v.black = veil(&all)
	level := func(l float64) float64 { return math.Log2(math.Max(1e-5, math.Exp2(l)-v.black)) }
	share := float64(hot) / float64(max(1, all.n))
	v.bright, v.burnt = level(brightEnd(&all, share)), share >= 1-brightShare
	v.subject, v.piece = level(all.middle(0.3, 0.6)), piece.n > all.n/500
	if v.piece {
		v.subject = level(piece.middle(0.2, 0.7))
		v.lit = level(piece.at(0.9))
		v.pieceTint, _ = tintP.middle()
	} else {
		v.pieceTint, _ = tintA.middle()
	}
	if s.Frame.Plain && back.n > all.n/20 {
		v.blown = blown*5 > back.n*2
		v.plain = !v.blown
		v.backTint, _ = tintB.middle()
		if v.dark = darkByIntent(&all, &piece, &back); v.dark {
			v.black, v.night = 0, math.Exp2(back.at(0.75))
		}
		v.backdrop = level(back.middle(0.4, 0.6))
		if top := full.middle(0.4, 0.6); top > back.middle(0.4, 0.6)+1 {
			v.backdrop = top
		}
	} else if v.dark = darkFrame(&all); v.dark {
		v.black, v.night, v.lit = 0, math.Exp2(all.at(0.75)), all.at(brightShare)
	}
	v.findNeutral(s, &tintB)
	return v
}

// on reports whether pixel (x, y) of m lies on the mask.
func on(k *frame.Mask, x, y int, m *pixel.Image) bool {
	return k.Pix[y*k.H/m.H*k.W+x*k.W/m.W] != 0
}

// darkByIntent recognises a piece lit out of the dark: a backdrop that lies
// deep below the well-lit parts of the piece, and most of the frame with it.
func darkByIntent(all, piece, back *levels) bool {
	if piece.n == 0 {
		return false
	}
	lit := piece.at(0.9)
	return back.middle(0.25, 0.75) < lit-4.3 && back.at(0.75) < lit-3.5 && all.at(0.5) < lit-2.5
}

// darkFrame recognises the same where no plain backdrop was found, for folds of
// the black cloth or a pool of light on it: three quarters of the frame lie deep
// below its bright end. A dim room does not go so deep.
func darkFrame(all *levels) bool {
	bright := all.at(brightShare)
	return all.at(0.5) < bright-5.2 && all.at(0.75) < bright-3.5
}

// veil is the level of stray light over the whole frame, if there is any: the
// level of the darkest 0.2 %, when that is dark beside the middle of the frame.
func veil(all *levels) float64 {
	b, mid := math.Exp2(all.at(0.002)), math.Exp2(all.middle(0.3, 0.6))
	if b < 0.04*mid && b > 0.008*mid {
		return b
	}
	return 0
}

const brightShare = 0.97

// brightEnd is the level that 3 % of the frame exceed. When more than that is
// blown out it is guessed from the middle and a share that is not: levels thin
// out towards the top a little faster than a bell curve does (0.55 of its
// reach, on the real photos of the tests).
func brightEnd(all *levels, hot float64) float64 {
	const z = 1.881 // brightShare of the normal distribution
	if hot < 1-brightShare {
		return all.at(brightShare)
	}
	q, zq := 0.9, 1.2816
	switch {
	case hot > 0.35:
		return brightAim // no telling: a white sky, a lamp, or far too bright
	case hot > 0.2:
		q, zq = 0.6, 0.2533
	case hot > 0.08:
		q, zq = 0.75, 0.6745
	}
	low, at := all.at(0.4), all.at(q)
	return at + 0.55*(z-zq)*(at-low)/(zq+0.2533)
}

// tint collects chroma as two small histograms, 1/64 stop a bin.
type tint struct {
	n      int
	rg, bg [513]int32
}

func (t *tint) add(r, g, b uint16) {
	if g < 64 || r < 32 || b < 32 {
		return
	}
	bins := binOf()
	t.n++
	q := func(c uint16) int { return max(0, min(512, (int(bins[c])-int(bins[g]))/2+256)) }
	t.rg[q(r)]++
	t.bg[q(b)]++
}

// middle is the median chroma, and the span between its quartiles.
func (t *tint) middle() (mid, spread [2]float64) {
	for k, h := range [2]*[513]int32{&t.rg, &t.bg} {
		at := func(p float64) float64 {
			want, sum := p*float64(t.n), 0.0
			for i, c := range h {
				if c > 0 && sum+float64(c) >= want {
					return (float64(i) + (want-sum)/float64(c) - 0.5 - 256) / 64
				}
				sum += float64(c)
			}
			return 0
		}
		mid[k], spread[k] = at(0.5), at(0.75)-at(0.25)
	}
	return mid, spread
}
