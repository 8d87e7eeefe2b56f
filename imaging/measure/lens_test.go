package measure

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/note"
)

// boards is a floor of grey boards of 140 mm, a joint of 4 mm between, with whatever at
// draws on it; each board is a little brighter or darker than the next.
func boards(turn float64, at func(x, y float64) [3]float64) func(x, y float64) [3]float64 {
	s, c := math.Sincos(turn * math.Pi / 180)
	return func(x, y float64) [3]float64 {
		v := at(x, y)
		if v != floorGrey {
			return v
		}
		u := -x*s + y*c
		n := math.Floor(u / 140)
		shade := 1 + 0.12*math.Sin(5*n)
		if u-140*n < 4 {
			shade = 0.35
		}
		for i := range v {
			v[i] *= shade
		}
		return v
	}
}

// The bend of a lens is told by the straight lines of a floor, and undone before anything
// is measured; a top whose sides belly out on a plain floor tells of none. The truth is
// the drawing's own.
func TestLensIsUnbent(t *testing.T) {
	belly := func(x, y float64) [3]float64 { // sides that stand out by 12 mm in the middle
		return bench(rect{-260, 80, 297, 210, 3})(x, y/(1+12/210.0*(1-x*x/550/550)))
	}
	for _, c := range []struct {
		name string
		k    float64
		at   func(x, y float64) [3]float64
		told bool
	}{
		{"barrel on boards", -0.03, boards(8, bench(rect{-260, 80, 297, 210, 3})), true},
		{"pincushion on boards askew", 0.02, boards(20, bench(rect{-260, 80, 297, 210, 3})), true},
		{"a good lens on boards", 0, boards(8, bench(rect{-260, 80, 297, 210, 3})), false},
		{"sides that belly out, plain floor", 0, belly, false},
	} {
		f := overhead(5, 3, c.at)
		f.bend, f.w, f.h, f.focal = c.k, 1600, 1200, 1600*38/36
		r, err := Top(Request{Photo: f.draw(), Focal35: 38})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		told := slices.IndexFunc(r.Notes, func(n note.Note) bool { return n.Code == "measure.lens-undone" })
		if told >= 0 != c.told {
			t.Errorf("%s: told of a bend: %v", c.name, r.Notes)
			continue
		}
		if told >= 0 {
			v := r.Notes[told].Values
			t.Logf("%s: bend %+.2f ± %.2f %%, in truth %+.2f", c.name, v["percent"], v["error"], 100*c.k)
			if math.Abs(v["percent"]-100*c.k) > v["error"] || v["error"] > 0.5 {
				t.Errorf("%s: a bend of %+.1f %% is told as %+.2f ± %.2f", c.name, 100*c.k, v["percent"], v["error"])
			}
		}
		if c.name == "sides that belly out, plain floor" {
			continue
		}
		t.Logf("%s: length %+.2f %% (stated %.2f), area %+.2f %%", c.name, 100*(r.Length.Value/1100-1), 100*r.Length.Error/1100, 100*(r.Area.Value/0.462-1))
		if math.Abs(r.Length.Value/1100-1) > 0.005 || math.Abs(r.Area.Value/0.462-1) > 0.01 {
			t.Errorf("%s: length %.1f, area %.4f", c.name, r.Length.Value, r.Area.Value)
		}
		// Places are those of the photo as it is.
		at := Point{X: float64(f.w) / 2, Y: float64(f.h) / 2}
		for i, p := range (rect{-260, 80, 297, 210, 3}).corners(f) {
			want := bent(p, c.k, at.X, at.Y)
			if got := r.Sheet.Corners[i]; math.Hypot(got.X-want.X, got.Y-want.Y) > 0.5 {
				t.Errorf("%s: corner %d at %.1f, want %.1f", c.name, i, got, want)
			}
		}
	}
}

// Reference: ImageMagick's barrel distortion, which takes the colour of a place r off the
// middle from where r·(B·r² + D) is, r in halves of the shorter side.
func TestUnbendAgainstImageMagick(t *testing.T) {
	tool, err := exec.LookPath("convert")
	if err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal("ImageMagick's convert is missing")
		}
		t.Skip("ImageMagick's convert is missing")
	}
	const w, h, k = 400, 300, -0.03
	f := flat{w: w, h: h, focal: 400, height: 1000, at: func(x, y float64) [3]float64 {
		v := 0.5 + 0.4*math.Sin(x/25)*math.Cos(y/31)
		return [3]float64{v, v, v}
	}}
	m := f.draw()
	dir := t.TempDir()
	var in bytes.Buffer
	fmt.Fprintf(&in, "P6 %d %d 65535\n", w, h)
	for _, v := range m.Pix[:3*w*h] {
		in.Write([]byte{byte(v >> 8), byte(v)})
	}
	if err := os.WriteFile(filepath.Join(dir, "in.ppm"), in.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	b := k * h / 2 * h / 2 / float64(w*w/4+h*h/4)
	arg := fmt.Sprintf("0 %.9f 0 1", b)
	if out, err := exec.Command(tool, filepath.Join(dir, "in.ppm"), "-depth", "16", "-filter", "point", "-interpolate", "bilinear", "-distort", "Barrel", arg, filepath.Join(dir, "out.ppm")).CombinedOutput(); err != nil {
		t.Fatalf("convert: %v\n%s", err, out)
	}
	data, err := os.ReadFile(filepath.Join(dir, "out.ppm"))
	if err != nil {
		t.Fatal(err)
	}
	pix := data[len(data)-6*w*h:]
	got := unbend(m, k)
	worst, moved := 0.0, 0.0
	for y := 4; y < h-4; y++ {
		for x := 4; x < w-4; x++ {
			i := 3 * (y*w + x)
			want := float64(pix[2*i])*256 + float64(pix[2*i+1])
			worst = math.Max(worst, math.Abs(float64(got.Row(y)[3*x])-want)/65535)
			moved = math.Max(moved, math.Abs(float64(m.Row(y)[3*x])-want)/65535)
		}
	}
	t.Logf("at most %.4f of full scale apart, unchanged %.3f", worst, moved)
	if worst > 0.01 || moved < 0.1 {
		t.Errorf("%.4f of full scale from ImageMagick's, unchanged %.3f", worst, moved)
	}
}

// Four photos by one camera under one lens, in which the board of a laboratory and what
// lies on it have straight lines: the bend has to be one. No other photo here shows one.
func TestQualityBendOfARealLens(t *testing.T) {
	dir := filepath.Join(phototest.Dir(t), "colour-target")
	least, most := 1.0, -1.0
	for _, name := range []string{"pcv_plant_card.jpg", "pcv_source1_img.png", "pcv_target_img.png"} {
		m, _ := open(t, filepath.Join(dir, name))
		j := job{m: m, copy: newCopy(m, copySide)}
		b, ok := j.lensBend()
		t.Logf("%s: %+.4f ± %.4f", name, b.k, b.give)
		if !ok || !b.sure() {
			t.Errorf("%s: no bend told: %+.4f ± %.4f (%v)", name, b.k, b.give, ok)
		}
		least, most = math.Min(least, b.k-b.give), math.Max(most, b.k+b.give)
	}
	if most-least > 0.01 {
		t.Errorf("the bends of one lens are %.4f apart at the ends of their ranges", most-least)
	}
}
