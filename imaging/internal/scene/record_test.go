package scene

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"slabfolio/testdata/golden"
)

// A drawnPiece is what a piece of the demo was drawn to, for tests elsewhere
// that may not import this package.
type drawnPiece struct {
	Folder      string   `json:"folder"`
	LengthMM    float64  `json:"length_mm"`
	WidthMM     float64  `json:"width_mm"`
	ThicknessMM float64  `json:"thickness_mm"`
	UnderMM     float64  `json:"under_mm"` // floor to the underside of the top; 0 without a base
	AreaMM2     float64  `json:"area_mm2"`
	ResinShare  float64  `json:"resin_share"`
	Photos      []string `json:"photos"`
}

// rounded rounds to what every processor agrees on.
func rounded(v float64) float64 { return math.Round(v*1000) / 1000 }

// testdata/demo-scenes.json says what the scenes of the demo are built to; the
// specs of the demo are held to it by a test of their own.
// go test ./imaging/internal/scene -run TestDemoRecord -update writes it anew.
func TestDemoRecord(t *testing.T) {
	var pieces []drawnPiece
	for _, p := range Demo() {
		d := drawnPiece{p.Folder, rounded(p.Length), rounded(p.Width), rounded(p.Thickness), rounded(p.Under), rounded(p.Area), rounded(p.Resin), nil}
		for _, s := range slices.Concat(p.Shots, p.Work) {
			d.Photos = append(d.Photos, s.Name)
		}
		pieces = append(pieces, d)
	}
	got, err := json.MarshalIndent(pieces, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	got = append(got, '\n')
	name := filepath.Join("..", "..", "..", "testdata", "demo-scenes.json")
	if golden.Updating() {
		if err := os.WriteFile(name, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(bytes.ReplaceAll(want, []byte("\r\n"), []byte("\n")), got) {
		t.Error("testdata/demo-scenes.json does not say what the scenes are; go test -run TestDemoRecord -update writes it")
	}
}
