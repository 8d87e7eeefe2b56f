package decode

import (
	"bytes"
	"compress/zlib"
	"errors"
	"image"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// A photo cut anywhere is refused, or read with a note where all pixels are there;
// it never comes out half.
func TestCutAnywhere(t *testing.T) {
	for _, name := range []string{"tiny.png", "tiny.tif", "tiny.webp", "tiny.gif", "tiny.bmp", "jpeg"} {
		data := photo(t)
		if name != "jpeg" {
			var err error
			if data, err = os.ReadFile(filepath.Join("testdata", name)); err != nil {
				t.Fatal(err)
			}
		}
		whole, err := Decode(data, nil)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for n := range len(data) {
			for _, pure := range []bool{true, false} {
				s, err := Decode(data[:n], &Options{Pure: pure})
				if err != nil {
					var r *Refusal
					if !errors.As(err, &r) {
						t.Fatalf("%s at %d: %v", name, n, err)
					}
					continue
				}
				if !same(s.Image, whole.Image) {
					t.Errorf("%s cut at %d of %d is read, with other pixels", name, n, len(data))
				}
			}
		}
	}
}

func same(a, b image.Image) bool {
	if a.Bounds() != b.Bounds() {
		return false
	}
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			if a.At(x, y) != b.At(x, y) {
				return false
			}
		}
	}
	return true
}

func TestLimitOnPixels(t *testing.T) {
	data := photo(t) // 24 × 16
	if _, err := Decode(data, &Options{MaxPixels: 384}); err != nil {
		t.Errorf("384 pixels under a limit of 384: %v", err)
	}
	_, err := Decode(data, &Options{MaxPixels: 383})
	var r *Refusal
	if !errors.As(err, &r) || r.Code != "decode.too-large" || r.Values["width"] != 24 || r.Values["limit"] != 383e-6 {
		t.Errorf("384 pixels under a limit of 383: %v", err)
	}
}

// An allocation in proportion to what a bomb unpacks to would show.
func TestBombsInChunksStayPacked(t *testing.T) {
	var z bytes.Buffer
	w := zlib.NewWriter(&z)
	zeros := make([]byte, 1<<20)
	for range 256 {
		w.Write(zeros)
	}
	w.Close()
	tiny, err := os.ReadFile("testdata/tiny.png")
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range []string{"iCCP", "zTXt"} {
		key := "x"
		if kind == "zTXt" {
			key = "Raw profile type exif"
		}
		chunk := appendChunk(nil, kind, append([]byte(key+"\x00\x00"), z.Bytes()...))
		data := bytes.Join([][]byte{tiny[:33], chunk, tiny[33:]}, nil)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		s, err := Decode(data, nil)
		runtime.ReadMemStats(&after)
		if err != nil {
			t.Fatalf("%s: %v", kind, err)
		}
		if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; mb > 48 {
			t.Errorf("%s: %d MB were asked for", kind, mb)
		}
		if kind == "iCCP" && (len(s.Notes) != 1 || s.Notes[0].Code != "colour.bad-profile") {
			t.Errorf("%s: notes %v", kind, s.Notes)
		}
	}
}

// Type is told by content: a name never comes in.
func TestSniff(t *testing.T) {
	for head, want := range map[string]string{
		"\xff\xd8\xff\xe1":                                 "jpeg",
		"\x89PNG\r\n\x1a\n":                                "png",
		"II*\x00\x08\x00\x00\x00":                          "tiff",
		"II+\x00\x08\x00\x00\x00":                          "bigtiff",
		"II*\x00\x10\x00\x00\x00CR\x02\x00":                "raw",
		"RIFF\x00\x00\x00\x00WEBPVP8 ":                     "webp",
		"RIFF\x00\x00\x00\x00AVI LIST":                     "video",
		"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic": "heic",
		"\x00\x00\x00\x1cftypmif1\x00\x00\x00\x00avifmif1": "avif",
		"\x00\x00\x00\x18ftypcrx \x00\x00\x00\x01crx isom": "raw",
		"\x00\x00\x00\x18ftypmp42\x00\x00\x00\x00isommp42": "video",
		"GIF89a": "gif", "<svg xmlns": "svg", "%PDF-1.7": "pdf", "": "",
	} {
		if got := Sniff([]byte(head)); got != want {
			t.Errorf("Sniff(%q) = %q, want %q", head, got, want)
		}
	}
}

