package decode

import "bytes"

// Exif tags that the guard knows (CIPA DC-008).
const (
	tagOrientation    = 0x0112
	tagExifIFD        = 0x8769
	tagGPSIFD         = 0x8825
	tagInteropIFD     = 0xa005
	tagMakerNote      = 0x927c
	tagOffsetTimeOrig = 0x9011
	tagOffsetTime     = 0x9010
)

// typeSize is the bytes that one value of a TIFF field type takes; 0 is no type.
var typeSize = [...]int{0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8}

// maxIFDs bounds the directories of one block; real files have four or five.
const maxIFDs = 16

// A guarded block is a copy of a TIFF-shaped Exif block that a trusting reader
// can be given: every entry lies inside it, no directory is met twice, and maker
// notes and positions are cut out.
type guarded struct {
	block   []byte
	order   byteOrder
	damaged bool   // something had to be mended
	offset  string // OffsetTimeOriginal or OffsetTime, as "+02:00"
}

// guardExif copies block and mends the copy. ok is false when not even the
// header makes sense.
func guardExif(block []byte) (g *guarded, ok bool) {
	order, ok := orderOf(block)
	if !ok || len(block) < 14 {
		return nil, false
	}
	g = &guarded{block: bytes.Clone(block), order: order}
	order.put16(g.block[2:], 42) // raw files put their own number here
	seen := map[uint32]bool{}
	// Each entry of the queue is a directory and the place of the pointer to it,
	// which is cut when the directory cannot be used.
	type link struct{ ifd, pointer uint32 }
	queue := []link{{order.u32(block[4:]), 4}}
	for len(queue) > 0 {
		l := queue[0]
		queue = queue[1:]
		if l.ifd == 0 {
			continue
		}
		if seen[l.ifd] || len(seen) >= maxIFDs || int64(l.ifd)+2 > int64(len(block)) {
			g.cut(l.pointer)
			continue
		}
		seen[l.ifd] = true
		subs, next, fits := g.directory(l.ifd)
		if !fits {
			g.cut(l.pointer)
			continue
		}
		for _, at := range subs {
			queue = append(queue, link{order.u32(g.block[at:]), at})
		}
		if next != 0 {
			queue = append(queue, link{order.u32(g.block[next:]), next})
		}
	}
	return g, order.u32(g.block[4:]) != 0
}

// cut overwrites a pointer by 0 when it is one that ends a chain, and marks the
// block as damaged.
func (g *guarded) cut(pointer uint32) {
	g.damaged = true
	if int(pointer)+4 <= len(g.block) {
		copy(g.block[pointer:pointer+4], []byte{0, 0, 0, 0})
		// A pointer inside an entry must not be followed to offset 0.
		if pointer >= 8 && g.inEntry(pointer) {
			g.neutralise(pointer - 8)
		}
	}
}

// inEntry tells whether a pointer sits in the value field of a directory entry
// that names a sub-directory.
func (g *guarded) inEntry(pointer uint32) bool {
	tag := g.order.u16(g.block[pointer-8:])
	return tag == tagExifIFD || tag == tagInteropIFD
}

// neutralise turns an entry into an empty one of a private, meaningless tag.
func (g *guarded) neutralise(at uint32) {
	e := g.block[at : at+12]
	g.order.put16(e, 0xfffe)
	g.order.put16(e[2:], 1)
	g.order.put32(e[4:], 1)
	g.order.put32(e[8:], 0)
}

// directory mends one directory in place. It returns the places of pointers to
// sub-directories, and the place of the pointer to the next one (0: none).
func (g *guarded) directory(ifd uint32) (subs []uint32, next uint32, ok bool) {
	size := int64(len(g.block))
	n := int64(g.order.u16(g.block[ifd:]))
	end := int64(ifd) + 2 + 12*n
	if end > size {
		return nil, 0, false
	}
	for i := range n {
		at := uint32(int64(ifd) + 2 + 12*i)
		e := g.block[at : at+12]
		tag, typ := g.order.u16(e), g.order.u16(e[2:])
		count := int64(g.order.u32(e[4:]))
		if tag == tagMakerNote || tag == tagGPSIFD {
			g.neutralise(at)
			continue
		}
		if int(typ) >= len(typeSize) || typeSize[typ] == 0 || count == 0 {
			g.neutralise(at)
			g.damaged = g.damaged || count != 0
			continue
		}
		bytes := count * int64(typeSize[typ])
		value := e[8:12]
		if bytes > 4 {
			off := int64(g.order.u32(e[8:]))
			if off+bytes > size {
				g.neutralise(at)
				g.damaged = true
				continue
			}
			value = g.block[off : off+bytes]
		}
		switch tag {
		case tagExifIFD, tagInteropIFD:
			if typ != 4 || count != 1 {
				g.neutralise(at)
				continue
			}
			subs = append(subs, at+8)
		case tagOffsetTimeOrig:
			g.offset = zone(value)
		case tagOffsetTime:
			if g.offset == "" {
				g.offset = zone(value)
			}
		}
	}
	if end+4 <= size {
		next = uint32(end)
	} else {
		// The reader would look for the next pointer past the end of the block.
		g.block = append(g.block, make([]byte, end+4-size)...)
	}
	return subs, next, true
}

// zone returns an Exif offset of time if it is one, such as "+02:00".
func zone(v []byte) string {
	s := string(bytes.TrimRight(v[:min(len(v), 7)], "\x00 "))
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
