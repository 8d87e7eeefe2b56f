package measure

import (
	"math"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"testing"

	"slabfolio/imaging/internal/scene"
	"slabfolio/imaging/pixel"
)

// sawn puts a slab with square edges in the place of the shot's live-edged one.
func sawn(s scene.Shot) scene.Shot {
	feet := s.Scene.Subject[len(s.Scene.Subject)-4:]
	slab := scene.Slab{Outline: s.Scene.Top.Outline, Thickness: 40, Rough: 0.6, Place: s.Scene.Top.Place,
		Log: scene.Log{Wood: scene.Oak, PithY: 190, PithZ: -60, Lean: 0.03, Seed: 9}}
	s.Scene.Subject = append(slab.Objects(), feet...)
	return s
}

type drawnTop struct {
	name string
	opts scene.TestOptions
	sawn bool
}

// A shotTop is a drawn top as a photo, and what is true of it.
type shotTop struct {
	photo   *pixel.Image
	corners [4]Point
	sizes   [3]float64 // length and width in mm, area in m²
}

// shot draws a shot and takes it through JPEG; a large one is drawn large near its edges,
// and elsewhere a quarter as large and enlarged.
func (d drawnTop) shot(t *testing.T, w int) shotTop {
	t.Helper()
	s := scene.TestShot(d.opts, w, w*11/20) // the middle of a photo of 4:3: the rest is backdrop
	s.Scene.Shaded = 1
	if d.sawn {
		s = sawn(s)
	}
	file, truth := []byte(nil), scene.Truth{}
	if w > 2000 {
		var err error
		if file, truth, err = scene.ShootEdges(s, 4, 48); err != nil {
			t.Fatal(err)
		}
	} else {
		file, truth = scene.Shoot(s)
	}
	var out shotTop
	out.photo, _ = read(t, file)
	for i := range out.corners {
		out.corners[i] = Point{X: truth.Marks[i][0], Y: truth.Marks[i][1]}
	}
	lo, hi := s.Scene.Top.Outline.Bounds()
	out.sizes = [3]float64{hi[0] - lo[0], hi[1] - lo[1], s.Scene.Top.Outline.Area() * 1e-6}
	return out
}

// reduced is the same as a camera with fewer pixels gives it.
func (s shotTop) reduced(t *testing.T, w int) shotTop {
	t.Helper()
	m, err := pixel.Resample(s.photo.Rows(), pixel.Region{W: w, H: w * s.photo.H / s.photo.W})
	if err != nil {
		t.Fatal(err)
	}
	k := float64(w) / float64(s.photo.W)
	s.photo, _ = read(t, scene.EncodeJPEG(m, scene.Exif{}, 0))
	for i, p := range s.corners {
		s.corners[i] = Point{X: k * p.X, Y: k * p.Y}
	}
	return s
}

// judge compares with the scene's truth. The stated error must hold at any size. exact: length and width to 0.5 %, the area to 1 %.
func (d drawnTop) judge(t *testing.T, s shotTop, exact bool) {
	t.Helper()
	r, err := Top(Request{Photo: s.photo, Focal35: 38, ThicknessMM: 40})
	if err != nil {
		t.Errorf("%s: %v", d.name, err)
		return
	}
	worst := farthest(r.Sheet.Corners, s.corners)
	var off, give [3]float64
	for i, v := range []Value{r.Length, r.Width, r.Area} {
		off[i], give[i] = v.Value/s.sizes[i]-1, v.Error/s.sizes[i]
	}
	t.Logf("%s at %d px: corner %.2f px; length %+.2f %% (stated %.2f), width %+.2f %% (%.2f), area %+.2f %% (%.2f); %v",
		d.name, s.photo.W, worst, 100*off[0], 100*give[0], 100*off[1], 100*give[1], 100*off[2], 100*give[2], r.Notes)
	if worst > 1 {
		t.Errorf("%s at %d px: a corner is %.2f px off", d.name, s.photo.W, worst)
	}
	for i, most := range [3]float64{0.005, 0.005, 0.01} {
		if math.Abs(off[i]) > give[i] {
			t.Errorf("%s at %d px: figure %d is %.2f %% off, stated %.2f %%", d.name, s.photo.W, i, 100*off[i], 100*give[i])
		}
		if exact && math.Abs(off[i]) > most {
			t.Errorf("%s at %d px: figure %d is %.2f %% off, want %.1f %%", d.name, s.photo.W, i, 100*off[i], 100*most)
		}
	}
}

func TestDrawnTop(t *testing.T) {
	if testing.Short() {
		t.Skip("draws a scene")
	}
	d := drawnTop{"round, 4 degrees", scene.TestOptions{Above: true, Paper: "a4", Round: true, Askew: 4}, false}
	d.judge(t, d.shot(t, 1200), true)
}

