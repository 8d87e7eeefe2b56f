package decode

import (
	"bytes"
	"encoding/binary"
	"sort"
)

// A jpegFile is what the marker segments of a JPEG tell, read without decoding
// (ITU-T T.81, annex B).
type jpegFile struct {
	sof        byte // C0, C1, C2, …
	precision  int
	w, h       int
	components []jpegComponent
	adobe      int // transform of the APP14 Adobe segment; -1 without one
	jfif       bool
	exif       []byte // the first APP1 block that starts Exif\0\0, behind that mark
	icc        []byte
	iccBroken  bool
	scanned    map[byte]*[64]bool // per component of a scan: the coefficients sent to their last bit
	sofAt      int                // offset of the SOF segment's marker
	ended      bool               // the end marker was met
}

type jpegComponent struct{ id, h, v, tq byte }

// scanJPEG walks the segments from SOI to the first scan, and through the later
// ones as far as SOS headers go. It bounds every length by the file.
func scanJPEG(data []byte) (*jpegFile, error) {
	if len(data) < 4 || data[0] != 0xff || data[1] != 0xd8 {
		return nil, damaged("jpeg", nil)
	}
	j := &jpegFile{adobe: -1, scanned: map[byte]*[64]bool{}}
	var parts []iccPart
	i := 2
	for {
		k := bytes.IndexByte(data[min(i, len(data)):], 0xff)
		if k < 0 {
			break
		}
		for i += k; i < len(data) && data[i] == 0xff; i++ {
		}
		if i >= len(data) {
			break
		}
		marker := data[i]
		i++
		if marker == 0 || marker == 1 || marker >= 0xd0 && marker <= 0xd8 {
			continue
		}
		if marker == 0xd9 {
			j.ended = true
			break
		}
		if i+2 > len(data) {
			break
		}
		n := int(binary.BigEndian.Uint16(data[i:]))
		if n < 2 || i+n > len(data) {
			break
		}
		body := data[i+2 : i+n]
		parts = j.segment(marker, body, i-2, parts)
		i += n
	}
	j.icc, j.iccBroken = joinICC(parts)
	if j.sof == 0 {
		return j, truncated("jpeg", nil)
	}
	return j, nil
}

// segment notes one marker segment.
func (j *jpegFile) segment(marker byte, body []byte, at int, parts []iccPart) []iccPart {
	switch {
	case marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc:
		if j.sof != 0 || len(body) < 6 {
			return parts
		}
		j.sof, j.precision, j.sofAt = marker, int(body[0]), at
		j.h, j.w = int(binary.BigEndian.Uint16(body[1:])), int(binary.BigEndian.Uint16(body[3:]))
		for c := 0; c < int(body[5]) && 6+3*c+3 <= len(body); c++ {
			p := body[6+3*c:]
			j.components = append(j.components, jpegComponent{p[0], p[1] >> 4, p[1] & 15, p[2]})
		}
	case marker == 0xda:
		j.scan(body)
	case marker == 0xe0 && bytes.HasPrefix(body, []byte("JFIF\x00")):
		j.jfif = true
	case marker == 0xee && len(body) >= 12 && bytes.HasPrefix(body, []byte("Adobe")):
		j.adobe = int(body[11])
	case marker == 0xe1 && j.exif == nil && bytes.HasPrefix(body, []byte("Exif\x00")) && len(body) > 6:
		j.exif = body[6:]
	case marker == 0xe2 && bytes.HasPrefix(body, []byte("ICC_PROFILE\x00")) && len(body) >= 14:
		parts = append(parts, iccPart{int(body[12]), int(body[13]), body[14:]})
	}
	return parts
}

// scan notes the header of one scan: which components it has and, of a
// progressive picture, which coefficients it brings to their last bit.
func (j *jpegFile) scan(body []byte) {
	if len(body) < 1 || len(body) < 4+2*int(body[0]) {
		return
	}
	n := int(body[0])
	from, to, low := int(body[1+2*n]), int(body[2+2*n]), body[3+2*n]&15
	for c := range n {
		id := body[1+2*c]
		if j.scanned[id] == nil {
			j.scanned[id] = new([64]bool)
		}
		for k := from; k <= to && k < 64 && low == 0; k++ {
			j.scanned[id][k] = true
		}
	}
}

// whole tells whether the scans hold all of the picture. A progressive one
// sharpens scan by scan, and decoders show what they have without a word.
func (j *jpegFile) whole() bool {
	for _, c := range j.components {
		sent := j.scanned[c.id]
		if sent == nil || j.sof == 0xc2 && (!j.ended || *sent != allSent) {
			return false
		}
	}
	return true
}

var allSent = func() (a [64]bool) {
	for i := range a {
		a[i] = true
	}
	return a
}()

// An iccPart is one APP2 segment of a profile: its number, of how many, its
// bytes (ICC.1, annex B.4).
type iccPart struct {
	number, total int
	body          []byte
}

// joinICC puts the parts of a profile together; broken tells that some are
// missing or contradict each other.
func joinICC(parts []iccPart) (profile []byte, broken bool) {
	if len(parts) == 0 {
		return nil, false
	}
	sort.SliceStable(parts, func(a, b int) bool { return parts[a].number < parts[b].number })
	next := 1
	for _, p := range parts {
		if p.number < next {
			continue // a second profile, or a repeated part: the first one counts
		}
		if p.number > next {
			return nil, true
		}
		profile = append(profile, p.body...)
		next++
	}
	if next-1 < parts[0].total {
		return nil, true
	}
	return profile, false
}
