package tone

import "math"

// knee is where the shoulder sets in, above every level that is aimed at, so
// that aims are met exactly and a second pass finds nothing to do.
const knee = 0.82

// nearWhite: where a photo is darkened, input above this share of full scale is
// led back up to white, so that a blown highlight stays white and not grey.
const nearWhite = 0.97

// held is the linear level of 254 of 255. Where a photo is lifted, what lies
// below it stays below it, so that the last step of an 8-bit file means the
// same after as before: blown out.
const held = 0.99110

// LUTs gives the curve of each channel, 65536 entries in linear light. Each
// rises steadily from 0 to 65535, so nothing that was not clipped clips.
// Channels are treated apart: below the knee hues are exact; above it a strong
// colour pales towards white, as film does, and its hue may turn by a few degrees.
func (t Treatment) LUTs() [3][]uint16 {
	var out [3][]uint16
	for k := range out {
		lut := make([]uint16, 65536)
		c := newCurve(math.Exp2(t.EV)*t.White[k], t.Black)
		for i := range lut {
			lut[i] = uint16(math.Min(65535, math.Max(0, c.at(float64(i)/65535)*65535+0.5)))
		}
		out[k] = lut
	}
	return out
}

// A curve is a straight line through black, bent at its upper end so that full
// scale stays full scale: a shoulder where the line would end above it, a last
// rise to white where it would end below. The bend meets the line without a corner.
type curve struct {
	gain, black    float64
	from, end, top float64 // levels on the line between which it is bent, and where end comes out
}

func newCurve(gain, black float64) curve {
	c := curve{gain: gain, black: black}
	if full := gain * (1 - black); full > 1 {
		c.from, c.end, c.top = knee, gain*(held-black), held
	} else {
		c.from, c.end, c.top = nearWhite*full, full, 1
	}
	return c
}

func (c curve) at(x float64) float64 {
	y := c.gain * math.Max(0, x-c.black)
	if y <= c.from || c.end <= c.from {
		return y
	}
	if y >= c.end {
		return c.top + (1-c.top)*math.Min(1, (y-c.end)/(c.gain*(1-c.black)-c.end+1e-12))
	}
	s := (c.end - c.from) / (c.top - c.from) // the slope of the bend where it meets the line is 1
	u := (y - c.from) / (c.end - c.from)
	return c.from + (c.top-c.from)*s*u/(1+(s-1)*u)
}
