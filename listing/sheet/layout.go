package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// Heights that the photo may take of its page, in millimetres: photoLeast where
// it has a page to share with the words alone, photoModest where the whole sheet is
// one page, or the drawing stands on it too.
const (
	photoModest = 14 * grid // whole lines, so that what was reckoned to fit does
	photoLeast  = 21 * grid
	photoMost   = 165
)

// layoutSheet lays out the spec sheet: photo, name, figures and story; then the
// drawing; then care and cautions, and the lists that are too long for the
// figures. All of it is one page where it fits; else the photo's page and the
// drawing's, and what still does not fit flows on.
func layoutSheet(d *doc) error {
	size := paperSizes[d.paper()]
	d.left, d.right, d.top, d.bottom, d.axis = 20, 20, 18, 22, 58
	d.open(size[0], size[1])
	d.footer = d.sheetFooter
	labels := d.labels()
	best, err := d.bestPlan(labels)
	if err != nil {
		return err
	}
	return d.follow(best, labels)
}

// labels are the words of the first page, with and without the room for a small
// drawing beside the figures.
func (d *doc) labels() map[bool]flow {
	labels := map[bool]flow{}
	for _, beside := range []bool{false, d.mayStandBeside()} {
		d.beside = beside
		labels[beside] = slices.Concat(d.titleLines(), d.figureLines(), d.storyLines())
	}
	return labels
}

// Where the drawing stands.
type drawingPlace int

const (
	noDrawing       drawingPlace = iota // there is none, or it stands beside the figures; all on one page where it fits
	careRunsOn                          // the same, and the care begins where there is room for it
	careOnSecond                        // the same, and the care has a page of its own
	drawingFirst                        // in place of the photo
	drawingBelow                        // under the words, and all else below it on the page
	drawingOnFirst                      // under the words, at the foot of the first page
	drawingOnSecond                     // at the head of a page, with the care
)

// follow lays the sheet out as a plan has it.
func (d *doc) follow(p plan, labels map[bool]flow) error {
	d.shown, d.beside = 0, d.mayStandBeside() && p.place <= careOnSecond
	label := labels[d.beside]
	d.leastLength = leastLengths[0]
	if p.small {
		d.leastLength = leastLengths[1]
	}
	d.newPage()
	if err := d.photoPage(p, label); err != nil {
		return err
	}
	ranOn := d.pageCount() > 1
	if p.row && !ranOn {
		if err := d.morePictures(); err != nil {
			return err
		}
	}
	switch room := d.heightLeft() - d.lineHeight(); {
	case p.place == drawingOnSecond && ranOn && d.leastDrawing() <= room:
		// The story has run on to a page that has room.
		d.y += d.lineHeight()
		d.drawPiece(min(p.after(), room-d.leastDrawing()+d.lineHeight()))
	case p.place == drawingOnSecond:
		d.newPage()
		d.drawPiece(p.after())
	case p.place == careRunsOn:
	case p.place == careOnSecond && !ranOn, p.care.height() > d.heightLeft() && p.care.height() <= d.pageHeight():
		d.newPage() // care and cautions are not parted
	}
	d.placeAfterDrawing(p)
	return d.morePictures()
}

// leastPhoto is the room for the main photo at a height, with its caption.
func (d *doc) leastPhoto(height float64) float64 {
	if len(d.o.Pictures) == 0 {
		return 0
	}
	caption := d.wrap(small, d.o.Pictures[0].Caption, d.measure())
	return height + float64(len(caption)+2)*d.lineHeight()
}

// photoPage fills the first page: the photo gives way to the words, and to the
// drawing and the care where they stand on the page too.
func (d *doc) photoPage(p plan, label flow) error {
	below, least := label.height()+p.room, float64(photoLeast)
	if below+d.leastPhoto(photoLeast) > d.pageHeight() && below+d.leastPhoto(photoModest) <= d.pageHeight() {
		least = photoModest // rather than have the story's end run on
	}
	switch p.place {
	case drawingFirst:
		below += 2 * d.lineHeight()
		if whole := below + p.after(); d.leastDrawing()+whole <= d.heightLeft() {
			below = whole
		}
		d.drawPiece(below)
		d.y += 2 * d.lineHeight()
		d.place(label)
		return nil
	case drawingBelow:
		below += d.leastDrawing() + p.after()
		least = photoModest
	case drawingOnFirst:
		below += d.leastDrawing()
		least = photoModest
	case noDrawing:
		if whole := below + p.after(); whole+d.leastPhoto(photoModest) <= d.pageHeight() {
			below, least = whole, photoModest
		}
	}
	if len(d.o.Pictures) > 0 {
		if err := d.mainPhoto(d.o.Pictures[0], below, least); err != nil {
			return err
		}
	}
	d.place(label)
	switch p.place {
	case drawingBelow:
		d.y += d.lineHeight()
		d.drawPiece(p.after())
	case drawingOnFirst:
		d.y += d.lineHeight()
		d.drawPiece(0)
	}
	return nil
}

