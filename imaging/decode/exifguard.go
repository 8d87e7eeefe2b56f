package decode

import (
	"bytes"
	"sort"
)

// Exif tags that the guard knows (CIPA DC-008).
const (
	tagOrientation    = 0x0112
	tagExifIFD        = 0x8769
	tagGPSIFD         = 0x8825
	tagInteropIFD     = 0xa005
	tagMakerNote      = 0x927c
	tagOffsetTime     = 0x9010
	tagOffsetTimeOrig = 0x9011
)

// longestValue bounds the values that are passed on: camera names and dates, not
// maker notes and comments.
const longestValue = 256

// A guarded block holds what a trusting Exif reader can be given: a block written
// anew from the sound, short entries of the directories that matter. Thumbnail,
// maker notes and position are not among them.
type guarded struct {
	block   []byte
	damaged bool   // something was left out, since it makes no sense
	offset  string // OffsetTimeOriginal or OffsetTime, as "+02:00"
}

// guardExif reads a TIFF-shaped block (a whole TIFF file, too) and writes the
// copy. ok is false when not even its first directory can be found.
func guardExif(block []byte) (g *guarded, ok bool) {
	order, ok := orderOf(block)
	if !ok || len(block) < 14 {
		return nil, false
	}
	first := order.u32(block[4:])
	if first < 8 || int64(first)+2 > int64(len(block)) {
		return nil, false
	}
	seen := map[int]bool{int(first): true}
	main, next := readTIFFDir(block, order, int(first))
	g = &guarded{damaged: main.damaged}
	if next != 0 && (seen[next] || next < 8 || next+2 > len(block)) {
		g.damaged = true
	}
	// sub reads the directory that a tag of d points to; nil when there is none.
	sub := func(d *tiffDir, tag uint16) *tiffDir {
		f, ok := d.tags[tag]
		if !ok {
			return nil
		}
		at := d.int(tag, 0)
		if f.typ != 4 && f.typ != 13 || f.count != 1 || at < 8 || at+2 > len(block) || seen[at] {
			g.damaged = true
			return nil
		}
		seen[at] = true
		s, _ := readTIFFDir(block, order, at)
		g.damaged = g.damaged || s.damaged
		return s
	}
	exif := sub(main, tagExifIFD)
	var interop *tiffDir
	if exif != nil {
		interop = sub(exif, tagInteropIFD)
		if g.offset = exif.zone(tagOffsetTimeOrig); g.offset == "" {
			g.offset = exif.zone(tagOffsetTime)
		}
	}
	g.block = append(g.block, block[:2]...)
	g.block = append(g.block, 0, 0, 0, 0, 0, 0)
	order.put16(g.block[2:], 42)
	order.put32(g.block[4:], 8)
	at := 0
	for _, s := range []struct {
		d    *tiffDir
		down uint16 // the tag of its pointer to the next of these, or 0
	}{{main, tagExifIFD}, {exif, tagInteropIFD}, {interop, 0}} {
		if s.d == nil {
			break
		}
		if at > 0 {
			order.put32(g.block[at:], uint32(len(g.block)))
		}
		if s.down == tagExifIFD && exif == nil || s.down == tagInteropIFD && interop == nil {
			s.down = 0
		}
		g.block, at = s.d.write(g.block, s.down)
	}
	return g, true
}

// write appends d to a TIFF-shaped block: its short entries in the order of their
// tags. With down, the last entry is a pointer of that tag, whose value's place
// is returned.
func (d *tiffDir) write(out []byte, down uint16) (block []byte, pointer int) {
	var tags []int
	for t, f := range d.tags {
		switch t {
		case tagExifIFD, tagGPSIFD, tagInteropIFD, tagMakerNote:
			continue
		}
		if len(f.value) <= longestValue && f.typ <= 12 {
			tags = append(tags, int(t))
		}
	}
	sort.Ints(tags)
	n := len(tags)
	if down != 0 {
		n++
	}
	start := len(out)
	out = append(out, make([]byte, 2+12*n+4)...)
	d.order.put16(out[start:], uint16(n))
	for i, t := range tags {
		f := d.tags[uint16(t)]
		e := start + 2 + 12*i
		d.order.put16(out[e:], uint16(t))
		d.order.put16(out[e+2:], f.typ)
		d.order.put32(out[e+4:], uint32(f.count))
		if n := f.count * typeSize[f.typ]; n <= 4 {
			copy(out[e+8:e+8+n], f.value)
		} else {
			d.order.put32(out[e+8:], uint32(len(out)))
			out = append(out, f.value[:n]...)
		}
	}
	if down != 0 {
		e := start + 2 + 12*len(tags)
		d.order.put16(out[e:], down)
		d.order.put16(out[e+2:], 4)
		d.order.put32(out[e+4:], 1)
		pointer = e + 8
	}
	return out, pointer
}

// zone returns an Exif offset of time if it is one, such as "+02:00".
func (d *tiffDir) zone(tag uint16) string {
	f := d.tags[tag]
	if f.typ != 2 {
		return ""
	}
	s := string(bytes.TrimRight(f.value[:min(len(f.value), 7)], "\x00 "))
	if len(s) != 6 || s[0] != '+' && s[0] != '-' || s[3] != ':' || !digits(s[1:3]) || !digits(s[4:6]) {
		return ""
	}
	return s
}

func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return len(s) > 0
}
