package linear_test

import (
	"image"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/linear"
	"slabfolio/testdata/beside"
)

func read(t *testing.T, src *colour.Encoded) ([]uint16, []string) {
	t.Helper()
	rows, notes := linear.NewRows(src)
	w, h := rows.Size()
	out := make([]uint16, 3*w*h)
	for y := range h {
		rows.Row(out[3*w*y:3*w*(y+1)], y)
	}
	var codes []string
	for _, n := range notes {
		codes = append(codes, n.Code)
	}
	return out, codes
}

// flat returns a picture of one YCbCr value.
func flat(w, h int, ratio image.YCbCrSubsampleRatio, y, cb, cr uint8) *image.YCbCr {
	m := image.NewYCbCr(image.Rect(0, 0, w, h), ratio)
	for i := range m.Y {
		m.Y[i] = y
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = cb, cr
	}
	return m
}

var ratios = []image.YCbCrSubsampleRatio{
	image.YCbCrSubsampleRatio444, image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio420,
	image.YCbCrSubsampleRatio440, image.YCbCrSubsampleRatio411, image.YCbCrSubsampleRatio410,
}

// A flat colour stays flat under every chroma ratio and odd size, and is what the
// standard library makes of the same YCbCr, to its 8-bit rounding.
func TestFlatColourUnderEveryRatio(t *testing.T) {
	for _, ratio := range ratios {
		for _, size := range []image.Point{{1, 1}, {2, 3}, {5, 4}, {7, 7}, {8, 2}} {
			got, _ := read(t, &colour.Encoded{Image: flat(size.X, size.Y, ratio, 120, 90, 170)})
			r, g, b := color.YCbCrToRGB(120, 90, 170)
			for i, v := range got {
				want := colour.Decode(float64([]uint8{r, g, b}[i%3])/255) * 65535
				step := colour.Decode(float64([]uint8{r, g, b}[i%3]+1)/255)*65535 - want
				if math.Abs(float64(v)-want) > step {
					t.Fatalf("%v %v: value %d is %d, want %.0f ± %.0f", ratio, size, i, v, want, step)
				}
				if v != got[i%3] {
					t.Fatalf("%v %v: not flat", ratio, size)
				}
			}
		}
	}
}

// A ramp of chroma comes out as a ramp where chroma is interpolated: no two
// neighbours are equal, as they would be were it repeated.
func TestChromaIsInterpolated(t *testing.T) {
	for _, ratio := range ratios[1:] {
		m := flat(32, 32, ratio, 128, 128, 128)
		for y := range 32 {
			for x := range 32 {
				m.Cr[m.COffset(x, y)] = uint8(100 + 2*x + 2*y)
			}
		}
		got, _ := read(t, &colour.Encoded{Image: m})
		at := func(x, y int) uint16 { return got[(y*32+x)*3] }
		for k := 9; k < 24; k++ {
			if ratio != image.YCbCrSubsampleRatio440 && at(k, 16) <= at(k-1, 16) {
				t.Errorf("%v: red does not rise from x=%d to %d", ratio, k-1, k)
			}
			if (ratio == image.YCbCrSubsampleRatio440 || ratio == image.YCbCrSubsampleRatio420) && at(16, k) <= at(16, k-1) {
				t.Errorf("%v: red does not rise from y=%d to %d", ratio, k-1, k)
			}
		}
	}
}

// Video range: 16 is black and 235 white (ITU-R BT.601).
func TestVideoRange(t *testing.T) {
	for y, want := range map[uint8]uint16{16: 0, 235: 65535, 0: 0, 255: 65535} {
		got, _ := read(t, &colour.Encoded{Image: flat(2, 2, image.YCbCrSubsampleRatio420, y, 128, 128), Coding: colour.Coding{Limited: true}})
		if got[0] != want || got[1] != want || got[2] != want {
			t.Errorf("luma %d gives %v, want %d", y, got[:3], want)
		}
	}
}

