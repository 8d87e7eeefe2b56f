package pixel

import (
	"math"
	"slices"
	"testing"
)

// letterF is a picture that looks different from every side.
func letterF() *Image {
	m := New(5, 7)
	for i := range m.Pix {
		m.Pix[i] = uint16(i * 31)
	}
	return m
}

// store returns m as a camera held so would store it: the inverse of Orient.
func store(m *Image, orientation int) *Image {
	back := [9]int{0, 1, 2, 3, 4, 5, 8, 7, 6}
	return Orient(m, back[orientation])
}

func TestEightOrientationsGiveOnePicture(t *testing.T) {
	f := letterF()
	for o := 1; o <= 8; o++ {
		if got := Orient(store(f, o), o); got.W != f.W || !slices.Equal(got.Pix, f.Pix) {
			t.Errorf("orientation %d does not come back upright", o)
		}
	}
	// Exif 2.32, tag 0x0112: 6 means row 0 is the visual right-hand side and
	// column 0 the top, so stored (0, 0) belongs in the top right corner.
	up := Orient(f, 6)
	if got, want := up.Pix[(up.W-1)*3], f.Pix[0]; got != want {
		t.Errorf("orientation 6: top right is %d, want stored (0, 0), %d", got, want)
	}
	if up := Orient(f, 3); up.Pix[len(up.Pix)-3] != f.Pix[0] {
		t.Error("orientation 3: stored (0, 0) is not at the bottom right")
	}
}

func TestFourQuarterTurnsAreIdentity(t *testing.T) {
	f := letterF()
	m := f
	for range 4 {
		m = Orient(m, 6)
	}
	if !slices.Equal(m.Pix, f.Pix) {
		t.Error("four quarter turns change the picture")
	}
}

func TestCropAgreesWithOrientation(t *testing.T) {
	m := scene(120, 90)
	want, err := Resample(m.Rows(), Region{W: 40, H: 30, Quad: Box(20, 10, 100, 70)})
	if err != nil {
		t.Fatal(err)
	}
	for o := 2; o <= 8; o++ {
		got, err := Resample(store(m, o).Rows(), Region{Orientation: o, W: 40, H: 30, Quad: Box(20, 10, 100, 70)})
		if err != nil {
			t.Fatal(err)
		}
		for i := range want.Pix {
			if math.Abs(float64(got.Pix[i])-float64(want.Pix[i])) > 8 { // weights rounded from the other side
				t.Fatalf("orientation %d: value %d is %d, want %d", o, i, got.Pix[i], want.Pix[i])
			}
		}
	}
}

func TestWarp(t *testing.T) {
	m := scene(200, 150)
	same, err := cubicWarp(m, Box(0, 0, 200, 150), 200, 150)
	if err != nil || !slices.Equal(same.Pix, m.Pix) {
		t.Errorf("the identity warp changes the picture (%v)", err)
	}
	// A quarter turn written as a quad is Orient's quarter turn.
	turned, err := cubicWarp(m, Quad{{0, 150}, {0, 0}, {200, 0}, {200, 150}}, 150, 200)
	if err != nil || !slices.Equal(turned.Pix, Orient(m, 6).Pix) {
		t.Errorf("a quarter turn by quad differs from the exact one (%v)", err)
	}
	// A smooth picture turned by 2° is the function it was drawn from, turned.
	wave := func(x, y float64) float64 { return 0.5 + 0.3*math.Sin(x/9)*math.Cos(y/11) }
	s := New(200, 150)
	for y := range 150 {
		for x := range 200 {
			for c := range 3 {
				s.Pix[(y*200+x)*3+c] = uint16(65535 * wave(float64(x)+0.5, float64(y)+0.5))
			}
		}
	}
	sin, cos := math.Sincos(2 * math.Pi / 180)
	at := func(x, y float64) Point { return Point{100 + x*cos - y*sin, 75 + x*sin + y*cos} }
	got, err := Resample(s.Rows(), Region{W: 120, H: 80, Quad: Quad{at(-60, -40), at(60, -40), at(60, 40), at(-60, 40)}})
	if err != nil {
		t.Fatal(err)
	}
	worst := 0.0
	for y := range 80 {
		for x := range 120 {
			p := at(float64(x)+0.5-60, float64(y)+0.5-40)
			worst = max(worst, math.Abs(float64(got.Pix[(y*120+x)*3])/65535-wave(p.X, p.Y)))
		}
	}
	if worst > 0.01 {
		t.Errorf("a turn by 2° is off by %.4f of white", worst)
	}
}

// Turned twice is turned once by the sum, and what stands for an orientation is
// the picture that Orient makes.
func TestTurned(t *testing.T) {
	m := New(3, 2)
	for i := range m.Pix {
		m.Pix[i] = uint16(i)
	}
	for o := 1; o <= 8; o++ {
		for _, d := range []int{0, 90, 180, 270, -90, 450} {
			k, err := Turned(o, d)
			if err != nil {
				t.Fatal(err)
			}
			want := Orient(m, o)
			for range (d/90%4 + 4) % 4 {
				want = Orient(want, 6) // a quarter clockwise: Exif 2.32, tag 0x0112
			}
			if got := Orient(m, k); got.W != want.W || !slices.Equal(got.Pix, want.Pix) {
				t.Errorf("orientation %d turned by %d is %d, and that is another picture", o, d, k)
			}
		}
	}
	if _, err := Turned(1, 45); err == nil {
		t.Error("a turn by 45 degrees goes through")
	}
}

func TestWarpRefuses(t *testing.T) {
	m := New(10, 10)
	q := Box(1, 1, 9, 9)
	for _, c := range []struct{ w, h int }{{0, 4}, {4, 0}, {-1, 4}, {4, -1}, {maxSide + 1, 4}, {4, maxSide + 1}} {
		if _, err := cubicWarp(m, q, c.w, c.h); err == nil {
			t.Errorf("%d × %d pixels were made", c.w, c.h)
		}
	}
	if _, err := cubicWarp(m, Quad{{1, 1}, {9, 1}, {2, 2}, {1, 9}}, 4, 4); err == nil {
		t.Error("a folded quad was taken")
	}
	if _, err := cubicWarp(New(0, 0), q, 4, 4); err == nil {
		t.Error("an empty picture was taken")
	}
	if got, err := cubicWarp(m, q, 1, 1); err != nil || got.W != 1 || got.H != 1 {
		t.Errorf("one pixel: %v", err)
	}
}
