package scene

import (
	"encoding/binary"
	"math"
)

// Exif is what the camera notes about a photo. Zero values are left out.
type Exif struct {
	Taken       string  // local time, "2026:09:18 10:12:00"
	Zone        string  // of that time, "+01:00"
	Orientation int     // 1 to 8, as in Exif 2.32, 4.6.4 A; how the stored picture has to be turned
	Exposure    float64 // s
	Stop        float64 // f-number
	ISO         int
	Focal       float64 // mm
	Private     bool    // write an owner, a body number and a position too, which nobody should publish
}

// Field types of TIFF 6.0, section 2.
const (
	exifByte     = 1
	exifASCII    = 2
	exifShort    = 3
	exifLong     = 4
	exifRational = 5
	exifUnknown  = 7
)

// field is one entry of a directory, its value already in bytes (big-endian).
type field struct {
	tag, kind uint16
	count     uint32
	value     []byte
}

func text(tag uint16, s string) field {
	return field{tag, exifASCII, uint32(len(s) + 1), append([]byte(s), 0)}
}

func short(tag uint16, v int) field {
	return field{tag, exifShort, 1, binary.BigEndian.AppendUint16(nil, uint16(v))}
}

func long(tag uint16, v int) field {
	return field{tag, exifLong, 1, binary.BigEndian.AppendUint32(nil, uint32(v))}
}

func rationals(tag uint16, den uint32, v ...float64) field {
	f := field{tag, exifRational, uint32(len(v)), nil}
	for _, x := range v {
		f.value = binary.BigEndian.AppendUint32(f.value, uint32(math.Round(x*float64(den))))
		f.value = binary.BigEndian.AppendUint32(f.value, den)
	}
	return f
}

// directory appends the fields (in order of tags) as an image file directory
// that begins at offset at, and returns the bytes.
func directory(at int, fields []field) []byte {
	b := binary.BigEndian.AppendUint16(nil, uint16(len(fields)))
	data := at + 2 + 12*len(fields) + 4
	var tail []byte
	for _, f := range fields {
		b = binary.BigEndian.AppendUint16(b, f.tag)
		b = binary.BigEndian.AppendUint16(b, f.kind)
		b = binary.BigEndian.AppendUint32(b, f.count)
		if len(f.value) <= 4 {
			b = append(b, f.value...)
			b = append(b, make([]byte, 4-len(f.value))...)
			continue
		}
		b = binary.BigEndian.AppendUint32(b, uint32(data+len(tail)))
		tail = append(tail, f.value...)
		if len(tail)%2 == 1 {
			tail = append(tail, 0)
		}
	}
	b = append(b, 0, 0, 0, 0) // no further directory
	return append(b, tail...)
}

// size is the length that directory will give the fields.
func size(fields []field) int { return len(directory(0, fields)) }

// segment returns the APP1 segment (with its marker) for a picture stored at
// w×h pixels: Exif 2.32, 4.7.2.
func (e Exif) segment(w, h int) []byte {
	var exif []field
	if e.Exposure > 0 {
		f := rationals(0x829a, 1, 1)
		f.value = binary.BigEndian.AppendUint32(f.value[:4], uint32(math.Round(1/e.Exposure)))
		exif = append(exif, f)
	}
	if e.Stop > 0 {
		exif = append(exif, rationals(0x829d, 10, e.Stop))
	}
	if e.ISO > 0 {
		exif = append(exif, short(0x8827, e.ISO))
	}
	exif = append(exif, field{0x9000, exifUnknown, 4, []byte("0232")})
	if e.Taken != "" {
		exif = append(exif, text(0x9003, e.Taken))
	}
	if e.Zone != "" {
		exif = append(exif, text(0x9011, e.Zone))
	}
	if e.Focal > 0 {
		exif = append(exif, rationals(0x920a, 10, e.Focal))
	}
	exif = append(exif, short(0xa001, 1), long(0xa002, w), long(0xa003, h)) // sRGB, and the size
	if e.Focal > 0 {
		exif = append(exif, short(0xa405, int(math.Round(e.Focal))))
	}
	if e.Private {
		exif = append(exif, text(0xa430, "Invented Owner"), text(0xa431, "BODY-000000"))
	}
	orientation := max(e.Orientation, 1)
	first := []field{short(0x0112, orientation), rationals(0x011a, 1, 300), rationals(0x011b, 1, 300), short(0x0128, 2), long(0x8769, 0)}
	var gps []field
	if e.Private { // in the Gulf of Guinea, where no workshop stands
		gps = []field{{0x0000, exifByte, 4, []byte{2, 3, 0, 0}}, text(0x0001, "N"), rationals(0x0002, 100, 0, 7, 12.5), text(0x0003, "E"), rationals(0x0004, 100, 0, 3, 40.25)}
		first = append(first, long(0x8825, 0))
	}
	const start = 8
	at := start + size(first)
	first[4] = long(0x8769, at)
	if gps != nil {
		first[5] = long(0x8825, at+size(exif))
	}
	tiff := append([]byte("MM\x00\x2a\x00\x00\x00\x08"), directory(start, first)...)
	tiff = append(tiff, directory(at, exif)...)
	if gps != nil {
		tiff = append(tiff, directory(len(tiff), gps)...)
	}
	seg := append([]byte{0xff, 0xe1}, binary.BigEndian.AppendUint16(nil, uint16(2+6+len(tiff)))...)
	return append(append(seg, "Exif\x00\x00"...), tiff...)
}
