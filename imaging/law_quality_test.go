package imaging

import (
	"bytes"
	"cmp"
	"fmt"
	"image"
	"image/jpeg"
	"math"
	"os"
	"slices"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/rendition"
)

// pieceLook is what the piece looks like in a picture, over its own pixels.
type pieceLook struct {
	contrast float64 // standard deviation of luma, levels
	slope    float64 // mean step between neighbours, levels
	clipped  float64 // share with a channel at 254 or more
}

// lookAt measures a picture of a part of the straightened photo, by the truth.
func lookAt(t *testing.T, p *Photo, k phototest.Truth, data []byte) pieceLook {
	t.Helper()
	m, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	y := m.(*image.YCbCr)
	b, c := y.Bounds(), p.Frame.Crop
	through := p.Frame.Source(1000, 1000)
	var l pieceLook
	var n, sum, square float64
	for j := range b.Dy() - 1 {
		for i := range b.Dx() - 1 {
			u, v := through.Apply((c[0]+(c[2]-c[0])*(float64(i)+0.5)/float64(b.Dx()))*1000, (c[1]+(c[3]-c[1])*(float64(j)+0.5)/float64(b.Dy()))*1000)
			cx, cy := int(u/1000*phototest.TruthSide), int(v/1000*phototest.TruthSide)
			if cx < 0 || cy < 0 || cx >= phototest.TruthSide || cy >= phototest.TruthSide || !k.Is[cy*phototest.TruthSide+cx] {
				continue
			}
			at := float64(y.Y[y.YOffset(i, j)])
			n, sum, square = n+1, sum+at, square+at*at
			l.slope += math.Abs(at-float64(y.Y[y.YOffset(i+1, j)])) + math.Abs(at-float64(y.Y[y.YOffset(i, j+1)]))
			if r, g, bl, _ := y.At(i, j).RGBA(); max(r, g, bl) >= 254*257 {
				l.clipped++
			}
		}
	}
	l.contrast = math.Sqrt(math.Max(0, square/n-sum/n*sum/n))
	l.slope, l.clipped = l.slope/n, l.clipped/n
	return l
}

// TestQualityNeverWorse holds the main picture of every photo whose piece is known
// against the photo as it came, at one scale: what contrast, sharpness and burnt parts
// the piece has, how much of it is there, and prints the worst three of each.
func TestQualityNeverWorse(t *testing.T) {
	const side = 900
	type row struct {
		name                           string
		contrast, slope, clipped, kept float64
	}
	var rows []row
	for _, k := range phototest.Truths(t) {
		data, err := os.ReadFile(k.Path)
		if err != nil {
			t.Fatal(err)
		}
		opts := &Options{Sizes: []rendition.Size{{Name: "main", Width: 2400, Format: "jpeg", Quality: 95}}}
		look := func(req Request) (*Photo, pieceLook) {
			p, err := Open(req, opts)
			if err != nil {
				t.Fatal(err)
			}
			defer p.Close()
			Develop([]*Photo{p})
			s := opts.Sizes[0]
			s.Width = max(16, int(math.Round(side*(p.Frame.Crop[2]-p.Frame.Crop[0]))))
			f, err := p.Render([]rendition.Size{s}, rendition.Meta{})
			if err != nil {
				t.Fatal(err)
			}
			return p, lookAt(t, p, k, f[0].Data)
		}
		_, was := look(Request{Data: data, ToneAsShot: true, CropAsShot: true})
		p, is := look(Request{Data: data})
		c, w, h := p.Frame.Crop, float64(p.W), float64(p.H)
		r := row{k.Name, is.contrast / was.contrast, is.slope / was.slope, is.clipped - was.clipped, kept(p, k, [4]float64{c[0] * w, c[1] * h, c[2] * w, c[3] * h})}
		rows = append(rows, r)
		t.Logf("%-34s contrast × %.3f  sharpness × %.3f  burnt %+.4f  kept %.4f", r.name, r.contrast, r.slope, r.clipped, r.kept)
		if r.contrast < 0.9 || r.slope < 0.9 || r.clipped > 0.005 || r.kept < 0.97 {
			t.Errorf("%s is worse than as it came", r.name)
		}
	}
	for _, what := range []struct {
		name string
		of   func(row) float64
	}{{"contrast", func(r row) float64 { return r.contrast }}, {"sharpness", func(r row) float64 { return r.slope }},
		{"burnt", func(r row) float64 { return -r.clipped }}, {"kept", func(r row) float64 { return r.kept }}} {
		slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(what.of(a), what.of(b)) })
		line := ""
		for _, r := range rows[:3] {
			line += fmt.Sprintf("  %s %.4f", r.name, what.of(r))
		}
		t.Logf("worst three in %-9s%s", what.name, line)
	}
}
