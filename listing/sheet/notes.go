package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"slabfolio/listing/units"
)

// mostWidths are as many widths of the top as the notes hold; more of them are
// a matter for report.json.
const mostWidths = 9

// drawingNotes are what the drawing says in words.
func (d *doc) drawingNotes(scale float64) []string {
	g := &d.r.Drawing
	unit := func(s units.System) string { return d.say("drawing.unit." + string(s)) }
	notes := []string{
		d.say("drawing.scale", "Scale", fmt.Sprintf("1:%g", scale)),
		d.say("drawing.units", "First", unit(d.prefer), "Second", unit(d.second())),
	}
	if g.Grain != "" && d.o.Words.Has("sheet.drawing.grain."+g.Grain) {
		notes = append(notes, d.say("drawing.grain."+g.Grain))
	}
	if n := len(g.Widths); n >= 2 && n <= mostWidths {
		var all []string
		for _, w := range g.Widths {
			all = append(all, units.Length(w).Number(d.prefer))
		}
		notes = append(notes, d.say("drawing.widths", "Widths", strings.Join(all, ", "), "Unit", string(d.prefer)))
	}
	if g.Height > g.Thickness && g.Footprint[0] > 0 {
		notes = append(notes, d.say("drawing.envelope"))
	}
	return notes
}

// noteLines are the notes as they are set: each on its own lines in the margin,
// one after the other where there is room for the whole measure.
func (d *doc) noteLines(scale, width float64) []string {
	notes := d.drawingNotes(scale)
	if width >= d.measure() {
		notes = []string{joined(notes...)}
	}
	var lines []string
	for _, s := range notes {
		lines = append(lines, d.wrap(name, capital(s), width)...)
	}
	return lines
}

// noteHeight is what the notes take at most, at any scale.
func (d *doc) noteHeight(width float64) float64 {
	n := len(d.noteLines(scales[len(scales)-1], width))
	if share := d.r.Drawing.ResinShare; share > 0 && share <= 1 {
		n += 1 + len(d.wrap(name, d.resinNote(share), width))
	}
	return float64(n) * d.lineHeight()
}

// notes sets the notes from top down, and below them the resin's share.
func (d *doc) notes(scale, x, top, width float64) {
	for _, l := range d.noteLines(scale, width) {
		d.text(x, d.baseline(top), name, l)
		top += d.lineHeight()
	}
	if share := d.r.Drawing.ResinShare; share > 0 && share <= 1 {
		d.resinStrip(share, x, top, width)
	}
}

func (d *doc) resinNote(share float64) string {
	return d.say("drawing.resin", "Share", strconv.FormatFloat(share*100, 'f', 0, 64))
}

// resinStrip is a strip of 24 by 2.4 mm, tinted as far as the resin's share of
// the face: where it lies is not known, so the plan has no tint. 12 % black is a
// solid colour here, since PDF/A-1 knows no transparency.
func (d *doc) resinStrip(share, x, top, width float64) {
	const w, h = 24, 2.4
	y := d.baseline(top) - h + 0.3
	d.pdf.SetFillColor(224, 224, 224)
	d.pdf.Rect(x, y, w*share, h, "F")
	d.pdf.SetDashPattern(nil, 0)
	d.pdf.SetLineWidth(lineThin)
	d.pdf.Rect(x, y, w, h, "D")
	for _, l := range d.wrap(name, d.resinNote(share), width) {
		top += d.lineHeight()
		d.text(x, d.baseline(top), name, l)
	}
}
