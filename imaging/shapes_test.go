package imaging

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/imaging/rendition"
)

var shapeSizes = []rendition.Size{
	{Name: "own", Width: 600, Format: "jpeg", Quality: 95},
	{Name: "square", Width: 300, RatioW: 1, RatioH: 1, Format: "jpeg", Quality: 95},
	{Name: "portrait", Width: 240, RatioW: 4, RatioH: 5, Format: "jpeg", Quality: 95},
}

func shapesOf(t *testing.T, r Request, sizes ...rendition.Size) (*Photo, []rendition.File) {
	t.Helper()
	r.ToneAsShot = true
	if len(sizes) == 0 {
		sizes = shapeSizes
	}
	p, files := develop(t, &Options{Pure: true, Sizes: sizes}, sizes, r)
	return p[0], files[0]
}

// mixed draws a scene that has no backdrop: blocks of many colours.
func mixed(t *testing.T, w, h int) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			k := (x/37*7 + y/41*13) % 11
			m.SetRGBA(x, y, color.RGBA{uint8(20 + 20*k), uint8(230 - 19*k), uint8(k * k * 2), 255})
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Where nobody knows the piece, the shapes show the whole photo and are no wider or
// higher than it is, unless a ground is asked for; a photo of a part fills them. Each
// says where it comes from: the terms are those of the IPTC NewsCodes scheme
// digitalsourcetype.
func TestShapesOfAnUnknownPiece(t *testing.T) {
	const prefix = "http://cv.iptc.org/newscodes/digitalsourcetype/"
	const camera, made = "digitalCapture<", "algorithmicallyEnhanced<"
	data := mixed(t, 900, 600)
	white := color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	for _, c := range []struct {
		name   string
		shows  Extent
		ground *color.NRGBA
		want   string
		high   int
	}{
		{"not said", Unsaid, nil, camera, 200},
		{"all of it", AllOfIt, nil, camera, 200},
		{"all of it, on white", AllOfIt, &white, made, 300},
		{"a part", PartOfIt, nil, camera, 300},
	} {
		sizes := []rendition.Size{
			{Name: "1200", Width: 1200, Format: "jpeg", Quality: 85, Suffix: "-1200.jpg"},
			{Name: "square", Width: 300, RatioW: 1, RatioH: 1, Ground: c.ground, Format: "jpeg", Quality: 85, Suffix: "-square.jpg"},
		}
		_, files := shapesOf(t, Request{Data: data, Shows: c.shows}, sizes...)
		for i, want := range []string{camera, c.want} {
			if !strings.Contains(string(files[i].Data), prefix+want) {
				t.Errorf("%s: %s does not say that it is %s", c.name, files[i].Size.Name, want)
			}
		}
		m, err := jpeg.Decode(bytes.NewReader(files[1].Data))
		if err != nil {
			t.Fatal(err)
		}
		if b := m.Bounds(); b.Dx() != 300 || b.Dy() != c.high {
			t.Errorf("%s: the square is %d × %d, want 300 × %d", c.name, b.Dx(), b.Dy(), c.high)
		}
		if f := files[1]; f.Width != 300 || f.Height != c.high {
			t.Errorf("%s: the square is said to be %d × %d, want 300 × %d", c.name, f.Width, f.Height, c.high)
		}
		if spreadOf(m, image.Rect(0, 60, 300, 190)) < 20 {
			t.Errorf("%s: the middle of the square shows nothing", c.name)
		}
	}
}

// A picture that is only as high as the photo allows has no row more than the photo,
// which it would have to be drawn anew for.
func TestNarrowShapeEnlargesNothing(t *testing.T) {
	size := rendition.Size{Name: "portrait", Width: 400, RatioW: 4, RatioH: 5, Format: "jpeg", Quality: 85}
	for w := 328; w < 334; w++ {
		_, files := shapesOf(t, Request{Data: mixed(t, w, 300)}, size)
		if f := files[0]; f.Height > 300 || f.Width > w || f.Height < 299 {
			t.Errorf("of a photo of %d × 300 pixels a portrait of %d × %d is made", w, f.Width, f.Height)
		}
	}
}

