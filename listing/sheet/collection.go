package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"slabfolio/listing/drawing"
	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// A LabelGrid is a sheet of labels as it is bought, or is to be cut: how many there
// are, how large, where the first begins and how far apart they stand, in
// millimetres. Without rows it is eight labels on a page, to be cut: ISO 216 A7 on
// A4, or as many on a letter.
type LabelGrid struct {
	Rows, Columns      int
	Width, Height      float64
	Left, Top          float64
	GapAcross, GapDown float64
}

// onPaper fills in what is not given, and reports whether it is to be cut.
func (g LabelGrid) onPaper(paper [2]float64) (LabelGrid, bool) {
	if g.Rows > 0 && g.Columns > 0 {
		if g.Width <= 0 {
			g.Width = (paper[0] - 2*g.Left - float64(g.Columns-1)*g.GapAcross) / float64(g.Columns)
		}
		if g.Height <= 0 {
			g.Height = (paper[1] - 2*g.Top - float64(g.Rows-1)*g.GapDown) / float64(g.Rows)
		}
		return g, false
	}
	return LabelGrid{Rows: 4, Columns: 2, Width: paper[0] / 2, Height: paper[1] / 4}, true
}

// Fits reports whether all the labels of a grid stand on a paper, a4 or letter.
func (g LabelGrid) Fits(paper string) bool {
	size, ok := paperSizes[paper]
	if !ok {
		size = paperSizes["a4"]
	}
	g, _ = g.onPaper(size)
	right := g.Left + float64(g.Columns)*g.Width + float64(g.Columns-1)*g.GapAcross
	foot := g.Top + float64(g.Rows)*g.Height + float64(g.Rows-1)*g.GapDown
	const hair = 0.5 // of rounding, as stock is told
	return g.Width >= 10 && g.Height >= 8 && right <= size[0]+hair && foot <= size[1]+hair
}

// Labels returns labels of all that is in stock, as many of a piece as there are of
// it, on sheets of labels; where nothing is, a page that says so.
func Labels(all []*report.Report, grid LabelGrid, o *Options) ([]byte, error) {
	var stock []*report.Report
	for _, r := range all {
		if inStock(&r.Public) {
			for range min(max(r.Public.Quantity, 1), 100) {
				stock = append(stock, r)
			}
		}
	}
	if len(stock) == 0 {
		return build("labels", collectionReport(all), o, func(d *doc) error { return d.layoutNothing("labels.none") })
	}
	slices.SortStableFunc(stock, bySerial)
	return build("labels", collectionReport(stock), o, func(d *doc) error { return d.layoutLabels(stock, grid) })
}

// collectionReport is what a document over several pieces says of itself: the maker,
// and the day when the latest of them was finished.
func collectionReport(all []*report.Report) *report.Report {
	out := &report.Report{}
	for _, r := range all {
		out.Public.Maker = r.Public.Maker
		out.Public.Finished = max(out.Public.Finished, r.Public.Finished)
	}
	return out
}

// layoutNothing is a page that says why there is nothing on it, so that no list of
// an earlier day is taken for today's.
func (d *doc) layoutNothing(id string) error {
	size := paperSizes[d.paper()]
	d.left, d.right, d.top, d.bottom, d.axis = 20, 20, 18, 22, 58
	d.open(size[0], size[1])
	d.newPage()
	d.place(d.labelled("", d.sized(body), d.say(id), d.rowWidth()))
	return nil
}

func (d *doc) layoutLabels(stock []*report.Report, grid LabelGrid) error {
	size := paperSizes[d.paper()]
	if !grid.Fits(d.paper()) {
		return fmt.Errorf("the labels do not fit on %s", d.paper())
	}
	g, cut := grid.onPaper(size)
	d.open(size[0], size[1])
	perPage := g.Rows * g.Columns
	inset := min(g.Width, g.Height) * 0.08
	for i, r := range stock {
		if i%perPage == 0 {
			d.newPage()
			if cut {
				d.cutLines(g)
			}
		}
		x := g.Left + float64(i%g.Columns)*(g.Width+g.GapAcross)
		y := g.Top + float64(i%perPage/g.Columns)*(g.Height+g.GapDown)
		d.tag(r, tagBox{x + inset, y + inset, g.Width - 2*inset, g.Height - 2*inset}, min(22, g.Height*0.35))
	}
	return nil
}

// cutLines are short strokes at the page's edges, where a label ends.
func (d *doc) cutLines(g LabelGrid) {
	const long = 4
	d.artifact(func() {
		d.setLine(drawing.Grain)
		for i := 1; i < g.Columns; i++ {
			x := float64(i) * g.Width
			d.pdf.Line(x, 0, x, long)
			d.pdf.Line(x, d.h-long, x, d.h)
		}
		for i := 1; i < g.Rows; i++ {
			y := float64(i) * g.Height
			d.pdf.Line(0, y, long, y)
			d.pdf.Line(d.w-long, y, d.w, y)
		}
	})
}

// PriceList returns a list of all that is for sale and has a price and a size, by serial;
// where nothing is, a page that says so.
func PriceList(all []*report.Report, o *Options) ([]byte, error) {
	var priced []*report.Report
	for _, r := range all {
		if r.Public.Price != nil && forSale(&r.Public) && r.Public.Sized() {
			priced = append(priced, r)
		}
	}
	if len(priced) == 0 {
		return build("pricelist", collectionReport(all), o, func(d *doc) error { return d.layoutNothing("prices.none") })
	}
	slices.SortStableFunc(priced, bySerial)
	return build("pricelist", collectionReport(priced), o, func(d *doc) error { return d.layoutPrices(priced) })
}

