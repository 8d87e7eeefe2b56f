package decode

import (
	"bytes"
	"math"
	"strings"

	"github.com/rwcarlsen/goexif/exif"

	"slabfolio/imaging/note"
)

// An exifInfo is what an Exif block says.
type exifInfo struct {
	orientation int // 0: not told
	space       string
	facts       Facts
	damaged     bool
}

// applyExif reads block (TIFF-shaped, without the Exif\0\0 mark) into s. upright
// says that the file's format leaves orientation to Exif.
func applyExif(s *Source, block []byte, upright bool) {
	block = bytes.TrimPrefix(block, []byte("Exif\x00\x00"))
	if len(block) == 0 {
		return
	}
	info := readExif(block)
	switch {
	case info.damaged && info.orientation == 0:
		s.Notes = append(s.Notes, note.Note{Code: "decode.bad-exif"}) // it may lie on its side
	case info.damaged:
		s.Notes = append(s.Notes, note.Note{Code: "decode.exif-partly"})
	}
	if upright && info.orientation != 0 {
		s.Orientation = info.orientation
	}
	if s.Space == "" {
		s.Space = info.space
	}
	s.Facts = info.facts
}

// readExif hands a sound copy of the block to the Exif reader, and takes from
// it what is well-formed. It never panics.
func readExif(block []byte) (info exifInfo) {
	g, ok := guardExif(block)
	if !ok {
		return exifInfo{damaged: true}
	}
	info.damaged = g.damaged
	defer func() {
		if recover() != nil {
			info = exifInfo{damaged: true}
		}
	}()
	x, err := exif.Decode(bytes.NewReader(g.block))
	if x == nil || err != nil && exif.IsCriticalError(err) {
		info.damaged = true
		return info
	}
	if o := number(x, exif.Orientation); o >= 1 && o <= 8 {
		info.orientation = int(o)
	} else if o != 0 {
		info.damaged = true
	}
	switch {
	case number(x, exif.ColorSpace) == 1:
		info.space = "srgb"
	case number(x, exif.ColorSpace) == 2, // written by some cameras, against the standard
		text(x, exif.InteroperabilityIndex) == "R03": // DCF option file: Adobe RGB
		info.space = "adobe-rgb"
	}
	f := &info.facts
	for _, name := range []exif.FieldName{exif.DateTimeOriginal, exif.DateTimeDigitized, exif.DateTime} {
		if f.Taken = taken(text(x, name)); f.Taken != "" {
			f.Taken += g.offset
			break
		}
	}
	f.Make, f.Model = text(x, exif.Make), text(x, exif.Model)
	f.ExposureTime = number(x, exif.ExposureTime)
	f.FNumber = number(x, exif.FNumber)
	f.ISO = number(x, exif.ISOSpeedRatings)
	f.FocalLength = number(x, exif.FocalLength)
	f.FocalLength35 = number(x, exif.FocalLengthIn35mmFilm)
	return info
}

// number returns the first value of a numeric tag; 0 where there is none, or
// where it is not a finite positive number.
func number(x *exif.Exif, name exif.FieldName) float64 {
	t, err := x.Get(name)
	if err != nil || t.Count < 1 {
		return 0
	}
	var v float64
	if n, d, err := t.Rat2(0); err == nil {
		if d == 0 {
			return 0
		}
		v = float64(n) / float64(d)
	} else if i, err := t.Int(0); err == nil {
		v = float64(i)
	} else if f, err := t.Float(0); err == nil {
		v = f
	}
	if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
		return 0
	}
	return v
}

// text returns a text tag without padding, at most 64 printable characters.
func text(x *exif.Exif, name exif.FieldName) string {
	t, err := x.Get(name)
	if err != nil {
		return ""
	}
	s, err := t.StringVal()
	if err != nil {
		return ""
	}
	if i := strings.IndexByte(s, 0); i >= 0 {
		s = s[:i]
	}
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0xfffd || r == 0x7f {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))
	s = strings.TrimSpace(s)
	if r := []rune(s); len(r) > 64 {
		s = string(r[:64])
	}
	return s
}

// taken turns Exif's "2026:09:18 14:03:11" into "2026-09-18T14:03:11", with no
// zone, since a camera's clock has none. It returns "" for an unset clock or
// anything that is no date.
func taken(s string) string {
	if len(s) < 19 {
		return ""
	}
	s = s[:19]
	part := []string{s[:4], s[5:7], s[8:10], s[11:13], s[14:16], s[17:19]}
	limit := [][2]int{{1826, 9999}, {1, 12}, {1, 31}, {0, 23}, {0, 59}, {0, 60}}
	for i, p := range part {
		if !digits(p) {
			return ""
		}
		n := 0
		for _, c := range p {
			n = n*10 + int(c-'0')
		}
		if n < limit[i][0] || n > limit[i][1] {
			return ""
		}
	}
	return strings.Join(part[:3], "-") + "T" + strings.Join(part[3:], ":")
}
