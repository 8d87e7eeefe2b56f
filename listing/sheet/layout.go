package sheet

import (
	"math"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"slabfolio/listing/units"
)

// Heights that the photo may take of its page, in millimetres.
const (
	photoLeast = 88
	photoMost  = 165
)

// layoutSheet lays out the spec sheet. Page one is the label, page two the
// drawing and the care; photo and drawing give way so that each page holds what
// belongs on it, and what still does not fit flows on.
func layoutSheet(d *doc) error {
	size := paperSizes[d.paper()]
	d.left, d.right, d.top, d.bottom, d.axis = 20, 20, 18, 22, 58
	d.open(size[0], size[1])
	d.footer = d.sheetFooter
	d.newPage()

	first := append(d.titleLines(), d.figureLines()...)
	first = append(first, d.storyLines()...)
	shown, err := d.showPiece(first.height())
	if err != nil {
		return err
	}
	d.place(first)

	after := d.careColumns(careWidths[0])
	if d.drawable() && shown != showDrawing {
		after = d.careColumnsUnderDrawing()
	}
	rest := append(after, d.materialLines()...)
	if shown != showDrawing && d.drawable() {
		// All on one page where it fits, else the drawing heads a page of its
		// own, unless the story has run on to one that has room.
		whole := rest.height() + d.lineHeight()
		if !d.drawingFits(d.heightLeft()-whole) && (d.pdf.PageCount() == 1 || !d.drawingFits(d.heightLeft()-d.lineHeight())) {
			d.newPage()
		}
		if d.y > d.top {
			d.y += d.lineHeight()
		}
		d.drawPiece(rest.height())
	}
	// Care and cautions are not parted where a page can hold them together.
	if h := after.height(); h > d.heightLeft() && h <= d.pageHeight() {
		d.newPage()
	}
	d.place(rest)
	return d.morePictures()
}

type shown int

const (
	showNothing shown = iota
	showPhoto
	showDrawing
)

// showPiece begins page one with the main photo, or with the drawing where
// there is no photo; below is the height of what comes under it.
func (d *doc) showPiece(below float64) (shown, error) {
	if len(d.o.Pictures) > 0 {
		return showPhoto, d.mainPhoto(d.o.Pictures[0], below)
	}
	if !d.drawable() {
		return showNothing, nil
	}
	d.drawPiece(below + d.lineHeight())
	d.y += d.lineHeight()
	return showDrawing, nil
}

// mainPhoto sets the main photo: over the whole width where that leaves room for
// what comes below, else from the axis to the right margin, and smaller only
// where it must be, so that its edges stand where other edges stand.
func (d *doc) mainPhoto(p Picture, below float64) error {
	caption := d.wrap(small, p.Caption, d.measure())
	below += float64(len(caption)+2) * d.lineHeight()
	room := d.h - d.top - d.bottom - below
	room = min(max(d.lineHeight()*math.Floor(room/d.lineHeight()+0.001), photoLeast), photoMost)
	ratio := float64(p.Height) / float64(max(p.Width, 1))
	x, w := d.left, d.w-d.left-d.right
	if w*ratio > room {
		x, w = d.axis, d.w-d.right-d.axis
	}
	h := w * ratio
	if h > room {
		w, h = w*room/h, room
	}
	// The lower edge stands on the grid, so that the name keeps its distance.
	foot := d.onGrid(d.y + h)
	if err := d.picture(p, x, foot-h, w, h); err != nil {
		return err
	}
	d.y = foot
	for _, c := range caption {
		d.text(x, d.baseline(d.y), small, c)
		d.y += d.lineHeight()
	}
	d.y += 2 * d.lineHeight()
	return nil
}

// onGrid returns the next line of the grid at or below y.
func (d *doc) onGrid(y float64) float64 {
	n := (y - d.top) / d.lineHeight()
	whole := float64(int(n))
	if n-whole > 0.001 {
		whole++
	}
	return d.top + whole*d.lineHeight()
}

