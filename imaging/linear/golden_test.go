package linear_test

import (
	"fmt"
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/decode"
	"slabfolio/testdata/golden"
)

// goldenReach is how far a mean may drift, in 16-bit steps: room for another
// rounding (fused multiplication on arm64, one level of a JPEG), none for a
// change of method.
const goldenReach = 24

// TestGoldenMeans holds the means of linear red, green and blue of small pictures,
// read from each format and through each space. A change in reading or colour
// shows here as numbers.
func TestGoldenMeans(t *testing.T) {
	type picture struct {
		name string
		src  *colour.Encoded
	}
	var pictures []picture
	for _, f := range []string{"bmp", "gif", "png", "tif", "webp"} {
		data, err := os.ReadFile(filepath.Join("..", "decode", "testdata", "tiny."+f))
		if err != nil {
			t.Fatal(err)
		}
		src, err := decode.Decode(data, nil)
		if err != nil {
			t.Fatal(err)
		}
		pictures = append(pictures, picture{"tiny." + f, &src.Encoded})
	}
	for _, ratio := range ratios {
		m := flat(37, 23, ratio, 0, 0, 0)
		for i := range m.Y {
			m.Y[i] = uint8(20 + i%200)
		}
		for i := range m.Cb {
			m.Cb[i], m.Cr[i] = uint8(90+i%60), uint8(160-i%50)
		}
		for _, space := range []string{"srgb", "display-p3", "adobe-rgb", "gamma:1.8"} {
			name := strings.TrimPrefix(ratio.String(), "YCbCrSubsampleRatio") + " " + space
			pictures = append(pictures, picture{name, &colour.Encoded{Image: m, Space: space}})
		}
	}
	inks := image.NewCMYK(image.Rect(0, 0, 16, 16))
	for i := range inks.Pix {
		inks.Pix[i] = uint8(i * 37)
	}
	pictures = append(pictures, picture{"inks", &colour.Encoded{Image: inks}})

	var got strings.Builder
	lines := map[string][3]int{}
	for _, p := range pictures {
		pix, _ := read(t, p.src)
		var sum [3]int
		for i, v := range pix {
			sum[i%3] += int(v)
		}
		n := len(pix) / 3
		lines[p.name] = [3]int{sum[0] / n, sum[1] / n, sum[2] / n}
		fmt.Fprintf(&got, "%s: %d %d %d\n", p.name, sum[0]/n, sum[1]/n, sum[2]/n)
	}
	want := golden.Want(t, "testdata/means.golden", got.String())
	held := 0
	for _, line := range strings.Split(strings.TrimSpace(want), "\n") {
		name, rest, _ := strings.Cut(line, ": ")
		var w [3]int
		if _, err := fmt.Sscan(rest, &w[0], &w[1], &w[2]); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		g, ok := lines[name]
		if !ok {
			t.Errorf("%s is no longer made", name)
			continue
		}
		held++
		for i := range w {
			if d := g[i] - w[i]; d > goldenReach || d < -goldenReach {
				t.Errorf("%s: mean of channel %d is %d, was %d (%+d)", name, i, g[i], w[i], d)
			}
		}
	}
	if held != len(pictures) {
		t.Errorf("%d pictures, %d in the golden file", len(pictures), held)
	}
}
