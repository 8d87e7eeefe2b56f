package rendition

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
)

// What the wrapping adds at most, beside profile and packet themselves.
const (
	jpegOverhead = 2 * 64
	webpOverhead = 4 * 16
)

const (
	xmpID = "http://ns.adobe.com/xap/1.0/\x00" // XMP specification part 3, JPEG
	iccID = "ICC_PROFILE\x00\x01\x01"          // ICC.1 annex B: part 1 of 1
)

// maxSegment is the most that one JPEG marker segment holds.
const maxSegment = 65533

// addMetadataJPEG puts profile and packet into a JPEG, after a JFIF block where there
// is one, and drops whatever other metadata the encoder may have written.
func addMetadataJPEG(data, icc, xmp []byte) ([]byte, error) {
	if len(data) < 4 || data[0] != 0xff || data[1] != 0xd8 {
		return nil, errors.New("the encoder gave no JPEG")
	}
	var out bytes.Buffer
	out.Grow(len(data) + len(icc) + len(xmp) + jpegOverhead)
	out.Write(data[:2])
	rest := data[2:]
	for len(rest) >= 4 && rest[0] == 0xff && (rest[1] >= 0xe0 && rest[1] <= 0xef || rest[1] == 0xfe) {
		n := 2 + int(binary.BigEndian.Uint16(rest[2:]))
		if n > len(rest) {
			return nil, errors.New("the encoder gave a JPEG cut short")
		}
		if rest[1] == 0xe0 {
			out.Write(rest[:n])
		}
		rest = rest[n:]
	}
	for _, seg := range []struct {
		marker byte
		id     string
		body   []byte
	}{{0xe1, xmpID, xmp}, {0xe2, iccID, icc}} {
		if len(seg.body) == 0 {
			continue
		}
		n := len(seg.id) + len(seg.body)
		if n > maxSegment {
			return nil, fmt.Errorf("metadata of %d bytes; a JPEG holds %d", n, maxSegment)
		}
		out.Write([]byte{0xff, seg.marker, byte((n + 2) >> 8), byte(n + 2)})
		out.WriteString(seg.id)
		out.Write(seg.body)
	}
	out.Write(rest)
	return out.Bytes(), nil
}

// addMetadataWebP puts profile and packet into a WebP: the extended header first, the
// profile before the picture and the packet after it (WebP container
// specification, RFC 9649 section 2.7).
func addMetadataWebP(data []byte, w, h int, icc, xmp []byte) ([]byte, error) {
	picture, err := webpPicture(data)
	if err != nil {
		return nil, err
	}
	if len(icc) == 0 && len(xmp) == 0 {
		return data, nil
	}
	var body bytes.Buffer
	body.Grow(len(data) + len(icc) + len(xmp) + webpOverhead)
	body.WriteString("WEBP")
	head := make([]byte, 10)
	if len(icc) > 0 {
		head[0] |= 1 << 5
	}
	if len(xmp) > 0 {
		head[0] |= 1 << 2
	}
	put24(head[4:], w-1)
	put24(head[7:], h-1)
	chunk(&body, "VP8X", head)
	if len(icc) > 0 {
		chunk(&body, "ICCP", icc)
	}
	body.Write(picture)
	if len(xmp) > 0 {
		chunk(&body, "XMP ", xmp)
	}
	out := binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(body.Len()))
	return append(out, body.Bytes()...), nil
}

// webpPicture returns the one chunk of data that holds a lossy picture.
func webpPicture(data []byte) ([]byte, error) {
	if len(data) < 20 || string(data[:4]) != "RIFF" || string(data[8:12]) != "WEBP" {
		return nil, errors.New("the encoder gave no WebP")
	}
	for rest := data[12:]; len(rest) >= 8; {
		n := 8 + int(binary.LittleEndian.Uint32(rest[4:]))
		n += n & 1
		if n > len(rest) {
			break
		}
		if string(rest[:4]) == "VP8 " {
			return rest[:n], nil
		}
		rest = rest[n:]
	}
	return nil, errors.New("the encoder gave a WebP without a picture")
}

// chunk writes a RIFF chunk, padded to an even length.
func chunk(b *bytes.Buffer, name string, body []byte) {
	b.WriteString(name)
	b.Write(binary.LittleEndian.AppendUint32(nil, uint32(len(body))))
	b.Write(body)
	if len(body)%2 == 1 {
		b.WriteByte(0)
	}
}

func put24(b []byte, v int) { b[0], b[1], b[2] = byte(v), byte(v>>8), byte(v>>16) }
