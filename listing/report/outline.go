package report

import (
	"errors"

	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// errPhoto is returned by outlineOf for an outline that has to be measured from
// its photo first; what was measured comes in as Options.Plan.
var errPhoto = errors.New("the outline is measured from a photo")

// errNoOutline is returned by outlineOf where no outline is said.
var errNoOutline = errors.New("the outline is missing: give length and width, widths, points or a diameter")

// outlineOf returns the outline that a spec says.
func outlineOf(o piece.Outline) (*geometry.Outline, error) {
	mm := func(l piece.Value[units.Length]) float64 { return float64(l.V) }
	switch {
	case len(o.Points) > 0:
		pts := make([][2]float64, len(o.Points))
		for i, p := range o.Points {
			pts[i] = [2]float64{float64(p.X), float64(p.Y)}
		}
		return geometry.Traced(pts)
	case len(o.Widths) > 0:
		ws := make([]float64, len(o.Widths))
		for i, w := range o.Widths {
			ws[i] = mm(w)
		}
		return geometry.FromWidths(mm(o.Length), ws)
	case o.Diameter.Set():
		return geometry.Circle(mm(o.Diameter))
	case o.Photo.Set():
		return nil, errPhoto
	case o.Length.Set() && o.Width.Set():
		return geometry.Rectangle(mm(o.Length), mm(o.Width))
	}
	return nil, errNoOutline
}

// resinOnPlan is where the resin lies on the outline, mm, or nil where that is not
// known.
func (b *builder) resinOnPlan() [][][2]float64 {
	if b.outline == nil || b.outline != b.o.Plan || b.mix.resinShare <= 0 {
		return nil
	}
	return b.o.PlanResin
}

// outlineFault returns the finding for an error of outlineOf, at the place in
// the spec that it is about, with lengths in the given system first.
func outlineFault(o piece.Outline, err error, first units.System) piece.Finding {
	f := piece.Finding{Rank: piece.Fault, Code: "outline.not-usable", Message: err.Error()}
	at := o.At
	var c *geometry.CrossingError
	if errors.As(err, &c) {
		f.Code, f.Message = "outline.crosses-itself", c.Says(first)
		f.Remedy = "write the points in the order in which they follow one another round the edge"
		if c.Edge <= len(o.Points) {
			at = o.Points[c.Edge-1].At
		}
	}
	f.File, f.Line, f.Column = at.File, at.Line, at.Column
	return f
}
