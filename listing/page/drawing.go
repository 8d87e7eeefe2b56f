package page

import (
	"html/template"
	"strconv"
	"strings"
	"unicode/utf8"

	"slabfolio/listing/drawing"
	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// A figure is the views of the piece as inline SVG in the text's colour, all to
// one scale.
type figure struct{ Views []figureView }

type figureView struct {
	SVG     template.HTML
	Caption string
	Rem     string // how wide the view is where there is room, in rem
	Share   string // of the widest view, in percent: as wide as that of the column where there is less room
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

// letter is the size of a letter in the millimetres of a view: 8 points.
const letter = 8 * 25.4 / 72

// A plot is what the views share.
type plot struct {
	options     *drawing.Options
	title, desc string
	rem         float64 // how wide they are set
	grow        float64 // how much larger the letters are on a phone
	left, right float64 // the extent along x of every picture
}

// drawPiece returns the views of the piece, or nil where there is no outline.
func drawPiece(r *report.Report, o *Options) *figure {
	d := &r.Drawing
	if len(d.Outline) < 3 || d.Length <= 0 || d.Width <= 0 {
		return nil
	}
	standing := d.Height > 0 && d.BaseHeight > 0 && d.Thickness > 0 && d.Footprint[0] > 0 && d.Footprint[1] > 0
	s := newPlot(r, o, standing)
	caption := o.Words.Say("page.plan", nil)
	if d.ResinShare > 0 {
		caption += ". " + o.Words.Say("page.drawing.resin", map[string]any{"Share": strconv.FormatFloat(d.ResinShare*100, 'f', 0, 64), "Seen": len(d.Resin) > 0})
	}
	out := &figure{}
	add := func(v drawing.View, caption string) {
		left, right := s.extent(v)
		share := (right - left + letter) / (s.right - s.left + letter)
		out.Views = append(out.Views, figureView{s.svg(v, left, right), caption, short1(s.rem * share), short1(100 * share)})
	}
	add(drawing.Plan(d, s.options), caption)
	if standing {
		id := "page.elevation"
		if d.Round {
			id = "page.elevation-round"
		}
		caption := o.Words.Say(id, nil)
		if d.Footprint[0] > 0 {
			id := "page.drawing.base"
			if d.Base.Form != "" {
				id = "page.drawing.sections"
			}
			caption += ". " + o.Words.Say(id, nil)
		}
		for _, p := range d.Parts {
			if d.Drawn(p) < p.Count && drawing.Standing(d) {
				caption = strings.TrimRight(caption, ".") + ". " + spelling.Capital(o.Words.Say("sheet.drawing.one-of", map[string]any{"Part": p.Name, "Count": p.Count})) + "."
			}
		}
		if front := drawing.Front(d, s.options); len(front.Strokes) > 0 {
			add(front, caption)
		}
		if end := drawing.End(d, s.options); len(end.Strokes) > 0 {
			add(end, o.Words.Say("page.end", nil))
		}
	} else if edge := drawing.Front(d, s.options); len(edge.Strokes) > 0 && !drawing.Standing(d) { // of a board
		add(edge, o.Words.Say("page.edge", nil))
	}
	return out
}

// newPlot finds the scale at which letters come out in their size, and the room
// that dimensions take left and right, so that the views stand under each other.
func newPlot(r *report.Report, o *Options, standing bool) *plot {
	d := &r.Drawing
	s := &plot{title: o.Words.Say("page.drawing.title", map[string]any{"Title": r.Public.Title})}
	size := ""
	if m := r.Public.Dimensions; m != nil {
		size = m.Text.In + ", " + m.Text.Cm
	}
	s.desc = o.Words.Say("page.drawing.desc", map[string]any{"Height": standing || d.Thickness > 0 && !drawing.Standing(d), "Size": size})
	long, high := d.Length, d.Width
	if standing {
		long, high = max(long, d.Footprint[0]), max(high, d.Height)
	}
	s.rem = min(max(mostRem*min(0.58*long/high, 1), leastRem), mostRem)
	s.grow = max(1, letterPhone*s.rem/phoneRem/letterRem)
	width := letter * s.rem / letterRem
	s.options = &drawing.Options{
		Scale: long / width, Thickness: thickness(r), Length: o.length,
		TextWidth: func(text string) float64 { return letter * s.grow * textUnits(text) },
	}
	for range 4 { // the margins hang on the scale, and the scale on them
		s.measure(d, standing)
		margins := s.right - s.left + letter - long/s.options.Scale
		s.options.Scale = long / max(width-margins, width/3)
	}
	s.measure(d, standing)
	return s
}

// measure finds how far the views reach at the plot's scale.
func (s *plot) measure(d *drawing.Piece, standing bool) {
	upper, lower := s.bounds(drawing.Plan(d, s.options))
	s.left, s.right = upper[0], lower[0]
	if front := drawing.Front(d, s.options); len(front.Strokes) > 0 && (standing || !drawing.Standing(d)) {
		upper, lower = s.bounds(front)
		s.left, s.right = min(s.left, upper[0]), max(s.right, lower[0])
	}
}

// extent is how far the picture of a view reaches: as far as those of plan and
// front, which stand under each other; the end's, which is narrower, for itself.
func (s *plot) extent(v drawing.View) (left, right float64) {
	upper, lower := s.bounds(v)
	if lower[0]-upper[0] < (s.right-s.left)*0.7 {
		return upper[0], lower[0]
	}
	return s.left, s.right
}

func (s *plot) bounds(v drawing.View) (upper, lower drawing.Point) {
	return v.Bounds(letter*s.grow, s.options.TextWidth)
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
		return o.Words.Number(l.Text(o.Prefer))
	}
	return l.Text(units.Inches)
}

// textUnits is about how wide a text is, in letters' sizes.
func textUnits(s string) float64 {
	return 0.58*float64(utf8.RuneCountInString(s)) + 0.38*float64(strings.Count(s, "m"))
}
