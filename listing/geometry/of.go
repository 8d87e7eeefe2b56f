package geometry

import (
	"errors"

	"slabfolio/listing/piece"
)

// ErrPhoto is returned by Of for an outline that has to be measured from its
// photo first; measure it and give the points to TracedWithin.
var ErrPhoto = errors.New("the outline is measured from a photo")

// ErrNone is returned by Of where no outline is said.
var ErrNone = errors.New("the outline is missing: give length and width, widths, points or a diameter")

// Of returns the outline that a spec says.
func Of(o piece.Outline) (*Outline, error) {
	switch {
	case len(o.Points) > 0:
		pts := make([][2]float64, len(o.Points))
		for i, p := range o.Points {
			pts[i] = [2]float64{mm(p.X), mm(p.Y)}
		}
		return Traced(pts)
	case len(o.Widths) > 0:
		ws := make([]float64, len(o.Widths))
		for i, w := range o.Widths {
			ws[i] = mm(w.V)
		}
		return FromWidths(mm(o.Length.V), ws)
	case o.Diameter.Set():
		return Circle(mm(o.Diameter.V))
	case o.Photo.Set():
		return nil, ErrPhoto
	case o.Length.Set() && o.Width.Set():
		return Rectangle(mm(o.Length.V), mm(o.Width.V))
	}
	return nil, ErrNone
}

// Fault returns the finding for an error of Of, at the place in the spec that
// it is about.
func Fault(o piece.Outline, err error) piece.Finding {
	f := piece.Finding{Rank: piece.Fault, Code: "outline.not-usable", Message: err.Error()}
	at := o.At
	var c *CrossingError
	if errors.As(err, &c) {
		f.Code = "outline.crosses-itself"
		f.Remedy = "write the points in the order in which they follow one another round the edge"
		if c.Edge <= len(o.Points) {
			at = o.Points[c.Edge-1].At
		}
	}
	f.File, f.Line, f.Column = at.File, at.Line, at.Column
	return f
}
