package listing_test

import (
	"encoding/json"
	"io/fs"
	"math"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/testdata"
)

// read writes the embedded demo out and reads its pieces as the tool does.
func read(t *testing.T) map[string]*piece.Piece {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, testdata.Demo); err != nil {
		t.Fatal(err)
	}
	root := filepath.Join(dir, "demo")
	folders, err := fs.Glob(testdata.Demo, "demo/*/piece.yaml")
	if err != nil || len(folders) < 5 {
		t.Fatalf("%d pieces in the demo (%v), want at least 5", len(folders), err)
	}
	w, findings, err := piece.ReadWorkshop(t.Context(), root)
	if err != nil || len(findings) > 0 {
		t.Errorf("workshop.yaml: %v, %v", findings, err)
	}
	pieces := map[string]*piece.Piece{}
	for _, f := range folders {
		name := path.Base(path.Dir(f))
		p, findings, err := piece.ReadPiece(t.Context(), filepath.Join(root, name), w.Defaults())
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range findings {
			t.Errorf("%s: %s:%d:%d: %s: %s (%s)", name, f.File, f.Line, f.Column, f.Rank, f.Message, f.Remedy)
		}
		if p.Serial.V != name {
			t.Errorf("folder %s holds %s", name, p.Serial.V)
		}
		pieces[name] = p
	}
	return pieces
}

// The specs must parse without a word from the parser, and every photo that
// one names must be there.
func TestDemoSpecsAreClean(t *testing.T) {
	for name, p := range read(t) {
		ph := p.Photos
		names := []string{ph.Main.V}
		for _, o := range ph.Order {
			names = append(names, o.V)
		}
		for n := range ph.Views {
			names = append(names, n)
		}
		for n := range ph.Captions {
			names = append(names, n)
		}
		for _, b := range ph.Blends {
			for _, f := range b.Frames {
				names = append(names, f.V)
			}
		}
		names = append(names, p.Top.Outline.Photo.V)
		for _, n := range names {
			if n == "" {
				continue
			}
			if _, err := fs.Stat(testdata.Demo, path.Join("demo", name, n)); err != nil {
				t.Errorf("%s names a photo that is not there: %v", name, err)
			}
		}
	}
}

// scenes reads what the demo's photos were drawn to; a test of the package that
// drew them keeps the file true.
func scenes(t *testing.T) (out []struct {
	Folder      string   `json:"folder"`
	LengthMM    float64  `json:"length_mm"`
	WidthMM     float64  `json:"width_mm"`
	ThicknessMM float64  `json:"thickness_mm"`
	UnderMM     float64  `json:"under_mm"`
	AreaMM2     float64  `json:"area_mm2"`
	ResinShare  float64  `json:"resin_share"`
	Photos      []string `json:"photos"`
}) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "demo-scenes.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// What a spec says must be what the scene was built to.
func TestDemoSpecsAgreeWithTheirPhotos(t *testing.T) {
	pieces, scenes := read(t), scenes(t)
	if len(pieces) != len(scenes) {
		t.Errorf("%d specs, %d scenes", len(pieces), len(scenes))
	}
	for _, s := range scenes {
		p := pieces[s.Folder]
		if p == nil {
			t.Errorf("no spec for %s", s.Folder)
			continue
		}
		length, width, area := outline(p.Top.Outline)
		near := func(what string, got, want, tolerance float64) {
			if math.Abs(got-want) > tolerance {
				t.Errorf("%s: %s is %.2f in the spec, %.2f in the scene", s.Folder, what, got, want)
			}
		}
		if p.Top.Outline.Photo.Set() { // the spec has no figures; what was measured is held to the same
			length, width, area = measured(t, s.Folder)
			near("length", length, s.LengthMM, 0.005*s.LengthMM)
			near("area share", area/s.AreaMM2, 1, 0.01)
		} else {
			near("length", length, s.LengthMM, 0.5)
			near("area share", area/s.AreaMM2, 1, 0.005)
		}
		near("width", width, s.WidthMM, 25) // the tape is not laid at the widest place
		near("thickness", mm(p.Top.Thickness), s.ThicknessMM, 0.1)
		if s.UnderMM > 0 {
			near("height of the base", mm(p.Base.Height), s.UnderMM, 0.1)
		}
		if s.ResinShare > 0 {
			near("share of resin", resin(p, area), s.ResinShare, 0.005)
		} else if len(p.Top.Resin) > 0 {
			t.Errorf("%s: resin in the spec, none in the scene", s.Folder)
		}
		for _, shot := range s.Photos {
			if _, err := fs.Stat(testdata.Demo, path.Join("demo", s.Folder, shot)); err != nil {
				t.Errorf("not drawn yet: %v", err)
			}
		}
	}
}

// measured returns length, width and area of the golden listing, in mm and mm².
func measured(t *testing.T, serial string) (length, width, area float64) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", serial+".listing.json"))
	if err != nil {
		t.Fatal(err)
	}
	var l struct {
		Dimensions struct {
			Length float64 `json:"length_mm"`
			Width  float64 `json:"width_mm"`
			Area   float64 `json:"top_area_m2"`
		} `json:"dimensions"`
	}
	if err := json.Unmarshal(data, &l); err != nil {
		t.Fatal(err)
	}
	return l.Dimensions.Length, l.Dimensions.Width, 1e6 * l.Dimensions.Area
}

// outline returns length, width and area in mm and mm².
func outline(o piece.Outline) (length, width, area float64) {
	switch {
	case o.Diameter.Set():
		d := mm(o.Diameter)
		return d, d, math.Pi * d * d / 4
	case len(o.Widths) > 0:
		length = mm(o.Length)
		step := length / float64(len(o.Widths)-1)
		for i, w := range o.Widths {
			width = math.Max(width, mm(w))
			if i > 0 {
				area += step * (mm(w) + mm(o.Widths[i-1])) / 2
			}
		}
		return length, width, area
	case len(o.Points) > 0:
		for i, a := range o.Points {
			b := o.Points[(i+1)%len(o.Points)]
			area += (float64(a.X)*float64(b.Y) - float64(b.X)*float64(a.Y)) / 2
			length, width = math.Max(length, float64(a.X)), math.Max(width, float64(a.Y))
		}
		return length, width, area
	}
	return mm(o.Length), mm(o.Width), mm(o.Length) * mm(o.Width)
}

func mm(v piece.Value[units.Length]) float64 { return float64(v.V) }

// resin returns the share that a spec gives, straight or by volume.
func resin(p *piece.Piece, area float64) float64 {
	r := p.Top.Resin[0]
	if r.Area.Set() {
		return float64(r.Area.V) / 100
	}
	return float64(r.Volume.V) * 1e6 / (area * mm(p.Top.Thickness))
}

// The demo goes into the binary and the repository: it has to stay small.
func TestDemoIsSmall(t *testing.T) {
	photos, size := 0, int64(0)
	err := fs.WalkDir(testdata.Demo, "demo", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".jpg") {
			return err
		}
		info, err := d.Info()
		photos, size = photos+1, size+info.Size()
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if photos > 18 || size > 8e6 { // 12 photos, 5 frames of one more, a plan
		t.Errorf("%d photos of %.1f MB in all, want at most 18 of 8", photos, float64(size)/1e6)
	}
}
