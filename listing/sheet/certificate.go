package sheet

import (
	"math"
	"slices"
	"strings"

	"slabfolio/listing/drawing"
	"slabfolio/listing/spelling"
)

// layoutCertificate lays out one page that says who made the piece, of what and
// when, with its number and mark, and has a line to sign. It claims authorship and
// nothing more.
func layoutCertificate(d *doc) error {
	size := paperSizes[d.paper()]
	d.left, d.right, d.top, d.bottom, d.axis = 30, 30, 24, 24, 68
	d.open(size[0], size[1])
	d.footer = d.sheetFooter
	d.newPage()
	var words flow
	for d.scale = 1.15; d.scale > 0.6; d.scale -= 0.05 {
		words = append(d.certificateHead(), d.certificateFacts()...)
		if words.height()+d.leastPhoto(48)+d.signatureHeight() <= d.pageHeight() {
			break
		}
	}
	if len(d.o.Pictures) > 0 {
		p := d.o.Pictures[0]
		p.Caption = ""
		d.y += d.certificateDrop(p, words.height())
		if err := d.mainPhoto(p, words.height()+d.signatureHeight(), 48); err != nil {
			return err
		}
	} else {
		d.certificateDrawing(words.height())
	}
	d.place(words)
	d.signature()
	return nil
}

// certificateDrawing sets the drawing where there is no photo, and leaves room where
// there is none either.
func (d *doc) certificateDrawing(words float64) {
	d.y += 4 * d.lineHeight()
	if !d.drawable() {
		d.y += 2 * d.lineHeight()
		return
	}
	room := min(85, d.heightLeft()-words-d.signatureHeight()-3*d.lineHeight())
	a := d.fitIn(d.w-d.right-d.axis, room)
	if a.scale == 0 {
		return
	}
	d.figure(d.drawingAlt(a), func() { d.drawView(a.views, d.axis, d.y) })
	d.y = d.onGrid(d.y+a.h) + 3*d.lineHeight()
}

// certificateDrop is how far down the photo begins, where there is little to say: a
// third of what would be empty between the words and the signature, on the grid.
func (d *doc) certificateDrop(p Picture, words float64) float64 {
	photo := min(photoMost, d.columnWidth()*float64(p.Height)/float64(max(p.Width, 1)))
	empty := d.pageHeight() - words - d.signatureHeight() - photo - 2*d.lineHeight()
	return d.lineHeight() * math.Floor(max(0, empty)/3/d.lineHeight())
}

// certificateHead is what the page is, and the title.
func (d *doc) certificateHead() flow {
	f := flow{}
	kind := d.sized(headline)
	kind.color = d.accent
	f = append(f, line{height: 1.5 * d.lineHeight(), keep: true, part: d.element("P"), draw: func(top float64) { d.text(d.axis, d.baseline(top), kind, d.say(d.byWork("certificate.head"))) }})
	st := d.sized(title)
	lines := d.wrap(st, d.r.Public.Title, d.rowWidth())
	for step := 0; step < 2 && len(lines) > 1; step++ {
		st.size /= 1.25
		lines = d.wrap(st, d.r.Public.Title, d.rowWidth())
	}
	height := 0.42 * st.size
	heading := d.element("H1")
	for _, l := range lines {
		f = append(f, line{height: height, keep: true, part: heading, draw: func(top float64) { d.text(d.axis, top+0.7*height, st, l) }})
	}
	return append(f, d.gap(0.5))
}