// orientation agrees with turning a picture by hand: irot turns it against the
// clock, imir then swaps top and bottom (0) or left and right (1).
func TestOrientationOfBoxes(t *testing.T) {
	type pic [][]int
	turn := func(p pic) pic { // a quarter against the clock
		h, w := len(p), len(p[0])
		q := make(pic, w)
		for y := range q {
			q[y] = make([]int, h)
			for x := range q[y] {
				q[y][x] = p[x][w-1-y]
			}
		}
		return q
	}
	mirror := func(p pic, axis int) pic {
		h, w := len(p), len(p[0])
		q := make(pic, h)
		for y := range q {
			q[y] = make([]int, w)
			for x := range q[y] {
				if axis == 0 {
					q[y][x] = p[h-1-y][x]
				} else {
					q[y][x] = p[y][w-1-x]
				}
			}
		}
		return q
	}
	// stored(o) is what orientation o shows: the place of each stored pixel.
	show := func(p pic, o int) pic {
		h, w := len(p), len(p[0])
		uw, uh := w, h
		if o >= 5 {
			uw, uh = h, w
		}
		q := make(pic, uh)
		for y := range q {
			q[y] = make([]int, uw)
		}
		for y := range h {
			for x := range w {
				at := [9][2]int{{}, {x, y}, {w - 1 - x, y}, {w - 1 - x, h - 1 - y}, {x, h - 1 - y}, {y, x}, {h - 1 - y, x}, {h - 1 - y, w - 1 - x}, {y, w - 1 - x}}[o]
				q[at[1]][at[0]] = p[y][x]
			}
		}
		return q
	}
	p := pic{{1, 2, 3}, {4, 5, 6}}
	equal := func(a, b pic) bool {
		if len(a) != len(b) {
			return false
		}
		for y := range a {
			for x := range a[y] {
				if a[y][x] != b[y][x] {
					return false
				}
			}
		}
		return true
	}
	for r := range 4 {
		for m := -1; m < 2; m++ {
			for _, mirrorFirst := range []bool{false, true} {
				want := p
				if m >= 0 && mirrorFirst {
					want = mirror(want, m)
				}
				for range r {
					want = turn(want)
				}
				if m >= 0 && !mirrorFirst {
					want = mirror(want, m)
				}
				f := &heifFile{rotation: r, mirror: m, mirrorOn: mirrorFirst}
				if got := show(p, f.orientation()); !equal(got, want) {
					t.Errorf("irot %d, imir %d, mirror first %v: orientation %d shows %v, want %v", r, m, mirrorFirst, f.orientation(), got, want)
				}
			}
		}
	}
}

// Files that are cheap to make and would be dear to walk.
func TestCostlyHeadersAreCheap(t *testing.T) {
	marks := append([]byte("II*\x00\x10\x00\x00\x00CR\x02\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00"), bytes.Repeat([]byte{0xff, 0xd8}, 8<<20)...)
	// An iloc of 65535 extents of no bytes for each of 65535 items.
	iloc := append([]byte("\x00\x00\x00\x00\x00\x00\xff\xff"), bytes.Repeat([]byte("\x00\x01\x00\x00\xff\xff"), 65535)...)
	box := func(kind string, body []byte) []byte {
		n := len(body) + 8
		return append([]byte{byte(n >> 24), byte(n >> 16), byte(n >> 8), byte(n), kind[0], kind[1], kind[2], kind[3]}, body...)
	}
	heif := append(box("ftyp", []byte("heic\x00\x00\x00\x00heic")), box("meta", append([]byte{0, 0, 0, 0}, box("iloc", iloc)...))...)
	// A canvas of one pixel around a frame of 16383 × 16383.
	webp := []byte("RIFF\x2c\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00VP8 \x0e\x00\x00\x00\x30\x01\x00\x9d\x01\x2a\xff\x3f\xff\x3f\x00\x00\x00\x00")
	for name, data := range map[string][]byte{"JPEG marks": marks, "extents": heif, "frame beyond the canvas": webp} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		if _, err := Decode(data, nil); err == nil {
			t.Errorf("%s: no refusal", name)
		}
		runtime.ReadMemStats(&after)
		if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; mb > 32 {
			t.Errorf("%s: %d MB were asked for", name, mb)
		}
	}
	// The work behind it, counted: extents kept, and JPEG marks looked into.
	m := metaBox{extents: map[uint32][]extent{}}
	m.locations(&cursor{b: iloc})
	kept := 0
	for _, e := range m.extents {
		kept += len(e)
	}
	if kept > maxBoxes {
		t.Errorf("%d extents are kept, want at most %d", kept, maxBoxes)
	}
	real := bytes.Repeat(photo(t), maxMarks+5)
	if n := len(findPreviews(real)); n == 0 || n > maxMarks {
		t.Errorf("%d previews are found, want 1 to %d", n, maxMarks)
	}
}

// FuzzBoxes: no HEIF header makes the walk panic or take long.
func FuzzBoxes(f *testing.F) {
	f.Add([]byte("\x00\x00\x00\x10ftypheic\x00\x00\x00\x00\x00\x00\x00\x20meta\x00\x00\x00\x00\x00\x00\x00\x0epitm\x00\x00\x00\x00\x00\x01"))
	f.Fuzz(func(t *testing.T, data []byte) {
		h := scanHEIF(data)
		if o := h.orientation(); o < 1 || o > 8 {
			t.Errorf("orientation %d", o)
		}
	})
}
