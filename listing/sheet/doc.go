package sheet

import (
	"bytes"
	"cmp"
	"fmt"
	"time"

	"github.com/jung-kurt/gofpdf"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// Lengths on paper are in millimetres, type sizes in points. Sizes go up by
// fifths to fourths (1 : 1.25); every line stands on a grid of 12 points.
const (
	pt        = 25.4 / 72
	grid      = 12 * pt
	sizeSmall = 8
	sizeBody  = 10
	sizeLarge = 12.5
	sizeTitle = 24.4 // body x 1.25 four times
)

// A style is how a run of text is set.
type style struct {
	face  face
	size  float64
	color [3]uint8
}

var (
	black = [3]uint8{0, 0, 0}
	quiet = [3]uint8{89, 89, 89} // 7:1 on white

	body       = style{serif, sizeBody, black}
	bodyItalic = style{italic, sizeBody, black}
	name       = style{sans, sizeSmall, quiet}
	small      = style{sans, sizeSmall, black}
	headline   = style{serif, sizeLarge, black}
	title      = style{serif, sizeTitle, black}
)

// A doc is one PDF in the making.
type doc struct {
	file  string // "sheet", for messages
	r     *report.Report
	o     *Options
	faces *[faceCount]*metrics
	pdf   *gofpdf.Fpdf

	w, h                     float64 // of the page
	left, right, top, bottom float64 // margins
	axis                     float64 // where the text begins, right of the names
	rowRight                 float64 // what the rows of figures leave free at the right
	y                        float64 // the next line's upper edge
	prefer                   units.System
	accent                   [3]uint8
	scale                    float64      // of type and grid; 1 but on the cards
	widths                   map[int]bool // of the pictures so far, in pixels
	loaded                   [faceCount]bool
	footer                   func(page, pages int)
	tags                     *tags
	current                  *element // that is being drawn
	inArtifact               bool
	rows                     *element // the list that named rows are items of
	moved                    bool     // what is drawn is moved from where it says
	trial                    *trial   // where nothing is drawn, what would have been
	shown                    int      // how many of the photos stand on pages so far
	beside                   bool     // the drawing stands small beside the figures
	besideLength             float64  // of the top as it is drawn there
	leastLength              float64  // of the top as it is drawn
	views                    map[viewsOf][]arrangement
	known                    *measured
}

// paperSizes are in millimetres: ISO 216 A4, and ANSI/ASME Y14.1 A (letter).
var paperSizes = map[string][2]float64{"a4": {210, 297}, "letter": {215.9, 279.4}}

func newDoc(file string, r *report.Report, o *Options) (*doc, error) {
	faces, err := loadFaces()
	if err != nil {
		return nil, err
	}
	d := &doc{file: file, r: r, o: o, faces: faces, accent: o.Accent, prefer: o.Prefer, scale: 1, widths: map[int]bool{}, tags: newTags(), views: map[viewsOf][]arrangement{}, known: newMeasured(), leastLength: leastLengths[0]}
	if d.prefer == "" {
		d.prefer = r.Prefer
	}
	if d.prefer == "" {
		d.prefer = units.Inches
	}
	if _, ok := paperSizes[d.paper()]; !ok {
		return nil, fmt.Errorf("paper %q is not known; it is a4 or letter", d.paper())
	}
	return d, nil
}

func (d *doc) paper() string {
	for _, p := range []string{d.o.Paper, d.r.Paper} {
		if p != "" {
			return p
		}
	}
	return "a4"
}

// open starts the file with pages of w by h millimetres.
func (d *doc) open(w, h float64) {
	d.w, d.h = w, h
	d.pdf = gofpdf.NewCustom(&gofpdf.InitType{UnitStr: "mm", Size: gofpdf.SizeType{Wd: w, Ht: h}})
	d.pdf.SetMargins(0, 0, 0)
	d.pdf.SetAutoPageBreak(false, 0)
	d.pdf.SetCatalogSort(true)
	d.pdf.SetCreationDate(d.date())
	d.pdf.SetModificationDate(d.date())
}

// date is the day the piece was finished: no document knows the clock.
func (d *doc) date() time.Time {
	t, err := time.Parse(time.DateOnly, d.r.Public.Finished)
	if err != nil {
		return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	return t
}

// newPage starts a page; text goes on at its top margin.
func (d *doc) newPage() {
	d.y = d.top
	if d.trial != nil {
		d.trial.foot, d.trial.lines = append(d.trial.foot, d.top), append(d.trial.lines, 0)
		return
	}
	d.pdf.AddPage()
}

// pageCount is how many pages there are so far.
func (d *doc) pageCount() int {
	if d.trial != nil {
		return len(d.trial.foot)
	}
	return d.pdf.PageCount()
}

// heightLeft is how much of the page is left for text, in millimetres.
func (d *doc) heightLeft() float64 { return d.h - d.bottom - d.y }

// pageHeight is how much text a page holds, in millimetres.
func (d *doc) pageHeight() float64 { return d.h - d.bottom - d.top }

// output writes the footers, closes the file and finishes it to PDF/A-1b.
func (d *doc) output() ([]byte, error) {
	pages := d.pdf.PageCount()
	if d.footer != nil {
		for p := 1; p <= pages; p++ {
			d.pdf.SetPage(p)
			d.artifact(func() { d.footer(p, pages) })
		}
	}
	if err := d.pdf.Error(); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := d.pdf.Output(&b); err != nil {
		return nil, err
	}
	return finish(b.Bytes(), d.meta(), d.tags)
}

// say returns a phrase of templates/.
func (d *doc) say(id string, pairs ...any) string {
	m := map[string]any{}
	for i := 0; i+1 < len(pairs); i += 2 {
		m[fmt.Sprint(pairs[i])] = pairs[i+1]
	}
	return d.o.Words.Say("sheet."+id, m)
}

// kind is what kind of piece it is, in words.
func (d *doc) kind() string { return d.r.Public.What(d.o.Words) }

// number writes a text of figures with the decimal sign of the language.
func (d *doc) number(figures string) string { return d.o.Words.Number(figures) }

// text sets s with its left end at x and its baseline at y, kerned: the library
// knows no kerning, so the run is cut wherever a pair is moved.
func (d *doc) text(x, y float64, st style, s string) {
	if d.current == nil && !d.inArtifact {
		d.artifact(func() { d.text(x, y, st, s) })
		return
	}
	if d.linked(x, y, st, s) {
		return
	}
	m := d.faces[st.face]
	s = m.clean(s)
	if !d.loaded[st.face] {
		// A copy: the library keeps the slice, and documents are made side by side.
		d.pdf.AddUTF8FontFromBytes(faceNames[st.face], "", bytes.Clone(m.data))
		d.loaded[st.face] = true
	}
	d.pdf.SetFont(faceNames[st.face], "", st.size)
	d.pdf.SetTextColor(int(st.color[0]), int(st.color[1]), int(st.color[2]))
	start, at, w := 0, x, 0.0
	before, prev := rune(-1), rune(-1)
	for i, r := range s {
		if prev >= 0 {
			if k := m.kern(before, prev, r); k != 0 {
				d.pdf.Text(at, y, s[start:i])
				at += (w + k) / 1000 * st.size * pt
				start, w = i, 0
			}
		}
		w += m.glyphs[r].width
		before, prev = prev, r
	}
	if start < len(s) {
		d.pdf.Text(at, y, s[start:])
	}
}

// textRight sets s so that it ends at x.
func (d *doc) textRight(x, y float64, st style, s string) { d.text(x-d.width(st, s), y, st, s) }

// picture embeds a JPEG with its upper left corner at x, y. Each picture of a
// file has its own pixel width, else the library's order of them is random.
func (d *doc) picture(p Picture, x, y, w, h float64) error {
	if p.Width <= 0 || p.Height <= 0 || len(p.JPEG) == 0 {
		return fmt.Errorf("picture %q is empty", p.Alt)
	}
	if d.trial != nil {
		d.fills(y+h, 0)
		return nil
	}
	if d.widths[p.Width] {
		return fmt.Errorf("two pictures are %d pixels wide; each needs a width of its own", p.Width)
	}
	d.widths[p.Width] = true
	key := fmt.Sprintf("picture-%d", p.Width)
	opt := gofpdf.ImageOptions{ImageType: "JPEG"}
	d.pdf.RegisterImageOptionsReader(key, opt, bytes.NewReader(p.JPEG))
	if err := d.pdf.Error(); err != nil {
		return fmt.Errorf("picture %q: %w", p.Alt, err)
	}
	d.figure(cmp.Or(p.Alt, p.Caption), func() { d.pdf.ImageOptions(key, x, y, w, h, false, opt, 0, "") })
	return d.pdf.Error()
}
