package sheet

// Sizes of the rows of further photos, in millimetres.
const (
	rowLeast   = 26
	rowMost    = 84
	rowBetween = 4
	rowSlack   = 34 // what a page may have left below the rows and they stand at the foot
)

// rowRooms are what the main photo may leave to a row of others: nothing, what a row
// needs, and what it likes.
var rowRooms = []float64{0, 9 * grid, 14 * grid}

// A sheet shows a few further photos: it is no album.
const (
	mostInRow = 3
	mostRows  = 2 // on a page
)

// MostPictures is how many photos a sheet has a use for: the main one, and the rows.
const MostPictures = 1 + mostInRow*mostRows

// A photoRow is photos side by side, of one height, with captions below them.
type photoRow struct {
	photos  []Picture
	h, text float64
}

// morePictures sets further photos in rows where the page has room to spare: at its
// foot, or under the words where the foot is far from them. What one page has no
// room for may stand on the next.
func (d *doc) morePictures() error {
	rows := d.rowsWithin(d.furtherPhotos(), d.heightLeft()-2*d.lineHeight())
	if len(rows) == 0 {
		return nil
	}
	top := d.h - d.bottom - heightOf(rows)
	if under := d.onGrid(d.y + d.lineHeight()); top-under > rowSlack {
		top = under
	}
	d.y = d.h - d.bottom // nothing comes below it
	for _, row := range rows {
		if err := d.placePhotos(row, top); err != nil {
			return err
		}
		top += row.h + row.text + rowBetween
	}
	return nil
}

// furtherPhotos are those that no page before has shown.
func (d *doc) furtherPhotos() []Picture {
	from, to := max(1, d.shown), min(len(d.o.Pictures), MostPictures)
	if from >= to {
		return nil
	}
	for _, p := range d.o.Pictures[from:to] {
		if p.Width <= 0 || p.Height <= 0 {
			return nil
		}
	}
	return d.o.Pictures[from:to]
}

// placePhotos sets one row of photos, with its upper edge at top.
func (d *doc) placePhotos(row photoRow, top float64) error {
	d.shown = max(1, d.shown) + len(row.photos)
	if d.trial != nil {
		d.trial.small += float64(len(row.photos)) * max(0, 1-row.h/wantedRow)
		d.fills(top+row.h+row.text, 0)
		return nil
	}
	x := d.left
	for _, p := range row.photos {
		w := row.h * float64(p.Width) / float64(p.Height)
		if err := d.picture(p, x, top, w, row.h); err != nil {
			return err
		}
		under := d.element("P")
		for k, l := range d.wrap(small, p.Caption, w) {
			d.tagged(under, func() { d.text(x, d.baseline(top+row.h+float64(k)*d.lineHeight()), small, l) })
		}
		x += w + rowBetween
	}
	return nil
}

// heightOf is what rows take, with their captions and what stands between them.
func heightOf(rows []photoRow) float64 {
	h := rowBetween * float64(len(rows)-1)
	for _, r := range rows {
		h += r.h + r.text
	}
	return h
}

// rowsWithin sets as many of the photos as a height of room holds: in as few rows as
// hold them, each of about as many, or the first of them in one row.
func (d *doc) rowsWithin(more []Picture, room float64) []photoRow {
	for n := min(len(more), mostInRow*mostRows); n > 0; n-- {
		for count := (n + mostInRow - 1) / mostInRow; count <= min(n, mostRows); count++ {
			each := (room - rowBetween*float64(count-1)) / float64(count)
			var rows []photoRow
			for i := range count {
				row := d.rowOf(more[n*i/count:n*(i+1)/count], each)
				if row.h < rowLeast {
					break
				}
				rows = append(rows, row)
			}
			if len(rows) == count {
				return rows
			}
		}
	}
	return nil
}

// rowOf is a row of photos as high as the page's width and the room allow, with what
// their captions take below.
func (d *doc) rowOf(photos []Picture, room float64) photoRow {
	var wide float64 // of all at height 1
	for _, p := range photos {
		wide += float64(p.Width) / float64(p.Height)
	}
	full := d.columnWidth() - rowBetween*float64(len(photos)-1)
	h := min(full/wide, rowMost, room)
	lines := 0
	for _, p := range photos {
		lines = max(lines, len(d.wrap(small, p.Caption, h*float64(p.Width)/float64(p.Height))))
	}
	text := float64(lines) * d.lineHeight()
	return photoRow{photos, min(h, room-text), text}
}
