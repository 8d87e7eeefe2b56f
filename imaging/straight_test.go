package imaging

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"testing"

	"slabfolio/imaging/rendition"
)

// leaning draws a dark tabletop on two legs before a light backdrop, turned
// clockwise by degrees about the photo's middle.
func leaning(t *testing.T, w, h int, degrees float64) []byte {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, w, h))
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	at := func(px, py float64) float64 {
		dx, dy := px-float64(w)/2, py-float64(h)/2
		x, y := (dx*cos+dy*sin)/float64(w)+0.5, (dy*cos-dx*sin)/float64(h)+0.5
		switch {
		case math.Abs(x-0.5) < 0.33 && y > 0.4 && y < 0.5:
			return 90
		case y >= 0.5 && y < 0.78 && math.Abs(math.Abs(x-0.5)-0.27) < 0.02:
			return 60
		}
		return 210
	}
	for y := range h {
		for x := range w {
			sum := 0.0
			for _, s := range [4][2]float64{{0.25, 0.25}, {0.75, 0.25}, {0.25, 0.75}, {0.75, 0.75}} {
				sum += at(float64(x)+s[0], float64(y)+s[1])
			}
			m.Pix[y*m.Stride+x] = uint8(sum / 4)
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// slope is how much the upper edge of the dark top falls from left to right, in
// degrees.
func slope(t *testing.T, data []byte) float64 {
	t.Helper()
	m, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	w, h := m.Bounds().Dx(), m.Bounds().Dy()
	edge := func(x int) float64 {
		for y := 1; y < h; y++ {
			a, _, _, _ := m.At(x, y-1).RGBA()
			b, _, _, _ := m.At(x, y).RGBA()
			if v := float64(a>>8) - 150; v > 0 && b>>8 <= 150 {
				return float64(y-1) + v/(float64(a>>8)-float64(b>>8))
			}
		}
		t.Fatalf("column %d of %d × %d holds no edge", x, w, h)
		return 0
	}
	l, r := w*3/10, w*7/10
	return math.Atan2(edge(r)-edge(l), float64(r-l)) * 180 / math.Pi
}

func TestLeaningPhotoComesOutLevel(t *testing.T) {
	sizes := []rendition.Size{{Name: "own", Width: 900, Format: "jpeg", Quality: 92}}
	for _, lean := range []float64{2, -1.5} {
		data := leaning(t, 1500, 1000, lean)
		_, shot := develop(t, nil, sizes, Request{Data: data, CropAsShot: true})
		if s := slope(t, shot[0][0].Data); math.Abs(s-lean) > 0.15 {
			t.Fatalf("a photo drawn leaning by %v° leans by %.2f°", lean, s)
		}
		p, files := develop(t, nil, sizes, Request{Data: data})
		if s := slope(t, files[0][0].Data); math.Abs(s) > 0.3 {
			t.Errorf("a photo leaning by %v° comes out leaning by %.2f°, having been turned by %.2f°", lean, s, -p[0].Frame.Angle)
		}
	}
}