func TestAlphaIsFlattenedOnWhiteInLinearLight(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 3, 1))
	copy(m.Pix, []uint8{0, 0, 0, 0, 0, 0, 0, 51, 10, 20, 30, 255})
	got, _ := read(t, &colour.Encoded{Image: m})
	if got[0] != 65535 || got[3] != 65535-13107 || got[6] != colour.DecodeTable()[10] {
		t.Errorf("got %v", got)
	}
	m16 := image.NewNRGBA64(image.Rect(0, 0, 1, 1))
	m16.SetNRGBA64(0, 0, color.NRGBA64{A: 32768})
	if got, _ := read(t, &colour.Encoded{Image: m16}); got[0] != 32767 {
		t.Errorf("16 bits: got %v", got)
	}
}

func TestSpacesWithoutProfile(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 1, 1))
	copy(m.Pix, []uint8{200, 100, 50, 255})
	for _, c := range []struct {
		space string
		rgb   [3]float64 // linear, by hand from the published matrices
	}{
		{"", [3]float64{0.577580, 0.127438, 0.031896}},
		{"srgb", [3]float64{0.577580, 0.127438, 0.031896}},
		{"gamma:1", [3]float64{200. / 255, 100. / 255, 50. / 255}},
		// Display P3: the sRGB curve, then the P3-to-sRGB matrix
		// 1.2249 −0.2247 0 / −0.0420 1.0419 0 / −0.0197 −0.0786 1.0979.
		{"display-p3", [3]float64{0.67886, 0.10849, 0.01367}},
	} {
		got, notes := read(t, &colour.Encoded{Image: m, Space: c.space})
		for i := range 3 {
			if math.Abs(float64(got[i])/65535-c.rgb[i]) > 3e-4 {
				t.Errorf("%q: channel %d is %.5f, want %.5f", c.space, i, float64(got[i])/65535, c.rgb[i])
			}
		}
		if len(notes) != 0 {
			t.Errorf("%q: notes %v", c.space, notes)
		}
	}
}

func TestBadProfileIsSaidAndTakenAsSRGB(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 1, 1))
	copy(m.Pix, []uint8{200, 100, 50, 255})
	plain, _ := read(t, &colour.Encoded{Image: m})
	good, err := os.ReadFile(beside.Shared(t, "photos", "profiles", "kov_displayp3.icc"))
	if err != nil {
		t.Fatal(err)
	}
	grey, err := os.ReadFile(beside.Shared(t, "photos", "profiles", "iccfree_Gray.icc"))
	if err != nil {
		t.Fatal(err)
	}
	for name, p := range map[string][]byte{
		"text": []byte("not a profile"), "cut": good[:200], "for grey": grey,
		"zeros": make([]byte, 4096),
	} {
		got, notes := read(t, &colour.Encoded{Image: m, Profile: p})
		if len(notes) != 1 || notes[0] != "colour.bad-profile" {
			t.Errorf("%s: notes %v", name, notes)
		}
		for i := range 3 {
			if got[i] != plain[i] {
				t.Errorf("%s: not taken as sRGB: %v, want %v", name, got, plain)
			}
		}
	}
}

// A profile that swaps red and green must swap them.
func TestSwappedProfileSwaps(t *testing.T) {
	p, err := os.ReadFile(beside.Shared(t, "photos", "profiles", "colord_SwappedRedAndGreen.icc"))
	if err != nil {
		t.Fatal(err)
	}
	m := image.NewNRGBA(image.Rect(0, 0, 1, 1))
	copy(m.Pix, []uint8{200, 60, 50, 255})
	got, notes := read(t, &colour.Encoded{Image: m, Profile: p})
	if len(notes) != 0 || got[1] < 4*got[0] {
		t.Errorf("got %v %v, want green far above red", got, notes)
	}
}

