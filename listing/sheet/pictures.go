package sheet

// Heights of the row of further photos, in millimetres.
const (
	rowLeast = 26
	rowMost  = 52
)

// morePictures sets up to three further photos in one row at the foot of the
// last page, where there is room to spare; a sheet is no album.
func (d *doc) morePictures() error {
	const between = 4.0
	if len(d.o.Pictures) < 2 {
		return nil
	}
	more := d.o.Pictures[1:min(len(d.o.Pictures), 4)]
	var wide float64 // of all at height 1
	for _, p := range more {
		if p.Width <= 0 || p.Height <= 0 {
			return nil
		}
		wide += float64(p.Width) / float64(p.Height)
	}
	full := d.w - d.left - d.right - between*float64(len(more)-1)
	h := min(full/wide, rowMost, d.heightLeft()-2*d.lineHeight())
	if h < rowLeast {
		return nil
	}
	captions := make([][]string, len(more))
	lines := 0
	for i, p := range more {
		captions[i] = d.wrap(small, p.Caption, h*float64(p.Width)/float64(p.Height))
		lines = max(lines, len(captions[i]))
	}
	text := float64(lines) * d.lineHeight()
	if h = min(h, d.heightLeft()-2*d.lineHeight()-text); h < rowLeast {
		return nil
	}
	x, top := d.left, d.h-d.bottom-h-text
	for i, p := range more {
		w := h * float64(p.Width) / float64(p.Height)
		if err := d.picture(p, x, top, w, h); err != nil {
			return err
		}
		under := d.element("P")
		for k, l := range captions[i] {
			d.tagged(under, func() { d.text(x, d.baseline(top+h+float64(k)*d.lineHeight()), small, l) })
		}
		x += w + between
	}
	return nil
}