// spreadOf is the largest distance of a luma in a part of a picture from its mean.
func spreadOf(m image.Image, part image.Rectangle) float64 {
	y := m.(*image.YCbCr)
	var sum, n, worst float64
	for pass := range 2 {
		for j := part.Min.Y; j < part.Max.Y; j++ {
			for i := part.Min.X; i < part.Max.X; i++ {
				v := float64(y.Y[y.YOffset(i, j)])
				if pass == 0 {
					sum, n = sum+v, n+1
				} else {
					worst = math.Max(worst, math.Abs(v-sum/n))
				}
			}
		}
	}
	return worst
}

// A maker's box is whole in every shape, and is straightened.
func TestBoxIsWholeAndStraight(t *testing.T) {
	data := leaning(t, 1500, 1000, 2)
	box := [4]float64{0.1, 0.3, 0.9, 0.85}
	p, files := shapesOf(t, Request{Data: data, CropBox: &box})
	if a := p.Frame.Angle; math.Abs(a-2) > 0.3 {
		t.Errorf("a photo that leans by 2° is turned by %v", a)
	}
	if s := slope(t, files[0].Data); math.Abs(s) > 0.3 {
		t.Errorf("the box comes out leaning by %.2f°", s)
	}
	through := p.Frame.Source(p.W, p.H)
	for _, s := range shapeSizes {
		src := p.inside()
		c := p.Frame.Crop
		part := [4]float64{c[0] * 1500, c[1] * 1000, c[2] * 1500, c[3] * 1000}
		if s.RatioW > 0 {
			part = p.shapeOf(p.formOf(s)).source
		}
		// Each point of the box in the upright photo is a point of the picture.
		for y := part[1] - 200; y < part[3]+200; y += 5 {
			for x := part[0] - 200; x < part[2]+200; x += 5 {
				u, v := through.Apply(x, y)
				in := u > box[0]*1500+3 && u < box[2]*1500-3 && v > box[1]*1000+3 && v < box[3]*1000-3
				shown := x >= part[0] && y >= part[1] && x <= part[2] && y <= part[3] && x >= src[0] && y >= src[1] && x <= src[2] && y <= src[3]
				if in && !shown {
					t.Fatalf("%s: the point (%.0f, %.0f) of the box is lost", s.Name, u, v)
				}
			}
		}
	}
	// A box that straightening would cost something is not straightened.
	all := [4]float64{0, 0, 1, 1}
	if p, _ := shapesOf(t, Request{Data: data, CropBox: &all}); p.Frame.Angle != 0 || p.Frame.Crop != all {
		t.Errorf("a box of all of the photo gives angle %v, crop %v", p.Frame.Angle, p.Frame.Crop)
	}
}

// No picture of any real photo shows anything from beyond its photo: every
// source lies inside, or what lies beyond is filled on purpose.
func TestNothingFromBeyondThePhoto(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(reference(t, "photos/furniture"), "*.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Open(Request{Data: data}, &Options{Sizes: shapeSizes})
		if err != nil {
			t.Fatal(err)
		}
		through, m := p.Frame.Source(p.W, p.H), p.master
		for _, c := range [4][2]float64{{0, 0}, {float64(m.w), 0}, {float64(m.w), float64(m.h)}, {0, float64(m.h)}} {
			x, y := through.Apply(m.x0+c[0]/m.kx, m.y0+c[1]/m.ky)
			if x < -1 || y < -1 || x > float64(p.W)+1 || y > float64(p.H)+1 {
				t.Errorf("%s: a corner is taken from (%.1f, %.1f) of a photo of %d × %d", filepath.Base(name), x, y, p.W, p.H)
			}
		}
		p.Close()
	}
}

