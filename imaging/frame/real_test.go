package frame

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// truth is a ground-truth mask: 255 on the subject.
func truth(t testing.TB, name string) *pixel.Mask {
	m := phototest.Decode(t, name)
	b := m.Bounds()
	k := &pixel.Mask{W: b.Dx(), H: b.Dy(), Pix: make([]uint8, b.Dx()*b.Dy())}
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
func score(r Result, k *pixel.Mask) (kept, mask, box float64) {
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
	dir := phototest.Dir(t)
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
