package page

import (
	"html/template"
	"math"
	"strconv"
	"strings"

	"slabfolio/listing/grain"
	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// A drawing is the plan and the elevation as inline SVG in the text's colour, to
// one scale and in the hand of the spec sheet.
type drawing struct{ Views []drawnView }

type drawnView struct {
	SVG     template.HTML
	Caption string
	Rem     string // how wide the view is where there is room, in rem
}

// A plot is what both views share: the piece, the extent along x of the pictures
// and the size of a letter, all in millimetres of the piece.
type plot struct {
	d           *report.Drawing
	o           *Options
	title, desc string
	thickness   float64
	unit        float64
	grow        float64 // how much larger the letters are on a phone
	left, right float64
	rem         float64
}

// How wide a view is set, in rem: the widest beside the facts, the least that
// still can be read. Letters are letterRem there, letterPhone where a phone
// shows the view on phoneRem.
const (
	mostRem, leastRem = 36, 19
	letterRem         = 0.9
	phoneRem          = 20
	letterPhone       = 0.7
)

func draw(r *report.Report, o *Options) *drawing {
	d := &r.Drawing
	if len(d.Outline) < 3 || d.Length <= 0 || d.Width <= 0 {
		return nil
	}
	standing := d.Height > 0 && d.BaseHeight > 0
	s := newPlot(r, o, standing)
	caption := o.Words.Say("page.plan", nil)
	if d.ResinShare > 0 {
		caption += ". " + o.Words.Say("page.drawing.resin", map[string]any{"Share": strconv.FormatFloat(d.ResinShare*100, 'f', 0, 64)})
	}
	rem := num(s.rem)
	out := &drawing{Views: []drawnView{{s.plan(), caption, rem}}}
	if standing {
		id := "page.elevation"
		if d.Round {
			id = "page.elevation-round"
		}
		caption := o.Words.Say(id, nil)
		if d.Footprint[0] > 0 {
			caption += ". " + o.Words.Say("page.drawing.base", nil)
		}
		out.Views = append(out.Views, drawnView{s.elevation(), caption, rem})
	}
	return out
}

// newPlot finds the size of the letters and the room that dimensions take left
// and right, so that plan and elevation stand under each other.
func newPlot(r *report.Report, o *Options, standing bool) *plot {
	d := &r.Drawing
	s := &plot{d: d, o: o, thickness: thickness(r)}
	s.title = o.Words.Say("page.drawing.title", map[string]any{"Title": r.Public.Title})
	size := ""
	if m := r.Public.Dimensions; m != nil {
		size = m.Text.In + ", " + m.Text.Cm
	}
	s.desc = o.Words.Say("page.drawing.desc", map[string]any{"Height": d.Height > 0, "Size": size})
	long, high := d.Length, d.Width
	if standing {
		long, high = max(long, d.Footprint[0]), max(high, d.Height)
	}
	s.rem = min(max(mostRem*min(0.58*long/high, 1), leastRem), mostRem)
	// The unit is letterRem of rem; the picture is the piece and its margins.
	beyond := func(texts ...string) float64 {
		most := 0.0
		for _, t := range texts {
			most = max(most, s.grow*textUnits(t))
		}
		return most
	}
	height, under := o.length(d.Width), ""
	if standing {
		height, under = o.length(d.Height), o.length(s.thickness)
	}
	s.grow = max(1, letterPhone*s.rem/phoneRem/letterRem)
	letters := s.rem / letterRem // of the picture's width
	for range 3 {                // the margins hang on the unit, and the unit on them
		left, right := 1.0, 3.2
		if standing && s.thickness > 0 {
			left = 1.8 + beyond(under)/2
		}
		if d.Round && !standing {
			right = 1
		}
		for _, y := range []float64{d.Width, d.Height} {
			if y > 0 && y < s.unit*beyond(o.length(d.Width), height)+s.unit && !(d.Round && y == d.Width) {
				right = max(right, 2.6+beyond(o.length(d.Width), height))
			}
		}
		s.unit = long / max(letters-left-right, letters/3)
		s.left, s.right = (d.Length-long)/2-left*s.unit, (d.Length+long)/2+right*s.unit
	}
	return s
}

// thickness is the top's as it stands among the facts, so that both are rounded
// alike.
func thickness(r *report.Report) float64 {
	if m := r.Public.Dimensions; m != nil && m.TopThickness != nil {
		return *m.TopThickness
	}
	return r.Drawing.Thickness
}

func (o *Options) length(mm float64) string {
	l := units.Length(mm)
	if o.Prefer.Metric() {
		return l.Text(o.Prefer)
	}
	return l.Text(units.Inches)
}

// view finishes a picture that reaches from y0 to y1.
func (s *plot) view(p *pen, y0, y1 float64) template.HTML {
	w := s.right - s.left
	return p.svg([4]float64{s.left, y0, w, y1 - y0}, s.title, s.desc)
}

// plan draws the outline as it is, the grain, and the overall size.
func (s *plot) plan() template.HTML {
	d, u := s.d, s.unit
	p := &pen{unit: u, grow: s.grow}
	top := &grain.Top{Outline: d.Outline, Length: d.Length, Width: d.Width, Direction: d.Grain}
	p.f(`<g%s>`, p.line(grainLine))
	for _, stroke := range top.Strokes(0.15 * u) {
		p.path(stroke, d.Width, false)
	}
	p.f(`</g><g%s>`, p.line(visibleLine))
	p.path(d.Outline, d.Width, true)
	p.f(`</g>`)
	above := -1.9 * u
	if d.Round {
		p.across(0, d.Length, above, d.Width/2, "⌀\u2009"+s.o.length(d.Length))
	} else {
		p.across(0, d.Length, above, 0, s.o.length(d.Length))
		p.up(0, d.Width, d.Length+2*u, d.Length, s.o.length(d.Width))
	}
	return s.view(p, above-0.4*u-s.grow*u, max(d.Width, shortSpan(d.Width, u))+0.5*u)
}

// shortSpan is how far the arrows of a short dimension reach from zero.
func shortSpan(y, u float64) float64 {
	if y < leastSpan*u {
		return y + 1.6*u
	}
	return y
}

// elevation draws the piece from the front: the top's edge, what hangs below it,
// and the room that the base takes, since its shape is not in the spec.
func (s *plot) elevation() template.HTML {
	d, u := s.d, s.unit
	p := &pen{unit: u, grow: s.grow}
	top := d.Height - d.BaseHeight
	if d.Thickness > 0 {
		top = d.Thickness
	}
	foot := [2]float64{(d.Length - d.Footprint[0]) / 2, (d.Length + d.Footprint[0]) / 2}
	left, right := min(0, foot[0]), max(d.Length, foot[1])
	for _, part := range d.Parts {
		if part.Length > 0 && part.BelowTop > 0 {
			p.rect((d.Length-part.Length)/2, top, part.Length, part.BelowTop, p.line(hiddenLine))
		}
	}
	p.segment(left-u, d.Height, right+u, d.Height, p.line(thinLine))
	if d.Footprint[0] > 0 {
		p.segment(foot[0], top, foot[0], d.Height, p.line(adjoiningLine))
		p.segment(foot[1], top, foot[1], d.Height, p.line(adjoiningLine))
	}
	p.rect(0, 0, d.Length, top, p.line(visibleLine))
	p.up(0, d.Height, right+2*u, right, s.o.length(d.Height))
	if s.thickness > 0 {
		p.up(0, top, left-1.6*u, left, s.o.length(s.thickness))
	}
	below := d.Height + 0.5*u
	if d.Footprint[0] > 0 {
		p.across(foot[0], foot[1], d.Height+2*u, d.Height, s.o.length(d.Footprint[0]))
		below = d.Height + 2.6*u
	}
	return s.view(p, -1.9*u-s.grow*u, below)
}

// path draws a line through points of the top, y turned downward.
func (p *pen) path(points [][2]float64, width float64, closed bool) {
	var b strings.Builder
	for i, q := range points {
		switch {
		case i == 0:
			b.WriteByte('M')
		case !closed && i%4 != 0 && i != len(points)-1:
			continue // a stroke has more points than a screen shows
		default:
			b.WriteByte('L')
		}
		b.WriteString(num(q[0]) + " " + num(width-q[1]))
	}
	if closed {
		b.WriteByte('z')
	}
	p.f(`<path d="%s"/>`, b.String())
}

func num(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }
