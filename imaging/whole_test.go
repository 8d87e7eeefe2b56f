package imaging

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"testing"

	"slabfolio/imaging/colour"
)

// A part that is neither turned nor reduced is copied pixel by pixel: what a crop
// takes is as crisp as the photo.
func TestCropIsCopied(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 301, 211))
	seed := uint32(7)
	for y := range 211 {
		for x := range 301 {
			seed = seed*1664525 + 1013904223
			m.SetNRGBA(x, y, color.NRGBA{uint8(seed >> 24), uint8(seed >> 16), uint8(seed >> 8), 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	box := [4]float64{0.1117, 0.1333, 0.7771, 0.8889} // no edge of it lies between pixels
	p, err := Open(Request{Name: "noise.png", Data: b.Bytes(), CropBox: &box, ToneAsShot: true}, &Options{Pure: true})
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	pix, err := p.master.load()
	if err != nil {
		t.Fatal(err)
	}
	if !p.Frame.Source(p.W, p.H).Plain() {
		t.Fatal("noise was straightened, and the test holds nothing")
	}
	left, top := int(p.Frame.Crop[0]*301+0.5), int(p.Frame.Crop[1]*211+0.5)
	wrong := 0
	for y := range p.CropH {
		for x := range p.CropW {
			c := m.NRGBAAt(left+x, top+y)
			at := pix.Pix[((y+p.master.top)*pix.W+x+p.master.left)*3:]
			for k, v := range [3]uint8{c.R, c.G, c.B} {
				want := colour.Decode(float64(v)/255) * 65535
				if d := float64(at[k]) - want; d > 2 || d < -2 {
					wrong++
				}
			}
		}
	}
	if wrong > 0 {
		t.Errorf("%d of %d samples are interpolated", wrong, 3*p.CropW*p.CropH)
	}
}
