package imaging

import (
	"bytes"
	"encoding/json"
	"image"
	_ "image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/imaging/rendition"
)

// A marked photo is one whose subject is known: by a mask made by others, or for
// the furniture by hand, before any result was seen (see the README.md there).
type marked struct {
	name string
	on   func(x, y float64) bool // at shares of the upright photo
}

// markedPhotos are all of them.
func markedPhotos(t *testing.T) (out []marked) {
	t.Helper()
	dir := reference(t, "photos")
	masks, err := filepath.Glob(filepath.Join(dir, "subject", "*_mask.png"))
	if err != nil {
		t.Fatal(err)
	}
	for _, mask := range masks {
		names, _ := filepath.Glob(strings.TrimSuffix(mask, "_mask.png") + ".*")
		out = append(out, marked{names[0], maskOf(t, mask)})
	}
	marks, err := filepath.Glob(filepath.Join(dir, "..", "subject-net", "marks", "*.json"))
	if err != nil {
		t.Fatal(err)
	}
	for _, mark := range marks {
		name := filepath.Join(dir, "furniture", strings.TrimSuffix(filepath.Base(mark), ".json")+".jpg")
		out = append(out, marked{name, markOf(t, mark)})
	}
	return out
}

func maskOf(t *testing.T, name string) func(x, y float64) bool {
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	m, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	b := m.Bounds()
	return func(x, y float64) bool {
		r, _, _, _ := m.At(b.Min.X+int(x*float64(b.Dx())), b.Min.Y+int(y*float64(b.Dy()))).RGBA()
		return r>>8 > 127
	}
}

// markOf reads polygons and lines, in percent of the photo.
func markOf(t *testing.T, name string) func(x, y float64) bool {
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var m struct {
		Poly [][][2]float64
		Line [][5]float64
	}
	if err := json.Unmarshal(data, &m); err != nil {
		t.Fatal(err)
	}
	return func(x, y float64) bool {
		x, y = 100*x, 100*y
		for _, p := range m.Poly {
			in := false
			for i, a := range p {
				b := p[(i+1)%len(p)]
				if (a[1] > y) != (b[1] > y) && x < a[0]+(y-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
					in = !in
				}
			}
			if in {
				return true
			}
		}
		for _, l := range m.Line {
			dx, dy := l[2]-l[0], l[3]-l[1]
			u := math.Max(0, math.Min(1, ((x-l[0])*dx+(y-l[1])*dy)/math.Max(dx*dx+dy*dy, 1e-9)))
			if math.Hypot(x-l[0]-u*dx, y-l[1]-u*dy) <= l[4]/2 {
				return true
			}
		}
		return false
	}
}

// kept is the share of the subject that lies in a rectangle of the straightened
// photo, given in its pixels.
func kept(p *Photo, k marked, part [4]float64) float64 {
	const n = 400
	in, all := 0.0, 0.0
	through := p.Frame.Source(n, n)
	// A point of the straightened photo stands for its pixel of the upright one,
	// so the subject is counted there; what was turned out of the frame as well.
	for j := -n / 8; j < n+n/8; j++ {
		for i := -n / 8; i < n+n/8; i++ {
			x, y := through.Apply(float64(i)+0.5, float64(j)+0.5)
			x, y = x/n, y/n
			if x < 0 || y < 0 || x >= 1 || y >= 1 || !k.on(x, y) {
				continue
			}
			all++
			u, v := (float64(i)+0.5)/n*float64(p.W), (float64(j)+0.5)/n*float64(p.H)
			if u >= part[0] && v >= part[1] && u <= part[2] && v <= part[3] {
				in++
			}
		}
	}
	return in / math.Max(all, 1)
}

// TestQualityShapes measures, over all real photos whose subject is known, how
// much of it the main picture, the square and the portrait keep.
func TestQualityShapes(t *testing.T) {
	shapes := []rendition.Size{
		{Name: "square", Width: 600, RatioW: 1, RatioH: 1, Format: "jpeg", Quality: 85},
		{Name: "portrait", Width: 480, RatioW: 4, RatioH: 5, Format: "jpeg", Quality: 85},
	}
	worst, least, below := [3]string{}, [3]float64{2, 2, 2}, [3]int{}
	photos := markedPhotos(t)
	for _, k := range photos {
		data, err := os.ReadFile(k.name)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Open(Request{Data: data}, &Options{Sizes: shapes, NoMaster: true})
		if err != nil {
			t.Fatal(err)
		}
		c, w, h := p.Frame.Crop, float64(p.W), float64(p.H)
		parts := [3][4]float64{{c[0] * w, c[1] * h, c[2] * w, c[3] * h}}
		fill := [2]string{}
		for i, s := range shapes {
			sh := p.shapeOf(p.formOf(s))
			parts[i+1], fill[i] = sh.source, [...]string{"photo alone", "backdrop carried on", "plain ground"}[sh.filling]
		}
		var share [3]float64
		for i, part := range parts {
			share[i] = kept(p, k, part)
			if share[i] < least[i] {
				least[i], worst[i] = share[i], filepath.Base(k.name)
			}
			if share[i] < 0.98 {
				below[i]++
			}
		}
		t.Logf("%-40s kept: main %.4f  square %.4f (%s)  portrait %.4f (%s)  sure %v", filepath.Base(k.name), share[0], share[1], fill[0], share[2], fill[1], p.Frame.Sure)
		p.Close()
	}
	for i, what := range []string{"main", "square", "portrait"} {
		t.Logf("%-9s worst %.4f (%s), below 0.98 in %d of %d", what, least[i], worst[i], below[i], len(photos))
		if least[i] < 0.98 {
			t.Errorf("%s keeps %.4f of the subject of %s, want 0.98", what, least[i], worst[i])
		}
	}
}
