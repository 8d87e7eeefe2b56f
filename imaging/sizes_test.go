package imaging

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"testing"

	"slabfolio/imaging/rendition"
)

// plainPNG is a picture of one colour.
// A file that would be larger than its budget is made of fewer pixels first, at
// full quality, down to four fifths of its width; then at a lower quality, never
// below 75; then of fewer pixels still. What was done is on record.
func TestBudgetMakesSmallerFirst(t *testing.T) {
	data := table(t, 1500, 1000, 0)
	own := rendition.Size{Name: "own", Width: 1200, Format: "jpeg", Quality: 85}
	_, free := develop(t, &Options{Pure: true}, []rendition.Size{own}, Request{Data: data})
	full := free[0][0]
	for _, c := range []struct {
		name           string
		share          float64 // of the bytes of the full size
		narrower, less bool    // fewer pixels, lower quality
		least          float64 // of its width
	}{
		{"room enough", 1.01, false, false, 1},
		{"a little too large", 0.85, true, false, 0.8},
		{"much too large", 0.66, true, true, 0.8},
		{"far too large", 0.1, true, true, 0.05},
	} {
		s := own
		s.MaxBytes = int(c.share * float64(len(full.Data)))
		photos, files := develop(t, &Options{Pure: true}, []rendition.Size{s}, Request{Data: data})
		f := files[0][0]
		if len(f.Data) > s.MaxBytes {
			t.Errorf("%s: %d bytes, want at most %d", c.name, len(f.Data), s.MaxBytes)
		}
		if f.Quality < 75 || (f.Quality < 85) != c.less {
			t.Errorf("%s: quality %d", c.name, f.Quality)
		}
		if share := float64(f.Width) / float64(full.Width); (share < 1) != c.narrower || share < c.least-0.01 {
			t.Errorf("%s: %d pixels wide of %d", c.name, f.Width, full.Width)
		}
		if w := photos[0].Numbers["width_own"]; c.narrower && w != float64(f.Width) || !c.narrower && w != 0 {
			t.Errorf("%s: %v pixels are on record, the file has %d", c.name, w, f.Width)
		}
		size(t, f) // fails where the file has another size than it says
	}
}

func plainPNG(t *testing.T, w, h int) []byte {
	t.Helper()
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for i := range m.Pix {
		m.Pix[i] = 200
		if i%4 == 3 {
			m.Pix[i] = 255
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestAwkwardSizes(t *testing.T) {
	sizes := append(rendition.DefaultSizes(), rendition.Size{Name: "wide", Width: 900, RatioW: 10, RatioH: 1, Format: "jpeg", Quality: 80},
		rendition.Size{Name: "tall", Width: 90, RatioW: 1, RatioH: 10, Format: "webp", Quality: 80})
	for _, s := range [][2]int{{1, 1}, {2, 3}, {17, 16}, {1, 4000}, {4000, 1}, {9000, 40}, {40, 9000}, {30, 17000}, {769, 768}, {2401, 1601}} {
		t.Run(fmt.Sprintf("%dx%d", s[0], s[1]), func(t *testing.T) {
			opts := &Options{Sizes: sizes}
			if s[0]%2 == 0 {
				opts = nil // Render is asked for sizes that Open was not told of
			}
			p, err := Open(Request{Name: "x", Data: plainPNG(t, s[0], s[1])}, opts)
			if err != nil {
				t.Fatal(err)
			}
			defer p.Close()
			Develop([]*Photo{p})
			files, err := p.Render(sizes, rendition.Meta{})
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range files {
				if f.Width < 1 || f.Height < 1 || f.Width > f.Size.Width || f.Size.RatioW == 0 && (f.Width > s[0] || f.Height > s[1]) {
					t.Errorf("%s is %d × %d", f.Size.Name, f.Width, f.Height)
				}
			}
			if _, err := p.PDFPicture(1599); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestCropBoxAndAsShot(t *testing.T) {
	data := table(t, 1200, 800, 0)
	whole, err := Open(Request{Data: data, CropAsShot: true, ToneAsShot: true}, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer whole.Close()
	if whole.CropW != 1200 || whole.CropH != 800 {
		t.Errorf("as shot is cropped to %d × %d", whole.CropW, whole.CropH)
	}
	boxed, err := Open(Request{Data: data, CropBox: &[4]float64{0.25, 0.25, 0.75, 0.75}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer boxed.Close()
	Develop([]*Photo{whole, boxed})
	if whole.Tone.EV != 0 || whole.Tone.White != [3]float64{1, 1, 1} {
		t.Errorf("tone as shot is %+v", whole.Tone)
	}
	files, err := boxed.Render([]rendition.Size{{Name: "own", Width: 2400, Format: "jpeg", Quality: 90}}, rendition.Meta{})
	if err != nil {
		t.Fatal(err)
	}
	if files[0].Width != 600 || files[0].Height != 400 {
		t.Errorf("half of 1200 × 800 is %d × %d", files[0].Width, files[0].Height)
	}
}

func TestAccentKnowsWood(t *testing.T) {
	for _, c := range []struct {
		hue, chroma float64
	}{{30, 40}, {65, 30}, {90, 50}} {
		white, dark := shade(c.hue, c.chroma, 1, -1), shade(c.hue, c.chroma, luminance(color.NRGBA{R: 0x1c, G: 0x1c, B: 0x1c}), 1)
		if r := contrast(luminance(white), 1); r < 4.5 || r > 6 {
			t.Errorf("hue %v on white has contrast %.2f", c.hue, r)
		}
		if r := contrast(luminance(dark), luminance(color.NRGBA{R: 0x1c, G: 0x1c, B: 0x1c})); r < 4.5 || r > 6 {
			t.Errorf("hue %v on dark has contrast %.2f", c.hue, r)
		}
	}
	// WCAG 2.2: #767676 on white is the well-known 4.54.
	if r := contrast(luminance(color.NRGBA{R: 0x76, G: 0x76, B: 0x76}), 1); r < 4.53 || r > 4.55 {
		t.Errorf("#767676 on white has contrast %.3f, want 4.54", r)
	}
}
