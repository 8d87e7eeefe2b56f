package tone

import (
	"math"
	"sync"

	"slabfolio/imaging/pixel"
)

// Where the curve leaves the straight line, as linear levels.
const (
	// shoulderFrom is where the highlights of a photo that is lifted are eased in:
	// well below white, and above every level that is aimed at, so that aims are
	// met exactly and a second pass finds nothing to do.
	shoulderFrom = 0.66
	// held is the linear level of 254 of 255. Where a photo is lifted, what lies
	// below it stays below it, so that the last step of an 8-bit file means the
	// same after as before: blown out.
	held = 0.99110
	// nearFull is where a channel begins to count as clipped: what the sensor saw
	// above it is known less and less.
	nearFull   = 0.9
	nearFull16 = 58981 // of 65535
)

// A darkened photo comes back to its own white over so many stops below white:
// at least leastEase, and easePerStop for each stop of darkening, so that no
// step of the highlights grows by more than 1.5/easePerStop.
const (
	leastEase   = 1.5
	easePerStop = 2.5
)

// A curve takes linear levels to linear levels. It is a straight line of slope
// gain from black upwards, bent so that full scale stays full scale: a shoulder
// where the line would end above it, a way back up where it would end below.
// There is no corner, and below the bend it is exact.
type curve struct {
	gain float64
	ease float64 // stops over which a darkened photo comes back to white
}

func newCurve(gain float64) curve {
	return curve{gain: gain, ease: math.Max(leastEase, -easePerStop*math.Log2(gain))}
}

// straightTo is the level up to which the curve is the straight line.
func (c curve) straightTo() float64 {
	switch {
	case c.gain > 1:
		return shoulderFrom / c.gain
	case c.gain < 1:
		return math.Exp2(-c.ease)
	}
	return 1
}

// at is the level that x, from 0 to 1, becomes.
func (c curve) at(x float64) float64 {
	y := c.gain * x
	switch {
	case x <= c.straightTo():
		return y
	case c.gain < 1:
		t := math.Min(1, 1+math.Log2(x)/c.ease)
		return x * math.Pow(c.gain, 1-t*t*(3-2*t))
	case x >= held:
		return x
	}
	// A hyperbola whose slope is 1 where it leaves the line.
	end := c.gain * held
	s := (end - shoulderFrom) / (held - shoulderFrom)
	u := (y - shoulderFrom) / (end - shoulderFrom)
	return shoulderFrom + (held-shoulderFrom)*s*u/(1+(s-1)*u)
}

// factorBits is the precision of a factor: fine enough for levels to rise steadily.
const factorBits = 24

// A developer is a treatment ready to be applied: all of it is tables, and whole
// numbers, so that every machine gives the same.
type developer struct {
	white    [3]uint64 // channel multipliers, the largest 1, in factorBits; only where balanced
	black    int       // 16-bit level that becomes black
	straight uint16    // pixels with no channel above it need the straight line alone
	line     [3]uint64 // what a channel is multiplied by on the line, in factorBits; only where balanced
	factor   []uint32  // for the brightest channel after white: what all three are multiplied by, in factorBits
	clip     []uint32  // how far a channel is clipped, 0 to 1 in 16 bits; only where balanced
	balanced bool      // white or black is not as it was
	steady   bool      // the vector code can take it
	wide     wide      // the same for the vector code
}

// Apply gives a picture the treatment, in place. Above the straight line one
// factor, that of the brightest channel, serves all three channels, so that no
// hue turns; where a channel is clipped it is not left behind by a white balance,
// so that what is blown out stays white.
func (t Treatment) Apply(m *pixel.Image) {
	if t.neutral() {
		return
	}
	d := newDeveloper(t)
	half := m.H / 2 * m.W * 3
	var wg sync.WaitGroup
	wg.Go(func() { d.apply(m.Pix[:half]) })
	d.apply(m.Pix[half : m.H*m.W*3])
	wg.Wait()
}

// neutral reports whether the treatment changes nothing.
func (t Treatment) neutral() bool {
	return t.EV == 0 && t.Black == 0 && (t.White == [3]float64{1, 1, 1} || t.White == [3]float64{})
}