func (d *doc) layoutPrices(all []*report.Report) error {
	size := paperSizes[d.paper()]
	d.left, d.right, d.top, d.bottom, d.axis = 20, 20, 18, 22, 58
	d.open(size[0], size[1])
	d.footer = d.listFooter
	d.newPage()
	var f flow
	for d.scale = 1.25; d.scale > 0.95; d.scale -= 0.05 { // a short list is set large
		if f = d.priceLines(all); f.height() <= 0.6*d.pageHeight() {
			break
		}
	}
	// A short list does not hang from the upper edge.
	d.y += d.lineHeight() * math.Floor(max(0, 0.6*d.pageHeight()-f.height())/4/d.lineHeight())
	d.place(f)
	return nil
}

// priceLines are the whole list.
func (d *doc) priceLines(all []*report.Report) flow {
	head := d.element("H1")
	st := d.sized(title)
	f := flow{{height: 3 * d.lineHeight(), part: head, keep: true, draw: func(top float64) { d.text(d.axis, top+2*d.lineHeight(), st, d.say("prices.head")) }}}
	if m := d.r.Public.Maker; m != nil {
		f = append(f, d.labelled("", d.sized(bodyItalic), spelling.Commas(m.Name, flat(m.Address)), d.rowWidth())...)
	}
	f = append(f, d.gap(1))
	table := d.element("Table")
	for _, r := range all {
		f = append(f, d.priceRow(table, r)...)
	}
	if notes := contactLines(d.r.Public.Maker); len(notes) > 1 {
		f = append(f, d.gap(1))
		f = append(f, d.labelled("", d.sized(body), strings.Join(notes[1:], ", "), d.rowWidth())...)
	}
	return f
}

// priceRow is one piece: the serial, the title with wood and size below it, and at
// the right the price with its note and whether it is in stock.
func (d *doc) priceRow(table *element, r *report.Report) flow {
	list := d.r
	d.r = r
	defer func() { d.r = list }()
	p := &r.Public
	const usual, between = 44, 4 // mm
	priceWide := max(usual, d.width(d.sized(headline), d.priceText(p))+between)
	width := d.rowWidth() - priceWide
	row := d.under(table, "TR")
	number, what, price := d.under(row, "TH"), d.under(row, "TD"), d.under(row, "TD")
	var left []string
	styles := []style{}
	add := func(st style, text string, width float64) {
		for _, l := range d.wrap(st, text, width) {
			left, styles = append(left, l), append(styles, st)
		}
	}
	add(d.sized(headline), p.Title, width)
	add(d.sized(small), spelling.Commas(spelling.Capital(p.KindIn(d.o.Words)), d.topNames(), d.size()), width)
	right := append([]string{d.priceText(p)}, d.wrap(d.sized(name), spelling.Commas(d.o.Words.Called("available", p.Available), p.Price.Note), priceWide)...)
	serials := d.wrap(d.sized(name), p.Serial, d.axis-d.left-4)
	rows := max(len(left), len(right), len(serials))
	var f flow
	for i := range rows {
		f = append(f, line{height: 1.1 * d.lineHeight(), keep: i+1 < rows, draw: func(top float64) {
			y := d.baseline(top)
			if i < len(serials) {
				d.tagged(number, func() { d.text(d.left, y, d.sized(name), serials[i]) })
			}
			end := d.axis
			if i < len(left) {
				if i < len(serials) {
					d.bridge(labelled, d.left+d.width(d.sized(name), serials[i]), d.axis, y, styles[i])
				}
				d.tagged(what, func() { d.text(d.axis, y, styles[i], left[i]) })
				end += d.width(styles[i], left[i])
			}
			if i < len(right) {
				st := d.sized(name)
				if i == 0 {
					st = d.sized(headline)
				}
				if i < len(left) {
					d.bridge(apart, end, d.w-d.right-d.width(st, right[i]), y, st)
				}
				d.tagged(price, func() { d.textRight(d.w-d.right, y, st, right[i]) })
			}
		}})
	}
	return append(f, d.gap(0.8))
}

// topNames are the woods of a piece, and the resin in it.
func (d *doc) topNames() string {
	var all []string
	for _, m := range d.r.Public.Materials {
		if m.Role == "wood" || m.Role == "resin" {
			all = append(all, d.o.Words.Inside(m.Name))
		}
	}
	return spelling.Commas(all...)
}

// listFooter is the maker, how new the newest piece is, and the page of pages.
func (d *doc) listFooter(page, pages int) {
	y := d.h - 11
	maker := ""
	if m := d.r.Public.Maker; m != nil {
		maker = m.Name
	}
	upto := ""
	if day := d.day(d.r.Public.Finished); day != "" {
		upto = d.say("prices.upto", "Day", day)
	}
	right := d.say("footer.page", "Page", page, "Pages", pages)
	d.text(d.axis, y, name, d.shortened(name, spelling.Commas(maker, upto), d.w-d.right-d.axis-d.width(name, right)-4))
	d.textRight(d.w-d.right, y, name, right)
}
