package report

import (
	"errors"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// A finding stands at the point where the faulty edge starts.
func TestCrossingOutlineIsShownAtItsPoint(t *testing.T) {
	o := piece.Outline{}
	for i, q := range [][2]float64{{0, 0}, {100, 0}, {0, 100}, {100, 100}, {-50, 50}} {
		o.Points = append(o.Points, piece.Point{X: units.Length(q[0]), Y: units.Length(q[1]), At: piece.Place{File: "piece.yaml", Line: 10 + i, Column: 5}})
	}
	_, err := outlineOf(o)
	if f := outlineFault(o, err, units.Inches); f.Line != 11 || f.Rank != piece.Fault || f.Code != "outline.crosses-itself" {
		t.Errorf("finding %+v for %v", f, err)
	}
}

func TestOutlineThatIsNotSaidIsRefused(t *testing.T) {
	if _, err := outlineOf(piece.Outline{}); !errors.Is(err, errNoOutline) {
		t.Errorf("no outline: %v", err)
	}
	if _, err := outlineOf(piece.Outline{Photo: piece.Of("plan.jpg")}); !errors.Is(err, errPhoto) {
		t.Errorf("a photo: %v", err)
	}
}
