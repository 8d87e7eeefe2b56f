package decode

import "encoding/binary"

// A byteOrder is the byte order of a TIFF-shaped block.
type byteOrder struct{ o binary.ByteOrder }

func (b byteOrder) u16(p []byte) uint16      { return b.o.Uint16(p) }
func (b byteOrder) u32(p []byte) uint32      { return b.o.Uint32(p) }
func (b byteOrder) put16(p []byte, v uint16) { b.o.PutUint16(p, v) }
func (b byteOrder) put32(p []byte, v uint32) { b.o.PutUint32(p, v) }

// orderOf reads the first bytes of a TIFF-shaped block: II or MM, then a magic
// number, which raw files vary.
func orderOf(block []byte) (byteOrder, bool) {
	if len(block) < 8 {
		return byteOrder{}, false
	}
	switch string(block[:2]) {
	case "II":
		return byteOrder{binary.LittleEndian}, true
	case "MM":
		return byteOrder{binary.BigEndian}, true
	}
	return byteOrder{}, false
}
