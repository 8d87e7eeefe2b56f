package sheet

import (
	"strconv"
	"strings"

	"slabfolio/listing/drawing"
	"slabfolio/listing/spelling"
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
		d.say("drawing.scale", "Scale", d.scaleText(scale)),
		d.say("drawing.units", "First", unit(d.prefer), "Second", unit(d.second())),
	}
	if g.Grain != "" && d.o.Words.Has("sheet.drawing.grain."+g.Grain) {
		notes = append(notes, d.say("drawing.grain."+g.Grain))
	}
	if n := len(g.Widths); n >= 2 && n <= mostWidths {
		var all []string
		for _, w := range g.Widths {
			all = append(all, d.number(units.Length(w).Number(d.prefer)))
		}
		notes = append(notes, d.say("drawing.widths", "Widths", d.o.Words.List(all), "Unit", string(d.prefer)))
	}
	for _, p := range g.Parts {
		if n := g.Drawn(p); drawing.Standing(g) && n < p.Count {
			notes = append(notes, d.say("drawing.one-of", "Part", p.Name, "Count", p.Count))
		}
	}
	return append(notes, d.baseNotes()...)
}

// scaleText is a scale as the language writes it: "1:12.5", "1:12,5".
func (d *doc) scaleText(scale float64) string {
	return "1:" + d.number(strconv.FormatFloat(scale, 'f', -1, 64))
}

// baseNotes say how the base is drawn: by the maker's words and sections, or as
// the room it takes.
func (d *doc) baseNotes() []string {
	g := &d.r.Drawing
	if !drawing.Standing(g) || g.Footprint[0] <= 0 {
		return nil
	}
	if g.Base.Form == "" {
		return []string{d.say("drawing.envelope", "Style", g.Base.Style)}
	}
	turned := g.Base.Turned && g.Base.Form != drawing.Pedestal
	return []string{d.say("drawing.sections", "Style", g.Base.Style, "Turned", turned)}
}

// noteLines are the notes as they are set: each on its own lines in the margin,
// one after the other where there is room for a whole measure.
func (d *doc) noteLines(scale, width float64) []string {
	notes := d.drawingNotes(scale)
	if width >= d.measure() {
		for i := range notes[1:] {
			notes[i+1] = spelling.Capital(notes[i+1])
		}
		notes = []string{strings.Join(notes, ". ") + "."}
		width -= symbolRoom
	}
	var lines []string
	for _, s := range notes {
		lines = append(lines, d.wrap(name, spelling.Capital(s), width)...)
	}
	return lines
}

// The symbol of the projection stands right of the notes, or below them in the
// margin.
const (
	symbolHigh = 4.5
	symbolRoom = 2.5*symbolHigh + 4
)

// projected reports whether more than one view is placed by projection.
func (d *doc) projected() bool { return d.r.Drawing.Thickness > 0 }

// noteHeight is what the notes take at most, at any scale.
func (d *doc) noteHeight(width float64) float64 {
	k := notesOf{d.r, width}
	h, ok := d.known.notes[k]
	if !ok {
		h = d.measuredNotes(width)
		d.known.notes[k] = h
	}
	return h
}

func (d *doc) measuredNotes(width float64) float64 {
	n := len(d.noteLines(scales[len(scales)-1], width))
	if share := d.r.Drawing.ResinShare; share > 0 && share <= 1 {
		n += 1 + len(d.wrap(name, d.resinNote(share), width))
	}
	if d.projected() {
		if width < d.measure() {
			n += 2
		}
		n = max(n, 2)
	}
	return float64(n) * d.lineHeight()
}

// notes sets the notes from top down, below them the resin's share, and the
// symbol of the projection.
func (d *doc) notes(a arrangement, x, top, width float64) {
	first := top
	d.tagged(d.element("P"), func() {
		lines := d.noteLines(a.scale, width)
		for i, l := range lines {
			d.text(x, d.baseline(top), name, goingOn(l, i, len(lines)))
			top += d.lineHeight()
		}
	})
	if share := d.r.Drawing.ResinShare; share > 0 && share <= 1 {
		top = d.resinStrip(share, x, top, width)
	}
	if !d.projected() || a.inRow {
		return
	}
	symbol := drawing.ThirdAngle(symbolHigh)
	if width < d.measure() {
		d.drawView(symbol, x+1, top+1.5)
		return
	}
	d.drawView(symbol, x+width-2.5*symbolHigh-1, first+1.2)
}

func (d *doc) resinNote(share float64) string {
	return d.say("drawing.resin", "Share", strconv.FormatFloat(share*100, 'f', 0, 64), "Seen", len(d.r.Drawing.Resin) > 0)
}

// resinStrip is a strip of 24 by 2.4 mm, tinted as far as the resin's share of
// the face; where it is known where the resin lies, it is the key to the plan's
// tint too. It returns where the next line begins.
func (d *doc) resinStrip(share, x, top, width float64) float64 {
	const w, h = 24, 2.4
	y := d.baseline(top) - h + 0.3
	d.artifact(func() {
		d.pdf.SetFillColor(tintGrey, tintGrey, tintGrey)
		d.pdf.Rect(x, y, w*share, h, "F")
		d.setLine(drawing.Thin)
		d.pdf.Rect(x, y, w, h, "D")
	})
	d.tagged(d.element("P"), func() {
		lines := d.wrap(name, d.resinNote(share), width)
		for i, l := range lines {
			top += d.lineHeight()
			d.text(x, d.baseline(top), name, goingOn(l, i, len(lines)))
		}
	})
	return top + d.lineHeight()
}
