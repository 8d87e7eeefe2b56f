package photos

import (
	"testing"

	"slabfolio/listing/piece"
)

// A photo whose name says that it shows a card or a chart is no photo of the piece,
// unless the maker says so or there is no other; a table called so is one.
func TestCardsByName(t *testing.T) {
	for name, card := range map[string]bool{
		"grey card.jpg": true, "IMG_2041-gray-card.jpg": true, "ColorChecker 2.jpg": true, "Graukarte.jpg": true, "chart.png": true, "card 3.jpg": true,
		"chart table.jpg": false, "card table front.jpg": false, "grey table.jpg": false, "front.jpg": false, "IMG_2041.jpg": false,
	} {
		if piece.CardInFileName(name) != card {
			t.Errorf("%s: %v", name, !card)
		}
	}
	data := sceneJPEG(t, 0, 0, 0)
	shots := func(named bool) []*Shot {
		return []*Shot{openedShot(t, "grey card.jpg", data, named), openedShot(t, "table.jpg", data, false)}
	}
	boxed := &piece.Piece{}
	boxed.Photos.GreyCard = map[string]piece.Value[piece.Box]{"grey card.jpg": piece.Of(piece.Box{0.3, 0.3, 0.4, 0.4})}
	viewed := &piece.Piece{}
	viewed.Photos.Views = map[string]piece.Value[string]{"grey card.jpg": piece.Of("detail")}
	for _, c := range []struct {
		name  string
		p     *piece.Piece
		shots []*Shot
		rank  piece.Rank // "": it is published
	}{
		{"nothing said", &piece.Piece{}, shots(false), piece.Doubt},
		{"its place given", boxed, shots(false), piece.Note},
		{"named", &piece.Piece{}, shots(true), ""},
		{"given a view", viewed, shots(false), ""},
		{"alone", &piece.Piece{}, shots(false)[:1], ""},
	} {
		found := CardsByName(c.p, c.shots)
		if out := c.shots[0].Photo == nil; out != (c.rank != "") || out != (c.shots[0].Record.Refused != "") || out != (len(found) == 1) || out && found[0].Rank != c.rank {
			t.Errorf("%s: out %v, %v", c.name, out, found)
		}
	}
}
