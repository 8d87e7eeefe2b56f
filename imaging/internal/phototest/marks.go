package phototest

import (
	"encoding/json"
	"image"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/testdata/beside"
)

// A mark is the outline of the piece in a real photo, drawn by hand before any
// answer of the net was seen: polygons, lines (from, to, width) and places that
// count neither way, all in percent of the photo's width (x, widths) and height.
type mark struct {
	Kind   string         `json:"kind"` // plain, busy, surface (nothing but wood), many (pieces)
	Poly   [][][2]float64 `json:"poly"`
	Line   [][5]float64   `json:"line"`
	Ignore [][][2]float64 `json:"ignore"`
}

// TruthSide is the side of the grid that truths are compared on.
const TruthSide = 320

// A Truth is where the piece is in a real photo, on a grid of TruthSide ×
// TruthSide cells over the whole of it.
type Truth struct {
	Name, Kind string // Kind: plain, busy, surface, many; other for what is no furniture
	Path       string
	Is, Skip   []bool // cells of the piece, and those beside it that count neither way
	Open       []bool // cells of Is that count neither way in the overlap: gaps between spindles, things on the piece
}

// Truths are the photos of furniture whose outlines were drawn by hand, and the
// photos of subject/ with masks by others.
func Truths(t testing.TB) (list []Truth) {
	t.Helper()
	dir := Dir(t)
	files, err := filepath.Glob(filepath.Join(beside.Root(t), "imaging/subject/testdata/marks/*.json"))
	if err != nil || len(files) == 0 {
		t.Fatal("no marks", err)
	}
	for _, f := range files {
		name := strings.TrimSuffix(filepath.Base(f), ".json")
		list = append(list, drawnTruth(t, f, name, filepath.Join(dir, "furniture", name+".jpg")))
	}
	masks, err := filepath.Glob(filepath.Join(dir, "subject", "*_mask.png"))
	if err != nil || len(masks) == 0 {
		t.Fatal("no masks", err)
	}
	for _, f := range masks {
		stem := strings.TrimSuffix(f, "_mask.png")
		photo := stem + ".jpg"
		if _, err := os.Stat(photo); err != nil {
			photo = stem + ".png"
		}
		list = append(list, maskedTruth(t, f, filepath.Base(stem), photo))
	}
	return list
}

func newTruth(name, kind, path string) Truth {
	const n = TruthSide * TruthSide
	return Truth{name, kind, path, make([]bool, n), make([]bool, n), make([]bool, n)}
}

func maskedTruth(t testing.TB, mask, name, photo string) Truth {
	k := newTruth(name, "other", photo)
	m := Decode(t, mask)
	b := m.Bounds()
	for i := range k.Is {
		x, y := (2*(i%TruthSide)+1)*b.Dx()/(2*TruthSide), (2*(i/TruthSide)+1)*b.Dy()/(2*TruthSide)
		r, _, _, _ := m.At(b.Min.X+x, b.Min.Y+y).RGBA()
		k.Is[i] = r > 0x7fff
	}
	return k
}

func drawnTruth(t testing.TB, file, name, photo string) Truth {
	b, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var m mark
	if err := json.Unmarshal(b, &m); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	size := sizeOf(t, photo)
	tall := float64(size.Y) / float64(size.X)
	k := newTruth(name, m.Kind, photo)
	for i := range k.Is {
		x, y := (float64(i%TruthSide)+0.5)*100/TruthSide, (float64(i/TruthSide)+0.5)*100/TruthSide
		k.Is[i] = m.on(x, y, tall)
		neither := inAny(m.Ignore, x, y)
		k.Skip[i] = !k.Is[i] && neither
		k.Open[i] = k.Is[i] && neither && m.Kind != "many" // there the rest of the photo is ignored, across the piece
	}
	return k
}

func sizeOf(t testing.TB, photo string) image.Point {
	f, err := os.Open(photo)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	c, _, err := image.DecodeConfig(f)
	if err != nil {
		t.Fatal(err)
	}
	return image.Pt(c.Width, c.Height)
}

func (m mark) on(x, y, tall float64) bool {
	if inAny(m.Poly, x, y) {
		return true
	}
	for _, l := range m.Line { // distances in percent of the width
		ax, ay, bx, by := l[0], l[1]*tall, l[2], l[3]*tall
		dx, dy := bx-ax, by-ay
		s := max(0, min(1, ((x-ax)*dx+(y*tall-ay)*dy)/(dx*dx+dy*dy)))
		if math.Hypot(x-ax-s*dx, y*tall-ay-s*dy) <= l[4]/2 {
			return true
		}
	}
	return false
}

func inAny(polys [][][2]float64, x, y float64) bool {
	for _, p := range polys {
		in := false
		for i, a := range p {
			b := p[(i+1)%len(p)]
			if (a[1] > y) != (b[1] > y) && x < (b[0]-a[0])*(y-a[1])/(b[1]-a[1])+a[0] {
				in = !in
			}
		}
		if in {
			return true
		}
	}
	return false
}

// Against compares an answer with the truth: the overlap of the masks
// (intersection over union), the share of the piece in the box, and how many
// times the piece's own box the box is. on says for a place, in shares of the
// photo, whether the answer has the piece there.
func (k Truth) Against(on func(x, y float64) bool, box [4]float64) (iou, kept, times float64) {
	var both, either, n, in float64
	own := [4]float64{1, 1, 0, 0}
	for i, is := range k.Is {
		x, y := (float64(i%TruthSide)+0.5)/TruthSide, (float64(i/TruthSide)+0.5)/TruthSide
		got := on(x, y) && !k.Skip[i]
		if is && got && !k.Open[i] {
			both++
		}
		if (is || got) && !k.Open[i] {
			either++
		}
		if !is {
			continue
		}
		n++
		own = [4]float64{min(own[0], x), min(own[1], y), max(own[2], x), max(own[3], y)}
		if x >= box[0] && y >= box[1] && x <= box[2] && y <= box[3] {
			in++
		}
	}
	return both / max(1, either), in / max(1, n), (box[2] - box[0]) * (box[3] - box[1]) / max(1e-6, (own[2]-own[0])*(own[3]-own[1]))
}
