package sheet

import "slabfolio/listing/spelling"

// layoutLabel lays out the workshop label, and the buyer's tag after it: A6, or a
// quarter of a letter. The workshop's is for the shelf and the packing: the serial
// fills the width. Letters of 1/200 of the distance can be read (common
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
	return d.layoutTag()
}

// labelSerial sets the serial as large as fits, on several lines where it is
// longer than a label is wide.
func (d *doc) labelSerial(width float64) {
	const largest, least = 92, 30
	st := style{bold, largest, black}
	if w := d.width(st, d.r.Public.Serial); w > width {
		st.size = max(0.995*st.size*width/w, least)
	}
	serial := d.element("H1")
	for _, l := range d.wrap(st, d.r.Public.Serial, width) {
		d.y += 0.74 * st.size * pt // the height of capitals, and a hair
		d.tagged(serial, func() { d.text(d.left, d.y, st, l) })
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
	heading := d.element("P")
	var f flow
	for _, l := range titles {
		f = append(f, line{height: 1.5 * grid, part: heading, draw: func(top float64) { d.text(d.left, top+1.1*grid, st, l) }})
	}
	add := func(s string) {
		part := d.element("P")
		for _, l := range d.wrap(headline, s, width) {
			f = append(f, line{height: 1.25 * grid, part: part, draw: func(top float64) { d.text(d.left, top+0.95*grid, headline, l) }})
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
		lb, kg := w.Text.Values()
		if d.prefer.Metric() {
			lb, kg = kg, lb
		}
		text := spelling.Commas(lb, kg)
		if w.Weighed == nil {
			text = d.o.Words.Say("paste.about", map[string]any{"Weight": text})
		}
		add(text)
	}
	var contact flow
	if p.Composite != "" {
		contact = append(contact, d.plainLines(small, p.Composite, width)...)
	}
	for _, c := range contactLines(p.Maker) {
		contact = append(contact, d.plainLines(small, c, width)...)
	}
	d.place(f)
	if free := d.heightLeft() - contact.height(); free > 0 {
		d.y += free // the contact stands at the foot
	}
	d.place(contact)
}

// plainLines wraps text from the left margin.
func (d *doc) plainLines(st style, text string, width float64) flow {
	return d.plainAt(d.left, st, text, width)
}

// plainAt wraps text from x.
func (d *doc) plainAt(x float64, st style, text string, width float64) flow {
	part := d.element("P")
	var f flow
	lines := d.wrap(st, text, width)
	for i, l := range lines {
		f = append(f, line{height: d.lineHeight(), part: part, draw: func(top float64) { d.text(x, d.baseline(top), st, goingOn(l, i, len(lines))) }})
	}
	return f
}
