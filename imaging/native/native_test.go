package native

import (
	"bytes"
	"image"
	stdjpeg "image/jpeg"
	"math/rand/v2"
	"testing"
)

// photo draws noise on gradients.
func photo(w, h int, ratio image.YCbCrSubsampleRatio) *image.YCbCr {
	m := image.NewYCbCr(image.Rect(0, 0, w, h), ratio)
	r := rand.New(rand.NewPCG(1, 2))
	for y := range h {
		for x := range w {
			m.Y[y*m.YStride+x] = uint8(32 + x*150/w + y*50/h + r.IntN(16))
		}
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = uint8(100+i*50/len(m.Cb)+r.IntN(4)), uint8(150-i*40/len(m.Cr)+r.IntN(4))
	}
	return m
}

func need(t testing.TB) {
	t.Helper()
	if !Available() {
		t.Skip("libturbojpeg is not installed here")
	}
}

// encode writes a 4:2:0 or grey JPEG with the standard library.
func encode(t *testing.T, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := stdjpeg.Encode(&b, m, &stdjpeg.Options{Quality: 90}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The library and image/jpeg are two independent decoders: they must agree to
// within two levels on any sample (each rounds its cosine transform, ITU-T T.83
// allows one either way), and by less than a tenth of a level on average.
func TestDecodesLikeStandardLibrary(t *testing.T) {
	need(t)
	for _, size := range []image.Point{{64, 48}, {61, 47}, {1, 1}, {17, 3}} {
		data := encode(t, photo(size.X, size.Y, image.YCbCrSubsampleRatio420))
		std, err := stdjpeg.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		got, err := DecodeJPEG(data, size.X, size.Y)
		if err != nil {
			t.Fatalf("decode %v: %v", size, err)
		}
		compare(t, got.(*image.YCbCr), std.(*image.YCbCr))
	}
	grey := image.NewGray(image.Rect(0, 0, 33, 9))
	for i := range grey.Pix {
		grey.Pix[i] = uint8(i)
	}
	m, err := DecodeJPEG(encode(t, grey), 33, 9)
	if err != nil {
		t.Fatal(err)
	}
	if g, ok := m.(*image.Gray); !ok || g.GrayAt(5, 3).Y > 112 || g.GrayAt(5, 3).Y < 96 {
		t.Errorf("grey comes back as %T", m)
	}
}

func compare(t *testing.T, a, b *image.YCbCr) {
	t.Helper()
	if a.Rect != b.Rect || a.SubsampleRatio != b.SubsampleRatio {
		t.Fatalf("got %v %v, want %v %v", a.Rect, a.SubsampleRatio, b.Rect, b.SubsampleRatio)
	}
	sum, n, worst := 0, 0, 0
	for y := range a.Rect.Dy() {
		for x := range a.Rect.Dx() {
			for _, d := range []int{
				int(a.Y[a.YOffset(x, y)]) - int(b.Y[b.YOffset(x, y)]),
				int(a.Cb[a.COffset(x, y)]) - int(b.Cb[b.COffset(x, y)]),
				int(a.Cr[a.COffset(x, y)]) - int(b.Cr[b.COffset(x, y)]),
			} {
				d = max(d, -d)
				sum, n, worst = sum+d, n+1, max(worst, d)
			}
		}
	}
	if worst > 2 || float64(sum) > 0.1*float64(n)+2 {
		t.Errorf("%v: samples differ by %d at worst, %.3f on average", a.Rect, worst, float64(sum)/float64(n))
	}
}

func TestRefusesWhatItCannotTrust(t *testing.T) {
	need(t)
	data := encode(t, photo(64, 64, image.YCbCrSubsampleRatio420))
	for name, f := range map[string]func() error{
		"truncated":  func() error { _, err := DecodeJPEG(data[:len(data)/2], 64, 64); return err },
		"other size": func() error { _, err := DecodeJPEG(data, 64, 63); return err },
		"empty":      func() error { _, err := DecodeJPEG(nil, 64, 64); return err },
	} {
		if f() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