// TestQualityStandaloneProfiles feeds a lattice of device values through the
// profiles that come without a photo.
func TestQualityStandaloneProfiles(t *testing.T) {
	names, _ := filepath.Glob(filepath.Join(beside.Shared(t, "photos", "profiles"), "*.icc"))
	for _, name := range names {
		p, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		src, channels := &colour.Encoded{Profile: p}, 3
		var pix []byte
		if string(p[16:20]) == "GRAY" {
			channels = 1
			m := image.NewGray(image.Rect(0, 0, 256, 1))
			for i := range 256 {
				m.Pix[i] = uint8(i)
			}
			src.Image, pix = m, m.Pix
		} else {
			m := image.NewNRGBA(image.Rect(0, 0, 256, 64))
			for i := range 256 * 64 {
				c := []uint8{uint8(i * 7), uint8(i * 29 >> 3), uint8(i * 113 >> 6), 255}
				copy(m.Pix[4*i:], c)
				pix = append(pix, c[:3]...)
			}
			src.Image = m
		}
		d := against(t, src, channels, 8, pix)
		t.Logf("%-44s mean %.3f worst %.3f all %.3f", filepath.Base(name), d.mean, d.worst, d.all)
		if d.mean > meanReach || d.worst > worstReach {
			t.Errorf("%s misses the reach", filepath.Base(name))
		}
	}
	if len(names) < 8 {
		t.Errorf("only %d profiles", len(names))
	}
}

// Several goroutines may read one Rows; the race detector watches.
func TestRowsFromSeveralGoroutines(t *testing.T) {
	m := flat(33, 31, image.YCbCrSubsampleRatio420, 120, 90, 170)
	for i := range m.Y {
		m.Y[i] = uint8(i)
	}
	src := &colour.Encoded{Image: m}
	want, _ := read(t, src)
	rows, _ := linear.NewRows(src)
	got := make([]uint16, len(want))
	var wg sync.WaitGroup
	for y := range 31 {
		wg.Go(func() { rows.Row(got[3*33*y:3*33*(y+1)], y) })
	}
	wg.Wait()
	for i := range want {
		if got[i] != want[i] {
			t.Fatalf("value %d: %d, want %d", i, got[i], want[i])
		}
	}
}

func TestRowAllocatesNothing(t *testing.T) {
	rows, _ := linear.NewRows(&colour.Encoded{Image: flat(64, 64, image.YCbCrSubsampleRatio420, 120, 90, 170)})
	row := make([]uint16, 3*64)
	if n := testing.AllocsPerRun(100, func() { rows.Row(row, 5) }); n != 0 {
		t.Errorf("%v allocations a row", n)
	}
}

// The quick way for photos and the plain way in three steps give the same values,
// at the ends of every range too; a curve that is told by segments alone may lie one
// step of 65535 beside.
func TestQuickWayEqualsPlainWay(t *testing.T) {
	for _, limited := range []bool{false, true} {
		for _, ratio := range []image.YCbCrSubsampleRatio{image.YCbCrSubsampleRatio420, image.YCbCrSubsampleRatio422} {
			for _, space := range []string{"srgb", "display-p3", "adobe-rgb", "gamma:1.8"} {
				m := image.NewYCbCr(image.Rect(0, 0, 603, 17), ratio)
				for i := range m.Y {
					m.Y[i] = uint8(i * 2654435761 >> 7)
				}
				for i := range m.Cb {
					m.Cb[i], m.Cr[i] = uint8(i*40503>>3), uint8(i*30011>>5)
				}
				// Whole blocks of the extremes.
				for i := range 200 {
					m.Y[i], m.Cb[i], m.Cr[i] = uint8(i&1*255), uint8(i>>4&1*255), uint8(i>>5&1*255)
				}
				quick, plain := linear.BothWays(&colour.Encoded{Image: m, Space: space, Coding: colour.Coding{Limited: limited}})
				for i := range quick {
					beside := 0
					if space == "srgb" || strings.HasPrefix(space, "gamma") {
						beside = 1
					}
					if d := int(quick[i]) - int(plain[i]); d > beside || -d > beside {
						t.Fatalf("limited %v, %v, %s: value %d is %d, by the plain way %d", limited, ratio, space, i, quick[i], plain[i])
					}
				}
			}
		}
	}
}