// certificateFacts are what the piece is, and what the page claims.
func (d *doc) certificateFacts() flow {
	p := &d.r.Public
	var f flow
	row := func(id, text string) {
		if strings.TrimSpace(text) != "" {
			f = append(f, d.labelled(d.say("certificate."+id), d.sized(body), text, d.rowWidth())...)
		}
	}
	if p.Maker != nil {
		label := d.say("certificate.maker")
		if p.Worked() {
			label = d.makerLabel()
		}
		f = append(f, d.labelled(label, d.sized(body), spelling.Commas(p.Maker.Name, flat(p.Maker.Address)), d.rowWidth())...)
	}
	row("number", p.Serial)
	if p.Quantity > 1 {
		row("edition", d.say("certificate.edition.value", "Quantity", p.Quantity))
	}
	row("kind", spelling.Capital(p.KindIn(d.o.Words)))
	row("size", d.sizeInBoth())
	f = append(f, d.certificateMaterials()...)
	row("finished", d.day(p.Finished))
	row("mark", p.Mark)
	f = append(f, d.sealedLines()...)
	f = append(f, d.gap(1))
	return append(f, d.labelled("", d.sized(body), d.say(d.byWork("certificate.claim")), d.measure())...)
}

// byWork is the phrase of an id for what the workshop did to the piece: its own, where
// others made the piece and there is one.
func (d *doc) byWork(id string) string {
	if !d.r.Public.Worked() {
		return id
	}
	if own := id + "." + d.r.Public.Work; d.o.Words.Has("sheet." + own) {
		return own
	}
	return id + ".worked"
}

// makerLabel is what stands before the workshop's name.
func (d *doc) makerLabel() string {
	if !d.r.Public.Worked() {
		return d.say("name.maker")
	}
	return d.r.Public.WorkLabel(d.o.Words)
}

// sealedLines are the name and the checksum of the sealed record, in groups of eight
// as one reads them out.
func (d *doc) sealedLines() flow {
	s := d.r.Sealed
	if s == nil {
		return nil
	}
	var groups []string
	for group := range slices.Chunk([]byte(s.Sum), 8) {
		groups = append(groups, string(group))
	}
	runs := []run{{st: d.sized(body), text: d.say("certificate.sealed.value", "Name", s.Name) + " "}, {st: d.sized(small), text: strings.Join(groups, " ")}}
	return d.labelledRuns(d.say("certificate.sealed"), runs, d.rowWidth())
}

// sizeInBoth is the size of the whole piece in both systems.
func (d *doc) sizeInBoth() string {
	m := d.r.Public.Dimensions
	if m == nil {
		return ""
	}
	if d.prefer.Metric() {
		return spelling.Commas(m.Text.Cm, m.Text.In)
	}
	return spelling.Commas(m.Text.In, m.Text.Cm)
}

// size is the size of the whole piece in the preferred system.
func (d *doc) size() string {
	m := d.r.Public.Dimensions
	switch {
	case m == nil:
		return ""
	case d.prefer.Metric():
		return m.Text.Cm
	}
	return m.Text.In
}

// certificateMaterials are the woods, resins and the base, and the finish.
func (d *doc) certificateMaterials() flow {
	var f flow
	label := d.say("certificate.of")
	for _, l := range d.lists()[:3] {
		if l.tooLong() {
			text := d.say("material.more", "Count", len(l.entries), "Heading", l.heading)
			f = append(f, d.labelled(label, d.sized(body), spelling.Capital(text), d.rowWidth())...)
			label = ""
			continue
		}
		for _, e := range l.entries {
			f = append(f, d.labelledRuns(label, e.runs, d.rowWidth())...)
			label = ""
		}
	}
	if fin := d.r.Public.Finish; fin != nil {
		f = append(f, d.labelled(label, d.sized(body), spelling.Capital(fin.Called()), d.rowWidth())...)
	}
	return f
}

// signatureHeight is the room for the line to sign.
func (d *doc) signatureHeight() float64 { return 5 * d.lineHeight() }

// signature draws two lines at the foot, for name and for place and date.
func (d *doc) signature() {
	y := d.h - d.bottom - 1.5*d.lineHeight()
	between := 8.0
	width := (d.columnWidth() - between) / 2
	d.artifact(func() { d.setLine(drawing.Thin) })
	for i, id := range []string{d.byWork("certificate.sign"), "certificate.place"} {
		x := d.left + float64(i)*(width+between)
		d.artifact(func() { d.pdf.Line(x, y, x+width, y) })
		d.tagged(d.element("P"), func() { d.text(x, y+0.9*d.lineHeight(), d.sized(name), d.say(id)) })
	}
}