// The figures that the project promises, at the size from which it does, and that what
// is stated holds at 6 and at 3 megapixels too.
func TestQualityDrawnTops(t *testing.T) {
	if os.Getenv("SLABFOLIO_REFERENCE") != "required" {
		t.Skip("draws photos of 12 megapixels; SLABFOLIO_REFERENCE=required runs it")
	}
	for _, d := range []drawnTop{
		{"square with a river, A4, 12 degrees", scene.TestOptions{Above: true, Paper: "a4", Askew: 12, Turn: 6, Resin: -1}, true},
		{"disc, A4, 15 degrees", scene.TestOptions{Above: true, Paper: "a4", Round: true, Askew: 15, Turn: -4}, false},
		{"live edges, A4, straight above", scene.TestOptions{Above: true, Paper: "a4"}, false},
		// On the far side the flank is dark past the face, and stands out less than the face.
		{"live edges with a river, A4, 10 degrees", scene.TestOptions{Above: true, Paper: "a4", Askew: 10, Turn: 4, Resin: -1}, false},
		{"live edges, A4, 15 degrees", scene.TestOptions{Above: true, Paper: "a4", Askew: 15, Turn: -5, Seed: 3}, false},
	} {
		s := d.shot(t, 4000)
		d.judge(t, s, true)
		d.judge(t, s.reduced(t, 2828), false)
		d.judge(t, s.reduced(t, 2000), false)
	}
}

// Reference: ImageMagick's perspective distortion, which prints the coefficients
// that it works out from four pairs of points.
func TestPlaneAgainstImageMagick(t *testing.T) {
	tool, err := exec.LookPath("convert")
	if err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal("ImageMagick's convert is missing")
		}
		t.Skip("ImageMagick's convert is missing")
	}
	for _, c := range []struct {
		arg      string
		from, to [4]Point
	}{
		{"10,12 0,0 90,5 297,0 95,80 297,210 7,88 0,210", [4]Point{{X: 10, Y: 12}, {X: 90, Y: 5}, {X: 95, Y: 80}, {X: 7, Y: 88}}, [4]Point{{X: 0, Y: 0}, {X: 297, Y: 0}, {X: 297, Y: 210}, {X: 0, Y: 210}}},
		{"1500,300 0,0 2600,480 279.4,0 2410,1700 279.4,215.9 1330,1220 0,215.9", [4]Point{{X: 1500, Y: 300}, {X: 2600, Y: 480}, {X: 2410, Y: 1700}, {X: 1330, Y: 1220}}, [4]Point{{X: 0, Y: 0}, {X: 279.4, Y: 0}, {X: 279.4, Y: 215.9}, {X: 0, Y: 215.9}}},
	} {
		out, err := exec.Command(tool, "xc:white", "-verbose", "-distort", "Perspective", c.arg, "null:").CombinedOutput()
		if err != nil {
			t.Fatalf("convert: %v\n%s", err, out)
		}
		k := coefficients(t, string(out))
		m, ok := planeOf(c.from, c.to)
		if !ok {
			t.Fatal("no plane")
		}
		for _, p := range []Point{{X: 0, Y: 0}, {X: 33, Y: 71}, {X: 400, Y: 300}, {X: 2000, Y: 900}} {
			d := k[6]*p.X + k[7]*p.Y + 1
			want := Point{X: (k[0]*p.X + k[1]*p.Y + k[2]) / d, Y: (k[3]*p.X + k[4]*p.Y + k[5]) / d}
			// It prints six figures.
			if got := m.apply(p); math.Hypot(got.X-want.X, got.Y-want.Y) > 2e-5*math.Hypot(want.X, want.Y)+0.02 {
				t.Errorf("%v maps to %v, ImageMagick says %v", p, got, want)
			}
			if back := m.inverse().apply(m.apply(p)); math.Hypot(back.X-p.X, back.Y-p.Y) > 1e-6 {
				t.Errorf("%v comes back as %v", p, back)
			}
		}
	}
}

func coefficients(t *testing.T, out string) (k [8]float64) {
	t.Helper()
	block := regexp.MustCompile(`(?s)PerspectiveProjection.*?'([^']*)'`).FindStringSubmatch(out)
	if block == nil {
		t.Fatalf("no coefficients in %s", out)
	}
	n := regexp.MustCompile(`-?[0-9.]+(e[-+]?[0-9]+)?`).FindAllString(block[1], -1)
	if len(n) != 8 {
		t.Fatalf("%d coefficients in %q", len(n), block[1])
	}
	for i, s := range n {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		k[i] = v
	}
	return k
}
