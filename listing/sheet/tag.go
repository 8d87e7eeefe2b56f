package sheet

import (
	"cmp"

	"rsc.io/qr"

	"slabfolio/listing/drawing"
	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// A tag says what a buyer looks for first: the title, of what wood, how big, what it
// costs; then who made it, and the serial small. tagBox is where it stands on a
// page, in millimetres.
type tagBox struct{ x, y, w, h float64 }

// layoutTag is the buyer's tag as the second page of the label: the photo small, or
// the drawing.
func (d *doc) layoutTag() error {
	d.newPage()
	box := tagBox{d.left, d.top, d.w - d.left - d.right, d.h - d.top - d.bottom}
	picture := box.w * 0.42
	if len(d.o.Pictures) > 0 {
		p := d.o.Pictures[0]
		w, h := picture, picture*float64(p.Height)/float64(max(p.Width, 1))
		if h > box.h {
			w, h = w*box.h/h, box.h
		}
		if err := d.picture(p, box.x, box.y, w, h); err != nil {
			return err
		}
		box.x, box.w = box.x+w+6, box.w-w-6
	} else if d.drawable() {
		if a := d.fitIn(picture, box.h); a.scale > 0 {
			d.figure(d.drawingAlt(a), func() { d.drawView(a.views, box.x, box.y) })
			box.x, box.w = box.x+picture+6, box.w-picture-6
		}
	}
	d.tag(d.r, box, 22)
	return nil
}

// fitIn is the drawing at the largest scale that a box holds, with its figures clear of
// each other; its scale is 0 where none does.
func (d *doc) fitIn(w, h float64) arrangement {
	for _, scale := range scales {
		for _, a := range d.arranged(scale) {
			if a.w <= w && a.h <= h && !d.crowded(a.views.Labels) {
				return a
			}
		}
	}
	return arrangement{}
}

// crowded reports whether two labels of a drawing stand on each other, as they do where
// it is drawn very small.
func (d *doc) crowded(labels []drawing.Label) bool {
	type box struct{ x0, y0, x1, y1 float64 }
	var all []box
	for _, l := range labels {
		wide, high := d.width(small, l.Text), 0.7*small.size*pt
		before := wide * l.Anchor.Share()
		b := box{l.At[0] - before, l.At[1] - high, l.At[0] - before + wide, l.At[1]}
		if l.Upward {
			b = box{l.At[0] - high, l.At[1] + before - wide, l.At[0], l.At[1] + before}
		}
		for _, o := range all {
			if min(b.x1, o.x1) > max(b.x0, o.x0) && min(b.y1, o.y1) > max(b.y0, o.y0) {
				return true
			}
		}
		all = append(all, b)
	}
	return false
}

// tag sets a tag into a box at the largest type that holds all of it; where even
// the smallest does not, it leaves out the finish, then the size, then the wood.
// A code of the given side stands in the lower right corner where the listing has an
// address.
func (d *doc) tag(r *report.Report, box tagBox, side float64) {
	was := *d
	defer func() { d.r, d.scale, d.axis, d.left, d.y = was.r, was.scale, was.axis, was.left, was.y }()
	d.r, d.axis, d.left = r, box.x, box.x
	code, err := qr.Encode(r.PageAddress(), qr.M)
	hasCode := err == nil && r.PageAddress() != "" && side >= 12
	var f, foot flow
fit:
	for rank := 3; rank >= 0; rank-- {
		for d.scale = 1.6; d.scale > 0.55; d.scale -= 0.05 {
			f = d.tagFlow(rank, box.w)
			width := box.w
			if hasCode {
				width -= side
			}
			foot = d.tagFoot(width)
			bottom := foot.height()
			if hasCode {
				bottom = max(bottom, side-2)
			}
			if f.height()+bottom <= box.h {
				break fit
			}
		}
	}
	d.y = box.y
	for _, l := range f {
		if draw := d.painter(l); draw != nil {
			draw(d.y)
		}
		d.y += l.height
	}
	if hasCode {
		zone := side * quietZone / float64(code.Size+2*quietZone)
		d.figure(d.say("code.alt", "Text", r.PageAddress()), func() { d.drawCode(code, box.x+box.w-side+zone, box.y+box.h-side+zone, side) })
	}
	d.y = max(d.y, box.y+box.h-foot.height())
	for _, l := range foot {
		d.painter(l)(d.y)
		d.y += l.height
	}
}

// tagFlow is the title and what is known of the piece, up to a rank.
func (d *doc) tagFlow(rank int, width float64) flow {
	p := &d.r.Public
	f := d.tagTitle(width)
	f = append(f, d.gap(0.3))
	told := map[string]int{}
	for _, m := range p.Materials {
		if top := m.Role == "wood" || m.Role == "resin"; top && told[m.Role] < 2 && rank >= 1 {
			f = append(f, d.labelledRuns("", d.nameRuns(m, ""), width)...)
			told[m.Role]++
		}
	}
	if rank >= 3 && p.Finish != nil {
		f = append(f, d.labelled("", d.sized(body), spelling.Capital(p.Finish.Called()), width)...)
	}
	if rank >= 2 {
		f = append(f, d.labelled("", d.sized(body), d.sizeInBoth(), width)...)
	}
	if price := d.priceText(p); price != "" {
		st := d.sized(headline)
		st.size *= 1.25
		f = append(f, d.gap(0.3))
		for _, l := range d.labelled("", st, price, width) {
			l.height *= 1.4
			f = append(f, l)
		}
		if p.Price.Note != "" { // what hangs on the price belongs to it: for the pair, with tax
			f = append(f, d.labelled("", d.sized(body), p.Price.Note, width)...)
		}
	}
	return f
}

// tagTitle is the title, in lines of their own height.
func (d *doc) tagTitle(width float64) flow {
	heading := d.element("H2")
	st := d.sized(headline)
	st.size *= 1.25
	var f flow
	for _, l := range d.wrap(st, d.r.Public.Title, width) {
		f = append(f, line{height: 1.4 * d.lineHeight(), part: heading, draw: func(top float64) { d.text(d.left, top+1.05*d.lineHeight(), st, l) }})
	}
	return f
}

// tagFoot is the maker and the serial.
func (d *doc) tagFoot(width float64) flow {
	maker := ""
	if m := d.r.Public.Maker; m != nil {
		maker = m.Name
	}
	return d.plainAt(d.left, d.sized(name), spelling.Commas(maker, d.r.Public.Serial), width)
}

// priceText is what a piece costs, of several that of one unless it is
// told of all together; empty where it is not for
// sale or has no price.
func (d *doc) priceText(p *report.Public) string {
	if p.Price == nil || !forSale(p) {
		return ""
	}
	price := units.Money(d.o.Words.Lang, p.Price.Amount, p.Price.Currency)
	if p.PricedEach() {
		return d.say("price.each", "Price", price)
	}
	return price
}

// forSale reports whether a piece may still be had.
func forSale(p *report.Public) bool { return p.ForSale() && p.Available != "reserved" }

// inStock reports whether a piece stands in the workshop, to be labelled.
func inStock(p *report.Public) bool { return p.Available == "in stock" }

// bySerial orders reports.
func bySerial(a, b *report.Report) int { return cmp.Compare(a.Public.Serial, b.Public.Serial) }
