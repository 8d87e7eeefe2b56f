package decode_test

import (
	"bytes"
	"image"
	"path/filepath"
	"testing"

	"slabfolio/imaging/decode"
	"slabfolio/imaging/native"
	"slabfolio/testdata/beside"
)

// The stated tolerance between the native and the pure way: planes of one size,
// no sample more than this many levels apart, and by nearly nothing on average.
const (
	sampleReach = 2
	meanReach   = 0.05
)

// TestQualityNativeEqualsPure reads the JPEGs of the reference set both ways.
func TestQualityNativeEqualsPure(t *testing.T) {
	if !native.Available() {
		beside.Missing(t, "libturbojpeg")
	}
	compared, top, topMean := 0, 0, 0.0
	for _, folder := range []string{"formats", "orientation", "profiles", "cameras", "broken"} {
		for _, name := range photos(t, folder) {
			data := load(t, name)
			if decode.Sniff(data) != "jpeg" {
				continue
			}
			p, errP := decode.Decode(data, &decode.Options{Pure: true})
			n, errN := decode.Decode(data, nil)
			if (errP == nil) != (errN == nil) {
				t.Errorf("%s: pure %v, native %v", filepath.Base(name), errP, errN)
			}
			if errP != nil || errN != nil || n.Codec == p.Codec {
				continue
			}
			compared++
			worst, mean, ok := planesApart(p.Image, n.Image)
			top, topMean = max(top, worst), max(topMean, mean)
			if !ok || worst > sampleReach || mean > meanReach {
				t.Errorf("%s: %T and %T, %d levels at worst, %.3f on average", filepath.Base(name), p.Image, n.Image, worst, mean)
			}
		}
	}
	t.Logf("%d photos: %d levels at worst, mean of the worst photo %.4f", compared, top, topMean)
	if compared < 40 {
		t.Errorf("only %d photos went the native way", compared)
	}
}

// planesApart compares the samples of two pictures of one kind.
func planesApart(a, b image.Image) (worst int, mean float64, ok bool) {
	sum, n := 0, 0
	plane := func(p, q []uint8, ps, qs, w, h int) {
		for y := range h {
			for x := range w {
				d := int(p[y*ps+x]) - int(q[y*qs+x])
				d = max(d, -d)
				worst, sum, n = max(worst, d), sum+d, n+1
			}
		}
	}
	switch a := a.(type) {
	case *image.Gray:
		b, is := b.(*image.Gray)
		if !is || a.Rect != b.Rect {
			return 0, 0, false
		}
		plane(a.Pix, b.Pix, a.Stride, b.Stride, a.Rect.Dx(), a.Rect.Dy())
	case *image.YCbCr:
		b, is := b.(*image.YCbCr)
		if !is || a.Rect != b.Rect || a.SubsampleRatio != b.SubsampleRatio {
			return 0, 0, false
		}
		w, h := a.Rect.Dx(), a.Rect.Dy()
		plane(a.Y, b.Y, a.YStride, b.YStride, w, h)
		c := a.COffset(w-1, h-1)
		cw, ch := c%a.CStride+1, c/a.CStride+1
		plane(a.Cb, b.Cb, a.CStride, b.CStride, cw, ch)
		plane(a.Cr, b.Cr, a.CStride, b.CStride, cw, ch)
	default:
		return 0, 0, false
	}
	return worst, float64(sum) / float64(n), true
}

// Inks of a CMYK JPEG without Adobe's segment are stored upright, with it
// inverted (Adobe Technical Note 5116; common practice): the same bytes mean
// opposite pictures.
func TestCMYKPolarity(t *testing.T) {
	var data []byte
	for _, name := range photos(t, "formats") {
		if filepath.Base(name) == "gostd_video-001.cmyk.jpeg" {
			data = load(t, name)
		}
	}
	at := bytes.Index(data, []byte("\xff\xee\x00\x0eAdobe"))
	if at < 0 {
		t.Fatal("no Adobe segment")
	}
	adobe, err := decode.Decode(data, nil)
	if err != nil {
		t.Fatal(err)
	}
	if data[at+15] != 0 {
		t.Skip("the photo is YCCK, which needs the segment")
	}
	plain, err := decode.Decode(append(append([]byte{}, data[:at]...), data[at+16:]...), nil)
	if err != nil {
		t.Fatal(err)
	}
	a, p := adobe.Image.(*image.CMYK), plain.Image.(*image.CMYK)
	for i := range a.Pix {
		if a.Pix[i] != ^p.Pix[i] {
			t.Fatalf("sample %d: %d and %d", i, a.Pix[i], p.Pix[i])
		}
	}
}

// Phones' formats keep their pixels in extents: a file cut before the end of one
// is refused, whatever the codec would make of it.
func TestCutPhonePhotosAreRefused(t *testing.T) {
	for _, name := range photos(t, "formats") {
		switch filepath.Base(name) {
		case "libavif_kodim03.avif", "ph_zPug_3.heic", "exifr_iphone7_P3_gps.heic":
		default:
			continue
		}
		data := load(t, name)
		cuts := []int{len(data) / 3, len(data) / 2}
		if filepath.Base(name) != "ph_zPug_3.heic" { // whose last tenth is another picture
			cuts = append(cuts, len(data)*9/10)
		}
		for _, n := range cuts {
			if s, err := decode.Decode(data[:n], nil); err == nil {
				t.Errorf("%s cut at %d of %d is read as %v", filepath.Base(name), n, len(data), s.Image.Bounds())
			}
		}
	}
}
