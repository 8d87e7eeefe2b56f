package linear_test

import (
	"image"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/decode"
	"slabfolio/imaging/linear"
	"slabfolio/testdata/beside"
)

// The reach of DESIGN.md: ICC to sRGB against LittleCMS on the same pixels.
const (
	meanReach  = 0.3
	worstReach = 1.5
)

// TestQualityProfiles converts each photo of the reference set that has a
// profile, and compares with LittleCMS 2 fed with the very same device values, so
// that no decoder's difference counts. It prints what was reached.
func TestQualityProfiles(t *testing.T) {
	names, _ := filepath.Glob(filepath.Join(beside.Shared(t, "photos", "profiles"), "*"))
	more, _ := filepath.Glob(filepath.Join(beside.Shared(t, "photos", "formats"), "*"))
	tested := 0
	t.Logf("%-44s %-8s %6s %6s %6s  %s", "file", "kind", "mean", "worst", "all", "clipped")
	for _, name := range append(names, more...) {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if f := decode.Sniff(data); f == "heic" || f == "avif" {
			continue // their profiles are the plain matrix ones that the others have too
		}
		src, err := decode.Decode(data, &decode.Options{Pure: true})
		if err != nil || len(src.Profile) == 0 {
			continue
		}
		tested++
		dev, channels, bits, pix := deviceValues(&src.Encoded)
		d := against(t, dev, channels, bits, pix)
		t.Logf("%-44s %-8s %6.3f %6.3f %6.3f  %.1f %%", filepath.Base(name), map[int]string{1: "grey", 3: "RGB", 4: "CMYK"}[channels], d.mean, d.worst, d.all, 100*d.clipped)
		if d.mean > meanReach || d.worst > worstReach {
			t.Errorf("%s: mean ΔE00 %.3f, worst in gamut %.3f; to reach are %.1f and %.1f", filepath.Base(name), d.mean, d.worst, meanReach, worstReach)
		}
	}
	if tested < 15 {
		t.Errorf("only %d photos with a profile were compared", tested)
	}
}

// deviceValues returns src with an interleaved image of its device values, and
// those values.
func deviceValues(src *colour.Encoded) (dev *colour.Encoded, channels, bits int, pix []byte) {
	b := src.Image.Bounds()
	w, h := b.Dx(), b.Dy()
	d := *src
	switch m := src.Image.(type) {
	case *image.Gray:
		for y := range h {
			pix = append(pix, m.Pix[y*m.Stride:y*m.Stride+w]...)
		}
		return &d, 1, 8, pix
	case *image.CMYK:
		for y := range h {
			pix = append(pix, m.Pix[y*m.Stride:y*m.Stride+4*w]...)
		}
		return &d, 4, 8, pix
	case *image.NRGBA64:
		out := image.NewNRGBA64(image.Rect(0, 0, w, h))
		for y := range h {
			for x := range w {
				c := m.NRGBA64At(x, y)
				c.A = 65535
				out.SetNRGBA64(x, y, c)
				pix = append(pix, byte(c.R), byte(c.R>>8), byte(c.G), byte(c.G>>8), byte(c.B), byte(c.B>>8))
			}
		}
		d.Image = out
		return &d, 3, 16, pix
	}
	out := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			var c [3]uint8
			switch m := src.Image.(type) {
			case *image.NRGBA:
				n := m.NRGBAAt(x, y)
				c = [3]uint8{n.R, n.G, n.B}
			case *image.YCbCr:
				f := src.Coding.Factors()
				yy := f.Y * (float64(m.Y[m.YOffset(x, y)]) - f.Black)
				cb, cr := float64(m.Cb[m.COffset(x, y)])-128, float64(m.Cr[m.COffset(x, y)])-128
				for i, v := range []float64{yy + f.RCr*cr, yy - f.GCb*cb - f.GCr*cr, yy + f.BCb*cb} {
					c[i] = uint8(min(max(v, 0), 255) + 0.5)
				}
			}
			pix = append(pix, c[:]...)
			copy(out.Pix[out.PixOffset(x, y):], []uint8{c[0], c[1], c[2], 255})
		}
	}
	d.Image = out
	return &d, 3, 8, pix
}

type difference struct {
	mean    float64 // over all pixels
	worst   float64 // where LittleCMS clipped no channel
	all     float64 // anywhere
	clipped float64 // share of pixels with a clipped channel
}

// against compares Rows with LittleCMS, in ΔE00.
func against(t *testing.T, src *colour.Encoded, channels, bits int, pix []byte) (d difference) {
	t.Helper()
	rows, notes := linear.NewRows(src)
	for _, n := range notes {
		t.Errorf("note %s", n.Code)
	}
	w, h := rows.Size()
	want := lcms(t, src.Profile, w, h, channels, bits, pix)
	row := make([]uint16, 3*w)
	for y := range h {
		rows.Row(row, y)
		for x := range w {
			ref := want[(y*w+x)*3 : (y*w+x)*3+3]
			clipped := false
			var lin [3]float64
			for i, v := range ref {
				clipped = clipped || v == 0 || v == 65535
				lin[i] = colour.Decode(float64(v) / 65535)
			}
			e := colour.DeltaE2000(colour.Linear16ToLab(row[3*x], row[3*x+1], row[3*x+2]), colour.LinearToLab(lin[0], lin[1], lin[2]))
			d.mean += e
			d.all = max(d.all, e)
			if clipped {
				d.clipped++
			} else {
				d.worst = max(d.worst, e)
			}
		}
	}
	n := float64(w * h)
	d.mean, d.clipped = d.mean/n, d.clipped/n
	return d
}

// TestQualityOnePhotoInManyProfiles: one photo was converted by another program
// into several colour spaces, and saved with loss each time; through their
// profiles all must look alike. The limits leave room for the saving alone.
func TestQualityOnePhotoInManyProfiles(t *testing.T) {
	load := func(name string) ([]uint16, int, int) {
		data, err := os.ReadFile(beside.Shared(t, "photos", "profiles", name))
		if err != nil {
			t.Fatal(err)
		}
		src, err := decode.Decode(data, &decode.Options{Pure: true})
		if err != nil {
			t.Fatal(err)
		}
		pix, notes := read(t, &src.Encoded)
		if len(notes) > 0 {
			t.Errorf("%s: notes %v", name, notes)
		}
		return pix, src.W, src.H
	}
	want, w, h := load("pizza-rgb8-srgb.jpg")
	for _, c := range []struct {
		name  string
		limit float64 // mean ΔE00
	}{
		{"pizza-rgb8-adobergb.jpg", 0.8}, {"pizza-rgb8-displayp3.jpg", 0.8}, {"pizza-rgb8-prophotorgb.jpg", 0.8},
		{"pizza-rgb8-displayp3-vp8x.webp", 1.5}, {"pizza-jpegli.jpeg", 1.5},
		{"pizza-cmyk8-usswop.jpg", 4}, // the press cannot print all of it
	} {
		got, gw, gh := load(c.name)
		if gw != w || gh != h {
			t.Fatalf("%s: %d×%d", c.name, gw, gh)
		}
		sum := 0.0
		for i := 0; i < len(want); i += 3 {
			sum += colour.DeltaE2000(colour.Linear16ToLab(want[i], want[i+1], want[i+2]), colour.Linear16ToLab(got[i], got[i+1], got[i+2]))
		}
		mean := sum / float64(w*h)
		t.Logf("%-34s mean ΔE00 %.3f from the sRGB version", c.name, mean)
		if mean > c.limit {
			t.Errorf("%s: mean ΔE00 %.2f, %.1f allowed", c.name, mean, c.limit)
		}
	}
}
