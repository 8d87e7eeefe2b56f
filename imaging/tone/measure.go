package tone

import (
	"math"
	"sync"

	"slabfolio/imaging/pixel"
)

// A view is what is measured on one photo. Levels are log2 of linear luminance,
// 0 at full scale; chroma is log2(R/G) and log2(B/G).
type view struct {
	empty, asShot, right bool

	subject float64 // middle level of the piece
	piece   bool    // the piece was told apart
	lit     float64 // level of the well-lit parts of the piece

	backdrop float64 // level of the plain backdrop; of a strongly coloured one, that of its brightest channel
	plain    float64 // how sure it is that there is one and that it is not blown out, 0 to 1
	blown    float64 // share of it that is blown out
	coloured float64 // how strongly coloured it is: 0 paper in any light, 1 blue cloth

	top   [3]float64 // level of each channel that 0.3 % of the frame exceed
	dark  float64    // how surely it is a lit piece on a dark ground, 0 to 1
	night float64    // linear level of the dark ground

	backTint  [2]float64 // of the backdrop
	pieceTint [2]float64
	colours   *[chromaSide][chromaSide]float64 // of the piece; nil when it was not told apart
	uneven    float64                          // how much the backdrop varies in level: stops between its quartiles
	neutral   *[3]float64                      // linear colour of what should be neutral
	sure      float64                          // how sure that is
	lent      float64                          // how much of that the piece alone lends it
	lively    float64                          // how much the backdrop's colour varies; 1: as much as wood
	card      bool                             // from a grey card
	fault     string                           // what was wrong with the card, as a note code
	tint      float64                          // stops by which all of it is green (negative) or magenta; 0: it is not
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
	v := view{asShot: s.AsShot, right: s.Right}
	m := s.Small
	if m == nil || m.W < 8 || m.H < 8 || len(m.Pix) < m.W*m.H*3 {
		v.empty = true
		return v
	}
	c := count(m, s.Piece)
	for k := range v.top {
		v.top[k] = c.channel[k].at(topShare)
	}
	v.readPiece(c)
	if s.Plain && c.back.n > c.all.n/20 {
		v.readBackdrop(c, s.Sure)
	} else if v.dark = darkFrame(&c.all); v.dark > 0 {
		v.night, v.lit = math.Exp2(c.all.at(0.75)), c.all.at(brightShare)
	}
	v.findNeutral(s, &c.backTint)
	v.tint = tintOf(m)
	return v
}

// counts are the pixels of a photo, added up by what they show.
type counts struct {
	all, piece, back levels
	full             levels    // the brightest channel of the backdrop
	channel          [3]levels // of all
	blown            int       // pixels of the backdrop with a full channel

	// Of pixels without a full channel:
	allTint, backTint, pieceTint tint // allTint where piece and backdrop were not told apart
	colours                      chromas
}

// count adds up the pixels of a photo; mask is the piece, nil where it was not
// told apart.
func count(m *pixel.Image, mask *pixel.Mask) *counts {
	c := new(counts)
	bins := binOf()
	step := max(1, (max(m.W, m.H)+399)/400)
	for y := step / 2; y < m.H; y += step {
		row := m.Row(y)
		for x := step / 2; x < m.W; x += step {
			r, g, b := row[3*x], row[3*x+1], row[3*x+2]
			c.all.add(luma(r, g, b), bins)
			c.channel[0].add(uint32(r), bins)
			c.channel[1].add(uint32(g), bins)
			c.channel[2].add(uint32(b), bins)
			switch {
			case mask == nil:
				if max(r, g, b) < clipped {
					c.allTint.add(r, g, b)
				}
			case mask.Holds(x, y, m.W, m.H):
				c.addPiece(r, g, b, bins)
			default:
				c.addBackdrop(r, g, b, bins)
			}
		}
	}
	return c
}

func (c *counts) addPiece(r, g, b uint16, bins *[65536]uint16) {
	c.piece.add(luma(r, g, b), bins)
	if max(r, g, b) < clipped {
		c.pieceTint.add(r, g, b)
		c.colours.add(r, g, b, bins)
	}
}

// addBackdrop adds a pixel of the backdrop. A strongly coloured one is full when
// one channel is, and its brightest channel tells how bright it is, not its
// luminance.
func (c *counts) addBackdrop(r, g, b uint16, bins *[65536]uint16) {
	top := max(r, g, b)
	c.back.add(luma(r, g, b), bins)
	c.full.add(uint32(top), bins)
	if top < clipped {
		c.backTint.add(r, g, b)
	} else {
		c.blown++
	}
}

// readPiece takes level and colour of the piece, or of the whole frame where it
// was not told apart.
func (v *view) readPiece(c *counts) {
	v.subject, v.piece = c.all.middle(0.3, 0.6), c.piece.n > c.all.n/500
	if !v.piece {
		v.pieceTint, _ = c.allTint.middle()
		return
	}
	v.subject, v.lit = c.piece.middle(0.2, 0.7), c.piece.at(0.9)
	v.pieceTint, _ = c.pieceTint.middle()
	v.colours = c.colours.blurred()
}

// readBackdrop takes level and colour of the plain backdrop, of which the framing
// is so sure, and whether the piece is lit out of the dark before it.
func (v *view) readBackdrop(c *counts, confidence float64) {
	v.blown = float64(c.blown) / float64(c.back.n)
	v.plain = ramp(confidence, 0.5, 0.8) * ramp(v.blown, 0.5, 0.3)
	v.backTint, _ = c.backTint.middle()
	v.coloured = ramp(math.Hypot(v.backTint[0], v.backTint[1]), 0.8, 1.6)
	v.backdrop, v.uneven = c.back.middle(0.4, 0.6), c.back.at(0.75)-c.back.at(0.25)
	if top := c.full.middle(0.4, 0.6); top > v.backdrop+1 {
		v.backdrop = top
	}
	v.dark, v.night = darkGround(&c.all, &c.piece, &c.back), math.Exp2(c.back.at(0.75))
}

// ramp goes evenly from 0 at none to 1 at full, whichever is the larger.
func ramp(x, none, full float64) float64 {
	return math.Max(0, math.Min(1, (x-none)/(full-none)))
}

// darkGround tells how surely a piece is lit out of the dark by intent: its
// backdrop lies deep below its well-lit parts, most of the frame with it, and
// those parts are lit.
func darkGround(all, piece, back *levels) float64 {
	if piece.n == 0 {
		return 0
	}
	lit := piece.at(0.9)
	return min(ramp(lit-back.middle(0.25, 0.75), 4, 4.6), ramp(lit-back.at(0.75), 3.2, 3.8),
		ramp(lit-all.at(0.5), 2.2, 2.8), ramp(lit, -6, -5))
}

// darkFrame tells the same where no plain backdrop was found, for folds of the
// black cloth or a pool of light on it: three quarters of the frame lie deep
// below its bright end. A dim room does not go so deep.
func darkFrame(all *levels) float64 {
	bright := all.at(brightShare)
	return min(ramp(bright-all.at(0.5), 4.9, 5.5), ramp(bright-all.at(0.75), 3.2, 3.8), ramp(bright, -6, -5))
}

const (
	brightShare = 0.97
	topShare    = 0.997
)

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
