package frame

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// A wall with its skirting and floor, a desk before a wall, a leather with a
// shine on it: the eye sees no plain backdrop, so nothing may be cut close there.
// Real photos, see SOURCES.csv.
func TestNoSureOutlineBeforeWhatIsNoBackdrop(t *testing.T) {
	dir := filepath.Join(phototest.Dir(t), "furniture")
	for _, name := range []string{"caltech_windsor_chair_0030.jpg", "mei_desk_22MP.jpg", "mei_redwood_object_dark_backdrop.jpg", "mei_workshop_bench.jpg"} {
		if r := Find(phototest.Read(t, filepath.Join(dir, name), 768), nil); r.Sure {
			t.Errorf("%s: the outline is taken for sure, box %.2f", name, r.Subject)
		}
	}
	for _, name := range []string{"caltech_chair_0012.jpg", "caltech_windsor_chair_0052.jpg", "caltech_barrel_0005.jpg"} {
		if r := Find(phototest.Read(t, filepath.Join(dir, name), 768), nil); !r.Sure {
			t.Errorf("%s: stands before plain paper, and its outline is not taken for sure", name)
		}
	}
}

// A sighting counts where it is certain, and never against a sure outline.
func TestSightings(t *testing.T) {
	busy := filepath.Join(phototest.Dir(t), "subject", "davis_blackswan_00000")
	m, k := phototest.Read(t, busy+".jpg", 768), truth(t, busy+"_mask.png")
	elsewhere := &pixel.Mask{W: 100, H: 100, Pix: make([]uint8, 10000)}
	for i := range 1500 {
		elsewhere.Pix[i] = 255
	}
	for _, c := range []struct {
		name string
		s    *Sighting
		sure bool
	}{
		{"none", nil, false}, {"certain", &Sighting{Mask: k, Certainty: 0.95}, true}, {"unlikely", &Sighting{Mask: k, Certainty: 0.4}, false},
		{"likely", &Sighting{Mask: k, Certainty: 0.89}, false}, {"empty", &Sighting{Mask: &pixel.Mask{W: 10, H: 10, Pix: make([]uint8, 100)}, Certainty: 1}, false},
		{"without a mask", &Sighting{Certainty: 1}, false},
	} {
		r := Find(m, &Options{Sight: func() *Sighting { return c.s }})
		if r.Sure != c.sure {
			t.Errorf("%s: sure %v, want %v", c.name, r.Sure, c.sure)
		}
		if c.name == "likely" && (overlap(r, k) < 0.95 || r.Crop != whole) {
			t.Errorf("likely: the mask overlaps by %.2f, the crop is %.2f", overlap(r, k), r.Crop)
		}
		if c.sure {
			if kept, mask, _ := score(r, k); kept < 0.99 || mask < 0.95 {
				t.Errorf("%s: kept %.3f, overlap %.3f", c.name, kept, mask)
			}
		}
	}
	if r := Find(table(4), &Options{Sight: func() *Sighting { return &Sighting{Mask: elsewhere, Certainty: 1} }}); r.Subject[1] < 0.3 {
		t.Errorf("a sighting moved a sure outline to %.2f", r.Subject)
	}
}

// A line drawn around a photo is taken off, and a photo without one is left alone.
func TestBorderLine(t *testing.T) {
	m := table(4)
	if b := border(m); b != whole {
		t.Errorf("no line, and %v is left", b)
	}
	paint(m, 0, 0, m.W, 2, 3000, 3000, 3000)
	paint(m, m.W-1, 0, m.W, m.H, 65535, 65535, 65535)
	b := border(m)
	want := [4]float64{0, 3. / 512, 1 - 2./768, 1}
	for i := range b {
		if math.Abs(b[i]-want[i]) > 1e-9 {
			t.Fatalf("lines above and to the right: %v is left, want %v", b, want)
		}
	}
	r := Find(m, nil)
	if !contains(b, r.Crop) {
		t.Errorf("the crop %.3f holds the lines", r.Crop)
	}
	if r := Find(m, &Options{AsShot: true}); r.Inside != whole {
		t.Errorf("as shot, and %v is left", r.Inside)
	}
}

// A frame of one colour around a photo, or black bars at two sides, are taken off to
// four pixels beside; of all real photos none is taken to have any.
func TestQualityMat(t *testing.T) {
	found, framed := 0, 0
	for i, name := range realNames(t) {
		m := phototest.Read(t, name, 768)
		if mat := matOf(m); mat != [4]int{} {
			t.Errorf("%s: a mat of %v pixels is seen", filepath.Base(name), mat)
		}
		if i%4 != 0 {
			continue // every fourth photo will do
		}
		for _, c := range []struct {
			level uint8
			wide  [4]int // share of the longer side, in thousandths: left, top, right, bottom
		}{{255, [4]int{10, 10, 10, 10}}, {0, [4]int{25, 25, 25, 25}}, {160, [4]int{30, 20, 30, 20}}, {0, [4]int{0, 60, 0, 60}}, {0, [4]int{50, 0, 50, 0}}} {
			framed++
			got, want := matOf(matted(t, m, c.level, c.wide)), [4]int{}
			whole := true
			for i, w := range c.wide {
				want[i] = w * max(m.W, m.H) / 1000
				whole = whole && got[i] >= want[i]
				if got[i] > want[i]+4 {
					t.Errorf("%s: of a mat of %v pixels %v are taken off", filepath.Base(name), want, got)
				}
			}
			if whole {
				found++
			}
		}
	}
	t.Logf("mats found: %d of %d", found, framed)
	if found*10 < framed*6 {
		t.Error("want 6 of 10 found")
	}
}

