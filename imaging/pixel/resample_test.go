package pixel

import (
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"
)

// encode is the sRGB curve of IEC 61966-2-1, in floating point.
func encode(l float64) float64 {
	if l <= 0.0031308 {
		return 12.92 * l
	}
	return 1.055*math.Pow(l, 1/2.4) - 0.055
}

// scene draws a picture with what is hard to scale: fine rings, sharp edges
// between dark and white, and noise as of a camera at base sensitivity.
func scene(w, h int) *Image {
	m, rng := New(w, h), rand.New(rand.NewPCG(1, 2))
	for y := range h {
		row := m.Row(y)
		for x := range w {
			fx, fy := float64(x)/float64(w), float64(y)/float64(h)
			v := 0.9
			if fy > 0.3 && fy < 0.8 && math.Abs(fx-0.5) < 0.4 {
				rings := math.Sin(40 * math.Sqrt((fx-0.2)*(fx-0.2)*9+fy*fy) * (1 + 3*fx))
				v = 0.12 + 0.06*rings
			}
			for c, tint := range [3]float64{1, 0.8, 0.6} {
				lin := v * tint
				lin += rng.NormFloat64() * math.Sqrt(lin*0.0002+0.00001)
				row[x*3+c] = uint16(math.Round(65535 * min(max(lin, 0), 1)))
			}
		}
	}
	return m
}

// hammingSinc is the kernel by its textbook form, on its own: sin(πx)/(πx) under
// R. W. Hamming's raised cosine, 25/46 and 21/46 rounded to 0.54 and 0.46 (Digital
// Filters, 1977; the coefficients as in Oppenheim and Schafer, Discrete-Time
// Signal Processing, table of common windows; from memory).
func hammingSinc(x float64) float64 {
	if x = math.Abs(x); x >= 1 {
		return 0
	}
	window := 0.54 + 0.46*math.Cos(math.Pi*x)
	if x < 1e-12 {
		return window
	}
	return window * math.Sin(math.Pi*x) / (math.Pi * x)
}

// The weights of a tenfold downscale, by hand from the same formula at x = 0.1,
// 0.5 and 0.9, to five digits: another window gives others.
func TestKernel(t *testing.T) {
	for _, c := range []struct{ x, want float64 }{{0, 1}, {0.1, 0.96149}, {0.5, 0.34377}, {0.9, 0.01120}, {1, 0}, {-0.5, 0.34377}} {
		if got := kernel(c.x); math.Abs(got-c.want) > 6e-6 {
			t.Errorf("kernel(%v) = %.6f, want %.5f", c.x, got, c.want)
		}
	}
}

// reference is Resample in float64 with weights of its own: no tables, no fixed
// point, the horizontal filter first.
func reference(m *Image, box [4]float64, ow, oh int) []float64 {
	taps := func(lo, hi float64, in, out, i int) map[int]float64 {
		step := (hi - lo) / float64(out)
		centre, reach := lo+(float64(i)+0.5)*step, math.Max(step, 1)
		w, sum := map[int]float64{}, 0.0
		for s := int(centre - reach - 2); s <= int(centre+reach+2); s++ {
			if s >= 0 && s < in {
				k := hammingSinc((float64(s) + 0.5 - centre) / reach)
				w[s] += k
				sum += k
			}
		}
		for s := range w {
			w[s] /= sum
		}
		return w
	}
	between := make([]float64, ow*m.H*3)
	for x := range ow {
		for s, k := range taps(box[0], box[2], m.W, ow, x) {
			for y := range m.H {
				for c := range 3 {
					between[(y*ow+x)*3+c] += k * float64(m.Pix[(y*m.W+s)*3+c])
				}
			}
		}
	}
	out := make([]float64, ow*oh*3)
	for y := range oh {
		for s, k := range taps(box[1], box[3], m.H, oh, y) {
			for i := range ow * 3 {
				out[y*ow*3+i] += k * between[s*ow*3+i]
			}
		}
	}
	return out
}

