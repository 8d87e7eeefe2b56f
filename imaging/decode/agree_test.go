package decode_test

import (
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/decode"
	"slabfolio/imaging/linear"
	"slabfolio/testdata/beside"
)

// levels renders src upright, its device values taken as sRGB, as 8-bit levels.
func levels(src *decode.Source) *image.NRGBA {
	s := *src
	if _, cmyk := s.Image.(*image.CMYK); !cmyk {
		s.Profile = nil
	}
	s.Space = "srgb"
	rows, _ := linear.NewRows(&s.Encoded)
	w, h := rows.Size()
	uw, uh := w, h
	if src.Orientation >= 5 {
		uw, uh = h, w
	}
	out := image.NewNRGBA(image.Rect(0, 0, uw, uh))
	row := make([]uint16, 3*w)
	enc := colour.EncodeTable()
	for y := range h {
		rows.Row(row, y)
		for x := range w {
			ux, uy := upright(src.Orientation, x, y, w, h)
			p := out.Pix[out.PixOffset(ux, uy):]
			p[0], p[1], p[2], p[3] = enc[row[3*x]], enc[row[3*x+1]], enc[row[3*x+2]], 255
		}
	}
	return out
}

// upright is where the stored pixel (x, y) of a w×h picture belongs (CIPA DC-008,
// tag Orientation: which side of the scene row 0 and column 0 show).
func upright(o, x, y, w, h int) (int, int) {
	switch o {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return h - 1 - y, x
	case 7:
		return h - 1 - y, w - 1 - x
	case 8:
		return y, w - 1 - x
	}
	return x, y
}

// apart is the mean difference of two pictures in levels; -1 when sizes differ.
func apart(a, b image.Image) float64 {
	if a.Bounds().Size() != b.Bounds().Size() {
		return -1
	}
	sum, n := 0.0, 0
	size := a.Bounds().Size()
	step := max(1, size.X*size.Y/400_000)
	for i := 0; i < size.X*size.Y; i += step {
		x, y := i%size.X, i/size.X
		ar, ag, ab, _ := a.At(a.Bounds().Min.X+x, a.Bounds().Min.Y+y).RGBA()
		br, bg, bb, _ := b.At(b.Bounds().Min.X+x, b.Bounds().Min.Y+y).RGBA()
		for _, d := range []float64{float64(ar) - float64(br), float64(ag) - float64(bg), float64(ab) - float64(bb)} {
			sum += math.Abs(d) / 257
			n++
		}
	}
	return sum / float64(n)
}

// loose holds wider limits, each with its reason.
var loose = map[string]float64{
	// Green and blue themselves are stored at half size: repeated by our reader,
	// interpolated by libjpeg.
	"gostd_video-001.rgb.jpeg": 5,
	// Ten bits of RGB: the portable codec hands out eight, with chroma halved.
	"ph_RGB_10.heif": 2.5,
}

// unseen are photos whose orientation libvips does not read (Exif kept as text in
// a PNG); exiftool does, see TestQualityFactsAsExiftoolReadsThem.
var unseen = map[string]bool{"exif_imagemagick_orientation.png": true}

// TestQualityDecodersAgree compares every readable opaque photo with what libvips
// makes of it (libjpeg, libheif, libwebp, libtiff behind it), turned upright by
// either, in device values: a wrong range, matrix, polarity or turn shows at once.
func TestQualityDecodersAgree(t *testing.T) {
	vips, err := exec.LookPath("vips")
	if err != nil {
		beside.Missing(t, "vips")
	}
	names := append(photos(t, "formats"), photos(t, "orientation")...)
	compared := 0
	for _, name := range append(names, photos(t, "profiles")...) {
		src, err := decodeOnce(t, name)
		if err != nil || src.Format == "raw" || src.Space == "lab" || unseen[filepath.Base(name)] {
			continue
		}
		switch m := src.Image.(type) {
		case *image.CMYK:
			continue // libvips converts these by a profile of its own
		case *image.NRGBA:
			if !m.Opaque() {
				continue // flattened or not, as each sees fit
			}
		case *image.NRGBA64:
			if !m.Opaque() {
				continue
			}
		}
		if len(src.Space) > 6 && src.Space[:6] == "gamma:" {
			continue // libvips ignores gAMA
		}
		out := filepath.Join(t.TempDir(), "out.png")
		if msg, err := exec.Command(vips, "autorot", name, out+"[compression=0]").CombinedOutput(); err != nil {
			t.Logf("%-40s libvips cannot: %.80s", filepath.Base(name), msg)
			continue
		}
		f, err := os.Open(out)
		if err != nil {
			t.Fatal(err)
		}
		ref, err := png.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		compared++
		d := apart(levels(src), ref)
		t.Logf("%-40s %-20s %.3f levels apart", filepath.Base(name), src.Codec, d)
		limit := 1.5
		if e, ok := loose[filepath.Base(name)]; ok {
			limit = e
		}
		if d < 0 || d > limit {
			t.Errorf("%s: %.2f levels from libvips on average, %.1f allowed (-1: another size)", filepath.Base(name), d, limit)
		}
	}
	if compared < 50 {
		t.Errorf("only %d photos were compared", compared)
	}
}
