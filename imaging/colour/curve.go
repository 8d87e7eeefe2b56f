// Package colour holds the colour sums of the photo packages: the sRGB curve,
// matrices between colour spaces, CIE L*a*b*, colour difference, and what the
// values of a picture mean that came out of a file. It reads no profile; that is
// package linear's job.
package colour

import (
	"math"
	"sync"
)

// Encode is the sRGB curve: linear light 0…1 to code value 0…1 (IEC 61966-2-1).
// Outside it goes on as an odd function and along the power.
func Encode(v float64) float64 {
	switch {
	case v < 0:
		return -Encode(-v)
	case v <= 0.0031308:
		return 12.92 * v
	}
	return 1.055*math.Pow(v, 1/2.4) - 0.055
}

// Decode is the inverse of Encode.
func Decode(v float64) float64 {
	switch {
	case v < 0:
		return -Decode(-v)
	case v <= 0.04045:
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// EncodeTable returns the table from 16-bit linear light to 8-bit sRGB, correctly
// rounded. It is shared: do not write to it.
var EncodeTable = sync.OnceValue(func() *[65536]uint8 {
	t := new([65536]uint8)
	// Level k begins where the linear value of k−½ lies.
	at := 0
	for k := range 256 {
		end := 65536
		if k < 255 {
			end = int(math.Ceil(Decode((float64(k)+0.5)/255) * 65535))
		}
		for ; at < end; at++ {
			t[at] = uint8(k)
		}
	}
	return t
})

// DecodeTable returns the table from 8-bit sRGB to 16-bit linear light, rounded.
// It is shared: do not write to it.
var DecodeTable = sync.OnceValue(func() *[256]uint16 {
	t := new([256]uint16)
	for k := range t {
		t[k] = Scale16(Decode(float64(k) / 255))
	}
	return t
})

// Scale16 rounds 0…1 to 0…65535, clipping.
func Scale16(v float64) uint16 {
	if !(v > 0) {
		return 0
	}
	return uint16(min(v, 1)*65535 + 0.5)
}