// psnr compares sRGB-coded values, whose peak is one.
func psnr(got []uint16, want []float64) float64 {
	sum := 0.0
	for i, v := range got {
		d := encode(float64(v)/65535) - encode(want[i]/65535)
		sum += d * d
	}
	return -10 * math.Log10(sum/float64(len(got))+1e-20)
}

func TestQualityDownscale(t *testing.T) {
	// The reach is 45 dB (DESIGN.md) against the same kernel in float64.
	m := scene(601, 403)
	for _, to := range []struct{ w, h int }{{240, 161}, {300, 201}, {77, 52}, {500, 335}, {601, 403}} {
		got, err := Resample(m.Rows(), Region{W: to.w, H: to.h})
		if err != nil {
			t.Fatal(err)
		}
		db := psnr(got.Pix, reference(m, [4]float64{0, 0, 601, 403}, to.w, to.h))
		t.Logf("downscale 601×403 to %d×%d: PSNR %.1f dB", to.w, to.h, db)
		if db < 45 {
			t.Errorf("%d×%d: PSNR %.1f dB, want 45", to.w, to.h, db)
		}
	}
	got, err := Resample(m.Rows(), Region{W: 200, H: 150, Quad: Box(40.3, 11.7, 511.9, 390.2)})
	if err != nil {
		t.Fatal(err)
	}
	if db := psnr(got.Pix, reference(m, [4]float64{40.3, 11.7, 511.9, 390.2}, 200, 150)); db < 45 {
		t.Errorf("crop at fractions of a pixel: PSNR %.1f dB, want 45", db)
	}
}

func TestResampleKeepsMeanAndWhite(t *testing.T) {
	m := scene(480, 320)
	mean := func(m *Image) float64 {
		sum := 0.0
		for _, v := range m.Pix {
			sum += float64(v)
		}
		return sum / float64(len(m.Pix)) / 65535
	}
	got, err := Resample(m.Rows(), Region{W: 160, H: 107})
	if err != nil {
		t.Fatal(err)
	}
	// What the kernel reaches beyond the border is shared out among the border's
	// own pixels, so the mean of a picture that differs there moves slightly.
	if d := math.Abs(mean(got) - mean(m)); d > 0.002 {
		t.Errorf("the mean moved by %.4f of white", d)
	}
	white := New(333, 77)
	for i := range white.Pix {
		white.Pix[i] = 65535
	}
	for _, to := range [][2]int{{333, 77}, {100, 23}, {1, 1}, {332, 76}, {7, 77}} {
		got, err := Resample(white.Rows(), Region{W: to[0], H: to[1]})
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range got.Pix {
			if v != 65535 {
				t.Fatalf("white taken to %v: value %d is %d", to, i, v)
			}
		}
	}
}

func TestCheckerHalvesToLinearMean(t *testing.T) {
	// Half the light of white is 188 in 8-bit sRGB; scaling coded values would
	// give 128 (dependency notes; derived from IEC 61966-2-1).
	m := New(64, 64)
	for y := range 64 {
		for x := range 64 {
			if (x+y)%2 == 0 {
				copy(m.Pix[(y*64+x)*3:], []uint16{65535, 65535, 65535})
			}
		}
	}
	got, err := Resample(m.Rows(), Region{W: 32, H: 32})
	if err != nil {
		t.Fatal(err)
	}
	for y := 2; y < 30; y++ {
		for x := 2; x < 30; x++ {
			if v := math.Round(255 * encode(float64(got.Pix[(y*32+x)*3])/65535)); v != 188 {
				t.Fatalf("pixel (%d, %d) is %v in sRGB, want 188", x, y, v)
			}
		}
	}
}

