package decode

import (
	"bytes"
	"encoding/binary"
	"unicode/utf8"
)

// Sniff tells the type of a file from its first bytes, never from its name: one
// of the formats of Source, or the name of a type that is refused by name
// (bigtiff, ico, pdf, svg, psd, jxl, jp2, video, text), or "".
func Sniff(data []byte) string {
	has := func(s string) bool { return len(data) >= len(s) && string(data[:len(s)]) == s }
	at := func(i int, s string) bool { return len(data) >= i+len(s) && string(data[i:i+len(s)]) == s }
	switch {
	case has("\xff\xd8\xff"):
		return "jpeg"
	case has("\x89PNG\r\n\x1a\n"):
		return "png"
	case has("II*\x00"), has("MM\x00*"):
		if isRawTIFF(data) {
			return "raw"
		}
		return "tiff"
	case has("II+\x00"), has("MM\x00+"):
		return "bigtiff"
	case has("IIRO"), has("IIRS"), has("MMOR"), has("IIU\x00"), has("FUJIFILMCCD-RAW"):
		return "raw"
	case has("RIFF") && at(8, "WEBP"):
		return "webp"
	case at(4, "ftyp"):
		return sniffBrand(data)
	case has("GIF87a"), has("GIF89a"):
		return "gif"
	case has("BM") && len(data) >= 18 && bmpHeaderSize(data) != 0:
		return "bmp"
	case has("\x00\x00\x01\x00"):
		return "ico"
	case has("%PDF"):
		return "pdf"
	case has("8BPS"):
		return "psd"
	case has("\xff\x0a"), at(4, "JXL "):
		return "jxl"
	case at(4, "jP  "):
		return "jp2"
	case has("\x1a\x45\xdf\xa3"), has("RIFF") && at(8, "AVI "):
		return "video"
	}
	return sniffText(data)
}

// sniffBrand reads the brands of an ISO base media file.
func sniffBrand(data []byte) string {
	n := int(binary.BigEndian.Uint32(data))
	if n < 16 || n > len(data) {
		n = min(len(data), 64)
	}
	brands := []string{}
	for i := 8; i+4 <= n; i += 4 {
		if i != 12 { // the minor version
			brands = append(brands, string(data[i:i+4]))
		}
	}
	for _, b := range brands {
		switch b {
		case "avif", "avis":
			return "avif"
		case "heic", "heix", "heim", "heis", "hevc", "hevx":
			return "heic"
		case "crx ":
			return "raw"
		}
	}
	for _, b := range brands {
		if b == "mif1" || b == "msf1" {
			return "heic"
		}
	}
	if len(brands) > 0 {
		return "video"
	}
	return ""
}

func sniffText(data []byte) string {
	head := data[:min(len(data), 512)]
	if bytes.Contains(head, []byte("<svg")) {
		return "svg"
	}
	if len(data) > 0 && (utf8.Valid(head) || len(data) > len(head) && utf8.Valid(head[:len(head)-4])) && !bytes.ContainsAny(head, "\x00\x01\x02\x03") {
		return "text"
	}
	return ""
}
