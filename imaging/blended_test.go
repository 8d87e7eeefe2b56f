package imaging

import (
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// A blend that is opened as it is, is the photo that its 16-bit TIFF opens as,
// within half a step of the curve's code, whichever way it is turned.
func TestBlendedOpensAsItsTIFF(t *testing.T) {
	one := colour.Matrix{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	woods := [][3]float64{{0.30, 0.17, 0.08}, {0.12, 0.06, 0.03}, {0.45, 0.30, 0.15}}
	frames := [][]byte{fieldsPhoto(t, woods, one, 0), fieldsPhoto(t, woods, colour.Matrix{{0.5, 0, 0}, {0, 0.5, 0}, {0, 0, 0.5}}, 0)}
	for _, turn := range []int{0, 90} {
		b, err := BlendFrames(BlendRequest{Frames: 2, Read: func(i int) ([]byte, error) { return frames[i], nil }}, &Options{Pure: true})
		if err != nil {
			t.Fatal(err)
		}
		data, err := b.Encode("tiff")
		if err != nil {
			t.Fatal(err)
		}
		req := Request{Name: "b", Data: data, Turn: turn, CropAsShot: true}
		want, err := Open(req, &Options{Pure: true})
		if err != nil {
			t.Fatal(err)
		}
		defer want.Close()
		req.Data = nil
		got, err := OpenBlended(b, req, &Options{Pure: true})
		if err != nil {
			t.Fatal(err)
		}
		defer got.Close()
		if b.Picture != nil || got.W != want.W || got.H != want.H || got.Frame.Crop != want.Frame.Crop {
			t.Errorf("turned %d: %d × %d, crop %v, want %d × %d, %v", turn, got.W, got.H, got.Frame.Crop, want.W, want.H, want.Frame.Crop)
		}
		if d := farthestApart(got.small, want.small); d > 2 {
			t.Errorf("turned %d: %d of 65535 apart", turn, d)
		}
	}
	b, err := BlendFrames(BlendRequest{Frames: 2, Read: func(i int) ([]byte, error) { return frames[i], nil }}, &Options{Pure: true})
	if err != nil {
		t.Fatal(err)
	}
	if p, err := OpenBlended(b, Request{Name: "b", Turn: 45}, nil); err == nil || p != nil {
		t.Errorf("turned by 45 degrees: %v", err)
	}
}

func farthestApart(a, b *pixel.Image) (most int) {
	if a.W != b.W || a.H != b.H {
		return 1 << 16
	}
	for i := range a.Pix {
		d := int(a.Pix[i]) - int(b.Pix[i])
		most = max(most, d, -d)
	}
	return most
}