// matted is a photo with a mat laid over its edges, as a JPEG of quality 85 has it.
func matted(t *testing.T, m *pixel.Image, level uint8, wide [4]int) *pixel.Image {
	t.Helper()
	p, side := image.NewRGBA(image.Rect(0, 0, m.W, m.H)), max(m.W, m.H)
	for y := range m.H {
		for x := range m.W {
			c := color.RGBA{level, level, level, 255}
			if x >= wide[0]*side/1000 && y >= wide[1]*side/1000 && x < m.W-wide[2]*side/1000 && y < m.H-wide[3]*side/1000 {
				v := m.Row(y)[3*x : 3*x+3]
				c = color.RGBA{srgb(v[0]), srgb(v[1]), srgb(v[2]), 255}
			}
			p.SetRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, p, &jpeg.Options{Quality: 85}); err != nil {
		t.Fatal(err)
	}
	back, err := jpeg.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	return phototest.Linear(back)
}

func srgb(v uint16) uint8 {
	f := float64(v) / 65535
	if f <= 0.0031308 {
		return uint8(12.92*f*255 + 0.5)
	}
	return uint8((1.055*math.Pow(f, 1/2.4)-0.055)*255 + 0.5)
}

// realNames are the real photos of things.
func realNames(t *testing.T) (names []string) {
	t.Helper()
	for _, g := range []string{"furniture/*.jpg", "subject/*", "exposure/*/*.jpg", "cameras/*.jpg", "measure/*.jpg"} {
		l, err := filepath.Glob(filepath.Join(phototest.Dir(t), g))
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range l {
			if ext := filepath.Ext(n); (ext == ".jpg" || ext == ".png") && !strings.HasSuffix(n, "_mask.png") {
				names = append(names, n)
			}
		}
	}
	return names
}

// overlap is the intersection of a result's mask and a truth over their union.
func overlap(r Result, k *pixel.Mask) float64 {
	_, mask, _ := score(r, k)
	return mask
}

// Quiet strips are taken off a photo of the piece, never off one of a part of it.
func TestPartIsNotCropped(t *testing.T) {
	m := phototest.Read(t, filepath.Join(phototest.Dir(t), "subject", "davis_car-shadow_00000.jpg"), 768)
	if r := Find(m, nil); r.Crop == whole {
		t.Error("the strip of road below the car is left on")
	}
	if r := Find(m, &Options{Part: true}); r.Crop != whole {
		t.Errorf("a part is cropped to %.2f", r.Crop)
	}
}

// A crop of a photo with few pixels leaves most of them, around the same piece.
func TestCropOfAFewPixels(t *testing.T) {
	m := phototest.Read(t, filepath.Join(phototest.Dir(t), "subject", "davis_blackswan_00000.jpg"), 768)
	small := &pixel.Mask{W: 100, H: 100, Pix: make([]uint8, 10000)}
	for y := 40; y < 70; y++ {
		for x := 50; x < 80; x++ {
			small.Pix[y*100+x] = 255
		}
	}
	sight := func() *Sighting { return &Sighting{Mask: small, Certainty: 0.95} }
	free := Find(m, &Options{Sight: sight})
	for _, c := range []struct{ side, left int }{{600, 480}, {1500, 1200}, {2000, 1340}, {8000, 0}} {
		r := Find(m, &Options{Sight: sight, Side: c.side})
		k := float64(c.side) / 768
		got := k * math.Max((r.Crop[2]-r.Crop[0])*float64(m.W), (r.Crop[3]-r.Crop[1])*float64(m.H))
		if got < float64(c.left)-1 || !contains(r.Crop, r.Subject) || area(r.Crop) > mostLeft {
			t.Errorf("of %d pixels %.0f are left, want %d; crop %.3f of piece %.3f", c.side, got, c.left, r.Crop, r.Subject)
		}
		if c.left == 0 && r.Crop != free.Crop {
			t.Errorf("of %d pixels: crop %.3f, want %.3f", c.side, r.Crop, free.Crop)
		}
	}
}

// Before a plain backdrop a crop of a small photo leaves three quarters of its longer
// side, of a larger one 480 pixels; where there are enough it is as close as without.
func TestCropBeforeAPlainBackdropOfAFewPixels(t *testing.T) {
	m := pixel.New(768, 512)
	paint(m, 0, 0, m.W, m.H, 40000, 40000, 39000)
	paint(m, 300, 200, 480, 330, 9000, 5000, 2500)
	free := Find(m, nil)
	if !free.Sure || !free.Plain {
		t.Fatal("the piece is not sure, and the test holds nothing")
	}
	for _, c := range []struct{ side, left int }{{600, 450}, {1000, 480}, {1600, 480}, {6000, 0}} {
		r := Find(m, &Options{Side: c.side})
		k := float64(c.side) / 768
		got := k * math.Max((r.Crop[2]-r.Crop[0])*float64(m.W), (r.Crop[3]-r.Crop[1])*float64(m.H))
		if got < float64(c.left)-1 || !contains(r.Crop, r.Subject) {
			t.Errorf("of %d pixels %.0f are left, want %d; crop %.3f of piece %.3f", c.side, got, c.left, r.Crop, r.Subject)
		}
		if c.left == 0 && r.Crop != free.Crop {
			t.Errorf("of %d pixels: crop %.3f, want %.3f", c.side, r.Crop, free.Crop)
		}
	}
}
