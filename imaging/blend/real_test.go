package blend

import (
	"image"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/decode"
	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/linear"
	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

// opened are frames that are read from files, each time anew.
func opened(t *testing.T, names ...string) []Frame {
	t.Helper()
	var out []Frame
	for _, name := range names {
		out = append(out, Frame{Open: func() (pixel.Rows, error) {
			data, err := os.ReadFile(name)
			if err != nil {
				return nil, err
			}
			src, err := decode.Decode(data, nil)
			if err != nil {
				return nil, err
			}
			rows, _ := linear.NewRows(&src.Encoded)
			return rows, nil
		}})
	}
	return out
}

// The real sets: frames that a fixed camera took under one light each, and
// exposure brackets, one of them hand-held. No frame of a set may be left out,
// and those of a fixed camera may not be moved by a pixel (some of the sets drift
// by half a one from first to last, evenly, as a head that sags does). With SLABFOLIO_SHEETS=FOLDER the
// results are written there, to be looked at.
func TestQualityRealSets(t *testing.T) {
	dir := phototest.Dir(t)
	for _, c := range []struct {
		name, glob string
		how        How
		fixed      bool
	}{
		{"rock", "exposure/lights_rock/rock.*[0-9].png", Lightest, true},
		{"gray", "lights/gray/gray.*[0-9].png", Lightest, true},
		{"leaves", "lights/leaves/*_BL.png", Lightest, true},
		{"rock-added", "exposure/lights_rock/rock.*[0-9].png", Added, true},
		{"rock-even", "exposure/lights_rock/rock.*[0-9].png", Even, true},
		{"room", "exposure/room/*.jpg", Bracket, true},
		{"office", "lights/office/*.jpg", Bracket, true},
		{"venice", "exposure/venice_handheld/*.jpg", Bracket, false},
	} {
		names, err := filepath.Glob(filepath.Join(dir, filepath.FromSlash(c.glob)))
		if err != nil || len(names) < 2 {
			t.Fatalf("%s: %v %v", c.name, names, err)
		}
		r, err := Blend(Request{Frames: opened(t, names...), How: c.how})
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range r.Frames {
			t.Logf("%-10s %-28s like %.2f shift (%.2f, %.2f) turn %.3f moved %v lamp %v out %v share %.2f", c.name, filepath.Base(names[i]), f.Like, f.ShiftX, f.ShiftY, f.Turn, f.Moved, f.Lamp, f.LeftOut, f.Share)
			if c.fixed && math.Hypot(f.ShiftX, f.ShiftY) > 1 {
				t.Errorf("%s: %s was moved by (%.2f, %.2f)", c.name, filepath.Base(names[i]), f.ShiftX, f.ShiftY)
			}
			if f.LeftOut {
				t.Errorf("%s: %s was left out", c.name, filepath.Base(names[i]))
			}
		}
		if c.how == Bracket {
			keepsContrast(t, c.name, names, r)
		}
		if to := os.Getenv("SLABFOLIO_SHEETS"); to != "" {
			write(t, filepath.Join(to, "blend-"+c.name+".jpg"), r.Picture)
		}
	}
}

// keepsContrast sees that a bracket is no greyer than its best exposed frame: that it has
// 0.78 of the spread of that frame's coded brightness (as the paper has it, 0.41 in
// the office, 0.50 in the room and 0.80 in Venice), and that fewer places are black or white.
func keepsContrast(t *testing.T, name string, names []string, r *Result) {
	t.Helper()
	most, best, ends := 0.0, 0.0, 1.0
	for i, f := range opened(t, names...) {
		rows, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		m, err := pixel.Reduce(rows, 1, lookSide)
		if err != nil {
			t.Fatal(err)
		}
		told, spread, at := brightness(m)
		t.Logf("%-10s %-28s entropy %.2f spread %.3f, %.3f of it black or white", name, filepath.Base(names[i]), told, spread, at)
		if told > most {
			most, best, ends = told, spread, at
		}
	}
	_, spread, at := brightness(r.Picture)
	t.Logf("%-10s fused: spread %.3f, %.2f of the best exposed frame's; %.3f black or white, %.3f in that", name, spread, spread/best, at, ends)
	if spread < 0.78*best || at > 0.75*ends {
		t.Errorf("%s: spread %.3f of %.3f, %.3f black or white, %.3f in the best exposed frame", name, spread, best, at, ends)
	}
}

// brightness is the entropy in bits and the standard deviation of a picture's coded
// brightness, and the share of it that is nearly black or white.
func brightness(m *pixel.Image) (entropy, spread, ends float64) {
	var count [64]float64
	var sum, sum2 float64
	n := float64(m.W * m.H)
	for i := 0; i < len(m.Pix); i += 3 {
		v := colour.Encode(float64(luminance(m.Pix[i], m.Pix[i+1], m.Pix[i+2])) / 65535)
		sum, sum2 = sum+v/n, sum2+v*v/n
		count[min(int(64*v), 63)]++
		if v < 0.03 || v > 0.98 {
			ends += 1 / n
		}
	}
	for _, c := range count {
		if c > 0 {
			entropy -= c / n * math.Log2(c/n)
		}
	}
	return entropy, math.Sqrt(sum2 - sum*sum), ends
}

// Seven exposures of a chart in files that tell no times, from 25 ms to 4 s by their names,
// are told from the pictures; three sets of one light each from many sides are none.
func TestQualityExposuresWithoutTimes(t *testing.T) {
	for glob, want := range map[string]bool{
		"lights/checker550/*.tif": true, "exposure/lights_rock/rock.*[0-9].png": false, "lights/gray/gray.*[0-9].png": false, "lights/leaves/*_BL.png": false,
	} {
		names, err := filepath.Glob(filepath.Join(phototest.Dir(t), filepath.FromSlash(glob)))
		if err != nil || len(names) < 2 {
			t.Fatalf("%s: %v %v", glob, names, err)
		}
		told := slices.ContainsFunc(run(t, Request{Frames: opened(t, names...)}).Notes, func(n note.Note) bool { return n.Code == "blend.exposed" })
		if told != want {
			t.Errorf("%s: told to be exposures of one light: %v, want %v", glob, told, want)
		}
	}
}

func write(t *testing.T, name string, m *pixel.Image) {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, m.W, m.H))
	enc := colour.EncodeTable()
	for i := range m.W * m.H {
		img.Pix[4*i], img.Pix[4*i+1], img.Pix[4*i+2], img.Pix[4*i+3] = enc[m.Pix[3*i]], enc[m.Pix[3*i+1]], enc[m.Pix[3*i+2]], 255
	}
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := jpeg.Encode(f, img, &jpeg.Options{Quality: 92}); err != nil {
		t.Fatal(err)
	}
}
