package phototest

import (
	"path/filepath"
	"reflect"
	"testing"

	"slabfolio/imaging/internal/scene"
	"slabfolio/imaging/pixel"
)

// What is kept for other packages comes back as it was drawn.
func TestDrawnIsKept(t *testing.T) {
	m := pixel.New(2, 1)
	copy(m.Pix, []uint16{1, 2, 3, 65535, 5, 6})
	want := []Drawn{{"OY-1", "a.jpg", m, scene.Truth{W: 2, H: 1, Mask: []uint8{0, 255}}, true}}
	path := filepath.Join(t.TempDir(), "scenes.gob")
	if err := keepDrawn(path, want); err != nil {
		t.Fatal(err)
	}
	if got, err := drawnBefore(path); err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, %v, want %+v", got, err, want)
	}
}
