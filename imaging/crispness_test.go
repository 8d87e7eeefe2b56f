package imaging

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/decode"
	"slabfolio/imaging/linear"
	"slabfolio/imaging/rendition"
)

// lumaOf is the sRGB-coded luma of a photo file by BT.601, 0 to 255, upright as
// stored.
func lumaOf(t *testing.T, data []byte) (p []float64, w, h int) {
	t.Helper()
	src, err := decode.Decode(data, &decode.Options{Pure: true})
	if err != nil {
		t.Fatal(err)
	}
	r, _ := linear.NewRows(&src.Encoded)
	w, h = r.Size()
	p, row := make([]float64, w*h), make([]uint16, 3*w)
	var coded [65536]float64
	for i := range coded {
		coded[i] = 255 * colour.Encode(float64(i)/65535)
	}
	for y := range h {
		r.Row(row, y)
		for x := range w {
			p[y*w+x] = 0.299*coded[row[3*x]] + 0.587*coded[row[3*x+1]] + 0.114*coded[row[3*x+2]]
		}
	}
	return p, w, h
}

// lanczos shrinks a plane with the three-lobed Lanczos kernel on coded values, as
// image programs do (C. E. Duchon, Lanczos filtering in one and two dimensions,
// 1979): written here, with nothing of ours.
func lanczos(p []float64, w, h, ow, oh int) []float64 {
	sinc := func(x float64) float64 {
		if x == 0 {
			return 1
		}
		return math.Sin(math.Pi*x) / (math.Pi * x)
	}
	along := func(p []float64, n, lines, stride, across, on int) []float64 {
		out := make([]float64, on*lines)
		k := float64(n) / float64(on)
		for i := range on {
			centre := (float64(i) + 0.5) * k
			lo, hi := max(int(math.Ceil(centre-3*k-0.5)), 0), min(int(math.Floor(centre+3*k-0.5)), n-1)
			weight, sum := make([]float64, hi-lo+1), 0.0
			for j := range weight {
				x := (float64(lo+j) + 0.5 - centre) / k
				if math.Abs(x) < 3 {
					weight[j] = sinc(x) * sinc(x/3)
				}
				sum += weight[j]
			}
			for l := range lines {
				v := 0.0
				for j, c := range weight {
					v += c * p[(lo+j)*stride+l*across]
				}
				out[l*on+i] = v / sum
			}
		}
		return out
	}
	wide := along(p, w, h, 1, w, ow)      // h lines of ow
	tall := along(wide, h, ow, ow, 1, oh) // ow lines of oh
	out := make([]float64, ow*oh)
	for x := range ow {
		for y := range oh {
			out[y*ow+x] = tall[x*oh+y]
		}
	}
	return out
}

// crispness is the mean slope of a plane, levels a pixel.
func crispness(p []float64, w, h int) (sum float64) {
	n := 0.0
	for y := 1; y < h-1; y++ {
		for x := 1; x < w-1; x++ {
			i := y*w + x
			sum += math.Hypot(p[i+1]-p[i-1], p[i+w]-p[i-w]) / 2
			n++
		}
	}
	return sum / n
}

// Every rendition is as crisp as a Lanczos reduction of the same photo to the same
// size: the mean slope of its luma is 97 to 106 % of that one's.
func TestQualityCrispness(t *testing.T) {
	dir := reference(t, "photos")
	for _, n := range []string{"cameras/exifr_GooglePixel_12MP_gps.jpg", "furniture/mei_cafe_wood_tables.jpg", "furniture/mei_workshop_bench.jpg", "furniture/mei_garden_furniture.jpg"} {
		data, err := os.ReadFile(filepath.Join(dir, n))
		if err != nil {
			t.Fatal(err)
		}
		photo, w, h := lumaOf(t, data)
		// The usual sizes in one go, each made of the last, and three that are
		// hardly smaller than the photo, each by itself.
		var files []rendition.File
		for _, widths := range [][]int{{2400, 1200, 600}, {w * 100 / 106}, {w * 100 / 125}, {w * 100 / 160}} {
			var sizes []rendition.Size
			for _, width := range widths {
				sizes = append(sizes, rendition.Size{Name: "x", Width: width, Format: "jpeg", Quality: 100})
			}
			_, made := develop(t, &Options{Sizes: sizes, Pure: true}, sizes, Request{Data: data, ToneAsShot: true, CropAsShot: true})
			files = append(files, made[0]...)
		}
		for _, f := range files {
			m, err := jpeg.Decode(bytes.NewReader(f.Data))
			if err != nil {
				t.Fatal(err)
			}
			y := m.(*image.YCbCr)
			if f.Width >= w {
				continue
			}
			got := make([]float64, f.Width*f.Height)
			for i := range got {
				got[i] = float64(y.Y[i/f.Width*y.YStride+i%f.Width])
			}
			ratio := crispness(got, f.Width, f.Height) / crispness(lanczos(photo, w, h, f.Width, f.Height), f.Width, f.Height)
			t.Logf("%s %d of %d pixels wide: %.3f of the crispness of a Lanczos reduction", filepath.Base(n), f.Width, w, ratio)
			if ratio < 0.97 || ratio > 1.06 {
				t.Errorf("%s at %d: %.3f, want 0.97 to 1.06", filepath.Base(n), f.Width, ratio)
			}
		}
	}
}
