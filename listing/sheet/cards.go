package sheet

import (
	"net/url"
	"slices"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// layoutCare lays out the care card: A5, or half a letter, with type up to a
// third larger than the sheet's, to be read at arm's length. What one side
// cannot hold is parted in two: the care in front, the cautions on the back.
func layoutCare(d *doc) error {
	size := paperSizes[d.paper()]
	d.open(size[1]/2, size[0])
	d.left, d.right, d.top, d.bottom = 14, 14, 13, 17
	d.axis = d.left
	d.footer = d.careFooter
	d.newPage()
	largest := func(fits func() bool) bool {
		for _, d.scale = range []float64{1.3, 1.25, 1.2, 1.15, 1.1} {
			if fits() {
				return true
			}
		}
		return false
	}
	room := d.room()
	if largest(func() bool { return append(d.cardFront(), d.cardBack()...).height() <= room }) {
		d.place(append(d.cardFront(), d.cardBack()...))
		return nil
	}
	if !largest(func() bool { return d.cardFront().height() <= room && d.cardBack().height() <= room }) {
		d.scale = 1.2
	}
	d.place(d.cardFront())
	d.newPage()
	d.place(d.cardBack())
	return nil
}

// cardFront is the title, the finish and the care.
func (d *doc) cardFront() flow {
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
	return append(f, d.careLines(width)...)
}

// cardBack is the cautions and the maker.
func (d *doc) cardBack() flow {
	width := d.w - d.left - d.right
	return slices.Concat(d.cautionLines(width), flow{d.gap(1)}, d.contact(width))
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
			lb, kg = units.Mass(*w.Weighed).TextLb(), units.Mass(*w.Weighed).TextKg()
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
	return units.Sizes(s, units.Length(p.Length), units.Length(p.Width), units.Length(p.Height))
}
