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

// A developer is a treatment ready to be applied: all of it is tables.
type developer struct {
	white    [3]float32     // channel multipliers, the largest 1
	black    int32          // 16-bit level that becomes black
	straight uint16         // pixels with no channel above it need the straight line alone
	line     [3][]uint16    // what a channel becomes on the line
	factor   []float32      // for the brightest channel after white: what all three are multiplied by
	clip     [65536]float32 // how far a channel is clipped, 0 to 1; only where white is not neutral
	balanced bool           // white is not neutral
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
	black := int32(t.Black * 65535)
	// What is left above black is stretched to full scale, and the gain is less.
	most := max(t.White[0], t.White[1], t.White[2]) * (1 - float64(black)/65535)
	c := newCurve(math.Exp2(t.EV) * most)
	d := &developer{black: black, factor: make([]float32, 65537)}
	for k, w := range t.White {
		d.white[k] = float32(w / most)
		d.balanced = d.balanced || w < 0.9999*max(t.White[0], t.White[1], t.White[2])
		d.line[k] = make([]uint16, 65536)
		for i := range d.line[k] {
			v := c.gain * w / most * float64(max(int32(i)-d.black, 0))
			d.line[k][i] = uint16(math.Min(65535, v+0.5))
		}
	}
	d.straight = uint16(math.Min(65535, c.straightTo()*65535))
	if d.balanced { // a clipped channel has to be looked at as well
		d.straight = min(d.straight, nearFull16)
	}
	for i := range d.factor {
		x := float64(i) / 65535
		d.factor[i] = float32(c.gain)
		if x > c.straightTo() {
			d.factor[i] = float32(c.at(x) / x)
		}
	}
	for i := range d.clip {
		d.clip[i] = float32(smoothstep((float64(i)/65535 - nearFull) / (1 - nearFull)))
	}
	return d
}

// apply develops interleaved pixels in place.
func (d *developer) apply(pix []uint16) {
	lr, lg, lb := d.line[0][:65536], d.line[1][:65536], d.line[2][:65536]
	for ; len(pix) >= 3; pix = pix[3:] {
		p := pix[:3:3]
		if max(p[0], p[1], p[2]) <= d.straight {
			p[0], p[1], p[2] = lr[p[0]], lg[p[1]], lb[p[2]]
			continue
		}
		d.bright(p)
	}
}

// bright develops one pixel that is not on the straight line.
func (d *developer) bright(p []uint16) {
	var v [3]float32
	for k, x := range p {
		v[k] = d.white[k] * float32(max(int32(x)-d.black, 0))
	}
	most := max(v[0], v[1], v[2])
	if d.balanced {
		for k, x := range p {
			v[k] += float32(d.clip[x] * (most - v[k]))
		}
	}
	i := int(most)
	f := d.factor[i]
	f += float32((most - float32(i)) * (d.factor[i+1] - f))
	for k := range p {
		p[k] = uint16(min(65535, float32(v[k]*f)+0.5))
	}
}

// smoothstep rises from 0 at 0 to 1 at 1, flat at both ends.
func smoothstep(x float64) float64 {
	x = math.Max(0, math.Min(1, x))
	return x * x * (3 - 2*x)
}
