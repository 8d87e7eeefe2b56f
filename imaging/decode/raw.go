package decode

import (
	"bytes"
	"sort"

	"golang.org/x/image/tiff"

	"slabfolio/imaging/note"
)

const (
	// maxPreviews bounds the JPEG marks in a raw file that are looked into.
	maxPreviews = 64
	// smallPreview is the longer side under which a preview is called small: less
	// than the 1200-pixel rendition of a listing.
	smallPreview = 1200
)

func rawSize(data []byte) (int, int, error) {
	p := findPreviews(data)
	if len(p) == 0 {
		return 0, 0, noPreview()
	}
	return p[0].w, p[0].h, nil
}

func noPreview() *Refusal {
	return &Refusal{
		Code:    "decode.no-preview",
		Message: "it is a camera raw file without a preview that can be read; develop it and give the JPEG or TIFF",
	}
}

// A preview is one JPEG found in a raw file.
type preview struct{ at, w, h int }

// findPreviews looks for JPEGs anywhere in data, largest first. Makers keep
// previews in directories, in maker notes and in boxes of their own; a JPEG is
// told by its marks wherever it lies.
func findPreviews(data []byte) []preview {
	var out []preview
	for i := 0; len(out) < maxPreviews; {
		k := bytes.Index(data[i:], []byte{0xff, 0xd8, 0xff})
		if k < 0 {
			break
		}
		at := i + k
		i = at + 3
		j, err := scanJPEG(data[at:])
		if err != nil || j.readable() != nil || j.w < 16 || j.h < 16 {
			continue
		}
		out = append(out, preview{at, j.w, j.h})
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].w*out[a].h > out[b].w*out[b].h })
	return out
}

// decodeRaw reads the largest preview of a camera raw file that decodes whole.
// The raw data itself is not developed.
func decodeRaw(data []byte, opts *Options) (*Source, error) {
	fullW, fullH := rawFullSize(data)
	for _, p := range findPreviews(data) {
		s, err := decodeJPEG(data[p.at:], opts)
		if err != nil {
			continue
		}
		own, _ := scanJPEG(data[p.at:])
		return rawSource(s, data, own != nil && len(own.exif) > 0, fullW, fullH), nil
	}
	// Some DNG files keep their preview as plain pixels in the first directory.
	if s, err := plainPreview(data, opts); err == nil {
		return rawSource(s, data, false, fullW, fullH), nil
	}
	return nil, noPreview()
}

// rawSource dresses a preview with the facts of its container.
func rawSource(s *Source, data []byte, ownExif bool, fullW, fullH int) *Source {
	if !ownExif {
		s.Facts, s.Space = Facts{}, ""
		applyExif(s, compactExif(data), true)
	}
	s.Preview = true
	v := map[string]float64{"width": float64(s.W), "height": float64(s.H)}
	if fullW > 0 && fullH > 0 {
		v["full_width"], v["full_height"] = float64(fullW), float64(fullH)
	}
	code := "decode.raw-preview"
	if max(s.W, s.H) < smallPreview {
		code = "decode.raw-preview-small"
	}
	s.Notes = append(s.Notes, note.Note{Code: code, Values: v})
	return s
}

// rawFullSize is the largest size that a directory of a raw file states.
func rawFullSize(data []byte) (w, h int) {
	for _, d := range scanTIFF(data) {
		if dw, dh := d.int(tiffWidth, 0), d.int(tiffLength, 0); dw > 0 && dh > 0 && dw < 1<<17 && dh < 1<<17 && dw*dh > w*h {
			w, h = dw, dh
		}
	}
	return w, h
}

// plainPreview reads the first directory as an ordinary TIFF picture.
func plainPreview(data []byte, opts *Options) (*Source, error) {
	dirs := scanTIFF(data)
	if len(dirs) == 0 {
		return nil, noPreview()
	}
	d := dirs[0]
	w, h := d.int(tiffWidth, 0), d.int(tiffLength, 0)
	if err := checkSize(w, h, opts); err != nil {
		return nil, err
	}
	if err := d.readable(); err != nil {
		return nil, err
	}
	if err := d.whole(data); err != nil {
		return nil, err
	}
	if p := d.int(tiffPhotometric, -1); p != 1 && p != 2 {
		return nil, noPreview()
	}
	m, err := tiff.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	return &Source{W: w, H: h, Image: m, Codec: "tiff (Go)"}, nil
}

// compactExif copies the short entries of the first directory of a TIFF-shaped
// file, and of its Exif directory, into a small block of their own, so that an
// Exif reader need not hold the whole file.
func compactExif(data []byte) []byte {
	order, ok := orderOf(data)
	if !ok || len(data) < 14 {
		return nil
	}
	first := int(order.u32(data[4:]))
	if first < 8 || first+2 > len(data) {
		return nil
	}
	d, _ := readTIFFDir(data, order, first)
	out := append([]byte{}, data[:4]...)
	out = append(out, 8, 0, 0, 0)
	order.put32(out[4:], 8)
	sub := d.int(tagExifIFD, 0)
	out = d.write(out, sub > 0)
	if sub >= 8 && sub+2 <= len(data) {
		e, _ := readTIFFDir(data, order, sub)
		// The pointer is the last entry of the directory just written.
		n := int(order.u16(out[8:]))
		order.put32(out[8+2+12*(n-1)+8:], uint32(len(out)))
		out = e.write(out, false)
	}
	return out
}

// write appends d to a TIFF-shaped block, its short entries only, in the order of
// their tags; with pointer, an entry for the Exif directory comes last.
func (d *tiffDir) write(out []byte, pointer bool) []byte {
	var tags []int
	for t, f := range d.tags {
		if len(f.value) <= 64 && t != tagExifIFD && t != tagGPSIFD && t != tagInteropIFD && t != tagMakerNote && f.typ <= 12 {
			tags = append(tags, int(t))
		}
	}
	sort.Ints(tags)
	n := len(tags)
	if pointer {
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
			copy(out[e+8:e+12], f.value)
		} else {
			d.order.put32(out[e+8:], uint32(len(out)))
			out = append(out, f.value[:n]...)
		}
	}
	if pointer {
		e := start + 2 + 12*len(tags)
		d.order.put16(out[e:], tagExifIFD)
		d.order.put16(out[e+2:], 4)
		d.order.put32(out[e+4:], 1)
	}
	return out
}
