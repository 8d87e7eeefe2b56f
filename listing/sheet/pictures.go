package sheet

// Sizes of the row of further photos, in millimetres.
const (
	rowLeast   = 26
	rowMost    = 84
	rowBetween = 4
	rowSlack   = 34 // what a page may have left below the row and it stands at the foot
)

// mostInRow is how many further photos a sheet shows: it is no album.
const mostInRow = 3

// morePictures sets up to three further photos in one row where the page has room
// to spare: at its foot, or under the words where the foot is far from them.
func (d *doc) morePictures() error {
	if len(d.o.Pictures) < 2 {
		return nil
	}
	more := d.o.Pictures[1:min(len(d.o.Pictures), 1+mostInRow)]
	for _, p := range more {
		if p.Width <= 0 || p.Height <= 0 {
			return nil
		}
	}
	h, text := d.rowHeight(more)
	if h < rowLeast {
		return nil
	}
	top := d.h - d.bottom - h - text
	if under := d.onGrid(d.y + d.lineHeight()); top-under > rowSlack {
		top = under
	}
	d.y = d.h - d.bottom // nothing comes below it
	if d.trial != nil {
		d.trial.row = h
		d.fills(top+h+text, 0)
		return nil
	}
	x := d.left
	for _, p := range more {
		w := h * float64(p.Width) / float64(p.Height)
		if err := d.picture(p, x, top, w, h); err != nil {
			return err
		}
		under := d.element("P")
		for k, l := range d.wrap(small, p.Caption, w) {
			d.tagged(under, func() { d.text(x, d.baseline(top+h+float64(k)*d.lineHeight()), small, l) })
		}
		x += w + rowBetween
	}
	return nil
}

// rowHeight is how high the photos of a row stand in what is left of the page, and
// what their captions take below.
func (d *doc) rowHeight(more []Picture) (h, text float64) {
	var wide float64 // of all at height 1
	for _, p := range more {
		wide += float64(p.Width) / float64(p.Height)
	}
	full := d.columnWidth() - rowBetween*float64(len(more)-1)
	room := d.heightLeft() - 2*d.lineHeight()
	h = min(full/wide, rowMost, room)
	lines := 0
	for _, p := range more {
		lines = max(lines, len(d.wrap(small, p.Caption, h*float64(p.Width)/float64(p.Height))))
	}
	text = float64(lines) * d.lineHeight()
	return min(h, room-text), text
}
