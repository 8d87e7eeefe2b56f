package report

import (
	"os"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/templates"
)

func words(t *testing.T) *templates.Words {
	t.Helper()
	w, err := templates.Open("en")
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func parse(t *testing.T, file string) *piece.Piece {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	p, findings := piece.ParsePiece("piece.yaml", data, piece.Defaults{})
	for _, f := range findings {
		if f.Rank == piece.Fault {
			t.Fatalf("%s: %s:%d: %s", file, f.File, f.Line, f.Message)
		}
	}
	return p
}

func build(t *testing.T, p *piece.Piece, w *piece.Workshop) *Report {
	t.Helper()
	r, err := Build(p, w, Options{Words: words(t)})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The console table of the contract: 54 x 16 in, base 28 3/8 in, top 1 5/8 in.
func TestSizesOfTheConsole(t *testing.T) {
	r := build(t, parse(t, "testdata/console.yaml"), nil)
	d := r.Public.Dimensions
	if d.Text.In != "54 × 16 × 30 in" || d.Text.Cm != "137.2 × 40.6 × 76.2 cm" {
		t.Errorf("got %+v", d.Text)
	}
	if *d.Knee != 625.5 {
		t.Errorf("knee room %g mm, want (28 3/8 - 3 3/4) in = 625.5", *d.Knee)
	}
}