// A turn asked for gives what a photo tagged so gives.
func TestTurn(t *testing.T) {
	data := table(t, 600, 400, 0)
	for _, turn := range []int{0, 90, 180, 270} {
		p, err := Open(Request{Data: data, Turn: turn, CropAsShot: true}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if want := turn%180 == 90; (p.W == 400) != want {
			t.Errorf("turned by %d it is %d × %d", turn, p.W, p.H)
		}
		s := p.Frame.Subject
		// The legs stand below the top: the piece lies low at 0, left at 90, high at 180, right at 270.
		mid := [2]float64{(s[0] + s[2]) / 2, (s[1] + s[3]) / 2}
		want := map[int][2]float64{0: {0.5, 0.61}, 90: {0.39, 0.5}, 180: {0.5, 0.39}, 270: {0.61, 0.5}}[turn]
		if math.Hypot(mid[0]-want[0], mid[1]-want[1]) > 0.03 {
			t.Errorf("turned by %d the piece is at %.2f, want %.2f", turn, mid, want)
		}
		p.Close()
	}
	if _, err := Open(Request{Data: data, Turn: 30}, nil); err == nil {
		t.Error("a turn by 30 degrees goes through")
	}
}

// paper draws something dark before grey paper.
func paper(w, h int, thing image.Rectangle, change func(m *image.RGBA)) []byte {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{190, 188, 184, 255}
			if image.Pt(x, y).In(thing) {
				c = color.RGBA{90, 50, 30, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	if change != nil {
		change(m)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 97}); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// lines lists the columns and rows of a picture that differ by more than 6 levels
// from the next one near both ends of them, where there is nothing but paper.
func lines(t *testing.T, f rendition.File) (out []string) {
	t.Helper()
	m, err := jpeg.Decode(bytes.NewReader(f.Data))
	if err != nil {
		t.Fatal(err)
	}
	y := m.(*image.YCbCr)
	for _, d := range [2]struct {
		what          string
		n, long       int
		step, between int
	}{{"column", m.Bounds().Dx(), m.Bounds().Dy(), 1, y.YStride}, {"row", m.Bounds().Dy(), m.Bounds().Dx(), y.YStride, 1}} {
		end := d.long * 2 / 100
		last := -1.0
		for n := range d.n {
			sum := 0.0
			for i := range end {
				sum += float64(y.Y[n*d.step+i*d.between]) + float64(y.Y[n*d.step+(d.long-1-i)*d.between])
			}
			v := sum / float64(2*end)
			if last >= 0 && math.Abs(v-last) > 6 {
				out = append(out, fmt.Sprintf("%s %d: %.0f beside %.0f", d.what, n, v, last))
			}
			last = v
		}
	}
	return out
}

// No line runs along the edge of a square or a portrait, or across it: neither
// from rounding, where the photo reaches as far as they do, nor from a sliver of
// another colour at the photo's own edge, whether they end there or go on.
func TestNoLinesInShapes(t *testing.T) {
	for _, size := range [][2]int{{291, 300}, {301, 300}, {299, 333}, {300, 287}, {333, 251}, {640, 427}, {251, 333}} {
		w, h := size[0], size[1]
		for _, thing := range []image.Rectangle{image.Rect(w/8, h/12, w*7/8, h*11/12), image.Rect(w/3, h/12, w*2/3, h*11/12)} {
			for name, change := range map[string]func(m *image.RGBA){
				"plain": nil,
				"a sliver at the right": func(m *image.RGBA) {
					for y := range h * 4 / 5 {
						m.SetRGBA(w-1, y, color.RGBA{222, 222, 222, 255})
					}
				},
				"a dark last column at the left": func(m *image.RGBA) {
					for y := h / 6; y < h; y++ {
						m.SetRGBA(0, y, color.RGBA{155, 155, 155, 255})
					}
				},
			} {
				p, files := shapesOf(t, Request{Data: paper(w, h, thing, change)})
				for _, f := range files[1:] {
					sh := p.shapeOf(p.formOf(f.Size))
					if l := lines(t, f); l != nil {
						t.Errorf("%d × %d, %s, thing at %v: the %s (filling %d) has lines: %v", w, h, name, thing, f.Size.Name, sh.filling, l)
					}
				}
			}
		}
	}
}

// A piece on a ground of one colour that touches the edge of its photo has room
// beside it in a square and a portrait that reach out of the photo anyway.
func TestRoomBesideWhatTouches(t *testing.T) {
	p, _ := shapesOf(t, Request{Data: paper(400, 600, image.Rect(40, 60, 400, 560), nil)})
	for _, s := range shapeSizes[1:] {
		f := p.shapeOf(p.formOf(s)).source
		if right := f[2] - 400; right < 0.03*500 {
			t.Errorf("%s: %.0f pixels are left beside the piece", s.Name, right)
		}
	}
}

// A sure piece that nearly touches the edge of its photo has air there in a square
// and a portrait, where the ground gives it without a trace.
func TestAirBesideASurePiece(t *testing.T) {
	p, _ := shapesOf(t, Request{Data: paper(400, 400, image.Rect(100, 20, 300, 394), nil)})
	if !p.Frame.Sure {
		t.Fatal("the piece is not sure, and the test holds nothing")
	}
	for _, s := range shapeSizes[1:] {
		sh := p.shapeOf(p.formOf(s))
		if below := sh.source[3] - 394; below < 0.04*374 || sh.filling == photoAlone || !sh.whole {
			t.Errorf("%s: %.0f pixels below the piece, filling %d, whole %v", s.Name, below, sh.filling, sh.whole)
		}
	}
}

// The maker's frame stays where a crop would show the piece no larger: air taken off
// the sides alone is no gain. A piece far from the edges is cropped to.
func TestFrameIsKeptWhereACropGainsNothing(t *testing.T) {
	for _, c := range []struct {
		thing image.Rectangle
		kept  bool
	}{
		{image.Rect(70, 30, 330, 370), true},
		{image.Rect(80, 12, 320, 380), true},
		{image.Rect(150, 100, 250, 300), false},
		{image.Rect(20, 40, 260, 330), false}, // off the middle
	} {
		p, _ := shapesOf(t, Request{Data: paper(400, 400, c.thing, nil)})
		if !p.Frame.Sure {
			t.Fatalf("%v is not sure, and the test holds nothing", c.thing)
		}
		if kept := p.Frame.Crop == p.Frame.Inside; kept != c.kept {
			t.Errorf("%v: crop %.2f, kept %v, want %v", c.thing, p.Frame.Crop, kept, c.kept)
		}
	}
}

// A sure piece stands in the middle of a square and a portrait, wherever it stands in
// the photo, and what is not enlarged or reduced is copied: pixel for pixel that of
// the photo, but for what a JPEG costs.
func TestSurePieceStandsInTheMiddle(t *testing.T) {
	for _, c := range []struct {
		w, h  int
		thing image.Rectangle
	}{{213, 300, image.Rect(70, 20, 180, 281)}, {300, 213, image.Rect(120, 20, 251, 190)}, {293, 300, image.Rect(60, 20, 210, 277)}} {
		p, files := shapesOf(t, Request{Data: paper(c.w, c.h, c.thing, nil)}, rendition.Size{Name: "square", Width: 1000, RatioW: 1, RatioH: 1, Format: "jpeg", Quality: 95},
			rendition.Size{Name: "portrait", Width: 1000, RatioW: 4, RatioH: 5, Format: "jpeg", Quality: 95})
		if !p.Frame.Sure {
			t.Fatalf("%v is not sure, and the test holds nothing", c.thing)
		}
		for _, f := range files {
			m, err := jpeg.Decode(bytes.NewReader(f.Data))
			if err != nil {
				t.Fatal(err)
			}
			luma, b := m.(*image.YCbCr), m.Bounds()
			first, last, soft := b.Dx(), 0, 0
			for x := range b.Dx() {
				switch v := luma.Y[b.Dy()/2*luma.YStride+x]; {
				case v < 80:
					first, last = min(first, x), max(last, x)
				case v < 170:
					soft++
				}
			}
			if off := math.Abs(float64(first+last+1)/2 - float64(b.Dx())/2); off > 0.02*float64(b.Dx()) {
				t.Errorf("%d × %d, thing at %v: in the %s it is %.0f of %d pixels off the middle", c.w, c.h, c.thing, f.Size.Name, off, b.Dx())
			}
			if soft > 0 {
				t.Errorf("%d × %d, thing at %v: the %s has %d pixels between thing and paper", c.w, c.h, c.thing, f.Size.Name, soft)
			}
		}
	}
}

// A piece that the photo cuts off is not put on a ground beyond the cut, where it would
// look sawn off, nor to one side of an empty ground; one that touches the edge with
// a foot is.
func TestNoGroundBeyondACut(t *testing.T) {
	for _, c := range []struct {
		name  string
		w, h  int
		thing image.Rectangle
		foot  image.Rectangle
		none  [4]bool // edges that no shape reaches out of
	}{
		{"cut at the top", 400, 300, image.Rect(100, 0, 300, 280), image.Rectangle{}, [4]bool{false, true, false, false}},
		{"cut at the right", 300, 400, image.Rect(100, 60, 300, 340), image.Rectangle{}, [4]bool{true, false, true, false}},
		{"cut at the top and below", 400, 300, image.Rect(100, 0, 300, 300), image.Rectangle{}, [4]bool{false, true, false, true}},
		{"a foot below", 400, 300, image.Rect(100, 30, 300, 270), image.Rect(200, 270, 216, 300), [4]bool{}},
	} {
		p, _ := shapesOf(t, Request{Data: paper(c.w, c.h, c.thing, func(m *image.RGBA) {
			for y := c.foot.Min.Y; y < c.foot.Max.Y; y++ {
				for x := c.foot.Min.X; x < c.foot.Max.X; x++ {
					m.SetRGBA(x, y, color.RGBA{90, 50, 30, 255})
				}
			}
		})})
		reached := false
		for _, s := range shapeSizes[1:] {
			sh := p.shapeOf(p.formOf(s))
			edges, _ := p.beyond(sh.source)
			for i, out := range edges {
				reached = reached || out && i == 3
				if out && c.none[i] && sh.filling != narrow {
					t.Errorf("%s: the %s reaches out of edge %d (filling %d)", c.name, s.Name, i, sh.filling)
				}
			}
		}
		if c.foot != (image.Rectangle{}) && !reached {
			t.Errorf("%s: no room below", c.name)
		}
	}
}

// What a photo can stand on does not hang on its exposure: a cloth or a wall that is
// mottled where it is lit rightly is no ground of one colour when it is dark.
func TestGroundIsJudgedAsItComesOut(t *testing.T) {
	blots := func(k float64) []byte {
		m := image.NewRGBA(image.Rect(0, 0, 600, 400))
		for y := range 400 {
			for x := range 600 {
				v := 200 + 45*math.Sin(float64(x)/23)*math.Sin(float64(y)/17)
				c := uint8(v * k)
				m.SetRGBA(x, y, color.RGBA{c, c, uint8(float64(c) * 0.97), 255})
			}
		}
		var b bytes.Buffer
		if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 97}); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	for _, k := range []float64{1, 0.5, 0.25} {
		p, _ := shapesOf(t, Request{Data: blots(k)})
		for _, s := range shapeSizes[1:] {
			if sh := p.shapeOf(p.formOf(s)); sh.filling != narrow {
				t.Errorf("at %.2f of its levels the %s has filling %d", k, s.Name, sh.filling)
			}
		}
	}
}
