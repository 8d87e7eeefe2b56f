package decode

import "slices"

// A heifFile is what the boxes of a HEIF or AVIF file tell about its primary
// picture (ISO/IEC 23008-12 and 14496-12).
type heifFile struct {
	w, h     int
	profile  []byte
	nclx     *nclx
	rotation int  // irot: quarter turns against the clock
	mirror   int  // imir: -1 none, 0 upside down, 1 left to right
	mirrorOn bool // imir was met before irot, so it applies first
	exif     []byte
	cut      bool // data of the primary picture lies beyond the end of the file
	sequence bool
	ok       bool
}

// An nclx names a colour space by code points (ITU-T H.273).
type nclx struct {
	primaries, transfer, matrix int
	full                        bool
}

const maxBoxes = 4096

// boxes calls f for each box in data; f gets the type and the body. cut tells
// that a box reaches past the end.
func boxes(data []byte, f func(kind string, body []byte)) (cut bool) {
	for i, n := 0, 0; i+8 <= len(data) && n < maxBoxes; n++ {
		size, head := int64(be32(data[i:])), 8
		switch size {
		case 0:
			size = int64(len(data) - i)
		case 1:
			if i+16 > len(data) {
				return true
			}
			size, head = int64(be32(data[i+8:]))<<32|int64(be32(data[i+12:])), 16
		}
		if size < int64(head) {
			return true
		}
		end := int64(i) + size
		if end > int64(len(data)) || end < 0 {
			cut, end = true, int64(len(data))
		}
		f(string(data[i+4:i+8]), data[i+head:end])
		i = int(end)
	}
	return cut
}

// An extent is a piece of an item's data; construction 0 counts from the start
// of the file, 1 from the idat box.
type extent struct{ construction, at, size int64 }

type metaBox struct {
	primary uint32
	kinds   map[uint32]string
	extents map[uint32][]extent
	props   [][2]any // kind string, body []byte
	assoc   map[uint32][]int
	refs    map[uint32][]uint32 // dimg
	idat    []byte
}

// scanHEIF reads the meta box.
func scanHEIF(data []byte) *heifFile {
	f := &heifFile{mirror: -1}
	m := &metaBox{kinds: map[uint32]string{}, extents: map[uint32][]extent{}, assoc: map[uint32][]int{}, refs: map[uint32][]uint32{}}
	boxes(data, func(kind string, body []byte) {
		switch kind {
		case "meta":
			if len(body) > 4 && !f.ok {
				f.ok = true
				m.read(body[4:])
			}
		case "moov":
			f.sequence = true
		}
	})
	if f.ok {
		m.describe(f, data)
	}
	return f
}

func (m *metaBox) read(body []byte) {
	boxes(body, func(kind string, b []byte) {
		r := &cursor{b: b}
		switch kind {
		case "pitm":
			if v := r.u32(); v>>24 == 0 {
				m.primary = uint32(r.u16())
			} else {
				m.primary = r.u32()
			}
		case "idat":
			m.idat = b
		case "iinf":
			if r.u32()>>24 == 0 {
				r.u16()
			} else {
				r.u32()
			}
			boxes(b[min(r.i, len(b)):], m.entry)
		case "iloc":
			m.locations(r)
		case "iref":
			m.references(r)
		case "iprp":
			boxes(b, func(kind string, b []byte) {
				switch kind {
				case "ipco":
					boxes(b, func(kind string, b []byte) { m.props = append(m.props, [2]any{kind, b}) })
				case "ipma":
					m.associations(&cursor{b: b})
				}
			})
		}
	})
}

// entry reads one item's type (infe, versions 2 and 3).
func (m *metaBox) entry(kind string, b []byte) {
	r := &cursor{b: b}
	v := r.u32() >> 24
	var id uint32
	if v >= 3 {
		id = r.u32()
	} else {
		id = uint32(r.u16())
	}
	r.u16()
	if r.i+4 <= len(b) && len(m.kinds) < maxBoxes {
		m.kinds[id] = string(b[r.i : r.i+4])
	}
}

func (m *metaBox) locations(r *cursor) {
	v := r.u32() >> 24
	sizes := r.u16()
	offN, lenN, baseN, idxN := int(sizes>>12), int(sizes>>8&15), int(sizes>>4&15), int(sizes&15)
	if v == 0 {
		idxN = 0
	}
	var count uint32
	if v < 2 {
		count = uint32(r.u16())
	} else {
		count = r.u32()
	}
	for range min(count, maxBoxes) {
		var id uint32
		if v < 2 {
			id = uint32(r.u16())
		} else {
			id = r.u32()
		}
		var construction int64
		if v > 0 {
			construction = int64(r.u16() & 15)
		}
		r.u16() // data reference
		base := r.un(baseN)
		n := r.u16()
		for range n {
			r.un(idxN)
			e := extent{construction, base + r.un(offN), r.un(lenN)}
			if r.over {
				return
			}
			m.extents[id] = append(m.extents[id], e)
		}
	}
}

