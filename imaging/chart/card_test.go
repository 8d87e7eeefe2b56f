package chart

import (
	"bytes"
	"image/jpeg"
	"io/fs"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/decode"
	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/internal/scene"
	"slabfolio/imaging/linear"
	"slabfolio/imaging/pixel"
)

// laidIn lays a card of 18 % into a copy of a photo, in a light that slopes by
// stops, with the noise of a sensor, its edges softened by four samples a side.
func laidIn(m *pixel.Image, q [4]pixel.Point, level, stops float64, rng *rand.Rand) *pixel.Image {
	out := m.Clone()
	lo, hi := q[0], q[0]
	for _, p := range q {
		lo, hi = pixel.Point{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y)}, pixel.Point{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y)}
	}
	turn := rng.Float64() * 2 * math.Pi
	for y := max(int(lo.Y)-1, 0); y < min(int(hi.Y)+2, m.H); y++ {
		for x := max(int(lo.X)-1, 0); x < min(int(hi.X)+2, m.W); x++ {
			n := 0.0
			for k := range 16 {
				if pixel.Inside(q[:], pixel.Point{X: float64(x) + (float64(k%4)+0.5)/4, Y: float64(y) + (float64(k/4)+0.5)/4}) {
					n++
				}
			}
			along := ((float64(x)-lo.X)/(hi.X-lo.X)-0.5)*math.Cos(turn) + ((float64(y)-lo.Y)/(hi.Y-lo.Y)-0.5)*math.Sin(turn)
			for c := range 3 {
				i := 3*(y*m.W+x) + c
				v := level * math.Exp2(stops*along) * (1 + 0.015*rng.NormFloat64())
				out.Pix[i] = uint16(min(max(float64(m.Pix[i])*(1-n/16)+65535*v*n/16, 0), 65535))
			}
		}
	}
	return out
}

// askew is a card's outline seen from some height, turned: side in pixels.
func askew(x, y, side float64, rng *rand.Rand) (q [4]pixel.Point) {
	turn, lean, ratio := rng.Float64()*2*math.Pi, 0.45+0.55*rng.Float64(), 1+0.5*rng.Float64()
	for i, c := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		u, v := c[0]*side/2, c[1]*side/2/ratio
		px, py := u*math.Cos(turn)-v*math.Sin(turn), u*math.Sin(turn)+v*math.Cos(turn)
		k := 1 / (1 - 0.15*py/side) // nearer below
		q[i] = pixel.Point{X: x + px*k, Y: y + py*lean*k}
	}
	return q
}

// A card laid into real photos, of any place, turn, slant and light, is found and
// nothing else is: 48 times, from 9 to 25 % of the photo's longer side.
func TestQualityCardLaidIn(t *testing.T) {
	dir := phototest.Dir(t)
	rng := rand.New(rand.NewPCG(7, 8))
	all, found, several := 0, 0, 0
	for _, name := range []string{"mei_workshop_bench.jpg", "jsk_wooden_table_top.jpg", "mei_garden_furniture.jpg", "mate_Wood.jpg"} {
		m := phototest.Read(t, filepath.Join(dir, "furniture", name), 768)
		for k := range 12 {
			side := float64(max(m.W, m.H)) * (0.09 + 0.16*rng.Float64())
			q := askew(float64(m.W)*(0.25+0.5*rng.Float64()), float64(m.H)*(0.3+0.4*rng.Float64()), side, rng)
			p := laidIn(m, q, 0.18*math.Exp2(rng.Float64()*2-1), 0.6*rng.Float64(), rng)
			light := [][3]float64{{1, 1, 1}, {1.25, 1, 0.72}, {0.85, 1, 1.25}}[k%3]
			for i := range p.Pix {
				p.Pix[i] = uint16(min(float64(p.Pix[i])*light[i%3], 65535))
			}
			got := Cards(p)
			all++
			switch {
			case len(got) > 1:
				several++
			case len(got) == 1 && !holds(q, got[0], m):
				t.Errorf("%s: a card at %.2f, laid at %.0f", name, got[0].Corners, q)
			case len(got) == 1:
				found++
				if d := off(got[0].Grey, light); d > 1 {
					t.Errorf("%s: its grey is off by ΔE00 %.2f", name, d)
				}
			}
		}
	}
	t.Logf("%d of %d cards found; %d times more than one thing", found, all, several)
	if found*100 < 85*all || several > 0 {
		t.Errorf("%d of %d found, %d times several", found, all, several)
	}
}

// off is the chroma error of a grey under a light, once that grey is made neutral
// and then the light itself is looked at.
func off(grey, light [3]float64) float64 {
	y := luma(grey)
	var v [3]float64
	for c := range v {
		v[c] = 0.18 * light[c] * y / grey[c]
	}
	k := 0.18 / luma(v)
	lab := colour.LinearToLab(k*v[0], k*v[1], k*v[2])
	return colour.DeltaE2000(lab, colour.Lab{L: lab.L})
}

// holds reports whether the box of a card lies within a quadrangle, in pixels.
func holds(q [4]pixel.Point, c Card, m *pixel.Image) bool {
	for _, x := range [2]float64{c.Box[0], c.Box[2]} {
		for _, y := range [2]float64{c.Box[1], c.Box[3]} {
			if !pixel.Inside(q[:], pixel.Point{X: x * float64(m.W), Y: y * float64(m.H)}) {
				return false
			}
		}
	}
	return true
}