func TestNoRingingBesideWhite(t *testing.T) {
	m := New(300, 40)
	for y := range 40 {
		row := m.Row(y)
		for i := range row {
			row[i] = 2000
			if i >= 450 {
				row[i] = 60000
			}
		}
	}
	for _, w := range []int{100, 120, 177, 280} {
		got, err := Resample(m.Rows(), Region{W: w, H: 40})
		if err != nil {
			t.Fatal(err)
		}
		lo, hi := slices.Min(got.Pix), slices.Max(got.Pix)
		if lo < 2000 || hi > 60000 {
			t.Errorf("an edge 2000|60000 became %d…%d at width %d", lo, hi, w)
		}
	}
}

func TestResampleSameOnAnyCores(t *testing.T) {
	m := scene(640, 480)
	q := Quad{{10, 20}, {600, 8}, {620, 460}, {4, 470}}
	var first [2]*Image
	for i, cores := range []int{1, 8} {
		old := runtime.GOMAXPROCS(cores)
		a, err := Resample(m.Rows(), Region{W: 256, H: 192, Orientation: 6})
		b, err2 := Resample(m.Rows(), Region{W: 256, H: 192, Quad: q})
		runtime.GOMAXPROCS(old)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		if i == 0 {
			first = [2]*Image{a, b}
		} else if !slices.Equal(a.Pix, first[0].Pix) || !slices.Equal(b.Pix, first[1].Pix) {
			t.Error("the pixels depend on GOMAXPROCS")
		}
	}
}

func TestResampleRefuses(t *testing.T) {
	m := New(10, 10)
	for name, v := range map[string]Region{
		"no size":         {},
		"negative":        {W: -1, H: 10},
		"absurd":          {W: 1 << 20, H: 10},
		"empty quad":      {W: 4, H: 4, Quad: Box(3, 3, 3, 9)},
		"far outside":     {W: 4, H: 4, Quad: Box(300, 3, 310, 9)},
		"not a number":    {W: 4, H: 4, Quad: Box(math.NaN(), 3, 8, 9)},
		"folded":          {W: 4, H: 4, Quad: Quad{{1, 1}, {9, 1}, {2, 2}, {1, 9}}},
		"turned, outside": {W: 4, H: 4, Quad: Quad{{-9, -9}, {-5, -8}, {-6, -5}, {-9, -6}}},
	} {
		if got, err := Resample(m.Rows(), v); err == nil {
			t.Errorf("%s: got %d × %d pixels, want an error", name, got.W, got.H)
		}
	}
	if _, err := Resample(New(0, 0).Rows(), Region{W: 1, H: 1}); err == nil {
		t.Error("an empty picture was taken")
	}
}

func TestReduce(t *testing.T) {
	m := scene(900, 600)
	got, err := Reduce(m.Rows(), 6, 100)
	if err != nil {
		t.Fatal(err)
	}
	if got.W != 67 || got.H != 100 {
		t.Fatalf("got %d × %d, want 67 × 100", got.W, got.H)
	}
	exact, err := Resample(m.Rows(), Region{Orientation: 6, W: 67, H: 100})
	if err != nil {
		t.Fatal(err)
	}
	want := make([]float64, len(exact.Pix))
	for i, v := range exact.Pix {
		want[i] = float64(v)
	}
	// Block averages of a third of the rows: near enough to measure by.
	if db := psnr(got.Pix, want); db < 25 {
		t.Errorf("the analysis copy is %.1f dB from the true downscale", db)
	}
	// Block means are rounded to the nearest, or the whole copy would be too dark:
	// blocks of two columns and two rows that hold 0, 0, 0, 3 have the mean 0.75.
	odd := New(40, 40)
	for y := range 40 {
		for x := range 40 {
			if x%2 == 1 && y%2 == 1 {
				copy(odd.Row(y)[3*x:], []uint16{3, 3, 3})
			}
		}
	}
	half, err := Reduce(odd.Rows(), 1, 20)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range half.Pix {
		if v != 1 {
			t.Fatalf("value %d of a copy of means of 0.75 is %d, want 1", i, v)
		}
	}
	small, err := Reduce(New(5, 3).Rows(), 1, 768)
	if err != nil || small.W != 5 || small.H != 3 {
		t.Errorf("a small picture became %v, %v", small, err)
	}
}
