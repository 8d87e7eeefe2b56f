package tone

import (
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
)

// A backdrop whose colour varies as much as it is off is left: two lamps, or a paper
// that was never neutral. The same cast all over is taken off.
func TestTwoLightsAreLeft(t *testing.T) {
	for _, c := range []struct {
		name        string
		left, right [3]float64 // light at either edge
		balanced    bool
	}{
		{"one warm lamp", [3]float64{1.08, 1, 0.90}, [3]float64{1.08, 1, 0.90}, true},
		{"one cool lamp that falls off", [3]float64{0.92, 1, 1.08}, [3]float64{0.46, 0.5, 0.54}, true},
		{"a warm lamp and a window", [3]float64{1.15, 1, 0.82}, [3]float64{1, 1, 1}, false},
		{"a violet lamp and a window", [3]float64{1.1, 0.95, 1.2}, [3]float64{1, 1, 1}, false},
	} {
		m := paper(0.4, 0.01, [3]float64{1, 1, 1})
		for y := range m.H {
			for x := range m.W {
				k := float64(x) / float64(m.W-1)
				for i := range 3 {
					v := &m.Pix[(y*m.W+x)*3+i]
					*v = uint16(float64(*v)*(c.left[i]*(1-k)+c.right[i]*k) + 0.5)
				}
			}
		}
		if _, tr := treat(m); (tr.White != [3]float64{1, 1, 1}) != c.balanced {
			t.Errorf("%s: white %.3f; balanced: want %v", c.name, tr.White, c.balanced)
		}
	}
}

// The photos of the furniture whose backdrop is violet at one end and grey at the other, or
// cream that darkens to tan: those who scored them found them no better for a balance.
func TestQualityUnevenBackdropsAreLeft(t *testing.T) {
	dir := phototest.Dir(t)
	for _, name := range []string{"caltech_windsor_chair_0007.jpg", "caltech_windsor_chair_0051.jpg", "caltech_windsor_chair_0052.jpg"} {
		_, tr := treat(phototest.Read(t, filepath.Join(dir, "furniture", name), 768))
		for _, w := range tr.White {
			if w < 0.99 || w > 1.01 {
				t.Errorf("%s: white %.3f, want it left as shot", name, tr.White)
				break
			}
		}
	}
}
