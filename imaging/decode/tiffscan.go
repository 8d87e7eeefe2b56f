package decode

// TIFF tags (Adobe TIFF 6.0, TIFF/EP, DNG 1.4).
const (
	tiffSubfile     = 254
	tiffWidth       = 256
	tiffLength      = 257
	tiffBits        = 258
	tiffCompression = 259
	tiffPhotometric = 262
	tiffMake        = 271
	tiffStrips      = 273
	tiffSamples     = 277
	tiffRowsStrip   = 278
	tiffStripBytes  = 279
	tiffPlanar      = 284
	tiffPredictor   = 317
	tiffTileWidth   = 322
	tiffTileLength  = 323
	tiffTiles       = 324
	tiffTileBytes   = 325
	tiffSubIFDs     = 330
	tiffExtra       = 338
	tiffProfile     = 34675
	dngVersion      = 50706
)

// typeSize is the bytes that one value of a field type takes; 0 is no type.
var typeSize = [...]int{0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4}

// maxTIFFDirs bounds the directories that are looked at.
const maxTIFFDirs = 64

// A tiffDir is one directory: for each tag the raw bytes of its values.
type tiffDir struct {
	order   byteOrder
	tags    map[uint16]tiffField
	damaged bool // an entry was left out, since it makes no sense
}

type tiffField struct {
	typ   uint16
	count int
	value []byte
}

// ints returns up to limit whole-number values of a tag.
func (d *tiffDir) ints(tag uint16, limit int) []int {
	f, ok := d.tags[tag]
	if !ok {
		return nil
	}
	var out []int
	for i := 0; i < f.count && i < limit; i++ {
		switch f.typ {
		case 1, 7:
			out = append(out, int(f.value[i]))
		case 3:
			out = append(out, int(d.order.u16(f.value[2*i:])))
		case 4, 13:
			out = append(out, int(d.order.u32(f.value[4*i:])))
		}
	}
	return out
}

// int returns the first value of a tag, or def.
func (d *tiffDir) int(tag uint16, def int) int {
	if v := d.ints(tag, 1); len(v) == 1 {
		return v[0]
	}
	return def
}

// scanTIFF reads the first directory, those chained to it and their
// sub-directories. Entries that point outside the file are left out.
func scanTIFF(data []byte) []*tiffDir {
	order, ok := orderOf(data)
	if !ok {
		return nil
	}
	var dirs []*tiffDir
	seen := map[int]bool{}
	queue := []int{int(order.u32(data[4:]))}
	for len(queue) > 0 && len(dirs) < maxTIFFDirs {
		at := queue[0]
		queue = queue[1:]
		if at < 8 || seen[at] || at+2 > len(data) {
			continue
		}
		seen[at] = true
		d, next := readTIFFDir(data, order, at)
		dirs = append(dirs, d)
		queue = append(queue, d.ints(tiffSubIFDs, 16)...)
		if next != 0 {
			queue = append(queue, next)
		}
	}
	return dirs
}

// readTIFFDir reads the directory at a place of data, which must have two bytes
// there. Of a repeated tag the first counts.
func readTIFFDir(data []byte, order byteOrder, at int) (d *tiffDir, next int) {
	d = &tiffDir{order: order, tags: map[uint16]tiffField{}}
	n := int(order.u16(data[at:]))
	for i := range n {
		e := at + 2 + 12*i
		if e+12 > len(data) {
			d.damaged = true
			return d, 0
		}
		tag, typ := order.u16(data[e:]), order.u16(data[e+2:])
		count := int64(order.u32(data[e+4:]))
		size := 0
		if int(typ) < len(typeSize) {
			size = typeSize[typ]
		}
		if size == 0 || count == 0 {
			d.damaged = d.damaged || count != 0
			continue
		}
		value := data[e+8 : e+12]
		if bytes := count * int64(size); bytes > 4 {
			off := int64(order.u32(value))
			if off+bytes > int64(len(data)) {
				d.damaged = d.damaged || tag != tagMakerNote
				continue
			}
			value = data[off : off+bytes]
		}
		if _, again := d.tags[tag]; !again {
			d.tags[tag] = tiffField{typ, int(count), value}
		}
	}
	if end := at + 2 + 12*n; end+4 <= len(data) {
		next = int(order.u32(data[end:]))
	}
	return d, next
}

// isRawTIFF tells a camera raw file from a picture in TIFF: by a colour filter
// array or linear raw data, by DNG's version tag, or by makers' compressions.
func isRawTIFF(data []byte) bool {
	if len(data) > 10 && string(data[8:10]) == "CR" {
		return true
	}
	for _, d := range scanTIFF(data) {
		if _, ok := d.tags[dngVersion]; ok {
			return true
		}
		switch d.int(tiffPhotometric, -1) {
		case 32803, 34892: // colour filter array, linear raw
			return true
		}
		switch d.int(tiffCompression, 1) {
		case 34713, 32767, 32769, 32770, 65000, 65535: // makers' own
			return true
		}
	}
	return false
}
