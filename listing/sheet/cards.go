package sheet

import (
	"net/url"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// layoutCare lays out the care card: A5, or half a letter; type up to a third
// larger than the sheet's, to be read at arm's length.
func layoutCare(d *doc) error {
	size := paperSizes[d.paper()]
	d.open(size[1]/2, size[0])
	d.left, d.right, d.top, d.bottom = 14, 12, 13, 17
	d.axis = 44
	d.footer = d.careFooter
	d.newPage()
	d.scale = 1.2
	for _, scale := range []float64{1.3, 1.25, 1.2, 1.15, 1.1} {
		if d.cardHeight(scale) <= d.room() {
			d.scale = scale // the largest type that needs no second side
			break
		}
	}
	d.place(d.cardLines())
	return nil
}

// cardHeight is how high the card's lines are at a scale.
func (d *doc) cardHeight(scale float64) float64 {
	was := d.scale
	d.scale = scale
	defer func() { d.scale = was }()
	return d.cardLines().height()
}

// cardLines are the title, the finish, the care, the cautions and the maker.
func (d *doc) cardLines() flow {
	p := &d.r.Public
	st := d.sized(lead)
	st.size *= 1.25
	if len(d.wrap(st, p.Title, d.measure())) > 2 {
		st = d.sized(lead)
	}
	var f flow
	for _, l := range d.wrap(st, p.Title, d.measure()) {
		f = append(f, line{height: 1.5 * d.step(), keep: true, draw: func(top float64) {
			d.text(d.axis, d.base(top)+0.25*d.step(), st, l)
		}})
	}
	what := ""
	if p.Finish != nil {
		what = capital(joined(p.Finish.Name, p.Finish.Product))
	}
	f = append(f, d.prose("", d.sized(slant), what, d.measure())...)
	f = append(f, d.careLines()...)
	f = append(f, d.cautionLines()...)
	f = append(f, d.gap(1))
	return append(f, d.contact()...)
}

// careFooter is the serial, and the page where there are several.
func (d *doc) careFooter(page, pages int) {
	p := &d.r.Public
	y := d.h - 9
	d.text(d.left, y, name, d.fit(name, p.Serial, d.axis-d.left-2))
	right := d.say("footer.page", "Page", page, "Pages", pages)
	d.text(d.axis, y, name, d.fit(name, p.Title, d.w-d.right-d.axis-d.width(name, right)-4))
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
	const code = 36.0
	// The quiet zone lets the code's own edge stand on the margin.
	if err := d.labelCode(w-d.right-code+3.5, h-d.bottom-code+3.5, code); err != nil {
		return err
	}
	d.labelText(w - d.left - d.right - code)
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
