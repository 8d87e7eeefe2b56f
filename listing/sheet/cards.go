package sheet

import (
	"net/url"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// layoutCare lays out the care card: A5, or half a letter; type a fifth larger
// than the sheet's, to be read at arm's length.
func layoutCare(d *doc) error {
	size := paperSizes[d.paper()]
	d.open(size[1]/2, size[0])
	d.scale = 1.2
	d.left, d.right, d.top, d.bottom = 14, 12, 14, 18
	d.axis = 44
	d.footer = d.careFooter
	d.newPage()
	p := &d.r.Public
	st := d.sized(lead)
	st.size *= 1.25
	var f flow
	for _, l := range d.wrap(st, p.Title, d.w-d.right-d.axis) {
		f = append(f, line{height: 1.5 * d.step(), keep: true, draw: func(top float64) {
			d.text(d.axis, d.base(top), st, l)
		}})
	}
	what := ""
	if p.Finish != nil {
		what = capital(joined(p.Finish.Name, p.Finish.Product))
	}
	f = append(f, d.prose(d.say("name.finish"), d.sized(slant), what, d.w-d.right-d.axis)...)
	f = append(f, d.careLines()...)
	f = append(f, d.cautionLines()...)
	d.place(f)
	return nil
}

func (d *doc) careFooter(page, pages int) {
	p := &d.r.Public
	maker := strings.Join(makerContact(p.Maker), ", ")
	y := d.h - 9
	left := d.say("care.footer", "Serial", p.Serial, "Maker", maker)
	d.text(d.left, y, name, d.fit(name, left, d.w-d.left-d.right-14))
	if pages > 1 {
		d.textRight(d.w-d.right, y, name, d.say("footer.page", "Page", page, "Pages", pages))
	}
}

// layoutLabel lays out the workshop label: A6, or a quarter of a letter. The
// serial is as large as the width allows, up to letters 14 mm high, which read
// well at two metres (about 1/200 of the distance is the least; common practice,
// from memory).
func layoutLabel(d *doc) error {
	size := paperSizes[d.paper()]
	d.open(size[0]/2*1.4142, size[0]/2)
	if d.paper() == "letter" {
		d.open(size[1]/2, size[0]/2)
	}
	d.left, d.right, d.top, d.bottom = 9, 9, 9, 9
	d.axis = d.left
	d.newPage()
	p := &d.r.Public
	st := style{bold, 56, black}
	if w := d.width(st, p.Serial); w > d.w-d.left-d.right {
		st.size = max(st.size*(d.w-d.left-d.right)/w, 14)
	}
	d.y += 0.75 * st.size * pt
	for _, l := range d.wrap(st, p.Serial, d.w-d.left-d.right) {
		d.text(d.left, d.y, st, l)
		d.y += st.size * pt
	}
	d.y += 1
	const code = 34.0
	text := d.w - d.left - d.right - code - 5
	if err := d.labelCode(d.w-d.right-code, d.h-d.bottom-code, code); err != nil {
		return err
	}
	d.labelText(text)
	return nil
}

// labelText is the title, the size and weight, and the maker's contact.
func (d *doc) labelText(width float64) {
	p := &d.r.Public
	var f flow
	for _, l := range d.wrap(lead, p.Title, width) {
		f = append(f, line{height: 1.25 * grid, draw: func(top float64) { d.text(d.left, d.base(top), lead, l) }})
	}
	if m := p.Dimensions; m != nil {
		a, b := m.Text.In, m.Text.Cm
		if d.prefer.Metric() {
			a, b = b, a
		}
		f = append(f, d.plainLines(body, joined(a, b), width)...)
	}
	if w := p.Weight; w != nil {
		r := d.massPair("weight", w.Text.Lb, w.Text.Kg)
		f = append(f, d.plainLines(body, r.first, width)...)
		f = append(f, d.plainLines(body, r.second, width)...)
	}
	contact := flow{}
	for _, c := range makerContact(p.Maker) {
		contact = append(contact, d.plainLines(small, c, width)...)
	}
	d.place(f)
	// The contact stands at the foot; where there is no room it follows on.
	if free := d.room() - contact.height(); free > 0 {
		d.y += free
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
