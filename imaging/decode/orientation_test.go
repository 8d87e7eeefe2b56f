package decode_test

import (
	"encoding/json"
	"math"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/imaging/decode"
	"slabfolio/testdata/beside"
)

// TestQualityOrientation: the public set of sixteen photos, each orientation in
// landscape and portrait, shows one picture once turned upright. Each photo has
// its number printed on it, and was saved by itself; hence the limit.
func TestQualityOrientation(t *testing.T) {
	for _, kind := range []string{"Landscape", "Portrait"} {
		var first *decode.Source
		n := 0
		for _, name := range photos(t, "orientation") {
			if !strings.HasPrefix(filepath.Base(name), kind) {
				continue
			}
			n++
			src, err := decode.Decode(load(t, name), &decode.Options{Pure: true})
			if err != nil {
				t.Fatal(err)
			}
			if src.Orientation != n {
				t.Errorf("%s: orientation %d", filepath.Base(name), src.Orientation)
			}
			if first == nil {
				first = src
				continue
			}
			d := apart(levels(src), levels(first))
			t.Logf("%-20s %.2f levels from the upright one", filepath.Base(name), d)
			if d < 0 || d > 4 {
				t.Errorf("%s: not the same picture", filepath.Base(name))
			}
		}
		if n != 8 {
			t.Errorf("%d photos of %s, want 8", n, kind)
		}
	}
}

// An exiftoolPhoto is what exiftool -n -json says of a photo.
type exiftoolPhoto struct {
	SourceFile       string
	Orientation      float64
	Make, Model      any
	DateTimeOriginal any
	ExposureTime     any
	FNumber          any
	ISO              any
	FocalLength      any
}

// TestQualityFactsAsExiftoolReadsThem compares orientation and facts with an
// independent reader, over all photos of cameras, formats and orientation.
func TestQualityFactsAsExiftoolReadsThem(t *testing.T) {
	tool, err := exec.LookPath("exiftool")
	if err != nil {
		beside.Missing(t, "exiftool")
	}
	names := append(append(photos(t, "cameras"), photos(t, "formats")...), photos(t, "orientation")...)
	args := []string{"-n", "-json", "-EXIF:all", "--EXIF:UserComment"}
	out, err := exec.Command(tool, append(args, names...)...).Output()
	if err != nil && len(out) == 0 {
		t.Fatal(err)
	}
	var said []exiftoolPhoto
	if err := json.Unmarshal(out, &said); err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, e := range said {
		name := filepath.Base(e.SourceFile)
		src, err := decodeOnce(t, e.SourceFile)
		if err != nil {
			continue
		}
		want := max(1, int(e.Orientation))
		if src.Format == "heic" || src.Format == "avif" {
			want = src.Orientation // theirs comes from boxes, and the codec turns HEIC
		}
		if src.Orientation != want {
			t.Errorf("%s: orientation %d, exiftool says %d", name, src.Orientation, want)
		}
		f := src.Facts
		for _, c := range []struct {
			what string
			got  float64
			want any
		}{
			{"exposure time", f.ExposureTime, e.ExposureTime}, {"f-number", f.FNumber, e.FNumber},
			{"ISO", f.ISO, e.ISO}, {"focal length", f.FocalLength, e.FocalLength},
		} {
			w, ok := c.want.(float64)
			if !ok || w == 0 {
				continue
			}
			compared++
			if math.Abs(c.got-w) > 1e-4*w+1e-9 {
				t.Errorf("%s: %s %v, exiftool says %v", name, c.what, c.got, c.want)
			}
		}
		if m, ok := e.Model.(string); ok && strings.TrimSpace(m) != f.Model {
			t.Errorf("%s: model %q, exiftool says %q", name, f.Model, m)
		}
		if d, ok := e.DateTimeOriginal.(string); ok && len(d) >= 19 && d[:4] != "0000" {
			iso := strings.Replace(d[:10], ":", "-", 2) + "T" + d[11:19]
			compared++
			if len(f.Taken) < 19 || f.Taken[:19] != iso {
				t.Errorf("%s: taken %q, exiftool says %q", name, f.Taken, d)
			}
		}
	}
	t.Logf("%d values of %d photos compared", compared, len(said))
	if compared < 60 {
		t.Errorf("only %d values compared", compared)
	}
}
