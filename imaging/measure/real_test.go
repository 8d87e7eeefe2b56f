package measure

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"slabfolio/imaging/decode"
	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/linear"
	"slabfolio/imaging/pixel"
)

// open reads a photo upright, in linear light, whole.
func open(t testing.TB, name string) (*pixel.Image, decode.Facts) {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return read(t, data)
}

// read reads a photo's file as the program does, upright.
func read(t testing.TB, data []byte) (*pixel.Image, decode.Facts) {
	t.Helper()
	src, err := decode.Decode(data, nil)
	if err != nil {
		t.Fatal(err)
	}
	rows, _ := linear.NewRows(&src.Encoded)
	w, h := rows.Size()
	m := pixel.New(w, h)
	for y := range h {
		rows.Row(m.Row(y), y)
	}
	return pixel.Orient(m, src.Orientation), src.Facts
}

// truth is the corners of each photo in TRUTH.csv, nil where it has no sheet.
func truth(t testing.TB, dir string) (names []string, corners map[string]*[4]Point) {
	t.Helper()
	f, err := os.Open(filepath.Join(dir, "TRUTH.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	corners = map[string]*[4]Point{}
	pair := regexp.MustCompile(`\(([0-9.]+) ([0-9.]+)\)`)
	for _, r := range rows[1:] {
		names = append(names, r[0])
		found := pair.FindAllStringSubmatch(r[1], -1)
		if len(found) < 4 {
			continue
		}
		var q [4]Point
		for i := range q {
			q[i].X, _ = strconv.ParseFloat(found[i][1], 64)
			q[i].Y, _ = strconv.ParseFloat(found[i][2], 64)
		}
		corners[r[0]] = &q
	}
	return names, corners
}

// Reference: the corners that TRUTH.csv beside the photos gives, read off by
// eye. To reach: within 4 pixels or 1.2 % of the sheet, for four in five.
func TestQualitySheetInRealPhotos(t *testing.T) {
	dir := filepath.Join(phototest.Dir(t), "measure")
	names, corners := truth(t, dir)
	all, within := 0, 0
	for _, name := range names {
		m, facts := open(t, filepath.Join(dir, name))
		r, err := Top(Request{Photo: m, Focal35: facts.FocalLength35})
		want := corners[name]
		if want == nil {
			if err == nil {
				t.Errorf("%s: no sheet lies there, measured by %.1f", name, r.Sheet.Corners)
			}
			continue
		}
		all++
		if r.Sheet == nil {
			t.Logf("%-22s not found: %v", name, err)
			continue
		}
		long := 0.0
		for i := range want {
			long = math.Max(long, math.Hypot(want[i].X-want[(i+1)%4].X, want[i].Y-want[(i+1)%4].Y))
		}
		worst := farthest(r.Sheet.Corners, *want)
		ok := worst <= math.Max(4, 0.012*long)
		if ok {
			within++
		}
		t.Logf("%-22s worst corner %.1f px, %.2f %% of the sheet; ratio %.3f (%s), sigma %.2f, bow %.1f; %v %v", name, worst, 100*worst/long, r.Sheet.Ratio, r.Sheet.Kind, r.Sheet.Sigma, r.Sheet.Bow, err, r.Notes)
	}
	if within*5 < all*4 {
		t.Errorf("%d of %d sheets found to 4 px or 1.2 %%, want four in five", within, all)
	}
}

// farthest is the greatest distance of corners, whichever comes first.
func farthest(got, want [4]Point) float64 {
	best := math.Inf(1)
	for s := range 4 {
		worst := 0.0
		for i := range want {
			p := got[(i+s)%4]
			worst = math.Max(worst, math.Hypot(p.X-want[i].X, p.Y-want[i].Y))
		}
		best = math.Min(best, worst)
	}
	return best
}
