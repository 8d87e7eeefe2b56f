package decode

import "encoding/binary"

const maxBoxes = 4096

// boxes calls f for each box in data; f gets the type and the body. cut tells
// that a box reaches past the end.
func boxes(data []byte, f func(kind string, body []byte)) (cut bool) {
	for i, n := 0, 0; i+8 <= len(data) && n < maxBoxes; n++ {
		size, head := int64(binary.BigEndian.Uint32(data[i:])), 8
		switch size {
		case 0:
			size = int64(len(data) - i)
		case 1:
			if i+16 > len(data) {
				return true
			}
			size, head = int64(binary.BigEndian.Uint32(data[i+8:]))<<32|int64(binary.BigEndian.Uint32(data[i+12:])), 16
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

// read takes what it needs of the boxes in a meta box.
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
	total := 0
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
			if total++; r.over || total > maxBoxes {
				return // extents may take no bytes at all, and yet be counted in millions
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
