package imaging

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// chartColours are the published patches in linear light, from the project's table of
// published values.
func chartColours(t *testing.T) (all [][3]float64) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "shared", "reference", "colorchecker.csv"))
	if err != nil {
		t.Skip("no reference values: ", err)
	}
	for _, line := range strings.Split(strings.TrimSpace(string(data)), "\n")[1:] {
		f := strings.Split(line, ",")
		var v [3]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(f[2+i], 64); err != nil {
				t.Fatal(err)
			}
		}
		r, g, b := colour.Lab{L: v[0], A: v[1], B: v[2]}.Linear()
		all = append(all, [3]float64{r, g, b})
	}
	return all
}

// fieldsPhoto is a photo as PNG of fields on paper, six to a row, in a light.
func fieldsPhoto(t *testing.T, fields [][3]float64, light colour.Matrix, gap int) []byte {
	t.Helper()
	m := image.NewNRGBA(image.Rect(0, 0, 640, 440))
	for y := range 440 {
		for x := range 640 {
			c := [3]float64{0.62, 0.62, 0.62}
			if i, j := (x-80)/80, (y-60)/80; x >= 70 && x < 570 && y >= 50 && y < 390 {
				c = [3]float64{0.02, 0.02, 0.02}
				u, v := (x-80)%80, (y-60)%80
				if x >= 80 && y >= 60 && i < 6 && j < 4 && u >= gap && u < 80-gap && v >= gap && v < 80-gap && 6*j+i < len(fields) {
					c = fields[6*j+i]
				}
			}
			c = light.Apply(c)
			code := func(v float64) uint8 { return uint8(math.Round(255 * colour.Encode(min(max(v, 0), 1)))) }
			m.SetNRGBA(x, y, color.NRGBA{code(c[0]), code(c[1]), code(c[2]), 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func openForChart(t *testing.T, data []byte, asShot bool) *Photo {
	t.Helper()
	p, err := Open(Request{Name: "x", Data: data, ToneAsShot: asShot, CropAsShot: true}, &Options{Pure: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	return p
}

// A chart in one photo puts the colours of another right: woods and resins that
// are no patches of it, in the same light, come out by Sharma's CIEDE2000 within
// 1.5 of what they are, both in the copy and in the master, at any exposure.
func TestChartPutsTheSetRight(t *testing.T) {
	light := colour.Matrix{{0.80, 0.09, 0.01}, {0.04, 0.72, 0.05}, {0.01, 0.12, 0.42}}
	woods := [][3]float64{{0.30, 0.17, 0.08}, {0.12, 0.06, 0.03}, {0.45, 0.30, 0.15}, {0.02, 0.13, 0.16}, {0.20, 0.05, 0.03}, {0.5, 0.5, 0.48}}
	set := []*Photo{
		openForChart(t, fieldsPhoto(t, chartColours(t), light, 8), false),
		openForChart(t, fieldsPhoto(t, woods, light, 0), false),
		openForChart(t, fieldsPhoto(t, woods, light, 0), true),
		nil,
	}
	before := set[2].small.Clone()
	at, c := FindChart(set)
	if at != 0 || c == nil || !c.Helps() {
		t.Fatalf("chart in photo %d, %+v", at, c)
	}
	done := CorrectBy(set, at, c)
	if done[0] || !done[1] || done[2] || done[3] {
		t.Fatalf("corrected %v, want the second alone", done)
	}
	if string(raw(before)) != string(raw(set[2].small)) {
		t.Error("a photo to be left as shot was changed")
	}
	Develop(set)
	if w := set[1].Tone.White; w != [3]float64{1, 1, 1} {
		t.Errorf("white is changed once more, by %v", w)
	}
	m, err := set[1].tonedMaster()
	if err != nil {
		t.Fatal(err)
	}
	for name, k := range map[string]*pixel.Image{"copy": set[1].small, "master": m} {
		off, was := fieldsOff(k, woods), fieldsOff(before, woods)
		t.Logf("%s: ΔE00 %.2f at worst, %.2f before", name, off, was)
		if off > 1.5 || was < 5 {
			t.Errorf("%s: ΔE00 %.2f at worst, %.2f before", name, off, was)
		}
	}
}

// fieldsOff is the largest difference of fields from what they are, all brought
// to one exposure.
func fieldsOff(m *pixel.Image, fields [][3]float64) (worst float64) {
	k := float64(m.W) / 640
	at := func(i int) (v [3]float64) {
		x, y := int(k*(120+80*float64(i%6))), int(k*100)
		for c := range 3 {
			v[c] = float64(m.Row(y)[3*x+c]) / 65535
		}
		return v
	}
	var got, want float64
	for i, f := range fields {
		got, want = got+at(i)[1], want+f[1]
	}
	for i, f := range fields {
		v, s := at(i), want/got
		worst = max(worst, colour.DeltaE2000(colour.LinearToLab(s*v[0], s*v[1], s*v[2]), colour.LinearToLab(f[0], f[1], f[2])))
	}
	return worst
}

// A photo by another lamp, or by another camera, is not spoken for.
func TestChartSpeaksForItsLightAlone(t *testing.T) {
	day, lamp := colour.Matrix{{0.8, 0.1, 0}, {0, 0.8, 0}, {0, 0.1, 0.8}}, colour.Matrix{{1, 0.1, 0}, {0, 0.6, 0}, {0, 0, 0.3}}
	woods := [][3]float64{{0.30, 0.17, 0.08}, {0.12, 0.06, 0.03}, {0.45, 0.30, 0.15}}
	set := []*Photo{
		openForChart(t, fieldsPhoto(t, chartColours(t), day, 8), false),
		openForChart(t, fieldsPhoto(t, woods, day, 0), false),
		openForChart(t, fieldsPhoto(t, woods, lamp, 0), false),
		openForChart(t, fieldsPhoto(t, woods, day, 0), false),
	}
	set[3].Facts.Model = "another"
	at, c := FindChart(set)
	if at != 0 {
		t.Fatalf("chart in photo %d", at)
	}
	if done := CorrectBy(set, at, c); !done[1] || done[2] || done[3] {
		t.Errorf("corrected %v, want the second alone", done)
	}
}

// What is blown out stays white, and no matrix cuts a channel off by itself.
func TestMatrixKeepsHighlights(t *testing.T) {
	p := &Photo{matrix: &colour.Matrix{{1.5, 0, 0}, {0, 1, 0}, {0, -0.3, 0.7}}}
	m := pixel.New(3, 1)
	copy(m.Pix, []uint16{65535, 65535, 65535, 56000, 40000, 20000, 10000, 10000, 2000})
	p.correct(m)
	if m.Pix[0] != 65535 || m.Pix[1] != 65535 || m.Pix[2] != 65535 {
		t.Errorf("white became %v", m.Pix[:3])
	}
	if r := float64(m.Pix[4]) / float64(m.Pix[3]); m.Pix[3] != 65535 || math.Abs(r-40000.0/84000) > 1e-4 {
		t.Errorf("beyond white: %v", m.Pix[3:6])
	}
	if m.Pix[6] != 15000 || m.Pix[7] != 10000 || m.Pix[8] != 0 {
		t.Errorf("within: %v", m.Pix[6:])
	}
}

// The one grey card of a set takes the light's cast out of its own photo and of those
// in the same light: woods that lie nowhere near it come out as they are.
func TestCardBalancesTheSet(t *testing.T) {
	lamp, day := colour.Matrix{{1}, {0, 0.8}, {0, 0, 0.55}}, colour.Matrix{{0.7}, {0, 0.8}, {0, 0, 1}}
	woods := [][3]float64{{0.30, 0.17, 0.08}, {0.12, 0.06, 0.03}, {0.45, 0.30, 0.15}, {0.02, 0.13, 0.16}, {0.20, 0.05, 0.03}}
	set := []*Photo{
		openForChart(t, fieldsPhoto(t, [][3]float64{{0.18, 0.18, 0.18}}, lamp, 0), false),
		openForChart(t, fieldsPhoto(t, woods, lamp, 0), false),
		openForChart(t, fieldsPhoto(t, woods, lamp, 0), true),
		openForChart(t, fieldsPhoto(t, woods, day, 0), false),
		nil,
	}
	before := set[1].small.Clone()
	found := FindCards(set)
	if len(found) != 1 || found[0].Photo != 0 {
		t.Fatalf("cards %+v", found)
	}
	if done := BalanceBy(set, found[0]); !done[0] || !done[1] || done[2] || done[3] || done[4] {
		t.Fatalf("balanced %v, want the first two", done)
	}
	off, was := fieldsOff(set[1].small, woods), fieldsOff(before, woods)
	t.Logf("ΔE00 %.2f at worst, %.2f before", off, was)
	if off > 1 || was < 5 {
		t.Errorf("ΔE00 %.2f at worst, %.2f before", off, was)
	}
}

// A single other photo always shares its own light: where no camera is named, a chart
// that shares its light with none does not speak for it; where there is one, it does.
func TestChartWithoutACameraSpeaksForNoLonePhoto(t *testing.T) {
	day, lamp := colour.Matrix{{0.8, 0.1, 0}, {0, 0.8, 0}, {0, 0.1, 0.8}}, colour.Matrix{{1, 0.1, 0}, {0, 0.6, 0}, {0, 0, 0.3}}
	woods := [][3]float64{{0.30, 0.17, 0.08}, {0.12, 0.06, 0.03}, {0.45, 0.30, 0.15}}
	for _, camera := range []string{"", "one"} {
		set := []*Photo{
			openForChart(t, fieldsPhoto(t, chartColours(t), day, 8), false),
			openForChart(t, fieldsPhoto(t, woods, lamp, 0), false),
		}
		for _, p := range set {
			p.Facts.Make, p.Facts.Model = "", camera
		}
		at, c := FindChart(set)
		if at != 0 {
			t.Fatalf("chart in photo %d", at)
		}
		if done := CorrectBy(set, at, c); done[1] != (camera != "") {
			t.Errorf("camera %q: corrected %v", camera, done)
		}
	}
}
