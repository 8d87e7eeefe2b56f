package decode

import (
	"bytes"
	"encoding/binary"
	"slices"
)

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
	alpha    bool // some item is an alpha plane
	ok       bool
}

// An nclx names a colour space by code points (ITU-T H.273).
type nclx struct {
	primaries, transfer, matrix int
	full                        bool
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
					f.nclx = &nclx{int(binary.BigEndian.Uint16(b[4:])), int(binary.BigEndian.Uint16(b[6:])), int(binary.BigEndian.Uint16(b[8:])), b[10]&0x80 != 0}
				}
			}
		}
	}
	for _, p := range m.props {
		// ISO/IEC 23008-12, 6.5.8: auxC names what an auxiliary picture is for.
		if p[0].(string) == "auxC" {
			urn := p[1].([]byte)
			f.alpha = f.alpha || bytes.Contains(urn, []byte("urn:mpeg:hevc:2015:auxid:1")) || bytes.Contains(urn, []byte("auxiliary:alpha"))
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
	if skip := int64(binary.BigEndian.Uint32(b)) + 4; skip < int64(len(b)) {
		return b[skip:]
	}
	return nil
}
