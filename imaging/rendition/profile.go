package rendition

import (
	"encoding/binary"
	"math"
	"sync"
)

// profile returns a small ICC version 4 profile of sRGB (ICC.1:2010): primaries
// adapted to D50 and the curve as one parametric function, 520 bytes.
// Browsers take an untagged picture for sRGB as well, but print programs and
// viewers on wide screens do not all do so, and half a kilobyte settles it.
var profile = sync.OnceValue(func() []byte {
	type tag struct {
		name string
		body []byte
	}
	curve := append([]byte("para\x00\x00\x00\x00\x00\x03\x00\x00"),
		fixed(2.4, 1/1.055, 0.055/1.055, 1/12.92, 0.04045)...)
	tags := []tag{
		{"desc", mluc("sRGB")},
		{"cprt", mluc("No copyright, use freely")},
		{"wtpt", xyz(0.9642, 1, 0.8249)},
		{"chad", append([]byte("sf32\x00\x00\x00\x00"), fixed( // Bradford, D65 to D50
			1.0478860, 0.0229188, -0.0502161,
			0.0295818, 0.9904835, -0.0170787,
			-0.0092519, 0.0150726, 0.7516781)...)},
		// sRGB to XYZ D50, Bradford, derived from the primaries of IEC 61966-2-1.
		{"rXYZ", xyz(0.4360413, 0.2224845, 0.0139202)},
		{"gXYZ", xyz(0.3851129, 0.7169051, 0.0970672)},
		{"bXYZ", xyz(0.1430458, 0.0606104, 0.7139126)},
		{"rTRC", curve}, {"gTRC", nil}, {"bTRC", nil}, // the red one serves all
	}
	head := make([]byte, 128)
	copy(head[8:], "\x04\x30\x00\x00mntrRGB XYZ ")
	copy(head[24:], "\x07\xea\x00\x01\x00\x01") // 2026-01-01: fixed, so that bytes do not change
	copy(head[36:], "acsp")
	copy(head[68:], fixed(0.9642, 1, 0.8249))
	table := binary.BigEndian.AppendUint32(nil, uint32(len(tags)))
	var data []byte
	start := 128 + 4 + 12*len(tags)
	at, size := 0, 0
	for _, t := range tags {
		if t.body != nil {
			at, size = start+len(data), len(t.body)
			data = append(data, t.body...)
			data = append(data, make([]byte, -len(data)&3)...)
		}
		table = append(table, t.name...)
		table = binary.BigEndian.AppendUint32(table, uint32(at))
		table = binary.BigEndian.AppendUint32(table, uint32(size))
	}
	out := append(append(head, table...), data...)
	binary.BigEndian.PutUint32(out, uint32(len(out)))
	return out
})

// fixed returns values as s15Fixed16Number.
func fixed(values ...float64) []byte {
	var b []byte
	for _, v := range values {
		b = binary.BigEndian.AppendUint32(b, uint32(int32(math.Round(v*65536))))
	}
	return b
}

// xyz returns an XYZType of one value.
func xyz(x, y, z float64) []byte { return append([]byte("XYZ \x00\x00\x00\x00"), fixed(x, y, z)...) }

// mluc returns a multiLocalizedUnicodeType with one English text in ASCII.
func mluc(s string) []byte {
	b := []byte("mluc\x00\x00\x00\x00\x00\x00\x00\x01\x00\x00\x00\x0cenUS")
	b = binary.BigEndian.AppendUint32(b, uint32(2*len(s)))
	b = binary.BigEndian.AppendUint32(b, 28)
	for _, r := range s {
		b = append(b, 0, byte(r))
	}
	return b
}