// mainPhoto sets the main photo: over the whole width where that leaves room for
// what comes below, else from the axis to the right margin, and smaller only
// where it must be, so that its edges stand where other edges stand.
func (d *doc) mainPhoto(p Picture, below, least float64) error {
	caption := d.wrap(small, p.Caption, d.measure())
	below += float64(len(caption)+2) * d.lineHeight()
	room := d.h - d.top - d.bottom - below
	room = min(max(d.lineHeight()*math.Floor(room/d.lineHeight()+0.001), least), photoMost)
	ratio := float64(p.Height) / float64(max(p.Width, 1))
	x, w := d.left, d.columnWidth()
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
	d.notePhoto(h)
	under := d.element("P")
	for i, c := range caption {
		d.tagged(under, func() { d.text(x, d.baseline(d.y), small, goingOn(c, i, len(caption))) })
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
	number, heading := d.element("P"), d.element("H1")
	var f flow
	if long { // no room in the margin
		for _, l := range d.wrap(serial, p.Serial, width) {
			f = append(f, line{height: d.lineHeight(), keep: true, part: number, draw: func(top float64) { d.text(d.axis, d.baseline(top), serial, l) }})
		}
	}
	if n := float64(len(lines)) * height / d.lineHeight(); n != math.Floor(n) { // stay on the grid
		f = append(f, line{height: 0.5 * d.lineHeight(), keep: true})
	}
	for i, l := range lines {
		f = append(f, line{height: height, keep: true, draw: func(top float64) {
			y := top + 0.62*height
			if i == 0 && !long {
				d.tagged(number, func() { d.text(d.left, y, serial, p.Serial) })
			}
			if i == 0 {
				d.addBookmark(p.Title, 1, top)
			}
			d.tagged(heading, func() { d.text(d.axis, y, st, goingOn(l, i, len(lines))) })
		}})
	}
	maker := ""
	if p.Maker != nil {
		maker = p.Maker.Name
	}
	by := d.say(d.byWork("byline"), "Who", p.WorkBy(d.o.Words), "Kind", spelling.Capital(d.kind()), "Maker", maker, "Date", d.day(p.Finished), "Quantity", p.Quantity)
	byline := d.element("P")
	said := d.wrap(bodyItalic, by, d.measure())
	for i, l := range said {
		f = append(f, line{height: d.lineHeight(), part: byline, draw: func(top float64) { d.text(d.axis, d.baseline(top), bodyItalic, goingOn(l, i, len(said))) }})
	}
	return append(f, d.gap(1))
}

// day writes a date of the report as readers do; anything else stays as it is.
func (d *doc) day(s string) string { return d.o.Words.Day(s) }

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

// sheetFooter is the number of the document, the maker, its date and the page of
// pages.
func (d *doc) sheetFooter(page, pages int) {
	y := d.h - 11
	maker := ""
	if m := d.r.Public.Maker; m != nil {
		maker = m.Name
	}
	right := d.say("footer.page", "Page", page, "Pages", pages)
	st := d.sized(name)
	d.text(d.left, y, st, d.shortened(st, d.documentNumber(), d.axis-d.left-2))
	d.text(d.axis, y, st, d.shortened(st, spelling.Commas(maker, d.day(d.documentDate())), d.w-d.right-d.axis-d.width(st, right)-4))
	d.textRight(d.w-d.right, y, st, right)
}

// documentNumber is the serial and which edition this is: the first, and one more
// for each thing that was done to the piece later.
func (d *doc) documentNumber() string {
	return fmt.Sprintf("%s/%d", d.r.Public.Serial, 1+len(d.r.Log))
}

// documentDate is the day that what the document says was last true: the day the
// piece was finished, or of the latest work on it. No document knows the clock.
func (d *doc) documentDate() string {
	date := d.r.Public.Finished
	for _, l := range d.r.Log {
		if _, err := time.Parse(time.DateOnly, l.Date); err == nil {
			date = max(date, l.Date)
		}
	}
	return date
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
