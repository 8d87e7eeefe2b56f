package sheet

import (
	"net/url"
	"slices"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// layoutCare lays out the care card: A5, or half a letter, with type up to a
// third larger than the sheet's, to be read at arm's length. What one side
// cannot hold is parted in two, where that lets the type be largest: the care in
// front, its last paragraphs and the cautions on the back.
func layoutCare(d *doc) error {
	size := paperSizes[d.paper()]
	d.open(size[1]/2, size[0])
	d.left, d.right, d.top, d.bottom = 14, 14, 13, 17
	d.axis = d.left
	d.footer = d.careFooter
	d.newPage()
	care := len(d.r.Public.Care)
	sizes := []float64{1.35, 1.3, 1.25, 1.2, 1.15, 1.1}
	for _, d.between = range []float64{0.3, 0} {
		for _, d.scale = range sizes {
			if all := append(d.cardFront(care), d.cardBack(care)...); all.height() <= d.room() {
				d.place(all)
				return nil
			}
		}
	}
	d.between = 0.3
	for _, d.scale = range sizes {
		// As much of the care as fits in front, what is left over the cautions.
		n := care
		for n > 0 && d.cardFront(n).height() > d.room() {
			n--
		}
		if back := d.cardBack(n); 2*n >= care && back.height() <= d.room() {
			d.place(d.cardFront(n))
			d.newPage()
			d.place(back)
			return nil
		}
	}
	d.scale = 1.15
	d.place(d.cardFront(care))
	d.newPage()
	d.place(d.cardBack(care))
	return nil
}

// cardFront is the title, the finish and the first n paragraphs of the care.
func (d *doc) cardFront(n int) flow {
	p := &d.r.Public
	width := d.w - d.left - d.right
	st := d.sized(lead)
	st.size *= 1.25
	if len(d.wrap(st, p.Title, width)) > 2 {
		st = d.sized(lead)
	}
	var f flow
	for _, l := range d.wrap(st, p.Title, width) {
		f = append(f, line{height: 1.5 * d.step(), keep: true, draw: func(top float64) {
			d.text(d.left, d.base(top)+0.25*d.step(), st, l)
		}})
	}
	if p.Finish != nil {
		f = append(f, d.prose("", d.sized(slant), capital(p.Finish.Called()), width)...)
	}
	f = append(f, d.heading(d.say("head.care"))...)
	if len(p.Care) == 0 {
		return append(f, d.runIn("", d.say("care.none"), width)...)
	}
	return append(f, d.spaced(p.Care[:n], width)...)
}

// cardBack is the care after the first n paragraphs, the cautions and the maker.
func (d *doc) cardBack(n int) flow {
	width := d.w - d.left - d.right
	p := &d.r.Public
	f := d.spaced(p.Care[n:], width)
	if len(p.Cautions) > 0 {
		f = slices.Concat(f, d.heading(d.say("head.cautions")), d.spaced(p.Cautions, width))
	}
	return slices.Concat(f, flow{d.gap(1)}, d.contact(width))
}

// spaced are paragraphs with a little room between, where there is some: a card
// is looked at on the wall, and has no second column to keep lines with.
func (d *doc) spaced(all []report.Paragraph, width float64) flow {
	var f flow
	for i, p := range all {
		if i > 0 {
			f = append(f, d.gap(d.between))
		}
		f = append(f, d.runIn(d.paragraphName(p), p.Text, width)...)
	}
	return f
}

// careFooter is the serial, and the page where there are several.
func (d *doc) careFooter(page, pages int) {
	p := &d.r.Public
	y := d.h - 9
	right := d.say("footer.page", "Page", page, "Pages", pages)
	d.text(d.left, y, name, d.fit(name, joined(p.Serial, p.Title), d.w-d.right-d.left-d.width(name, right)-4))
	if pages > 1 {
		d.textRight(d.w-d.right, y, name, right)
	}
}

// layoutLabel lays out the workshop label: A6, or a quarter of a letter. The
// serial fills the width. Letters of 1/200 of the distance can be read (common
// practice, from memory), so 10 mm are enough at two metres; the usual serial
// comes out at twice that.
func layoutLabel(d *doc) error {
	size := paperSizes[d.paper()]
	w, h := 148.0, 105.0 // ISO 216 A6
	if d.paper() == "letter" {
		w, h = size[1]/2, size[0]/2
	}
	d.left, d.right, d.top, d.bottom = 9, 9, 8, 9
	d.axis = d.left
	d.open(w, h)
	d.newPage()
	d.labelSerial(w - d.left - d.right)
	// The quiet zone lets the code's own edge stand on the margin.
	if err := d.labelCode(w-d.right-codeSide+3.5, h-d.bottom-codeSide+3.5, codeSide); err != nil {
		return err
	}
	d.labelText(w - d.left - d.right - codeSide)
	return nil
}

// labelSerial sets the serial as large as fits, on several lines where it is
// longer than a label is wide.
func (d *doc) labelSerial(width float64) {
	const largest, least = 92, 30
	st := style{bold, largest, black}
	if w := d.width(st, d.r.Public.Serial); w > width {
		st.size = max(0.995*st.size*width/w, least)
	}
	for _, l := range d.wrap(st, d.r.Public.Serial, width) {
		d.y += 0.74 * st.size * pt // the height of capitals, and a hair
		d.text(d.left, d.y, st, l)
		d.y += 0.2 * st.size * pt
	}
	d.y += 2
}

// labelText is the title, the size and weight, and at the foot the maker's
// contact; what does not fit beside the code goes on to a second label.
func (d *doc) labelText(width float64) {
	p := &d.r.Public
	st := style{serif, sizeLarge * 1.25, black}
	titles := d.wrap(st, p.Title, d.w-d.left-d.right)
	if over := d.y + 1.5*grid*float64(len(titles)); len(titles) > 2 || over > d.h-d.bottom-width/2 {
		st.size = sizeLarge
		titles = d.wrap(st, p.Title, width)
	}
	var f flow
	for _, l := range titles {
		f = append(f, line{height: 1.5 * grid, draw: func(top float64) { d.text(d.left, top+1.1*grid, st, l) }})
	}
	add := func(s string) {
		for _, l := range d.wrap(lead, s, width) {
			f = append(f, line{height: 1.25 * grid, draw: func(top float64) { d.text(d.left, top+0.95*grid, lead, l) }})
		}
	}
	if m := p.Dimensions; m != nil {
		first, second := m.Text.In, m.Text.Cm
		if d.prefer.Metric() {
			first, second = second, first
		}
		add(first)
		add(second)
	}
	if w := p.Weight; w != nil {
		lb, kg := units.Mass(w.Kg).TextLb(), units.Mass(w.Kg).TextKg()
		if w.Weighed != nil {
			t := w.OnScale()
			lb, kg = t.Lb, t.Kg
		}
		if d.prefer.Metric() {
			lb, kg = kg, lb
		}
		add(joined(lb, kg))
	}
	var contact flow
	for _, c := range contactLines(p.Maker) {
		contact = append(contact, d.plainLines(small, c, width)...)
	}
	d.place(f)
	if free := d.room() - contact.height(); free > 0 {
		d.y += free // the contact stands at the foot
	}
	d.place(contact)
}

// plainLines wraps text from the left margin.
func (d *doc) plainLines(st style, text string, width float64) flow {
	var f flow
	for _, l := range d.wrap(st, text, width) {
		f = append(f, line{height: d.step(), draw: func(top float64) { d.text(d.left, d.base(top), st, l) }})
	}
	return f
}

// codeText is what the QR code says: where the listing is, or who the piece is.
func codeText(r *report.Report) string {
	p := &r.Public
	if r.BaseURL != "" {
		if u, err := url.JoinPath(r.BaseURL, p.Serial); err == nil {
			return u
		}
	}
	s := p.Serial + "\n" + p.Title
	if p.Maker != nil && p.Maker.Name != "" {
		s += "\n" + p.Maker.Name
	}
	return s
}

// sizeText is the three sizes of a package in a system.
func sizeText(s units.System, p report.Package) string {
	switch {
	case s == units.Inches && p.Text.In != "":
		return p.Text.In // whole inches, rounded up from the package and not from its centimetres
	case s == units.Centimetres && p.Text.Cm != "":
		return p.Text.Cm
	}
	return units.Sizes(s, units.Length(p.Length), units.Length(p.Width), units.Length(p.Height))
}
