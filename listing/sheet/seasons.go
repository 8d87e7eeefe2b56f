package sheet

import (
	"math"

	"slabfolio/listing/drawing"
)

// The chart is worth its room from a swing of so many millimetres on, and no wider
// than chartMost.
const (
	leastSwing = 2.5
	chartMost  = 72
)

// seasonLines are a small chart of the width through the year: the end of the
// heating season and the height of summer as they were reckoned, and an even swing
// between them. The seasons are named and not the months, which hang on the
// hemisphere.
func (d *doc) seasonLines(width float64) flow {
	if !d.hasSeasons() || width < 40 {
		return nil
	}
	m := d.r.Public.Movement
	x := d.axis
	width = min(width, chartMost)
	chart := line{height: 4 * d.lineHeight(), keep: true, draw: func(top float64) { d.figure(m.Text, func() { d.seasonChart(x, top, width) }) }}
	f := append(d.heading(d.say("head.seasons")), chart)
	note := d.say("seasons.note", "From", math.Round(m.FromRH), "To", math.Round(m.ToRH))
	f = append(f, d.plainAt(x, d.sized(name), note, width)...)
	for i := range f[:len(f)-1] {
		f[i].keep = true // a chart and its note are not cut
	}
	return f
}

// hasSeasons reports whether the piece moves enough for a chart.
func (d *doc) hasSeasons() bool {
	m := d.r.Public.Movement
	return m != nil && m.Moves != "" && m.Across >= leastSwing
}

// seasonChart draws one year from summer to summer: the upper line is the piece at
// its widest, the curve how far it is from that.
func (d *doc) seasonChart(x, top, width float64) {
	m := d.r.Public.Movement
	widest := d.say("seasons.widest")
	narrowest := "\u2212\u00a0" + m.Moves
	high := 1.6 * d.lineHeight()
	y0 := top + 1.1*d.lineHeight()
	st := d.sized(small)
	quietName := d.sized(name)
	axis := drawing.View{Strokes: []drawing.Stroke{{Line: drawing.Thin, Points: []drawing.Point{{0, 0}, {width, 0}}}}}
	curve := drawing.Stroke{Line: drawing.Visible}
	const steps = 60
	for i := range steps + 1 {
		turn := 2 * math.Pi * float64(i) / steps
		curve.Points = append(curve.Points, drawing.Point{width * float64(i) / steps, high * (1 - math.Cos(turn)) / 2})
	}
	axis.Strokes = append(axis.Strokes, curve)
	middle := width / 2
	axis.Arrows = []drawing.Arrow{{Tip: drawing.Point{middle, 0}, Toward: drawing.Point{0, -1}}, {Tip: drawing.Point{middle, high}, Toward: drawing.Point{0, 1}}}
	axis.Strokes = append(axis.Strokes, drawing.Stroke{Line: drawing.Thin, Points: []drawing.Point{{middle, 0}, {middle, high}}})
	d.drawView(axis, x, y0)
	d.text(x, y0-1, quietName, widest)
	d.textRight(x+width, y0-1, quietName, widest)
	d.text(x+middle-d.width(st, narrowest)/2, y0+high+0.9*d.lineHeight(), st, narrowest)
}
