package imaging

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"
	"testing"

	"slabfolio/imaging/decode"
	"slabfolio/imaging/rendition"
)

// table draws a wooden table before a plain backdrop, lit by 2^ev, as a JPEG.
func table(t testing.TB, w, h int, ev float64) []byte {
	t.Helper()
	m, rng := image.NewRGBA(image.Rect(0, 0, w, h)), rand.New(rand.NewPCG(3, 4))
	for y := range h {
		for x := range w {
			fx, fy := float64(x)/float64(w), float64(y)/float64(h)
			v := 0.6 - 0.2*((fx-0.5)*(fx-0.5)+(fy-0.4)*(fy-0.4))
			c := [3]float64{v, v, v * 0.97}
			switch {
			case math.Abs(fx-0.5) < 0.3 && fy > 0.42 && fy < 0.56:
				g := 0.5 + 0.5*math.Sin(60*math.Sqrt((fx-0.2)*(fx-0.2)+9*(fy-0.3)*(fy-0.3)))
				c = [3]float64{0.16 + 0.1*g, 0.09 + 0.06*g, 0.04 + 0.03*g}
			case fy >= 0.56 && fy < 0.8 && math.Abs(math.Abs(fx-0.5)-0.24) < 0.02:
				c = [3]float64{0.02, 0.02, 0.02}
			}
			for k, l := range c {
				l = l*math.Exp2(ev) + rng.NormFloat64()*0.004
				s := 12.92 * l
				if l > 0.0031308 {
					s = 1.055*math.Pow(l, 1/2.4) - 0.055
				}
				m.Pix[y*m.Stride+x*4+k] = uint8(math.Round(255 * min(max(s, 0), 1)))
			}
			m.Pix[y*m.Stride+x*4+3] = 255
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 92}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// develop opens the photos as one set and renders each.
func develop(t *testing.T, opts *Options, sizes []rendition.Size, reqs ...Request) ([]*Photo, [][]rendition.File) {
	t.Helper()
	var photos []*Photo
	for _, r := range reqs {
		p, err := Open(r, opts)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(p.Close)
		photos = append(photos, p)
	}
	Develop(photos)
	var out [][]rendition.File
	for _, p := range photos {
		f, err := p.Render(sizes, rendition.Meta{Creator: "Ostrel Yard", Alt: "Console table"})
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, f)
	}
	return photos, out
}

func size(t *testing.T, f rendition.File) (int, int) {
	t.Helper()
	c, err := jpeg.DecodeConfig(bytes.NewReader(f.Data))
	if err != nil {
		t.Fatal(err)
	}
	if c.Width != f.Width || c.Height != f.Height {
		t.Fatalf("%s says %d × %d, is %d × %d", f.Size.Name, f.Width, f.Height, c.Width, c.Height)
	}
	return c.Width, c.Height
}

func TestPhotoToRenditions(t *testing.T) {
	photos, files := develop(t, nil, rendition.DefaultSizes(), Request{Name: "a", Data: table(t, 1500, 1000, 0)}, Request{Name: "b", Data: table(t, 1500, 1000, -1)})
	p := photos[0]
	if p.W != 1500 || p.H != 1000 || p.CropW >= 1500 || p.CropW < 900 {
		t.Errorf("a photo of %d × %d is cropped to %d × %d", p.W, p.H, p.CropW, p.CropH)
	}
	w, h := size(t, files[0][0])
	if w != p.CropW || math.Abs(float64(h-p.CropH)) > 1 {
		t.Errorf("a photo smaller than 2400 has a rendition of %d × %d, want its own crop of %d × %d", w, h, p.CropW, p.CropH)
	}
	named := func(name string) rendition.File {
		return files[0][slices.IndexFunc(files[0], func(f rendition.File) bool { return f.Size.Name == name })]
	}
	if w, _ := size(t, named("600")); w != 600 {
		t.Errorf("the rendition of 600 is %d wide", w)
	}
	if w, h := size(t, named("square")); w != h {
		t.Errorf("the square is %d × %d", w, h)
	}
	if w, h := size(t, named("portrait")); w*5 != h*4 && math.Abs(float64(w)*5/4-float64(h)) > 1 {
		t.Errorf("the portrait is %d × %d", w, h)
	}
	if d := photos[1].Tone.EV - photos[0].Tone.EV; math.Abs(d-1) > 0.1 {
		t.Errorf("a photo a stop darker is lifted by %.2f stops more", d)
	}
	if len(p.Before) == 0 || len(p.After) == 0 || bytes.Equal(p.Before, p.After) {
		t.Error("the overview does not show what was done")
	}
	for _, hist := range p.Histogram {
		sum := 0.0
		for _, v := range hist {
			sum += v
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("a histogram adds up to %v", sum)
		}
	}
	a, ok := p.Accent()
	if !ok || contrast(luminance(a.OnWhite), 1) < 4.5 || contrast(luminance(a.OnDark), 0.0116) < 4.4 {
		t.Errorf("the accent is %+v, %v", a, ok)
	}
	forPDF, err := p.PDFPicture(777)
	if err != nil {
		t.Fatal(err)
	}
	if w, _ := size(t, forPDF); w != 777 || bytes.Contains(forPDF.Data, []byte("xap")) {
		t.Errorf("the picture is %d wide or holds metadata", w)
	}
	p.Close()
	if _, err := p.Render(rendition.DefaultSizes(), rendition.Meta{}); !errors.Is(err, errClosed) {
		t.Errorf("a closed photo renders: %v", err)
	}
}

func TestOpenRefuses(t *testing.T) {
	for name, data := range map[string][]byte{"nothing": nil, "text": []byte("serial: OY-0142\n"), "cut short": table(t, 300, 200, 0)[:3000]} {
		_, err := Open(Request{Name: name, Data: data}, nil)
		var r *decode.Refusal
		if !errors.As(err, &r) || r.Code == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	_, err := Open(Request{Data: table(t, 300, 200, 0)}, &Options{MaxPixels: 1000})
	var r *decode.Refusal
	if !errors.As(err, &r) || r.Code != "decode.too-large" {
		t.Errorf("a photo beyond the limit: %v", err)
	}
	Develop([]*Photo{nil, nil})
	Develop(nil)
}

func TestSameBytesOnAnyCoresAndFromDisk(t *testing.T) {
	data := table(t, 1500, 1000, -0.5)
	var first []rendition.File
	for i, cores := range []int{1, 8, 2} {
		old := runtime.GOMAXPROCS(cores)
		opts := &Options{Pure: true}
		if i == 2 {
			opts.MasterDir = t.TempDir()
		}
		_, files := develop(t, opts, rendition.DefaultSizes()[3:], Request{Name: "a", Data: data})
		runtime.GOMAXPROCS(old)
		if first == nil {
			first = files[0]
			continue
		}
		for k, f := range files[0] {
			if !bytes.Equal(f.Data, first[k].Data) {
				t.Errorf("run %d: %s differs", i, f.Size.Name)
			}
		}
	}
}

// A master waits on the disk where that is asked for, and is gone after Close,
// also when that is called twice.
func TestBigSetWaitsOnTheDisk(t *testing.T) {
	data, dir := table(t, 600, 400, 0), t.TempDir()
	photos, _ := develop(t, &Options{MasterDir: dir}, rendition.DefaultSizes()[:1], Request{Data: data}, Request{Data: data})
	files, err := os.ReadDir(dir)
	if err != nil || len(files) != 2 {
		t.Errorf("%d of 2 masters are on disk (%v)", len(files), err)
	}
	for _, p := range photos {
		p.Close()
		p.Close()
	}
	if files, err = os.ReadDir(dir); err != nil || len(files) != 0 {
		t.Errorf("after Close %d masters are on disk (%v)", len(files), err)
	}
	p, err := Open(Request{Data: data}, &Options{NoMaster: true})
	if err != nil {
		t.Fatal(err)
	}
	Develop([]*Photo{p})
	if _, err := p.PDFPicture(300); !errors.Is(err, errClosed) || len(p.After) == 0 {
		t.Errorf("a photo that was only looked at: %v", err)
	}
}
