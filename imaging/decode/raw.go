package decode

import (
	"bytes"
	"sort"

	"golang.org/x/image/tiff"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/note"
)

const (
	// maxMarks bounds the JPEG marks in a raw file that are looked into.
	maxMarks = 512
	// previewHead bounds the bytes of each in which its size must be told.
	previewHead = 1 << 18
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
		Code: "decode.no-preview",
	}
}

// A preview is one JPEG found in a raw file.
type preview struct{ at, w, h int }

// findPreviews looks for JPEGs anywhere in data, largest first. Makers keep
// previews in directories, in maker notes and in boxes of their own; a JPEG is
// told by its marks wherever it lies.
func findPreviews(data []byte) []preview {
	var out []preview
	i := 0
	for range maxMarks {
		k := bytes.Index(data[i:], []byte{0xff, 0xd8, 0xff})
		if k < 0 {
			break
		}
		at := i + k
		i = at + 3
		j, err := scanJPEG(data[at:min(len(data), at+previewHead)])
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
		applyExif(s, data, true)
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
	w, h, err := d.check(data, opts)
	if err != nil {
		return nil, err
	}
	if p := d.int(tiffPhotometric, -1); p != 1 && p != 2 {
		return nil, noPreview()
	}
	m, err := tiff.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	return &Source{W: w, H: h, Encoded: colour.Encoded{Image: m}, Codec: "tiff (Go)"}, nil
}