func newDeveloper(t Treatment) *developer {
	d := &developer{black: int(t.Black * 65535), factor: make([]uint32, 65536, 65537)}
	// What is left above black is stretched to full scale, and the gain is less.
	most := max(t.White[0], t.White[1], t.White[2]) * (1 - float64(d.black)/65535)
	c := newCurve(math.Exp2(t.EV) * most)
	for i := range d.factor {
		x, f := float64(i)/65535, c.gain
		if x > c.straightTo() {
			f = c.at(x) / x
		}
		d.factor[i] = uint32(f*(1<<factorBits) + 0.5)
	}
	d.balanced = d.black > 0 || min(t.White[0], t.White[1], t.White[2]) < 0.9999*max(t.White[0], t.White[1], t.White[2])
	if d.balanced {
		d.balance(t, c, most)
	}
	d.factor = append(d.factor, d.factor[65535]) // whose neighbour it is itself
	d.widen()
	return d
}

// balance makes the tables for what is more than one factor.
func (d *developer) balance(t Treatment, c curve, most float64) {
	for k, w := range t.White {
		d.white[k] = uint64(w/most*(1<<factorBits) + 0.5)
		d.line[k] = uint64(c.gain*w/most*(1<<factorBits) + 0.5)
	}
	d.straight = min(uint16(math.Min(65535, c.straightTo()*65535)), nearFull16) // a clipped channel has to be looked at as well
	d.clip = make([]uint32, 65536)
	for i := range d.clip {
		d.clip[i] = uint32(smoothstep((float64(i)/65535-nearFull)/(1-nearFull))*65536 + 0.5)
	}
}

// apply develops interleaved pixels in place.
func (d *developer) apply(pix []uint16) {
	pix = pix[d.vector(pix):]
	if d.balanced {
		d.applyBalanced(pix)
		return
	}
	d.applyPlain(pix)
}

// applyPlain is apply where one factor serves all channels.
func (d *developer) applyPlain(pix []uint16) {
	factor := d.factor[:65536]
	const half = 1 << (factorBits - 1)
	for ; len(pix) >= 3; pix = pix[3:] {
		r, g, b := uint64(pix[0]), uint64(pix[1]), uint64(pix[2])
		f := uint64(factor[max(r, g, b)])
		pix[0], pix[1], pix[2] = uint16((r*f+half)>>factorBits), uint16((g*f+half)>>factorBits), uint16((b*f+half)>>factorBits)
	}
}

// applyBalanced is apply where the channels differ. What is not on the straight
// line is carried with 8 bits more than a level.
func (d *developer) applyBalanced(pix []uint16) {
	lr, lg, lb := d.line[0], d.line[1], d.line[2]
	wr, wg, wb, black := d.white[0], d.white[1], d.white[2], d.black
	factor := d.factor[:65536]
	const round, half = 1 << (factorBits - 1), 1 << (factorBits + 7)
	for ; len(pix) >= 3; pix = pix[3:] {
		x, y, z := pix[0], pix[1], pix[2]
		top := max(x, y, z)
		r, g, b := uint64(max(int(x)-black, 0)), uint64(max(int(y)-black, 0)), uint64(max(int(z)-black, 0))
		if top <= d.straight { // on it, nothing comes near full scale
			pix[0], pix[1], pix[2] = uint16((r*lr+round)>>factorBits), uint16((g*lg+round)>>factorBits), uint16((b*lb+round)>>factorBits)
			continue
		}
		r, g, b = wr*r>>(factorBits-8), wg*g>>(factorBits-8), wb*b>>(factorBits-8)
		most := max(r, g, b)
		if top > nearFull16 {
			r += uint64(d.clip[x]) * (most - r) >> 16
			g += uint64(d.clip[y]) * (most - g) >> 16
			b += uint64(d.clip[z]) * (most - b) >> 16
		}
		i, part := most>>8, most&255
		f := (uint64(factor[uint16(i)])*(256-part) + uint64(factor[uint16(min(i+1, 65535))])*part) >> 8
		pix[0] = uint16(min(65535, (r*f+half)>>(factorBits+8)))
		pix[1] = uint16(min(65535, (g*f+half)>>(factorBits+8)))
		pix[2] = uint16(min(65535, (b*f+half)>>(factorBits+8)))
	}
}

// smoothstep rises from 0 at 0 to 1 at 1, flat at both ends.
func smoothstep(x float64) float64 {
	x = math.Max(0, math.Min(1, x))
	return x * x * (3 - 2*x)
}