// In a drawn scene, seen from above, the card that lies there is found, however
// the light; a sheet of paper beside it is none.
func TestCardInScene(t *testing.T) {
	if testing.Short() {
		t.Skip("draws scenes")
	}
	for _, o := range []scene.TestOptions{
		{Above: true, GreyCard: true, Resin: -1, Askew: 8, White: [3]float64{1.18, 1, 0.74}},
		{Above: true, GreyCard: true, Paper: "a4", Turn: 12},
		{Above: true, Paper: "a4"},
	} {
		s := scene.TestShot(o, 768, 576)
		file, truth := scene.Shoot(s)
		img, err := jpeg.Decode(bytes.NewReader(file))
		if err != nil {
			t.Fatal(err)
		}
		m := phototest.Linear(img)
		got := Cards(m)
		if !o.GreyCard {
			if len(got) > 0 {
				t.Errorf("%+v: a card at %.2f", o, got[0].Corners)
			}
			continue
		}
		marks := truth.Marks[len(truth.Marks)-4:]
		var q [4]pixel.Point
		for i := range q {
			q[i] = pixel.Point{X: marks[i][0], Y: marks[i][1]}
		}
		if len(got) != 1 || !holds(q, got[0], m) {
			t.Errorf("%+v: %d cards, want the one at %.0f", o, len(got), q)
		}
	}
}

// What is no card: two of them, a white or a black thing, wood, a window among
// windows, a disc.
func TestWhatIsNoCard(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	ground := pixel.New(640, 480)
	for i := range ground.Pix {
		ground.Pix[i] = uint16([3]float64{0.38, 0.25, 0.12}[i%3] * 65535 * max(1+0.2*rng.NormFloat64(), 0))
	}
	paint := func(m *pixel.Image, x0, y0, x1, y1 int, v [3]float64) *pixel.Image {
		m = m.Clone()
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				for c := range v {
					m.Pix[3*(y*m.W+x)+c] = uint16(65535 * v[c])
				}
			}
		}
		return m
	}
	grey := [3]float64{0.18, 0.18, 0.18}
	one := paint(ground, 100, 100, 220, 190, grey)
	tiles := ground
	for k := range 6 {
		tiles = paint(tiles, 60+90*k, 100, 140+90*k, 190, [3]float64{0.18 + 0.01*float64(k), 0.18, 0.18})
	}
	disc := ground.Clone()
	for y := range 480 {
		for x := range 640 {
			if math.Hypot(float64(x-300), float64(y-200)) < 70 {
				copy(disc.Pix[3*(y*640+x):], []uint16{11796, 11796, 11796})
			}
		}
	}
	for _, c := range []struct {
		what string
		m    *pixel.Image
		want int
	}{
		{"a card", one, 1},
		{"a card on wood that is no brighter: it may be paper in the shade", darker(one), 0},
		{"two cards", paint(one, 360, 200, 480, 300, grey), 2},
		{"the same with white paper beside it", paint(one, 360, 200, 560, 400, [3]float64{0.85, 0.85, 0.85}), 1},
		{"a card cut off by the photo's edge", paint(ground, 0, 100, 120, 190, grey), 0},
		{"white paper", paint(ground, 100, 100, 220, 190, [3]float64{0.85, 0.85, 0.85}), 0},
		{"a black thing", paint(ground, 100, 100, 220, 190, [3]float64{0.012, 0.012, 0.012}), 0},
		{"a piece of even wood", paint(ground, 100, 100, 220, 190, [3]float64{0.24, 0.15, 0.08}), 0},
		{"green", paint(ground, 100, 100, 220, 190, [3]float64{0.13, 0.20, 0.13}), 0},
		{"grey tiles", tiles, 0},
		{"a strip", paint(ground, 100, 100, 400, 140, grey), 0},
		{"a disc", disc, 0},
		{"nothing", pixel.New(64, 64), 0},
	} {
		if got := Cards(c.m); len(got) != c.want {
			t.Errorf("%s: %d cards, want %d", c.what, len(got), c.want)
		}
	}
	if Cards(pixel.New(2, 2)) != nil {
		t.Error("a card in four pixels")
	}
}

// darker leaves the card of a picture as it is and makes the rest darker.
func darker(m *pixel.Image) *pixel.Image {
	m = m.Clone()
	for i, v := range m.Pix {
		if v != 11796 {
			m.Pix[i] = v / 3
		}
	}
	return m
}

// No real photo without a card is said to hold one, and where a chart is not found
// its patches are not taken for one card.
func TestQualityNoFalseCard(t *testing.T) {
	if os.Getenv("SLABFOLIO_REFERENCE") != "required" {
		t.Skip("reads every photo; SLABFOLIO_REFERENCE=required runs it")
	}
	dir := phototest.Dir(t)
	n := 0
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !slices.Contains([]string{".jpg", ".jpeg", ".png", ".tif", ".webp"}, strings.ToLower(filepath.Ext(path))) {
			return err
		}
		rel, _ := filepath.Rel(dir, path)
		if strings.HasPrefix(rel, "broken") {
			return nil
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		src, err := decode.Decode(data, nil)
		if err != nil {
			return nil // refused
		}
		r, _ := linear.NewRows(&src.Encoded)
		m, err := pixel.Reduce(r, src.Orientation, 768)
		if err != nil {
			return err
		}
		n++
		got := Cards(m)
		if strings.HasPrefix(rel, "colour-target") || strings.HasPrefix(rel, "charts") {
			if len(got) == 1 && Find(m) == nil {
				t.Errorf("%s: of a chart that is not found a patch is taken for a card, %.2f", rel, got[0].Corners)
			}
			return nil
		}
		if len(got) > 0 {
			t.Errorf("%s: a card at %.2f", rel, got[0].Corners)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d photos, none said to have a grey card", n)
	if n < 200 {
		t.Errorf("only %d photos looked at", n)
	}
}
