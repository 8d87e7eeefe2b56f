package photos

import (
	"image/color"
	"testing"

	"slabfolio/imaging"
	"slabfolio/listing/piece"
)

// What the spec says of a photo reaches the photo, and only that one.
func TestWhatTheSpecAsksOfAPhoto(t *testing.T) {
	spec := &piece.Photos{
		Tone: piece.Of("as shot"), CropBoxes: map[string]piece.Value[piece.Box]{"a.jpg": piece.Of(piece.Box{0.1, 0.2, 0.8, 0.9})},
		GreyCard: map[string]piece.Value[piece.Box]{"b.jpg": piece.Of(piece.Box{0.3, 0.3, 0.4, 0.4})},
		Turn:     map[string]piece.Value[int]{"a.jpg": piece.Of(90)}, Ground: map[string]piece.Value[string]{"b.jpg": piece.Of("#102030")},
	}
	o := &Opener{Spec: spec}
	a := o.request(Source{Rel: "photos/a.jpg", Name: "a.jpg", View: piece.PartViews[0]}, []byte("A"))
	if a.Name != "photos/a.jpg" || string(a.Data) != "A" || !a.ToneAsShot || a.CropAsShot || a.CropBox == nil || *a.CropBox != [4]float64{0.1, 0.2, 0.8, 0.9} || a.GreyCard != nil || a.Turn != 90 || a.Ground != nil || a.Shows != imaging.PartOfIt {
		t.Errorf("%+v", a)
	}
	spec.Tone, spec.Crop = piece.Of("auto"), piece.Of("as shot")
	b := o.request(Source{Rel: "b.jpg", Name: "b.jpg"}, nil)
	if b.ToneAsShot || !b.CropAsShot || b.CropBox != nil || b.GreyCard == nil || *b.GreyCard != [4]float64{0.3, 0.3, 0.4, 0.4} || b.Turn != 0 || b.Shows != imaging.Unsaid || b.Ground == nil || *b.Ground != (color.NRGBA{R: 0x10, G: 0x20, B: 0x30, A: 255}) {
		t.Errorf("%+v", b)
	}
	bare := (&Opener{Spec: &piece.Photos{}}).request(Source{Rel: "c.jpg", Name: "c.jpg", View: "front"}, nil)
	if bare.ToneAsShot || bare.CropAsShot || bare.Shows != imaging.AllOfIt {
		t.Errorf("%+v", bare)
	}
}
