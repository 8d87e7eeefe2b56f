package subject

import (
	"encoding/json"
	"image"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/imaging/internal/phototest"
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

// truthSide is the side of the grid that truths are compared on.
const truthSide = 320

// truth is a photo's piece on a grid over the whole photo.
type truth struct {
	name, kind string
	path       string
	is, skip   []bool
}

// truths are the marked photos of furniture and the photos with masks by others.
func truths(t testing.TB) (list []truth) {
	dir := phototest.Dir(t)
	files, err := filepath.Glob("testdata/marks/*.json")
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
		k := truth{name: filepath.Base(stem), kind: "other", path: photo, is: make([]bool, truthSide*truthSide), skip: make([]bool, truthSide*truthSide)}
		sample(k.is, phototest.Decode(t, f))
		list = append(list, k)
	}
	return list
}

func sample(is []bool, m image.Image) {
	b := m.Bounds()
	for i := range is {
		x, y := (2*(i%truthSide)+1)*b.Dx()/(2*truthSide), (2*(i/truthSide)+1)*b.Dy()/(2*truthSide)
		r, _, _, _ := m.At(b.Min.X+x, b.Min.Y+y).RGBA()
		is[i] = r > 0x7fff
	}
}

func drawnTruth(t testing.TB, file, name, photo string) truth {
	b, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var k mark
	if err := json.Unmarshal(b, &k); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	r := phototest.Decode(t, photo).Bounds()
	tall := float64(r.Dy()) / float64(r.Dx())
	out := truth{name: name, kind: k.Kind, path: photo, is: make([]bool, truthSide*truthSide), skip: make([]bool, truthSide*truthSide)}
	for i := range out.is {
		x, y := (float64(i%truthSide)+0.5)*100/truthSide, (float64(i/truthSide)+0.5)*100/truthSide
		out.is[i] = k.on(x, y, tall)
		out.skip[i] = !out.is[i] && inAny(k.Ignore, x, y)
	}
	return out
}

func (k mark) on(x, y, tall float64) bool {
	if inAny(k.Poly, x, y) {
		return true
	}
	for _, l := range k.Line { // distances in percent of the width
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

// against compares a sighting with the truth: overlap of the masks
// (intersection over union), share of the piece in the box, and how many times
// the piece's own box the box is.
func (k truth) against(mask []uint8, box [4]float64) (iou, kept, times float64) {
	var both, either, n, in float64
	x0, y0, x1, y1 := 1.0, 1.0, 0.0, 0.0
	for i, is := range k.is {
		x, y := (float64(i%truthSide)+0.5)/truthSide, (float64(i/truthSide)+0.5)/truthSide
		got := mask[int(y*Side)*Side+int(x*Side)] != 0 && !k.skip[i]
		if is && got {
			both++
		}
		if is || got {
			either++
		}
		if !is {
			continue
		}
		n++
		x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
		if x >= box[0] && y >= box[1] && x <= box[2] && y <= box[3] {
			in++
		}
	}
	return both / max(1, either), in / max(1, n), area(box) / max(1e-6, (x1-x0)*(y1-y0))
}
