package frame

import (
	"encoding/csv"
	"image"
	_ "image/jpeg"
	_ "image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/pixel"
)

// photos is the folder of real test photos, kept outside the repository. Each
// has its source and licence in its SOURCES.csv.
func photos(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		dir = filepath.Dir(dir)
	}
	dir = filepath.Join(dir, "..", "shared", "photos")
	if _, err := os.Stat(filepath.Join(dir, "SOURCES.csv")); err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatalf("real test photos are missing: %v", err)
		}
		t.Skip("real test photos (../shared/photos) are missing")
	}
	return dir
}

// read decodes a photo and reduces it to 768 pixels in linear light.
func read(t testing.TB, name string) *pixel.Image {
	t.Helper()
	return reduce(linear(decode(t, name)), 768)
}

func decode(t testing.TB, name string) image.Image {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, _, err := image.Decode(f)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return m
}

var toLinear = func() (t [65536]uint16) {
	for i := range t {
		v := float64(i) / 65535
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		t[i] = uint16(v*65535 + 0.5)
	}
	return t
}()

func linear(m image.Image) *pixel.Image {
	b := m.Bounds()
	p := pixel.New(b.Dx(), b.Dy())
	for y := range p.H {
		row := p.Row(y)
		for x := range p.W {
			r, g, bl, _ := m.At(b.Min.X+x, b.Min.Y+y).RGBA()
			row[3*x], row[3*x+1], row[3*x+2] = toLinear[r], toLinear[g], toLinear[bl]
		}
	}
	return p
}

func reduce(m *pixel.Image, side int) *pixel.Image {
	if max(m.W, m.H) <= side {
		return m
	}
	w, h := m.W*side/max(m.W, m.H), m.H*side/max(m.W, m.H)
	p := pixel.New(w, h)
	for y := range h {
		for x := range w {
			var s [3]uint64
			var n uint64
			for j := y * m.H / h; j < (y+1)*m.H/h; j++ {
				for i := x * m.W / w; i < (x+1)*m.W/w; i++ {
					for k := range 3 {
						s[k] += uint64(m.Pix[(j*m.W+i)*3+k])
					}
					n++
				}
			}
			for k := range 3 {
				p.Pix[(y*w+x)*3+k] = uint16(s[k] / n)
			}
		}
	}
	return p
}

// truth is a ground-truth mask: 255 on the subject.
func truth(t testing.TB, name string) *Mask {
	m := decode(t, name)
	b := m.Bounds()
	k := &Mask{b.Dx(), b.Dy(), make([]uint8, b.Dx()*b.Dy())}
	for y := range k.H {
		for x := range k.W {
			if r, _, _, _ := m.At(b.Min.X+x, b.Min.Y+y).RGBA(); r>>8 > 127 {
				k.Pix[y*k.W+x] = 255
			}
		}
	}
	return k
}

// score compares a result with the truth: the share of the subject that the
// crop keeps, the overlap (intersection over union) of the masks and of the boxes.
func score(r Result, k *Mask) (kept, mask, box float64) {
	inv := r.Source(k.W, k.H).inverse()
	var n, in, both, either float64
	b := [4]float64{1, 1, 0, 0}
	for y := range k.H {
		for x := range k.W {
			u, v := (float64(x)+0.5)/float64(k.W), (float64(y)+0.5)/float64(k.H)
			is := k.Pix[y*k.W+x] != 0
			got := r.Mask != nil && r.Mask.At(u, v) != 0
			if is || got {
				either++
			}
			if !is {
				continue
			}
			if got {
				both++
			}
			n++
			p, q := inv.Apply(u*float64(k.W), v*float64(k.H))
			p, q = p/float64(k.W), q/float64(k.H)
			b[0], b[1], b[2], b[3] = math.Min(b[0], p), math.Min(b[1], q), math.Max(b[2], p), math.Max(b[3], q)
			if p >= r.Crop[0] && p <= r.Crop[2] && q >= r.Crop[1] && q <= r.Crop[3] {
				in++
			}
		}
	}
	area := func(b [4]float64) float64 { return math.Max(0, b[2]-b[0]) * math.Max(0, b[3]-b[1]) }
	s := r.Subject
	x := area([4]float64{math.Max(s[0], b[0]), math.Max(s[1], b[1]), math.Min(s[2], b[2]), math.Min(s[3], b[3])})
	return in / n, both / either, x / (area(s) + area(b) - x)
}

// masked lists the photos with a ground-truth mask.
func masked(t testing.TB) (images, masks []string) {
	dir := photos(t)
	f, err := os.Open(filepath.Join(dir, "subject", "BOXES.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		images = append(images, filepath.Join(dir, "subject", r[0]))
		masks = append(masks, filepath.Join(dir, "subject", r[1]))
	}
	return images, masks
}
