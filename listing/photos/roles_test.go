package photos

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// Roles follow the spec wherever a photo is named, and by whichever of its files: the
// photo that was measured from, one that is left out and a frame are published under
// no name of theirs, with a raw file or the picture beside it, a tape or a sheet.
func TestRolesFollowTheSpecWhereverAPhotoIsNamed(t *testing.T) {
	const board = "serial: OY-1\ntitle: Board\nkind: serving board\nfinished: 2026-09-18\ntop: {outline: {OUTLINE}, thickness: 1 in, wood: {species: european-oak}}\n"
	for _, c := range []struct {
		outline, photos string
		want            map[string]Role
	}{
		{"photo: IMG_2.jpg, length: 40 in, width: 20 in", "", map[string]Role{"IMG_1.jpg": Publish, "IMG_2.jpg": Plan, "IMG_2.dng": Raw}},
		{"photo: img_2.JPG, paper_sheet: a4", "photos: {captions: {IMG_2.jpg: The top}, views: {IMG_2.jpg: above}}\n", map[string]Role{"IMG_2.jpg": Plan}},
		{"photo: IMG_2.dng, length: 40 in, width: 20 in", "", map[string]Role{"IMG_2.jpg": Plan, "IMG_2.dng": Plan}},
		{"photo: IMG_2.jpg, length: 40 in, width: 20 in", "photos: {order: [IMG_2.jpg]}\n", map[string]Role{"IMG_2.jpg": Publish}},
		{"length: 40 in, width: 20 in", "photos: {leave_out: [IMG_2.dng]}\n", map[string]Role{"IMG_1.jpg": Publish, "IMG_2.jpg": LeftOut}},
		{"length: 40 in, width: 20 in", "photos: {blends: [{name: lit, frames: [IMG_1.jpg, IMG_2.dng]}]}\n", map[string]Role{"IMG_1.jpg": Frame, "IMG_2.jpg": Frame, "IMG_2.dng": Frame, "lit": Publish}},
		{"length: 40 in, width: 20 in", "photos: {views: {IMG_2.dng: packed}}\n", map[string]Role{"IMG_2.jpg": Packed}},
	} {
		p, findings := piece.ParsePiece("piece.yaml", []byte(strings.Replace(board, "OUTLINE", c.outline, 1)+c.photos), piece.Defaults{})
		for _, f := range findings {
			if f.Rank == piece.Fault {
				t.Fatal(f.Message)
			}
		}
		var all []Source
		for _, name := range []string{"IMG_1.jpg", "IMG_2.dng", "IMG_2.jpg"} {
			all = append(all, Source{Rel: name, Name: name, Role: Publish})
		}
		arranged, _ := Arrange(p, all)
		for _, s := range arranged {
			if want := c.want[s.Name]; want != "" && s.Role != want {
				t.Errorf("%s %s: %s is %q, want %q", c.outline, c.photos, s.Name, s.Role, want)
			}
		}
	}
}