// titleLines are the serial in the margin, the title, and who made it when.
func (d *doc) titleLines() flow {
	p := &d.r.Public
	st := d.sized(title)
	width := d.w - d.right - d.axis
	lines := d.wrap(st, p.Title, width)
	height := 2 * d.lineHeight()
	if len(lines) == 2 {
		height = 2.5 * d.lineHeight() // room for accents under descenders
	}
	if len(lines) > 2 { // a long title is set two steps smaller
		st.size = sizeTitle / 1.25 / 1.25
		lines = d.wrap(st, p.Title, width)
		height = 1.5 * d.lineHeight()
	}
	serial := small
	serial.color = d.accent
	long := d.width(serial, p.Serial) > d.axis-d.left-3
	var f flow
	if long { // no room in the margin
		for _, l := range d.wrap(serial, p.Serial, width) {
			f = append(f, line{height: d.lineHeight(), keep: true, draw: func(top float64) { d.text(d.axis, d.baseline(top), serial, l) }})
		}
	}
	if n := float64(len(lines)) * height / d.lineHeight(); n != math.Floor(n) { // stay on the grid
		f = append(f, line{height: 0.5 * d.lineHeight(), keep: true})
	}
	for i, l := range lines {
		f = append(f, line{height: height, keep: true, draw: func(top float64) {
			y := top + 0.62*height
			if i == 0 && !long {
				d.text(d.left, y, serial, p.Serial)
			}
			d.text(d.axis, y, st, l)
		}})
	}
	maker := ""
	if p.Maker != nil {
		maker = p.Maker.Name
	}
	by := d.say("byline", "Kind", capital(p.Kind), "Maker", maker, "Date", d.day(p.Finished), "Quantity", p.Quantity)
	for _, l := range d.wrap(bodyItalic, by, d.measure()) {
		f = append(f, line{height: d.lineHeight(), draw: func(top float64) { d.text(d.axis, d.baseline(top), bodyItalic, l) }})
	}
	return append(f, d.gap(1))
}

// day writes a date of the report in words; anything else stays as it is.
func (d *doc) day(s string) string {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return s
	}
	return d.say("date", "Day", t.Day(), "Month", d.say("month."+t.Format("1")), "Year", t.Year())
}

// capital makes the first letter a capital.
func capital(s string) string {
	if s == "" {
		return ""
	}
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// second is the system that is printed beside the preferred one.
func (d *doc) second() units.System {
	if d.prefer.Metric() {
		return units.Inches
	}
	return units.Centimetres
}

func (d *doc) storyLines() flow {
	story := d.r.Public.Story
	if strings.TrimSpace(story) == "" {
		return nil
	}
	return append(flow{d.gap(1)}, d.labelled("", d.sized(body), story, d.measure())...)
}

// sheetFooter is the serial, the maker, the date and the page of pages.
func (d *doc) sheetFooter(page, pages int) {
	p := &d.r.Public
	y := d.h - 11
	maker := ""
	if p.Maker != nil {
		maker = p.Maker.Name
	}
	right := d.say("footer.page", "Page", page, "Pages", pages)
	st := d.sized(name)
	d.text(d.left, y, st, d.shortened(st, p.Serial, d.axis-d.left-2))
	d.text(d.axis, y, st, d.shortened(st, joined(maker, d.day(p.Finished)), d.w-d.right-d.axis-d.width(st, right)-4))
	d.textRight(d.w-d.right, y, st, right)
}

// shortened shortens s with an ellipsis; only for what stands whole elsewhere.
func (d *doc) shortened(st style, s string, width float64) string {
	if d.width(st, s) <= width {
		return s
	}
	for s != "" && d.width(st, s+"…") > width {
		_, n := utf8.DecodeLastRuneInString(s)
		s = s[:len(s)-n]
	}
	return s + "…"
}