func (m *metaBox) references(r *cursor) {
	wide := r.u32()>>24 != 0
	boxes(r.b[min(r.i, len(r.b)):], func(kind string, b []byte) {
		if kind != "dimg" {
			return
		}
		r := &cursor{b: b}
		id := func() uint32 {
			if wide {
				return r.u32()
			}
			return uint32(r.u16())
		}
		from := id()
		for range r.u16() {
			if to := id(); !r.over {
				m.refs[from] = append(m.refs[from], to)
			}
		}
	})
}

func (m *metaBox) associations(r *cursor) {
	head := r.u32()
	for range min(r.u32(), maxBoxes) {
		var id uint32
		if head>>24 == 0 {
			id = uint32(r.u16())
		} else {
			id = r.u32()
		}
		for range r.u8() {
			var p int
			if head&1 != 0 {
				p = int(r.u16() & 0x7fff)
			} else {
				p = int(r.u8() & 0x7f)
			}
			if r.over {
				return
			}
			m.assoc[id] = append(m.assoc[id], p)
		}
	}
}

// describe fills f with what the properties of the primary item say.
func (m *metaBox) describe(f *heifFile, data []byte) {
	for _, p := range m.assoc[m.primary] {
		if p < 1 || p > len(m.props) {
			continue
		}
		kind, b := m.props[p-1][0].(string), m.props[p-1][1].([]byte)
		r := &cursor{b: b}
		switch {
		case kind == "ispe" && len(b) >= 12:
			r.u32()
			f.w, f.h = int(r.u32()), int(r.u32())
		case kind == "irot" && len(b) >= 1:
			f.rotation = int(b[0] & 3)
		case kind == "imir" && len(b) >= 1:
			f.mirror, f.mirrorOn = int(b[0]&1), f.rotation == 0
		case kind == "colr" && len(b) >= 4:
			switch string(b[:4]) {
			case "prof", "rICC":
				if len(b) <= maxProfile {
					f.profile = b[4:]
				}
			case "nclx":
				if len(b) >= 11 {
					f.nclx = &nclx{int(be16(b[4:])), int(be16(b[6:])), int(be16(b[8:])), b[10]&0x80 != 0}
				}
			}
		}
	}
	f.cut = m.beyond(m.primary, len(data))
	for _, t := range m.refs[m.primary] {
		f.cut = f.cut || m.beyond(t, len(data))
	}
	var ids []uint32
	for id, kind := range m.kinds {
		if kind == "Exif" {
			ids = append(ids, id)
		}
	}
	if len(ids) > 0 {
		f.exif = m.exifItem(slices.Min(ids), data)
	}
}

// beyond tells whether an item's data lies past the end of its container.
func (m *metaBox) beyond(id uint32, size int) bool {
	for _, e := range m.extents[id] {
		limit := int64(size)
		if e.construction == 1 {
			limit = int64(len(m.idat))
		}
		if e.at < 0 || e.size < 0 || e.at+e.size > limit || e.at+e.size < 0 {
			return true
		}
	}
	return false
}

// exifItem returns the TIFF-shaped block of an Exif item: its first four bytes
// say how far in the block starts.
func (m *metaBox) exifItem(id uint32, data []byte) []byte {
	if m.beyond(id, len(data)) || len(m.extents[id]) == 0 {
		return nil
	}
	e := m.extents[id][0]
	src := data
	if e.construction == 1 {
		src = m.idat
	}
	b := src[e.at : e.at+e.size]
	if len(b) < 4 {
		return nil
	}
	if skip := int64(be32(b)) + 4; skip < int64(len(b)) {
		return b[skip:]
	}
	return nil
}

// A cursor reads big-endian numbers and returns zeros past the end.
type cursor struct {
	b    []byte
	i    int
	over bool
}

func (c *cursor) un(n int) int64 {
	var v int64
	for range n {
		if c.i >= len(c.b) {
			c.over = true
			return 0
		}
		v = v<<8 | int64(c.b[c.i])
		c.i++
	}
	return v
}

func (c *cursor) u8() uint8   { return uint8(c.un(1)) }
func (c *cursor) u16() uint16 { return uint16(c.un(2)) }
func (c *cursor) u32() uint32 { return uint32(c.un(4)) }
