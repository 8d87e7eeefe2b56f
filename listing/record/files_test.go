package record

import (
	"testing"

	"slabfolio/listing"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
)

// The owner's spec names a photo only where the copy holds it: by its path or its
// name in any case, or as a blend of frames; never one of the packing, one that is
// left out, or one that is not there.
func TestWhichPhotosTheOwnersCopyHolds(t *testing.T) {
	s := &sealing{
		j:     &listing.Job{Piece: &piece.Piece{Photos: piece.Photos{Blends: []piece.Blend{{Name: piece.Of("evening")}, {Name: piece.Of("side")}}}}},
		roles: map[string]photos.Role{"Top.jpg": photos.Publish, "photos/leg.jpg": photos.Publish, "crate.jpg": photos.Packed, "photos/bad.jpg": photos.LeftOut},
	}
	for name, want := range map[string]bool{
		"Top.jpg": true, "top.JPG": true, "leg.jpg": true, "photos/leg.jpg": true, "evening": true, "side": true,
		"crate.jpg": false, "bad.jpg": false, "photos/bad.jpg": false, "gone.jpg": false, "": false,
	} {
		if got := s.ownerHolds(name); got != want {
			t.Errorf("%q: %v, want %v", name, got, want)
		}
	}
	s.j.Piece.Photos.Blends = nil
	if s.ownerHolds("evening") {
		t.Error("a blend that the spec does not make")
	}
}
